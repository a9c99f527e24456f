package beam

import "tautline/stdlib/internal/vector"

// A Basis is three directions at right angles, in global axes.
type Basis [3]vector.Vector

// Global are the axes of the frame.
var Global = Basis{{1, 0, 0}, {0, 1, 0}, {0, 0, 1}}

// In is a vector's components along the basis.
func (b Basis) In(v vector.Vector) vector.Vector {
	return vector.Vector{b[0].Dot(v), b[1].Dot(v), b[2].Dot(v)}
}

// Out is the vector of components along the basis.
func (b Basis) Out(c vector.Vector) vector.Vector {
	return b[0].Times(c[0]).Plus(b[1].Times(c[1])).Plus(b[2].Times(c[2]))
}
