package withdraw

import (
	"slices"
	"strconv"
	"strings"

	"chablon/labels/register"
	"chablon/labels/words"
	"chablon/layout/compose"
)

// sheet is what the sheet says.
type sheet struct {
	title, do, report string
	shop, day         string
	page              func(n, of int) string
	heads             []string
	rows              []row
	sign              []string // what is to be written at the end
}

// row is one copy, in five columns.
type row [5]twice

// twice is large words, and small ones under them.
type twice struct{ large, under string }

// content says the sheet, its rows in the order of the walk.
func content(t *compose.Teller, s Sheet) sheet {
	out := sheet{title: compose.Capital(t.Word("withdraw.title")), do: t.Word("withdraw.do"), report: t.Word("withdraw.report"),
		shop: s.Shop, day: t.Lang().Date(s.Day, words.Long), page: t.Page,
		heads: t.Words("withdraw.down", "withdraw.missing", "withdraw.number", "withdraw.place", "withdraw.card", "withdraw.hangs", "withdraw.current"),
		sign:  t.Words("withdraw.by", "sheet.day", "sheet.time", "sheet.signature")}
	entries := slices.Clone(s.Entries)
	slices.SortStableFunc(entries, func(a, b Entry) int { return register.CompareCopies(a.Copy, b.Copy) })
	for _, e := range entries {
		now := twice{large: t.Word("withdraw.gone")}
		if !e.Gone {
			now = twice{e.Now.CheckWord, version(t, e.Now.Version)}
		}
		out.rows = append(out.rows, row{{large: strconv.FormatInt(e.Copy.Number, 10)}, {large: e.Copy.Place}, {e.Name, about(t, e.Copy)},
			{e.Copy.CheckWord, version(t, e.Copy.Version)}, now})
	}
	return out
}

// version is a version as the sheet says it.
func version(t *compose.Teller, v string) string {
	return t.Fill("withdraw.version", map[string]string{"v": v})
}

// about says which of the copies of a card is meant.
func about(t *compose.Teller, c register.Copy) string {
	copies := t.Fill("card.copy", map[string]string{"n": t.Plain(int64(c.N)), "m": t.Plain(int64(c.Of))})
	parts := []string{c.Size, copies, c.Paper, strings.Join(c.Langs, ","+compose.NoBreak)}
	return strings.Join(slices.DeleteFunc(parts, func(s string) bool { return s == "" }), " · ")
}
