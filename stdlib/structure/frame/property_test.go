package frame_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"pgregory.net/rapid"

	"tautline/stdlib/structure/frame"
	"tautline/stdlib/structure/section"
)

type point [3]float64

func (p point) cross(q point) point {
	return point{p[1]*q[2] - p[2]*q[1], p[2]*q[0] - p[0]*q[2], p[0]*q[1] - p[1]*q[0]}
}

// turned is the point turned about the axis (1, 2, 3) by an angle (Rodrigues).
func turned(p point, angle float64) point {
	n := math.Sqrt(14)
	k := point{1 / n, 2 / n, 3 / n}
	sin, cos := math.Sincos(angle)
	c, dot := k.cross(p), k[0]*p[0]+k[1]*p[1]+k[2]*p[2]
	for i := range p {
		p[i] = p[i]*cos + c[i]*sin + k[i]*dot*(1-cos)
	}
	return p
}

var assorted = []section.Section{
	section.RHS(0.1, 0.05, 0.004, section.ColdFormed), section.CHS(0.0603, 0.004, section.ColdFormed),
	section.Angle(0.06, 0.04, 0.006, 0.006, 0.003), section.Channel(0.1, 0.055, 0.0045, 0.0075, 0.01),
}

// random is a frame of nodes joined at random, all of it turned by an angle: a
// tree, and members more of which some are hinged; some set off their nodes.
func random(seed uint64, count int, angle float64) (*frame.Frame, []point) {
	r := rand.New(rand.NewPCG(seed, 3))
	f := frame.New()
	var at []point
	for range count {
		p := point{3 * r.Float64(), 3 * r.Float64(), 3 * r.Float64()}
		at = append(at, turned(p, angle))
		p = at[len(at)-1]
		f.Node(p[0], p[1], p[2])
	}
	join := func(a, b int, hinges bool) {
		m := f.Member(frame.Node(a+1), frame.Node(b+1), assorted[r.IntN(len(assorted))], steel)
		up := turned(point{r.NormFloat64(), r.NormFloat64(), r.NormFloat64()}, angle)
		f.Up(m, up[0], up[1], up[2])
		f.Roll(m, r.Float64())
		if r.IntN(5) == 0 {
			o, q := turned(point{0.1 * r.NormFloat64(), 0, 0.1}, angle), turned(point{0, 0.1 * r.NormFloat64(), 0}, angle)
			f.Offsets(m, frame.Offset{X: o[0], Y: o[1], Z: o[2]}, frame.Offset{X: q[0], Y: q[1], Z: q[2]})
		}
		if hinges && r.IntN(2) == 0 {
			f.ReleaseEnd(m, frame.Release{MY: true, KMZ: 2e4, MZ: true})
		}
	}
	for i := 1; i < count; i++ {
		join(r.IntN(i), i, false)
	}
	for range count {
		if a, b := r.IntN(count), r.IntN(count); a != b {
			join(a, b, true)
		}
	}
	f.Fix(1)
	x, z := turned(point{1, 0.3, 0}, angle), turned(point{-0.3, 1, 0.5}, angle)
	f.Support(frame.Node(count), frame.Support{KX: 1e5, Z: true, KRY: 3e3, Up: frame.Direction{X: z[0], Y: z[1], Z: z[2]}, Forward: frame.Direction{X: x[0], Y: x[1], Z: x[2]}})
	return f, at
}

// someLoads are loads of every kind, turned by an angle.
func someLoads(seed uint64, f *frame.Frame, angle float64) *frame.Case {
	r := rand.New(rand.NewPCG(seed, 4))
	draw := func(size float64) point {
		return turned(point{size * r.NormFloat64(), size * r.NormFloat64(), size * r.NormFloat64()}, angle)
	}
	c := frame.NewCase("some")
	for range 3 {
		p, m := draw(1000), draw(300)
		c.Node(frame.Node(1+r.IntN(len(f.Nodes))), frame.Load{FX: p[0], FY: p[1], FZ: p[2], MX: m[0], MY: m[1], MZ: m[2]})
		n := frame.Member(1 + r.IntN(len(f.Members)))
		p, m = draw(1000), draw(300)
		c.Point(n, r.Float64()*f.Length(n), frame.Load{FX: p[0], FY: p[1], FZ: p[2], MX: m[0], MY: m[1], MZ: m[2]})
		n = frame.Member(1 + r.IntN(len(f.Members)))
		p, q := draw(500), draw(500)
		l := f.Length(n)
		c.Trapezoid(n, 0.1*l, (0.3+0.6*r.Float64())*l, frame.LineLoad{X: p[0], Y: p[1], Z: p[2]}, frame.LineLoad{X: q[0], Y: q[1], Z: q[2]})
		n = frame.Member(1 + r.IntN(len(f.Members)))
		c.Warm(n, 20*r.NormFloat64())
		c.WarmAcross(n, 10*r.NormFloat64(), 10*r.NormFloat64())
	}
	g := draw(9.81)
	c.Accelerate(g[0], g[1], g[2])
	return c
}

// The reactions hold the loads: forces and moments about the origin sum to zero,
// the loads summed here by themselves.
func TestEquilibrium(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		seed := rapid.Uint64().Draw(t, "seed")
		f, at := random(seed, rapid.IntRange(2, 12).Draw(t, "nodes"), 0)
		c := someLoads(seed, f, 0)
		r, err := f.Solve(c.Alone())
		if err != nil {
			t.Fatal(err)
		}
		var force, moment point
		size := 0.0
		add := func(p, q, m point) {
			x := p.cross(q)
			for k := range 3 {
				force[k] += q[k]
				moment[k] += x[k] + m[k]
				size += math.Abs(q[k]) + math.Abs(x[k]) + math.Abs(m[k])
			}
		}
		along := func(n frame.Member, x float64) point {
			b := f.Members[n-1]
			a, e := at[b.From-1], at[b.To-1]
			o, q := b.Start.Offset, b.End.Offset
			a, e = point{a[0] + o.X, a[1] + o.Y, a[2] + o.Z}, point{e[0] + q.X, e[1] + q.Y, e[2] + q.Z}
			s := x / f.Length(n)
			return point{a[0] + s*(e[0]-a[0]), a[1] + s*(e[1]-a[1]), a[2] + s*(e[2]-a[2])}
		}
		for _, l := range c.Nodes {
			add(at[l.Node-1], point{l.Load.FX, l.Load.FY, l.Load.FZ}, point{l.Load.MX, l.Load.MY, l.Load.MZ})
		}
		for _, l := range c.Points {
			add(along(l.Member, l.At), point{l.Load.FX, l.Load.FY, l.Load.FZ}, point{l.Load.MX, l.Load.MY, l.Load.MZ})
		}
		for _, l := range c.Lines {
			// A trapezoid is two triangles, each at its third.
			d := l.To - l.From
			add(along(l.Member, l.From+d/3), point{l.First.X * d / 2, l.First.Y * d / 2, l.First.Z * d / 2}, point{})
			add(along(l.Member, l.From+2*d/3), point{l.Last.X * d / 2, l.Last.Y * d / 2, l.Last.Z * d / 2}, point{})
		}
		for i, b := range f.Members {
			l := f.Length(frame.Member(i + 1))
			m := b.Section.A * 7850 * l
			add(along(frame.Member(i+1), l/2), point{m * c.AX, m * c.AY, m * c.AZ}, point{})
		}
		for _, s := range r.Reactions {
			add(at[s.Node-1], point{s.FX, s.FY, s.FZ}, point{s.MX, s.MY, s.MZ})
		}
		for k := range 3 {
			if math.Abs(force[k]) > 1e-8*size || math.Abs(moment[k]) > 1e-8*size {
				t.Errorf("sums along axis %d: force %g, moment %g of %g", k, force[k], moment[k], size)
			}
		}
		if r.OutOfBalance > 1e-9 {
			t.Errorf("out of balance by %g", r.OutOfBalance)
		}
	})
}

// The members' ends move as their nodes do, and a released end carries no moment.
func TestMembersFitNodes(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		seed := rapid.Uint64().Draw(t, "seed")
		f, _ := random(seed, rapid.IntRange(2, 12).Draw(t, "nodes"), 0)
		f.ShearDeformation = rapid.Bool().Draw(t, "shear")
		r, err := f.Solve(someLoads(seed, f, 0).Alone())
		if err != nil {
			t.Fatal(err)
		}
		for i, b := range f.Members {
			m := r.Members[i]
			for _, end := range []struct {
				node   frame.Node
				offset frame.Offset
				at     frame.Station
			}{{b.From, b.Start.Offset, m.First()}, {b.To, b.End.Offset, m.Last()}} {
				d := r.Displacement(end.node)
				arm := point{d.RX, d.RY, d.RZ}.cross(point{end.offset.X, end.offset.Y, end.offset.Z})
				most := m.Most()
				size := math.Max(most.DX, math.Max(most.DY, most.DZ))
				for k, v := range [3][2]float64{{end.at.DX, d.X + arm[0]}, {end.at.DY, d.Y + arm[1]}, {end.at.DZ, d.Z + arm[2]}} {
					if math.Abs(v[0]-v[1]) > 1e-8*size {
						t.Errorf("member %d, axis %d: end at %g, node at %g", i+1, k, v[0], v[1])
					}
				}
			}
			if release := b.End.Release; release.MY && math.Abs(m.Last().MY) > 1e-7*m.Most().MY+1e-6 {
				t.Errorf("member %d: released end carries %g N·m", i+1, m.Last().MY)
			}
		}
	})
}

// A frame turned as a whole, loads, supports and all, moves and bears the same.
func TestTurnedFrame(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		seed := rapid.Uint64().Draw(t, "seed")
		count := rapid.IntRange(2, 10).Draw(t, "nodes")
		angle := rapid.Float64Range(-3, 3).Draw(t, "angle")
		f, _ := random(seed, count, 0)
		g, _ := random(seed, count, angle)
		a, err := f.Solve(someLoads(seed, f, 0).Alone())
		if err != nil {
			t.Fatal(err)
		}
		b, err := g.Solve(someLoads(seed, g, angle).Alone())
		if err != nil {
			t.Fatal(err)
		}
		size := 0.0
		for _, d := range a.Displacements {
			size = math.Max(size, math.Abs(d.X)+math.Abs(d.Y)+math.Abs(d.Z))
		}
		for i, d := range a.Displacements {
			want, got := turned(point{d.X, d.Y, d.Z}, angle), b.Displacements[i]
			for k, v := range [3]float64{got.X, got.Y, got.Z} {
				if math.Abs(v-want[k]) > 1e-7*size {
					t.Errorf("node %d, axis %d: got %g, want %g turned", i+1, k, v, want[k])
				}
			}
		}
		for i := range a.Members {
			p, q := a.Members[i].Most(), b.Members[i].Most()
			if math.Abs(p.MY-q.MY) > 1e-6*(p.MY+p.MZ+1) || math.Abs(p.N-q.N) > 1e-6*(p.N+1) {
				t.Errorf("member %d: got N %g, MY %g, want %g, %g", i+1, q.N, q.MY, p.N, p.MY)
			}
		}
	})
}

// Betti: the work of one set of loads on the displacements of another is the
// same the other way round.
func TestReciprocity(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		seed := rapid.Uint64().Draw(t, "seed")
		f, _ := random(seed, rapid.IntRange(3, 12).Draw(t, "nodes"), 0)
		r := rand.New(rand.NewPCG(seed, 5))
		var cases [2]*frame.Case
		var results [2]frame.Result
		for i := range cases {
			cases[i] = frame.NewCase("c")
			for n := range f.Nodes {
				cases[i].Node(frame.Node(n+1), frame.Load{FX: r.NormFloat64(), FY: r.NormFloat64(), FZ: r.NormFloat64(), MX: r.NormFloat64(), MY: r.NormFloat64(), MZ: r.NormFloat64()})
			}
			var err error
			if results[i], err = f.Solve(cases[i].Alone()); err != nil {
				t.Fatal(err)
			}
		}
		work := func(c *frame.Case, r frame.Result) (w float64) {
			for _, l := range c.Nodes {
				d := r.Displacement(l.Node)
				w += l.Load.FX*d.X + l.Load.FY*d.Y + l.Load.FZ*d.Z + l.Load.MX*d.RX + l.Load.MY*d.RY + l.Load.MZ*d.RZ
			}
			return w
		}
		a, b, own := work(cases[0], results[1]), work(cases[1], results[0]), work(cases[0], results[0])+work(cases[1], results[1])
		if math.Abs(a-b) > 1e-9*own {
			t.Errorf("work: got %g and %g", a, b)
		}
	})
}

// Pads either press or stand clear, never pull and never sink, whatever the
// loads; and the result is that of the same frame with the lifted pads left out.
func TestPadsComplement(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := rand.New(rand.NewPCG(rapid.Uint64().Draw(t, "seed"), 6))
		f := frame.New()
		centre := f.Node(0, 0, 0.5)
		count := 3 + r.IntN(6)
		stiff := []float64{0, 2e5}[r.IntN(2)]
		for i := range count {
			sin, cos := math.Sincos(2 * math.Pi * float64(i) / float64(count))
			n := f.Node(1.5*cos, 1.5*sin, 0)
			f.Member(centre, n, assorted[0], steel)
			f.Pad(n, stiff)
		}
		c := frame.NewCase("rider")
		c.Node(centre, frame.Load{FZ: -5000, MX: 2500 * r.NormFloat64(), MY: 2500 * r.NormFloat64()})
		res, err := f.Solve(c.Alone())
		if err != nil {
			t.Skip("it tips over")
		}
		sum := 0.0
		for _, s := range res.Reactions {
			d := res.Displacement(s.Node)
			if s.Press < -1e-6 || s.Lifted && (s.Press != 0 || d.Z < -1e-12) {
				t.Errorf("pad of node %d: presses %g, lifted %v by %g", s.Node, s.Press, s.Lifted, d.Z)
			}
			sum += s.FZ
		}
		if math.Abs(sum-5000) > 1e-6 {
			t.Errorf("pads carry %g N, want 5000", sum)
		}
		var kept []frame.Support
		for i, s := range f.Supports {
			if !res.Reactions[i].Lifted {
				kept = append(kept, s)
			}
		}
		f.Supports = kept
		again, err := f.Solve(c.Alone())
		if err != nil {
			t.Fatal(err)
		}
		if a, b := res.Displacement(centre).Z, again.Displacement(centre).Z; math.Abs(a-b) > 1e-9*math.Abs(a) {
			t.Errorf("centre: got %g, without the lifted pads %g", a, b)
		}
	})
}

// A node in the middle of a member changes nothing.
func TestCutMember(t *testing.T) {
	whole, n, m := beam(0, 2000)
	cut, k, l := beam(0, 700, 2000)
	whole.Fix(n[0])
	cut.Fix(k[0])
	roller(whole, n[1])
	roller(cut, k[2])
	load := frame.LineLoad{Y: 100, Z: -2000}
	a, b := frame.NewCase("whole"), frame.NewCase("cut")
	a.Line(m[0], load)
	b.Line(l[0], load)
	b.Line(l[1], load)
	p, q := solve(t, whole, a), solve(t, cut, b)
	x := p.Member(m[0]).First()
	y := q.Member(l[0]).First()
	if math.Abs(x.MY-y.MY) > 1e-9*math.Abs(x.MY) || math.Abs(x.MZ-y.MZ) > 1e-9*math.Abs(x.MZ) {
		t.Errorf("end moments: got %g, %g, want %g, %g", y.MY, y.MZ, x.MY, x.MZ)
	}
}
