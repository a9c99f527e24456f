package shaft_test

import (
	"math"
	"testing"

	"tautline/stdlib/internal/proof"
	"tautline/stdlib/structure/shaft"
	"tautline/stdlib/units"
)

// last is the tolerance where the expected value is printed with seven digits.
const last = 1e-6

func TestStatic(t *testing.T) {
	// Closed forms; expected values worked independently, to seven digits.
	solid := shaft.Round{Diameter: 40 * units.Mm}
	const bending, torque = 400 * units.Nm, 300 * units.Nm
	sigma, tau := solid.BendingStress(bending), solid.TorsionStress(torque)
	proof.Near(t, "bending stress", sigma/units.MPa, 63.66198, last)
	proof.Near(t, "torsion stress", tau/units.MPa, 23.87324, last)
	proof.Near(t, "von Mises", shaft.VonMises(sigma, tau)/units.MPa, 75.91207, last)
	proof.Near(t, "Tresca", shaft.Tresca(sigma, tau)/units.MPa, 79.57747, last)
	proof.Near(t, "equivalent moment", shaft.EquivalentMoment(bending, torque), 476.9696, last)
	proof.Near(t, "diameter", shaft.DiameterFor(bending, torque, 100*units.MPa)/units.Mm, 36.48914, last)
	proof.Near(t, "twist", solid.Twist(torque, 1*units.M, 80769.23*units.MPa)/units.Deg, 0.846756, last)
	proof.Near(t, "hollow", shaft.Round{Diameter: 60 * units.Mm, Bore: 50 * units.Mm}.TorsionStress(torque)/units.MPa, 13.66218, last)
}

func TestKey(t *testing.T) {
	// A key of 12 × 8 × 40 on a shaft of 40 mm under 300 N·m; Moore's factor of the
	// weakened shaft, as in Shigley, Mechanical Engineering Design.
	proof.Near(t, "keyway", shaft.KeywayFactor(40*units.Mm, 12*units.Mm, 5*units.Mm), 0.8025, last)
	proof.Near(t, "force", shaft.KeyForce(300*units.Nm, 40*units.Mm), 15000, last)
	proof.Near(t, "shear", shaft.KeyShear(300*units.Nm, 40*units.Mm, 12*units.Mm, 40*units.Mm)/units.MPa, 31.25, last)
	proof.Near(t, "bearing", shaft.KeyBearing(300*units.Nm, 40*units.Mm, 8*units.Mm, 40*units.Mm)/units.MPa, 93.75, last)
}

// Shigley, Mechanical Engineering Design, 10th edition, example 7-1: a shoulder of
// 1.65 on 1.100 in with a fillet of 0.11 in. The book rounds each step, hence half
// a percent; the unrounded values are ours from its equations.
func TestShigleyFatigue(t *testing.T) {
	const lbfIn = units.Lbf * units.In
	kf, kfs := shaft.NotchFactor(1.68, 0.85), shaft.NotchFactor(1.42, 0.92)
	proof.Near(t, "Kf", kf, 1.578, 1e-3)
	proof.Near(t, "Kfs", kfs, 1.386, 1e-3)
	ka, err := shaft.SurfaceFactor("machined", 105*units.Ksi)
	if err != nil {
		t.Fatal(err)
	}
	proof.Near(t, "ka", ka, 0.7866, 2e-3)
	kb := shaft.DiameterFactor(1.1 * units.In)
	proof.Near(t, "kb", kb, 0.8702, 1e-3)
	ke := proof.Must(shaft.ReliabilityFactor(0.99))(t)
	proof.Near(t, "ke", ke, 0.814, last)
	endurance := ka * kb * ke * shaft.EnduranceLimit(105*units.Ksi)
	proof.Near(t, "Se", endurance/units.Ksi, 29.25, 2e-3)
	s := proof.Must(shaft.Fatigue{Section: shaft.Round{Diameter: 1.1 * units.In}, Bending: 1260 * lbfIn, MeanTorque: 1100 * lbfIn,
		Kf: kf, Kfs: kfs, Endurance: 29.25 * units.Ksi, Tensile: 105 * units.Ksi, Yield: 82 * units.Ksi}.Safety())(t)
	for _, c := range []struct {
		what                 string
		got, book, unrounded float64
	}{
		{"Goodman", s.Goodman, 1.62, 1.622}, {"Gerber", s.Gerber, 1.87, 1.861}, {"elliptic", s.Elliptic, 1.88, 1.871},
		{"Soderberg", s.Soderberg, 1.56, 1.554}, {"yield", s.Yield, 4.48, 4.489},
	} {
		proof.Near(t, c.what+" of the book", c.got, c.book, 6e-3)
		proof.Near(t, c.what, c.got, c.unrounded, 1e-3)
	}
}

// Peterson's curves as read in Shigley's example 7-1: Kt 1.68 and Kts 1.42. The
// fits lie within some 5 % of the curves.
func TestShoulder(t *testing.T) {
	proof.Near(t, "bending", shaft.ShoulderBending(1.65, 1.1, 0.11), 1.68, 0.05)
	proof.Near(t, "torsion", shaft.ShoulderTorsion(1.65, 1.1, 0.11), 1.42, 0.05)
	proof.Near(t, "sensitivity", shaft.NotchSensitivity(105*units.Ksi, 0.11*units.In), 0.85, 0.05)
}

func TestBearing(t *testing.T) {
	// ISO 281:2007, basic and adjusted life; worked independently.
	const rating, load, speed = 25.5 * units.KN, 4.2 * units.KN, 120 * units.Rpm
	ball := shaft.BearingLife(rating, load, shaft.BallExponent)
	roller := shaft.BearingLife(rating, load, shaft.RollerExponent)
	proof.Near(t, "ball", ball, 223.8065e6, last)
	proof.Near(t, "roller", roller, 408.2908e6, last)
	proof.Near(t, "ball, hours", shaft.BearingHours(ball, speed)/units.H, 31084.23, last)
	proof.Near(t, "roller, hours", shaft.BearingHours(roller, speed)/units.H, 56707.06, last)
	for reliability, hours := range map[float64]float64{0.95: 19893.9, 0.98: 11501.2} {
		a1 := proof.Must(shaft.LifeFactor(reliability))(t)
		proof.Near(t, "adjusted, hours", a1*shaft.BearingHours(ball, speed)/units.H, hours, 1e-5)
	}
	_, err := shaft.LifeFactor(0.999)
	proof.Fails(t, "reliability of 0.999", err, "want 0.90")
	// Shigley, Mechanical Engineering Design, 10th edition, chapter 11: 400 lbf for
	// 5000 h at 1725 turns a minute need 3211 lbf.
	proof.Near(t, "rating", shaft.BearingRating(400*units.Lbf, 5000*60*1725, shaft.BallExponent)/units.Lbf, 3211.4, 1e-4)

	d := shaft.Duty{Load: []units.Force{6000, 4000, 1000}, Speed: []units.AngularSpeed{60 * units.Rpm, 120 * units.Rpm, 300 * units.Rpm}, Time: []units.Time{20, 50, 30}}
	proof.Near(t, "equivalent", proof.Must(d.Equivalent(shaft.BallExponent))(t), 3427.325, last)
	proof.Near(t, "mean speed", proof.Must(d.MeanSpeed())(t)/units.Rpm, 162, last)
	proof.Near(t, "swing", shaft.OscillationTurns(30*units.Deg), 1.0/3, last)
	d.Time = d.Time[:2]
	_, err = d.Equivalent(shaft.BallExponent)
	proof.Fails(t, "lists that do not fit", err, "equally many")
}

func TestHertz(t *testing.T) {
	// Johnson, Contact Mechanics, chapter 4: roller and ball of steel on a flat.
	const e = 210e3 * units.MPa
	joined := shaft.ContactModulus(e, 0.3, e, 0.3)
	roller := shaft.LineHalfWidth(3000, 50*units.Mm, 20*units.Mm, joined)
	proof.Near(t, "half width", roller/units.Mm, 0.2876814, last)
	proof.Near(t, "pressure of the roller", shaft.LinePressure(3000, 50*units.Mm, 20*units.Mm, joined)/units.MPa, 331.940, last)
	proof.Near(t, "radius of the ball's contact", shaft.BallRadius(2000, 10*units.Mm, joined)/units.Mm, 0.5065797, last)
	proof.Near(t, "pressure of the ball", shaft.BallPressure(2000, 10*units.Mm, joined)/units.MPa, 3721.14, 2e-6)
	// The pressure over the contact carries the load: π/2 of p·b a length, 2/3 of p·π·a².
	p := shaft.BallPressure(2000, 10*units.Mm, joined)
	a := shaft.BallRadius(2000, 10*units.Mm, joined)
	proof.Near(t, "load carried by the ball", 2.0/3*p*math.Pi*a*a, 2000, 1e-12)
}

func TestBelt(t *testing.T) {
	// Euler–Eytelwein; exact geometry of an open belt; worked independently.
	proof.Near(t, "flat", shaft.CapstanRatio(0.3, 160*units.Deg), 2.311180, last)
	proof.Near(t, "V", shaft.CapstanRatio(shaft.GrooveFriction(0.3, 38*units.Deg), 160*units.Deg), 13.107946, last)
	proof.Near(t, "wrap", shaft.SmallWrap(300*units.Mm, 100*units.Mm, 500*units.Mm)/units.Deg, 156.92608, last)
	proof.Near(t, "length", shaft.OpenBeltLength(300*units.Mm, 100*units.Mm, 500*units.Mm)/units.Mm, 1648.3860, last)
	// The tight side less the slack side carries the torque, also at speed.
	tight := shaft.TightSide(30*units.Nm, 50*units.Mm, 2.5, 0.1, 20*units.MPerS)
	centrifugal := 0.1 * 20 * 20.0
	slack := (tight-centrifugal)/2.5 + centrifugal
	proof.Near(t, "torque", (tight-slack)*0.05, 30, 1e-12)
}

func TestChain(t *testing.T) {
	// Polygon action and the length of a chain in pitches; worked independently.
	for teeth, want := range map[float64]float64{11: 0.040507, 17: 0.017027, 19: 0.013639, 25: 0.007885} {
		proof.Near(t, "ripple", shaft.ChainRipple(teeth), want, 1e-4)
	}
	proof.Near(t, "links", shaft.ChainLinks(51, 17, 40), 114.732, last*10)
}

func TestScrew(t *testing.T) {
	// Shigley's equations 8-1 to 8-5; worked independently.
	s := shaft.Screw{Pitch: 22.5 * units.Mm, Lead: 5 * units.Mm, Friction: 0.12}
	d := proof.Must(s.Drive(5 * units.KN))(t)
	proof.Near(t, "lead angle", d.LeadAngle/units.Deg, 4.046108, last)
	proof.Near(t, "raise", d.Raise, 10.820723, last)
	proof.Near(t, "lower", d.Lower, 2.747802, last)
	proof.Near(t, "efficiency", d.Efficiency, 0.367709, 2e-6)
	if !d.SelfLocking {
		t.Error("the screw runs back, want self-locking")
	}
	s.Flank = 15 * units.Deg
	d = proof.Must(s.Drive(5 * units.KN))(t)
	proof.Near(t, "raise, trapezoidal", d.Raise, 11.064217, last)
	proof.Near(t, "efficiency, trapezoidal", d.Efficiency, 0.359616, 2e-6)
	proof.Near(t, "ball screw", shaft.BallScrewTorque(5*units.KN, 10*units.Mm, 0.9), 8.841941, last)
	proof.Near(t, "ball screw, holding", shaft.BallScrewHolding(5*units.KN, 10*units.Mm, 0.9), 7.073553, last)
	s.Lead, s.Friction = 1*units.M, 0.9
	_, err := s.Drive(5 * units.KN)
	proof.Fails(t, "a screw that jams", err, "it jams")
}

// Balls of a slewing ring, as springs on a circle, each with its own force by
// equilibrium and compatibility, worked here one by one.
func TestSlewingRing(t *testing.T) {
	r := shaft.SlewingRing{Diameter: 0.4, Balls: 60, Angle: 45 * units.Deg, Bolts: 24, Circle: 0.44}
	const push, moment = 8e3, 3e3
	l := proof.Must(r.Carry(push, 0, moment))(t)
	most, sum, tip := 0.0, 0.0, 0.0
	for i := range 60 {
		sin := math.Sin(float64(i) * 2 * math.Pi / 60)
		axial := push/60 + 4*moment/(0.4*60)*sin
		sum, tip, most = sum+axial, tip+axial*0.2*sin, max(most, axial)
	}
	proof.Near(t, "push carried", sum, push, 1e-12)
	proof.Near(t, "moment carried", tip, moment, 1e-12)
	proof.Near(t, "ball", l.Ball, most/math.Sin(math.Pi/4), 1e-12)
	proof.Near(t, "bolt", l.Bolt, 4*moment/(0.44*24)-push/24, 1e-12)
	few := r
	few.Bolts = 8
	if l := proof.Must(few.Carry(push, 0, moment))(t); len(l.Warnings) != 1 {
		t.Errorf("eight bolts: got warnings %q, want one", l.Warnings)
	}
}

// Closed forms of beams: a load in the middle, a load on the overhang (Roark's
// Formulas for Stress and Strain, beams), and a shaft stepped symmetrically, whose
// middle sinks by F/(2E)·(a³/(3·I1) + ((L/2)³ − a³)/(3·I2)).
func TestStepped(t *testing.T) {
	const e, force = 210e9, 2e3
	inertia := func(d float64) float64 { return math.Pi * math.Pow(d, 4) / 64 }
	even := shaft.Stepped{Steps: []shaft.Step{{Length: 1.2, Diameter: 0.04}}, Left: 0, Right: 1, E: e}
	b := proof.Must(even.Bend([]shaft.Load{{At: 0.5, Fy: -force}}, []units.Length{0, 0.5}))(t)
	proof.Near(t, "middle", b.Stations[1].Y, -force/(48*e*inertia(0.04)), 1e-9)
	proof.Near(t, "slope at the bearing", b.Stations[0].Slope, force/(16*e*inertia(0.04)), 1e-9)
	proof.Near(t, "moment", b.Greatest, force/4, 1e-12)
	proof.Near(t, "left bearing", b.LeftY, force/2, 1e-12)
	b = proof.Must(even.Bend([]shaft.Load{{At: 1.2, Fz: force}}, []units.Length{1.2}))(t)
	proof.Near(t, "end of the overhang", b.Stations[0].Z, force*0.2*0.2*1.2/(3*e*inertia(0.04)), 1e-9)
	proof.Near(t, "bearing by the overhang", b.RightZ, -force*1.2, 1e-12)
	stepped := shaft.Stepped{Steps: []shaft.Step{{Length: 0.3, Diameter: 0.03}, {Length: 0.4, Diameter: 0.05}, {Length: 0.3, Diameter: 0.03}}, Left: 0, Right: 1, E: e}
	b = proof.Must(stepped.Bend([]shaft.Load{{At: 0.5, Fy: -force}}, []units.Length{0.5}))(t)
	want := force / (2 * e) * (math.Pow(0.3, 3)/(3*inertia(0.03)) + (math.Pow(0.5, 3)-math.Pow(0.3, 3))/(3*inertia(0.05)))
	proof.Near(t, "stepped", b.Stations[0].Deflection, want, 1e-9)
	_, err := stepped.Bend([]shaft.Load{{At: 2, Fy: 1}}, nil)
	proof.Fails(t, "a load beside the shaft", err, "2")
}

// The pinion of Shigley's chapter 14 has a form factor of 0.296 at 16 teeth of 20°.
func TestGear(t *testing.T) {
	y := proof.Must(shaft.LewisFactor(16))(t)
	proof.Near(t, "form factor", y, 0.296, 1e-3)
	_, err := shaft.LewisFactor(5)
	proof.Fails(t, "five teeth", err, "5")
	// Two rollers with the radii of the teeth at the pitch point give the same.
	const e = 206e9
	joined := shaft.ContactModulus(e, 0.3, e, 0.3)
	angle := 20 * units.Deg
	radius := shaft.ContactRadius(0.06/2*math.Sin(angle), 0.18/2*math.Sin(angle))
	want := shaft.LinePressure(1.2*900/math.Cos(angle), radius, 0.03, joined)
	proof.Near(t, "contact", shaft.ToothContact(900, 1.2, 0.03, 0.06, 0.18, angle, joined), want, 1e-9)
}
