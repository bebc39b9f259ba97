package symbol

import (
	"math/rand/v2"
	"os"
	"os/exec"
	"strconv"
	"strings"
	"testing"

	"chablon/labels/gs1"
	"chablon/layout/page"
)

// zint draws the modules of a symbol with another encoder, the program of that
// name of the Debian distribution; 1 for dark, row after row.
func zint(t *testing.T, kind string, cols int, args ...string) string {
	t.Helper()
	out, err := exec.Command("zint", append([]string{"--barcode=" + kind, "--dump"}, args...)...).Output()
	if err != nil {
		t.Fatalf("zint %v: %v", args, err)
	}
	var all strings.Builder
	for line := range strings.Lines(string(out)) {
		var row strings.Builder
		for _, c := range strings.Join(strings.Fields(line), "") {
			n, err := strconv.ParseUint(string(c), 16, 8)
			if err != nil {
				t.Fatalf("zint wrote %q", line)
			}
			bits := strconv.FormatUint(n+16, 2)
			row.WriteString(bits[1:])
		}
		if row.Len() < cols {
			t.Errorf("zint %v: %d modules, not %d", args, row.Len(), cols)
			return ""
		}
		if tail := row.String()[cols:]; strings.Trim(tail, "0") != "" {
			t.Errorf("zint %v: it goes on with %s behind %d modules", args, tail, cols)
		}
		all.WriteString(row.String()[:cols])
	}
	return all.String()
}

// TestAnotherEncoder draws random numbers with another encoder and compares
// module by module: EAN-13, EAN-8, UPC-A and ITF-14 (ISO/IEC 15420, 16390) and
// GS1-128 of digits alone (ISO/IEC 15417) can be drawn in one way only. GS1-128
// with letters must be as short. CHABLON_ZINT says that the encoder must be
// there, as .ci/run does.
func TestAnotherEncoder(t *testing.T) {
	if _, err := exec.LookPath("zint"); err != nil {
		if os.Getenv("CHABLON_ZINT") != "" {
			t.Fatal(err)
		}
		t.Skip("NOT COMPARED with another encoder: zint is not installed (apt-get install zint)")
	}
	r := rand.New(rand.NewPCG(9, 1))
	same := func(s *page.Symbol, err error, kind string, args ...string) {
		t.Helper()
		if err != nil {
			t.Fatal(err)
		}
		if want := zint(t, kind, s.Cols, args...); bits(s) != want {
			t.Errorf("%s %q:\n got %s\nwant %s", s.Kind, s.Data, bits(s), want)
		}
	}
	for range 25 {
		d := randomKey(t, r, 13)
		s, err := EAN13(d, module)
		same(s, err, "EANX", "--data="+d[:12])
		d = randomKey(t, r, 8)
		s, err = EAN8(d, module)
		same(s, err, "EANX", "--data="+d[:7])
		d = randomKey(t, r, 12)
		s, err = UPCA(d, module)
		same(s, err, "UPCA", "--data="+d[:11])
		d = randomKey(t, r, 14)
		s, err = ITF14(d, module)
		same(s, err, "ITF14", "--data="+d[:13])
		d = randomKey(t, r, 18)
		s, err = GS1128("00"+d, module)
		same(s, err, "GS1_128", "--data=[00]"+d)
		d = randomKey(t, r, 14)
		s, err = GS1128("01"+d+"17260319", module)
		same(s, err, "GS1_128", "--data=[01]"+d+"[17]260319")
		els := []gs1.Element{{AI: "01", Value: d}, {AI: "10", Value: "L" + randomDigits(r, 1+r.IntN(8)) + "A"}}
		data, err := gs1.Encode(els)
		if err != nil {
			t.Fatal(err)
		}
		s, err = GS1128(data, module)
		if err != nil {
			t.Fatal(err)
		}
		zint(t, "GS1_128", s.Cols, "--data="+strings.NewReplacer("(", "[", ")", "]").Replace(gs1.HRI(els)))
	}
}
