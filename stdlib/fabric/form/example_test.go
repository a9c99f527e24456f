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

// A soap film on a flat round frame stays flat.
func ExampleMembrane() {
	disc, err := surface.Disc{Radius: 1 * units.M, Rings: 6}.Mesh()
	if err != nil {
		fmt.Println(err)
		return
	}
	rim, err := disc.Seam("rim")
	if err != nil {
		fmt.Println(err)
		return
	}
	flat, err := form.Membrane{Mesh: disc, Fabrics: []form.Fabric{{Film: 1 * units.KNPerM}}, Supports: []form.Support{{Name: "rim", Points: rim.Points}}}.Equilibrium()
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%s, rises %.0f mm\n", flat.Status, flat.Rise/units.Mm)
	// Output: balanced, rises 0 mm
}
