package holding_test

import (
	"fmt"

	"tautline/stdlib/anchoring/holding"
	"tautline/stdlib/units"
)

// A strap of 10 kN with a knot in it, which leaves half.
func ExampleStrap_Allowable() {
	strap := holding.Strap{Limit: 10 * units.KN, Reduction: 0.5, Elongation: 0.07, Length: 1.5 * units.M}
	fmt.Printf("%.1f kN\n", strap.Allowable()/units.KN)
	// Output: 5.0 kN
}
