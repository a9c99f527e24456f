package frame

import "math"

// A vector is x, y, z in global axes; a basis is three of them at right angles.
type (
	vector [3]float64
	basis  [3]vector
)

var global = basis{{1, 0, 0}, {0, 1, 0}, {0, 0, 1}}

func (v vector) plus(w vector) vector   { return vector{v[0] + w[0], v[1] + w[1], v[2] + w[2]} }
func (v vector) minus(w vector) vector  { return vector{v[0] - w[0], v[1] - w[1], v[2] - w[2]} }
func (v vector) times(c float64) vector { return vector{c * v[0], c * v[1], c * v[2]} }
func (v vector) dot(w vector) float64   { return v[0]*w[0] + v[1]*w[1] + v[2]*w[2] }
func (v vector) size() float64          { return math.Sqrt(v.dot(v)) }
func (v vector) unit() vector           { return v.times(1 / v.size()) }

func (v vector) cross(w vector) vector {
	return vector{v[1]*w[2] - v[2]*w[1], v[2]*w[0] - v[0]*w[2], v[0]*w[1] - v[1]*w[0]}
}

// in is a vector's components along the basis, out the vector of components.
func (b basis) in(v vector) vector { return vector{b[0].dot(v), b[1].dot(v), b[2].dot(v)} }
func (b basis) out(c vector) vector {
	return b[0].times(c[0]).plus(b[1].times(c[1])).plus(b[2].times(c[2]))
}
