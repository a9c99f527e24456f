package textile_test

import (
	"fmt"

	"tautline/stdlib/fabric/textile"
	"tautline/stdlib/units"
)

// Two rows of 5 mm stitches of a 95 N thread that keeps four fifths: 2·95·0.8/5 =
// 30.4 kN/m, of cloth with 40 kN/m 76 %; a fifth of that in use.
func ExampleSeam_Efficiency() {
	strip := 40 * units.KNPerM
	seam := textile.Seam{Rows: 2, Thread: 95 * units.N, Pitch: 5 * units.Mm, Loss: 0.2}
	e := seam.Efficiency(strip)
	fmt.Printf("%.0f %%, %.2f kN/m\n", e/units.Percent, textile.Allowable(strip, e, 5)/units.KNPerM)
	// Output: 76 %, 6.08 kN/m
}
