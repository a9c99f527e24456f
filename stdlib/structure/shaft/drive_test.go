package shaft_test

import (
	"math"
	"testing"

	"tautline/stdlib/internal/proof"
	"tautline/stdlib/structure/shaft"
	"tautline/stdlib/units"

	"pgregory.net/rapid"
)

// ISO 281:2007, worked apart from this code.
func TestBearingLife(t *testing.T) {
	ball := shaft.BearingLife(25.5e3, 4.2e3, shaft.BallExponent)
	proof.Near(t, "ball, turns", ball, 223.8065e6, 1e-6)
	proof.Near(t, "ball, hours", shaft.BearingHours(ball, 120*units.Rpm)/units.H, 31084.23, 1e-6)
	roller := shaft.BearingLife(25.5e3, 4.2e3, shaft.RollerExponent)
	proof.Near(t, "roller, turns", roller, 408.2908e6, 1e-6)
	proof.Near(t, "roller, hours", shaft.BearingHours(roller, 120*units.Rpm)/units.H, 56707.06, 1e-6)
	for reliability, want := range map[float64]float64{0.95: 19893.9, 0.98: 11501.2} {
		a1 := proof.Must(shaft.LifeFactor(reliability))(t)
		proof.Near(t, "reliable hours", a1*shaft.BearingHours(ball, 120*units.Rpm)/units.H, want, 3e-6)
	}
	_, err := shaft.LifeFactor(0.999)
	proof.Fails(t, "reliability", err, "got 0.999")
	// Shigley, Mechanical Engineering Design, chapter 11: published 3211 lbf.
	turns := 5000 * 60 * 1725.0
	proof.Near(t, "rating", shaft.BearingRating(400*units.Lbf, turns, shaft.BallExponent)/units.Lbf, 3211.4, 2e-5)
	proof.Near(t, "round trip", shaft.BearingLife(shaft.BearingRating(400, turns, shaft.RollerExponent), 400, shaft.RollerExponent), turns, 1e-12)
	proof.Near(t, "equivalent", shaft.EquivalentBearingLoad(4000, 1000, 0.56, 1.6), 4000, 1e-12)
}

// Three phases, worked apart from this code: weighted by turns, not by time.
func TestDuty(t *testing.T) {
	d := shaft.Duty{Load: []float64{6000, 4000, 1000}, Speed: []float64{60 * units.Rpm, 120 * units.Rpm, 300 * units.Rpm}, Time: []float64{0.2, 0.5, 0.3}}
	proof.Near(t, "load", proof.Must(d.Equivalent(shaft.BallExponent))(t), 3427.325, 1e-7)
	proof.Near(t, "speed", proof.Must(d.MeanSpeed())(t)/units.Rpm, 162, 1e-12)
	proof.Near(t, "swing", shaft.OscillationTurns(30*units.Deg), 1.0/3, 1e-12)
	_, err := shaft.Duty{Load: []float64{1}, Speed: []float64{0}, Time: []float64{1}}.Equivalent(shaft.BallExponent)
	proof.Fails(t, "standing", err, "got no turning")
	_, err = shaft.Duty{Load: []float64{1}}.MeanSpeed()
	proof.Fails(t, "lists", err, "equally many")
	_, err = shaft.Duty{Load: []float64{-1}, Speed: []float64{1}, Time: []float64{1}}.MeanSpeed()
	proof.Fails(t, "range", err, "phase 1: load")
}

// Balls and bolts one by one, as springs on rigid rings.
func TestSlewingRing(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := float64(rapid.IntRange(12, 60).Draw(t, "balls"))
		r := shaft.SlewingRing{Diameter: 0.4, Balls: n, Angle: 45 * units.Deg, Bolts: n, Circle: 0.46}
		moment, push := rapid.Float64Range(0, 5e3).Draw(t, "moment"), rapid.Float64Range(-5e3, 5e3).Draw(t, "push")
		l, err := r.Carry(push, 0, moment)
		if err != nil {
			t.Fatal(err)
		}
		// Springs at angles round the circle: the one at the top carries push/n and
		// moment·r/sum(r²·cos²).
		sum := 0.0
		for i := range int(n) {
			sum += math.Pow(0.23*math.Cos(2*math.Pi*float64(i)/n), 2)
		}
		if want := math.Max(0, moment*0.23/sum-push/n); math.Abs(l.Bolt-want) > 1e-9*(1+want) {
			t.Fatalf("bolt: got %g, want %g", l.Bolt, want)
		}
		if want := (math.Abs(push)/n + moment*0.23/sum*0.46/0.4) / math.Sin(math.Pi/4); math.Abs(l.Ball-want) > 1e-9*(1+want) {
			t.Fatalf("ball: got %g, want %g", l.Ball, want)
		}
	})
	few := proof.Must(shaft.SlewingRing{Diameter: 0.4, Balls: 30, Angle: 0.7, Bolts: 8, Circle: 0.46}.Carry(1, 2, 3))(t)
	if len(few.Warnings) != 1 {
		t.Errorf("eight bolts: warnings %q", few.Warnings)
	}
	proof.Near(t, "equivalent", few.Equivalent, 0.75*2+1+2*3/0.4, 1e-12)
	_, err := shaft.SlewingRing{}.Carry(1, 1, 1)
	proof.Fails(t, "nothing", err, "diameter")
}

// Hertz' contact, worked apart from this code.
func TestHertz(t *testing.T) {
	e := shaft.ContactModulus(210e9, 0.3, 210e9, 0.3)
	proof.Near(t, "roller, half width", shaft.LineHalfWidth(3000, 0.05, 0.02, e), 0.2876814e-3, 1e-6)
	proof.Near(t, "roller, pressure", shaft.LinePressure(3000, 0.05, 0.02, e), 331.940e6, 2e-6)
	proof.Near(t, "ball, radius", shaft.BallRadius(2000, 0.01, e), 0.5065797e-3, 1e-6)
	proof.Near(t, "ball, pressure", shaft.BallPressure(2000, 0.01, e), 3721.14e6, 2e-6)
	// The pressures carry the loads: a half ellipse, and half an ellipsoid.
	proof.Near(t, "roller balances", math.Pi/2*shaft.LineHalfWidth(7, 0.02, 0.03, e)*shaft.LinePressure(7, 0.02, 0.03, e)*0.03, 7, 1e-12)
	proof.Near(t, "ball balances", 2.0/3*math.Pi*math.Pow(shaft.BallRadius(7, 0.02, e), 2)*shaft.BallPressure(7, 0.02, e), 7, 1e-12)
	proof.Near(t, "in a hollow", shaft.ContactRadius(0.01, -0.0105), 0.21, 1e-12)
	proof.Panics(t, "radius of the hollow", func() { shaft.ContactRadius(0.01, -0.005) })
}

// Belts and chains, worked apart from this code.
func TestBelts(t *testing.T) {
	wrap := 160 * units.Deg
	proof.Near(t, "flat", shaft.CapstanRatio(0.3, wrap), 2.311180, 1e-6)
	proof.Near(t, "groove", shaft.CapstanRatio(shaft.GrooveFriction(0.3, 38*units.Deg), wrap), 13.107946, 1e-6)
	proof.Near(t, "wrap", shaft.SmallWrap(0.3, 0.1, 0.5)/units.Deg, 156.92608, 1e-7)
	proof.Near(t, "length", shaft.OpenBeltLength(0.3, 0.1, 0.5), 1.6483860, 1e-7)
	proof.Near(t, "short formula", shaft.OpenBeltLength(0.3, 0.1, 0.5), 2*0.5+math.Pi*0.2+0.04/(4*0.5), 1e-4) // printed in handbooks
	// The two sides' difference turns the pulley.
	k := shaft.CapstanRatio(0.3, wrap)
	tight := shaft.TightSide(20, 0.05, k, 0, 0)
	proof.Near(t, "torque", (tight-tight/k)*0.05, 20, 1e-12)
	proof.Near(t, "fast", shaft.TightSide(20, 0.05, k, 0.1, 10)-tight, 10, 1e-12)
	for teeth, want := range map[float64]float64{11: 4.0507, 17: 1.7027, 19: 1.3639, 25: 0.7885} {
		proof.Near(t, "ripple", 100*shaft.ChainRipple(teeth), want, 5e-5/want)
	}
	proof.Near(t, "links", shaft.ChainLinks(51, 17, 40), 114.732, 5e-6)
}

// Shigley, Mechanical Engineering Design, 10th edition, example 14-1: a pinion of
// 16 teeth, diametral pitch 8, face 1.5 in, 1200 rpm, 10 kpsi allowed: 365 lbf.
func TestGear(t *testing.T) {
	y := proof.Must(shaft.LewisFactor(16))(t)
	proof.Near(t, "form factor", y, 0.296, 0)
	speed := 2 * units.In / 2 * 1200 * units.Rpm
	kv := shaft.VelocityFactor(speed)
	proof.Near(t, "velocity factor", kv, 1.52, 5e-3) // the book's 628 ft/min over 1200 is 6.096 m/s
	force := 10 * units.Ksi / shaft.ToothBending(1, kv, 1.5*units.In, units.In/8, y)
	proof.Near(t, "force", force/units.Lbf, 365, 3e-3)
	proof.Near(t, "between lines", proof.Must(shaft.LewisFactor(23))(t), 0.331, 0)
	_, err := shaft.LewisFactor(8)
	proof.Fails(t, "few teeth", err, "teeth: got 8")
	// Contact at the pitch point is that of two rollers, by their own formula.
	e := shaft.ContactModulus(210e9, 0.3, 210e9, 0.3)
	sin, cos := math.Sincos(20 * units.Deg)
	r := shaft.ContactRadius(0.05/2*sin, 0.15/2*sin)
	proof.Near(t, "contact", shaft.ToothContact(1000, 1.2, 0.02, 0.05, 0.15, 20*units.Deg, e), shaft.LinePressure(1.2*1000/cos, r, 0.02, e), 1e-12)
}

// Screws, worked apart from this code.
func TestScrews(t *testing.T) {
	s := shaft.Screw{Pitch: 22.5e-3, Lead: 5e-3, Friction: 0.12}
	d := proof.Must(s.Drive(5e3))(t)
	proof.Near(t, "lead angle", d.LeadAngle/units.Deg, 4.046108, 1e-6)
	proof.Near(t, "raise", d.Raise, 10.820723, 1e-7)
	proof.Near(t, "lower", d.Lower, 2.747802, 1e-6)
	proof.Near(t, "efficiency", d.Efficiency, 0.367709, 2e-6)
	if !d.SelfLocking {
		t.Error("want self-locking")
	}
	s.Flank = 15 * units.Deg
	d = proof.Must(s.Drive(5e3))(t)
	proof.Near(t, "trapezoidal", d.Raise, 11.064217, 1e-7)
	proof.Near(t, "trapezoidal, efficiency", d.Efficiency, 0.359616, 2e-6)
	s.Friction = 0
	if d := proof.Must(s.Drive(5e3))(t); d.SelfLocking || math.Abs(d.Efficiency-1) > 1e-12 {
		t.Errorf("without friction: %+v", d)
	}
	s.Friction, s.Lead = 0.8, 0.1
	_, err := s.Drive(1)
	proof.Fails(t, "jams", err, "it jams")
	proof.Near(t, "ball screw", shaft.BallScrewTorque(5e3, 0.010, 0.9), 8.841941, 1e-7)
	proof.Near(t, "ball screw, holding", shaft.BallScrewHolding(5e3, 0.010, 0.9), 7.073553, 1e-7)
}
