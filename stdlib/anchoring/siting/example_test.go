package siting_test

import (
	"fmt"

	"tautline/stdlib/anchoring/siting"
	"tautline/stdlib/units"
)

// Round a platform of 4 m: half of it, 2 m, which is more than 1.8 m.
func ExamplePlaySurround() {
	for _, platform := range []units.Length{1 * units.M, 4 * units.M} {
		fmt.Printf("%.1f m\n", siting.PlaySurround(platform).Closed/units.M)
	}
	// Output:
	// 1.8 m
	// 2.0 m
}
