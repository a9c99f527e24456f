package form

import "tautline/stdlib/internal/ldl"

// FirstSystem gives the first damped Newton system of a membrane.
func FirstSystem(m Membrane) (matrix *ldl.Matrix, right []float64) {
	s, err := m.system()
	if err != nil {
		panic(err)
	}
	s.Measure()
	return s.Stiffness(1), s.Free(s.At(s.X).Out)
}

// LinearSystem gives the linear equations of a net for z.
func LinearSystem(n Net) (matrix *ldl.Matrix, right []float64) {
	s, err := n.system()
	if err != nil {
		panic(err)
	}
	k, sides := n.linear(s)
	return k, sides[2]
}
