package frame_test

import (
	"math"
	"testing"

	"tautline/stdlib/internal/proof"
	"tautline/stdlib/structure/frame"
	"tautline/stdlib/structure/section"
	"tautline/stdlib/units"
)

// The numbers of this file are worked from the closed forms that stand beside
// them, in N and mm, with SHS 60x60x4 (EN 10219-2, Annex B), E = 210 000 MPa,
// G = 81 000 MPa.
const (
	area    = 854.796    // mm²
	inertia = 435511     // mm⁴
	torsion = 726443.391 // mm⁴
	ei      = 9.1457310e10
)

var (
	tube  = section.Section{Name: "SHS 60x60x4", Height: 0.06, Width: 0.06, A: area * 1e-6, Iy: inertia * 1e-12, Iz: inertia * 1e-12, It: torsion * 1e-12}
	steel = section.Material{E: 210e9, G: 81e9, Density: 7850, Expansion: 12e-6}
)

// beam is a frame of nodes along x, at mm, joined one after the other.
func beam(xs ...float64) (*frame.Frame, []frame.Node, []frame.Member) {
	f := frame.New()
	var nodes []frame.Node
	var members []frame.Member
	for i, x := range xs {
		nodes = append(nodes, f.Node(x*units.Mm, 0, 0))
		if i > 0 {
			members = append(members, f.Member(nodes[i-1], nodes[i], tube, steel))
		}
	}
	return f, nodes, members
}

// roller holds a node of a beam in the plane x-z against z only.
func roller(f *frame.Frame, n frame.Node) {
	f.Support(n, frame.Support{Y: true, Z: true, RX: true, RZ: true})
}

// pin holds a node of a beam in the plane x-z against moving.
func pin(f *frame.Frame, n frame.Node) {
	f.Support(n, frame.Support{X: true, Y: true, Z: true, RX: true, RZ: true})
}

func down(newton float64) frame.Load     { return frame.Load{FZ: -newton} }
func even(nPerMm float64) frame.LineLoad { return frame.LineLoad{Z: -nPerMm * units.NPerMm} }

func solve(t *testing.T, f *frame.Frame, c *frame.Case) frame.Result {
	t.Helper()
	r := proof.Must(f.Solve(c.Alone()))(t)
	if r.OutOfBalance > 1e-9 {
		t.Errorf("%s: out of balance by %g", c.Name, r.OutOfBalance)
	}
	return r
}

func mm(v float64) float64   { return v * 1e3 }
func nmm(v float64) float64  { return v * 1e3 }
func absf(v float64) float64 { return math.Abs(v) }

// Cantilever: P·L³/3EI, P·L²/2EI, P·L.
func TestCantilever(t *testing.T) {
	f, n, m := beam(0, 1500)
	f.Fix(n[0])
	c := frame.NewCase("tip load")
	c.Node(n[1], down(1000))
	r := solve(t, f, c)
	proof.Near(t, "deflection", -mm(r.Displacement(n[1]).Z), 12.300821, 1e-6)
	proof.Near(t, "slope", r.Displacement(n[1]).RY, 0.012300821, 1e-6)
	proof.Near(t, "fixed moment", nmm(r.Member(m[0]).First().MY), 1.5e6, 1e-9)
	proof.Near(t, "reaction", r.Reaction(n[0]).FZ, 1000, 1e-9)
	proof.Near(t, "reaction moment", nmm(r.Reaction(n[0]).MY), -1.5e6, 1e-9)
	proof.Near(t, "shear", r.Member(m[0]).First().VZ, -1000, 1e-9)
}

// Beam on two supports: 5wL⁴/384EI, wL²/8.
func TestSimpleBeam(t *testing.T) {
	f, n, m := beam(0, 2000)
	pin(f, n[0])
	roller(f, n[1])
	c := frame.NewCase("even")
	c.Line(m[0], even(2))
	r := solve(t, f, c)
	mid := r.Member(m[0]).At(1)
	proof.Near(t, "deflection", -mm(mid.DZ), 4.5558597, 1e-6)
	proof.Near(t, "moment, tension below", -nmm(mid.MY), 1.0e6, 1e-9)
	proof.Near(t, "sag", mm(r.Member(m[0]).Sag()), 4.5558597, 1e-6)
}

// Propped cantilever: 3wL/8, wL²/8, the greatest deflection 0.00541612 wL⁴/EI.
func TestProppedCantilever(t *testing.T) {
	f, n, m := beam(0, 2000)
	f.Fix(n[0])
	roller(f, n[1])
	c := frame.NewCase("even")
	c.Line(m[0], even(2))
	r := solve(t, f, c)
	proof.Near(t, "prop", r.Reaction(n[1]).FZ, 1500, 1e-9)
	proof.Near(t, "fixed moment", nmm(r.Member(m[0]).First().MY), 1.0e6, 1e-9)
	x := 2 * (1 - 0.421535) // from the fixed end
	// A station stands at each tenth; between them the deflection is
	// interpolated, so the exact place is asked of a beam with a node there.
	g, gn, gm := beam(0, x*1e3, 2000)
	g.Fix(gn[0])
	roller(g, gn[2])
	d := frame.NewCase("even")
	d.Line(gm[0], even(2))
	d.Line(gm[1], even(2))
	proof.Near(t, "greatest deflection", -mm(solve(t, g, d).Displacement(gn[1]).Z), 1.895046, 1e-6)
	proof.Near(t, "span moment at no shear", -nmm(r.Member(m[0]).Most().MY), -1.0e6, 1e-9)
	span := 0.0
	for _, s := range r.Member(m[0]).Stations {
		span = math.Max(span, -s.MY)
	}
	proof.Near(t, "span moment 9wL²/128", nmm(span), 9.0*2*2000*2000/128, 1e-9)
}

// Fixed ends, point load off the middle: Pab²/L², Pa²b/L²; deflection under the
// load Pa³b³/3EIL³.
func TestFixedBeamPointLoad(t *testing.T) {
	f, n, m := beam(0, 2000)
	f.Fix(n[0])
	f.Fix(n[1])
	c := frame.NewCase("point")
	c.Point(m[0], 0.8, down(3000))
	r := solve(t, f, c)
	proof.Near(t, "Mi", nmm(r.Member(m[0]).First().MY), 864000, 1e-9)
	proof.Near(t, "Mj", nmm(r.Member(m[0]).Last().MY), 576000, 1e-9)
	proof.Near(t, "Ri", r.Reaction(n[0]).FZ, 1944, 1e-9)
	proof.Near(t, "Rj", r.Reaction(n[1]).FZ, 1056, 1e-9)
	proof.Near(t, "under the load", -mm(r.Member(m[0]).At(0.8).DZ), 1.2092199, 1e-6)

	g, gn, gm := beam(0, 909.0909, 2000)
	g.Fix(gn[0])
	g.Fix(gn[2])
	d := frame.NewCase("point")
	d.Point(gm[0], 0.8, down(3000))
	proof.Near(t, "greatest", -mm(solve(t, g, d).Displacement(gn[1]).Z), 1.2491941, 1e-6)
}

// A support that sinks: 6EIδ/L², 12EIδ/L³.
func TestSettlement(t *testing.T) {
	f, n, m := beam(0, 2000)
	f.Fix(n[0])
	f.Fix(n[1])
	c := frame.NewCase("settlement")
	c.Settle(n[1], frame.Displacement{Z: -5 * units.Mm})
	r := solve(t, f, c)
	proof.Near(t, "Mi", nmm(r.Reaction(n[0]).MY), -685929.825, 1e-6)
	proof.Near(t, "Mj", nmm(r.Reaction(n[1]).MY), -685929.825, 1e-6)
	proof.Near(t, "Ri", r.Reaction(n[0]).FZ, 685.929825, 1e-6)
	proof.Near(t, "moment in the member", nmm(r.Member(m[0]).First().MY), 685929.825, 1e-6)
	proof.Near(t, "and at its end", nmm(r.Member(m[0]).Last().MY), -685929.825, 1e-6)
}

// A spring at the tip takes P·k/(k + 3EI/L³).
func TestTipSpring(t *testing.T) {
	f, n, m := beam(0, 2000)
	f.Fix(n[0])
	f.Support(n[1], frame.Support{KZ: 50 * units.NPerMm})
	c := frame.NewCase("tip")
	c.Node(n[1], down(3000))
	r := solve(t, f, c)
	proof.Near(t, "spring force", r.Reaction(n[1]).FZ, 1779.43349, 1e-6)
	proof.Near(t, "deflection", -mm(r.Displacement(n[1]).Z), 35.5886699, 1e-6)
	proof.Near(t, "fixed moment", nmm(r.Member(m[0]).First().MY), 2.44113301e6, 1e-6)
}

// Two spans by the equation of three moments.
func TestContinuousBeam(t *testing.T) {
	for _, c := range []struct {
		second             float64
		moment, a, b, last float64
	}{
		{4000, 1.0e6, 1500, 5000, 1500},
		{5000, 1.75e6, 1125, 6458.3333, 2416.6667},
	} {
		f, n, m := beam(0, 2000, c.second)
		pin(f, n[0])
		roller(f, n[1])
		roller(f, n[2])
		q := frame.NewCase("even")
		q.Line(m[0], even(2))
		q.Line(m[1], even(2))
		r := solve(t, f, q)
		proof.Near(t, "support moment", nmm(r.Member(m[1]).First().MY), c.moment, 1e-8)
		proof.Near(t, "first reaction", r.Reaction(n[0]).FZ, c.a, 1e-7)
		proof.Near(t, "middle reaction", r.Reaction(n[1]).FZ, c.b, 1e-7)
		proof.Near(t, "last reaction", r.Reaction(n[2]).FZ, c.last, 1e-7)
	}
}

// A hinge in the middle turns a fixed beam into two cantilevers: P/2·(L/2)³/3EI.
func TestHinge(t *testing.T) {
	for _, c := range []struct {
		hinge              bool
		deflection, moment float64
	}{{true, 5.46703156, 1.5e6}, {false, 1.36675789, 0.75e6}} {
		f, n, m := beam(0, 1000, 2000)
		f.Fix(n[0])
		f.Fix(n[2])
		if c.hinge {
			f.ReleaseEnd(m[0], frame.Hinge())
		}
		q := frame.NewCase("middle")
		q.Node(n[1], down(3000))
		r := solve(t, f, q)
		proof.Near(t, "deflection", -mm(r.Displacement(n[1]).Z), c.deflection, 1e-6)
		proof.Near(t, "end moment", nmm(r.Member(m[0]).First().MY), c.moment, 1e-9)
		if c.hinge {
			proof.Near(t, "hinge moment", nmm(r.Member(m[0]).Last().MY)/1e6, 0, 1e-9)
		}
	}
}

// A joint that gives: a beam on two supports, joined to fixed posts by springs k.
// The end moment of an even load is wL²/12·1/(1 + 2EI/kL).
func TestSemiRigidJoint(t *testing.T) {
	const k = 50e6 // N·mm per rad
	f, n, m := beam(0, 2000)
	f.Fix(n[0])
	f.Fix(n[1])
	joint := frame.Release{MY: true, KMY: k * 1e-3}
	f.ReleaseStart(m[0], joint)
	f.ReleaseEnd(m[0], joint)
	c := frame.NewCase("even")
	c.Line(m[0], even(2))
	want := 2.0 * 2000 * 2000 / 12 / (1 + 2*ei/(k*2000))
	proof.Near(t, "end moment", nmm(solve(t, f, c).Member(m[0]).First().MY), want, 1e-7)
}

// Warmth: EAαΔT; EIαΔT/h; a beam free to bend cambers αΔT·L²/8h.
func TestWarmth(t *testing.T) {
	f, n, m := beam(0, 2000)
	f.Fix(n[0])
	f.Fix(n[1])
	c := frame.NewCase("warm")
	c.Warm(m[0], 40)
	r := solve(t, f, c)
	proof.Near(t, "N", r.Member(m[0]).At(0.7).N, -86163.4368, 1e-6)
	proof.Near(t, "stress", r.Member(m[0]).At(0.7).N/tube.A/1e6, -100.8, 1e-6)
	proof.Near(t, "no displacement", r.Member(m[0]).Most().DX, 0, 1e-12)

	c = frame.NewCase("warm above")
	c.WarmAcross(m[0], 0, 30)
	r = solve(t, f, c)
	for _, x := range []float64{0, 1, 2} {
		proof.Near(t, "moment, tension below", -nmm(r.Member(m[0]).At(x).MY), 548743.86, 1e-6)
	}
	proof.Near(t, "no deflection", r.Member(m[0]).Most().DZ, 0, 1e-12)

	f, n, m = beam(0, 2000)
	pin(f, n[0])
	roller(f, n[1])
	r = solve(t, f, c)
	proof.Near(t, "camber to the warm side", mm(r.Member(m[0]).At(1).DZ), 3, 1e-9)
	proof.Near(t, "no moment", r.Member(m[0]).Most().MY, 0, 1e-6)

	f, n, m = beam(0, 2000)
	f.Fix(n[0])
	roller(f, n[1])
	r = solve(t, f, c)
	proof.Near(t, "propped", -nmm(r.Member(m[0]).First().MY), 823115.79, 1e-6)

	c = frame.NewCase("warm on the left") // +y: the beam bows to +y
	c.WarmAcross(m[0], 30, 0)
	f, n, m = beam(0, 2000)
	f.Support(n[0], frame.Support{X: true, Y: true, Z: true, RX: true, RY: true})
	f.Support(n[1], frame.Support{Y: true, Z: true, RX: true, RY: true})
	proof.Near(t, "bow to the warm side", mm(solve(t, f, c).Member(m[0]).At(1).DY), 3, 1e-9)
}

// A roller on a slope of 30°: only a force along its normal, only a movement
// along the slope.
func TestInclinedRoller(t *testing.T) {
	f, n, m := beam(0, 2000)
	pin(f, n[0])
	sin, cos := 0.5, math.Sqrt(3)/2
	f.Support(n[1], frame.Support{Y: true, Z: true, Up: frame.Direction{X: -sin, Z: cos}})
	c := frame.NewCase("middle")
	c.Point(m[0], 1, down(3000))
	r := solve(t, f, c)
	at, a, d := r.Reaction(n[1]), r.Reaction(n[0]), r.Displacement(n[1])
	proof.Near(t, "roller", at.Press, 1732.0508, 1e-7)
	proof.Near(t, "roller x", at.FX, -1732.0508*sin, 1e-7)
	proof.Near(t, "roller z", at.FZ, 1732.0508*cos, 1e-7)
	proof.Near(t, "pin x", a.FX, 866.0254, 1e-7)
	proof.Near(t, "pin z", a.FZ, 1500, 1e-9)
	proof.Near(t, "N", r.Member(m[0]).At(0.5).N, -866.0254, 1e-7)
	proof.Near(t, "ux", mm(d.X), -0.00964892, 1e-6)
	proof.Near(t, "uz", mm(d.Z), -0.00557081, 1e-6)
}

// Own weight of an inclined cantilever: q·L²/2·cos, q·L·sin, q·cos·L⁴/8EI.
func TestInclinedSelfWeight(t *testing.T) {
	f := frame.New()
	a := f.Node(0, 0, 0)
	b := f.Node(1.5, 0, 3*math.Sqrt(3)/2)
	heavy := steel
	heavy.Density = 0.06574e3 / units.Gn / tube.A // so that it weighs 0.06574 N/mm
	m := f.Member(a, b, tube, heavy)
	f.Fix(a)
	c := frame.NewCase("own weight")
	c.SelfWeight()
	r := solve(t, f, c)
	first := r.Member(m).First()
	proof.Near(t, "base moment", nmm(first.MY), 147915, 1e-9)
	proof.Near(t, "base compression", -first.N, 170.7975, 1e-6)
	d := r.Displacement(b)
	across := -d.X*math.Sqrt(3)/2 + d.Z*0.5
	proof.Near(t, "tip across the member", -mm(across), 3.638952, 1e-6)
}

// A quarter circle in plan bends and twists: PR³[(π/4)/EI + (3π/4-2)/GJ]; a
// model of straight pieces comes to it from below.
func TestBowGirder(t *testing.T) {
	for _, c := range []struct {
		pieces int
		want   float64
	}{{4, 4.256766}, {8, 4.357635}, {16, 4.383586}, {64, 4.391757}} {
		f := frame.New()
		var last frame.Node
		for i := range c.pieces + 1 {
			sin, cos := math.Sincos(math.Pi / 2 * float64(i) / float64(c.pieces))
			n := f.Node(sin, 1-cos, 0)
			if i > 0 {
				f.Member(last, n, tube, steel)
			} else {
				f.Fix(n)
			}
			last = n
		}
		q := frame.NewCase("tip")
		q.Node(last, down(300))
		proof.Near(t, "tip", -mm(solve(t, f, q).Displacement(last).Z), c.want, 2e-6)
	}
}

// A beam on many springs against Hetényi's infinite beam on an elastic
// foundation, β⁴ = k/4EI: Pβ/2k and P/4β. The pitch of 100 mm costs the moment
// 0.2 %.
func TestElasticFoundation(t *testing.T) {
	var xs []float64
	for i := range 161 {
		xs = append(xs, 100*float64(i))
	}
	f, n, m := beam(xs...)
	for _, node := range n {
		f.Support(node, frame.Support{Y: true, RX: true, RZ: true, KZ: 0.5 * 100 * units.NPerMm})
	}
	f.Supports[0].X = true
	c := frame.NewCase("middle")
	c.Node(n[80], down(3000))
	r := solve(t, f, c)
	beta := math.Pow(0.5/(4*ei), 0.25)
	proof.Near(t, "deflection", -mm(r.Displacement(n[80]).Z), 3000*beta/(2*0.5), 1e-4)
	proof.Near(t, "moment", -nmm(r.Member(m[80]).First().MY), 3000/(4*beta), 3e-3)
	proof.Near(t, "moment of the spring bed", -nmm(r.Member(m[80]).First().MY), 692293, 1e-5)
}
