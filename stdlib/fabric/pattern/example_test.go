package pattern_test

import (
	"fmt"

	"tautline/stdlib/fabric/pattern"
	"tautline/stdlib/fabric/unroll"
	"tautline/stdlib/units"
)

// An elbow of two tubes with a blower tube in one, from shape to cut size.
func Example() {
	leg := unroll.Tube{Radius: 300 * units.Mm, Length: 1 * units.M, End: 45 * units.Deg}
	one, err := leg.Panel("leg 1", -180*units.Deg, 180*units.Deg)
	if err != nil {
		fmt.Println(err)
		return
	}
	two, _ := leg.Panel("leg 2", -180*units.Deg, 180*units.Deg)
	elbow := pattern.Pattern{Pieces: []pattern.Piece{one, two}}.WithSeams(
		pattern.Sew("elbow", "leg 1/end", "leg 2/end", 0.001),
		pattern.Sew("long 1", "leg 1/right", "leg 1/left", 0.001),
		pattern.Sew("long 2", "leg 2/right", "leg 2/left", 0.001))
	elbow, _ = elbow.Compensate(0.8*units.Percent, 0.5*units.Percent)
	elbow, _ = elbow.Allow(20*units.Mm, 40*units.Mm)
	matches, _ := elbow.Match()
	for _, m := range matches {
		fmt.Printf("%s: %.1f mm, differs by %.1f mm\n", m.Seam, m.Longest/units.Mm, m.Difference/units.Mm)
	}

	two.Edges[2].X[0] += 4 * units.Mm
	fmt.Println(two.Check())
	// Output:
	// elbow: 2276.0 mm, differs by 0.0 mm
	// long 1: 696.5 mm, differs by 0.0 mm
	// long 2: 696.5 mm, differs by 0.0 mm
	// piece leg 2: edge "end" begins 4 mm from the end of edge "right": want a closed outline
}

// A hole of 100 mm radius, as the many-sided figure that is cut: a little less than
// 2·π·100 mm round.
func ExampleEdge() {
	hole := pattern.Circle("blower", 0, 0, 100*units.Mm)
	fmt.Printf("%.0f mm\n", hole.Length()/units.Mm)
	// Output: 628 mm
}
