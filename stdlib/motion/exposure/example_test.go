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
