package slung_test

import (
	"fmt"

	"tautline/stdlib/fabric/slung"
	"tautline/stdlib/units"
)

// A net edge of 6 m that carries 50 N/m with a sag of 0.3 m pulls level with
// 50·6²/(8·0.3) = 750 N, and at its ends with √(750² + 150²) = 765 N.
func ExampleParabola_Form() {
	c, err := slung.Parabola{Span: 6 * units.M, Sag: 300 * units.Mm, Load: 50 * units.NPerM}.Form()
	if err != nil {
		panic(err)
	}
	fmt.Printf("level %.0f N, at the ends %.0f N\n", c.Pull, c.Left)
	// Output: level 750 N, at the ends 765 N
}
