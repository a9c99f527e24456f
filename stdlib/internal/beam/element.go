// Package beam is the straight member of the stiffness method: how stiff and heavy it
// is, what loads between its ends do to them, and what happens along it.
//
// An Element has two ends with six freedoms each, along and about the member's axes;
// Transform says how they follow those of the frame's nodes. Path follows what happens
// from one end to the other.
//
// Invariants: Bernoulli's beam, with shear's give where PhiY and PhiZ say so; loads are
// polynomials between their ends and are followed exactly.
package beam

import (
	"math"

	"tautline/stdlib/internal/vector"
)

// An Element is a member, or one piece of it. Its twelve freedoms are, for each
// end, the movement along and the turn about the member's axes. Bending in its
// two planes is independent in the principal axes of its section, which in an
// angle are turned against those: loads and forces are followed there.
type Element struct {
	Index     int // in the model
	Member    int // its index
	From, To  vector.Vector
	Length    float64
	Axes      Basis // of the member
	Principal Basis
	Bar       bool
	EA, GJ    float64
	EIY, EIZ  float64 // about its y and z
	PhiY      float64 // 12·EIz/(G·Asy·L²), the give in shear along y against that in bending
	PhiZ      float64
	Expansion float64
	Mass      float64 // per length
	Polar     float64 // (Iy+Iz)/A
	Places    [24]int // freedoms of the frame: six each of two nodes, then twelve of released ends, -1 if none
	t         [12][24]float64
	Loads     []Load
	Warmth    [3]float64 // strain along it, curvature about y, curvature about z
}

// A Load is a point load at From or, if To is more, a line load from First to Last,
// along the principal axes.
type Load struct {
	From, To    float64
	First, Last vector.Vector // force, or force per length
	Moment      vector.Vector
}

// The freedoms that bend an element in its two planes, and the sign with which a
// turn goes with a slope: about z a positive turn lifts the far end along y,
// about y it lowers it along z.
var planes = [2]struct {
	freedoms [4]int
	sign     float64
}{{[4]int{1, 5, 7, 11}, 1}, {[4]int{2, 4, 8, 10}, -1}}

// A Matrix is of an element's twelve freedoms.
type Matrix = [12][12]float64

// Stiffness is the element's stiffness in the member's axes.
func (e *Element) Stiffness() Matrix {
	k := e.principalStiffness()
	if e.Principal == e.Axes {
		return k
	}
	var half, whole Matrix
	for i := range k {
		half[i] = e.fromPrincipal(k[i])
	}
	for j := range k {
		var column [12]float64
		for i := range half {
			column[i] = half[i][j]
		}
		for i, v := range e.fromPrincipal(column) {
			whole[i][j] = v
		}
	}
	return whole
}

// toPrincipal and fromPrincipal take freedoms or forces in the member's axes to
// the principal ones and back.
func (e *Element) toPrincipal(d [12]float64) [12]float64 { return turn(d, e.Axes, e.Principal) }
func (e *Element) fromPrincipal(d [12]float64) [12]float64 {
	return turn(d, e.Principal, e.Axes)
}

func turn(d [12]float64, from, to Basis) [12]float64 {
	if from == to {
		return d
	}
	for i := 0; i < 12; i += 3 {
		v := to.In(from.Out(vector.Vector(d[i : i+3])))
		copy(d[i:i+3], v[:])
	}
	return d
}

// principalStiffness is the stiffness in the principal axes. Source: Przemieniecki, Theory of Matrix
// Structural Analysis, section 5.6, with shear deformation.
func (e *Element) principalStiffness() (k Matrix) {
	pair(&k, 0, 6, e.EA/e.Length)
	if e.Bar {
		return k
	}
	pair(&k, 3, 9, e.GJ/e.Length)
	for p, plane := range planes {
		ei, phi := e.EIZ, e.PhiY
		if p == 1 {
			ei, phi = e.EIY, e.PhiZ
		}
		l := e.Length
		c := ei / (l * l * l * (1 + phi))
		bend(&k, plane.freedoms, plane.sign, [6]float64{12 * c, 6 * l * c, (4 + phi) * l * l * c, (2 - phi) * l * l * c, -12 * c, 6 * l * c})
	}
	return k
}

// Geometric is what a pull of 1 along the element adds to its stiffness. Source:
// Przemieniecki, section 15.2; the twist: Wagner.
func (e *Element) Geometric() (k Matrix) {
	l := e.Length
	if e.Bar {
		pair(&k, 1, 7, 1/l)
		pair(&k, 2, 8, 1/l)
		return k
	}
	pair(&k, 3, 9, e.Polar/l)
	for _, plane := range planes {
		bend(&k, plane.freedoms, plane.sign, [6]float64{6 / (5 * l), 0.1, 2 * l / 15, -l / 30, -6 / (5 * l), 0.1})
	}
	return k
}

// Inertia is the element's consistent mass. Source: Przemieniecki, section 11.5.
func (e *Element) Inertia() (k Matrix) {
	m, l := e.Mass*e.Length, e.Length
	straight := []int{0}
	if e.Bar {
		straight = []int{0, 1, 2}
	}
	for _, i := range straight {
		k[i][i], k[i+6][i+6] = m/3, m/3
		k[i][i+6], k[i+6][i] = m/6, m/6
	}
	if e.Bar {
		return k
	}
	k[3][3], k[9][9] = m*e.Polar/3, m*e.Polar/3
	k[3][9], k[9][3] = m*e.Polar/6, m*e.Polar/6
	c := m / 420
	for _, plane := range planes {
		bend(&k, plane.freedoms, plane.sign, [6]float64{156 * c, 22 * l * c, 4 * l * l * c, -3 * l * l * c, 54 * c, -13 * l * c})
	}
	return k
}

// pair adds a spring between freedoms i and j.
func pair(k *Matrix, i, j int, s float64) {
	k[i][i] += s
	k[j][j] += s
	k[i][j] -= s
	k[j][i] -= s
}

// bend adds a symmetric matrix of one plane: (w1,w1), (w1,t1), (t1,t1), (t1,t2),
// (w1,w2), (w1,t2). The rest follows from symmetry end for end.
func bend(k *Matrix, f [4]int, sign float64, v [6]float64) {
	ww, wt, tt, tu, wv, wu := v[0], sign*v[1], v[2], v[3], v[4], sign*v[5]
	for i, row := range [4][4]float64{{ww, wt, wv, wu}, {wt, tt, -wu, tu}, {wv, -wu, ww, -wt}, {wu, tu, -wt, tt}} {
		for j, s := range row {
			k[f[i]][f[j]] += s
		}
	}
}

// shape is the deflection and the turn at a share of the length for 1 in each of
// (w1, t1, w2, t2) of one plane, turns as slopes. Source: Friedman and Kosmatka,
// Computers & Structures 47(3), 1993; without shear the cubic of Hermite.
func (e *Element) shape(x, phi float64) (w, turn [4]float64) {
	l, c := e.Length, 1/(1+phi)
	if e.Bar {
		return [4]float64{1 - x, 0, x, 0}, [4]float64{-1 / l, 0, 1 / l, 0}
	}
	w = [4]float64{
		c * (1 - 3*x*x + 2*x*x*x + phi*(1-x)),
		c * l * (x - 2*x*x + x*x*x + phi/2*(x-x*x)),
		c * (3*x*x - 2*x*x*x + phi*x),
		c * l * (x*x*x - x*x + phi/2*(x*x-x)),
	}
	turn = [4]float64{
		c * 6 / l * (x*x - x),
		c * (1 - 4*x + 3*x*x + phi*(1-x)),
		c * 6 / l * (x - x*x),
		c * (3*x*x - 2*x + phi*x),
	}
	return w, turn
}

// gauss is four-point quadrature from 0 to 1, exact to the seventh degree.
var gauss = [4][2]float64{
	{0.5 - 0.5*0.8611363115940526, 0.3478548451374538 / 2}, {0.5 - 0.5*0.3399810435848563, 0.6521451548625461 / 2},
	{0.5 + 0.5*0.3399810435848563, 0.6521451548625461 / 2}, {0.5 + 0.5*0.8611363115940526, 0.3478548451374538 / 2},
}

// forces are the loads on the element as the same work at its ends, in the
// principal axes.
func (e *Element) forces() (out [12]float64) {
	for _, l := range e.Loads {
		if l.To <= l.From {
			e.work(&out, l.From/e.Length, l.First, l.Moment)
			continue
		}
		for _, g := range gauss {
			q := l.First.Times(1 - g[0]).Plus(l.Last.Times(g[0])).Times((l.To - l.From) * g[1])
			e.work(&out, (l.From+g[0]*(l.To-l.From))/e.Length, q, vector.Vector{})
		}
	}
	strain := e.EA * e.Warmth[0]
	out[0] -= strain
	out[6] += strain
	if !e.Bar {
		my, mz := e.EIY*e.Warmth[1], e.EIZ*e.Warmth[2]
		out[4], out[10] = out[4]-my, out[10]+my
		out[5], out[11] = out[5]-mz, out[11]+mz
	}
	return out
}

// work adds a force and a moment at a share x of the length.
func (e *Element) work(out *[12]float64, x float64, force, moment vector.Vector) {
	out[0] += force[0] * (1 - x)
	out[6] += force[0] * x
	out[3] += moment[0] * (1 - x)
	out[9] += moment[0] * x
	for p, plane := range planes {
		phi := e.PhiY
		across, about := force[1], moment[2]
		if p == 1 {
			phi = e.PhiZ
			across, about = force[2], moment[1]
		}
		w, turn := e.shape(x, phi)
		for i, f := range plane.freedoms {
			s := 1.0
			if i%2 == 1 {
				s = plane.sign // a turn of the frame against a slope of the plane
			}
			out[f] += s * (across*w[i] + plane.sign*about*turn[i])
		}
	}
}

// Transform sets how the element's freedoms follow those of its nodes, which are
// counted in the nodes' own axes, and those of its released ends.
func (e *Element) Transform(nodes [2]Basis, arms [2]vector.Vector, released [12]int) {
	e.t = [12][24]float64{}
	for end := range 2 {
		for a := range 3 {
			axis := e.Axes[a]
			lever := arms[end].Cross(axis)
			for b := range 3 {
				n := nodes[end][b]
				e.t[6*end+a][6*end+b] = axis.Dot(n)
				e.t[6*end+a][6*end+3+b] = lever.Dot(n)
				e.t[6*end+3+a][6*end+3+b] = axis.Dot(n)
			}
		}
	}
	for i := range 12 {
		e.Places[12+i] = -1
		if released[i] >= 0 {
			e.Places[12+i] = released[i]
		}
	}
}

// Rigid is how freedom i would follow those of the nodes if it were not released.
func (e *Element) Rigid(i int) [24]float64 { return e.t[i] }

// row is t with a released freedom standing for itself.
func (e *Element) row(i int) [24]float64 {
	if e.Places[12+i] >= 0 {
		var r [24]float64
		r[12+i] = 1
		return r
	}
	return e.t[i]
}

// Spread is Tᵀ·k·T, over the freedoms of the frame.
func (e *Element) Spread(k *Matrix) []float64 {
	var rows [12][24]float64
	for i := range rows {
		rows[i] = e.row(i)
	}
	var half [12][24]float64
	for i := range 12 {
		for m := range 12 {
			if s := k[i][m]; s != 0 {
				for j, v := range rows[m] {
					half[i][j] += s * v
				}
			}
		}
	}
	n := e.Width()
	out := make([]float64, n*n)
	for m := range 12 {
		for i := range n {
			if s := rows[m][e.Slot(i)]; s != 0 {
				for j := range n {
					out[i*n+j] += s * half[m][e.Slot(j)]
				}
			}
		}
	}
	return out
}

// Width is how many freedoms of the frame the element touches.
func (e *Element) Width() int {
	n := 12
	for i := range 12 {
		if e.Places[12+i] >= 0 {
			n++
		}
	}
	return n
}

// Slot is the place of the i-th of them among all Places.
func (e *Element) Slot(i int) int {
	if i < 12 {
		return i
	}
	for k := range 12 {
		if e.Places[12+k] >= 0 {
			if i == 12 {
				return 12 + k
			}
			i--
		}
	}
	panic("beam: Element.Slot: slot out of range")
}

// Local is the element's freedoms when those of the frame are u.
func (e *Element) Local(u []float64) (d [12]float64) {
	for i := range d {
		r := e.row(i)
		for j, p := range e.Places {
			if p >= 0 && r[j] != 0 {
				d[i] += r[j] * u[p]
			}
		}
	}
	return d
}

// Back adds Tᵀ·f to forces on the freedoms of the frame.
func (e *Element) Back(out []float64, f [12]float64) {
	for i, v := range f {
		r := e.row(i)
		for j, p := range e.Places {
			if p >= 0 && r[j] != 0 {
				out[p] += r[j] * v
			}
		}
	}
}

// End is the forces that the element's ends take: (k + n·geometric)·d less the
// loads between them.
func (e *Element) End(d [12]float64, n float64) [12]float64 {
	d = e.toPrincipal(d)
	k := e.principalStiffness()
	out := e.forces()
	for i := range out {
		out[i] = -out[i]
		for j, v := range d {
			out[i] += k[i][j] * v
		}
	}
	if n != 0 {
		g := e.Geometric()
		for i := range out {
			for j, v := range d {
				out[i] += n * g[i][j] * v
			}
		}
	}
	return e.fromPrincipal(out)
}

// Finite reports whether a load on the element is a number.
func (e *Element) Finite() bool {
	sum := 0.0
	for _, v := range e.forces() {
		sum += v
	}
	return !math.IsNaN(sum) && !math.IsInf(sum, 0)
}
