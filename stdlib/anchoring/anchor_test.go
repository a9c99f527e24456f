package anchoring_test

import (
	"testing"

	"tautline/stdlib/anchoring"
	"tautline/stdlib/internal/proof"
	"tautline/stdlib/units"
)

// EN 14960-1:2019, Annex A, worked by hand: whole numbers, exact, whichever of
// the rounded face pressures is used.
func TestAnchorsPerFace(t *testing.T) {
	wind, rule := anchoring.PlayInflatableWind(), anchoring.PlayInflatableAnchors()
	perFace := func(area float64) float64 {
		return anchoring.AnchorsPerFace(wind.Force(area), rule.Factor, rule.Load)
	}
	proof.Near(t, "force on the front", wind.Force(4.5*3.5), 1804.72, 3e-6) // printed to a hundredth
	proof.Near(t, "force on the side", wind.Force(6.0*3.5), 2406.29, 3e-6)
	front, side := perFace(4.5*3.5), perFace(6.0*3.5)
	for _, c := range []struct {
		what      string
		got, want float64
	}{
		{"front", front, 2},
		{"side", side, 3},
		{"in all", anchoring.AnchorsInAll(front, side, rule.Minimum), 10},
		{"small face", perFace(5), 1},
		{"small device", anchoring.AnchorsInAll(1, 1, rule.Minimum), 6},
		{"just one", perFace(9.3089), 1},
		{"just two", perFace(9.3090), 2},
	} {
		if c.got != c.want {
			t.Errorf("%s: got %g anchors, want %g", c.what, c.got, c.want)
		}
	}
	for _, pressure := range []float64{114, 114.5853, 115} {
		if n := anchoring.AnchorsPerFace(pressure*15.75, 1.5, 1600); n != 2 {
			t.Errorf("front at %g Pa: %g anchors, want 2", pressure, n)
		}
		if n := anchoring.AnchorsPerFace(pressure*21, 1.5, 1600); n != 3 {
			t.Errorf("side at %g Pa: %g anchors, want 3", pressure, n)
		}
	}
}

// ISO 20187:2016, 4.2.1, and HSE, Bouncy castles: safety advice.
func TestPlayInflatableAnchors(t *testing.T) {
	r := anchoring.PlayInflatableAnchors()
	proof.Near(t, "load", r.Load, 1600, 0)
	proof.Near(t, "least angle", r.LowAngle, 30*units.Deg, 1e-12)
	proof.Near(t, "greatest angle", r.HighAngle, 45*units.Deg, 1e-12)
	proof.Near(t, "stake length", r.StakeLength, 0.38, 1e-12)
	proof.Near(t, "stake diameter", r.StakeDiameter, 0.016, 1e-12)
	proof.Near(t, "ballast", r.Ballast, 163, 0)
	proof.Near(t, "least number", r.Minimum, 6, 0)
	// The published round number falls a little short of the load.
	proof.Near(t, "mass of the load", r.Load/units.Gn, 163.1546, 1e-6)
	proof.Near(t, "mass of the load at 9.81 m/s²", r.Load/9.81, 163.0989, 1e-6)
	if !(r.Ballast*units.Gn < r.Load) {
		t.Errorf("ballast weighs %g N, want less than the load", r.Ballast*units.Gn)
	}
}

// Sine rule on the triangle of forces; values computed apart from this code.
func TestBridle(t *testing.T) {
	for _, c := range []struct{ a, b, first, second float64 }{
		{20, 50, 0.815207, 0.363970},
		{60, 60, 1, 1},
		{75, 75, 1.931852, 1.931852},
		{0, 30, 1, 0},
	} {
		a, b := c.a*units.Deg, c.b*units.Deg
		proof.Near(t, "one leg", proof.Must(anchoring.BridleLeg(1, a, b))(t), c.first, 1e-6)
		proof.Near(t, "other leg", proof.Must(anchoring.BridleLeg(1, b, a))(t), c.second, 1e-6)
	}
	_, err := anchoring.BridleLeg(1, 90*units.Deg, 90*units.Deg)
	proof.Fails(t, "flat bridle", err, "want less than 180°")
	_, err = anchoring.BridleLeg(1, 0, 0)
	proof.Fails(t, "no bridle", err, "angle between the legs: got 0")
}
