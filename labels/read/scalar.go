package read

import (
	"encoding"
	"errors"
	"fmt"
	"reflect"
	"slices"
	"strconv"
	"strings"
	"unicode/utf8"

	"golang.org/x/text/unicode/norm"
	"gopkg.in/yaml.v3"

	"chablon/labels/diag"
	"chablon/labels/unit"
)

// scalar reads one value into a diag.At.
func (d *decoder) scalar(n *yaml.Node, at reflect.Value, s slot) bool {
	if n.Kind != yaml.ScalarNode {
		hint := "write one value"
		if x := exampleOf(s.field); x != "" {
			hint = fmt.Sprintf("write one value, like %q", x)
		}
		if n.Kind == yaml.MappingNode && isText(at.Field(0).Type()) {
			hint = "put a text that holds a colon or a brace in quotes"
		}
		d.wrong(n, "kind", hint, "%s must be one value, but is %s", s.what, kindName(n))
		return false
	}
	text, ok := d.text(n, s)
	if !ok {
		return false
	}
	if s.one != nil && !slices.Contains(s.one, text) {
		d.wrong(n, "one-of", oneHint(text, s.one), "%s cannot be %q", s.what, clip(text))
		return false
	}
	if err := set(at.Field(0), text); err != nil {
		rule, msg, hint := explain(err)
		if s.like != "" && strings.HasPrefix(hint, "write it like ") {
			hint = fmt.Sprintf("write it like %q", s.like)
		}
		d.wrong(n, rule, hint, "%s", msg)
		return false
	}
	at.Field(1).Set(reflect.ValueOf(d.pos(n)))
	return true
}

// text gives the letters of a value: composed, without the line end of a
// block, fit for paper.
func (d *decoder) text(n *yaml.Node, s slot) (string, bool) {
	t := n.Value
	if n.Style&(yaml.LiteralStyle|yaml.FoldedStyle) != 0 {
		t = strings.TrimRight(t, "\n")
	}
	t = norm.NFC.String(t)
	switch {
	case strings.TrimSpace(t) == "":
		d.wrong(n, "empty", "write a value, or take the key out", "%s has no value", s.what)
		return "", false
	case utf8.RuneCountInString(t) > maxText:
		d.wrong(n, "too-large", "make it shorter", "%s is longer than %d characters", s.what, maxText)
		return "", false
	case strings.ContainsAny(t, "\n"):
		d.wrong(n, "line-break", `write it on one line, or begin it with ">" and leave no empty line in it`, "%s holds a line break", s.what)
		return "", false
	case !unit.Printable(t):
		d.wrong(n, "control-character", "write it again by hand", "%s holds a character that cannot be printed: %s", s.what, offender(t))
		return "", false
	case !d.visible(n, t):
		return "", false
	}
	d.hash(n)
	return t, true
}

// hash cautions where "#" with a space before it cut a text short.
func (d *decoder) hash(n *yaml.Node) {
	c := n.LineComment
	if n.Style != 0 || len(c) < 2 || c[1] == ' ' || c[1] == '#' || c[1] == '!' {
		return
	}
	d.found.Warnf(d.pos(n), "hash", `put the text in quotes, or a space after "#" if it is a note`,
		"%q is left out of the text %q", clip(c), clip(n.Value))
}

// offender names the first character that may not stand on paper.
func offender(s string) string {
	for _, r := range s {
		if !unit.Printable(string(r)) {
			return fmt.Sprintf("U+%04X", r)
		}
	}
	return "not UTF-8"
}

// set puts text into v by UnmarshalText, or as a string, bool or whole number.
func set(v reflect.Value, text string) error {
	if u, ok := v.Addr().Interface().(encoding.TextUnmarshaler); ok {
		return setBy(u, v, text)
	}
	switch v.Kind() {
	case reflect.String:
		v.SetString(text)
		return nil
	case reflect.Bool:
		yes, known := map[string]bool{"yes": true, "true": true, "no": false, "false": false}[text]
		if !known {
			return &unit.Error{Rule: "one-of", Msg: fmt.Sprintf("%q is neither yes nor no", clip(text)), Hint: "write yes or no"}
		}
		v.SetBool(yes)
		return nil
	}
	i, err := strconv.ParseInt(text, 10, v.Type().Bits())
	if err != nil || strings.HasPrefix(text, "+") {
		return &unit.Error{Rule: "number", Msg: fmt.Sprintf("%q is not a whole number", clip(text)), Hint: `write it like "3"`}
	}
	v.SetInt(i)
	return nil
}

// setBy calls UnmarshalText; a value that was half set is cleared again.
func setBy(u encoding.TextUnmarshaler, v reflect.Value, text string) error {
	err := u.UnmarshalText([]byte(text))
	if err != nil {
		v.SetZero()
	}
	return err
}

// explain splits an error of a value into rule, message and hint. Errors may
// bring these themselves by a method Finding, as those of labels/unit do.
func explain(err error) (rule, msg, hint string) {
	var f interface {
		Finding() (rule, msg, hint string)
	}
	if errors.As(err, &f) {
		return f.Finding()
	}
	msg = err.Error()
	if i := strings.LastIndex(msg, ": write "); i >= 0 {
		return "value", msg[:i], msg[i+2:]
	}
	return "value", msg, ""
}

func oneHint(text string, one []string) string {
	hint := "write one of: " + strings.Join(one, ", ")
	if meant := diag.Nearest(text, one); meant != "" {
		hint = fmt.Sprintf("did you mean %q? %s", meant, hint)
	}
	return hint
}

func isText(t reflect.Type) bool {
	return t.Kind() == reflect.String && !reflect.PointerTo(t).Implements(textType)
}
