package printer

import (
	"context"
	"encoding/binary"
	"fmt"
	"io"
	"math/rand/v2"
	"net/http"
	"net/http/httptest"
	"slices"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/OpenPrinting/goipp"

	"chablon/labels/unit"
)

// faulty is a printer that does what no honest one does, at the chosen moment. It
// knows what it really printed.
type faulty struct {
	*httptest.Server
	mu      sync.Mutex
	fault   func(op goipp.Op) string // what goes wrong with this request
	jobs    []printed
	say     func(*goipp.Message) // what it says of itself, beyond the usual
	state   func(asked int) int  // of the last job, by how often it was asked for; nil for jobs that are printed at once
	raw     []byte               // behind all that it says
	forgets bool                 // it lists no job
	asked   map[goipp.Op]int
}

type printed struct {
	name string
	doc  []byte
	job  int
	end  int // its job-state
}

func newFaulty(t testing.TB) *faulty {
	f := &faulty{fault: func(goipp.Op) string { return "" }, say: func(*goipp.Message) {}, asked: map[goipp.Op]int{}}
	f.Server = httptest.NewServer(http.HandlerFunc(f.serve))
	f.Config.ErrorLog = nil
	t.Cleanup(f.Close)
	return f
}

// times is how often something of a mark was printed.
func (f *faulty) times(mark string) (n int) {
	f.mu.Lock()
	defer f.mu.Unlock()
	for _, j := range f.jobs {
		if strings.HasPrefix(j.name, mark+" ") {
			n++
		}
	}
	return n
}

func cut(w http.ResponseWriter) {
	c, _, err := w.(http.Hijacker).Hijack()
	if err == nil {
		c.Close()
	}
}

func (f *faulty) serve(w http.ResponseWriter, r *http.Request) {
	var head [4]byte
	if _, err := io.ReadFull(r.Body, head[:]); err != nil {
		return
	}
	op := goipp.Op(binary.BigEndian.Uint16(head[2:]))
	f.mu.Lock()
	f.asked[op]++
	fault := f.fault(op)
	f.mu.Unlock()
	switch fault {
	case "cut before": // nothing of the document was read
		cut(w)
		return
	case "page not found":
		http.NotFound(w, r)
		return
	case "hangs":
		select {
		case <-r.Context().Done():
		case <-time.After(100 * time.Millisecond):
		}
		cut(w)
		return
	}
	var m goipp.Message
	if m.Decode(io.MultiReader(strings.NewReader(string(head[:])), r.Body)) != nil {
		return
	}
	doc, _ := io.ReadAll(r.Body)
	status, refuses := map[string]goipp.Status{"busy": goipp.StatusErrorBusy, "refuses": goipp.StatusErrorAttributesOrValues, "full": goipp.StatusErrorTemporary,
		"format": goipp.StatusErrorDocumentFormatNotSupported, "fault": goipp.StatusErrorInternal}[fault]
	answer := goipp.NewResponse(goipp.MakeVersion(2, 0), status, m.RequestID)
	answer.Operation.Add(goipp.MakeAttr("attributes-charset", goipp.TagCharset, goipp.String("utf-8")))
	answer.Operation.Add(goipp.MakeAttr("attributes-natural-language", goipp.TagLanguage, goipp.String("en")))
	if fault == "refuses" {
		answer.Unsupported.Add(goipp.MakeAttr("media-col", goipp.TagUnsupportedValue, goipp.Void{}))
	}
	if !refuses {
		f.act(op, &m, doc, answer)
	}
	if fault == "half" && len(doc) > 0 { // it printed what had come
		cut(w)
		return
	}
	f.send(w, fault, answer)
}

// send sends an answer, or what comes instead of it.
func (f *faulty) send(w http.ResponseWriter, fault string, answer *goipp.Message) {
	data, err := answer.EncodeBytes()
	if err != nil {
		panic(err)
	}
	data = slices.Concat(data[:len(data)-1], f.raw, data[len(data)-1:])
	w.Header().Set("Content-Type", goipp.ContentType)
	switch fault {
	case "cut after":
		cut(w)
	case "cut in the answer":
		w.Header().Set("Content-Length", fmt.Sprint(len(data)+5))
		w.Write(data[:len(data)/2])
	case "garbage":
		w.Write([]byte(strings.Repeat("no printer ", 30)))
	case "endless":
		for range 3 * mostAnswer / 4096 {
			if _, err := w.Write(make([]byte, 4096)); err != nil {
				return
			}
		}
	case "other question":
		binary.BigEndian.PutUint32(data[4:], 0xdead)
		w.Write(data)
	case "server error":
		w.WriteHeader(http.StatusInternalServerError)
	case "moved":
		w.Header().Set("Location", "/elsewhere")
		w.WriteHeader(http.StatusFound)
	default:
		w.Write(data)
	}
}

// act does what was asked for.
func (f *faulty) act(op goipp.Op, m *goipp.Message, doc []byte, answer *goipp.Message) {
	f.mu.Lock()
	defer f.mu.Unlock()
	job := func(p printed) (a goipp.Attributes) {
		a.Add(goipp.MakeAttr("job-id", goipp.TagInteger, goipp.Integer(p.job)))
		a.Add(goipp.MakeAttr("job-name", goipp.TagName, goipp.String(p.name)))
		a.Add(goipp.MakeAttr("job-state", goipp.TagEnum, goipp.Integer(p.end)))
		a.Add(goipp.MakeAttr("job-state-reasons", goipp.TagKeyword, goipp.String("none")))
		return a
	}
	switch op {
	case goipp.OpGetPrinterAttributes:
		f.say(answer)
	case goipp.OpPrintJob:
		p := printed{first(texts(m.Operation, "job-name")), doc, len(f.jobs) + 1, 9}
		if f.state != nil {
			p.end = 5
		}
		f.jobs = append(f.jobs, p)
		answer.Job = job(p)
	case goipp.OpGetJobAttributes:
		if id := number(m.Operation, "job-id"); id >= 1 && id <= len(f.jobs) {
			if f.state != nil {
				f.jobs[id-1].end = f.state(f.asked[op])
			}
			answer.Job = job(f.jobs[id-1])
		}
	case goipp.OpGetJobs:
		answer.Groups = goipp.Groups{{Tag: goipp.TagOperationGroup, Attrs: answer.Operation}}
		for _, p := range f.jobs {
			if !f.forgets && (p.end == 9) == (first(texts(m.Operation, "which-jobs")) == "completed") {
				answer.Groups = append(answer.Groups, goipp.Group{Tag: goipp.TagJobGroup, Attrs: job(p)})
			}
		}
	}
}

// quick is a client of a faulty printer that waits for nothing.
func quick(t testing.TB, f *faulty) *Printer {
	t.Helper()
	p, err := New("ipp://"+strings.TrimPrefix(f.URL, "http://")+"/ipp/print", "")
	if err != nil {
		t.Fatal(err)
	}
	p.Sleep = func(ctx context.Context, _ time.Duration) error { return ctx.Err() }
	p.Limit = 2 * time.Second
	return p
}

// diary is a log in memory that refuses where it is told to.
type diary struct {
	notes []string
	fails func(Came) bool
}

func (d *diary) Note(_ context.Context, part Part, came Came, _ string) error {
	if d.fails != nil && d.fails(came) {
		return fmt.Errorf("the disk is full")
	}
	d.notes = append(d.notes, part.Mark+" "+string(came))
	return nil
}

func parts(mark string, n int) (out []Part) {
	for i := range n {
		out = append(out, Part{Ticket{Mark: fmt.Sprintf("%s%d", mark, i), Name: "labels 0001-0500", Format: PDF, W: 100 * unit.MM, H: 60 * unit.MM}, 500,
			func() ([]byte, error) { return []byte(strings.Repeat("%PDF ", 2000)), nil }})
	}
	return out
}

var faults = []string{"cut before", "page not found", "busy", "refuses", "full", "format", "fault", "half", "cut after", "cut in the answer", "garbage", "endless",
	"other question", "server error", "moved"}

// TestThousandFaults: a thousand runs of three jobs on printers that fail at
// random. No job is printed twice; what is said to be printed is, what is said not
// to be is not; each job has its word; and nothing follows a job that did not end
// well.
func TestThousandFaults(t *testing.T) {
	dice := rand.New(rand.NewPCG(13, 1000))
	f := newFaulty(t)
	f.fault = func(goipp.Op) string {
		if dice.IntN(3) == 0 {
			return faults[dice.IntN(len(faults))]
		}
		return ""
	}
	counts := map[Came]int{}
	for run := range 1000 {
		f.forgets = run%4 == 0
		var log diary
		all := parts(fmt.Sprintf("R%04d-", run), 3)
		out, err := quick(t, f).Run(t.Context(), all, &log, time.Second, func(string) {})
		if err != nil || len(out) != len(all) {
			t.Fatalf("run %d: %d outcomes, %v", run, len(out), err)
		}
		ended := false
		for i, o := range out {
			n := f.times(all[i].Mark)
			counts[o.Came]++
			switch {
			case n > 1:
				t.Errorf("run %d, part %d (%s): printed %d times", run, i, o.Came, n)
			case o.Came == Done && n != 1, (o.Came == Refusal || o.Came == Unsent) && n != 0:
				t.Errorf("run %d, part %d: said to be %s (%s), printed %d times", run, i, o.Came, o.Why, n)
			case ended && o.Came != Unsent:
				t.Errorf("run %d, part %d: %s behind one that did not end well", run, i, o.Came)
			case o.Came != Unsent && !slices.Contains(log.notes, all[i].Mark+" "+string(o.Came)), o.Came != Done && o.Came != Unsent && o.Why == "":
				t.Errorf("run %d, part %d: %s, noted %v, because %q", run, i, o.Came, log.notes, o.Why)
			}
			ended = ended || o.Came != Done
		}
	}
	t.Logf("of 3,000 jobs: %v", counts)
	for _, c := range []Came{Done, Refusal, Lost, Unsent} {
		if counts[c] < 50 {
			t.Errorf("only %d were %s: the faults do not reach it", counts[c], c)
		}
	}
}

// TestLostAnswer: where the answer to a job is lost, the printer is asked for it
// by name, and nothing is sent again, whatever it says.
func TestLostAnswer(t *testing.T) {
	for _, fault := range []string{"cut after", "cut in the answer", "garbage", "endless", "other question", "server error", "moved", "half", "hangs"} {
		for _, forgets := range []bool{false, true} {
			f := newFaulty(t)
			f.forgets = forgets
			f.fault = func(op goipp.Op) string {
				if op == goipp.OpPrintJob {
					return fault
				}
				return ""
			}
			out, err := quick(t, f).Run(t.Context(), parts("L", 2), new(diary), time.Second, func(string) {})
			if err != nil {
				t.Fatal(err)
			}
			if n := f.asked[goipp.OpPrintJob]; n != 1 && !(n == 2 && !forgets && out[0].Came == Done) {
				t.Errorf("%s: sent %d times", fault, n)
			}
			found := !forgets && fault != "hangs"
			if want := map[bool]Came{true: Done, false: Lost}[found]; out[0].Came != want {
				t.Errorf("%s, the printer forgets: %t: %s (%s)", fault, forgets, out[0].Came, out[0].Why)
			}
			if f.asked[goipp.OpGetJobs] == 0 {
				t.Errorf("%s: the printer was not asked for the job", fault)
			}
		}
	}
}

// TestBusy: a busy printer is asked again, each time twice as late, and a minute
// at most.
func TestBusy(t *testing.T) {
	f := newFaulty(t)
	busy := 4
	f.fault = func(op goipp.Op) string {
		if op == goipp.OpPrintJob && busy > 0 {
			busy--
			return "busy"
		}
		return ""
	}
	p := quick(t, f)
	var waits []time.Duration
	p.Sleep = func(_ context.Context, d time.Duration) error { waits = append(waits, d); return nil }
	if job, err := p.Send(t.Context(), parts("B", 1)[0].Ticket, []byte("%PDF")); err != nil || job.ID != 1 {
		t.Fatal(job, err)
	}
	if want := []time.Duration{100e6, 200e6, 400e6, 800e6}; !slices.Equal(waits, want) {
		t.Errorf("waited %v, want %v", waits, want)
	}
	busy, waits = 1000, nil
	_, err := p.Send(t.Context(), parts("C", 1)[0].Ticket, []byte("%PDF"))
	var sum time.Duration
	for _, w := range waits {
		sum += w
	}
	if sum != time.Minute || err == nil || f.times("C0") != 0 {
		t.Errorf("waited %v, then %v", sum, err)
	}
}

// TestOutOfPaper: a job that is held up waits and says why; one that is taken
// away at the printer is told with how far it came; one that never ends is not
// known.
func TestOutOfPaper(t *testing.T) {
	f := newFaulty(t)
	f.say = func(m *goipp.Message) {
		m.Printer.Add(goipp.MakeAttr("printer-state-reasons", goipp.TagKeyword, goipp.String("media-empty-error"), goipp.String("x-own-thing-warning")))
	}
	for _, c := range []struct {
		end  int
		came Came
	}{{9, Done}, {8, Broken}, {7, Broken}, {6, Lost}, {99, Lost}} {
		f.asked = map[goipp.Op]int{}
		f.state = func(asked int) int {
			if asked < 3 {
				return 6
			}
			return c.end
		}
		var told []string
		out, err := quick(t, f).Run(t.Context(), parts(fmt.Sprint("P", c.end), 1), new(diary), time.Minute, func(s string) { told = append(told, s) })
		if err != nil || out[0].Came != c.came || (c.came != Done && out[0].Why == "") {
			t.Errorf("state %d: %v, %v", c.end, out, err)
		}
		if !slices.Equal(told, []string{"out of paper, x-own-thing"}) {
			t.Errorf("state %d: told %q", c.end, told)
		}
	}
}

// TestUnreached: where there is no printer nothing was printed.
func TestUnreached(t *testing.T) {
	f := newFaulty(t)
	p := quick(t, f)
	f.Close()
	out, err := p.Run(t.Context(), parts("U", 2), new(diary), time.Second, func(string) {})
	if err != nil || out[0].Came != Refusal || out[1].Came != Unsent {
		t.Errorf("%+v, %v", out, err)
	}
}

// TestNotNoted: what cannot be noted is not sent.
func TestNotNoted(t *testing.T) {
	f := newFaulty(t)
	out, err := quick(t, f).Run(t.Context(), parts("N", 2), &diary{fails: func(c Came) bool { return c == Sending }}, time.Second, func(string) {})
	if err == nil || len(out) != 2 || out[0].Came != Unsent || len(f.jobs) != 0 {
		t.Errorf("%+v, %v, %d jobs", out, err, len(f.jobs))
	}
	out, err = quick(t, f).Run(t.Context(), parts("M", 2), &diary{fails: func(c Came) bool { return c == Done }}, time.Second, func(string) {})
	if err == nil || out[0].Came != Done || out[1].Came != Unsent || len(f.jobs) != 1 {
		t.Errorf("%+v, %v, %d jobs", out, err, len(f.jobs))
	}
}

// TestWrongTypes: values of any other kind than the standard's, names of 64 kB,
// and answers of any bytes are read without a panic, and what is shown of them
// is short.
func TestWrongTypes(t *testing.T) {
	f := newFaulty(t)
	long := strings.Repeat("ö", 16_000)
	any := []goipp.Value{goipp.Integer(-7), goipp.Boolean(true), goipp.String(long), goipp.Void{}, goipp.Binary{1}, goipp.Range{Lower: 9, Upper: -9},
		goipp.Resolution{Xres: -1, Yres: 0, Units: 9}, goipp.Collection{goipp.MakeAttr("media-size", goipp.TagBoolean, goipp.Boolean(false))}}
	tags := []goipp.Tag{goipp.TagInteger, goipp.TagBoolean, goipp.TagText, goipp.TagNoValue, goipp.TagString, goipp.TagRange, goipp.TagResolution, goipp.TagBeginCollection}
	names := []string{"printer-name", "document-format-supported", "printer-resolution-supported", "media-col-ready", "media-col-database", "media-size-supported",
		"printer-is-accepting-jobs", "printer-state", "printer-state-reasons", "pwg-raster-document-type-supported", "print-scaling-supported"}
	for i := range any {
		f.say = func(m *goipp.Message) {
			for _, n := range names {
				m.Printer.Add(goipp.MakeAttr(n, tags[i], any[i]))
			}
		}
		said, err := quick(t, f).Ask(t.Context())
		var lost *Unknown
		if err != nil && !asLost(err, &lost) {
			t.Errorf("%T: %v", any[i], err)
		}
		if _, wrong := said.Fit(Need{DPI: 305, W: 100 * unit.MM, H: 60 * unit.MM}); len(wrong) == 0 || len(strings.Join(wrong, "")) > 2000 {
			t.Errorf("%T: fits, or is told at length: %d", any[i], len(strings.Join(wrong, "")))
		}
	}
	f.say = func(*goipp.Message) {}
	most := strings.Repeat("n", 65_535)
	for _, name := range []string{"printer-name", most} { // as much as the two bytes of a length can say
		f.raw = slices.Concat([]byte{0x04, 0x42, byte(len(name) >> 8), byte(len(name))}, []byte(name), []byte{0xff, 0xff}, []byte(most))
		if said, err := quick(t, f).Ask(t.Context()); err != nil || len(said.Name) > 100 {
			t.Errorf("a name of 64 kB: %d, %v", len(said.Name), err)
		}
	}
	dice := rand.New(rand.NewPCG(1, 2))
	good, err := goipp.NewResponse(goipp.MakeVersion(2, 0), 0, 1).EncodeBytes()
	if err != nil {
		t.Fatal(err)
	}
	for range 2000 {
		b := append(slices.Clone(good), good...)
		for range 1 + dice.IntN(6) {
			b[dice.IntN(len(b))] = byte(dice.Uint32())
		}
		answer(b[:dice.IntN(len(b)+1)], 1) // ends, and does not panic
	}
}

func asLost(err error, to **Unknown) bool {
	l, ok := err.(*Unknown)
	*to = l
	return ok
}
