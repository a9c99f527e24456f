package flatten

import (
	"tautline/stdlib/fabric/surface"
	"tautline/stdlib/internal/ldl"
)

// FirstSystem gives the first Newton system of a mesh, entry by entry.
func FirstSystem(mesh surface.Mesh) (n int, rows, columns []int64, values, right []float64) {
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
	ldl.Assemble(sys.n, blocks).Entries(func(i, j int, v float64) {
		rows, columns, values = append(rows, int64(i)), append(columns, int64(j)), append(values, v)
		if i != j {
			rows, columns, values = append(rows, int64(j)), append(columns, int64(i)), append(values, v)
		}
	})
	return sys.n, rows, columns, values, right
}
