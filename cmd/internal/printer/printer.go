// Package printer answers: what does the printer say?
//
// It prints without a driver, by the Internet Printing Protocol (RFC 8010, RFC
// 8011, PWG 5100.12): it asks a printer what it is and what is loaded, lets it
// validate a job, sends the job, and follows it to its end. What it must never do
// is print a label twice: so an answer that was lost is never followed by sending
// again, unless nothing at all can have reached the printer ([Unknown]).
package printer

import (
	"bytes"
	"context"
	"crypto/sha256"
	"crypto/tls"
	"encoding/hex"
	"errors"
	"fmt"
	"io"
	"net"
	"net/http"
	"net/http/httptrace"
	"net/url"
	"strings"
	"time"

	"github.com/OpenPrinting/goipp"
)

// Limits on what a printer may take.
const (
	mostAnswer = 1 << 20          // bytes of an answer
	askTime    = 20 * time.Second // for an answer to a question
	sendTime   = 5 * time.Minute  // for a job and its answer
)

// Printer is one that is reached under an address.
type Printer struct {
	uri   string // as the protocol names it: ipp://host:631/path
	url   string // as it is reached: http://host:631/path
	http  *http.Client
	id    uint32
	Sleep func(context.Context, time.Duration) error // between two tries; for tests
	Limit time.Duration                              // on each question, where it is shorter than usual; for tests
}

// New is the printer at an address, such as ipp://192.0.2.7/ipp/print. A
// fingerprint (SHA-256 in hex) is that of the certificate of an ipps address
// which nobody has signed.
func New(address, fingerprint string) (*Printer, error) {
	u, err := url.Parse(address)
	if err != nil || u.Host == "" || u.User != nil || u.RawQuery != "" || u.Fragment != "" || (u.Scheme != "ipp" && u.Scheme != "ipps") {
		return nil, fmt.Errorf("%q is not the address of a printer", address)
	}
	if u.Port() == "" {
		u.Host = net.JoinHostPort(u.Hostname(), "631")
	}
	p := &Printer{uri: u.String(), Sleep: sleep}
	u.Scheme = map[string]string{"ipp": "http", "ipps": "https"}[u.Scheme]
	p.url = u.String()
	p.http = &http.Client{
		Transport: &http.Transport{
			DisableKeepAlives: true, // a request on an old connection would be sent again by itself
			TLSNextProto:      map[string]func(string, *tls.Conn) http.RoundTripper{},
			TLSClientConfig:   trust(fingerprint),
			DialContext:       (&net.Dialer{Timeout: 5 * time.Second}).DialContext,
		},
		CheckRedirect: func(*http.Request, []*http.Request) error { return http.ErrUseLastResponse },
	}
	return p, nil
}

// trust is the certificate that is taken: a signed one, or the one with a
// fingerprint.
func trust(fingerprint string) *tls.Config {
	want := strings.ToLower(strings.ReplaceAll(fingerprint, ":", ""))
	if want == "" {
		return nil
	}
	return &tls.Config{InsecureSkipVerify: true, VerifyConnection: func(s tls.ConnectionState) error {
		sum := sha256.Sum256(s.PeerCertificates[0].Raw)
		if got := hex.EncodeToString(sum[:]); got != want {
			return fmt.Errorf("the printer shows another certificate, with the fingerprint %s", got)
		}
		return nil
	}}
}

func sleep(ctx context.Context, d time.Duration) error {
	select {
	case <-ctx.Done():
		return ctx.Err()
	case <-time.After(d):
		return nil
	}
}

// Refused is what a printer says no to. Nothing was printed.
type Refused struct {
	Status string   // as the protocol calls it
	Attrs  []string // what it does not take
	Busy   bool     // it may take it later
}

func (e *Refused) Error() string {
	if len(e.Attrs) > 0 {
		return fmt.Sprintf("the printer refuses it (%s: %s)", e.Status, strings.Join(e.Attrs, ", "))
	}
	return "the printer refuses it (" + e.Status + ")"
}

// Unreached is a printer that nothing reached. Nothing was printed.
type Unreached struct{ Err error }

func (e *Unreached) Error() string { return "the printer cannot be reached: " + e.Err.Error() }
func (e *Unreached) Unwrap() error { return e.Err }

// Unknown is a question without an answer. What was sent may be printed, or be
// printed later.
type Unknown struct{ Err error }

func (e *Unknown) Error() string { return "the printer's answer was lost: " + e.Err.Error() }
func (e *Unknown) Unwrap() error { return e.Err }

// ask sends one request, with a document behind it where there is one, and gives
// the answer. The error is one of the three above.
func (p *Printer) ask(ctx context.Context, op goipp.Op, doc []byte, fill func(*goipp.Message)) (*goipp.Message, error) {
	p.id++
	m := goipp.NewRequest(goipp.MakeVersion(2, 0), op, p.id)
	m.Operation.Add(goipp.MakeAttr("attributes-charset", goipp.TagCharset, goipp.String("utf-8")))
	m.Operation.Add(goipp.MakeAttr("attributes-natural-language", goipp.TagLanguage, goipp.String("en")))
	m.Operation.Add(goipp.MakeAttr("printer-uri", goipp.TagURI, goipp.String(p.uri)))
	m.Operation.Add(goipp.MakeAttr("requesting-user-name", goipp.TagName, goipp.String("chablon")))
	fill(m)
	head, err := m.EncodeBytes()
	if err != nil {
		return nil, &Unreached{err}
	}
	limit := askTime
	if doc != nil {
		limit = sendTime
	}
	if p.Limit > 0 {
		limit = p.Limit
	}
	ctx, cancel := context.WithTimeout(ctx, limit)
	defer cancel()
	data, err := p.post(ctx, append(head, doc...))
	if err != nil {
		return nil, err
	}
	return answer(data, p.id)
}

// post brings a request to the printer. Only where no connection came about can
// nothing have reached it.
func (p *Printer) post(ctx context.Context, body []byte) ([]byte, error) {
	reached := false
	ctx = httptrace.WithClientTrace(ctx, &httptrace.ClientTrace{GotConn: func(httptrace.GotConnInfo) { reached = true }})
	req, err := http.NewRequestWithContext(ctx, http.MethodPost, p.url, bytes.NewReader(body))
	if err != nil {
		return nil, &Unreached{err}
	}
	req.GetBody = nil // so that nothing sends it a second time
	req.Header.Set("Content-Type", goipp.ContentType)
	resp, err := p.http.Do(req)
	if err != nil {
		var at *url.Error
		if errors.As(err, &at) {
			err = at.Err // without the address, which stands in shop.yaml
		}
		if !reached {
			return nil, &Unreached{err}
		}
		return nil, &Unknown{err}
	}
	defer resp.Body.Close()
	switch {
	case resp.StatusCode >= 400 && resp.StatusCode < 500:
		return nil, &Refused{Status: resp.Status}
	case resp.StatusCode != http.StatusOK:
		return nil, &Unknown{fmt.Errorf("%s", resp.Status)}
	}
	data, err := io.ReadAll(io.LimitReader(resp.Body, mostAnswer+1))
	if err == nil && len(data) > mostAnswer {
		err = errors.New("it has no end")
	}
	if err != nil {
		return nil, &Unknown{err}
	}
	return data, nil
}

// answer reads an answer, and finds refusals.
func answer(data []byte, id uint32) (m *goipp.Message, err error) {
	defer func() {
		if v := recover(); v != nil {
			m, err = nil, &Unknown{fmt.Errorf("it cannot be read: %v", v)}
		}
	}()
	m = &goipp.Message{}
	if err := m.DecodeBytes(data); err != nil {
		return nil, &Unknown{err}
	}
	if m.RequestID != id {
		return nil, &Unknown{errors.New("it answers another question")}
	}
	status := goipp.Status(m.Code)
	switch {
	case status < 0x0100:
		return m, nil
	case status == goipp.StatusErrorJobCanceled: // it had begun
		return nil, &Unknown{errors.New(status.String())}
	}
	no := &Refused{Status: status.String(), Busy: status == goipp.StatusErrorBusy || status == goipp.StatusErrorTemporary || status == goipp.StatusErrorNotAcceptingJobs}
	for _, a := range m.Unsupported {
		no.Attrs = append(no.Attrs, clip(a.Name))
	}
	return nil, no
}

// clip is what a printer says, in a length that can be shown.
func clip(s string) string {
	const most = 80
	if r := []rune(s); len(r) > most {
		return string(r[:most]) + "…"
	}
	return s
}
