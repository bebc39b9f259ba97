package print

import (
	"context"
	"fmt"

	"chablon/cmd/internal/keep"
	"chablon/cmd/internal/usage"
	"chablon/labels/gs1"
	"chablon/labels/shop"
	"chablon/labels/trace"
	"chablon/labels/unit"
)

// CustomerIDs lists the customers for completion.
func (p *Press) CustomerIDs() []string { return p.Shop.CustomerIDs }

// customer finds the customer that it is packed for.
func (j *Job) customer() error {
	if !j.Kind.SSCC {
		return nil
	}
	id, order := j.Request.For, j.Request.Order
	if id == "" {
		if order != "" {
			return usage.Errorf("name the customer: --for", "whose order is %q?", order)
		}
		return nil
	}
	to, ok := j.Shop.CustomerNamed(id)
	switch {
	case !ok:
		return unknownCustomer(j.Shop, id)
	case order == "" && to.Want("order-number") && !j.Request.compare:
		return usage.Errorf("give it: --order", "%s takes nothing without the number of its order", to.Name.V)
	}
	if err := gs1.Check(gs1.Element{AI: "400", Value: order}); order != "" && err != nil {
		return usage.Errorf("write it without spaces, at most 30 characters", "bars cannot carry this order number: %v", err)
	}
	j.To = to
	return nil
}

func unknownCustomer(s *shop.Shop, name string) error {
	if len(s.CustomerIDs) == 0 {
		return usage.Errorf("write customers/ID.yaml with its name and address", "the shop has no customers, and so no %q", name)
	}
	return usage.Unknown("customer", name, s.CustomerIDs)
}

// goes is for whom the pieces are packed, and when.
func (j *Job) goes() shop.Consignment {
	packed := j.Request.packed
	if packed.IsZero() {
		packed = j.Today
	}
	return shop.Consignment{To: j.To, Order: j.Request.Order, Made: j.Made, Packed: packed}
}

// partner is the customer's name as traces keep it, or "".
func (j *Job) partner() string {
	if j.To == nil {
		return ""
	}
	return j.To.Name.V
}

// packedFor gives a request back what the first label of a carton was made for:
// the customer, the order and the day, and how many packs are inside, as the
// trace kept them.
func (p *Press) packedFor(ctx context.Context, book keep.Books, id, code string, r *Request) error {
	if id == palletKind().Name {
		return loadedFor(ctx, book, code, r)
	}
	list, err := book.With(ctx, trace.Out, []trace.Thing{{Kind: trace.Carton, ID: id, Code: code}})
	for _, e := range list {
		if e.Kind != trace.Pack {
			continue
		}
		r.For, r.Order, r.Own = e.Partner, e.Order, p.filledAs(e, id, r.Batch)
		r.Weight = e.In[0].Mass // of what is sold by weight
		if e.Made != "" {
			if r.packed, err = unit.ParseDate(e.Made); err != nil {
				return fmt.Errorf("the print book has a wrong day of packing: %w", err)
			}
		}
	}
	return err
}

// loadedFor gives a request back the cartons that a pallet was loaded with.
func loadedFor(ctx context.Context, book keep.Books, code string, r *Request) error {
	list, err := book.With(ctx, trace.Out, []trace.Thing{{Kind: trace.Pallet, Code: code}})
	for _, e := range list {
		r.For, r.Order = e.Partner, e.Order
		for _, p := range e.In {
			r.IDs = append(r.IDs, p.Code)
		}
	}
	return err
}
