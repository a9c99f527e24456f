package joint

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/mat"
)

// A vector has components along x, y and z.
type vector [3]float64

func (v vector) plus(w vector) vector   { return vector{v[0] + w[0], v[1] + w[1], v[2] + w[2]} }
func (v vector) minus(w vector) vector  { return v.plus(w.times(-1)) }
func (v vector) times(f float64) vector { return vector{f * v[0], f * v[1], f * v[2]} }
func (v vector) dot(w vector) float64   { return v[0]*w[0] + v[1]*w[1] + v[2]*w[2] }
func (v vector) length() float64        { return math.Sqrt(v.dot(v)) }
func (v vector) unit() vector           { return v.times(1 / v.length()) }
func (v vector) cross(w vector) vector {
	return vector{v[1]*w[2] - v[2]*w[1], v[2]*w[0] - v[0]*w[2], v[0]*w[1] - v[1]*w[0]}
}

// A spread is a rigid body on springs that are equally stiff in every direction:
// points for bolts, lines for welds. Its weights stand for the stiffness.
type spread struct {
	weight float64
	first  vector        // of weight
	second [3][3]float64 // of weight, about the origin
}

// point adds a spring.
func (s *spread) point(weight float64, at vector) { s.line(weight, at, at) }

// line adds springs of that weight altogether, evenly from a to b.
func (s *spread) line(weight float64, a, b vector) {
	middle, half := a.plus(b).times(0.5), b.minus(a).times(0.5)
	s.weight += weight
	s.first = s.first.plus(middle.times(weight))
	for i := range 3 {
		for k := range 3 {
			s.second[i][k] += weight * (middle[i]*middle[k] + half[i]*half[k]/3)
		}
	}
}

func (s *spread) centre() vector { return s.first.times(1 / s.weight) }

// inertia is the spread's resistance to turning about its centre.
func (s *spread) inertia() *mat.SymDense {
	c := s.centre()
	var about [3][3]float64
	trace := 0.0
	for i := range 3 {
		for k := range 3 {
			about[i][k] = s.second[i][k] - s.weight*c[i]*c[k]
		}
		trace += about[i][i]
	}
	j := mat.NewSymDense(3, nil)
	for i := range 3 {
		for k := i; k < 3; k++ {
			j.SetSym(i, k, -about[i][k])
		}
		j.SetSym(i, i, trace-about[i][i])
	}
	return j
}

// flat is the share of the greatest inertia below which a spread cannot resist
// turning: that of fasteners within a ten-thousandth of their length of one line.
const flat = 1e-8

// share turns an action into the force on a unit of weight at any place. A
// moment about an axis that the spread cannot resist is an error.
func (s *spread) share(a Action) (func(at vector) vector, error) {
	force := vector{a.Fx, a.Fy, a.Fz}
	c := s.centre()
	moment := vector{a.Mx, a.My, a.Mz}.minus(c.cross(force))
	var eigen mat.EigenSym
	if !eigen.Factorize(s.inertia(), true) {
		return nil, fmt.Errorf("sharing out the moment: no principal axes found")
	}
	values := eigen.Values(nil)
	var axes mat.Dense
	eigen.VectorsTo(&axes)
	size := math.Sqrt(values[2]/s.weight) + c.length()
	var turn vector
	for k, inertia := range values {
		axis := vector{axes.At(0, k), axes.At(1, k), axes.At(2, k)}
		about := moment.dot(axis)
		if inertia > flat*values[2] {
			turn = turn.plus(axis.times(about / inertia))
		} else if scale := moment.length() + force.length()*size; math.Abs(about) > 1e-9*scale {
			return nil, fmt.Errorf("moment: got %.4g N·m about the axis (%.2g, %.2g, %.2g), want none: all fasteners lie on that line and cannot hold it; "+
				"add one beside it", about, axis[0], axis[1], axis[2])
		}
	}
	u := force.times(1 / s.weight)
	return func(at vector) vector { return u.plus(turn.cross(at.minus(c))) }, nil
}
