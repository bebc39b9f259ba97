package runsheet

import (
	"slices"
	"strings"

	"chablon/labels/market"
	"chablon/labels/unit"
	"chablon/layout/flow"
	"chablon/layout/page"
	"chablon/layout/text"
)

// figures sets, for every market of the day, the places in the law that were
// written from memory, for somebody to read there.
func (c *composer) figures(w unit.Length) ([]flow.Block, error) {
	var out []flow.Block
	for _, m := range c.markets() {
		places := m.Unread()
		if len(places) == 0 {
			continue
		}
		q := text.Para{Role: page.Note, Src: c.Shop.Profile.Pos, Spans: []text.Span{
			{Text: c.fill("sheet.figures", map[string]string{"market": strings.ToUpper(m.Code)}), Bold: true},
			{Text: "\n" + byAct(places)}}}
		b, err := c.pen().Block(w, func(p *flow.Pen, r page.Rect) (unit.Length, error) {
			return p.Para(r, q, flow.Style{Size: c.small})
		})
		if err != nil {
			return nil, err
		}
		out = append(out, b)
	}
	return out, nil
}

// markets gives the markets of the day's labels, each once.
func (c *composer) markets() []*market.Market {
	var all []*market.Market
	for _, r := range c.Runs {
		if !slices.ContainsFunc(all, func(m *market.Market) bool { return m.Code == r.Facts.Market.Code }) {
			all = append(all, r.Facts.Market)
		}
	}
	return all
}

// byAct names each act once, with its articles behind it.
func byAct(places []market.Cite) string {
	var acts []string
	articles := map[string][]string{}
	for _, p := range places {
		if articles[p.Act] == nil {
			acts = append(acts, p.Act)
		}
		articles[p.Act] = append(articles[p.Act], p.Article)
	}
	for i, a := range acts {
		acts[i] = a + ": " + strings.Join(articles[a], "; ")
	}
	return strings.Join(acts, ". ") + "."
}
