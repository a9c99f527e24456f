package meshfile_test

import (
	"fmt"

	"tautline/stdlib/fabric/meshfile"
	"tautline/stdlib/fabric/surface"
	"tautline/stdlib/units"
)

// A mesh written and read again is the same surface.
func ExampleReadOBJ() {
	m, err := surface.Tube{Radius: 300 * units.Mm, Length: 2 * units.M, Around: 24, Along: 4}.Mesh()
	if err != nil {
		panic(err)
	}
	again, err := meshfile.ReadOBJ(meshfile.OBJ(m, units.Mm), units.Mm)
	if err != nil {
		panic(err)
	}
	fmt.Println(len(again.Triangles) == len(m.Triangles), again.Closed() == nil)
	// Output: true true
}
