package shaft_test

import (
	"fmt"

	"tautline/stdlib/structure/shaft"
	"tautline/stdlib/units"
)

// A ball bearing under a fifth of its rating: 5³ = 125 million turns, which at
// 30 turns a minute are 125e6/(30·60) hours.
func ExampleBearingLife() {
	turns := shaft.BearingLife(20*units.KN, 4*units.KN, shaft.BallExponent)
	hours := shaft.BearingHours(turns, 30*units.Rpm) / units.H
	fmt.Printf("%.0f million turns, %.0f h\n", turns/1e6, hours)
	// Output: 125 million turns, 69444 h
}

// A shaft that bends and drives, then the key of the next size up. By hand:
// √(300² + 0.75·400²) = 458.3 N·m, 32·458.3/(π·60) cm³ = 77.8 cm³, whose cube
// root is 4.27 cm; the key's side is pressed with 2·400/(0.045·0.060·0.0045) Pa.
func ExampleDiameterFor() {
	torque := 400 * units.Nm
	d := shaft.DiameterFor(300*units.Nm, torque, 60*units.MPa)
	key := shaft.KeyBearing(torque, 45*units.Mm, 9*units.Mm, 60*units.Mm)
	fmt.Printf("at least %.1f mm; the key is pressed with %.1f MPa\n", d/units.Mm, key/units.MPa)
	// Output: at least 42.7 mm; the key is pressed with 65.8 MPa
}
