package frame

import (
	"fmt"
	"math"
	"slices"

	"tautline/stdlib/internal/beam"
	"tautline/stdlib/internal/vector"
)

// between is into how many parts a member is divided for its stations, besides
// where its loads begin and end and where its shear changes sign.
const between = 10

// result is the solution in the terms of the frame.
func (s *solution) result() Result {
	m := s.model
	r := Result{Name: s.name, SecondOrder: s.Second, Rounds: s.Rounds}
	for i := range m.frame.Nodes {
		d, t := s.node(i)
		r.Displacements = append(r.Displacements, Displacement{d[0], d[1], d[2], t[0], t[1], t[2]})
	}
	for i, support := range m.frame.Supports {
		r.Reactions = append(r.Reactions, s.reaction(i))
		if s.Lifted[i] {
			r.Warnings = append(r.Warnings, fmt.Sprintf("%s has lifted off", m.frame.node(support.Node)))
		}
	}
	for i := range m.frame.Members {
		r.Members = append(r.Members, s.member(i))
	}
	r.OutOfBalance = s.outOfBalance()
	if r.OutOfBalance > 1e-6 {
		r.Warnings = append(r.Warnings, fmt.Sprintf("forces are out of balance by %.1g of the greatest: some member is too stiff or too soft against the others", r.OutOfBalance))
	}
	if parts := m.frame.parts(); slices.ContainsFunc(parts, func(p int) bool { return p != parts[0] }) {
		r.Warnings = append(r.Warnings, "the frame is of parts that no member joins, each on supports of its own")
	}
	return r
}

// node is a node's movement and turn in global axes.
func (s *solution) node(i int) (move, turn vector.Vector) {
	b := s.model.nodes[i]
	return b.Out(vector.Vector(s.U[6*i : 6*i+3])), b.Out(vector.Vector(s.U[6*i+3 : 6*i+6]))
}

// outOfBalance is the greatest rest at an unknown freedom over the greatest end
// force, moments over the frame's reach.
func (s *solution) outOfBalance() float64 {
	m := s.model
	reach := m.reach()
	arm := func(k int) float64 {
		if k%6 >= 3 {
			return reach
		}
		return 1
	}
	worst, most := 0.0, 0.0
	for p, at := range s.Equation {
		if at < 0 {
			continue
		}
		k := p % 6
		if p >= 6*len(m.nodes) {
			k = m.released[p-6*len(m.nodes)].local
		}
		worst = math.Max(worst, math.Abs(s.Rest[p])/arm(k))
	}
	for i := range m.Elements {
		e := &m.Elements[i]
		for k, v := range e.End(e.Local(s.U), s.Pull[i]) {
			most = math.Max(most, math.Abs(v)/arm(k))
		}
	}
	if most == 0 {
		return 0
	}
	return worst / most
}

// member is the internal forces of member i.
func (s *solution) member(i int) Forces {
	m := s.model
	out := Forces{Member: Member(i + 1)}
	pieces := m.piecesOf(i)
	for k := range pieces {
		e := &pieces[k]
		for j, st := range s.stations(e, max(1, between/len(pieces))) {
			if j == 0 && k > 0 {
				continue // the end of the piece before
			}
			st.At += float64(k) * e.Length
			out.Stations = append(out.Stations, st)
		}
		out.Length += e.Length
	}
	return out
}

// stations are those of an element, from its first end to its second.
func (s *solution) stations(e *beam.Element, parts int) []Station {
	var out []Station
	for _, p := range e.Path(e.Local(s.U), s.Pull[e.Index], parts) {
		out = append(out, Station{p.At, p.Force[0], p.Force[1], p.Force[2], p.Moment[0], p.Moment[1], p.Moment[2], p.Move[0], p.Move[1], p.Move[2]})
	}
	return out
}
