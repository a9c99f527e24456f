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

// A rope of 12 m over 10 m, 5 N/m: each mast bears half of its 60 N upright.
func ExampleCatenary() {
	rope := slung.Catenary{Span: 10 * units.M, Length: 12 * units.M, Weight: 5 * units.NPerM}
	h, err := rope.Form()
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%.0f N up at each end\n", h.LeftUp/units.N)
	// Output: 30 N up at each end
}

// A chord of 2 m with a sag of 0.25 m is an arc of 2²/(8·0.25) + 0.125 m. The skin
// pulls with 1 kN/m.
func ExampleEdgeCable() {
	edge := slung.EdgeCable{Chord: 2 * units.M, Sag: 250 * units.Mm, Pull: 1 * units.KNPerM}
	fmt.Printf("radius %.3f m, pull %.2f kN\n", edge.Radius()/units.M, edge.Force()/units.KN)
	// Output: radius 2.125 m, pull 2.12 kN
}
