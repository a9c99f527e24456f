package controls_test

import (
	"fmt"

	"tautline/stdlib/controls"
	"tautline/stdlib/units"
)

// A switch that works every 5 s, 16 h on 220 days: 2 534 400 operations a year. With
// a B10d of 60 million it fails dangerously after 60/(0.1·2.5344) years on average,
// the example of ISO 13849-1, Annex C (from memory: verify against the document).
func ExampleWear() {
	w := controls.Wear{B10d: 60e6, Days: 220, Hours: 16 * units.H, Every: 5 * units.S}
	fmt.Printf("%.0f operations, %.0f years\n", w.Operations(), w.MTTFd()/(365.25*24*units.H))
	// Output: 2534400 operations, 237 years
}

// Separation 15, overload 15, environment 25 and the rest 10: just the 65 that
// category 3 needs (ISO 13849-1, Table F.1, from memory: verify).
func ExampleCCF() {
	c := controls.CCF{Separation: true, Overload: true, Environment: true, Other: true}
	fmt.Printf("%.0f points\n", c.Score())
	// Output: 65 points
}
