package counter_test

import (
	"net/http"
	"net/http/httptest"
	"net/url"
	"strings"
	"sync"
	"testing"

	"github.com/OpenPrinting/goipp"

	"chablon/cmd/internal/printer"
)

// roll is a label printer with a roll of 100 mm by 60 mm, 12 dots a millimetre
// (RFC 8011), that counts the jobs it gets.
type roll struct {
	mu   sync.Mutex
	jobs []string
	wide int // hundredths of a millimetre
}

func (d *roll) ServeHTTP(w http.ResponseWriter, r *http.Request) {
	d.mu.Lock()
	defer d.mu.Unlock()
	var m goipp.Message
	if err := m.Decode(r.Body); err != nil {
		w.WriteHeader(http.StatusBadRequest)
		return
	}
	a := goipp.NewResponse(goipp.MakeVersion(2, 0), goipp.StatusOk, m.RequestID)
	a.Operation.Add(goipp.MakeAttr("attributes-charset", goipp.TagCharset, goipp.String("utf-8")))
	switch goipp.Op(m.Code) {
	case goipp.OpGetPrinterAttributes:
		a.Printer.Add(goipp.MakeAttr("document-format-supported", goipp.TagMimeType, goipp.String(printer.Raster)))
		a.Printer.Add(goipp.MakeAttr("pwg-raster-document-resolution-supported", goipp.TagResolution, goipp.Resolution{Xres: 305, Yres: 305, Units: goipp.UnitsDpi}))
		a.Printer.Add(goipp.MakeAttr("pwg-raster-document-type-supported", goipp.TagKeyword, goipp.String("black_1")))
		a.Printer.Add(goipp.MakeAttrCollection("media-col-ready", goipp.MakeAttrCollection("media-size",
			goipp.MakeAttr("x-dimension", goipp.TagInteger, goipp.Integer(d.wide)), goipp.MakeAttr("y-dimension", goipp.TagInteger, goipp.Integer(6000)))))
	case goipp.OpPrintJob, goipp.OpGetJobAttributes:
		for _, at := range m.Operation {
			if at.Name == "job-name" && goipp.Op(m.Code) == goipp.OpPrintJob {
				d.jobs = append(d.jobs, at.Values[0].V.String())
			}
		}
		a.Job.Add(goipp.MakeAttr("job-id", goipp.TagInteger, goipp.Integer(len(d.jobs))))
		a.Job.Add(goipp.MakeAttr("job-state", goipp.TagEnum, goipp.Integer(9)))
	}
	_ = a.Encode(w)
}

// To the printer: one job for one form, which the page shows as printed; a wrong
// roll, a printer that nobody answers for, and one that the shop does not know
// print nothing and cost no number. No address comes from a form.
func TestToThePrinter(t *testing.T) {
	d := &roll{wide: 10000}
	srv := httptest.NewServer(d)
	t.Cleanup(srv.Close)
	h := newHouse(t)
	h.edit("shop.yaml", "  roll-desk:\n", "  roll-desk:\n    address: ipp://"+strings.TrimPrefix(srv.URL, "http://")+"/ipp/print\n")
	show := h.get(tartlet)
	has(t, show, "Where to", "roll-desk")
	f := form(t, show.body, "/print")
	to := func(id string) url.Values { return fill(f, "to", id) }
	for _, id := range []string{"nowhere", "office", srv.URL, "ipp://192.0.2.1/ipp/print"} {
		if a := h.do("POST", "/print", to(id)); a.code == http.StatusSeeOther {
			t.Errorf("%q: %d", id, a.code)
		}
	}
	d.mu.Lock()
	d.wide = 8000
	d.mu.Unlock()
	has(t, h.want(http.StatusConflict, h.do("POST", "/print", to("roll-desk"))), "Nothing was printed, and no number was given.")
	h.nothing()
	d.mu.Lock()
	d.wide = 10000
	d.mu.Unlock()
	sent := h.want(http.StatusSeeOther, h.do("POST", "/print", to("roll-desk")))
	h.want(http.StatusSeeOther, h.do("POST", "/print", to("roll-desk")))
	h.at.Wait()
	has(t, h.get(sent.head.Get("Location")), "What was sent", "roll-desk", "printed", "0001-0024")
	if len(d.jobs) != 1 || len(h.prints()) != 1 {
		t.Errorf("%d jobs, %d prints", len(d.jobs), len(h.prints()))
	}
}
