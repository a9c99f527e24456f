package landing_test

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"tautline/stdlib/fabric/landing"
	"tautline/stdlib/internal/proof"
	"tautline/stdlib/units"
)

var (
	bed = landing.Bed{Depth: 1, Volume: 4, Pressure: 800, Ambient: 101325, Density: 1.2, Exponent: 1.4}
	man = landing.Body{Mass: 80, Area: 0.8}
)

// Air that is pressed together and let out, by an integrator apart from this
// code with a tolerance of 1e-11; without a vent also from the energy.
func TestDrop(t *testing.T) {
	for _, c := range []struct {
		exponent, vent                       float64
		bottoms                              bool
		time, depth, pressure, at, felt, end float64
	}{
		{1.0, 0, false, 0.10708, 0.433690, 10499.439, 0.10708, 10.7065, 0},
		{1.4, 0, false, 0.09031, 0.365344, 12245.504, 0.09031, 12.4869, 0},
		{1.0, 0.02, false, 0.14624, 0.54338, 6859.56, 0.0980, 6.9948, 0},
		{1.4, 0.02, false, 0.12786, 0.46744, 7664.86, 0.0818, 7.8160, 0},
		{1.0, 0.05, true, 0.24525, 1.0, 3639.24, 0.0833, 3.7110, 2.45914},
	} {
		b := bed
		b.Exponent, b.Vent = c.exponent, c.vent
		fall := proof.Must(b.Drop(man, 2))(t)
		// The values have four to six digits.
		proof.Near(t, "time", fall.Time, c.time, 1e-4)
		proof.Near(t, "depth", fall.Depth, c.depth, 2e-5)
		proof.Near(t, "pressure", fall.Pressure, c.pressure, 2e-5)
		proof.Near(t, "felt", fall.Felt, c.felt, 2e-5)
		proof.Near(t, "time of the peak", fall.FeltTime, c.at, 5e-3)
		proof.Near(t, "speed at the ground", fall.Speed, c.end, 1e-5)
		if fall.Bottoms != c.bottoms || (len(fall.Warnings) > 0) != c.bottoms {
			t.Errorf("vent %g: bottoms %v with warnings %q, want %v", c.vent, fall.Bottoms, fall.Warnings, c.bottoms)
		}
	}
}

// A closed bed gives the closed form of the air spring, and all the energy back:
// the body leaves as fast as it came.
func TestClosedBedKeepsEnergy(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		b := landing.Bed{
			Depth: 5, Volume: rapid.Float64Range(6, 40).Draw(t, "volume"), Pressure: rapid.Float64Range(1000, 3000).Draw(t, "pressure"),
			Ambient: 101325, Density: 1.2, Exponent: rapid.Float64Range(1, 1.4).Draw(t, "exponent"),
		}
		body := landing.Body{Mass: rapid.Float64Range(30, 60).Draw(t, "mass"), Area: 0.8}
		height := rapid.Float64Range(0.2, 3).Draw(t, "height")
		fall, err := b.Drop(body, height)
		if err != nil {
			t.Fatal(err)
		}
		stop, err := landing.AirSpring{Volume: b.Volume, Pressure: b.Pressure, Ambient: b.Ambient, Area: 0.8, Exponent: b.Exponent}.Stop(body.Mass, height)
		if err != nil {
			t.Fatal(err)
		}
		for _, c := range []struct {
			what      string
			got, want float64
		}{{"depth", fall.Depth, stop.Depth}, {"felt", fall.Felt, stop.Felt}, {"rebound", fall.Rebound, landing.FallSpeed(height)}} {
			if math.Abs(c.got-c.want) > 1e-6*c.want {
				t.Errorf("%s: got %.9g, want %.9g", c.what, c.got, c.want)
			}
		}
	})
}

// A mat with a straight curve is a linear spring: what is felt is 1 + √(1+2h/d),
// and with a return of 1 the body leaves as fast as it came.
func TestFoamAlone(t *testing.T) {
	foam := landing.Foam{Thickness: 0.4, Strain: []units.Number{0, 0.9}, Stress: []units.Pressure{0, 90e3}, Return: 1}
	b := landing.Bed{Ambient: 101325, Density: 1.2, Exponent: 1, Foam: foam}
	body := landing.Body{Mass: 80, Area: 0.3}
	sink := 80 * units.Gn / (0.3 * 100e3 / 0.4)
	fall := proof.Must(b.Drop(body, 1))(t)
	felt := landing.SpringFelt(1, sink)
	proof.Near(t, "felt", fall.Felt, felt, 1e-8)
	proof.Near(t, "depth", fall.Depth, felt*sink, 1e-8)
	proof.Near(t, "foam", fall.Foam, felt*sink, 1e-8)
	proof.Near(t, "rebound", fall.Rebound, landing.FallSpeed(1), 1e-7)
	b.Foam.Return = 0
	if dead := proof.Must(b.Drop(body, 1))(t); dead.Rebound != 0 {
		t.Errorf("dead foam throws back at %g m/s, want 0", dead.Rebound)
	}
	// Thin foam: the energy that it takes up is ½·k·x², the rest is speed.
	b.Foam = landing.Foam{Thickness: 0.1, Strain: []units.Number{0, 0.9}, Stress: []units.Pressure{0, 90e3}}
	fall = proof.Must(b.Drop(body, 2))(t)
	k := 0.3 * 100e3 / 0.1
	proof.Near(t, "speed at the ground", fall.Speed, math.Sqrt(2*units.Gn*2.09-k*0.09*0.09/80), 1e-8)
	if !fall.Bottoms {
		t.Error("thin foam: got no bottoming")
	}
}

// Air, then foam, then ground: the same bed over ever thinner foam.
func TestStages(t *testing.T) {
	b := bed
	b.Vent, b.Depth, b.Volume = 0.05, 0.5, 4
	b.Foam = landing.Foam{Thickness: 0.2, Strain: []units.Number{0, 0.1, 0.6, 0.8}, Stress: []units.Pressure{0, 5e3, 8e3, 40e3}, Return: 0.3}
	fall := proof.Must(b.Drop(man, 2))(t)
	if fall.Bottoms || !(fall.Depth > 0.5) || fall.Foam != fall.Depth-0.5 || !(fall.FeltTime <= fall.Time) {
		t.Errorf("air and foam: got %+v, want a stop in the foam", fall)
	}
	// The work of the bed down to the deepest point is that of the fall.
	sum := 0.0
	for i := 1; i < len(fall.History.Time) && fall.History.Time[i] <= fall.Time; i++ {
		dt := fall.History.Time[i] - fall.History.Time[i-1]
		sum += dt * (fall.History.Felt[i] + fall.History.Felt[i-1]) / 2
	}
	// Impulse: speed of the fall over g, and the time, by the trapezium rule.
	proof.Near(t, "impulse", sum, landing.FallSpeed(2)/units.Gn+fall.Time, 1e-4)

	b.Foam.Thickness = 0.02
	fall = proof.Must(b.Drop(man, 2))(t)
	if !fall.Bottoms || math.Abs(fall.Depth-0.516) > 1e-9 {
		t.Errorf("thin foam: got %+v, want the ground at 0.516 m", fall)
	}
	proof.Near(t, "as a fall", fall.HardDrop, fall.Speed*fall.Speed/(2*units.Gn), 1e-12)
}

// A bed as deep as was asked for stops the body there, and one a little
// shallower does not.
func TestDepthFor(t *testing.T) {
	depth := proof.Must(bed.DepthFor(man, 2, 0.2, 3))(t)
	for _, c := range []struct {
		change float64
		enough bool
	}{{1.0001, true}, {0.9999, false}} {
		b := bed
		b.Depth = depth * c.change
		b.Volume *= b.Depth / bed.Depth
		fall := proof.Must(b.Drop(man, 2))(t)
		if got := !fall.Bottoms && fall.Depth <= 0.8*b.Depth; got != c.enough {
			t.Errorf("%g times the depth: enough %v, want %v", c.change, got, c.enough)
		}
	}
	b := bed
	b.Vent = 0.5
	_, err := b.DepthFor(man, 2, 0, 1.5)
	proof.Fails(t, "open bed", err, "at 1.5 m the body does not stop")
}

func TestDropRefuses(t *testing.T) {
	change := func(f func(b *landing.Bed, m *landing.Body)) error {
		b, m := bed, man
		f(&b, &m)
		_, err := b.Drop(m, 1)
		return err
	}
	for _, c := range []struct {
		want string
		f    func(b *landing.Bed, m *landing.Body)
	}{
		{"bed pressure: got -1", func(b *landing.Bed, _ *landing.Body) { b.Pressure = -1 }},
		{"volume: got 0.8 m³, want more than the 0.8 m³", func(b *landing.Bed, _ *landing.Body) { b.Volume = 0.8 }},
		{"depth of air and foam: got 0", func(b *landing.Bed, _ *landing.Body) { b.Depth = 0 }},
		{"mass: got 0", func(_ *landing.Bed, m *landing.Body) { m.Mass = 0 }},
		{"foam curve: got 1 strains and 0 stresses", func(b *landing.Bed, _ *landing.Body) { b.Foam = landing.Foam{Strain: []units.Number{0}} }},
		{"foam curve: got a first point at strain 0.1", func(b *landing.Bed, _ *landing.Body) {
			b.Foam = landing.Foam{Thickness: 0.1, Strain: []units.Number{0.1, 0.2}, Stress: []units.Pressure{0, 1}}
		}},
		{"want rising strain and no falling stress", func(b *landing.Bed, _ *landing.Body) {
			b.Foam = landing.Foam{Thickness: 0.1, Strain: []units.Number{0, 0.2, 0.4}, Stress: []units.Pressure{0, 9, 1}}
		}},
		{"foam thickness: got 0", func(b *landing.Bed, _ *landing.Body) {
			b.Foam = landing.Foam{Strain: []units.Number{0, 0.2}, Stress: []units.Pressure{0, 9}}
		}},
	} {
		proof.Fails(t, "bed", change(c.f), c.want)
	}
}
