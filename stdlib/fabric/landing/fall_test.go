package landing_test

import (
	"testing"

	"tautline/stdlib/fabric/landing"
	"tautline/stdlib/internal/proof"
	"tautline/stdlib/units"
)

// Conservation of energy; values computed apart from this code, to 1e-5 m/s.
func TestFall(t *testing.T) {
	for _, c := range []struct{ height, speed float64 }{
		{0.6, 3.43045}, {1.0, 4.42869}, {1.5, 5.42402}, {2.0, 6.26311}, {2.5, 7.00237}, {3.0, 7.67072},
	} {
		proof.Near(t, "speed", landing.FallSpeed(c.height), c.speed, 1e-5/c.speed)
		proof.Near(t, "height", landing.FallHeight(landing.FallSpeed(c.height)), c.height, 1e-14)
	}
	proof.Panics(t, "landing: FallSpeed: height: got -1", func() { landing.FallSpeed(-1) })
}

// Flight without drag; values computed apart from this code. At 45° the first
// comes only 1.604 m far, level 1.484 m.
func TestThrow(t *testing.T) {
	for _, c := range []struct{ speed, height, reach, degrees float64 }{
		{3, 1.2, 1.744948, 27.7419}, {2, 0.9, 0.948982, 23.2587}, {4, 1.5, 2.748923, 30.6901}, {3, 0, 0.917745, 45},
	} {
		throw := landing.Throw{Speed: c.speed, Height: c.height}
		proof.Near(t, "reach", throw.Reach(), c.reach, 1e-6)
		proof.Near(t, "angle", throw.Angle(), c.degrees*units.Deg, 4e-6) // printed to four decimals
	}
	proof.Near(t, "impact", landing.Throw{Speed: 3, Height: 1.2}.ImpactSpeed(), 5.704030, 1e-6)
	proof.Panics(t, "speed or height: got 0", func() { landing.Throw{}.Angle() })
}

// Any text on strength of materials: a suddenly applied load counts twice.
func TestSpringFelt(t *testing.T) {
	proof.Near(t, "drop", landing.SpringFelt(1.5, 0.1), 6.567764, 1e-6)
	// 80 kg from 1.2 m on 8 kN/m: 0.593018 m and 4744.14 N by energy.
	sink := 80 * units.Gn / 8e3
	felt := landing.SpringFelt(1.2, sink)
	proof.Near(t, "in g", felt, 6.0471, 1e-5)
	proof.Near(t, "pressed", felt*sink, 0.593018, 1e-6)
	proof.Near(t, "force", felt*80*units.Gn, 4744.14, 1e-6)
	proof.Near(t, "suddenly applied", landing.SpringFelt(0, 0.3), 2, 0)
	proof.Near(t, "stiffer", landing.SpringFelt(1.5, 0.05), 8.810250, 1e-6)
}
