package print

import (
	"fmt"
	"slices"
	"strings"

	"chablon/labels/words"
)

// fileName is the name of the file of some jobs, without its ending: what it
// is, of what, and all that tells it from another paper. What is as usual goes
// without saying; what is not stands behind an underscore, so that it cannot be
// taken for a part of the id: cartons-bench-tin_gb-L26076A.
func fileName(jobs []*Job) string {
	j := jobs[0]
	name := j.Kind.File
	if slices.ContainsFunc(jobs, func(j *Job) bool { return j.Draft }) {
		name = "draft-" + name
	}
	switch {
	case len(jobs) > 1:
		name += "s" + together(jobs)
	case j.ID != "":
		name += "-" + j.ID
	}
	for _, q := range j.unusual() {
		name += "_" + word(q)
	}
	var tells []string
	if j.Kind.Tells != nil {
		tells = j.Kind.Tells(j)
	}
	if j.Kind.Bears == ItsBatch {
		tells = append(tells, coded(j.Batch))
	}
	if !j.Kind.ofID() {
		tells = append(tells, j.Today.String())
	}
	return strings.Join(append([]string{name}, tells...), "-")
}

// together is what the file of several products is called: by them, where the
// name does not become too long, or else by the day.
func together(jobs []*Job) string {
	var ids []string
	for _, j := range jobs {
		ids = append(ids, j.ID)
	}
	if all := strings.Join(ids, "+"); len(all) <= 100 && jobs[0].Request.run == nil {
		return "-" + all
	}
	return "-" + jobs[0].Today.String()
}

// unusual lists what a job has been asked for that is not the usual: pack,
// market, languages, paper.
func (j *Job) unusual() (out []string) {
	if j.Pack != nil && j.Pack.ID.V != j.Kind.packs(j.Product)[0] {
		out = append(out, j.Pack.ID.V)
	}
	if usual, err := j.market(""); j.Market != nil && err == nil && j.Market.Code != usual.Code {
		out = append(out, j.Market.Code)
	}
	if langs := strings.Join(langCodes(j.Langs), "+"); langs != strings.Join(j.usualLanguages(), "+") {
		out = append(out, langs)
	}
	if j.Kind.Form == "" && j.Request.run == nil && j.Stock.ID != j.usualPaper() {
		out = append(out, j.Stock.ID)
	}
	return out
}

func langCodes(langs []*words.Lang) (out []string) {
	for _, l := range langs {
		out = append(out, l.Code())
	}
	return out
}

// coded is a batch code as a part of a file's name, so that two codes that
// differ, if only in their capitals, give names that differ on every disk, and
// no code runs into the id before it: capitals, digits and points stay, a
// hyphen becomes an underscore, a small letter has = before it, and for all
// else there is its number in hexadecimal.
func coded(code string) string {
	var b strings.Builder
	for _, c := range []byte(code) {
		switch {
		case c >= 'A' && c <= 'Z', c >= '0' && c <= '9', c == '.':
			b.WriteByte(c)
		case c == '-':
			b.WriteByte('_')
		case c >= 'a' && c <= 'z':
			b.WriteString("=" + string(c))
		default:
			fmt.Fprintf(&b, "=%02X", c)
		}
	}
	return b.String()
}

// word is a word of the shop's files as a part of a file's name: one that is
// like an id stays as it is.
func word(s string) string {
	if strings.Trim(s, "abcdefghijklmnopqrstuvwxyz0123456789+-") == "" {
		return s
	}
	return coded(s)
}
