// Package stiffness puts straight members, springs and supports together and
// finds where they come to rest, by the direct stiffness method. It knows freedoms
// by their numbers; whose they are is the caller's matter.
//
// Source: Przemieniecki, Theory of Matrix Structural Analysis, chapters 5, 6 and 15.
package stiffness

import (
	"fmt"

	"tautline/stdlib/internal/beam"
	"tautline/stdlib/internal/ldl"
)

// A System is members and springs between freedoms, and what supports them.
type System struct {
	Elements []beam.Element
	Springs  []Spring
	Supports []Support
	Active   []bool // freedoms that a member or a spring resists, once counted

	plans map[string]*Held // by the supports that have lifted off
}

// A Spring resists a linear function of freedoms.
type Spring struct {
	Freedoms  []int
	Weights   []float64
	Stiffness float64
}

// A Support holds or springs six freedoms.
type Support struct {
	First     int // of its freedoms
	Held      [6]bool
	Stiffness [6]float64
}

// FindActive marks which of so many freedoms are resisted: the turn of a node
// where only bars and hinges meet is nobody's.
func (s *System) FindActive(freedoms int) {
	s.Active = make([]bool, freedoms)
	for i := range s.Elements {
		e := &s.Elements[i]
		k := e.Stiffness()
		n := e.Width()
		spread := e.Spread(&k)
		for j := range n {
			if spread[j*n+j] > 1e-14*(e.EA/e.Length) {
				s.Active[e.Places[e.Slot(j)]] = true
			}
		}
	}
	for _, spring := range s.Springs {
		for _, p := range spring.Freedoms {
			s.Active[p] = true
		}
	}
}

// A Held system has its supports in one state: the freedoms that are unknown, and
// the plan of their elimination.
type Held struct {
	System   *System
	Lifted   []bool // by support
	Equation []int  // of a freedom, -1 if it is not unknown
	Unknowns int

	plan   *ldl.Plan
	k      *ldl.Matrix
	factor *ldl.Factor // of k
}

// Hold is the system with some supports lifted off, kept for the next time.
func (s *System) Hold(lifted []bool) *Held {
	key := fmt.Sprint(lifted)
	if h := s.plans[key]; h != nil {
		return h
	}
	freedoms := len(s.Active)
	h := &Held{System: s, Lifted: append([]bool(nil), lifted...), Equation: make([]int, freedoms)}
	fixed, sprung := make([]bool, freedoms), make([]bool, freedoms)
	for i, support := range s.Supports {
		if !lifted[i] {
			copy(fixed[support.First:], support.Held[:])
			for k, stiffness := range support.Stiffness {
				sprung[support.First+k] = stiffness > 0
			}
		}
	}
	for i := range h.Equation {
		h.Equation[i] = -1
		if !fixed[i] && (s.Active[i] || sprung[i]) {
			h.Equation[i] = h.Unknowns
			h.Unknowns++
		}
	}
	if s.plans == nil {
		s.plans = map[string]*Held{}
	}
	s.plans[key] = h
	return h
}

// Assemble adds up a matrix from one of each element and, if asked for, springs.
func (h *Held) Assemble(of func(e *beam.Element) beam.Matrix, springs bool) *ldl.Matrix {
	s := h.System
	blocks := make([]ldl.Block, 0, len(s.Elements)+len(s.Springs)+6*len(s.Supports))
	for i := range s.Elements {
		e := &s.Elements[i]
		k := of(e)
		b := ldl.Block{Values: e.Spread(&k)}
		for j := range e.Width() {
			b.Index = append(b.Index, h.Equation[e.Places[e.Slot(j)]])
		}
		blocks = append(blocks, b)
	}
	on := 0.0
	if springs {
		on = 1
	}
	for _, spring := range s.Springs {
		b := ldl.Block{}
		for i, p := range spring.Freedoms {
			b.Index = append(b.Index, h.Equation[p])
			for j := range spring.Freedoms {
				b.Values = append(b.Values, on*spring.Stiffness*spring.Weights[i]*spring.Weights[j])
			}
		}
		blocks = append(blocks, b)
	}
	for i, support := range s.Supports {
		for k, stiffness := range support.Stiffness {
			if at := h.Equation[support.First+k]; at >= 0 && !h.Lifted[i] {
				blocks = append(blocks, ldl.Block{Index: []int{at}, Values: []float64{on * stiffness}})
			}
		}
	}
	return ldl.Assemble(h.Unknowns, blocks)
}

// Stiff is the stiffness matrix of the system as it stands, and its factor. The
// error is an *ldl.Singular when something is loose.
func (h *Held) Stiff() (*ldl.Matrix, *ldl.Factor, error) {
	if h.factor != nil {
		return h.k, h.factor, nil
	}
	if h.k == nil {
		h.k = h.Assemble((*beam.Element).Stiffness, true)
		h.plan = ldl.Analyse(h.k)
	}
	factor, err := h.Factor(h.k)
	if err != nil {
		return nil, nil, err
	}
	h.factor = factor
	return h.k, factor, nil
}

// Factor is that of a matrix that has the pattern of the stiffness matrix.
func (h *Held) Factor(k *ldl.Matrix) (*ldl.Factor, error) { return h.plan.Factor(k, vanished) }

// vanished is the share of its diagonal entry below which a pivot is taken for
// rounding: the sixteen digits of the entries less four for the way there.
const vanished = 1e-12
