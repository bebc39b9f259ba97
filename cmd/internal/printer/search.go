package printer

import (
	"context"
	"fmt"
	"net"
	"net/netip"
	"slices"
	"strings"
	"time"

	"golang.org/x/net/dns/dnsmessage"
)

// OnNet is a printer that can be found.
type OnNet struct{ Name, Address string }

// services are what printers without a driver call themselves, and the scheme of
// their addresses.
var services = [][2]string{{"_ipp._tcp.local.", "ipp"}, {"_ipps._tcp.local.", "ipps"}}

// everybody is where such questions are asked (RFC 6762, 3).
var everybody = netip.MustParseAddrPort("224.0.0.251:5353")

// Search looks for printers on the net, for as long as wait (RFC 6763 over RFC
// 6762). It asks as a program that looks once: answers come to it alone (6.7).
func Search(ctx context.Context, wait time.Duration) ([]OnNet, error) {
	ctx, cancel := context.WithTimeout(ctx, wait)
	defer cancel()
	faces, err := net.Interfaces()
	if err != nil {
		return nil, err
	}
	var socks []*net.UDPConn
	for _, ip := range own(faces) {
		if c, err := net.ListenUDP("udp4", &net.UDPAddr{IP: ip}); err == nil {
			defer c.Close()
			socks = append(socks, c)
		}
	}
	heard := make(chan []byte, 64)
	for _, c := range socks {
		go listen(c, heard)
	}
	k := known{}
	for _, s := range services {
		ask(socks, s[0], dnsmessage.TypePTR)
	}
	asked := map[string]bool{}
	for {
		select {
		case <-ctx.Done():
			return k.printers(), nil
		case data := <-heard:
			k.read(data)
			for _, q := range k.lacks() {
				if key := fmt.Sprint(q); !asked[key] && len(asked) < 500 {
					asked[key] = true
					ask(socks, q.name, q.kind)
				}
			}
		}
	}
}

// own are this machine's addresses, one for each interface.
func own(faces []net.Interface) (out []net.IP) {
	for _, f := range faces {
		addrs, err := f.Addrs()
		if err != nil || f.Flags&net.FlagUp == 0 {
			continue
		}
		for _, a := range addrs {
			if n, ok := a.(*net.IPNet); ok && n.IP.To4() != nil {
				out = append(out, n.IP.To4())
				break
			}
		}
	}
	return out
}

func listen(c *net.UDPConn, heard chan<- []byte) {
	buf := make([]byte, 9000)
	for {
		n, err := c.Read(buf)
		if err != nil {
			return
		}
		select {
		case heard <- slices.Clone(buf[:n]):
		default: // too many answers at once; they are asked for again
		}
	}
}

// ask asks for one kind of record on every interface.
func ask(socks []*net.UDPConn, name string, kind dnsmessage.Type) {
	n, err := dnsmessage.NewName(name)
	if err != nil {
		return
	}
	m := dnsmessage.Message{Questions: []dnsmessage.Question{{Name: n, Type: kind, Class: dnsmessage.ClassINET}}}
	data, err := m.Pack()
	if err != nil {
		return
	}
	for _, c := range socks {
		_, _ = c.WriteToUDPAddrPort(data, everybody) // an interface that takes none has no printers
	}
}

// known is what has been heard, by name.
type known map[string]*heardOf

// heardOf is what was heard of one name.
type heardOf struct {
	scheme string // of a printer
	srv    *dnsmessage.SRVResource
	txt    []string
	toldTX bool
	ip     net.IP // of a host
}

func (k known) of(name dnsmessage.Name) *heardOf {
	key := strings.ToLower(name.String())
	if k[key] == nil {
		k[key] = &heardOf{}
	}
	return k[key]
}

// read takes in one answer. One that cannot be read says nothing.
func (k known) read(data []byte) {
	var m dnsmessage.Message
	if len(k) > 1000 || m.Unpack(data) != nil {
		return
	}
	for _, r := range slices.Concat(m.Answers, m.Additionals) {
		switch b := r.Body.(type) {
		case *dnsmessage.PTRResource:
			for _, s := range services {
				if strings.EqualFold(r.Header.Name.String(), s[0]) && strings.HasSuffix(strings.ToLower(b.PTR.String()), "."+s[0]) {
					k.of(b.PTR).scheme = s[1]
				}
			}
		case *dnsmessage.SRVResource:
			k.of(r.Header.Name).srv = b
		case *dnsmessage.TXTResource:
			h := k.of(r.Header.Name)
			h.txt, h.toldTX = b.TXT, true
		case *dnsmessage.AResource:
			k.of(r.Header.Name).ip = net.IP(b.A[:])
		}
	}
}

// lack is a record that is still to be asked for.
type lack struct {
	name string
	kind dnsmessage.Type
}

func (k known) lacks() (out []lack) {
	for name, h := range k {
		switch {
		case h.scheme == "":
		case h.srv == nil:
			out = append(out, lack{name, dnsmessage.TypeSRV})
		case k.of(h.srv.Target).ip == nil:
			out = append(out, lack{h.srv.Target.String(), dnsmessage.TypeA})
		}
		if h.scheme != "" && !h.toldTX {
			out = append(out, lack{name, dnsmessage.TypeTXT})
		}
	}
	return out
}

// printers are those of which enough was heard. They may say anything.
func (k known) printers() (out []OnNet) {
	const plain = "abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789/-_."
	for name, h := range k {
		if h.scheme == "" || h.srv == nil || h.srv.Port == 0 || k.of(h.srv.Target).ip == nil {
			continue
		}
		path := "ipp/print"
		for _, t := range h.txt {
			if rp, ok := strings.CutPrefix(t, "rp="); ok && rp != "" && len(rp) < 200 && strings.Trim(rp, plain) == "" {
				path = rp
			}
		}
		label, _, _ := strings.Cut(name, "._ipp")
		at := net.JoinHostPort(k.of(h.srv.Target).ip.String(), fmt.Sprint(h.srv.Port))
		out = append(out, OnNet{clip(label), h.scheme + "://" + at + "/" + path})
	}
	slices.SortFunc(out, func(a, b OnNet) int { return strings.Compare(a.Name+a.Address, b.Name+b.Address) })
	return out
}
