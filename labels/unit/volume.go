package unit

// Volume counts picolitres: 1e9 in a millilitre, as Mass counts 1e9 in a gram.
// The largest volume is about nine million litres.
type Volume int64

// Volumes to multiply with.
const (
	Millilitre Volume = 1_000_000_000
	Litre      Volume = 1000 * Millilitre
)

var volumes = measure{"a volume", "250 ml", false, []string{"l", "cl", "ml"},
	map[string]int64{"l": int64(Litre), "cl": 10 * int64(Millilitre), "ml": int64(Millilitre),
		"L": int64(Litre), "mL": int64(Millilitre)}, []string{"ml", "mL"}}

// ParseVolume reads "250 ml", "75 cl", "1.5 l".
func ParseVolume(s string) (Volume, error) {
	v, err := volumes.parse(s)
	return Volume(v), err
}

// UnmarshalText reads a volume with its unit.
func (v *Volume) UnmarshalText(b []byte) (err error) {
	*v, err = ParseVolume(string(b))
	return err
}

// Mass is the mass of v at the given density.
func (v Volume) Mass(d Density) Mass { return Mass(MulDiv(int64(v), int64(d), int64(Millilitre))) }

// String gives millilitres: "250 ml".
func (v Volume) String() string { return format(int64(v), int64(Millilitre)) + " ml" }
