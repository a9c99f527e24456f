package anchoring_test

import (
	"math"
	"testing"

	"tautline/stdlib/anchoring"
	"tautline/stdlib/internal/proof"
	"tautline/stdlib/units"
)

// EN 14960-1:2019, Annex A: 0.5·1.24·11.1² with a force coefficient of 1.5,
// worked by hand.
func TestPlayInflatableWind(t *testing.T) {
	w := anchoring.PlayInflatableWind()
	proof.Near(t, "velocity pressure", w.Pressure(), 76.3902, 1e-6)
	proof.Near(t, "the same from its numbers", anchoring.WindPressure(1.24, 11.1), 76.3902, 1e-6)
	proof.Near(t, "face pressure", w.FacePressure(), 114.5853, 1e-6)
	proof.Near(t, "force", w.Force(15), 1718.780, 1e-6)
	proof.Panics(t, "anchoring: Wind.Force: air density: got 0, want more than 0", func() { anchoring.Wind{}.Force(1) })
}

// WMO limits of the scale, exact.
func TestBeaufort(t *testing.T) {
	for _, c := range []struct{ speed, number float64 }{
		{0, 0}, {0.2, 0}, {0.3, 1}, {7.9, 4}, {8.0, 5}, {10.56, 5}, {10.75, 5}, {10.8, 6},
		{11.1, 6}, {13.9, 7}, {32.6, 11}, {32.7, 12}, {60, 12},
	} {
		if got := anchoring.Beaufort(c.speed); got != c.number {
			t.Errorf("Beaufort(%g) = %g, want %g", c.speed, got, c.number)
		}
		if c.speed >= 0.3 && c.number < 12 { // the formula has no end
			if got := math.Round(math.Pow(c.speed/0.836, 2.0/3)); got != c.number {
				t.Errorf("the scale's formula gives %g at %g m/s, want %g", got, c.speed, c.number)
			}
		}
	}
	proof.Near(t, "38 km/h", anchoring.PlayInflatableAnchors().MaxWind, 10.5556, 5e-6)
	if got := anchoring.Beaufort(anchoring.PlayInflatableAnchors().MaxWind); got != 5 {
		t.Errorf("the operating limit is Beaufort %g, want 5", got)
	}
	if got := anchoring.Beaufort(anchoring.PlayInflatableWind().Speed); got != 6 {
		t.Errorf("the design wind is Beaufort %g, want 6", got)
	}
	// HSE, Bouncy castles: safety advice, says 24 mph: as good as 38 km/h, while the
	// design speed is nearly 25 mph.
	proof.Near(t, "24 mph", 24*units.Mph, 10.7290, 5e-6)
	if anchoring.Beaufort(24*units.Mph) != 5 {
		t.Errorf("24 mph is Beaufort %g, want 5", anchoring.Beaufort(24*units.Mph))
	}
	proof.Near(t, "design speed in mph", anchoring.PlayInflatableWind().Speed/units.Mph, 24.83, 2e-4)      // printed to four digits
	proof.Near(t, "design speed in km/h", anchoring.PlayInflatableWind().Speed/units.KmPerH, 39.96, 1e-12) // 11.1·3.6
	proof.Panics(t, "want a whole number", func() { anchoring.BeaufortFrom(2.5) })
}

// The scale's formula v = 0.836 B^1.5, and each middle lies in its printed
// limits.
func TestBeaufortSpeed(t *testing.T) {
	for i, want := range []float64{0.836, 2.36457, 4.34398, 6.688, 9.34676, 12.28664, 15.48294,
		18.91652, 22.572, 26.43664, 30.49968, 34.75187} {
		number := float64(i + 1)
		proof.Near(t, "middle speed", anchoring.BeaufortSpeed(number), want, 1e-5)
		if got := anchoring.Beaufort(want); got != number {
			t.Errorf("Beaufort(%g) = %g, want %g", want, got, number)
		}
	}
}

// Logarithmic and power profiles; values computed apart from this code.
func TestWindAtHeight(t *testing.T) {
	proof.Near(t, "over grass", anchoring.WindAtHeight(6, 2, 10, 0.03), 8.29936, 1e-5)
	proof.Near(t, "between houses", anchoring.WindAtHeight(6, 2, 10, 0.3), 11.09015, 1e-5)
	proof.Near(t, "by power", anchoring.WindAtHeightByPower(6, 2, 10, 0.14), 7.51635, 1e-5)
	low := anchoring.WindAtHeight(38*units.KmPerH, 10, 2, 0.03)
	proof.Near(t, "38 km/h at 10 m, read at 2 m", low, 7.63114, 1e-5)
	proof.Near(t, "the same in km/h", low/units.KmPerH, 27.47, 2e-4) // printed to two decimals
	proof.Panics(t, "from: got 0.02, want more than 0.03", func() { anchoring.WindAtHeight(6, 0.02, 10, 0.03) })
}

// EN 1991-1-4:2005, 4.4 and 4.5, category II at 10 m.
func TestGusts(t *testing.T) {
	turbulence := anchoring.TurbulenceIntensity(10, 0.05)
	proof.Near(t, "turbulence", turbulence, 0.18874, 1e-5)
	proof.Near(t, "gust over mean", anchoring.GustRatio(turbulence), 1.523535, 1e-5)
	proof.Near(t, "mean for gusts of 11.1 m/s", 11.1/anchoring.GustRatio(turbulence), 7.28569, 1e-5)
}
