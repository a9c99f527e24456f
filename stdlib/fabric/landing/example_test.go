package landing_test

import (
	"fmt"

	"tautline/stdlib/fabric/landing"
	"tautline/stdlib/units"
)

// A fall of 1.8 m: √(2·9.80665·1.8) = 5.94 m/s.
func ExampleFallSpeed() {
	v := landing.FallSpeed(1.8 * units.M)
	fmt.Printf("%.2f m/s\n", v/units.MPerS)
	// Output: 5.94 m/s
}

// The least way in which a head stops after 0.6 m within 200 g and a criterion of
// 1000: the peak counts, and a half sine of 200 g takes π·0.6 m/400 = 4.7 mm.
func ExampleImpactLimit_Cushion() {
	c, err := landing.PlaygroundSurfacing().Cushion(600 * units.Mm)
	if err != nil {
		panic(err)
	}
	fmt.Printf("%.1f mm\n", c.Distance/units.Mm)
	// Output: 4.7 mm
}
