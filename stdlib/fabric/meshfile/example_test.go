package meshfile_test

import (
	"fmt"

	"tautline/stdlib/fabric/meshfile"
	"tautline/stdlib/fabric/surface"
	"tautline/stdlib/units"
)

// A tube comes from a file in millimetres. Its 24 flat sides enclose a little less
// air than the round tube of 0.565 m³ that they stand for.
func ExampleReadOBJ() {
	m, err := surface.Tube{Radius: 300 * units.Mm, Length: 2 * units.M, Around: 24, Along: 4}.Mesh()
	if err != nil {
		panic(err)
	}
	read, err := meshfile.ReadOBJ(meshfile.OBJ(m, units.Mm), units.Mm)
	if err != nil {
		panic(err)
	}
	air, err := read.Volume() // an error if the skin were open
	if err != nil {
		panic(err)
	}
	fmt.Printf("%d points, %d triangles\n", len(read.Points), len(read.Triangles))
	fmt.Printf("skin %.2f m², air %.3f m³\n", read.Area()/units.M2, air/units.M3)
	// Output:
	// 194 points, 384 triangles
	// skin 4.32 m², air 0.559 m³
}
