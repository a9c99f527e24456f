package frame_test

import (
	"math"
	"testing"

	"tautline/stdlib/internal/proof"
	"tautline/stdlib/structure/frame"
	"tautline/stdlib/structure/section"
	"tautline/stdlib/units"
)

// A mechanism is an error that names the node and the direction, never numbers.
func TestMechanisms(t *testing.T) {
	c := frame.NewCase("load")
	rollers, n, m := beam(0, 2000) // nothing holds it along x
	roller(rollers, n[0])
	roller(rollers, n[1])
	rollers.Name(n[1], "far end")
	c.Line(m[0], even(2))
	_, err := rollers.Solve(c.Alone())
	proof.Fails(t, "no hold along x", err, "can move along x without resistance, 2 of 2 nodes with it")

	linkage := frame.New() // a rectangle of bars that leans over
	corner := []frame.Node{linkage.Node(0, 0, 0), linkage.Node(0, 0, 1), linkage.Node(2, 0, 1), linkage.Node(2, 0, 0)}
	for i := range 4 {
		member := linkage.Member(corner[i], corner[(i+1)%4], tube, steel)
		linkage.ReleaseStart(member, frame.Hinge())
		linkage.ReleaseEnd(member, frame.Hinge())
	}
	pin(linkage, corner[0])
	pin(linkage, corner[3])
	for _, k := range []int{1, 2} {
		linkage.Support(corner[k], frame.Support{Y: true, RX: true, RZ: true})
	}
	_, err = linkage.Solve(load(corner[1]).Alone())
	proof.Fails(t, "linkage", err, "can move along x without resistance, 2 of 4 nodes with it")

	spinning, n, m := beam(0, 2000)
	spinning.Fix(n[0])
	spinning.Fix(n[1])
	for _, set := range []func(frame.Member, frame.Release){spinning.ReleaseStart, spinning.ReleaseEnd} {
		set(m[0], frame.Release{T: true})
	}
	_, err = spinning.Solve(load(n[1]).Alone())
	proof.Fails(t, "both ends released in torsion", err, "member 1, from node 1 to node 2 can turn about its x")

	turning, n, _ := beam(0, 2000)
	turning.Pin(n[0])
	turning.Support(n[1], frame.Support{Y: true, Z: true})
	_, err = turning.Solve(load(n[1]).Alone())
	proof.Fails(t, "no hold about its own axis", err, "can turn about x without resistance")
}

func load(n frame.Node) *frame.Case {
	c := frame.NewCase("load")
	c.Node(n, frame.Load{FX: 100})
	return c
}

// What does not fit together is named.
func TestFaults(t *testing.T) {
	good := func() (*frame.Frame, []frame.Node, []frame.Member) {
		f, n, m := beam(0, 1000, 2000)
		f.Fix(n[0])
		return f, n, m
	}
	for _, c := range []struct {
		name  string
		spoil func(f *frame.Frame, n []frame.Node, c *frame.Case)
		words string
	}{
		{"two nodes at one place", func(f *frame.Frame, n []frame.Node, _ *frame.Case) {
			f.Member(n[1], f.Node(2, 0, 1e-8), tube, steel)
		}, "node 3 at (2, 0, 0) m and node 4 are at one place"},
		{"no length", func(f *frame.Frame, n []frame.Node, _ *frame.Case) {
			m := f.Member(n[0], n[2], tube, steel)
			f.Offsets(m, frame.Offset{X: 1}, frame.Offset{X: -1})
		}, "member 3, from node 1 to node 3: length: got 0 m"},
		{"one node twice", func(f *frame.Frame, n []frame.Node, _ *frame.Case) { f.Member(n[1], n[1], tube, steel) }, "same node twice"},
		{"lonely node", func(f *frame.Frame, n []frame.Node, _ *frame.Case) { f.Node(5, 5, 5) }, "node 4 at (5, 5, 5) m belongs to no member"},
		{"loose part", func(f *frame.Frame, n []frame.Node, _ *frame.Case) {
			f.Member(f.Node(5, 5, 5), f.Node(6, 5, 5), tube, steel)
		}, "node 4 at (5, 5, 5) m and what is joined to it (2 of 5 nodes) has no support"},
		{"two supports", func(f *frame.Frame, n []frame.Node, _ *frame.Case) { f.Fix(n[0]) }, "support of node 1 at (0, 0, 0) m: got two"},
		{"up along the member", func(f *frame.Frame, n []frame.Node, _ *frame.Case) { f.Up(1, 1, 0, 0) }, "does not run along the member"},
		{"no area", func(f *frame.Frame, n []frame.Node, _ *frame.Case) { f.Members[1].Section = section.Section{} }, "member 2, from node 2 to node 3: area of its section: got 0"},
		{"no modulus", func(f *frame.Frame, n []frame.Node, _ *frame.Case) { f.Members[1].Material.E = math.NaN() }, "modulus of elasticity: got NaN"},
		{"no such node", func(f *frame.Frame, n []frame.Node, c *frame.Case) { c.Node(9, down(1)) }, `case "load": node: got 9, want 1 to 3`},
		{"beyond the member", func(f *frame.Frame, n []frame.Node, c *frame.Case) { c.Point(1, 1.5, down(1)) }, "load on member 1, from node 1 to node 2: got 1.5 m to 1.5 m, want within its length of 1 m"},
		{"not a number", func(f *frame.Frame, n []frame.Node, c *frame.Case) { c.Point(1, 0.5, down(math.NaN())) }, "got one that is not a number"},
		{"not a number on a node", func(f *frame.Frame, n []frame.Node, c *frame.Case) { c.Node(n[2], down(math.Inf(1))) }, "want a finite number"},
		{"free settlement", func(f *frame.Frame, n []frame.Node, c *frame.Case) { c.Settle(n[2], frame.Displacement{Z: 1}) }, "a node without support"},
		{"nobody's moment", func(f *frame.Frame, n []frame.Node, c *frame.Case) {
			apex := f.Node(1, 0, 1)
			f.Bar(n[0], apex, tube, steel)
			f.Bar(n[2], apex, tube, steel)
			f.Support(apex, frame.Support{Y: true})
			c.Node(apex, frame.Load{MY: 10})
		}, "only bars and hinges meet there"},
	} {
		f, n, _ := good()
		q := frame.NewCase("load")
		c.spoil(f, n, q)
		_, err := f.Solve(q.Alone())
		proof.Fails(t, c.name, err, c.words)
	}
	empty := frame.New()
	_, err := empty.Solve(frame.NewCase("nothing").Alone())
	proof.Fails(t, "no members", err, "got no member")
	f, _, _ := good()
	_, err = f.Solve(frame.Combine("nothing"))
	proof.Fails(t, "no cases", err, "got no case")
	proof.Panics(t, "frame: Frame.Member: node: got 7, want 1 to 3", func() { f.Member(1, 7, tube, steel) })
	proof.Panics(t, "frame: Frame.Roll: member: got 0, want 1 to 2", func() { f.Roll(0, 1) })
}

// Two frames that no member joins may stand side by side; the result says so.
func TestTwoParts(t *testing.T) {
	f, n, _ := beam(0, 1000)
	f.Fix(n[0])
	a := f.Node(0, 3, 0)
	f.Member(a, f.Node(1, 3, 0), tube, steel)
	f.Fix(a)
	if r := solve(t, f, load(n[1])); len(r.Warnings) != 1 {
		t.Errorf("got warnings %q, want one about two parts", r.Warnings)
	}
}

// A member's axes by the definition: an upright one has its z along global x, one
// along x its z upwards; turned by a quarter, y comes to where z was.
func TestAxes(t *testing.T) {
	f := frame.New()
	a, top, out := f.Node(0, 0, 0), f.Node(0, 0, 2), f.Node(3, 0, 0)
	mast, boom := f.Member(a, top, tube, steel), f.Member(a, out, tube, steel)
	got := proof.Must(f.Axes(mast))(t)
	if want := (frame.Axes{X: frame.Direction{Z: 1}, Y: frame.Direction{Y: -1}, Z: frame.Direction{X: 1}}); got != want {
		t.Errorf("mast: got %v, want %v", got, want)
	}
	f.Roll(boom, 90*units.Deg)
	got = proof.Must(f.Axes(boom))(t)
	proof.Near(t, "y of the boom, turned", got.Y.Z, 1, 1e-12)
	proof.Near(t, "z of the boom, turned", got.Z.Y, -1, 1e-12)
	f.Up(boom, 1, 0, 0)
	_, err := f.Axes(boom)
	proof.Fails(t, "up along", err, "up vector: got (1, 0, 0)")
	proof.Panics(t, "member: got 7, want 1 to 2", func() { _, _ = f.Axes(7) })
}
