package print

import (
	"bytes"
	"testing"

	"chablon/cmd/internal/keep"
)

// job takes a request down the road.
func job(t testing.TB, p *Press, kind, id string, r Request) *Job {
	t.Helper()
	r.IDs = []string{id}
	j, err := p.make(p.KindOf(kind), r, id)
	if err != nil {
		t.Fatal(err)
	}
	return j
}

// sound is a job with nothing wrong.
func sound(t testing.TB, p *Press, kind, id string, r Request) *Job {
	t.Helper()
	j := job(t, p, kind, id, r)
	if j.Found.Errors() > 0 {
		t.Fatal(j.Found.All())
	}
	return j
}

// asked is what comes of a request.
func asked(t testing.TB, p *Press, kind, id string, r Request) Batch {
	t.Helper()
	r.IDs = []string{id}
	b, err := p.Print(p.KindOf(kind), r)
	if err != nil {
		t.Fatal(err)
	}
	return b
}

// bytesOf writes a paper into memory.
func bytesOf(t testing.TB, p Paper) []byte {
	t.Helper()
	var b bytes.Buffer
	if err := p.write(&b, func() {}); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

// saved saves a batch in a folder of its own.
func saved(t testing.TB, p *Press, b Batch) error {
	t.Helper()
	_, err := p.Save(t.Context(), keep.Machine{}, b, t.TempDir(), nil)
	return err
}
