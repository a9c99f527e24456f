package form

import "tautline/stdlib/internal/ldl"

// FirstSystem gives the first damped Newton system of a membrane.
func FirstSystem(m Membrane) (matrix *ldl.Matrix, right []float64) {
	s, err := m.system()
	if err != nil {
		panic(err)
	}
	now := s.at(s.x)
	s.measure(now.out)
	return s.stiffness(1), s.free(now.out)
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
