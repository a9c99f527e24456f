package anchoring_test

import (
	"fmt"

	"tautline/stdlib/anchoring"
	"tautline/stdlib/units"
)

// The anchors of an invented landing bed, and the ballast that stands in for one
// of them: 163 kg holds 1600 N straight up only.
func Example() {
	wind, rule := anchoring.PlayInflatableWind(), anchoring.PlayInflatableAnchors()
	bed := anchoring.Block{Width: 4.5 * units.M, Height: 3.5 * units.M, Depth: 6 * units.M}
	n := anchoring.AnchorsPerFace(wind.Force(bed.Face()), rule.Factor, rule.Load)
	fmt.Printf("%.0f anchors on the front\n", n)
	fmt.Printf("%.0f kg under a strap at 45°\n", anchoring.BallastMass(rule.Load, 45*units.Deg, 0.4))
	// Output:
	// 2 anchors on the front
	// 404 kg under a strap at 45°
}
