package nest_test

import (
	"fmt"

	"tautline/stdlib/fabric/nest"
	"tautline/stdlib/fabric/pattern"
	"tautline/stdlib/fabric/unroll"
	"tautline/stdlib/units"
)

// Two panels of 2 m by 1.885 m, which make a tube each, on a roll of 2.05 m: how much
// to order, and what share of it is used.
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
	fmt.Printf("%d pieces on %.2f m of roll\n", len(lay.Placements), lay.Length/units.M)
	fmt.Printf("cloth used: %.2f m², yield %.0f %%\n", lay.Fabric/units.M2, lay.Yield/units.Percent)
	// Output:
	// 2 pieces on 3.80 m of roll
	// cloth used: 7.54 m², yield 97 %
}
