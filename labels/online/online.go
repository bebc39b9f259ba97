// Package online answers: how does a buyer read the label by phone?
//
// A [Page] is what the link in a batch mark leads to: the label of one batch,
// in every language that the shop's words reach, allergens first, for a buyer
// who reads another language, or sees badly. It is one HTML document that needs
// nothing else: no script, nothing from outside, nothing that follows a buyer;
// a policy in its head makes a browser hold it to that. Its words are those of
// the label, [words.Label], and none besides; the marks in them are from
// html/template, so that no name in a shop's files can become a mark.
//
// It is made to Web Content Accessibility Guidelines 2.2, level AA: the language
// of the page and of each part of it is named (3.1.1, 3.1.2), headings and the
// heads of tables are marked as such (1.3.1), colours are the reader's own
// (1.4.3), nothing is set smaller than the reader's letters, and no line is
// wider than the screen (1.4.10).
//
// [Page.Linkset] says the same to a program (RFC 9264; the link types are those
// of the GS1 Web Vocabulary).
package online

import (
	"slices"

	"chablon/labels/words"
)

// Page is the page of one batch of one pack.
type Page struct {
	Shop  string // name of the business
	Link  string // the Digital Link that leads here, without its query
	Batch string
	Mark  string // such as "DEMO – not for sale"; "" for none
	Brand *Brand // of the business; nil for none
	Said  []Said // one for each language, that of the page first; see [Page.Gone]
	Stop  []Stop // where the batch is withdrawn: one for each language
	Gone  []Gone // names to stand in place of Said, where what the label said is not known any more
}

// Said is all that one language says.
type Said struct {
	Lang     *words.Lang
	Label    *words.Label
	Contains words.Said // every allergen in it, see [words.Contains]
}

// Gone is the name of a withdrawn batch in one language.
type Gone struct {
	Lang *words.Lang
	Name string
}

// Stop is what one language says of a batch that is withdrawn.
type Stop struct {
	Lang             *words.Lang
	Head             string
	Why, Do, Contact string // Why may be ""
}

// names are the names of the food, that in the language of the page first.
func (p Page) names() (out []Gone) {
	for _, s := range p.Said {
		out = append(out, Gone{s.Lang, s.Label.Name.Text})
	}
	return append(out, p.Gone...)
}

// langs are the languages of the page, the first that of the page itself.
func (p Page) langs() (out []*words.Lang) {
	for _, n := range p.names() {
		out = append(out, n.Lang)
	}
	for _, s := range p.Stop {
		if !slices.Contains(out, s.Lang) {
			out = append(out, s.Lang)
		}
	}
	return out
}
