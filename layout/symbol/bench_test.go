package symbol

import "testing"

func BenchmarkSymbols(b *testing.B) {
	for _, bb := range []struct {
		name string
		make func() error
	}{
		{"EAN-13", func() error { _, err := EAN13("9520001000010", module); return err }},
		{"GS1-128", func() error { _, err := GS1128("011952000100001715260320"+"10L26076A", module); return err }},
		{"GS1 DataMatrix", func() error {
			_, err := GS1DataMatrix("011952000100001715260320"+"10L26076A\x1d217", module)
			return err
		}},
		{"QR", func() error { _, err := QR("https://id.gs1.org/01/09520001000010/10/L26076A", M, module); return err }},
	} {
		b.Run(bb.name, func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				if err := bb.make(); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}
