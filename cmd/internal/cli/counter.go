package cli

import (
	"context"
	"crypto/rand"
	"errors"
	"fmt"
	"math/big"
	"net"
	"net/http"
	"os"
	"os/signal"
	"path/filepath"
	"strings"
	"syscall"
	"time"

	"github.com/spf13/cobra"

	"chablon/cmd/internal/counter"
	"chablon/cmd/internal/keep"
	"chablon/cmd/internal/print"
	"chablon/cmd/internal/usage"
	"chablon/labels/unit"
)

// counterFlags are the flags of the counter.
type counterFlags struct {
	port      uint16
	lan       bool
	names     []string
	cert, key string
}

func (a *app) counter() *cobra.Command {
	var f counterFlags
	c := &cobra.Command{
		Use:   "counter [SHOP]",
		Short: "Serve pages to print from, for staff without a command line",
		Long: "Serves pages on which staff choose a product, look at the very label, and print it.\n" +
			"They are for this machine alone; with --lan for others on the same net too, who give\n" +
			"the PIN that is shown here. It goes on until it is stopped (Ctrl and C).\n" +
			"It changes no file of the shop, and signs nothing.",
		Example: "  chablon counter my-shop\n  chablon counter my-shop --lan --name kitchen.local",
		Args:    atMost(1),
		RunE: func(_ *cobra.Command, args []string) error {
			if len(args) > 0 && a.shop != "" {
				return usage.Errorf("leave out --shop", "the shop is named twice")
			}
			if len(args) > 0 {
				a.shop = args[0]
			}
			return a.serve(f)
		},
	}
	c.Flags().Uint16Var(&f.port, "port", 8450, "port to listen on; 0 for any that is free")
	c.Flags().BoolVar(&f.lan, "lan", false, "let others on the same net in, with a PIN")
	c.Flags().StringSliceVar(&f.names, "name", nil, "further names by which this machine is called on the net, such as kitchen.local")
	c.Flags().StringVar(&f.cert, "cert", "", "file with the certificate (PEM), to serve over TLS")
	c.Flags().StringVar(&f.key, "key", "", "file with its key (PEM)")
	return a.fromShop(a.writes(c))
}

// serve serves the counter until it is told to stop.
func (a *app) serve(f counterFlags) error {
	if (f.cert == "") != (f.key == "") {
		return usage.Errorf("give both, or neither", "--cert and --key belong together")
	}
	p, err := a.open(a.shop)
	if err != nil {
		return err
	}
	cfg, err := a.counterOf(p, f)
	if err != nil {
		return err
	}
	c, err := counter.New(cfg)
	if err != nil {
		return err
	}
	on := "127.0.0.1"
	if f.lan {
		on = ""
	}
	l, err := a.Listen(net.JoinHostPort(on, fmt.Sprint(f.port)))
	if err != nil {
		return usage.Errorf("stop the other program, or take another one: --port", "port %d cannot be had: %v", f.port, err)
	}
	a.sayCounter(l.Addr().(*net.TCPAddr).Port, cfg, f)
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt, syscall.SIGTERM)
	defer stop()
	return a.until(ctx, l, c, f)
}

// until serves until the context ends, or the streams say so; what is being
// printed is finished.
func (a *app) until(ctx context.Context, l net.Listener, h *counter.Counter, f counterFlags) error {
	s := &http.Server{Handler: h, ReadHeaderTimeout: 5 * time.Second, ReadTimeout: 15 * time.Second, IdleTimeout: time.Minute, MaxHeaderBytes: 32 << 10}
	s.RegisterOnShutdown(h.Close)
	go h.Warm()
	done := make(chan error, 1)
	go func() {
		if f.cert != "" {
			done <- s.ServeTLS(l, f.cert, f.key)
			return
		}
		done <- s.Serve(l)
	}()
	select {
	case err := <-done:
		return err
	case <-ctx.Done():
	case <-a.Stop:
	}
	last, cancel := context.WithTimeout(context.Background(), 30*time.Second)
	defer cancel()
	err := errors.Join(s.Shutdown(last), <-done)
	h.Wait()
	if !errors.Is(err, http.ErrServerClosed) {
		return err
	}
	return nil
}

// counterOf is what the counter is told.
func (a *app) counterOf(p *print.Press, f counterFlags) (cfg counter.Config, err error) {
	kept, err := print.Keep(p.Name)
	if err != nil {
		return cfg, err
	}
	cfg = counter.Config{Shop: kept, Now: a.Now, Disk: a.Disk, Witness: keep.WitnessIn(a.state()), Secure: f.cert != "", Who: a.Getenv("USER"),
		Hosts: append([]string{"localhost", "127.0.0.1", "::1"}, lowered(f.names)...)}
	cfg.Today = func() unit.Date {
		if today, _, err := a.clock(); err == nil {
			return today
		}
		return unit.DateOf(a.Now())
	}
	cfg.Out = func(day unit.Date) string {
		if a.out != "" {
			return a.out
		}
		return filepath.Join(p.Name, "out", day.String())
	}
	if f.lan {
		cfg.Hosts = append(cfg.Hosts, addresses()...)
		cfg.PIN, err = newPIN()
	}
	return cfg, err
}

func lowered(names []string) (out []string) {
	for _, n := range names {
		out = append(out, strings.ToLower(n))
	}
	return out
}

// newPIN is six figures that nobody can guess.
func newPIN() (string, error) {
	n, err := rand.Int(rand.Reader, big.NewInt(1_000_000))
	if err != nil {
		return "", err
	}
	return fmt.Sprintf("%06d", n), nil
}

// addresses are those of this machine, without loopback.
func addresses() (out []string) {
	all, _ := net.InterfaceAddrs() // without any, only names that were given let in
	for _, at := range all {
		if n, ok := at.(*net.IPNet); ok && !n.IP.IsLoopback() && !n.IP.IsLinkLocalUnicast() {
			out = append(out, n.IP.String())
		}
	}
	return out
}

// sayCounter says where the counter is to be found, and what to mind.
func (a *app) sayCounter(port int, cfg counter.Config, f counterFlags) {
	scheme, names := "http", []string{"127.0.0.1"}
	if cfg.Secure {
		scheme = "https"
	}
	if f.lan {
		names = append(names, cfg.Hosts[3:]...)
	}
	for _, n := range names {
		fmt.Fprintf(a.Out, "%s://%s/\n", scheme, net.JoinHostPort(n, fmt.Sprint(port)))
	}
	if cfg.PIN != "" {
		fmt.Fprintf(a.Out, "PIN %s\n", cfg.PIN)
	}
	if cfg.PIN != "" && !cfg.Secure {
		fmt.Fprintln(a.Err, "without --cert and --key the PIN can be read along by others on the same net")
	}
	fmt.Fprintln(a.Out, "Next: open the address in a browser. Ctrl and C ends it.")
}
