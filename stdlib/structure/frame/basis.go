package frame

import "tautline/stdlib/internal/vector"

// A basis is three directions at right angles, in global axes.
type basis [3]vector.Vector

var global = basis{{1, 0, 0}, {0, 1, 0}, {0, 0, 1}}

// in is a vector's components along the basis, out the vector of components.
func (b basis) in(v vector.Vector) vector.Vector {
	return vector.Vector{b[0].Dot(v), b[1].Dot(v), b[2].Dot(v)}
}

func (b basis) out(c vector.Vector) vector.Vector {
	return b[0].Times(c[0]).Plus(b[1].Times(c[1])).Plus(b[2].Times(c[2]))
}
