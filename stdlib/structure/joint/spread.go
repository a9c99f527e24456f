package joint

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/mat"

	"tautline/stdlib/internal/vector"
)

// A spread is a rigid body on springs that are equally stiff in every direction:
// points for bolts, lines for welds. Its weights stand for the stiffness.
type spread struct {
	weight float64
	first  vector.Vector // of weight
	second [3][3]float64 // of weight, about the origin
}

// point adds a spring.
func (s *spread) point(weight float64, at vector.Vector) { s.line(weight, at, at) }

// line adds springs of that weight altogether, evenly from a to b.
func (s *spread) line(weight float64, a, b vector.Vector) {
	middle, half := a.Plus(b).Times(0.5), b.Minus(a).Times(0.5)
	s.weight += weight
	s.first = s.first.Plus(middle.Times(weight))
	for i := range 3 {
		for k := range 3 {
			s.second[i][k] += weight * (middle[i]*middle[k] + half[i]*half[k]/3)
		}
	}
}

func (s *spread) centre() vector.Vector { return s.first.Times(1 / s.weight) }

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
func (s *spread) share(a Action) (func(at vector.Vector) vector.Vector, error) {
	force := vector.Vector{a.Fx, a.Fy, a.Fz}
	c := s.centre()
	moment := vector.Vector{a.Mx, a.My, a.Mz}.Minus(c.Cross(force))
	var eigen mat.EigenSym
	if !eigen.Factorize(s.inertia(), true) {
		return nil, fmt.Errorf("sharing out the moment: no principal axes found")
	}
	values := eigen.Values(nil)
	var axes mat.Dense
	eigen.VectorsTo(&axes)
	size := math.Sqrt(values[2]/s.weight) + c.Length()
	var turn vector.Vector
	for k, inertia := range values {
		axis := vector.Vector{axes.At(0, k), axes.At(1, k), axes.At(2, k)}
		about := moment.Dot(axis)
		if inertia > flat*values[2] {
			turn = turn.Plus(axis.Times(about / inertia))
		} else if scale := moment.Length() + force.Length()*size; math.Abs(about) > 1e-9*scale {
			return nil, fmt.Errorf("moment: got %.4g N·m about the axis (%.2g, %.2g, %.2g), want none: all fasteners lie on that line and cannot hold it; "+
				"add one beside it", about, axis[0], axis[1], axis[2])
		}
	}
	u := force.Times(1 / s.weight)
	return func(at vector.Vector) vector.Vector { return u.Plus(turn.Cross(at.Minus(c))) }, nil
}
