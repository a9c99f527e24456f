package flatten

import (
	"tautline/stdlib/fabric/surface"
	"tautline/stdlib/internal/ldl"
)

// FirstSystem gives the first Newton system of a mesh.
func FirstSystem(mesh surface.Mesh) (matrix *ldl.Matrix, right []float64) {
	s, err := newSkin(mesh)
	if err != nil {
		panic(err)
	}
	x, err := s.conformal()
	if err != nil {
		panic(err)
	}
	sys := newSystem(len(x), 2*s.p, 2*s.p+1, 2*s.q+1)
	blocks, right := s.linear(sys, x)
	return ldl.Assemble(sys.n, blocks), right
}
