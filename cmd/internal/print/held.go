package print

import (
	"context"
	"errors"

	"chablon/cmd/internal/keep"
	"chablon/labels/register"
)

// held is the shop's print book while one command goes through its papers: it is
// opened, and read through for damage, once.
type held struct {
	users   int
	book    keep.Books
	missing bool
}

// hold keeps the book open until what it gives is called; a fault in closing it
// is added to err.
func (p *Press) hold(err *error) (let func()) {
	h := p.held
	if h.users == 0 {
		p.next.last = nil // numbers that were dealt and not claimed are dealt again
	}
	h.users++
	return func() {
		h.users--
		if h.users > 0 {
			return
		}
		if h.book != nil {
			*err = errors.Join(*err, h.book.Close())
		}
		h.book, h.missing = nil, false
	}
}

// reads runs do on the shop's print book; where there is none, nothing is done.
func (p *Press) reads(ctx context.Context, do func(keep.Books) error) (err error) {
	if p.Name == "" || p.held.missing {
		return nil
	}
	defer p.hold(&err)()
	if p.held.book == nil {
		book, err := p.register(ctx, false)
		if register.RuleOf(err) == register.Missing {
			p.held.missing = p.held.users > 1
			return nil
		}
		if err != nil {
			return err
		}
		p.held.book = book
	}
	return do(p.held.book)
}

// Reads runs do on the shop's print book; where there is none, nothing is done.
func (p *Press) Reads(ctx context.Context, do func(keep.Books) error) error { return p.reads(ctx, do) }
