package windload_test

import (
	"fmt"

	"tautline/stdlib/anchoring/windload"
	"tautline/stdlib/units"
)

// Wind of 24 m/s on the map, in a season with 0.9 of it.
func ExampleBasicSpeed() {
	v := windload.BasicSpeed(24*units.MPerS, 1, 0.9, 1)
	fmt.Printf("%.1f m/s\n", v/units.MPerS)
	// Output: 21.6 m/s
}
