package form_test

import (
	"fmt"

	"tautline/stdlib/fabric/form"
	"tautline/stdlib/fabric/surface"
	"tautline/stdlib/units"
)

// Links of one force density between corners that lie in a plane stay in it, and the
// middle of a square comes to stand in its middle.
func ExampleNet_Form() {
	net, err := form.Grid{
		Corners: [4]surface.Point{{}, {X: 4 * units.M}, {X: 4 * units.M, Y: 4 * units.M}, {Y: 4 * units.M}},
		Across:  2, Along: 2, Inner: 1 * units.KNPerM, Edge: 4 * units.KNPerM,
	}.Net()
	if err != nil {
		panic(err)
	}
	shape, err := net.Form()
	if err != nil {
		panic(err)
	}
	middle := shape.Points[1*3+1]
	fmt.Printf("%.2f, %.2f, %.2f m\n", middle.X/units.M, middle.Y/units.M, middle.Z/units.M)
	// Output: 2.00, 2.00, 0.00 m
}
