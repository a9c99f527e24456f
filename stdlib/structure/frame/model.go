package frame

import (
	"cmp"
	"errors"
	"fmt"
	"math"

	"tautline/stdlib/internal/argument"
	"tautline/stdlib/internal/beam"
	"tautline/stdlib/internal/ldl"
	"tautline/stdlib/internal/stiffness"
	"tautline/stdlib/internal/vector"
)

// A model is a frame as unknowns: its members cut into pieces, its freedoms
// counted. Freedom 6·n+k of node n is counted in the node's own axes; released
// ends have freedoms of their own after those.
type model struct {
	stiffness.System
	frame    Frame
	pieces   int          // of a member; a bar is one
	first    []int        // element of a member, and after the last member how many there are
	nodes    []beam.Basis // own axes; cuts within members come after the frame's nodes
	supports []beam.Basis // axes of each support
	released []loose      // freedoms after those of the nodes
	size     float64      // of the frame, for messages and tolerances
}

// loose names a released freedom.
type loose struct {
	member Member
	local  int
}

// newModel cuts every member into pieces and counts freedoms.
func newModel(f Frame, pieces int) (*model, error) {
	m := &model{frame: f, pieces: pieces}
	if err := f.check(); err != nil {
		return nil, err
	}
	m.nodes = make([]beam.Basis, len(f.Nodes), len(f.Nodes)+len(f.Members)*(pieces-1))
	for i := range m.nodes {
		m.nodes[i] = beam.Global
	}
	if err := m.placeSupports(); err != nil {
		return nil, err
	}
	for i := range f.Members {
		if err := m.cut(i); err != nil {
			return nil, err
		}
	}
	base := 6 * len(m.nodes)
	m.first = append(m.first, len(m.Elements))
	for i := range m.Elements {
		e := &m.Elements[i]
		for k := range 12 {
			if e.Places[12+k] >= 0 {
				e.Places[12+k] += base
			}
		}
		m.addJointSprings(e)
	}
	m.FindActive(m.freedoms())
	return m, nil
}

// placeSupports takes the supports' axes for their nodes.
func (m *model) placeSupports() error {
	owner := map[Node]int{}
	for i, s := range m.frame.Supports {
		if s.Node < 1 || int(s.Node) > len(m.frame.Nodes) {
			return fmt.Errorf("support %d: node: got %d, want 1 to %d", i+1, s.Node, len(m.frame.Nodes))
		}
		if err := s.springs(); err != nil {
			return fmt.Errorf("support of %s: %w", m.frame.node(s.Node), err)
		}
		b, err := s.basis()
		if err != nil {
			return fmt.Errorf("support of %s: %w", m.frame.node(s.Node), err)
		}
		if _, found := owner[s.Node]; found {
			return fmt.Errorf("support of %s: got two, want all that holds it in one Support", m.frame.node(s.Node))
		}
		owner[s.Node] = i
		m.supports = append(m.supports, b)
		m.Supports = append(m.Supports, stiffness.Support{First: 6 * int(s.Node-1), Held: s.held(), Stiffness: s.stiffness()})
		m.nodes[s.Node-1] = b
	}
	return nil
}

// cut makes the elements of a member.
func (m *model) cut(index int) error {
	f := m.frame
	b := f.Members[index]
	name := f.member(Member(index + 1))
	from, to := f.ends(b)
	along := to.Minus(from)
	s, mat := b.Section, b.Material
	if err := cmp.Or(argument.Positive("area of its section", s.A), argument.Positive("modulus of elasticity", mat.E)); err != nil {
		return fmt.Errorf("%s: %w", name, err)
	}
	if !b.Bar {
		if err := cmp.Or(argument.Positive("Iy of its section", s.Iy), argument.Positive("Iz of its section", s.Iz),
			argument.Positive("It of its section", s.It), argument.Positive("shear modulus", mat.G)); err != nil {
			return fmt.Errorf("%s: %w", name, err)
		}
	}
	own, err := axes(along, b.Up, b.Roll)
	if err != nil {
		return fmt.Errorf("%s: %w", name, err)
	}
	proto := beam.Element{Member: index, Axes: own, Principal: own, Bar: b.Bar, EA: mat.E * s.A, GJ: mat.G * s.It,
		EIY: mat.E * s.Iy, EIZ: mat.E * s.Iz, Expansion: mat.Expansion, Mass: mat.Density * s.A, Polar: (s.Iy + s.Iz) / s.A}
	if s.Iyz != 0 {
		proto.Principal, _ = axes(along, b.Up, b.Roll+s.Alpha)
		proto.EIY, proto.EIZ = mat.E*s.Iu, mat.E*s.Iv
	}
	if b.Bar && !(s.Iy > 0 && s.Iz > 0) { // a bar of which only the area is known does not sag
		proto.EIY, proto.EIZ = math.Inf(1), math.Inf(1)
	}
	pieces := m.pieces
	if b.Bar { // a cut in it would be a hinge
		pieces = 1
	}
	proto.Length = along.Length() / float64(pieces)
	if f.ShearDeformation && !b.Bar {
		if err := cmp.Or(argument.Positive("Asy of its section", s.Asy), argument.Positive("Asz of its section", s.Asz)); err != nil {
			return fmt.Errorf("%s: shear deformation: %w", name, err)
		}
		proto.PhiY = 12 * proto.EIZ / (mat.G * s.Asy * proto.Length * proto.Length)
		proto.PhiZ = 12 * proto.EIY / (mat.G * s.Asz * proto.Length * proto.Length)
	}
	before := int(b.From) - 1
	m.first = append(m.first, len(m.Elements))
	for k := range pieces {
		e := proto
		e.Index = len(m.Elements)
		e.From, e.To = from.Plus(along.Times(float64(k)/float64(pieces))), from.Plus(along.Times(float64(k+1)/float64(pieces)))
		after := int(b.To) - 1
		if k+1 < pieces {
			after = len(m.nodes)
			m.nodes = append(m.nodes, beam.Global)
		}
		var arms [2]vector.Vector
		var released [12]int
		for i := range released {
			released[i] = -1
		}
		if k == 0 {
			arms[0] = e.From.Minus(f.at(b.From))
			m.release(&released, 0, b.Start.Release, index)
		}
		if k+1 == pieces {
			arms[1] = e.To.Minus(f.at(b.To))
			m.release(&released, 6, b.End.Release, index)
		}
		for i := range 6 {
			e.Places[i], e.Places[6+i] = 6*before+i, 6*after+i
		}
		e.Transform([2]beam.Basis{m.nodes[before], m.nodes[after]}, arms, released)
		m.Elements = append(m.Elements, e)
		before = after
	}
	return nil
}

// release gives the released freedoms of one end their numbers.
func (m *model) release(released *[12]int, base int, r Release, index int) {
	if m.frame.Members[index].Bar {
		return // its element passes nothing on as it is
	}
	for i, free := range [6]bool{r.N, r.VY, r.VZ, r.T, r.MY, r.MZ} {
		if free {
			released[base+i] = len(m.released)
			m.released = append(m.released, loose{Member(index + 1), base + i})
		}
	}
}

// addJointSprings ties released ends to their nodes where a joint has some
// stiffness.
func (m *model) addJointSprings(e *beam.Element) {
	b := m.frame.Members[e.Member]
	for i := range 12 {
		if e.Places[12+i] < 0 {
			continue
		}
		r := b.Start.Release
		if i >= 6 {
			r = b.End.Release
		}
		k := [6]float64{3: r.KT, 4: r.KMY, 5: r.KMZ}[i%6]
		if k == 0 {
			continue
		}
		s := stiffness.Spring{Freedoms: []int{e.Places[12+i]}, Weights: []float64{1}, Stiffness: k}
		for j, v := range e.Rigid(i) {
			if v != 0 {
				s.Freedoms, s.Weights = append(s.Freedoms, e.Places[j]), append(s.Weights, -v)
			}
		}
		m.Springs = append(m.Springs, s)
	}
}

// piecesOf are the elements of a member by its index.
func (m *model) piecesOf(i int) []beam.Element { return m.Elements[m.first[i]:m.first[i+1]] }

// freedoms is how many there are.
func (m *model) freedoms() int { return 6*len(m.nodes) + len(m.released) }

// check reports what is wrong with the geometry.
func (f Frame) check() error {
	if len(f.Members) == 0 {
		return errors.New("frame: got no member, want at least one")
	}
	for i, b := range f.Members {
		for _, n := range []Node{b.From, b.To} {
			if n < 1 || int(n) > len(f.Nodes) {
				return fmt.Errorf("member %d: node: got %d, want 1 to %d", i+1, n, len(f.Nodes))
			}
		}
		name := f.member(Member(i + 1))
		if b.From == b.To {
			return fmt.Errorf("%s: got the same node twice, want two", name)
		}
		if a, z := f.ends(b); z.Minus(a).Length() < least {
			return fmt.Errorf("%s: length: got %g m, want more than %g m between its ends", name, z.Minus(a).Length(), least)
		}
	}
	if err := f.checkTwins(); err != nil {
		return err
	}
	return f.checkParts()
}

// least is the distance below which two places are one.
const least = 1e-6

// checkTwins reports two nodes at one place.
func (f Frame) checkTwins() error {
	type cell [3]int64
	at := map[cell]Node{}
	for i := range f.Nodes {
		p := f.at(Node(i + 1))
		var c cell
		for k, v := range p {
			c[k] = int64(math.Floor(v / (4 * least)))
		}
		for dx := int64(-1); dx <= 1; dx++ {
			for dy := int64(-1); dy <= 1; dy++ {
				for dz := int64(-1); dz <= 1; dz++ {
					other, found := at[cell{c[0] + dx, c[1] + dy, c[2] + dz}]
					if found && f.at(other).Minus(p).Length() < least {
						return fmt.Errorf("%s and node %d are at one place, want one node for both: members join only at a common node", f.node(other), i+1)
					}
				}
			}
		}
		at[c] = Node(i + 1)
	}
	return nil
}

// checkParts reports a node without members and a part without support.
func (f Frame) checkParts() error {
	parts := f.parts()
	used := make([]bool, len(f.Nodes))
	for _, b := range f.Members {
		used[b.From-1], used[b.To-1] = true, true
	}
	for i, u := range used {
		if !u {
			return fmt.Errorf("%s belongs to no member: join it or leave it out", f.node(Node(i+1)))
		}
	}
	held := map[int]bool{}
	for _, s := range f.Supports {
		held[parts[s.Node-1]] = true
	}
	for i, p := range parts {
		if !held[p] {
			count := 0
			for _, q := range parts {
				if q == p {
					count++
				}
			}
			return fmt.Errorf("%s and what is joined to it (%d of %d nodes) has no support: join it to the rest or support it", f.node(Node(i+1)), count, len(f.Nodes))
		}
	}
	return nil
}

// parts numbers the parts that members join; each is named by a node.
func (f Frame) parts() []int {
	up := make([]int, len(f.Nodes))
	for i := range up {
		up[i] = i
	}
	root := func(i int) int {
		for up[i] != i {
			up[i] = up[up[i]]
			i = up[i]
		}
		return i
	}
	for _, b := range f.Members {
		up[root(int(b.From)-1)] = root(int(b.To) - 1)
	}
	for i := range up {
		up[i] = root(i)
	}
	return up
}

// A held model has its supports in one state.
type held struct {
	*stiffness.Held
	model *model
}

// hold is the model with some pads lifted.
func (m *model) hold(lifted []bool) held { return held{m.Hold(lifted), m} }

// stiff is the stiffness matrix of the frame as it stands, and its factor.
func (h held) stiff() (*ldl.Matrix, *ldl.Factor, error) {
	k, factor, err := h.Stiff()
	if err != nil {
		return nil, nil, h.mechanism(err)
	}
	return k, factor, nil
}
