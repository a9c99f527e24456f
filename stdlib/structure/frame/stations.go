package frame

import (
	"fmt"
	"math"
	"slices"

	"tautline/stdlib/internal/vector"
)

// between is into how many parts a member is divided for its stations, besides
// where its loads begin and end and where its shear changes sign.
const between = 10

// result is the solution in the terms of the frame.
func (s *solution) result() Result {
	m := s.model
	r := Result{Name: s.name, SecondOrder: s.second, Rounds: s.rounds}
	for i := range m.frame.Nodes {
		d, t := s.node(i)
		r.Displacements = append(r.Displacements, Displacement{d[0], d[1], d[2], t[0], t[1], t[2]})
	}
	for i, support := range m.frame.Supports {
		r.Reactions = append(r.Reactions, s.reaction(i))
		if s.lifted[i] {
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
	return b.out(vector.Vector(s.u[6*i : 6*i+3])), b.out(vector.Vector(s.u[6*i+3 : 6*i+6]))
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
	for p, at := range s.equation {
		if at < 0 {
			continue
		}
		k := p % 6
		if p >= 6*len(m.nodes) {
			k = m.released[p-6*len(m.nodes)].local
		}
		worst = math.Max(worst, math.Abs(s.rest[p])/arm(k))
	}
	for i := range m.elements {
		e := &m.elements[i]
		for k, v := range e.end(e.local(s.u), s.pull[i]) {
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
			st.At += float64(k) * e.length
			out.Stations = append(out.Stations, st)
		}
		out.Length += e.length
	}
	return out
}

// A state is the internal forces, displacements and turns at a place of an
// element, along its principal axes.
type state struct {
	n, vy, vz, t, my, mz float64
	u, v, w, ry, rz      float64
}

// stations follows an element from its first end to its second: exactly, as its
// loads are polynomials between their ends.
func (s *solution) stations(e *element, parts int) []Station {
	d := e.local(s.u)
	f := e.toPrincipal(e.end(d, s.pull[e.index]))
	d = e.toPrincipal(d)
	start := state{n: -f[0], vy: -f[1], vz: -f[2], t: -f[3], my: -f[4], mz: -f[5], u: d[0], v: d[1], w: d[2], ry: d[4], rz: d[5]}
	xs := e.breaks(parts)
	// First to find by how much the far end is missed, a bar's ends being free to
	// turn; then with the turn at the first end that meets it.
	path := e.follow(start, xs)
	end := path[len(path)-1].state
	start.rz += (d[7] - end.v) / e.length
	start.ry -= (d[8] - end.w) / e.length
	path = e.follow(start, xs)

	var out []Station
	for _, p := range path {
		st := p.state
		if pull := s.pull[e.index]; pull != 0 { // second order: the pull acts on the displaced line
			y, z := e.line(d, p.at)
			st.my -= pull * (z - d[2])
			st.mz += pull * (y - d[1])
			st.v, st.w = y, z
		}
		force := e.axes.in(e.principal.out(vector.Vector{st.n, st.vy, st.vz}))
		moment := e.axes.in(e.principal.out(vector.Vector{st.t, st.my, st.mz}))
		move := e.principal.out(vector.Vector{st.u, st.v, st.w})
		out = append(out, Station{p.at, force[0], force[1], force[2], moment[0], moment[1], moment[2], move[0], move[1], move[2]})
	}
	return out
}

// line is the element's deflection along y and z by its ends alone.
func (e *element) line(d [12]float64, at float64) (y, z float64) {
	var out [2]float64
	for p, plane := range planes {
		w, _ := e.shape(at/e.length, [2]float64{e.phiY, e.phiZ}[p])
		for i, f := range plane.freedoms {
			c := d[f]
			if i%2 == 1 {
				c *= plane.sign
			}
			out[p] += w[i] * c
		}
	}
	return out[0], out[1]
}

// breaks are the distances at which an element's loads change, and regular ones.
func (e *element) breaks(parts int) []float64 {
	var xs []float64
	for k := range parts + 1 {
		xs = append(xs, e.length*float64(k)/float64(parts))
	}
	for _, l := range e.loads {
		xs = append(xs, l.from, l.to)
	}
	slices.Sort(xs)
	return slices.CompactFunc(xs, func(a, b float64) bool { return math.Abs(b-a) < 1e-9*e.length })
}

type placed struct {
	at float64
	state
}

// follow takes a state along the element.
func (e *element) follow(s state, xs []float64) []placed {
	var path []placed
	near := 1e-9 * e.length
	for i, x := range xs {
		path = append(path, placed{x, s})
		jumped := false
		for _, l := range e.loads {
			if l.to <= l.from && math.Abs(l.from-x) < near {
				s.n -= l.first[0]
				s.vy -= l.first[1]
				s.vz -= l.first[2]
				s.t -= l.moment[0]
				s.my -= l.moment[1]
				s.mz -= l.moment[2]
				jumped = true
			}
		}
		if jumped {
			path = append(path, placed{x, s})
		}
		if i+1 == len(xs) {
			break
		}
		h := xs[i+1] - x
		var q, slope vector.Vector
		for _, l := range e.loads {
			if l.to > l.from && l.from < x+near && l.to > xs[i+1]-near {
				g := l.last.Minus(l.first).Times(1 / (l.to - l.from))
				q = q.Plus(l.first).Plus(g.Times(x - l.from))
				slope = slope.Plus(g)
			}
		}
		for _, part := range turningPoints(s, q, slope, h) {
			path = append(path, placed{x + part, e.step(s, q, slope, part)})
		}
		s = e.step(s, q, slope, h)
	}
	return path
}

// turningPoints are where a shear force is 0 within a step, and a moment greatest.
func turningPoints(s state, q, slope vector.Vector, h float64) []float64 {
	var list []float64
	for _, c := range [][3]float64{{s.vy, q[1], slope[1]}, {s.vz, q[2], slope[2]}} {
		v, a, b := c[0], c[1], c[2]/2 // v - a·x - b·x² = 0
		root := a*a + 4*b*v
		if root < 0 || a == 0 && b == 0 {
			continue
		}
		far := (a + math.Copysign(math.Sqrt(root), a)) / 2 // the form that does not cancel
		for _, x := range []float64{v / far, -far / b} {
			if x > 1e-6*h && x < (1-1e-6)*h {
				list = append(list, x)
			}
		}
	}
	slices.Sort(list)
	return list
}

// step takes a state a distance h on under a load q that grows by slope.
func (e *element) step(s state, q, slope vector.Vector, h float64) state {
	h2, h3, h4, h5 := h*h/2, h*h*h/6, h*h*h*h/24, h*h*h*h*h/120
	giveY, giveZ := e.phiY*e.length*e.length/12/e.eiz, e.phiZ*e.length*e.length/12/e.eiy // of shear
	o := s
	o.n -= q[0]*h + slope[0]*h2
	o.vy -= q[1]*h + slope[1]*h2
	o.vz -= q[2]*h + slope[2]*h2
	o.my += s.vz*h - q[2]*h2 - slope[2]*h3
	o.mz -= s.vy*h - q[1]*h2 - slope[1]*h3
	o.u += (s.n*h-q[0]*h2-slope[0]*h3)/e.ea + e.warmth[0]*h
	o.ry += (s.my*h+s.vz*h2-q[2]*h3-slope[2]*h4)/e.eiy + e.warmth[1]*h
	o.rz += (s.mz*h-s.vy*h2+q[1]*h3+slope[1]*h4)/e.eiz + e.warmth[2]*h
	o.w += -s.ry*h - (s.my*h2+s.vz*h3-q[2]*h4-slope[2]*h5)/e.eiy - e.warmth[1]*h2 + giveZ*(s.vz*h-q[2]*h2-slope[2]*h3)
	o.v += s.rz*h + (s.mz*h2-s.vy*h3+q[1]*h4+slope[1]*h5)/e.eiz + e.warmth[2]*h2 + giveY*(s.vy*h-q[1]*h2-slope[1]*h3)
	return o
}
