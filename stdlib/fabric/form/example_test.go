package form_test

import (
	"fmt"

	"tautline/stdlib/fabric/form"
	"tautline/stdlib/fabric/surface"
	"tautline/stdlib/units"
)

// A sail between two low and two high corners, its edges four times as tight as what
// they hold: by symmetry its middle stands in the middle, half way up.
func ExampleNet_Form() {
	net, err := form.Grid{
		Corners: [4]surface.Point{{}, {X: 4 * units.M, Z: 2 * units.M}, {X: 4 * units.M, Y: 4 * units.M}, {Y: 4 * units.M, Z: 2 * units.M}},
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
	// Output: 2.00, 2.00, 1.00 m
}
