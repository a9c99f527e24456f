package windload_test

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"tautline/stdlib/anchoring"
	"tautline/stdlib/anchoring/windload"
	"tautline/stdlib/internal/proof"
	"tautline/stdlib/units"
)

// EN 1991-1-4:2005, 4.3 to 4.5 and Table 4.1, with a basic speed of 25 m/s:
// values computed apart from this code, printed to two decimals. The exposure
// factors agree with what Figure 4.2 shows at 10 m: 3.0, 2.8, 2.35, 1.7, 1.2.
func TestPeakPressure(t *testing.T) {
	heights := [4]float64{2, 5, 10, 20}
	for _, c := range []struct {
		category       string
		kr             float64
		q              [4]float64
		exposure, turb float64
		read           float64
	}{
		{"0", 0.15604, [4]float64{834.99, 1017.31, 1165.83, 1323.50}, 2.9845, 0.12328, 3.0},
		{"I", 0.16976, [4]float64{733.49, 924.44, 1081.45, 1249.27}, 2.7685, 0.14476, 2.8},
		{"II", 0.19000, [4]float64{556.02, 753.64, 918.86, 1097.64}, 2.3523, 0.18874, 2.35},
		{"III", 0.21539, [4]float64{500.34, 500.34, 667.65, 852.38}, 1.7092, 0.28518, 1.7},
		{"IV", 0.23433, [4]float64{459.44, 459.44, 459.44, 642.29}, 1.1762, 0.43429, 1.2},
	} {
		terrain := proof.Must(windload.TerrainOf(c.category))(t)
		proof.Near(t, c.category+", kr", terrain.Factor(), c.kr, 3e-5)
		for i, z := range heights {
			got := terrain.PeakPressure(25, z, 1, windload.EurocodeAirDensity)
			if math.Abs(got-c.q[i]) > 0.02 {
				t.Errorf("category %s at %g m: got %.3f Pa, want %.2f", c.category, z, got, c.q[i])
			}
			basic := anchoring.WindPressure(windload.EurocodeAirDensity, 25)
			proof.Near(t, "by the exposure factor", terrain.ExposureFactor(z)*basic, got, 1e-12)
		}
		proof.Near(t, c.category+", exposure factor", terrain.ExposureFactor(10), c.exposure, 5e-5)
		proof.Near(t, c.category+", turbulence", terrain.Turbulence(10, 1), c.turb, 5e-5)
		proof.Near(t, c.category+", read off the figure", terrain.ExposureFactor(10), c.read, 0.03) // as well as a diagram can be read
	}
	open := proof.Must(windload.TerrainOf("II"))(t)
	proof.Near(t, "mean at 6 m", open.MeanSpeed(26, 6, 1), 23.65021, 1e-6)
	proof.Near(t, "turbulence at 6 m", open.Turbulence(6, 1), 0.2088776, 1e-6)
	proof.Near(t, "peak pressure at 6 m", open.PeakPressure(26, 6, 1, 1.25), 860.723, 1e-6)
	proof.Near(t, "gust over mean", open.GustFactor(10), 1.523535, 1e-5)
	proof.Near(t, "mean for gusts of 11.1 m/s", 11.1/open.GustFactor(10), 7.28569, 1e-5)

	_, err := windload.TerrainOf("V")
	proof.Fails(t, "no such category", err, `got "V", want one of 0, I, II, III, IV`)
	proof.Panics(t, "height: got 201, want 0 to 200", func() { open.MeanFactor(201) })
	proof.Panics(t, "roughness: got 0, want more than 0", func() { windload.Terrain{}.Factor() })
}

// The peak pressure never falls with height, and is the same everywhere below
// the terrain's least height.
func TestPeakPressureGrowsWithHeight(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		terrain := rapid.SampledFrom(windload.Terrains()).Draw(t, "terrain")
		low := rapid.Float64Range(0, 200).Draw(t, "height")
		high := rapid.Float64Range(low, 200).Draw(t, "more height")
		at := func(z float64) float64 { return terrain.PeakPressure(25, z, 1, 1.25) }
		if at(high) < at(low)*(1-1e-12) {
			t.Errorf("category %s: %g Pa at %g m, less than %g Pa at %g m", terrain.Category, at(high), high, at(low), low)
		}
		if low <= terrain.Least && at(low) != at(terrain.Least) {
			t.Errorf("category %s: %g Pa at %g m, want that at %g m", terrain.Category, at(low), low, terrain.Least)
		}
	})
}

// EN 1991-1-4:2005, equation 4.2 with the recommended K = 0.2 and n = 0.5.
func TestProbabilityFactor(t *testing.T) {
	for _, c := range []struct{ years, factor float64 }{
		{5, 0.8545006}, {10, 0.9024803}, {25, 0.9596786}, {50, 1}, {100, 1.0384765},
	} {
		p := windload.ReturnPeriod{Years: c.years}.Probability()
		proof.Near(t, "probability factor", windload.ProbabilityFactor(p, 0.2, 0.5), c.factor, 1e-6)
	}
	proof.Near(t, "basic speed", windload.BasicSpeed(26, 0.9, 1, 0.8545006), 26*0.9*0.8545006, 1e-15)
	proof.Panics(t, "probability: got 0", func() { windload.ProbabilityFactor(0, 0.2, 0.5) })
	proof.Panics(t, "rest of the probability: got 0", func() { windload.ProbabilityFactor(1, 0.2, 0.5) })
}

// EN 1991-1-6:2005, Table 3.1: exact.
func TestReturnPeriods(t *testing.T) {
	const day = 24 * units.H
	for _, c := range []struct{ duration, years float64 }{
		{1 * units.H, 2}, {3 * day, 2}, {3.1 * day, 5}, {90 * day, 5}, {100 * day, 10}, {365 * day, 10}, {400 * day, 50},
	} {
		if got := proof.Must(windload.ReturnPeriodFor(c.duration))(t).Years; got != c.years {
			t.Errorf("standing %g days: got a return period of %g years, want %g", c.duration/day, got, c.years)
		}
	}
	_, err := windload.ReturnPeriodFor(0)
	proof.Fails(t, "stands for no time", err, "duration: got 0 h, want more than 0")
}

// ASCE 7-16, 26.10: values computed apart from this code, beside those that
// Table 26.10-1 prints with two decimals.
func TestExposure(t *testing.T) {
	for _, c := range []struct {
		category string
		kz       map[float64]float64
		table    map[float64]float64
	}{
		{"B", map[float64]float64{10: 0.5747, 15: 0.5747, 20: 0.6240, 30: 0.7006, 40: 0.7606}, map[float64]float64{15: 0.57, 20: 0.62, 30: 0.70, 40: 0.76}},
		{"C", map[float64]float64{10: 0.8489, 15: 0.8489, 20: 0.9019, 30: 0.9823, 40: 1.0436}, map[float64]float64{15: 0.85, 20: 0.90, 30: 0.98, 40: 1.04}},
		{"D", map[float64]float64{10: 1.0302, 15: 1.0302, 20: 1.0831, 30: 1.1622, 40: 1.2218}, map[float64]float64{15: 1.03, 20: 1.08, 30: 1.16, 40: 1.22}},
	} {
		e := proof.Must(windload.ExposureOf(c.category))(t)
		for feet, want := range c.kz {
			proof.Near(t, c.category+", Kz", e.Coefficient(feet*units.Ft), want, 1e-4)
		}
		for feet, want := range c.table {
			if got := e.Coefficient(feet * units.Ft); math.Abs(got-want) > 0.005 {
				t.Errorf("exposure %s at %g ft: got %.4f, the table prints %.2f", c.category, feet, got, want)
			}
		}
	}
	open := proof.Must(windload.ExposureOf("C"))(t)
	q := windload.VelocityPressure(open.Coefficient(15*units.Ft), 1, 0.85, 1, 115*units.Mph)
	if math.Abs(q/units.Psf-24.429) > 0.05 { // 0.00256 and 0.613 are rounded apart
		t.Errorf("velocity pressure: got %.3f psf, want 24.429 within 0.05", q/units.Psf)
	}
	proof.Near(t, "velocity pressure, SI form", q, 1169.0, 5e-5)
	_, err := windload.ExposureOf("A")
	proof.Fails(t, "no such category", err, `got "A", want one of B, C, D`)
	proof.Panics(t, "height: got 300, want 0 to 274.32", func() { open.Coefficient(300) })
}
