package laminate_test

import (
	"fmt"
	"math"

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

// Mat of 450 g/m² with a glass share of 0.3: 450·0.7/0.3 g/m² of resin.
func ExampleConstituents() {
	c := laminate.GlassPolyester()
	fmt.Printf("%.0f g/m²\n", c.ResinMass(0.45*units.KgPerM2, 0.3)*1000/units.KgPerM2)
	// Output: 1050 g/m²
}

// A pull of 100 MPa along x seen at 45°: half of it along and across, half in shear.
func ExamplePlaneStress() {
	s := laminate.PlaneStress{X: 100 * units.MPa}.Local(45 * units.Deg)
	fmt.Printf("%.0f, %.0f and %.0f MPa\n", s.X/units.MPa, s.Y/units.MPa, math.Abs(s.Shear)/units.MPa)
	// Output: 50, 50 and 50 MPa
}

// A washer of 40 mm behind 5 mm of laminate, 60 MPa through it: π·40·5·60 N.
func ExampleInsert() {
	i := laminate.Insert{Fixing: laminate.Backed, Plate: 40 * units.Mm, Thickness: 5 * units.Mm, Shear: 60 * units.MPa}
	r, err := i.Resistance()
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%.1f kN\n", r.Pull/units.KN)
	// Output: 37.7 kN
}

// Half of the strength along the fibre leaves a factor of 2.
func ExampleLamina() {
	l := laminate.MatByFraction(0.3)
	s, err := l.Strength(laminate.PlaneStress{X: l.Xt / 2}, laminate.MaxStress)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%.1f\n", s)
	// Output: 2.0
}

// A square panel of 500 mm by 500 mm, 10 mm of a material with 10 GPa and Poisson's
// ratio 0.3 (invented), free to turn at its edges, under 5 kPa: 0.00406·q·a⁴/D with
// D = E·t³/(12·(1 - 0.3²)) (Timoshenko and Woinowsky-Krieger, Table 8, from memory:
// verify).
func ExamplePanel() {
	plate := laminate.NewCoat("plate", laminate.Isotropic(10*units.GPa, 0.3, 1800*units.KgPerM3), 10*units.Mm)
	panel := laminate.Panel{Length: 500 * units.Mm, Width: 500 * units.Mm, Skin: laminate.Laminate{Plies: []laminate.Ply{plate}}}
	r, err := panel.Press(laminate.PanelLoad{Pressure: 5 * units.KPa})
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%.2f mm\n", r.Deflection/units.Mm)
	// Output: 1.39 mm
}
