package nest_test

import (
	"fmt"

	"tautline/stdlib/fabric/nest"
	"tautline/stdlib/fabric/pattern"
	"tautline/stdlib/fabric/unroll"
	"tautline/stdlib/units"
)

// Two panels of a tube on a roll of 2.05 m: the same order gives the same lay.
func ExampleRoll_Lay() {
	tube := unroll.Tube{Radius: 300 * units.Mm, Length: 2 * units.M}
	panel, err := tube.Panel("tube", -180*units.Deg, 180*units.Deg)
	if err != nil {
		panic(err)
	}
	panel.Count = 2
	roll := nest.Roll{Width: 2.05 * units.M, Margin: 15 * units.Mm, Gap: 4 * units.Mm}
	lay, err := roll.Lay(pattern.Pattern{Pieces: []pattern.Piece{panel}}, 4, 1)
	if err != nil {
		panic(err)
	}
	again, _ := roll.Lay(pattern.Pattern{Pieces: []pattern.Piece{panel}}, 4, 1)
	fmt.Println(len(lay.Placements), "pieces;", "yield below 1:", lay.Yield < 1, "; the same again:", lay.Length == again.Length)
	// Output: 2 pieces; yield below 1: true ; the same again: true
}
