package cli

import (
	"encoding"
	"errors"
	"fmt"
	"reflect"
	"strings"

	"github.com/spf13/pflag"

	"chablon/cmd/internal/print"
	"chablon/labels/unit"
)

// bind makes a flag of every tagged field of the struct that ptr points to, as
// keys are made of the fields of the shop's structs: flag is its name, help what
// it is, is the word for its value, of what the shell completes it with. With a
// kind, only the flags that it takes.
func bind(flags *pflag.FlagSet, ptr any, k *print.Kind) {
	v := reflect.ValueOf(ptr).Elem()
	for i := range v.NumField() {
		tag := v.Type().Field(i).Tag
		name, help := tag.Get("flag"), tag.Get("help")
		if name == "" || k != nil && !k.Takes(name) {
			continue
		}
		if k != nil && help == "" {
			help = k.Help(name)
		}
		if k != nil && k.Langs == 1 && name == "languages" {
			name = "language"
		}
		add(flags, v.Field(i).Addr().Interface(), name, help, tag.Get("is"))
		if of := tag.Get("of"); of != "" {
			_ = flags.SetAnnotation(name, completes, []string{of})
		}
	}
}

// completes is the annotation of a flag that the shell completes.
const completes = "completes"

// add makes one flag, by the type of the field.
func add(flags *pflag.FlagSet, to any, name, help, is string) {
	switch to := to.(type) {
	case *string:
		flags.StringVar(to, name, *to, help)
	case *bool:
		flags.BoolVar(to, name, *to, help)
	case *[]string:
		flags.StringSliceVar(to, name, nil, help)
	case *[]int:
		flags.IntSliceVar(to, name, nil, help)
	case *[]int64:
		flags.Int64SliceVar(to, name, nil, help)
	case *[]unit.Count:
		flags.Var(list{to}, name, help)
	case encoding.TextUnmarshaler:
		flags.Var(value{to, is}, name, help)
	default:
		panic(fmt.Sprintf("no flag can be made of %T", to)) // a field of our own, met in every test
	}
}

// value is a flag that is read as the shop's files are: with its unit.
type value struct {
	to   encoding.TextUnmarshaler
	kind string
}

// textFlag makes a flag of anything that reads itself from text.
func textFlag(to encoding.TextUnmarshaler, kind string) value { return value{to, kind} }

// Set reads the flag.
func (v value) Set(s string) error {
	if err := v.to.UnmarshalText([]byte(s)); err != nil {
		return err
	}
	if n, ok := v.to.(*unit.Count); ok && *n == 0 {
		return errors.New("nothing can be counted from 0: write 1 or more, or leave it out")
	}
	return nil
}

// String is the value for the help text: nothing, as no such flag has a default.
func (v value) String() string { return "" }

// Type is the word for the value in the help text.
func (v value) Type() string {
	if v.kind == "" {
		return "text"
	}
	return v.kind
}

// list is a flag of numbers with commas between them.
type list struct{ to *[]unit.Count }

// Set reads the flag.
func (l list) Set(s string) error {
	*l.to = nil
	for part := range strings.SplitSeq(s, ",") {
		n, err := unit.ParseCount(strings.TrimSpace(part))
		if err != nil {
			return err
		}
		*l.to = append(*l.to, n)
	}
	return nil
}

// String is the value for the help text.
func (l list) String() string { return "" }

// Type is the word for the value in the help text.
func (l list) Type() string { return "numbers" }
