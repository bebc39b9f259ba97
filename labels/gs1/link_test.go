package gs1

import (
	"slices"
	"strings"
	"testing"
)

// From the GS1 Syntax Engine (src/c-lib/dl.c, test_dl_generateDLuri), but for
// the last two, which follow from the rules of the GS1 Digital Link standard.
func TestLink(t *testing.T) {
	const ex = "https://example.com"
	tests := []struct{ stem, in, want string }{
		{"", "(01)12312312312326(21)abc123", "https://id.gs1.org/01/12312312312326/21/abc123"},
		{ex, "(01)12312312312326(21)abc123", ex + "/01/12312312312326/21/abc123"},
		{ex, "(01)12312312312326(22)ABC(10)DEF(21)GHI", ex + "/01/12312312312326/22/ABC/10/DEF/21/GHI"},
		{ex, "(01)12312312312326(22)ABC(10)DEF(21)GHI(95)INT", ex + "/01/12312312312326/22/ABC/10/DEF/21/GHI?95=INT"},
		{ex, "(21)XYZ(01)12312312312333(10)ABC123(99)XYZ", ex + "/01/12312312312333/10/ABC123/21/XYZ?99=XYZ"},
		{ex, "(01)12312312312333(10)ABC+123(99)XYZ+QWERTY", ex + "/01/12312312312333/10/ABC%2B123?99=XYZ%2BQWERTY"},
		{ex, "(8017)795260646688514634(99)000001(253)9526064000028000001", ex + "/8017/795260646688514634?99=000001&253=9526064000028000001"},
		{ex, "(253)9526064000028000001(99)000001(01)12312312312326(10)DEF(95)INT", ex + "/253/9526064000028000001?99=000001&01=12312312312326&10=DEF&95=INT"},
		{ex, "(01)12312312312326(01)12312312312326(10)ABC123(99)XYZ789", ex + "/01/12312312312326/10/ABC123?99=XYZ789"},
		{ex, "(01)12312312312326(10)ABC123(10)ABC123(99)XYZ789", ex + "/01/12312312312326/10/ABC123?99=XYZ789"},
		{"https://a", "(00)006141411234567890", "https://a/00/006141411234567890"},
		{"https://a/", "(00)006141411234567890", "https://a/00/006141411234567890"},
		{"HTTPS://example.com/some/path", "(01)12312312312326", "HTTPS://example.com/some/path/01/12312312312326"},
		{"", "(01)09506000134352(10)L123(15)261231", "https://id.gs1.org/01/09506000134352/10/L123?15=261231"},
	}
	for _, tt := range tests {
		els := bracketed(t, tt.in)
		got, err := Link(tt.stem, els)
		if err != nil || got != tt.want {
			t.Errorf("%s = %s, %v; want %s", tt.in, got, err, tt.want)
			continue
		}
		back, err := ParseLink(got)
		if err != nil || len(back) == 0 {
			t.Errorf("ParseLink(%s): %v", got, err)
		}
		for _, e := range els {
			if !slices.Contains(back, e) {
				t.Errorf("ParseLink(%s) lost %v", got, e)
			}
		}
	}
}

func TestLinkRefuses(t *testing.T) {
	tests := []struct {
		stem string
		els  []Element
		want string
	}{
		// Syntax Engine, dl.c.
		{"https://example.com", []Element{{"01", "12312312312326"}, {"99", "000001"}, {"8200", "http://example.com"}}, "(8200) PRODUCT URL may not stand"},
		{"https://example.com", []Element{{"01", "12312312312326"}, {"235", "TPX9526064"}, {"22", "ABC"}}, "may not stand"},
		{"https://example.com", []Element{{"01", "12312312312326"}, {"22", "ABC"}, {"10", "DEF"}, {"235", "TPX9526064"}}, "(235)"},
		{"https://example.com", []Element{{"99", "XYZ789"}}, "can begin with"},
		{"https://a", []Element{{"01", "02345673"}}, "too short"},
		{"HtTp://example.com", []Element{{"01", "12312312312326"}}, "beginning of a web address"},
		{"ftp://example.com", []Element{{"01", "12312312312326"}}, "beginning of a web address"},
		{"https://", []Element{{"01", "12312312312326"}}, "no domain"},
		{"https://example.com?x=1", []Element{{"01", "12312312312326"}}, `has '?'`},
		{"https://exämple.com", []Element{{"01", "12312312312326"}}, "cannot stand"},
		{"", []Element{{"01", "12312312312326"}, {"10", "A"}, {"10", "B"}}, "given twice"},
		{"", []Element{{"01", "12312312312326"}, {"10", ".."}}, "would drop it"}, // RFC 3986 section 5.2.4
		{"", nil, "can begin with"},
	}
	for _, tt := range tests {
		if got, err := Link(tt.stem, tt.els); err == nil || !strings.Contains(err.Error(), tt.want) {
			t.Errorf("Link(%q, %v) = %s, %v; want %q in the error", tt.stem, tt.els, got, err, tt.want)
		}
	}
}

// The order of qualifiers is that of the Syntax Dictionary's example of
// dlpkey=22,10,21|235; the rest from the Syntax Engine (dl.c).
func TestParseLink(t *testing.T) {
	tests := []struct{ in, want string }{
		{"https://a/01/12312312312333/22/ABC/10/DEF/21/GHI", "(01)12312312312333(22)ABC(10)DEF(21)GHI"},
		{"https://a/01/12312312312333/22/ABC/21/GHI", "(01)12312312312333(22)ABC(21)GHI"},
		{"https://a/01/12312312312333/235/TPX", "(01)12312312312333(235)TPX"},
		{"https://a/stem/01/12312312312333/10/ABC%2B123?99=XYZ%2BQWERTY", "(01)12312312312333(10)ABC+123(99)XYZ+QWERTY"},
		{"https://a/00/006141411234567890#top", "(00)006141411234567890"},
		{"https://a/01/12312312312333?linkType=all&99=A;15=261200", "(01)12312312312333(99)A(15)261200"},
		{"https://a/01/12312312312333/10/ABC/22/DEF", ""},
		{"https://a/01/12312312312333/22/ABC/235/TPX", ""},
		{"https://a/01/12312312312333/10/A/10/A", ""},
		{"https://a/01/02345673", ""}, {"https://a/01/12312312312334", ""},
		{"HtTp://a/01/12312312312333", ""}, {"https:///01/12312312312333", ""}, {"a/01/12312312312333", ""}, {"", ""},
		{"https://a/10/ABC", ""}, {"https://a/01", ""}, {"https://a/01/12312312312333/10/%4", ""}, {"https://a/01/12312312312333?99=%zz", ""},
		{"https://a/01/12312312312333/10/A%20B", ""}, {"https://a/01/12312312312333?89=A", ""},
	}
	for _, tt := range tests {
		els, err := ParseLink(tt.in)
		if (err == nil) != (tt.want != "") || err == nil && HRI(els) != tt.want {
			t.Errorf("%s = %s, %v; want %q", tt.in, HRI(els), err, tt.want)
		}
	}
}
