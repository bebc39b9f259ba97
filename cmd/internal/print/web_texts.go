package print

import "chablon/labels/words"

func webText(t *words.Label, l *words.Lang) webTexts {
	out := webTexts{Language: l.Code(), Name: t.Name.Text, Net: t.Net.Text, Date: t.Date.Text, Keep: t.Keep.Text, Use: t.Use.Text,
		Operator: t.Operator.Text, Lists: []webSaid{}, Statements: []string{}}
	for _, s := range t.Lists {
		out.Lists = append(out.Lists, runs(s))
	}
	if t.May.Text != "" {
		may := runs(t.May)
		out.May = &may
	}
	for _, s := range t.Statements {
		out.Statements = append(out.Statements, s.Text)
	}
	if t.Table != nil {
		out.Nutrition = webTable(t.Table)
	}
	return out
}

// webTable is a nutrition declaration; heads and cells are there where it has
// more than one column.
func webTable(t *words.Table) *webTabled {
	out := &webTabled{Heading: t.Heading, Per: t.Per, Portions: t.Portions, Rows: []webTabRow{}, Reference: t.ReferenceOf}
	for _, r := range t.Rows {
		one := webTabRow{Name: r.Name, Value: r.Value, Part: r.Sub}
		if len(t.Heads) > 1 {
			one.Cells = r.Cells
		}
		out.Rows = append(out.Rows, one)
	}
	if len(t.Heads) > 1 {
		out.Heads = t.Heads
	}
	return out
}

func runs(s words.Said) webSaid {
	out := webSaid{Role: string(s.Role), Text: s.Text, Runs: []webRun{}}
	for _, r := range s.Runs() {
		out.Runs = append(out.Runs, webRun{r.Text, r.Strong})
	}
	return out
}
