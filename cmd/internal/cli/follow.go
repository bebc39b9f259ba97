package cli

import (
	"context"
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"strings"
	"time"

	"github.com/spf13/cobra"

	"chablon/cmd/internal/follow"
	"chablon/cmd/internal/keep"
	"chablon/cmd/internal/print"
	"chablon/cmd/internal/usage"
	"chablon/labels/trace"
	"chablon/labels/trace/epcis"
	"chablon/labels/unit"
)

// desk opens the shop of --shop and its book for noting, and closes the book
// when do is done. A fault in the shop's files does not stop it: a recall
// cannot wait for a missing translation.
func (a *app) desk(do func(context.Context, *follow.Desk, *print.Press) error) error {
	p, err := a.open(a.shop)
	if err != nil {
		return err
	}
	if p.Name == "" {
		return usage.Errorf("chablon new DIR --demo writes it into a folder; then begin its book: chablon wall DIR --begin", "nothing can be noted of the demo shop")
	}
	ctx := context.Background()
	book, err := keep.Book(ctx, p.Name)
	if err != nil {
		return asked(err)
	}
	err = do(ctx, &follow.Desk{Shop: p.Shop, Book: book, Today: p.Today, Now: a.Now(), Who: a.Getenv("USER")}, p)
	return asked(errors.Join(err, book.Close()))
}

// noted notes events and says each in a line.
func (a *app) noted(ctx context.Context, d *follow.Desk, e trace.Event, err error) error {
	if err != nil {
		return err
	}
	return a.allNoted(ctx, d, []trace.Event{e})
}

// allNoted notes events, all or none.
func (a *app) allNoted(ctx context.Context, d *follow.Desk, list []trace.Event) error {
	done, err := d.Book.Note(ctx, list...)
	for _, e := range done {
		fmt.Fprintln(a.Out, follow.Line(e))
	}
	return err
}

func (a *app) lot() *cobra.Command {
	var l follow.Lot
	c := &cobra.Command{
		Use: "lot INGREDIENT CODE", Short: "Note a lot that came in, with its supplier and mass",
		Long:    "Notes a delivery: so much of an ingredient, under the code on the supplier's pack.\nWhat was noted is never deleted; chablon undo takes it back.",
		Example: "  chablon lot butter HD-4471 --mass \"10 kg\" --until 2026-05-01 --shop my-shop",
		Args:    exactly(2, "which ingredient, and which code is on it?"),
		RunE: func(_ *cobra.Command, args []string) error {
			l.Ingredient, l.Code = args[0], args[1]
			return a.desk(func(ctx context.Context, d *follow.Desk, _ *print.Press) error {
				e, err := d.Lot(l)
				return a.noted(ctx, d, e, err)
			})
		},
	}
	c.Flags().Var(textFlag(&l.Mass, "mass"), "mass", "how much came in, such as \"10 kg\"")
	c.Flags().StringVar(&l.From, "from", "", "the supplier; that of the specification when left out")
	c.Flags().StringVar(&l.Order, "order", "", "number of the order or delivery note")
	c.Flags().Var(textFlag(&l.Until, "day"), "until", "day until which it keeps")
	c.Flags().Var(textFlag(&l.Day, "day"), "on", "day on which it came; today when left out")
	return a.ids(a.fromShop(c), func(p *print.Press) []string { return p.Shop.IngredientIDs })
}

func (a *app) batch() *cobra.Command {
	var b follow.Batch
	var used []string
	c := &cobra.Command{
		Use: "batch FORMULA-or-PRODUCT", Short: "Note what went into a batch, and what came out of it",
		Long:    "Notes the lots and batches that went into a batch, and what came out. It may be\nsaid in as many steps as the work has: open it, add what is used, close it with\nthe good pieces. What is no part of the formula needs a reason, and the usual\nlabel of that batch is then refused.",
		Example: "  chablon batch sweet-pastry --used \"butter=HD-4471:1.2 kg\" --mass \"2.3 kg\" --shop my-shop\n  chablon batch pear-hazelnut-tartlet --used \"sweet-pastry=L26076A\" --pieces 46 --shop my-shop",
		Args:    exactlyOne("formula or product"),
		RunE: func(_ *cobra.Command, args []string) (err error) {
			b.ID = args[0]
			if b.Used, err = uses(used); err != nil {
				return err
			}
			return a.desk(func(ctx context.Context, d *follow.Desk, _ *print.Press) error {
				e, err := d.Batch(b)
				return a.noted(ctx, d, e, err)
			})
		},
	}
	c.Flags().StringVar(&b.Code, "batch", "", "batch code; by the shop's rule when left out")
	c.Flags().Var(textFlag(&b.Made, "day"), "made", "the day made; today when left out")
	c.Flags().StringArrayVar(&used, "used", nil, "what went in, such as \"butter=HD-4471:1.2 kg\"; may be given several times")
	c.Flags().Var(textFlag(&b.Mass, "mass"), "mass", "mass that came out")
	c.Flags().Var(textFlag(&b.Pieces, "number"), "pieces", "good pieces that came out")
	c.Flags().StringVar(&b.Why, "because", "", "why it differs from its formula, where it does")
	return a.ids(a.fromShop(c), func(p *print.Press) []string { return p.KindOf("card").IDs(p) })
}

// uses reads "butter=HD-4471:1.2 kg"; the amount may be left out, or be pieces.
func uses(list []string) (out []follow.Use, err error) {
	for _, s := range list {
		id, rest, ok := strings.Cut(s, "=")
		code, amount, _ := strings.Cut(rest, ":")
		u := follow.Use{ID: strings.TrimSpace(id), Code: strings.TrimSpace(code)}
		if !ok || u.ID == "" || u.Code == "" {
			return nil, usage.Errorf(`write it like --used "butter=HD-4471:1.2 kg"`, "%q does not say which lot or batch went in", s)
		}
		if amount = strings.TrimSpace(amount); amount != "" {
			if n, countErr := unit.ParseCount(amount); countErr == nil {
				u.Pieces = n
			} else if u.Mass, err = unit.ParseMass(amount); err != nil {
				return nil, usage.Errorf(`write it like --used "butter=HD-4471:1.2 kg"`, "%s: %v", s, err)
			}
		}
		out = append(out, u)
	}
	return out, nil
}

func (a *app) ship() *cobra.Command {
	var s follow.Ship
	c := &cobra.Command{
		Use: "ship SSCC...", Short: "Note the cartons and pallets that leave for a customer",
		Long:    "Notes which cartons and pallets left, and for whom. A carton goes to one customer;\nwhat was withdrawn, or is made of it, is refused.",
		Example: "  chablon ship 095200010000000010 --to ossel-larder --order OL-4711 --shop my-shop",
		Args: func(_ *cobra.Command, args []string) error {
			if len(args) == 0 {
				return usage.Errorf("give the 18 digits under the bars", "which cartons?")
			}
			return nil
		},
		RunE: func(_ *cobra.Command, args []string) error {
			s.SSCCs = args
			return a.desk(func(ctx context.Context, d *follow.Desk, _ *print.Press) error {
				e, err := d.Ship(ctx, s)
				return a.noted(ctx, d, e, err)
			})
		},
	}
	c.Flags().StringVar(&s.To, "to", "", "the customer: its id in customers/, or its name")
	c.Flags().StringVar(&s.Order, "order", "", "number of the order or delivery note")
	c.Flags().Var(textFlag(&s.Day, "day"), "on", "day on which it left; today when left out")
	return a.fromShop(c)
}

func (a *app) withdraw() *cobra.Command {
	var of, why string
	var said, undeclared []string
	c := &cobra.Command{
		Use: "recall CODE", Short: "Withdraw a lot or batch: nothing of it is used, packed or shipped any more",
		Long: "Notes that a lot or batch may no longer be used or sold, and lists where it went.\nEverything made of it is refused from then on. What must be told to customers\nand to the authority, and how soon, is for a competent person and local law.\n" +
			"--because is for the house; --tell is what buyers are told, on chablon notice and on\nthe pages behind the links, once for each language. It may be given again to add one.",
		Example: "  chablon recall OF-88 --because \"glass found by the supplier\" --tell \"en=Small pieces of glass may be in it.\" --shop my-shop\n  chablon recall OF-88 --undeclared milk --tell \"fr=Il peut contenir des éclats de verre.\" --shop my-shop",
		Args:    exactlyOne("lot or batch code"),
		RunE: func(_ *cobra.Command, args []string) error {
			return a.desk(func(ctx context.Context, d *follow.Desk, _ *print.Press) error {
				r, err := follow.Reason(why, said, undeclared)
				if err != nil {
					return err
				}
				list, err := d.Withdraw(ctx, args[0], of, r)
				if err != nil {
					return err
				}
				if err := a.allNoted(ctx, d, list); err != nil {
					return err
				}
				rep, err := d.Trace(ctx, args[0], list[0].In[0].ID, trace.Forth, time.Now)
				if err == nil {
					fmt.Fprint(a.Out, rep.Text())
				}
				return err
			})
		},
	}
	c.Flags().StringVar(&of, "of", "", "id of what it is of, where several bear the code")
	c.Flags().StringVar(&why, "because", "", "why it is withdrawn, for the house")
	c.Flags().StringArrayVar(&said, "tell", nil, "what buyers are told of the reason, such as \"fr=Des éclats de verre ...\"; once for each language")
	c.Flags().StringSliceVar(&undeclared, "undeclared", nil, "allergens in it that the label does not name, such as milk,almonds")
	return a.fromShop(c)
}

func (a *app) undo() *cobra.Command {
	var why string
	c := &cobra.Command{
		Use: "undo EVENT", Short: "Take back an event that was noted wrongly",
		Long:    "Takes an event back by another one: both stay in the book. What others rest on\nmust be undone after them. chablon events lists the numbers.",
		Example: "  chablon undo 7 --because \"typed the wrong customer\" --shop my-shop",
		Args:    exactlyOne("event"),
		RunE: func(_ *cobra.Command, args []string) error {
			var n unit.Count
			if err := n.UnmarshalText([]byte(args[0])); err != nil {
				return usage.Errorf("chablon events lists the numbers", "%q is not the number of an event", args[0])
			}
			return a.desk(func(ctx context.Context, d *follow.Desk, _ *print.Press) error {
				e, err := d.Undo(int64(n), why)
				return a.noted(ctx, d, e, err)
			})
		},
	}
	c.Flags().StringVar(&why, "because", "", "why it was wrong")
	return a.fromShop(c)
}

func (a *app) note() *cobra.Command {
	c := &cobra.Command{
		Use: "note FILE.csv", Short: "Note all that a table says, or nothing of it",
		Long:    "Reads a table with the columns what, of, code, mass, pieces, into, into-code,\npartner, order, day, until and why. The first cell of a line is lot, used, made or\nshipped. chablon used writes such a table from the plan of the day.",
		Example: "  chablon note day.csv --shop my-shop",
		Args:    exactlyOne("file"),
		RunE: func(_ *cobra.Command, args []string) error {
			f, err := os.Open(args[0])
			if err != nil {
				return usage.Errorf("", "cannot read the table: %v", err)
			}
			defer f.Close()
			return a.desk(func(ctx context.Context, d *follow.Desk, _ *print.Press) error {
				done, err := d.Keep(ctx, filepath.ToSlash(args[0]), f)
				for _, e := range done {
					fmt.Fprintln(a.Out, follow.Line(e))
				}
				return err
			})
		},
	}
	return a.fromShop(c)
}

func (a *app) used() *cobra.Command {
	var to string
	c := &cobra.Command{
		Use: "used", Short: "Propose what the plan of the day used and made, as a table to correct and note",
		Long:    "Writes a table of what today's plan (or that of --today) uses and makes: every\ningredient from the lot that keeps shortest. Correct what was otherwise, write the\ncode where it says ?, then: chablon note FILE.csv.",
		Example: "  chablon used --csv used.csv --shop my-shop",
		Args:    atMost(0),
		RunE: func(*cobra.Command, []string) error {
			return a.desk(func(ctx context.Context, d *follow.Desk, _ *print.Press) error {
				rows, err := d.Propose(ctx)
				if err != nil {
					return err
				}
				return a.toFile(to, func(w io.Writer) error { return follow.Table(w, rows) })
			})
		},
	}
	c.Flags().StringVar(&to, "csv", "-", "file to write; - for the screen")
	return a.fromShop(c)
}

func (a *app) events() *cobra.Command {
	var to string
	c := &cobra.Command{
		Use: "events", Short: "List all that was noted, and write it for other computers",
		Long:    "Lists every event in the book, undone ones too, and the lots of which something is\nleft. --epcis writes the events as an EPCIS 2.0 document.",
		Example: "  chablon events --shop my-shop\n  chablon events --epcis events.json --shop my-shop",
		Args:    atMost(0),
		RunE: func(*cobra.Command, []string) error {
			return a.desk(func(ctx context.Context, d *follow.Desk, p *print.Press) error {
				all, err := d.Book.Events(ctx)
				if err != nil {
					return err
				}
				if to != "" {
					return a.epcis(p, all, to)
				}
				for _, e := range all {
					fmt.Fprintln(a.Out, follow.Line(e))
				}
				lots, err := trace.Lots(ctx, d.Book)
				for _, l := range lots {
					fmt.Fprintf(a.Out, "left: %s of %s of %s%s\n", l.Left, l.Code, l.ID, until(l.Until))
				}
				return err
			})
		},
	}
	c.Flags().StringVar(&to, "epcis", "", "file to write the events to, as EPCIS 2.0; - for the screen")
	return a.fromShop(c)
}

func until(day string) string {
	if day == "" {
		return ""
	}
	return ", keeps until " + day
}

// epcis writes events for other computers.
func (a *app) epcis(p *print.Press, all []trace.Event, to string) error {
	doc, err := epcis.Document(epcis.House{Name: p.Shop.Profile.Name.V, GTIN: p.GTIN, Until: p.DateKind}, p.Made, all)
	if err != nil {
		return err
	}
	return a.toFile(to, func(w io.Writer) error {
		_, err := w.Write(append(doc, '\n'))
		return err
	})
}

// traceFlags are the flags of a trace.
type traceFlags struct {
	of, table, doc, language string
	back, forth, sheet, mock bool
}

func (a *app) trace() *cobra.Command {
	var f traceFlags
	c := &cobra.Command{
		Use: "trace CODE", Short: "Follow a lot or batch to the customers, or a carton back to the lots",
		Long: "Follows the lot, batch, carton or pallet with this code: a lot or batch forth to\nthe cartons and customers, a carton or pallet back to the lots and suppliers;\n--back and --forth choose. It says how long the search took.\n" +
			"--sheet prints what was found, to be worked down and signed. --mock makes it a mock\nrecall: both ways, with times and the balance of masses, printed as the record that\nan inspector asks for (Reg. (EC) 178/2002 Art. 18: one step back and forward).",
		Example: "  chablon trace HD-4471 --shop my-shop\n  chablon trace HD-4471 --mock --shop my-shop\n  chablon trace 095200010000000010 --shop my-shop\n  chablon trace L26076A --of bench-tin --csv - --shop my-shop",
		Args:    exactlyOne("code"),
		RunE: func(_ *cobra.Command, args []string) error {
			switch {
			case f.back && f.forth:
				return usage.Errorf("choose one", "--back and --forth lead different ways")
			case f.mock && (f.back || f.forth || f.table != "" || f.doc != ""):
				return usage.Errorf("leave the others out", "--mock searches both ways, and prints")
			}
			return a.desk(func(ctx context.Context, d *follow.Desk, p *print.Press) error {
				if f.mock {
					return a.exercise(ctx, d, p, args[0], f)
				}
				return a.follow(ctx, d, p, args[0], f)
			})
		},
	}
	c.Flags().StringVar(&f.of, "of", "", "id of what it is of, where several bear the code")
	c.Flags().BoolVar(&f.back, "back", false, "to what it was made of")
	c.Flags().BoolVar(&f.forth, "forth", false, "to what became of it")
	c.Flags().StringVar(&f.table, "csv", "", "write a table to this file; - for the screen")
	c.Flags().StringVar(&f.doc, "epcis", "", "write the events on the way to this file, as EPCIS 2.0; - for the screen")
	c.Flags().BoolVar(&f.sheet, "sheet", false, "print what was found, to be worked down and signed")
	c.Flags().BoolVar(&f.mock, "mock", false, "print the record of a mock recall")
	c.Flags().StringVar(&f.language, "language", "", "language of the paper, such as en; the first of the cards when left out")
	return a.fromShop(a.writes(c))
}

// follow answers one question.
func (a *app) follow(ctx context.Context, d *follow.Desk, p *print.Press, code string, f traceFlags) error {
	way, err := d.Way(ctx, code, f.of, f.back, f.forth)
	if err != nil {
		return err
	}
	r, err := d.Trace(ctx, code, f.of, way, time.Now)
	if err != nil {
		return err
	}
	switch {
	case f.table != "":
		return a.toFile(f.table, r.CSV)
	case f.doc != "":
		return a.epcis(p, r.Events, f.doc)
	}
	fmt.Fprint(a.Out, r.Text())
	fmt.Fprintf(a.Out, "found in %s\n", r.Took.Round(time.Millisecond))
	if !f.sheet {
		return nil
	}
	return a.traced(ctx, d, p, f, print.Traced{Of: r.From, Reports: []*follow.Report{r}})
}

// exercise is a mock recall.
func (a *app) exercise(ctx context.Context, d *follow.Desk, p *print.Press, code string, f traceFlags) error {
	x, err := d.Exercise(ctx, code, f.of, time.Now)
	if err != nil {
		return err
	}
	fmt.Fprint(a.Out, x.Back.Text(), x.Forth.Text())
	fmt.Fprintf(a.Out, "found both ways in %s\n", x.Took.Round(time.Millisecond))
	return a.traced(ctx, d, p, f, print.Traced{Of: x.Forth.From, Reports: []*follow.Report{x.Forth, x.Back}, Exercise: x})
}

// traced prints what was found.
func (a *app) traced(ctx context.Context, d *follow.Desk, p *print.Press, f traceFlags, q print.Traced) (err error) {
	if q.Why, err = d.Why(ctx, q.Of); err != nil {
		return err
	}
	if f.language != "" {
		q.Languages = []string{f.language}
	}
	b, err := p.Traced(q)
	if err != nil {
		return err
	}
	return a.write(p, b, p.KindOf("traced").Next)
}

// toFile writes to the file path, or to the screen where it is "-". A file
// that is there already is not written over.
func (a *app) toFile(path string, write func(io.Writer) error) error {
	if path == "-" {
		return write(a.Out)
	}
	f, err := os.OpenFile(path, os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o666)
	if errors.Is(err, os.ErrExist) {
		return usage.Errorf("name another file", "%s is there already", path)
	}
	if err != nil {
		return err
	}
	if err := errors.Join(write(f), f.Close()); err != nil {
		return err
	}
	fmt.Fprintln(a.Out, path)
	return nil
}

// exactly asks for n words after the command.
func exactly(n int, what string) cobra.PositionalArgs {
	return func(c *cobra.Command, args []string) error {
		if len(args) < n {
			return usage.Errorf("write it like:"+firstLine(c.Example), "%s", what)
		}
		return atMost(n)(c, args)
	}
}
