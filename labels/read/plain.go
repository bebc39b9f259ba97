package read

import (
	"errors"
	"fmt"
	"io/fs"
	"regexp"
	"strconv"
	"strings"
	"unicode/utf8"

	"gopkg.in/yaml.v3"

	"chablon/labels/unit"
)

// errUnreadable stands for a panic of the YAML library.
var errUnreadable = errors.New("this cannot be read")

// maxPlain is how many findings plainBytes makes before it gives up on a file.
const maxPlain = 10

// plainBytes reports letters that may not stand in the file at all: broken
// UTF-8, control characters, tabs that indent. It is true when there are none.
func (d *decoder) plainBytes(data []byte) bool {
	s := strings.TrimPrefix(string(data), "\ufeff")
	if strings.Count(s, "\n") > d.most.lines {
		d.at(d.most.lines+1, 1, "too-large", "one formula, ingredient or product has a file of its own", "the file has more than %d lines", d.most.lines)
		return false
	}
	if strings.HasPrefix(s, "\xff\xfe") || strings.HasPrefix(s, "\xfe\xff") {
		d.at(1, 1, "encoding", "save the file as UTF-8", "this is UTF-16 text")
		return false
	}
	d.letters(s)
	return d.found.Len() == 0
}

// letters reports the first wrong letter of each line, up to maxPlain of them.
func (d *decoder) letters(s string) {
	line, col, indent, told := 1, 0, true, 0
	for i := 0; i < len(s) && d.found.Len() < maxPlain; {
		r, size := utf8.DecodeRuneInString(s[i:])
		col++
		if rule, hint, msg := wrongLetter(s[i:], r, size, indent); rule != "" && told != line {
			d.at(line, col, rule, hint, "%s", msg)
			told = line
		}
		if r == '\n' || r == '\r' && !strings.HasPrefix(s[i+1:], "\n") {
			line, col, indent = line+1, 0, true
		}
		indent = indent && (r == ' ' || col == 0)
		i += size
	}
}

// wrongLetter says what is wrong with the letter r that rest begins with.
func wrongLetter(rest string, r rune, size int, indent bool) (rule, hint, msg string) {
	switch {
	case r == utf8.RuneError && size == 1:
		return "encoding", "save the file as UTF-8", "this is not UTF-8 text"
	case r == '\t' && indent && !blank(rest):
		return "tab", "indent with spaces", "a tab cannot indent in YAML"
	case r == '\n' || r == '\r' || r == '\t' || unit.Printable(rest[:size]):
		return "", "", ""
	}
	return "control-character", "delete it", fmt.Sprintf("a character that cannot be printed: U+%04X", r)
}

// blank reports whether nothing but a note is left on the line.
func blank(s string) bool {
	rest := strings.TrimLeft(s, " \t")
	return rest == "" || strings.ContainsRune("\r\n#", rune(rest[0]))
}

// plainTree reports what plain files do without: anchors, aliases, merge keys,
// tags, too many or too deeply nested entries. It is false when the tree must
// not be read.
func (d *decoder) plainTree(root *yaml.Node) bool {
	left := d.most.nodes
	return d.walk(root, 1, &left)
}

func (d *decoder) walk(n *yaml.Node, depth int, left *int) bool {
	*left--
	switch {
	case *left < 0:
		d.wrong(n, "too-large", "one formula, ingredient or product has a file of its own", "the file has more than %d entries", d.most.nodes)
		return false
	case depth > maxDepth:
		d.wrong(n, "too-deep", "write it flatter", "more than %d levels inside one another", maxDepth)
		return false
	case n.Kind == yaml.AliasNode:
		d.wrong(n, "alias", "write the value itself", "the reference *%s is not followed", clip(n.Value))
	case n.Anchor != "":
		d.wrong(n, "alias", "take it out, and write the value wherever it is needed", "the anchor &%s is not used", clip(n.Anchor))
	case n.Style&yaml.TaggedStyle != 0:
		d.wrong(n, "tag", "take it out; put the value in quotes if it begins with an exclamation mark", "the tag %s is not used", clip(n.Tag))
	case isMerge(n):
		d.wrong(n, "alias", "write the keys themselves", "the key << is not used")
	}
	for i, c := range n.Content {
		if c.Kind == yaml.AliasNode && n.Kind == yaml.MappingNode && i%2 == 1 && isMerge(n.Content[i-1]) {
			continue // reported as a merge
		}
		if !d.walk(c, depth+1, left) {
			return false
		}
	}
	return true
}

func isMerge(n *yaml.Node) bool {
	return n.Kind == yaml.ScalarNode && n.Style == 0 && n.ShortTag() == "!!merge"
}

var syntaxError = regexp.MustCompile(`(?s)^(?:yaml: )?(?:line (\d+): )?(.*)$`)

// syntax reports an error of the YAML library, which names the line where it
// lost its way, or one line above it, or none.
func (d *decoder) syntax(err error) {
	m := syntaxError.FindStringSubmatch(err.Error())
	line, _ := strconv.Atoi(m[1])
	msg, hint := cookWords(m[2])
	d.at(max(line, 1), 1, "syntax", hint, "at this line or just below: %s", msg)
}

// cookWords turns the library's words for common slips into a cook's.
func cookWords(problem string) (msg, hint string) {
	for _, w := range [][3]string{
		{"mapping values are not allowed", "a colon where none can be", "put a text that holds a colon in quotes, and see that the line is indented like its neighbours"},
		{"did not find expected key", "the indentation does not fit", "begin keys that belong together in the same column"},
		{"did not find expected '-' indicator", "the indentation of a list does not fit", `begin each entry with "- " in the same column`},
		{"block sequence entries are not allowed", `"- " where no list can be`, "begin the list on the line below its key"},
		{"could not find expected ':'", "a key without a colon, or a text that goes on too far left", "write a colon and a space after the key; indent a long text"},
		{"found unexpected end of stream", "a quote that is not closed", "close the quote"},
		{"did not find expected ',' or ']'", "a list in [ ] that is not closed", "close it with ], put a comma between its entries, and see that no # cuts the line short"},
		{"did not find expected ',' or '}'", "keys in { } that are not closed", "close them with }, put a comma between them, and see that no # cuts the line short"},
		{"found character that cannot start any token", "a text that begins with a sign that means something to YAML", "put the text in quotes"},
		{"did not find expected alphabetic or numeric character", "a text that begins with & or *", "put the text in quotes"},
		{"unknown anchor", "a text that begins with *", "put the text in quotes"},
		{"unknown escape character", "a backslash inside double quotes", "use single quotes, or write two backslashes"},
		{"exceeded max depth", "too many levels inside one another", "write it flatter"},
	} {
		if strings.Contains(problem, w[0]) {
			return w[1], w[2]
		}
	}
	return problem, "see that quotes, brackets and indentation are right"
}

// reason is the plain cause of a file error.
func reason(err error) string {
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return "it is not there"
	case errors.Is(err, fs.ErrPermission):
		return "it may not be opened"
	case errors.Is(err, fs.ErrInvalid):
		return "its name is not a path inside the folder"
	}
	var p *fs.PathError
	if errors.As(err, &p) {
		err = p.Err
	}
	return fmt.Sprint(err)
}
