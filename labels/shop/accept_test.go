package shop_test

import (
	"strings"
	"testing"

	"chablon/labels/diag"
	"chablon/labels/market"
	"chablon/labels/shop"
	"chablon/labels/unit"
)

// signedFor is a profile with one signature for rows of Great Britain.
func signedFor(t *testing.T, text string) (*shop.Shop, []string) {
	t.Helper()
	in := small(t)
	in[profile].Data = append(in[profile].Data, text...)
	var found diag.List
	s := shop.Load(in, &found)
	var said []string
	for _, d := range found.All() {
		if d.Rule == "accept-unread" {
			said = append(said, d.Msg)
		}
	}
	return s, said
}

// A signature covers the rows that it names, from its day, for a year at most.
func TestAccepts(t *testing.T) {
	gb, _ := market.Get("gb")
	row, other := gb.UnreadPlaces()[0], gb.UnreadPlaces()[1]
	s, said := signedFor(t, "\naccept-unread:\n  - {market: GB, rows: ["+row.Mark()+"], by: Ilo, on: 2026-03-17}\n")
	if len(said) > 0 {
		t.Error(said)
	}
	changed := row
	changed.Article += " as amended"
	for _, c := range []struct {
		what string
		row  market.Place
		day  string
		want bool
	}{
		{"on its day", row, "2026-03-17", true},
		{"a year later", row, "2027-03-17", true},
		{"before it", row, "2026-03-16", false},
		{"after a year", row, "2027-03-18", false},
		{"another row", other, "2026-03-17", false},
		{"the row as it was changed later", changed, "2026-03-17", false},
	} {
		if _, ok := s.Profile.Accepts(c.row, day(t, c.day)); ok != c.want {
			t.Errorf("%s: %v", c.what, ok)
		}
	}
	s, _ = signedFor(t, "\naccept-unread:\n  - {market: gb, rows: ["+row.Mark()+"], by: Ilo, on: 2026-03-17, until: 2029-01-01}\n")
	if got := s.Profile.AcceptUnread[0].Last(); got != (unit.Date{Year: 2027, Month: 3, Day: 17}) {
		t.Errorf("it counts until %s: the law is read again every year", got)
	}
}

func TestAcceptFaults(t *testing.T) {
	for text, want := range map[string]string{
		"{market: FR, rows: [], by: Ilo, on: 2026-03-17}":                    `there is no market "FR"`,
		"{market: GB, rows: [batch-AAAAAAAA], by: Ilo, on: 2026-03-17}":      `no row that is unread in GB is called "batch-AAAAAAAA"`,
		"{market: GB, rows: [], by: Ilo, on: 2026-03-17, until: 2026-03-16}": "before it was given",
		"{market: EU, rows: [net-AAAAAAAA], by: Ilo, on: 2026-03-17}":        "no row that is unread in EU",
	} {
		if _, said := signedFor(t, "\naccept-unread:\n  - "+text+"\n"); !strings.Contains(strings.Join(said, "\n"), want) {
			t.Errorf("%s: %v", text, said)
		}
	}
}

// What a copy of a shop does not take over is that block, and no other line.
func TestWithoutSignatures(t *testing.T) {
	const before, after = "# a shop\nname: Tart\n", "# more\nmarkets:\n  - EU\n"
	for _, block := range []string{"", "accept-unread: []\n", "accept-unread:\n- {market: GB, rows: [a]}\n", "accept-unread:\n  - market: GB\n\n    by: Ilo\n"} {
		if got := string(shop.WithoutSignatures([]byte(before + block + after))); got != before+after {
			t.Errorf("%q left\n%s", block, got)
		}
	}
}
