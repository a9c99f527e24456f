package landing_test

import (
	"testing"

	"tautline/stdlib/fabric/landing"
	"tautline/stdlib/internal/proof"
	"tautline/stdlib/units"
)

// Conservation of energy under a constant pressure; values computed apart from
// this code.
func TestFreeVent(t *testing.T) {
	bed := landing.FreeVent{Pressure: 2500, Area: 1.2, Depth: 1}
	s := proof.Must(bed.Stop(80, 1.5))(t)
	proof.Near(t, "depth", s.Depth, 0.5311735, 1e-6)
	proof.Near(t, "felt", s.Felt, 3.823936, 1e-6)
	proof.Near(t, "deceleration", (s.Felt-1)*units.Gn, 27.69335, 1e-6)
	proof.Near(t, "time", s.Time, 0.195860, 1e-6*3)
	bed.Depth = 0.4
	s = proof.Must(bed.Stop(80, 1.5))(t)
	proof.Near(t, "speed at the ground", s.Speed, 2.695416, 1e-6)
	proof.Near(t, "as a fall on the hard ground", s.HardDrop, 0.370426, 2e-6)
	if !s.Bottoms || s.Depth != 0.4 {
		t.Errorf("shallow bed: got %+v, want it to bottom at 0.4 m", s)
	}
	bed.Pressure = 653.7
	_, err := bed.Stop(80, 1.5)
	proof.Fails(t, "soft bed", err, "pressure: got 653.7 Pa, want more than 653.777 Pa: the bed never stops the body")
}

// Polytropic gas on absolute pressure; values computed apart from this code.
func TestAirSpring(t *testing.T) {
	for _, c := range []struct{ volume, exponent, depth, pressure, felt float64 }{
		{6, 1, 0.5876538, 7919.81, 6.056971},
		{6, 1.4, 0.4987869, 9135.76, 6.986914},
		{0.6, 1, 0.1812891, 0, 18.56045},
		{0.6, 1.4, 0.1533581, 0, 21.78746},
	} {
		s := proof.Must(landing.AirSpring{Volume: c.volume, Pressure: 1500, Ambient: 101325, Area: 0.6, Exponent: c.exponent}.Stop(80, 1.5))(t)
		proof.Near(t, "depth", s.Depth, c.depth, 1e-5/10)
		proof.Near(t, "felt", s.Felt, c.felt, 1e-5/10)
		if c.pressure > 0 {
			proof.Near(t, "pressure", s.Pressure, c.pressure, 1e-5/10)
		}
	}
	_, err := landing.AirSpring{Volume: 6, Pressure: 1500, Area: 0.6, Exponent: 1}.Stop(80, 1.5)
	proof.Fails(t, "no ambient", err, "ambient pressure: got 0")
}

// Incompressible air through a vent, closed form; values computed apart from
// this code. The body never stops.
func TestOpenBed(t *testing.T) {
	speed := landing.FallSpeed(2)
	for _, c := range []struct {
		vent, last, first, felt float64
		at                      [3]float64
	}{
		{0.05, 2.526764, 6025.206, 6.144, [3]float64{4.914362, 3.667898, 2.811771}},
		{0.10, 5.053529, 1506.301, 1.536, [3]float64{6.105536, 5.904387, 5.647014}},
	} {
		bed := landing.OpenBed{Area: 0.8, Vent: c.vent, Density: 1.2}
		proof.Near(t, "sink speed", bed.SinkSpeed(80), c.last, 1e-6)
		proof.Near(t, "first pressure", bed.Pressure(speed), c.first, 1e-6)
		proof.Near(t, "felt at first", bed.Pressure(speed)*0.8/(80*units.Gn), c.felt, 1e-4)
		for i, depth := range []float64{0.2, 0.5, 1} {
			proof.Near(t, "speed", bed.SpeedAt(depth, 80, speed), c.at[i], 1e-6)
		}
	}
}
