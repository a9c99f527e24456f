// Package frame calculates frames of straight members in space: displacements,
// reactions and internal forces by the direct stiffness method, with pads that
// lift off, second order, buckling and natural frequencies.
//
// Four nouns. A Frame has nodes, members and supports. A Case is loads that come
// together; a Combination is cases with factors. A Result is what a combination
// does to the frame.
//
//	f := frame.New()
//	foot := f.Node(0, 0, 0)
//	top := f.Node(0, 0, 2*units.M)
//	mast := f.Member(foot, top, tube, steel)
//	f.Fix(foot)
//
//	pull := frame.NewCase("pull at the top")
//	pull.Node(top, frame.Load{FX: 500 * units.N})
//	res := sheet.Must(f.Solve(frame.Combine("pull", pull.Times(1.5))))
//	sway := res.Displacement(top).X
//
// The methods that build change the frame or the case, so in a notebook they
// stand in its own cell; those that calculate do not.
//
// Axes are right-handed, z up. A member's own x runs from its first to its
// second end, its z is the direction nearest to its up vector (global z, or
// global x for an upright member), its y = z × x. Iy of its section resists
// bending that deflects along its z. Loads and displacements are in global axes,
// internal forces in the member's own.
//
// Internal forces at a cut are those that the part beyond it, towards the second
// end, exerts on the part before it: N pulls when positive, and the stress at a
// point of the section is N/A + MY·z/Iy - MZ·y/Iz.
//
// Invariants: members are Bernoulli beams unless ShearDeformation is set; loads
// on members are followed exactly, not lumped; the out-of-balance of every
// result stands in it. Material is elastic; warping torsion is left out.
//
// People ride on what is calculated here. The numbers support a competent
// designer; local law, the standards that apply and licensed practice come
// before them.
package frame

import (
	"fmt"
	"math"
	"slices"

	"tautline/stdlib/internal/argument"
	"tautline/stdlib/internal/beam"
	"tautline/stdlib/internal/vector"
	"tautline/stdlib/structure/section"
	"tautline/stdlib/units"
)

// A Node is the number of a node of a frame, from 1.
type Node int

// A Member is the number of a member of a frame, from 1.
type Member int

// A Frame is nodes, the members between them and what holds them.
type Frame struct {
	Nodes    []Place    // of node n at n-1
	Members  []Beam     // of member m at m-1
	Supports []Support  // in the order of their making
	Masses   []NodeMass // that vibrate and weigh besides the members

	// ShearDeformation adds the give of the members' shear areas Asy and Asz to
	// their bending: a few per cent in a member eight times as long as high.
	ShearDeformation bool

	// Pieces is into how many each member is cut for second order, buckling and
	// vibration; 0 stands for 8. The error falls with its fourth power.
	Pieces int
}

// A Place is a node's position and, for messages and drawings, its name.
type Place struct {
	Name    string
	X, Y, Z units.Length
}

// A Beam is a straight member between two nodes.
type Beam struct {
	Name       string
	From, To   Node
	Section    section.Section
	Material   section.Material
	Bar        bool        // carries force along itself only, as if it ended in ball joints
	Up         Direction   // its z is the direction nearest to this; none is global z, or x when upright
	Roll       units.Angle // turns its y and z about its x, right-handed
	Start, End End
}

// A Direction is a vector of which only the direction counts.
type Direction struct {
	X, Y, Z units.Number
}

// An End is how a member's end is joined to its node.
type End struct {
	Release Release
	Offset  Offset
}

// An Offset is from the node to the member's end, in global axes; it is rigid.
type Offset struct {
	X, Y, Z units.Length
}

// A Release says which internal forces a member's end does not pass on to its
// node, in the member's own axes.
type Release struct {
	N, VY, VZ, T, MY, MZ bool
	// Stiffness of the joint where the moment above is released: 0 is a free
	// hinge.
	KT, KMY, KMZ units.RotationalStiffness
}

// Hinge is the release of both bending moments.
func Hinge() Release { return Release{MY: true, MZ: true} }

// A NodeMass is a mass fixed to a node.
type NodeMass struct {
	Node       Node
	Mass       units.Mass
	IX, IY, IZ units.Inertia // about global axes through the node
}

// New is a frame with nothing in it.
func New() *Frame { return &Frame{} }

// Copy is a frame like this one, to build on without changing it: with the
// riders' masses, say, or without a brace.
func (f Frame) Copy() *Frame {
	f.Nodes, f.Members = slices.Clone(f.Nodes), slices.Clone(f.Members)
	f.Supports, f.Masses = slices.Clone(f.Supports), slices.Clone(f.Masses)
	return &f
}

// Node adds a node at a position and gives its number. Coordinates are finite;
// otherwise it panics.
func (f *Frame) Node(x, y, z units.Length) Node {
	argument.Demand("frame: Frame.Node", argument.Finite("x", x), argument.Finite("y", y), argument.Finite("z", z))
	f.Nodes = append(f.Nodes, Place{X: x, Y: y, Z: z})
	return Node(len(f.Nodes))
}

// Name gives a node the name that messages and drawings use.
func (f *Frame) Name(n Node, name string) {
	f.demandNode("Name", n)
	f.Nodes[n-1].Name = name
}

// Member adds a beam between two nodes, rigidly joined to both, and gives its
// number.
func (f *Frame) Member(from, to Node, s section.Section, m section.Material) Member {
	f.demandNode("Member", from)
	f.demandNode("Member", to)
	f.Members = append(f.Members, Beam{From: from, To: to, Section: s, Material: m})
	return Member(len(f.Members))
}

// Bar adds a member that carries force along itself only. Loads on it go to its
// ends as in a beam on two supports. Buckling and vibration between its ends are
// not followed: check it as a strut.
func (f *Frame) Bar(from, to Node, s section.Section, m section.Material) Member {
	n := f.Member(from, to, s, m)
	f.Members[n-1].Bar = true
	return n
}

// NameMember gives a member the name that messages and drawings use.
func (f *Frame) NameMember(m Member, name string) { f.beam("NameMember", m).Name = name }

// Up turns a member so that its z is the direction nearest to (x, y, z), which
// must not run along it.
func (f *Frame) Up(m Member, x, y, z units.Number) {
	f.beam("Up", m).Up = Direction{x, y, z}
}

// Roll turns a member about its own x, right-handed.
func (f *Frame) Roll(m Member, angle units.Angle) { f.beam("Roll", m).Roll = angle }

// ReleaseStart sets what the first end of a member does not pass on.
func (f *Frame) ReleaseStart(m Member, r Release) { f.beam("ReleaseStart", m).Start.Release = r }

// ReleaseEnd sets what the second end of a member does not pass on.
func (f *Frame) ReleaseEnd(m Member, r Release) { f.beam("ReleaseEnd", m).End.Release = r }

// Offsets sets both ends of a member off their nodes by rigid links.
func (f *Frame) Offsets(m Member, start, end Offset) {
	b := f.beam("Offsets", m)
	b.Start.Offset, b.End.Offset = start, end
}

// Mass adds a mass to a node. It is 0 or more; outside it panics.
func (f *Frame) Mass(n Node, mass units.Mass) {
	f.demandNode("Mass", n)
	argument.Demand("frame: Frame.Mass", argument.NotNegative("mass", mass))
	f.Masses = append(f.Masses, NodeMass{Node: n, Mass: mass})
}

// Inertia adds moments of inertia about the global axes to a node. They are 0 or
// more; outside it panics.
func (f *Frame) Inertia(n Node, ix, iy, iz units.Inertia) {
	f.demandNode("Inertia", n)
	argument.Demand("frame: Frame.Inertia", argument.NotNegative("inertia", ix), argument.NotNegative("inertia", iy), argument.NotNegative("inertia", iz))
	f.Masses = append(f.Masses, NodeMass{Node: n, IX: ix, IY: iy, IZ: iz})
}

// Length is the length of a member between its ends, offsets taken off.
//
// It panics if there is no such member.
//
// Source: geometry.
func (f Frame) Length(m Member) units.Length {
	a, b := f.ends(*f.beam("Length", m))
	return b.Minus(a).Length()
}

// Axes are the directions of a member's own x, y and z.
type Axes struct{ X, Y, Z Direction }

// Axes are a member's own axes, along which its internal forces are: x from its first
// end to its second, z nearest to its up vector.
//
// It panics if there is no such member. An up vector along the member is an error.
//
// Source: definition.
func (f Frame) Axes(m Member) (Axes, error) {
	b := *f.beam("Axes", m)
	from, to := f.ends(b)
	own, err := axes(to.Minus(from), b.Up, b.Roll)
	if err != nil {
		return Axes{}, fmt.Errorf("%s: %w", f.member(m), err)
	}
	of := func(v vector.Vector) Direction { return Direction{v[0], v[1], v[2]} }
	return Axes{of(own[0]), of(own[1]), of(own[2])}, nil
}

// TotalMass is the mass of all members, over their lengths between offsets, and
// of the masses on nodes.
//
// Source: geometry and the materials' densities.
func (f Frame) TotalMass() units.Mass {
	sum := 0.0
	for i, b := range f.Members {
		sum += b.Material.Density * b.Section.A * f.Length(Member(i+1))
	}
	for _, m := range f.Masses {
		sum += m.Mass
	}
	return sum
}

// ends are the positions of a member's two ends.
func (f Frame) ends(b Beam) (from, to vector.Vector) {
	start, end := b.Start.Offset, b.End.Offset
	return f.at(b.From).Plus(vector.Vector{start.X, start.Y, start.Z}), f.at(b.To).Plus(vector.Vector{end.X, end.Y, end.Z})
}

func (f Frame) at(n Node) vector.Vector {
	p := f.Nodes[n-1]
	return vector.Vector{p.X, p.Y, p.Z}
}

func (f Frame) demandNode(call string, n Node) {
	if n < 1 || int(n) > len(f.Nodes) {
		panic(fmt.Sprintf("frame: Frame.%s: node: got %d, want 1 to %d", call, n, len(f.Nodes)))
	}
}

func (f Frame) beam(call string, m Member) *Beam {
	if m < 1 || int(m) > len(f.Members) {
		panic(fmt.Sprintf("frame: Frame.%s: member: got %d, want 1 to %d", call, m, len(f.Members)))
	}
	return &f.Members[m-1]
}

// node and member say which one a message means.
func (f Frame) node(n Node) string {
	p := f.Nodes[n-1]
	if p.Name != "" {
		return fmt.Sprintf("node %d (%s)", n, p.Name)
	}
	return fmt.Sprintf("node %d at (%.4g, %.4g, %.4g) m", n, p.X, p.Y, p.Z)
}

func (f Frame) member(m Member) string {
	b := f.Members[m-1]
	if b.Name != "" {
		return fmt.Sprintf("member %d (%s)", m, b.Name)
	}
	return fmt.Sprintf("member %d, from node %d to node %d", m, b.From, b.To)
}

// axes are the member's own x, y and z.
func axes(along vector.Vector, up Direction, roll units.Angle) (beam.Basis, error) {
	x := along.Unit()
	u := vector.Vector{up.X, up.Y, up.Z}
	if u == (vector.Vector{}) {
		u = vector.Vector{0, 0, 1}
		if math.Hypot(x[0], x[1]) < 1e-3 {
			u = vector.Vector{1, 0, 0}
		}
	}
	y := u.Cross(x)
	if !(y.Length() > 1e-6*u.Length()) {
		return beam.Basis{}, fmt.Errorf("up vector: got (%g, %g, %g), want one that does not run along the member", up.X, up.Y, up.Z)
	}
	y = y.Unit()
	z := x.Cross(y)
	sin, cos := math.Sincos(roll)
	return beam.Basis{x, y.Times(cos).Plus(z.Times(sin)), z.Times(cos).Minus(y.Times(sin))}, nil
}
