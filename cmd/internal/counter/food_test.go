package counter_test

import (
	"net/http"
	"net/url"
	"strings"
	"testing"
)

// fill is a form with further fields.
func fill(f url.Values, pairs ...string) url.Values {
	out := url.Values{}
	for k, v := range f {
		out[k] = v
	}
	for i := 0; i+1 < len(pairs); i += 2 {
		out.Set(pairs[i], pairs[i+1])
	}
	return out
}

// From a lot to the customer and back, by forms alone: butter comes in, goes into
// a pastry, the pastry into tartlets, cartons are printed and leave.
func TestFood(t *testing.T) {
	h := newHouse(t)
	lot := fill(form(t, h.get("/food/lot").body, "/food/lot"), "id", "butter", "code", "HD-4471", "mass", "10 kg", "until-d", "1", "until-m", "5", "until-y", "2026")
	for range 2 { // pressed twice, noted once
		h.want(http.StatusSeeOther, h.do("POST", "/food/lot", lot))
	}
	has(t, h.get("/food"), "HD-4471", "10 kg", "keeps until 1 May 2026", "came in: 10000 g of")
	page := h.get("/food/batch?id=sweet-pastry")
	has(t, page, "butter", "What went in", "Lot or batch")
	batch := fill(form(t, page.body, "/food/batch"), "batch", "L26076A", "part-butter", "HD-4471", "part-butter-amount", "1.2 kg", "mass", "2.3 kg")
	h.want(http.StatusSeeOther, h.do("POST", "/food/batch", batch))
	has(t, h.get("/food"), "8.8 kg", "made: 2300 g of")
	tarts := fill(form(t, h.get("/food/batch?id=pear-hazelnut-tartlet").body, "/food/batch"), "batch", "L26076A", "part-sweet-pastry", "L26076A", "pieces", "46")
	h.want(http.StatusSeeOther, h.do("POST", "/food/batch", tarts))
	h.want(http.StatusSeeOther, h.do("POST", "/print", form(t, h.get("/paper?kind=carton&id=pear-hazelnut-tartlet").body, "/print")))
	has(t, h.get("/day"), "46 good pieces noted")
	ship := fill(form(t, h.get("/food/ship").body, "/food/ship"), "sscc", "095200010000000010", "to", "ossel-larder", "order", "OL-4711")
	h.want(http.StatusSeeOther, h.do("POST", "/food/ship", ship))
	has(t, h.get("/food/trace?code=HD-4471"), "Ossel", "095200010000000010", "OL-4711", "almond sweet pastry")
	has(t, h.get("/food/trace?code=095200010000000010"), "HD-4471", "butter")
	has(t, h.want(http.StatusBadRequest, h.do("GET", "/food/trace?code=NOTHING", nil)), "was ever noted")
}

// What cannot be is refused with the word that helps, and noted nowhere.
func TestFoodRefused(t *testing.T) {
	h := newHouse(t)
	lot := form(t, h.get("/food/lot").body, "/food/lot")
	for name, f := range map[string]url.Values{
		"no such ingredient": fill(lot, "id", "gold", "code", "X", "mass", "1 kg"),
		"no unit":            fill(lot, "id", "butter", "code", "X", "mass", "10"),
		"another sign":       fill(lot, "id", "butter", "code", "X", "mass", "1,2 kg"),
		"no such day":        fill(lot, "id", "butter", "code", "X", "mass", "1 kg", "until-d", "30", "until-m", "2", "until-y", "2026"),
		"half a day":         fill(lot, "id", "butter", "code", "X", "mass", "1 kg", "until-d", "3"),
		"no word":            fill(lot, "id", "butter", "code", "X", "mass", "1 kg", "word", ""),
	} {
		if a := h.do("POST", "/food/lot", f); a.code != http.StatusBadRequest {
			t.Errorf("%s: %d %s", name, a.code, text(a.body))
		}
	}
	if body := text(h.get("/food").body); strings.Contains(body, "came in:") {
		t.Errorf("it was noted: %s", body)
	}
	page := form(t, h.get("/food/batch?id=sweet-pastry").body, "/food/batch")
	other := fill(page, "other", "ground-hazelnut", "other-code", "N1", "mass", "1 kg")
	if a := h.do("POST", "/food/batch", other); a.code == http.StatusSeeOther {
		t.Error("something else went in without a reason")
	}
	ship := fill(form(t, h.get("/food/ship").body, "/food/ship"), "sscc", "095200010000000010", "to", "ossel-larder", "order", "1")
	if a := h.do("POST", "/food/ship", ship); a.code != http.StatusBadRequest && a.code != http.StatusConflict {
		t.Errorf("a carton that was never printed left: %d", a.code)
	}
}
