package girder_test

import (
	"fmt"

	"tautline/stdlib/structure/girder"
	"tautline/stdlib/structure/section"
	"tautline/stdlib/units"
)

// A plank of 3 m on two trestles, 210 mm by 45 mm of timber with 11 GPa: I is
// 210·45³/12 = 159.5 cm⁴. A painter of 800 N stands in the middle: 800·3/4 N·m, and
// 800·3³/(48·11e9·159.5e-8) m. Invented.
func ExampleSimple() {
	plank := girder.Simple{Length: 3 * units.M, E: 11 * units.GPa, I: 159.5 * units.Cm4}
	fmt.Printf("moment %.0f N·m\n", plank.MiddleMoment(800*units.N)/units.Nm)
	fmt.Printf("deflection %.1f mm\n", plank.MiddleDeflection(800*units.N)/units.Mm)
	// Output:
	// moment 600 N·m
	// deflection 25.6 mm
}

// A lamp of 200 N on an arm of 1.5 m, a tube with 10.9 cm⁴ (invented):
// 200·1.5³/(3·210e9·10.9e-8) m.
func ExampleCantilever() {
	arm := girder.Cantilever{Length: 1.5 * units.M, E: 210 * units.GPa, I: 10.9 * units.Cm4}
	fmt.Printf("at the wall %.0f N·m\n", arm.TipMoment(200*units.N)/units.Nm)
	fmt.Printf("the tip sinks %.1f mm\n", arm.TipDeflection(200*units.N)/units.Mm)
	// Output:
	// at the wall 300 N·m
	// the tip sinks 9.8 mm
}

// A rung welded between two stout uprights, 0.5 m long, a tube of 21.3 mm by 2.6 mm:
// half of F·L/4 is at its ends, half in its middle. 1500·0.5/8 N·m.
func ExampleFixed() {
	tube := section.CHS(21.3*units.Mm, 2.6*units.Mm, section.ColdFormed)
	rung := girder.Fixed{Length: 0.5 * units.M, E: 210 * units.GPa, I: tube.Iy}
	M := rung.MiddleMoment(1.5 * units.KN)
	fmt.Printf("%.2f N·m\n", M/units.Nm)
	// Output: 93.75 N·m
}

// A deck of 2 kN/m, 3 m wide, in a wall at one side and on a post at the other. The
// post bears 3/8 of 6 kN.
func ExamplePropped() {
	deck := girder.Propped{Length: 3 * units.M, E: 210 * units.GPa, I: 171 * units.Cm4}
	q := 2 * units.KNPerM
	fmt.Printf("in the wall %.2f kN·m, on the post %.2f kN\n", deck.EvenEndMoment(q)/units.KNm, (q*deck.Length-deck.EvenShear(q))/units.KN)
	// Output: in the wall 2.25 kN·m, on the post 2.25 kN
}

// A sack that bends a plank by 10 mm at rest falls on it from 40 mm: 1 + √(1 + 80/10).
func ExampleDropFactor() {
	fmt.Printf("%.0f times its weight\n", girder.DropFactor(40*units.Mm, 10*units.Mm))
	// Output: 4 times its weight
}
