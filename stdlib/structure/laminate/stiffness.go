package laminate

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/mat"

	"tautline/stdlib/units"
)

// A Stiffness is what a laminate answers to: forces per length N = A·e + B·k and
// moments per length M = B·e + D·k, with the strains e of the middle surface and
// its curvatures k, each for x, y and shear (1, 2 and 6).
type Stiffness struct {
	Thickness                    units.Length
	A11, A12, A16, A22, A26, A66 units.ForcePerLength
	B11, B12, B16, B22, B26, B66 units.Force
	D11, D12, D16, D22, D26, D66 units.Moment

	Ex, Ey, Gxy units.Pressure // of the plane, free to bend as it stretches
	Nuxy        units.Number
	BendEx      units.Pressure // of bending, free to stretch as it bends
	BendEy      units.Pressure
	Warnings    []string
}

// Stiffness is that of the laminate by classical theory.
//
// A laminate without plies, or a ply out of range, is an error. One that is not
// symmetrical, so that it bends when it is stretched, carries a warning.
//
// Source: Jones, Mechanics of Composite Materials, 2nd edition, chapter 4.
func (l Laminate) Stiffness() (Stiffness, error) {
	if err := l.check(); err != nil {
		return Stiffness{}, err
	}
	s := Stiffness{Thickness: l.Thickness()}
	z := -s.Thickness / 2
	var abd [3][6]float64
	for _, p := range l.Plies {
		low, high := z, z+p.Thickness
		z = high
		for i, q := range p.Lamina.turned(p.Angle) {
			abd[0][i] += q * (high - low)
			abd[1][i] += q * (high*high - low*low) / 2
			abd[2][i] += q * (high*high*high - low*low*low) / 3
		}
	}
	a, b, d := abd[0], abd[1], abd[2]
	for i := range b { // rounding of a symmetrical stack
		if math.Abs(b[i]) < 1e-12*a[0]*s.Thickness {
			b[i] = 0
		}
	}
	s.A11, s.A12, s.A16, s.A22, s.A26, s.A66 = a[0], a[1], a[2], a[3], a[4], a[5]
	s.B11, s.B12, s.B16, s.B22, s.B26, s.B66 = b[0], b[1], b[2], b[3], b[4], b[5]
	s.D11, s.D12, s.D16, s.D22, s.D26, s.D66 = d[0], d[1], d[2], d[3], d[4], d[5]
	give, err := s.compliance()
	if err != nil {
		return Stiffness{}, err
	}
	h := s.Thickness
	s.Ex, s.Ey, s.Gxy = 1/(h*give.At(0, 0)), 1/(h*give.At(1, 1)), 1/(h*give.At(2, 2))
	s.Nuxy = -give.At(0, 1) / give.At(0, 0)
	s.BendEx, s.BendEy = 12/(h*h*h*give.At(3, 3)), 12/(h*h*h*give.At(4, 4))
	if r := s.bending(); s.D11-r[0] > 0.01*s.D11 || s.D22-r[3] > 0.01*s.D22 {
		s.Warnings = append(s.Warnings, fmt.Sprintf("the laminate is not symmetrical: it bends when stretched, warps as it cures, and is up to %.0f %% less stiff in bending than its plies",
			100*math.Max(1-r[0]/s.D11, 1-r[3]/s.D22)))
	}
	return s, nil
}

// matrix is the whole of A, B and D.
func (s Stiffness) matrix() *mat.SymDense {
	m := mat.NewSymDense(6, nil)
	for _, block := range []struct {
		row, column int
		v           [6]float64
	}{
		{0, 0, [6]float64{s.A11, s.A12, s.A16, s.A22, s.A26, s.A66}},
		{0, 3, [6]float64{s.B11, s.B12, s.B16, s.B22, s.B26, s.B66}},
		{3, 3, [6]float64{s.D11, s.D12, s.D16, s.D22, s.D26, s.D66}},
	} {
		k := 0
		for i := range 3 {
			for j := i; j < 3; j++ {
				m.SetSym(block.row+i, block.column+j, block.v[k])
				m.SetSym(block.row+j, block.column+i, block.v[k])
				k++
			}
		}
	}
	return m
}

// compliance is strains and curvatures by forces and moments: the inverse.
func (s Stiffness) compliance() (*mat.SymDense, error) {
	// Scaled by the thickness, so that the numbers are of one size.
	scale := func(i int) float64 {
		if i < 3 {
			return 1
		}
		return 1 / s.Thickness
	}
	m := s.matrix()
	for i := range 6 {
		for j := i; j < 6; j++ {
			m.SetSym(i, j, m.At(i, j)*scale(i)*scale(j))
		}
	}
	var c mat.Cholesky
	if !c.Factorize(m) {
		return nil, fmt.Errorf("laminate: its stiffness is not that of a body that resists: check the plies' moduli")
	}
	inverse := mat.NewSymDense(6, nil)
	if err := c.InverseTo(inverse); err != nil {
		return nil, fmt.Errorf("laminate: stiffness: %w", err)
	}
	for i := range 6 {
		for j := i; j < 6; j++ {
			inverse.SetSym(i, j, inverse.At(i, j)*scale(i)*scale(j))
		}
	}
	return inverse, nil
}

// bending is the stiffness in bending where the laminate is free to stretch: D
// less B·A⁻¹·B, as 11, 12, 16, 22, 26 and 66.
func (s Stiffness) bending() [6]float64 {
	give, err := s.compliance()
	if err != nil {
		return [6]float64{}
	}
	var d, inverse mat.Dense
	d.CloneFrom(give.SliceSym(3, 6))
	if err := inverse.Inverse(&d); err != nil {
		return [6]float64{}
	}
	return [6]float64{inverse.At(0, 0), inverse.At(0, 1), inverse.At(0, 2), inverse.At(1, 1), inverse.At(1, 2), inverse.At(2, 2)}
}

// membrane is the compliance of the plane: a11, a12, a16, a22, a26 and a66.
func (s Stiffness) membrane() ([6]float64, error) {
	a := mat.NewSymDense(3, []float64{s.A11, s.A12, s.A16, s.A12, s.A22, s.A26, s.A16, s.A26, s.A66})
	var c mat.Cholesky
	if !c.Factorize(a) {
		return [6]float64{}, fmt.Errorf("laminate: its plane does not resist: check the plies' moduli")
	}
	inverse := mat.NewSymDense(3, nil)
	if err := c.InverseTo(inverse); err != nil {
		return [6]float64{}, fmt.Errorf("laminate: plane: %w", err)
	}
	return [6]float64{inverse.At(0, 0), inverse.At(0, 1), inverse.At(0, 2), inverse.At(1, 1), inverse.At(1, 2), inverse.At(2, 2)}, nil
}
