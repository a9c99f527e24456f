package frame

import "tautline/stdlib/internal/ldl"

// StiffnessMatrix is the matrix that Solve factors, for the benchmarks.
func (f Frame) StiffnessMatrix() (*ldl.Matrix, error) {
	m, err := newModel(f, 1)
	if err != nil {
		return nil, err
	}
	k, _, err := m.hold(make([]bool, len(f.Supports))).stiff()
	return k, err
}
