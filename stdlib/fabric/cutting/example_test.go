package cutting_test

import (
	"fmt"
	"strings"

	"tautline/stdlib/fabric/cutting"
	"tautline/stdlib/fabric/pattern"
	"tautline/stdlib/fabric/unroll"
	"tautline/stdlib/units"
)

// The cut list of a tube that is one panel: 2 m along, 2·π·0.3 m = 1.885 m round.
func ExampleListCSV() {
	panel, err := unroll.Tube{Radius: 300 * units.Mm, Length: 2 * units.M}.Panel("tube", -180*units.Deg, 180*units.Deg)
	if err != nil {
		panic(err)
	}
	list, err := cutting.ListCSV(pattern.Pattern{Pieces: []pattern.Piece{panel}})
	if err != nil {
		panic(err)
	}
	fmt.Print(strings.ReplaceAll(list, "\r", ""))
	// Output:
	// piece,copies,width mm,height mm,within the seams m2,cut m2,"warp from x, degrees",openings,holes,notches
	// tube,1,1885.0,2000.0,3.7699,3.7699,0.0,,,0
}
