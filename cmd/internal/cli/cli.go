// Package cli answers: what did the user ask for?
//
// It reads the command line, hands a request to package print, and says what
// came of it: one line for each file, findings with file:line:col, and an exit
// status. Nothing is decided here about food or paper.
package cli

import (
	"errors"
	"fmt"
	"io"
	"net"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"time"

	"github.com/spf13/cobra"

	"chablon/cmd/internal/keep"
	"chablon/cmd/internal/print"
	"chablon/cmd/internal/usage"
	"chablon/labels/diag"
	"chablon/labels/register"
	"chablon/labels/unit"
)

// Streams are the program's ways in and out.
type Streams struct {
	In       io.Reader
	Out, Err io.Writer
	Getenv   func(string) string
	Disk     keep.Disk                                  // where files are written; nil for the machine's
	Now      func() time.Time                           // the machine's clock; time.Now when nil
	Stop     <-chan struct{}                            // ends a command that goes on until it is stopped; nil for the machine's signals alone
	Listen   func(address string) (net.Listener, error) // the machine's net when nil
}

// Exit statuses.
const (
	Fine     = 0 // all was done
	Findings = 1 // the shop's files have errors: what they touch was not printed
	BadLine  = 2 // the command line is wrong
	Broken   = 3 // the machine failed: disk, memory, font
)

// Version is the version that chablon reports.
const Version = "0.1"

// errFindings is returned by a command whose findings have been written.
var errFindings = errors.New("findings")

// Main runs one command line and returns the exit status.
func Main(s Streams, args []string) int {
	if s.Disk == nil {
		s.Disk = keep.Machine{}
	}
	if s.Now == nil {
		s.Now = time.Now
	}
	if s.Listen == nil {
		s.Listen = func(address string) (net.Listener, error) { return net.Listen("tcp", address) }
	}
	terminal := s.Err
	s.Out, s.Err = &screen{to: s.Out}, &screen{to: s.Err}
	root := commands(&app{Streams: s, terminal: terminal})
	root.SetArgs(args)
	root.SetIn(s.In)
	root.SetOut(s.Out)
	root.SetErr(s.Err)
	return s.status(root.Execute())
}

// status tells the user what went wrong and gives the exit status.
func (s Streams) status(err error) int {
	var bad *usage.Error
	var book *register.Error
	switch {
	case err == nil:
		return Fine
	case errors.Is(err, errFindings):
		return Findings
	case errors.As(err, &bad):
		s.complain(bad.Msg, bad.Hint)
		return BadLine
	case errors.As(err, &book):
		s.complain(err.Error(), book.Hint())
		return Broken
	}
	s.complain(err.Error(), "")
	return Broken
}

func (s Streams) complain(msg, hint string) {
	oneLine := func(s string) string { return diag.Visible(strings.ReplaceAll(strings.TrimSpace(s), "\n", "; ")) }
	fmt.Fprintf(s.Err, "chablon: %s\n", oneLine(msg))
	if hint != "" {
		fmt.Fprintf(s.Err, "  hint: %s\n", oneLine(hint))
	}
}

// app is what the commands share: the streams and the common flags.
type app struct {
	Streams
	shop, out, today string
	as               string    // how pages are written
	to               string    // printer that they are sent to
	every            bool      // show every caution
	told             int       // findings shown so far
	terminal         io.Writer // for progress, which writes over itself
	demo             bool
}

// commands is the whole tree.
func commands(a *app) *cobra.Command {
	root := &cobra.Command{
		Use:           "chablon",
		Short:         "Prints the paper of a pastry kitchen: cards, labels, cartons",
		Long:          about,
		Example:       "  chablon day samples/quoin-and-crumb\n  chablon label pear-hazelnut-tartlet --count 24",
		SilenceUsage:  true,
		SilenceErrors: true,
		Args:          unknownCommand,
		RunE:          func(c *cobra.Command, _ []string) error { return c.Help() },
		Version:       Version,
	}
	root.SetVersionTemplate("chablon {{.Version}}\n")
	root.SetFlagErrorFunc(flagError)
	root.PersistentFlags().BoolVar(&a.every, "every-caution", false, "show each caution, also where many are of one kind")
	root.PersistentFlags().StringVar(&a.today, "today", "", "the day to take as today, such as 2026-03-17")
	root.AddCommand(a.check(), a.day())
	for _, k := range print.Kinds() {
		if k.Short != "" {
			root.AddCommand(a.prints(k))
		}
	}
	root.AddCommand(a.wall(), a.declare(), a.composition(), a.law(), a.why(), a.diff(), a.approve(),
		a.again(), a.tally(), a.lot(), a.batch(), a.used(), a.note(), a.measured(), a.ship(), a.events(), a.undo(), a.trace(), a.withdraw(), a.fresh(), a.calibrate(), a.schema(), a.keys(), a.version())
	root.AddCommand(a.notice(), a.pages(), a.printers(), a.counter())
	root.AddCommand(a.explain(), a.history())
	for _, c := range root.Commands() {
		c.SetFlagErrorFunc(flagError)
		a.completeFlags(c)
	}
	return root
}

const about = `chablon turns the YAML files of one kitchen into paper that is safe to sell
with: bench cards, sale labels, carton labels and a run sheet.

It computes from what it was told. A competent person approves what is
printed; local law and the authority decide.

Exit status: 0 fine, 1 findings in the shop's files, 2 bad command line,
3 broken machine.`

// unknownCommand refuses a first word that is no command.
func unknownCommand(c *cobra.Command, args []string) error {
	if len(args) == 0 {
		return nil
	}
	hint := "chablon --help lists the commands"
	var names []string
	for _, sub := range c.Commands() {
		names = append(names, sub.Name())
	}
	if meant := diag.Nearest(args[0], names); meant != "" {
		hint = "did you mean " + meant + "?"
	}
	return usage.Errorf(hint, "there is no command %q", args[0])
}

// flagError says what is wrong with a flag, and which one may have been meant.
func flagError(c *cobra.Command, err error) error {
	var bad *usage.Error
	if errors.As(err, &bad) {
		return bad
	}
	hint := c.CommandPath() + " --help lists the flags"
	if _, name, ok := strings.Cut(err.Error(), "unknown flag: --"); ok {
		if meant := diag.Nearest(name, flagNames(c)); meant != "" {
			hint = "did you mean --" + meant + "?"
		}
	}
	return &usage.Error{Msg: err.Error(), Hint: hint}
}

// atMost allows up to n words after the command.
func atMost(n int) cobra.PositionalArgs {
	return func(c *cobra.Command, args []string) error {
		if len(args) > n {
			return usage.Errorf("write it like:"+firstLine(c.Example), "%q is one word too many", args[n])
		}
		return nil
	}
}

// exactlyOne asks for one word after the command.
func exactlyOne(what string) cobra.PositionalArgs {
	return func(c *cobra.Command, args []string) error {
		if len(args) == 0 {
			return usage.Errorf("write it like:"+firstLine(c.Example), "which %s?", what)
		}
		return atMost(1)(c, args)
	}
}

func firstLine(s string) string {
	line, _, _ := strings.Cut(strings.TrimLeft(s, "\n"), "\n")
	return " " + strings.TrimSpace(line)
}

// clock gives today, by the flag or the machine's clock, and the moment that
// documents are stamped with: SOURCE_DATE_EPOCH, or the day of the flag, or now.
// The variable makes the same bytes again; it does not say which day it is.
func (a *app) clock() (today unit.Date, made time.Time, err error) {
	now := a.Now()
	today, made = unit.DateOf(now), now
	if a.today != "" {
		if today, err = unit.ParseDate(a.today); err != nil {
			return today, now, &usage.Error{Msg: err.Error()}
		}
		made = today.Time()
	}
	if s := a.Getenv("SOURCE_DATE_EPOCH"); s != "" {
		sec, err := strconv.ParseInt(s, 10, 64)
		if err != nil {
			return today, now, usage.Errorf("take it out of the environment", "SOURCE_DATE_EPOCH is not a number of seconds")
		}
		made = time.Unix(sec, 0)
	}
	return today, made.UTC(), nil
}

// openNamed reads the shop that the word after the command names, or --shop.
func (a *app) openNamed(args []string) (*print.Press, error) {
	if len(args) == 0 {
		return a.open(a.shop)
	}
	if a.shop != "" {
		return nil, usage.Errorf("leave out --shop", "the shop is named twice")
	}
	return a.open(args[0])
}

// open reads the shop. Where none is named, it is the one whose folder the
// command is given in, or in a folder of; where there is none, nothing is
// printed of any other. The demo shop is taken where it is asked for.
func (a *app) open(dir string) (*print.Press, error) {
	switch {
	case a.demo && dir != "":
		return nil, usage.Errorf("leave out --demo", "the shop is named, so it is not the demo shop")
	case !a.demo && dir == "":
		var err error
		if dir, err = above(); err != nil {
			return nil, err
		}
	}
	today, made, err := a.clock()
	if err != nil {
		return nil, err
	}
	p, err := print.Open(dir, today, made)
	if err != nil {
		return nil, err
	}
	if p.As, err = print.FormOf(a.as); err != nil {
		return nil, err
	}
	p.To = a.to
	p.Now, p.Clock, p.Witness = a.Now(), a.Now().UTC(), keep.WitnessIn(a.state())
	return p, nil
}

// above finds the folder with shop.yaml: this one, or the nearest above it.
func above() (string, error) {
	here, err := os.Getwd()
	if err != nil {
		return "", fmt.Errorf("cannot tell in which folder this is: %w", err)
	}
	for dir, up := here, "."; ; dir, up = filepath.Dir(dir), filepath.Join(up, "..") {
		if info, err := os.Stat(filepath.Join(dir, "shop.yaml")); err == nil && !info.IsDir() {
			return up, nil
		}
		if dir == filepath.Dir(dir) {
			return "", usage.Errorf("chablon new DIR writes one to start from; name it with --shop, or give the command in its folder; --demo takes the invented demo shop",
				"there is no shop here: no shop.yaml in this folder or above it")
		}
	}
}

// state is the folder where programs of the user keep what they remember (XDG
// Base Directory Specification); "" where there is none.
func (a *app) state() string {
	if s := a.Getenv("XDG_STATE_HOME"); s != "" {
		return s
	}
	if s := a.Getenv("LOCALAPPDATA"); s != "" {
		return s
	}
	if s := a.Getenv("HOME"); s != "" {
		return filepath.Join(s, ".local", "state")
	}
	return ""
}

func counted(n int, one, many string) string {
	if n == 1 {
		return "1 " + one
	}
	return fmt.Sprintf("%d %s", n, many)
}
