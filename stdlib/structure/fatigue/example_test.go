package fatigue_test

import (
	"fmt"

	"tautline/stdlib/structure/fatigue"
	"tautline/stdlib/units"
)

// A cycle from -40 MPa to 60 MPa at a place that is not welded: what presses counts
// 0.6 of itself, 60 + 0.6·40 MPa (EN 1993-1-9, 7.2.1).
func ExampleCycle() {
	c := fatigue.Cycle{Range: 100 * units.MPa, Mean: 10 * units.MPa, Count: 1}
	fmt.Printf("%.0f MPa\n", c.Effective()/units.MPa)
	// Output: 84 MPa
}
