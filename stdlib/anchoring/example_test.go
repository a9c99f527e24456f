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

// A place 4 m east and 3 m north of the middle: √(4² + 3²) m, at atan(4/3).
func ExamplePoint() {
	eye := anchoring.Point{X: 4 * units.M, Y: 3 * units.M}
	fmt.Printf("%.0f m away at %.1f°\n", eye.Distance()/units.M, eye.Bearing()/units.Deg)
	// Output: 5 m away at 53.1°
}

// The design wind of play inflatables on a wall of 10 m²: half of 1.24·11.1² Pa, and
// 1.5 times that on the wall.
func ExampleWind() {
	wind := anchoring.PlayInflatableWind()
	fmt.Printf("%.1f Pa, %.0f N\n", wind.Pressure()/units.Pa, wind.Force(10*units.M2)/units.N)
	// Output: 76.4 Pa, 1146 N
}
