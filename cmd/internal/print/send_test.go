package print

import (
	"context"
	"fmt"
	"net/http"
	"net/http/httptest"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/OpenPrinting/goipp"

	"chablon/cmd/internal/keep"
	"chablon/cmd/internal/printer"
	"chablon/labels/register"
	"chablon/labels/unit"
)

// desk is a label printer with a roll of 100 mm by 60 mm, 12 dots a millimetre.
type desk struct {
	*httptest.Server
	names []string // of the jobs that it printed
	ready [2]int   // hundredths of a millimetre
	dpi   int
	loses bool // the answers to jobs, and knows of no job
	calls map[goipp.Op]int
}

func newDesk(t *testing.T) *desk {
	d := &desk{ready: [2]int{10000, 6000}, dpi: 305, calls: map[goipp.Op]int{}}
	d.Server = httptest.NewServer(http.HandlerFunc(d.serve))
	t.Cleanup(d.Close)
	return d
}

func (d *desk) serve(w http.ResponseWriter, r *http.Request) {
	var m goipp.Message
	if err := m.Decode(r.Body); err != nil {
		w.WriteHeader(http.StatusBadRequest)
		return
	}
	op := goipp.Op(m.Code)
	d.calls[op]++
	a := goipp.NewResponse(goipp.MakeVersion(2, 0), goipp.StatusOk, m.RequestID)
	a.Operation.Add(goipp.MakeAttr("attributes-charset", goipp.TagCharset, goipp.String("utf-8")))
	switch op {
	case goipp.OpGetPrinterAttributes:
		res := goipp.Resolution{Xres: d.dpi, Yres: d.dpi, Units: goipp.UnitsDpi}
		a.Printer.Add(goipp.MakeAttr("document-format-supported", goipp.TagMimeType, goipp.String(printer.Raster)))
		a.Printer.Add(goipp.MakeAttr("pwg-raster-document-resolution-supported", goipp.TagResolution, res))
		a.Printer.Add(goipp.MakeAttr("pwg-raster-document-type-supported", goipp.TagKeyword, goipp.String("black_1")))
		a.Printer.Add(goipp.MakeAttrCollection("media-col-ready", goipp.MakeAttrCollection("media-size",
			goipp.MakeAttr("x-dimension", goipp.TagInteger, goipp.Integer(d.ready[0])), goipp.MakeAttr("y-dimension", goipp.TagInteger, goipp.Integer(d.ready[1])))))
	case goipp.OpPrintJob:
		for _, at := range m.Operation {
			if at.Name == "job-name" {
				d.names = append(d.names, at.Values[0].V.String())
			}
		}
		if d.loses {
			w.WriteHeader(http.StatusInternalServerError)
			return
		}
		d.job(&a.Job, len(d.names))
	case goipp.OpGetJobs:
		a.Groups = goipp.Groups{{Tag: goipp.TagOperationGroup, Attrs: a.Operation}}
		for i, n := range d.names {
			if !d.loses {
				g := goipp.Group{Tag: goipp.TagJobGroup, Attrs: goipp.Attributes{goipp.MakeAttr("job-name", goipp.TagName, goipp.String(n))}}
				d.job(&g.Attrs, i+1)
				a.Groups = append(a.Groups, g)
			}
		}
	}
	a.Encode(w)
}

func (d *desk) job(to *goipp.Attributes, id int) {
	to.Add(goipp.MakeAttr("job-id", goipp.TagInteger, goipp.Integer(id)))
	to.Add(goipp.MakeAttr("job-state", goipp.TagEnum, goipp.Integer(9)))
}

// deskShop is the demo shop with a print book, whose label printer is d.
func deskShop(t *testing.T, d *desk) (*Kept, string) {
	t.Helper()
	k, dir := kept(t)
	file := filepath.Join(dir, "shop.yaml")
	data, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	with := strings.Replace(string(data), "  roll-desk:\n", "  roll-desk:\n    address: ipp://"+strings.TrimPrefix(d.URL, "http://")+"/ipp/print\n", 1)
	if err := os.WriteFile(file, []byte(with), 0o666); err != nil {
		t.Fatal(err)
	}
	return k, dir
}

// sentTo prints labels of the tartlet to the desk, as the command does.
func sentTo(t *testing.T, k *Kept, dir string, count int) ([]Sent, *Press, error) {
	t.Helper()
	p := pressOf(t, k)
	p.To = "roll-desk"
	b, err := p.Print(p.KindOf("label"), Request{IDs: []string{"pear-hazelnut-tartlet"}, Count: unit.Count(count)})
	if err != nil || len(b.Papers) == 0 {
		t.Fatal(err, b.Found.All())
	}
	s, err := p.Reach(t.Context(), "roll-desk", &b)
	if err != nil {
		return nil, p, err
	}
	if b.Found.Errors() > 0 {
		return nil, p, fmt.Errorf("%v", b.Found.All())
	}
	s.to.Sleep = func(context.Context, time.Duration) error { return nil }
	if _, err := p.Save(t.Context(), keep.Machine{}, b, filepath.Join(dir, "out"), nil); err != nil {
		t.Fatal(err)
	}
	done, err := s.Send(t.Context(), func(string) {})
	return done, p, err
}

// given is the highest label number that the book has given.
func given(t *testing.T, p *Press) (last int64) {
	t.Helper()
	err := p.reads(t.Context(), func(book keep.Books) error {
		all, err := book.Taken(t.Context(), register.Labels("pear-hazelnut-tartlet", "L26076A").Name)
		last = highestOf(all)
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	return last
}

// TestSend: labels go in jobs of at most 500, each named by its numbers, and each
// is in the print book.
func TestSend(t *testing.T) {
	d := newDesk(t)
	k, dir := deskShop(t, d)
	done, p, err := sentTo(t, k, dir, 1001)
	if err != nil {
		t.Fatal(err)
	}
	var names []string
	for _, o := range done {
		if o.Came != printer.Done {
			t.Errorf("%s: %s (%s)", o.What, o.Came, o.Why)
		}
		names = append(names, o.What)
	}
	const run = "labels-pear-hazelnut-tartlet-L26076A "
	if want := []string{run + "0001-0500", run + "0501-1000", run + "1001"}; !slices.Equal(names, want) || len(d.names) != 3 || !strings.HasSuffix(d.names[1], want[1]) {
		t.Errorf("sent %q, printed %q", names, d.names)
	}
	err = p.reads(t.Context(), func(book keep.Books) error {
		all, err := book.Sendings(t.Context())
		if err != nil || len(all) != 6 || all[3].Came != register.Printed || all[3].From != 501 || all[3].To != 1000 {
			t.Errorf("the book has %+v, %v", all, err)
		}
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
}

// TestWrongRoll: with another roll, other dots, or where nobody answers, no
// number is given, nothing is saved and nothing is sent.
func TestWrongRoll(t *testing.T) {
	for name, change := range map[string]func(*desk){
		"roll": func(d *desk) { d.ready = [2]int{4000, 3000} },
		"dots": func(d *desk) { d.dpi = 203 },
		"gone": func(d *desk) { d.Close() },
	} {
		d := newDesk(t)
		k, dir := deskShop(t, d)
		change(d)
		_, p, err := sentTo(t, k, dir, 3)
		if err == nil || given(t, p) != 0 || len(d.names) > 0 || d.calls[goipp.OpPrintJob] > 0 {
			t.Errorf("%s: %v, numbers up to %d given, %d jobs", name, err, given(t, p), len(d.names))
		}
		if _, err := os.Stat(filepath.Join(dir, "out")); err == nil {
			t.Errorf("%s: a file was saved", name)
		}
	}
}

// TestUnknownIsKept: a job whose answer was lost is in the book as unknown, is
// sent once, the numbers are not given again; and it is settled as soon as the
// printer knows of it.
func TestUnknownIsKept(t *testing.T) {
	d := newDesk(t)
	d.loses = true
	k, dir := deskShop(t, d)
	done, p, err := sentTo(t, k, dir, 3)
	if err != nil || len(done) != 1 || done[0].Came != printer.Lost || len(d.names) != 1 {
		t.Fatalf("%+v, %v, %d jobs", done, err, len(d.names))
	}
	open, err := p.Open(t.Context())
	if err != nil || len(open) != 1 || open[0].Came != register.Unknown || open[0].To != 3 {
		t.Fatalf("%+v, %v", open, err)
	}
	d.loses = false
	if done, p, err = sentTo(t, k, dir, 2); err != nil || done[0].What != "labels-pear-hazelnut-tartlet-from-0004-L26076A 0004-0005" {
		t.Errorf("%+v, %v: the next labels are not above those", done, err)
	}
	if open, err = p.Open(t.Context()); err != nil || len(open) != 0 {
		t.Errorf("%+v, %v: the printer knows of it", open, err)
	}
	if len(d.names) != 2 || given(t, p) != 5 {
		t.Errorf("%d jobs, numbers up to %d", len(d.names), given(t, p))
	}
}
