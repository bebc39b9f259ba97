package unit_test

import (
	"fmt"

	"chablon/labels/unit"
)

func ExampleParseMass() {
	m, _ := unit.ParseMass("1.2 kg")
	fmt.Println(m, m.Mul(24, 60))
	_, err := unit.ParseMass("360")
	fmt.Println(err)
	// Output:
	// 1200 g 480 g
	// "360" has no unit: write it like "360 g"
}

func ExampleParseTarget() {
	t, _ := unit.ParseTarget("88 ± 3 °C")
	fmt.Println(t.Lo, t.Hi, t.Tol, t.Mid().RoundF(), t.Tol.RoundF())
	// Output: 85 °C 91 °C 3 °C 190 5
}

func ExampleLife_End() {
	made, _ := unit.ParseDate("2026-08-31")
	keeps, _ := unit.ParseLife("6 months")
	fmt.Println(keeps.End(made))
	// Output: 2027-02-28
}

func ExampleDots_Snap() {
	d, _ := unit.ParseDots("8 per mm")
	fmt.Println(d.Snap(330 * unit.UM))
	// Output: 0.375 mm
}
