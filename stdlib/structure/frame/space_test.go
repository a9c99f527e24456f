package frame_test

import (
	"math"
	"testing"

	"tautline/stdlib/internal/proof"
	"tautline/stdlib/structure/frame"
	"tautline/stdlib/structure/section"
	"tautline/stdlib/units"
)

// Two arms at right angles, a load at the tip of the second: Pb³/3EI + Pa³/3EI +
// Pb²a/GJ, the last from the first arm's twist.
func TestGrillageTorsion(t *testing.T) {
	exact := tube
	exact.A, exact.Iy, exact.Iz, exact.It = 854.79645e-6, 435510.743e-12, 435510.743e-12, 726443.391e-12
	f := frame.New()
	a, b, c := f.Node(0, 0, 0), f.Node(1.5, 0, 0), f.Node(1.5, 0.8, 0)
	f.Member(a, b, exact, steel)
	f.Member(b, c, exact, steel)
	f.Fix(a)
	q := frame.NewCase("tip")
	q.Node(c, down(1000))
	r := solve(t, f, q)
	d, s := r.Displacement(c), r.Reaction(a)
	proof.Near(t, "uz", mm(d.Z), -30.481810, 1e-6)
	proof.Near(t, "rx", d.RX, -0.02389253, 1e-6)
	proof.Near(t, "ry", d.RY, 0.01230083, 1e-6)
	proof.Near(t, "rz", d.RZ, 0, 1e-12)
	proof.Near(t, "Fz", s.FZ, 1000, 1e-9)
	proof.Near(t, "Mx", nmm(s.MX), 8.0e5, 1e-9)
	proof.Near(t, "My", nmm(s.MY), -1.5e6, 1e-9)
	proof.Near(t, "Mz", nmm(s.MZ), 0, 1e-6)
}

// An upright RHS 100x50x4 takes its up vector from the drawing, and global x
// without one: PL³/3EI with either second moment.
func TestUprightMember(t *testing.T) {
	rhs := section.RHS(0.1, 0.05, 0.004, section.ColdFormed)
	for _, c := range []struct {
		up             frame.Direction
		alongX, alongY float64
	}{
		{frame.Direction{X: 1}, 4.733327, 14.125290},
		{frame.Direction{}, 4.733327, 14.125290},
		{frame.Direction{Y: 1}, 14.125290, 4.733327},
	} {
		f := frame.New()
		a, b := f.Node(0, 0, 0), f.Node(0, 0, 2)
		m := f.Member(a, b, rhs, steel)
		f.Up(m, c.up.X, c.up.Y, c.up.Z)
		f.Fix(a)
		q := frame.NewCase("x")
		q.Node(b, frame.Load{FX: 500})
		proof.Near(t, "along x", mm(solve(t, f, q).Displacement(b).X), c.alongX, 1e-6)
		q = frame.NewCase("y")
		q.Node(b, frame.Load{FY: 500})
		proof.Near(t, "along y", mm(solve(t, f, q).Displacement(b).Y), c.alongY, 1e-6)
		f.Roll(m, 90*units.Deg)
		proof.Near(t, "along y, rolled", mm(solve(t, f, q).Displacement(b).Y), c.alongX, 1e-6)
	}
}

// portal is Kleinlogel's frame: columns SHS 100x100x8, beam RHS 120x60x6, no
// change of length.
func portal(fixed bool) (f *frame.Frame, feet, knees [2]frame.Node, members [3]frame.Member) {
	column := section.Section{A: 1, Iy: 3659440.637e-12, Iz: 1e-6, It: 1e-6}
	rafter := section.Section{A: 1, Iy: 3280132.923e-12, Iz: 1e-6, It: 1e-6}
	column.A, rafter.A = 1, 1 // m²: stiff along themselves
	f = frame.New()
	feet = [2]frame.Node{f.Node(0, 0, 0), f.Node(4, 0, 0)}
	knees = [2]frame.Node{f.Node(0, 0, 3), f.Node(4, 0, 3)}
	members = [3]frame.Member{f.Member(feet[0], knees[0], column, steel), f.Member(knees[0], knees[1], rafter, steel), f.Member(feet[1], knees[1], column, steel)}
	for i := range 2 {
		if fixed {
			f.Fix(feet[i])
		} else {
			pin(f, feet[i])
		}
		f.Support(knees[i], frame.Support{Y: true, RX: true, RZ: true})
	}
	return f, feet, knees, members
}

// Kleinlogel, Rigid Frame Formulas, portal with fixed and with pinned feet,
// k = (Ib/Ic)·(h/L) = 0.672261129.
func TestPortal(t *testing.T) {
	const (
		h, span = 3000.0, 4000.0
		k       = 3280132.923 / 3659440.637 * h / span
		ec      = 210000 * 3659440.637
		eb      = 210000 * 3280132.923
	)
	sway := frame.NewCase("sway")
	f, feet, knees, m := portal(true)
	sway.Node(knees[0], frame.Load{FX: 10000})
	r := solve(t, f, sway)
	proof.Near(t, "fixed, base moment", nmm(absf(r.Member(m[0]).First().MY)), 10000*h/2*(3*k+1)/(6*k+1), 1e-5)
	proof.Near(t, "fixed, base moment printed", nmm(absf(r.Member(m[0]).First().MY)), 8.9899971e6, 1e-5)
	proof.Near(t, "fixed, knee moment", nmm(absf(r.Member(m[0]).Last().MY)), 6.0100029e6, 1e-5)
	proof.Near(t, "fixed, axial forces", r.Member(m[0]).First().N, 3005.0015, 1e-5)
	proof.Near(t, "fixed, axial forces", r.Member(m[2]).First().N, -3005.0015, 1e-5)
	proof.Near(t, "fixed, sway", mm(r.Displacement(knees[0]).X), 10000*h*h*h/(12*ec)*(3*k+2)/(6*k+1), 1e-5)
	proof.Near(t, "fixed, sway printed", mm(r.Displacement(knees[0]).X), 23.364210, 1e-5)

	f, feet, knees, m = portal(false)
	r = solve(t, f, sway)
	proof.Near(t, "pinned, knee moment", nmm(absf(r.Member(m[0]).Last().MY)), 15.0e6, 1e-5)
	proof.Near(t, "pinned, sway", mm(r.Displacement(knees[0]).X), 10000*h*h*h/(6*ec)+10000*h*h*span/(12*eb), 1e-5)
	proof.Near(t, "pinned, sway printed", mm(r.Displacement(knees[0]).X), 102.109201, 1e-5)
	proof.Near(t, "pinned, Rz", r.Reaction(feet[0]).FZ, -7500, 1e-5)
	proof.Near(t, "pinned, Rx", r.Reaction(feet[0]).FX, -5000, 1e-5)

	load := frame.NewCase("even")
	load.Line(m[1], even(5))
	r = solve(t, f, load)
	proof.Near(t, "pinned, thrust", r.Reaction(feet[0]).FX, 1534.49937, 1e-5)
	f, feet, _, m = portal(true)
	r = solve(t, f, load)
	proof.Near(t, "fixed, thrust", r.Reaction(feet[0]).FX, 2494.76617, 1e-5)
	proof.Near(t, "fixed, base moment", nmm(absf(r.Member(m[0]).First().MY)), 2.4947662e6, 1e-5)
	proof.Near(t, "fixed, knee moment", nmm(absf(r.Member(m[0]).Last().MY)), 4.9895323e6, 1e-5)
}

// Units of Logan's examples, in SI.
const (
	inch = 0.0254
	lbf  = 4.4482216152605
	psi  = lbf / (inch * inch)
)

func american(e, g, a, i, j float64) (section.Section, section.Material) {
	return section.Section{A: a * inch * inch, Iy: i * math.Pow(inch, 4), Iz: i * math.Pow(inch, 4), It: j * math.Pow(inch, 4)},
		section.Material{E: e * psi, G: g * psi}
}

// Logan, A First Course in the Finite Element Method, space truss of three bars
// (example 3.8 of recent editions, numbers from memory). The book prints -0.072
// and -0.264 in from rounded stiffnesses; the exact solution of its data is used.
func TestSpaceTruss(t *testing.T) {
	f := frame.New()
	one := f.Node(72*inch, 0, 0)
	far := []frame.Node{f.Node(0, 36*inch, 0), f.Node(0, 36*inch, 72*inch), f.Node(0, 0, -48*inch)}
	var bars []frame.Member
	for i, a := range []float64{0.302, 0.729, 0.187} {
		s, m := american(1.2e6, 1, a, 0, 0)
		bars = append(bars, f.Bar(one, far[i], s, m))
		f.Pin(far[i])
	}
	f.Support(one, frame.Support{Y: true})
	c := frame.NewCase("load")
	c.Node(one, down(1000*lbf))
	r := solve(t, f, c)
	proof.Near(t, "u1x", r.Displacement(one).X/inch, -0.0711144, 1e-5)
	proof.Near(t, "u1z", r.Displacement(one).Z/inch, -0.2662391, 1e-5)
	for i, want := range []float64{-948.191, 1445.368, -2868.543} {
		area := []float64{0.302, 0.729, 0.187}[i] * inch * inch
		proof.Near(t, "stress", r.Member(bars[i]).First().N/area/psi, want, 1e-5)
	}
	proof.Near(t, "reaction", r.Reaction(one).FY/lbf, -223.163, 1e-5)
}

// Logan, grid of three members (numbers from memory), z up: its axes are
// mirrored, so some signs differ. The book prints -2.83 in, 0.0295, 0.0169 rad.
func TestGrid(t *testing.T) {
	s, m := american(30e6, 12e6, 1, 400, 110)
	f := frame.New()
	one := f.Node(240*inch, 120*inch, 0)
	for _, p := range [][2]float64{{0, 0}, {0, 240}, {240, 0}} {
		n := f.Node(p[0]*inch, p[1]*inch, 0)
		f.Fix(n)
		f.Member(n, one, s, m)
	}
	c := frame.NewCase("load")
	c.Node(one, down(100000*lbf))
	d := solve(t, f, c).Displacement(one)
	proof.Near(t, "uz", d.Z/inch, -2.824945, 1e-5)
	proof.Near(t, "rx", d.RX, -0.02946179, 1e-5)
	proof.Near(t, "ry", d.RY, 0.01689063, 1e-5)
}

// Logan, space frame of three members: published 7.098e-5, -0.014, -2.352e-3 in,
// -3.996e-3, 1.78e-5, -1.033e-4 rad (numbers from memory), here with more digits.
func TestSpaceFrame(t *testing.T) {
	s, m := american(30e6, 10e6, 10, 100, 50)
	f := frame.New()
	one := f.Node(0, 0, 0)
	for _, p := range [][3]float64{{-100, 0, 0}, {0, 0, -100}, {0, -100, 0}} {
		n := f.Node(p[0]*inch, p[1]*inch, p[2]*inch)
		f.Fix(n)
		f.Member(n, one, s, m)
	}
	c := frame.NewCase("load")
	c.Node(one, frame.Load{FY: -50000 * lbf, MX: -1.0e6 * lbf * inch})
	d := solve(t, f, c).Displacement(one)
	for i, v := range [][2]float64{
		{d.X / inch, 7.09825755e-5}, {d.Y / inch, -1.39951349e-2}, {d.Z / inch, -2.35188934e-3},
		{d.RX, -3.99609044e-3}, {d.RY, 1.78006916e-5}, {d.RZ, -1.03342904e-4},
	} {
		proof.Near(t, "freedom "+string(rune('1'+i)), v[0], v[1], 1e-6)
	}
}

// A tripod: each leg P/3 over its cosine, each foot pushed outwards by P/3 times
// its tangent.
func TestTripod(t *testing.T) {
	f := frame.New()
	apex := f.Node(0, 0, 0.8)
	var feet []frame.Node
	for i := range 3 {
		sin, cos := math.Sincos(2 * math.Pi / 3 * float64(i))
		feet = append(feet, f.Node(0.6*cos, 0.6*sin, 0))
		f.Bar(feet[i], apex, tube, steel)
		f.Pin(feet[i])
	}
	c := frame.NewCase("load")
	c.Node(apex, down(3000))
	r := solve(t, f, c)
	for i, n := range feet {
		proof.Near(t, "leg", r.Member(frame.Member(i+1)).First().N, -1250, 1e-9)
		proof.Near(t, "thrust", r.Reaction(n).Slide, 750, 1e-9)
		proof.Near(t, "friction", r.Reaction(n).Friction, 0.75, 1e-9)
	}
}

// cross is a base of four equal arms of 1.2 m on pads that only push, with a
// column foot held level and against turning.
func cross() (f *frame.Frame, centre frame.Node, pads [4]frame.Node) {
	f = frame.New()
	centre = f.Node(0, 0, 0)
	for i, p := range [4][2]float64{{1.2, 0}, {0, 1.2}, {-1.2, 0}, {0, -1.2}} {
		pads[i] = f.Node(p[0], p[1], 0)
		f.Member(centre, pads[i], tube, steel)
		f.Support(pads[i], frame.Support{Z: true, Lifts: true})
	}
	f.Support(centre, frame.Support{X: true, Y: true, RZ: true})
	return f, centre, pads
}

// Statics: F/4 ± M/2a on the arms in the plane of the moment, F/4 on the others,
// which cannot twist a pad. When one lifts, the rest follows from the sum and the
// moment alone.
func TestPadsLiftOff(t *testing.T) {
	for _, c := range []struct {
		moment float64
		want   [4]float64
		lifted bool
	}{
		{2000, [4]float64{1500, 2333.3333333, 1500, 666.6666667}, false},
		{4500, [4]float64{1125, 3750, 1125, 0}, true},
	} {
		f, centre, pads := cross()
		q := frame.NewCase("rider")
		q.Node(centre, frame.Load{FZ: -6000, MX: -c.moment})
		r := solve(t, f, q)
		for i, n := range pads {
			proof.Near(t, "pad", r.Reaction(n).FZ, c.want[i], 1e-9)
		}
		if got := len(r.Lifted()) == 1 && r.Lifted()[0] == pads[3]; got != c.lifted {
			t.Errorf("moment %g: lifted %v, want the last pad lifted to be %v", c.moment, r.Lifted(), c.lifted)
		}
		if (len(r.Warnings) > 0) != c.lifted {
			t.Errorf("moment %g: warnings %q", c.moment, r.Warnings)
		}
	}
	// Without lifting the pad would pull: 3375 and -375 N.
	f, centre, pads := cross()
	for i := range f.Supports {
		f.Supports[i].Lifts = false
	}
	q := frame.NewCase("rider")
	q.Node(centre, frame.Load{FZ: -6000, MX: -4500})
	r := solve(t, f, q)
	proof.Near(t, "pressed", r.Reaction(pads[1]).FZ, 3375, 1e-9)
	proof.Near(t, "pulled", r.Reaction(pads[3]).FZ, -375, 1e-9)
}

// Beyond the moment that all pads together bear, the frame tips, and the message
// says what has lifted.
func TestTipping(t *testing.T) {
	f, centre, _ := cross()
	q := frame.NewCase("too much")
	q.Node(centre, frame.Load{FZ: -6000, MX: -8000})
	_, err := f.Solve(q.Alone())
	proof.Fails(t, "tipping", err, "lifted off, the frame tips or slides")
}

// A member set off its nodes by rigid links: a cantilever whose axis lies 0.2 m
// above the nodes, pulled along, bends as under N·e.
func TestOffsets(t *testing.T) {
	f, n, m := beam(0, 2000)
	f.Fix(n[0])
	up := frame.Offset{Z: 0.2}
	f.Offsets(m[0], up, up)
	c := frame.NewCase("pull")
	c.Node(n[1], frame.Load{FX: 1000})
	r := solve(t, f, c)
	// The pull at the node turns the end by -N·e·L/EI about y.
	proof.Near(t, "moment", nmm(r.Member(m[0]).At(1).MY), -1000*200, 1e-9)
	proof.Near(t, "N", r.Member(m[0]).At(1).N, 1000, 1e-9)
	turn := -1000.0 * 200 * 2000 / ei
	proof.Near(t, "turn", r.Displacement(n[1]).RY, turn, 1e-6)
	proof.Near(t, "movement along", mm(r.Displacement(n[1]).X), 1000*2000/(210000*area)-turn*200, 1e-6)
	proof.Near(t, "length", f.Length(m[0]), 2, 1e-12)
}

// An angle bends askew: under a force along z its tip moves PL³/3E·Iz/D along z
// and -PL³/3E·Iyz/D along y, D = Iy·Iz - Iyz², unless it is held.
func TestAskewBending(t *testing.T) {
	angle := proof.Must(section.Standard("L 60x40x6"))(t)
	f := frame.New()
	a, b := f.Node(0, 0, 0), f.Node(1, 0, 0)
	m := f.Member(a, b, angle, steel)
	f.Fix(a)
	c := frame.NewCase("tip")
	c.Node(b, frame.Load{FZ: -500})
	r := solve(t, f, c)
	det := angle.Iy*angle.Iz - angle.Iyz*angle.Iyz
	proof.Near(t, "along z", r.Displacement(b).Z, -500/(3*210e9)*angle.Iz/det, 1e-9)
	proof.Near(t, "along y", r.Displacement(b).Y, 500/(3*210e9)*angle.Iyz/det, 1e-9)
	proof.Near(t, "moment about y", r.Member(m).First().MY, 500, 1e-9)
	proof.Near(t, "moment about z", r.Member(m).First().MZ, 0, 1e-6)

	held := f.Copy()
	held.Support(b, frame.Support{Y: true, RZ: true})
	proof.Near(t, "held sideways", solve(t, held, c).Displacement(b).Z, -500/(3*210e9*angle.Iy), 1e-9)
	if len(f.Supports) != 1 {
		t.Errorf("the frame copied has %d supports, want 1 still", len(f.Supports))
	}
}

// Shear deformation: PL³/3EI + PL/GAs, switched on and off.
func TestShearDeformation(t *testing.T) {
	f, n, m := beam(0, 500)
	f.Members[0].Section.Asy, f.Members[0].Section.Asz = 350e-6, 350e-6
	f.Fix(n[0])
	c := frame.NewCase("tip")
	c.Node(n[1], down(1000))
	c.Line(m[0], even(2))
	bending := 1000*math.Pow(500, 3)/(3*ei) + 2*math.Pow(500, 4)/(8*ei)
	shear := (1000*500 + 2*500*500/2.0) / (81000 * 350.0)
	proof.Near(t, "without", -mm(solve(t, f, c).Displacement(n[1]).Z), bending, 1e-6)
	f.ShearDeformation = true
	r := solve(t, f, c)
	proof.Near(t, "with", -mm(r.Displacement(n[1]).Z), bending+shear, 1e-6)
	proof.Near(t, "followed to the end", -mm(r.Member(m[0]).Last().DZ), bending+shear, 1e-6)
}
