package siting_test

import (
	"fmt"

	"tautline/stdlib/anchoring"
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

// A set that is safe in 20 m/s. The rule's 38 km/h for play inflatables come first;
// the bed goes up in 0.6 of that.
func ExampleWindPlan() {
	plan := siting.PlanWind(20*units.MPerS, 1.2, anchoring.PlayInflatableAnchors())
	fmt.Printf("set up to %.1f km/h, run to %.0f km/h\n", plan.SetUp/units.KmPerH, plan.Run/units.KmPerH)
	// Output: set up to 22.8 km/h, run to 38 km/h
}
