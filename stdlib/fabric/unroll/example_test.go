package unroll_test

import (
	"fmt"

	"tautline/stdlib/fabric/unroll"
	"tautline/stdlib/units"
)

// A cone with a base of 3 m across and a wall of 2.5 m: 2·π·1.5/2.5 rad = 216° of a
// circle.
func ExampleFrustum_Sector() {
	roof := unroll.Frustum{Large: 1.5 * units.M, Height: 2 * units.M}
	fmt.Printf("slant %.2f m, sector %.0f°\n", roof.Slant()/units.M, roof.Sector()/units.Deg)
	// Output: slant 2.50 m, sector 216°
}

// A ball of 1 m in twelve gores: 2·π/12 m wide at the middle, half of it at 60°.
func ExampleSphereGores() {
	ball := unroll.SphereGores{Radius: 1 * units.M, Gores: 12}
	fmt.Printf("%.0f mm and %.0f mm\n", ball.Width(0)/units.Mm, ball.Width(60*units.Deg)/units.Mm)
	// Output: 524 mm and 262 mm
}

// A ring of 3 m with a tube of 0.4 m in 24 gores: 2·π·3.4/24 m outside.
func ExampleRingGores() {
	ring := unroll.RingGores{Radius: 3 * units.M, Tube: 400 * units.Mm, Gores: 24}
	fmt.Printf("outside %.0f mm, inside %.0f mm\n", ring.Width(0)/units.Mm, ring.Width(180*units.Deg)/units.Mm)
	// Output: outside 890 mm, inside 681 mm
}

// A round bed of 3 m radius with baffles every 500 mm: twelve bays, and the middle
// baffle is as long as the bed is wide.
func ExampleRoundMattress() {
	bed := unroll.RoundMattress{Radius: 3 * units.M, Height: 600 * units.Mm, Pitch: 500 * units.Mm}
	fmt.Printf("%.0f bays, middle baffle %.0f m\n", bed.Bays(), bed.BaffleLength(6)/units.M)
	// Output: 12 bays, middle baffle 6 m
}

// A ring of 3 m in twelve straight pieces: 2·3·tan 15° m each along its middle.
func ExampleRing() {
	ring := unroll.Ring{Radius: 3 * units.M, Tube: 400 * units.Mm, Sweep: 360 * units.Deg, Pieces: 12}
	fmt.Printf("%.3f m, outside %.3f m\n", ring.CentreLength()/units.M, ring.OuterLength()/units.M)
	// Output: 1.608 m, outside 1.822 m
}

// A branch as thick as the main tube, square to it: at its side the seam dips to the
// main tube's middle, at its front it is one radius out.
func ExampleTee() {
	tee := unroll.Tee{Main: 300 * units.Mm, Branch: 300 * units.Mm, Angle: 90 * units.Deg}
	fmt.Printf("%.0f mm and %.0f mm\n", tee.Profile(0)/units.Mm, tee.Profile(90*units.Deg)/units.Mm)
	// Output: 300 mm and 0 mm
}

// A straight tube of 300 mm radius and 2 m, in one piece: 2·π·300 mm wide.
func ExampleTube() {
	piece, err := unroll.Tube{Radius: 300 * units.Mm, Length: 2 * units.M}.Panel("tube", 0, 360*units.Deg)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%.0f mm by %.0f mm\n", piece.Width()/units.Mm, piece.Height()/units.Mm)
	// Output: 1885 mm by 2000 mm
}
