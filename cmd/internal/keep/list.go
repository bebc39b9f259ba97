package keep

import (
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"io/fs"
	"path/filepath"
	"slices"
	"strings"

	"chablon/labels/shop"
)

// listFile names what belongs together in a folder of paper. It is written
// last. Its lines are those of sha256sum (GNU coreutils), so that
// "sha256sum -c papers.sha256" checks the folder without this program.
const listFile = shop.PapersFile

const listHead = `# Written last, when all of it was on the disk. A file that is not named here,
# or that reads otherwise (sha256sum -c ` + listFile + `), is no part of this paper.
`

// notFinished stands in the list while files get their names.
const notFinished = "# NOT FINISHED: give the command again before you print from this folder."

// setHead begins the heading of a set in the list.
const setHead = "# all of: "

// entry is one file of a folder: the bytes it had when it was written, and the
// request that it is of.
type entry struct {
	name, sum string
	set       string
}

// list is what a folder holds of ours.
type list struct {
	entries  []entry
	finished bool
	data     []byte // as it was read; nil when there was none
}

// readList reads the list of a folder; an empty one where there is none. A
// line that is no entry is passed over: it gives no right to take a file away.
func readList(disk Disk, dir string) list {
	data, err := disk.ReadFile(filepath.Join(dir, listFile))
	if err != nil {
		return list{finished: true}
	}
	out, set := list{finished: true, data: data}, ""
	for line := range strings.Lines(string(data)) {
		line = strings.TrimRight(line, "\r\n")
		if line == notFinished {
			out.finished = false
		}
		if s, ok := strings.CutPrefix(line, setHead); ok {
			set = s
		}
		sum, name, ok := strings.Cut(line, "  ")
		if raw, err := hex.DecodeString(sum); ok && err == nil && len(raw) == sha256.Size && plain(name) {
			out.entries = append(out.entries, entry{name, sum, set})
		}
	}
	return out
}

// text writes the list, set by set.
func (l list) text() string {
	var b strings.Builder
	b.WriteString(listHead)
	if !l.finished {
		b.WriteString(notFinished + "\n")
	}
	all := slices.Clone(l.entries)
	slices.SortStableFunc(all, func(a, b entry) int {
		return strings.Compare(a.set+"\x00"+a.name, b.set+"\x00"+b.name)
	})
	for i, e := range all {
		if i == 0 || all[i-1].set != e.set {
			b.WriteString(setHead + e.set + "\n")
		}
		fmt.Fprintf(&b, "%s  %s\n", e.sum, e.name)
	}
	return b.String()
}

// sumOf is the SHA-256 of some bytes as hex digits.
func sumOf(data []byte) string {
	sum := sha256.Sum256(data)
	return hex.EncodeToString(sum[:])
}

// plain reports whether a name is that of a file in the folder itself, one that
// can be seen.
func plain(name string) bool {
	return name == filepath.Base(name) && fs.ValidPath(name) && !strings.HasPrefix(name, ".") &&
		!strings.ContainsFunc(name, func(r rune) bool { return r < ' ' || r == '\\' || r == 0x7f })
}

// runOf gives the name of the run that a file is of, one of its parts or the
// only one: NAME of NAME.pdf, NAME-part-NN.pdf, NAME.svg and NAME-page-NN.svg.
func runOf(file string) (run string, part bool) {
	name := strings.TrimSuffix(file, filepath.Ext(file))
	for _, word := range []string{"-part-", "-page-"} {
		i := strings.LastIndex(name, word)
		if i < 1 {
			continue
		}
		if n := name[i+len(word):]; len(n) >= 2 && len(n) <= 4 && strings.Trim(n, "0123456789") == "" {
			return name[:i], true
		}
	}
	return name, false
}
