package printer

import (
	"fmt"
	"slices"
	"strings"

	"chablon/labels/unit"
)

// Need is what paper asks of a printer, as the shop's files say it.
type Need struct {
	DPI   int // as the protocol knows dots: whole ones an inch
	Greys bool
	W, H  unit.Length
	Sends string // "raster", "pdf", or "" for the best that it takes
}

// Way is how pages go to a printer.
type Way struct {
	Format   string
	Bytes    bool // Raster with a byte for each dot
	Unscaled bool // it can be told not to scale
}

// Fit holds what paper asks against what a printer says of itself. What differs
// is told, and then nothing may be sent.
func (s Said) Fit(n Need) (w Way, wrong []string) {
	w.Unscaled = slices.Contains(s.Scaling, "none")
	if !s.Accepts {
		wrong = append(wrong, "it takes no jobs now"+why(s.Reasons))
	}
	wrong = append(wrong, s.paper(n)...)
	all := slices.Concat(s.DPI, s.RasterDPI)
	if len(all) > 0 && !slices.Contains(all, n.DPI) {
		return w, append(wrong, fmt.Sprintf("it prints %s dots an inch, and shop.yaml gives it %d", numbers(all), n.DPI))
	}
	switch {
	case n.Sends != "pdf" && s.rasters(n.DPI):
		w.Format = Raster
		w.Bytes = n.Greys || !slices.Contains(s.Types, "black_1")
	case n.Sends != "raster" && slices.Contains(s.Formats, PDF):
		w.Format = PDF
	default:
		wrong = append(wrong, "it takes neither PWG Raster at "+fmt.Sprint(n.DPI)+" dots an inch nor PDF as shop.yaml asks; it takes "+strings.Join(some(s.Formats), ", "))
	}
	return w, wrong
}

// rasters reports whether it takes bitmaps of our dots.
func (s Said) rasters(dpi int) bool {
	return slices.Contains(s.Formats, Raster) && slices.Contains(s.RasterDPI, dpi) &&
		(slices.Contains(s.Types, "black_1") || slices.Contains(s.Types, "sgray_8"))
}

// paper finds a wrong roll: what is loaded, where the printer says it, or else
// what it may be loaded with.
func (s Said) paper(n Need) []string {
	holds := func(z Size) bool { return z.Holds(n.W, n.H) }
	want := Size{W: n.W, H: n.H}
	switch {
	case len(s.Ready) > 0 && !slices.ContainsFunc(s.Ready, holds):
		return []string{fmt.Sprintf("it is loaded with %s, and this paper is %v", sizesOf(s.Ready), want)}
	case len(s.Ready) == 0 && len(s.Sizes) > 0 && !slices.ContainsFunc(s.Sizes, holds):
		return []string{fmt.Sprintf("it takes no paper of %v", want)}
	}
	return nil
}

func why(reasons []string) string {
	if len(reasons) == 0 {
		return ""
	}
	return ": " + strings.Join(reasons, ", ")
}

func sizesOf(all []Size) string {
	var out []string
	for _, s := range all {
		if !slices.Contains(out, s.String()) {
			out = append(out, s.String())
		}
	}
	return strings.Join(some(out), ", ")
}

func numbers(all []int) string {
	var out []string
	for _, n := range slices.Compact(slices.Sorted(slices.Values(all))) {
		out = append(out, fmt.Sprint(n))
	}
	return strings.Join(some(out), ", ")
}

// some are the first of many words.
func some(all []string) []string {
	if len(all) > 6 {
		return append(all[:6:6], "and others")
	}
	if len(all) == 0 {
		return []string{"nothing that it names"}
	}
	return all
}
