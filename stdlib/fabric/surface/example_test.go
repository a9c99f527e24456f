package surface_test

import (
	"fmt"

	"tautline/stdlib/fabric/surface"
	"tautline/stdlib/units"
)

// A tube of 0.3 m and 2 m, open at both ends, as 96 strips: its fabric is a little
// less than 2·π·0.3·2 = 3.77 m².
func ExampleTube_Mesh() {
	m, err := surface.Tube{Radius: 300 * units.Mm, Length: 2 * units.M, Open: true, Around: 96}.Mesh()
	if err != nil {
		panic(err)
	}
	fmt.Printf("%.2f m²\n", m.Area()/units.M2)
	// Output: 3.77 m²
}
