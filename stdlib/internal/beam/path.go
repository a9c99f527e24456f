package beam

import (
	"math"
	"slices"

	"tautline/stdlib/internal/vector"
)

// A Point is a place along an element with what happens there: force and moment of
// the part beyond on the part before, along the member's axes, and the movement in
// global ones.
type Point struct {
	At                  float64 // from the first end
	Force, Moment, Move vector.Vector
}

// A state is the internal forces, displacements and turns at a place of an
// element, along its principal axes.
type state struct {
	n, vy, vz, t, my, mz float64
	u, v, w, ry, rz      float64
}

// Path follows an element from its first end to its second, with its ends moved by d
// and pulled: exactly, as its loads are polynomials between their ends. There are so
// many parts, and a point wherever a load begins, ends or turns a moment; two at a
// point load.
func (e *Element) Path(d [12]float64, pull float64, parts int) []Point {
	f := e.toPrincipal(e.End(d, pull))
	d = e.toPrincipal(d)
	start := state{n: -f[0], vy: -f[1], vz: -f[2], t: -f[3], my: -f[4], mz: -f[5], u: d[0], v: d[1], w: d[2], ry: d[4], rz: d[5]}
	xs := e.breaks(parts)
	// First to find by how much the far end is missed, a bar's ends being free to
	// turn; then with the turn at the first end that meets it.
	path := e.follow(start, xs)
	end := path[len(path)-1].state
	start.rz += (d[7] - end.v) / e.Length
	start.ry -= (d[8] - end.w) / e.Length
	path = e.follow(start, xs)

	var out []Point
	for _, p := range path {
		st := p.state
		if pull != 0 { // second order: the pull acts on the displaced line
			y, z := e.line(d, p.at)
			st.my -= pull * (z - d[2])
			st.mz += pull * (y - d[1])
			st.v, st.w = y, z
		}
		force := e.Axes.In(e.Principal.Out(vector.Vector{st.n, st.vy, st.vz}))
		moment := e.Axes.In(e.Principal.Out(vector.Vector{st.t, st.my, st.mz}))
		move := e.Principal.Out(vector.Vector{st.u, st.v, st.w})
		out = append(out, Point{p.at, force, moment, move})
	}
	return out
}

// line is the element's deflection along y and z by its ends alone.
func (e *Element) line(d [12]float64, at float64) (y, z float64) {
	var out [2]float64
	for p, plane := range planes {
		w, _ := e.shape(at/e.Length, [2]float64{e.PhiY, e.PhiZ}[p])
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
func (e *Element) breaks(parts int) []float64 {
	var xs []float64
	for k := range parts + 1 {
		xs = append(xs, e.Length*float64(k)/float64(parts))
	}
	for _, l := range e.Loads {
		xs = append(xs, l.From, l.To)
	}
	slices.Sort(xs)
	return slices.CompactFunc(xs, func(a, b float64) bool { return math.Abs(b-a) < 1e-9*e.Length })
}

type placed struct {
	at float64
	state
}

// follow takes a state along the element.
func (e *Element) follow(s state, xs []float64) []placed {
	var path []placed
	near := 1e-9 * e.Length
	for i, x := range xs {
		path = append(path, placed{x, s})
		jumped := false
		for _, l := range e.Loads {
			if l.To <= l.From && math.Abs(l.From-x) < near {
				s.n -= l.First[0]
				s.vy -= l.First[1]
				s.vz -= l.First[2]
				s.t -= l.Moment[0]
				s.my -= l.Moment[1]
				s.mz -= l.Moment[2]
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
		for _, l := range e.Loads {
			if l.To > l.From && l.From < x+near && l.To > xs[i+1]-near {
				g := l.Last.Minus(l.First).Times(1 / (l.To - l.From))
				q = q.Plus(l.First).Plus(g.Times(x - l.From))
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
func (e *Element) step(s state, q, slope vector.Vector, h float64) state {
	h2, h3, h4, h5 := h*h/2, h*h*h/6, h*h*h*h/24, h*h*h*h*h/120
	giveY, giveZ := e.PhiY*e.Length*e.Length/12/e.EIZ, e.PhiZ*e.Length*e.Length/12/e.EIY // of shear
	o := s
	o.n -= q[0]*h + slope[0]*h2
	o.vy -= q[1]*h + slope[1]*h2
	o.vz -= q[2]*h + slope[2]*h2
	o.my += s.vz*h - q[2]*h2 - slope[2]*h3
	o.mz -= s.vy*h - q[1]*h2 - slope[1]*h3
	o.u += (s.n*h-q[0]*h2-slope[0]*h3)/e.EA + e.Warmth[0]*h
	o.ry += (s.my*h+s.vz*h2-q[2]*h3-slope[2]*h4)/e.EIY + e.Warmth[1]*h
	o.rz += (s.mz*h-s.vy*h2+q[1]*h3+slope[1]*h4)/e.EIZ + e.Warmth[2]*h
	o.w += -s.ry*h - (s.my*h2+s.vz*h3-q[2]*h4-slope[2]*h5)/e.EIY - e.Warmth[1]*h2 + giveZ*(s.vz*h-q[2]*h2-slope[2]*h3)
	o.v += s.rz*h + (s.mz*h2-s.vy*h3+q[1]*h4+slope[1]*h5)/e.EIZ + e.Warmth[2]*h2 + giveY*(s.vy*h-q[1]*h2-slope[1]*h3)
	return o
}
