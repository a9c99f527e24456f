package units_test

import (
	"math"
	"testing"

	"tautline/stdlib/units"
)

// TestPublishedFactors compares the yard-pound and other non-SI units with the
// factors printed in NIST SP 811 (2008), appendix B.8 and B.9, which have seven
// digits: a relative tolerance of 5e-7 is half a unit in the last.
func TestPublishedFactors(t *testing.T) {
	for _, c := range []struct {
		unit      string
		got, want float64
	}{
		{"°", units.Deg, 1.745329e-2},
		{"rev", units.Rev, 6.283185},
		{"in", units.In, 2.54e-2},
		{"ft", units.Ft, 3.048e-1},
		{"in²", units.In2, 6.4516e-4},
		{"ft²", units.Ft2, 9.290304e-2},
		{"L", units.L, 1e-3},
		{"in³", units.In3, 1.638706e-5},
		{"ft³", units.Ft3, 2.831685e-2},
		{"in⁴", units.In4, 4.162314e-7},
		{"t", units.T, 1e3},
		{"oz", units.Oz, 2.834952e-2},
		{"lb", units.Lb, 4.535924e-1},
		{"min", units.Min, 60},
		{"h", units.H, 3.6e3},
		{"yr", units.Yr, 3.1536e7},
		{"1/h", units.PerH, 2.777778e-4},
		{"°F", units.DegF, 5.555556e-1},
		{"km/h", units.KmPerH, 2.777778e-1},
		{"kn", units.Kn, 5.144444e-1},
		{"ft/s", units.FtPerS, 3.048e-1},
		{"mph", units.Mph, 4.4704e-1},
		{"ft/s²", units.FtPerS2, 3.048e-1},
		{"gₙ", units.Gn, 9.80665},
		{"rpm", units.Rpm, 1.047198e-1},
		{"cfm", units.Cfm, 4.719474e-4},
		{"lb/s", units.LbPerS, 4.535924e-1},
		{"kgf", units.Kgf, 9.80665},
		{"lbf", units.Lbf, 4.448222},
		{"lbf/in", units.LbfPerIn, 1.751268e2},
		{"lbf/ft", units.LbfPerFt, 1.459390e1},
		{"mbar", units.Mbar, 1e2},
		{"bar", units.Bar, 1e5},
		{"mmH₂O", units.MmH2O, 9.80665},
		{"inH₂O", units.InH2O, 2.490889e2},
		{"psf", units.Psf, 4.788026e1},
		{"psi", units.Psi, 6.894757e3},
		{"ksi", units.Ksi, 6.894757e6},
		{"lbf·in", units.LbfIn, 1.129848e-1},
		{"lbf·ft", units.LbfFt, 1.355818},
		{"ft·lbf", units.FtLbf, 1.355818},
		{"kWh", units.KWh, 3.6e6},
		{"hp", units.Hp, 7.456999e2},
		{"lb/ft³", units.LbPerFt3, 1.601846e1},
		{"oz/yd²", units.OzPerYd2, 3.390575e-2},
		{"lb/ft²", units.LbPerFt2, 4.882428},
		{"lb/ft", units.LbPerFt, 1.488164},
		{"lb·ft²", units.LbFt2, 4.214011e-2},
		{"ft²/s", units.Ft2PerS, 9.290304e-2},
		{"lbf·s/ft²", units.LbfSPerFt2, 4.788026e1},
	} {
		if tol := 5e-7 * c.want; math.Abs(c.got-c.want) > tol {
			t.Errorf("%s: got %.9g, want %.7g within %.1g", c.unit, c.got, c.want, tol)
		}
	}
}

// TestDefinitions ties units to each other by the definitions that join them.
// The tolerance is two roundings of float64.
func TestDefinitions(t *testing.T) {
	for _, c := range []struct {
		what      string
		got, want float64
	}{
		{"1 lbf is 1 lb at standard gravity", units.Lbf, units.Lb * units.Gn},
		{"1 kgf is 1 kg at standard gravity", units.Kgf, units.Kg * units.Gn},
		{"1 psi is 1 lbf on 1 in²", units.Psi, units.Lbf / units.In2},
		{"1 psf is 1 lbf on 1 ft²", units.Psf, units.Lbf / units.Ft2},
		{"1 lbf/in is 12 lbf/ft", units.LbfPerIn, 12 * units.LbfPerFt},
		{"1 inH₂O is 25.4 mmH₂O", units.InH2O, 25.4 * units.MmH2O},
		{"1 mmH₂O is 1 mm of water of 1000 kg/m³", units.MmH2O, 1000 * units.KgPerM3 * units.Gn * units.Mm},
		{"1 hp is 550 ft·lbf/s", units.Hp, 550 * units.FtLbf / units.S},
		{"1 mile per hour is 5280 ft in 1 h", units.Mph, 5280 * units.Ft / units.H},
		{"1 cfm is 1 ft³ in 1 min", units.Cfm, units.Ft3 / units.Min},
		{"1 rpm is 1 rev in 1 min", units.Rpm, units.Rev / units.Min},
		{"360° are 1 rev", 360 * units.Deg, units.Rev},
		{"1 N/mm is 50 N on 50 mm", units.NPerMm, 50 * units.NPer50mm},
		{"1 N/mm² is 1 MPa", units.N / units.Mm2, units.MPa},
		{"36 km/h are 10 m/s", 36 * units.KmPerH, 10},
		{"212 °F are 100 °C", units.ZeroCelsius + (212-32)*units.DegF, units.ZeroCelsius + 100*units.K},
		{"16 oz/yd² on 1 yd² weigh 1 lb", 16 * units.OzPerYd2 * 9 * units.Ft2, units.Lb},
		{"1 N·m/° turns 1 rad at 180/π N·m", units.NmPerDeg * units.Deg, units.Nm},
	} {
		if tol := 4.5e-16 * c.want; math.Abs(c.got-c.want) > tol {
			t.Errorf("%s: got %.17g, want %.17g within %.1g", c.what, c.got, c.want, tol)
		}
	}
}
