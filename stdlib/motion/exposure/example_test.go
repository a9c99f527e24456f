package exposure_test

import (
	"fmt"

	"tautline/stdlib/motion/exposure"
	"tautline/stdlib/units"
)

// What a ride's filter leaves of a lasting shake at its corner of 5 Hz is 1/√2, at
// 20 Hz, four times that, 1/√(1 + 4⁸) = 0.4 %: sampled, a little less.
func ExampleRideFilter() {
	f := exposure.RideFilter(1000 * units.Hz)
	fmt.Printf("%.3f, %.4f\n", f.Gain(5*units.Hz), f.Gain(20*units.Hz))
	// Output: 0.707, 0.0039
}

// An invented curve: 3 g for a second, 2 g for ten. What lies between is read off it.
func ExampleCurve() {
	c := exposure.Curve{Direction: "+z", Document: "none", Clause: "invented", Level: []units.Acceleration{2 * units.Gn, 3 * units.Gn}, Time: []units.Time{10 * units.S, 1 * units.S}}
	fmt.Printf("%.0f s at 3 g, %.0f s above\n", c.Allowed(3*units.Gn)/units.S, c.Allowed(3.1*units.Gn)/units.S)
	// Output: 1 s at 3 g, 0 s above
}
