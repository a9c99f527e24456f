package laminate_test

import (
	"fmt"

	"tautline/stdlib/structure/laminate"
	"tautline/stdlib/units"
)

// Three mats of 450 g/m² with 30 % of glass. By hand: a mat is
// (0.45/3.072)·(2.56/0.3 - 1.36) = 1.05 mm thick (ISO 12215-5, Annex A) and
// weighs 450/0.3 g/m²; its modulus is 38·0.3 - 5 GPa (Annex C).
func ExampleLaminate() {
	mat := laminate.NewPly("mat 450", laminate.MatByFraction(0.3), 450*units.GPerM2, 0.3, laminate.GlassPolyester())
	body := laminate.Laminate{Plies: []laminate.Ply{mat, mat, mat}}
	stiffness, err := body.Stiffness()
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%.2f mm, %.2f kg/m², %.2f of it resin\n", body.Thickness()/units.Mm, body.Mass()/units.KgPerM2, body.Resin()/units.KgPerM2)
	fmt.Printf("modulus %.1f GPa\n", stiffness.Ex/units.GPa)
	// Output:
	// 3.15 mm, 4.50 kg/m², 3.15 of it resin
	// modulus 6.4 GPa
}

// A strip of platform with 500 N in the middle of 0.8 m. By hand, with the
// formulas of the methods: E·I is 338.8 + 0.9 + 4.0 = 343.7 N·m²,
// 500·0.8³/(48·343.7) = 15.5 mm and 500·0.8·0.02/(4·20e6·0.1·0.022²) = 2.1 mm.
func ExampleSandwichBeam() {
	strip := laminate.SandwichBeam{
		Width: 100 * units.Mm, Face: 2 * units.Mm, FaceE: 7 * units.GPa,
		Core: 20 * units.Mm, CoreE: 60 * units.MPa, CoreG: 20 * units.MPa,
	}
	bends := strip.BendingDeflection(500*units.N, 0.8*units.M)
	shears := strip.ShearDeflection(500*units.N, 0.8*units.M)
	fmt.Printf("%.1f mm bent, %.1f mm sheared\n", bends/units.Mm, shears/units.Mm)
	// Output: 15.5 mm bent, 2.1 mm sheared
}
