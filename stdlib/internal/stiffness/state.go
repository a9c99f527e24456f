package stiffness

import (
	"errors"
	"math"

	"tautline/stdlib/internal/beam"
	"tautline/stdlib/internal/ldl"
)

// A State is a held system under loads, besides what its elements carry.
type State struct {
	*Held
	Force  []float64 // on freedoms
	Moved  []float64 // of held freedoms
	Second bool      // forces in balance on the displaced system

	U      []float64 // freedoms
	Pull   []float64 // of each element, for the second order
	Rest   []float64 // of the balance at each freedom: at a support what it takes
	Rounds int
}

// What the second order may come to.
var (
	ErrBeyond   = errors.New("the load is beyond the critical one")
	ErrRestless = errors.New("axial forces still change after 60 rounds")
)

// Balance finds the displacements. The error is that of Stiff, or one of the
// second order.
func (s *State) Balance() error {
	k, factor, err := s.Stiff()
	if err != nil {
		return err
	}
	s.U = make([]float64, len(s.Equation))
	s.Pull = make([]float64, len(s.System.Elements))
	for p, at := range s.Equation {
		if at < 0 && !s.isLifted(p) {
			s.U[p] = s.Moved[p]
		}
	}
	s.refine(factor)
	if !s.Second {
		s.refine(factor) // what rounding left
		s.Rounds = 1
		return nil
	}
	for s.Rounds = 1; s.Rounds <= 60; s.Rounds++ {
		changed, most := s.updatePulls()
		if changed <= 1e-9*most {
			return nil
		}
		tangent := k.Plus(1, s.Assemble(s.Pulled, false))
		factor, err := s.Factor(tangent)
		if err != nil || factor.Minus > 0 {
			return ErrBeyond
		}
		s.refine(factor)
		s.refine(factor)
	}
	return ErrRestless
}

// Pulled is the geometric stiffness of an element under its present force.
func (s *State) Pulled(e *beam.Element) beam.Matrix {
	g := e.Geometric()
	n := s.Pull[e.Index]
	for i := range g {
		for j := range g[i] {
			g[i][j] *= n
		}
	}
	return g
}

// refine adds to the displacements what the forces left over ask for.
func (s *State) refine(factor *ldl.Factor) {
	s.settle()
	x := make([]float64, s.Unknowns)
	for p, at := range s.Equation {
		if at >= 0 {
			x[at] = s.Rest[p]
		}
	}
	factor.Solve(x)
	for p, at := range s.Equation {
		if at >= 0 {
			s.U[p] += x[at]
		}
	}
	s.settle()
}

// settle sets Rest to the loads less what elements and springs take.
func (s *State) settle() {
	system := s.System
	s.Rest = append([]float64(nil), s.Force...)
	for i := range system.Elements {
		e := &system.Elements[i]
		f := e.End(e.Local(s.U), s.Pull[i])
		for j := range f {
			f[j] = -f[j]
		}
		e.Back(s.Rest, f)
	}
	for _, spring := range system.Springs {
		give := 0.0
		for i, p := range spring.Freedoms {
			give += spring.Weights[i] * s.U[p]
		}
		for i, p := range spring.Freedoms {
			s.Rest[p] -= spring.Stiffness * give * spring.Weights[i]
		}
	}
	for i, support := range system.Supports {
		for k, stiffness := range support.Stiffness {
			if p := support.First + k; !s.Lifted[i] && s.Equation[p] >= 0 {
				s.Rest[p] -= stiffness * (s.U[p] - s.Moved[p])
			}
		}
	}
}

// updatePulls takes the axial forces from the displacements.
func (s *State) updatePulls() (changed, most float64) {
	for i := range s.System.Elements {
		n := s.Axial(i)
		changed = math.Max(changed, math.Abs(n-s.Pull[i]))
		most = math.Max(most, math.Abs(n))
		s.Pull[i] = n
	}
	return changed, most
}

// Axial is the force along element i, tension positive.
func (s *State) Axial(i int) float64 {
	e := &s.System.Elements[i]
	f := e.End(e.Local(s.U), s.Pull[i])
	return (f[6] - f[0]) / 2
}

// isLifted reports whether freedom p is that of a support that has lifted off.
func (s *State) isLifted(p int) bool {
	for i, support := range s.System.Supports {
		if s.Lifted[i] && support.First/6 == p/6 {
			return true
		}
	}
	return false
}

// Reaction is what support i gives, along and about its axes.
func (s *State) Reaction(i int) (own [6]float64) {
	support := s.System.Supports[i]
	for k := range own {
		p := support.First + k
		if support.Held[k] {
			own[k] = -s.Rest[p]
		} else {
			own[k] = -support.Stiffness[k] * (s.U[p] - s.Moved[p])
		}
	}
	return own
}
