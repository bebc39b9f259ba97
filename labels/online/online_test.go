package online

import (
	"crypto/sha256"
	"encoding/base64"
	"encoding/json"
	"net/url"
	"slices"
	"strings"
	"testing"

	"golang.org/x/net/html"

	"chablon/labels/declare"
	"chablon/labels/diag"
	"chablon/labels/gs1"
	"chablon/labels/market"
	"chablon/labels/role"
	"chablon/labels/shop"
	"chablon/labels/unit"
	"chablon/labels/words"
	"chablon/samples"
)

// pageOf is the page of a product of the demo shop in some languages.
func pageOf(t *testing.T, id string, langs ...string) Page {
	t.Helper()
	var found diag.List
	sh := shop.Load(samples.Demo(), &found)
	q := sh.Products[id]
	m, _ := market.Get("eu")
	f := declare.Of(sh, q, &q.Packs[0], m, day(t, "2026-03-17"), &found)
	p := Page{Shop: sh.Profile.Name.V, Link: "https://label.example/01/09520001000041/10/L26076A", Batch: "L26076A"}
	for _, code := range langs {
		l, ok := words.Get(code)
		if !ok {
			t.Fatal(code)
		}
		p.Said = append(p.Said, Said{l, words.Tell(f, sh, l, &found), words.Contains(f, l, &found)})
	}
	if found.Errors() > 0 {
		t.Fatal(found.All())
	}
	return p
}

func day(t *testing.T, s string) unit.Date {
	d, err := unit.ParseDate(s)
	if err != nil {
		t.Fatal(err)
	}
	return d
}

func stop(code string) Stop {
	l, _ := words.Get(code)
	head, _ := l.Word("recall.head")
	return Stop{Lang: l, Head: head, Do: "Do not eat it.", Contact: "Questions: 1 Lane", Why: "Glass."}
}

func written(t *testing.T, p Page) string {
	t.Helper()
	var b strings.Builder
	if err := p.HTML(&b); err != nil {
		t.Fatal(err)
	}
	return b.String()
}

// brands are heads of pages.
var brands = map[string]*Brand{
	"drawn":    {Drawing: &Drawing{"M0 0L9 0L9 9Z", "9", "9"}, Written: []string{"Quoin", "& Crumb"}, Under: "Pastry", Divider: "stone"},
	"pixels":   {Picture: []byte("\x89PNG\r\n\x1a\n\"><script>"), Divider: "thin"},
	"wordless": {Drawing: &Drawing{"M0 0L9 0L9 9Z", "9", "9"}, Divider: "none"},
}

// demos are the pages that the checks below are held against.
func demos(t *testing.T) map[string]Page {
	out := map[string]Page{}
	for _, id := range []string{"pear-hazelnut-tartlet", "passion-caramel-bar", "rye-shortbread-tin", "pistachio-choux", "lemon-thyme-marshmallow", "bench-tin"} {
		out[id] = pageOf(t, id, "en", "fr", "de")
	}
	withdrawn := pageOf(t, "pistachio-choux", "fr", "en")
	withdrawn.Stop = []Stop{stop("fr"), stop("en")}
	out["withdrawn"] = withdrawn
	for name, b := range brands {
		p := pageOf(t, "pistachio-choux", "en", "fr")
		p.Brand = b
		out["with the look, "+name] = p
	}
	withdrawn.Brand = brands["drawn"]
	out["withdrawn"] = withdrawn
	unknown := Page{Shop: "S", Batch: "B", Link: withdrawn.Link, Stop: []Stop{stop("de")}}
	de, _ := words.Get("de")
	unknown.Gone = []Gone{{de, "Windbeutel"}}
	out["withdrawn, label unknown"] = unknown
	return out
}

// walk calls see for each element, with the language that it is in.
func walk(n *html.Node, lang string, see func(n *html.Node, lang string)) {
	if l := attr(n, "lang"); l != "" {
		lang = l
	}
	if n.Type == html.ElementNode || n.Type == html.TextNode {
		see(n, lang)
	}
	for c := n.FirstChild; c != nil; c = c.NextSibling {
		walk(c, lang, see)
	}
}

func attr(n *html.Node, key string) string {
	for _, a := range n.Attr {
		if a.Key == key {
			return a.Val
		}
	}
	return ""
}

func text(n *html.Node) string {
	var b strings.Builder
	walk(n, "", func(n *html.Node, _ string) {
		if n.Type == html.TextNode {
			b.WriteString(n.Data)
		}
	})
	return spaced(b.String())
}

// spaced is a text with single spaces.
func spaced(s string) string { return strings.Join(strings.Fields(s), " ") }

func all(n *html.Node, name string) (out []*html.Node) {
	walk(n, "", func(n *html.Node, _ string) {
		if n.Data == name && n.Type == html.ElementNode {
			out = append(out, n)
		}
	})
	return out
}

func parse(t *testing.T, s string) *html.Node {
	t.Helper()
	n, err := html.Parse(strings.NewReader(s))
	if err != nil {
		t.Fatal(err)
	}
	return n
}

// emblem reports whether a picture is the one in the head of the page, and holds
// its own bytes.
func emblem(n *html.Node) bool {
	return n.Data == "img" && n.Parent.Data == "header" && strings.HasPrefix(attr(n, "src"), "data:image/png;base64,")
}

// faults is what is wrong with a page: Web Content Accessibility Guidelines
// 2.2, the success criteria that a reader of the marks alone can judge; and
// what the page must not do at all.
func faults(t *testing.T, page string) (out []string) {
	t.Helper()
	say := func(what string, wrong bool) {
		if wrong {
			out = append(out, what)
		}
	}
	doc := parse(t, page)
	root := all(doc, "html")[0]
	say("3.1.1 language of page", attr(root, "lang") == "")
	say("2.4.2 page titled", len(all(doc, "title")) != 1 || text(all(doc, "title")[0]) == "")
	say("2.4.1 one main", len(all(doc, "main")) != 1)
	say("1.3.1 one h1", len(all(doc, "h1")) != 1)
	level, ids := 0, map[string]int{}
	walk(doc, "", func(n *html.Node, lang string) {
		if len(n.Data) == 2 && n.Type == html.ElementNode && n.Data[0] == 'h' && n.Data[1] >= '1' && n.Data[1] <= '6' {
			now := int(n.Data[1] - '0')
			say("1.3.1 heading leaps at "+text(n), now > level+1)
			say("2.4.6 empty heading", text(n) == "")
			level = now
		}
		if id := attr(n, "id"); id != "" {
			ids[id]++
		}
		say("script", n.Type == html.ElementNode && slices.Contains([]string{"script", "iframe", "object", "embed", "img", "form", "input", "base", "video", "audio"}, n.Data) && !emblem(n))
		say("more than a path in a drawing", n.Parent != nil && n.Parent.Data == "svg" && (n.Data != "path" || n.FirstChild != nil || len(n.Attr) != 1))
		say("1.1.1 drawing without words", n.Data == "svg" && attr(n, "aria-hidden") != "true" && attr(n, "aria-label") == "")
		for _, a := range n.Attr {
			say("handler "+a.Key, strings.HasPrefix(a.Key, "on"))
			say("style of an element", a.Key == "style")
			if a.Key == "href" || a.Key == "src" && !emblem(n) {
				u, err := url.Parse(a.Val)
				say("link "+a.Val+" is not relative", err != nil || u.Scheme != "" || u.Host != "" || strings.HasPrefix(a.Val, "/"))
			}
		}
	})
	for id, n := range ids {
		say("id "+id+" twice", n > 1)
	}
	for _, a := range all(doc, "a") {
		say("link to nowhere", ids[strings.TrimPrefix(attr(a, "href"), "#")] != 1)
		say("2.4.4 link without words", text(a) == "")
	}
	for _, s := range all(doc, "section") {
		say("3.1.2 language of a part", attr(s, "lang") == "")
		say("section without a name", ids[attr(s, "aria-labelledby")] != 1)
	}
	for _, table := range all(doc, "table") {
		say("table without caption", len(all(table, "caption")) != 1)
		heads := 0
		for _, th := range all(table, "th") {
			say("1.3.1 head without scope", attr(th, "scope") != "row" && attr(th, "scope") != "col")
			if attr(th, "scope") == "col" {
				heads++
			}
		}
		for _, tr := range all(all(table, "tbody")[0], "tr") {
			say("row without head", len(all(tr, "th")) != 1 || len(all(tr, "td")) != heads)
		}
	}
	style := all(doc, "style")
	say("one style", len(style) != 1)
	sum := sha256.Sum256([]byte(style[0].FirstChild.Data))
	policy := ""
	for _, m := range all(doc, "meta") {
		if attr(m, "http-equiv") == "Content-Security-Policy" {
			policy = attr(m, "content")
		}
	}
	say("pictures allowed where none is", strings.Contains(policy, "img-src") != (len(all(doc, "img")) > 0) || strings.Contains(policy, "script"))
	say("policy", !strings.Contains(policy, "default-src 'none'") || !strings.Contains(policy, "'sha256-"+base64.StdEncoding.EncodeToString(sum[:])+"'"))
	say("something from outside in the style", strings.Contains(style[0].FirstChild.Data, "url(") || strings.Contains(style[0].FirstChild.Data, "@import"))
	return out
}

func TestAccessible(t *testing.T) {
	for name, p := range demos(t) {
		for _, f := range faults(t, written(t, p)) {
			t.Errorf("%s: %s", name, f)
		}
	}
}

// Each check finds what it is for.
func TestFaultsAreFound(t *testing.T) {
	good := written(t, demos(t)["withdrawn"])
	for old, new := range map[string]string{
		`<html lang="fr">`:      `<html>`,
		"<main>":                "<div>",
		"</title>":              "</title><script>1</script>",
		`href="#fr"`:            `href="#xx"`,
		`href="linkset.json"`:   `href="https://elsewhere.example/linkset.json"`,
		`<section lang="en"`:    `<section`,
		"<h1>":                  "<h3>",
		` scope="row"`:          ``,
		"color-scheme":          "colour-scheme",
		"<caption>":             "<b>",
		"default-src 'none'":    "default-src *",
		`<p class="contains">`:  `<p onclick="x()">`,
		`<h2 id="fr-name">`:     `<h4 id="fr-name">`,
		`id="en" aria-labelled`: `id="fr" aria-labelled`,
	} {
		bad := strings.Replace(good, old, new, 1)
		if bad == good {
			t.Fatalf("%s is not there", old)
		}
		if len(faults(t, bad)) == 0 {
			t.Errorf("%s in place of %s is not found", new, old)
		}
	}
}

// Every particular of the label stands on the page in each language, the
// allergens first, in bold where the label has them bold (Reg. (EU) No 1169/2011
// Art. 9(1) and 21(1)(b)).
func TestSaysTheLabel(t *testing.T) {
	for name, p := range demos(t) {
		doc := parse(t, written(t, p))
		sections := all(doc, "section")
		if len(sections) != len(p.Said) {
			t.Fatalf("%s: %d sections", name, len(sections))
		}
		for i, s := range p.Said {
			got := text(sections[i])
			said := slices.Concat(s.Label.Lists, s.Label.Statements, []words.Said{s.Label.Name, s.Label.May, s.Label.Net.Said, s.Label.Date, s.Label.Keep, s.Label.Operator, s.Contains})
			for _, one := range said {
				if !strings.Contains(got, spaced(one.Text)) {
					t.Errorf("%s, %s: %s %q is missing", name, s.Lang.Code(), one.Role, one.Text)
				}
				for _, r := range one.Runs() {
					if r.Strong && !slices.ContainsFunc(all(sections[i], "strong"), func(n *html.Node) bool { return text(n) == r.Text }) {
						t.Errorf("%s, %s: %q is not strong", name, s.Lang.Code(), r.Text)
					}
				}
			}
			if s.Label.Table != nil {
				for _, row := range s.Label.Table.Rows {
					if !strings.Contains(got, spaced(row.Name+row.Cells[0])) {
						t.Errorf("%s, %s: %s is missing", name, s.Lang.Code(), row.Name)
					}
				}
			}
			if c, l := spaced(s.Contains.Text), spaced(s.Label.Lists[0].Text); c == "" || strings.Index(got, c) > strings.Index(got, l) {
				t.Errorf("%s, %s: the allergens do not stand first", name, s.Lang.Code())
			}
			if !strings.Contains(got, p.Batch) {
				t.Errorf("%s, %s: no batch", name, s.Lang.Code())
			}
		}
	}
}

// A batch that is withdrawn says so before anything else, in the title too.
func TestWithdrawnFirst(t *testing.T) {
	for _, name := range []string{"withdrawn", "withdrawn, label unknown"} {
		p := demos(t)[name]
		doc := parse(t, written(t, p))
		for what, n := range map[string]*html.Node{"title": all(doc, "title")[0], "page": all(doc, "main")[0]} {
			if !strings.HasPrefix(text(n), p.Stop[0].Head) {
				t.Errorf("%s: the %s begins with %.60q", name, what, text(n))
			}
		}
		body := text(all(doc, "main")[0])
		for _, s := range p.Stop {
			for _, w := range []string{s.Head, s.Do, s.Why, s.Contact} {
				if !strings.Contains(body, w) {
					t.Errorf("%s: %q is missing", name, w)
				}
			}
		}
	}
}

// TestHead: the shop stands before the words of the page, and nowhere on the
// page of a batch that is withdrawn; a page without a brand has no trace of one.
func TestHead(t *testing.T) {
	heads := map[string]string{"with the look, drawn": "Quoin& Crumb Pastry", "with the look, pixels": "", "with the look, wordless": ""}
	for name, p := range demos(t) {
		page := written(t, p)
		doc := parse(t, page)
		want, has := heads[name]
		if n := len(all(doc, "header")); has != (n == 1) || n > 1 || has != strings.Contains(page, brandStyle[:20]) {
			t.Errorf("%s: %d heads", name, n)
		}
		if has && (spaced(text(all(doc, "header")[0])) != want || strings.Index(page, "<header") > strings.Index(page, "<main")) {
			t.Errorf("%s: the head says %q", name, text(all(doc, "header")[0]))
		}
	}
}

// No name in a shop's files becomes a mark of the page.
func TestNothingIsMarkup(t *testing.T) {
	const evil = `"><script src=//x.example></script><a href='javascript:1'>&amp;`
	p := demos(t)["withdrawn"]
	l := *p.Said[0].Label
	said := words.Said{Role: role.Name, Text: evil, Strong: [][2]int{{0, len(evil)}}}
	l.Name, l.May, l.Operator, l.Lists, l.Statements = said, said, said, []words.Said{said}, []words.Said{said}
	p.Said[0].Label, p.Said[0].Contains = &l, said
	p.Batch, p.Shop, p.Mark = evil, evil, evil
	for name, b := range map[string]*Brand{"": nil, "look": {Drawing: &Drawing{evil, evil, evil}, Written: []string{evil, evil}, Under: evil, Divider: evil}} {
		q := p
		if q.Brand = b; b != nil {
			q.Stop = nil
		}
		if got := faults(t, written(t, q)); len(got) > 0 {
			t.Error(name, got)
		}
	}
	p.Stop[0].Why, p.Stop[0].Head, p.Stop[0].Do, p.Stop[0].Contact = evil, evil, evil, evil
	page := written(t, p)
	if got := faults(t, page); len(got) > 0 {
		t.Error(got)
	}
	if n := strings.Count(text(parse(t, page)), evil); n < 9 {
		t.Errorf("said %d times", n)
	}
}

// The set of links: RFC 9264 section 4.2 (a member "linkset" with one object
// for each anchor; targets with href, type, and hreflang as a list); the link
// types are terms of the GS1 Web Vocabulary, and a Digital Link has a default.
func TestLinkset(t *testing.T) {
	for name, p := range demos(t) {
		var b strings.Builder
		if err := p.Linkset(&b); err != nil {
			t.Fatal(err)
		}
		var got struct {
			Linkset []map[string]json.RawMessage `json:"linkset"`
		}
		if err := json.Unmarshal([]byte(b.String()), &got); err != nil || len(got.Linkset) != 1 {
			t.Fatal(err, b.String())
		}
		var anchor string
		if err := json.Unmarshal(got.Linkset[0]["anchor"], &anchor); err != nil {
			t.Fatal(err)
		}
		if els, err := gs1.ParseLink(anchor); err != nil || len(els) != 2 || els[1].Value != p.Batch && name != "withdrawn, label unknown" {
			t.Errorf("%s: anchor %s: %v %v", name, anchor, els, err)
		}
		kinds := 0
		for key, raw := range got.Linkset[0] {
			if key == "anchor" {
				continue
			}
			kinds++
			var to []target
			if err := json.Unmarshal(raw, &to); err != nil || len(to) != 1 {
				t.Fatal(err)
			}
			known := []string{"defaultLink", "pip", "ingredientsInfo", "allergenInfo", "nutritionalInfo", "recallStatus"}
			if !slices.Contains(known, strings.TrimPrefix(key, "https://ref.gs1.org/voc/")) {
				t.Errorf("%s: %s", name, key)
			}
			if to[0].Href != anchor+"/" || to[0].Type != "text/html" || len(to[0].Hreflang) == 0 || to[0].Title == "" {
				t.Errorf("%s: %+v", name, to[0])
			}
		}
		if _, ok := got.Linkset[0][vocabulary+"recallStatus"]; ok != (len(p.Stop) > 0) {
			t.Errorf("%s: recallStatus %v", name, ok)
		}
		if _, ok := got.Linkset[0][vocabulary+"defaultLink"]; !ok || kinds < 2 {
			t.Errorf("%s: %d link types", name, kinds)
		}
	}
}
