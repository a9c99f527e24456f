package cutting_test

import (
	"fmt"
	"strings"

	"tautline/stdlib/fabric/cutting"
	"tautline/stdlib/fabric/pattern"
	"tautline/stdlib/fabric/unroll"
	"tautline/stdlib/units"
)

// The list of pieces has a head and a row for each piece.
func ExampleListCSV() {
	panel, err := unroll.Tube{Radius: 300 * units.Mm, Length: 2 * units.M}.Panel("tube", -180*units.Deg, 180*units.Deg)
	if err != nil {
		panic(err)
	}
	list, err := cutting.ListCSV(pattern.Pattern{Pieces: []pattern.Piece{panel}})
	if err != nil {
		panic(err)
	}
	fmt.Println(strings.Count(list, "\n"), "lines")
	// Output: 2 lines
}
