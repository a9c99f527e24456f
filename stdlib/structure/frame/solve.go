package frame

import (
	"errors"
	"fmt"
	"math"

	"tautline/stdlib/internal/ldl"
	"tautline/stdlib/internal/stiffness"
	"tautline/stdlib/internal/vector"
)

// Solve is what a combination does to the frame, small displacements assumed.
//
// Pads that would have to pull are let go, and pads that would sink in are taken
// back, until all agree.
//
// It is an error when the frame or a load does not fit together, when a part is
// loose (the message names the node and the direction), or when pads do not come
// to rest.
//
// Source: direct stiffness method; Przemieniecki, Theory of Matrix Structural
// Analysis, chapters 5 and 6.
func (f Frame) Solve(c Combination) (Result, error) {
	list, err := f.SolveAll(c)
	if err != nil {
		return Result{}, err
	}
	return list[0], nil
}

// SolveAll is Solve for several combinations, with the work that they share done
// once.
//
// Source: as Solve.
func (f Frame) SolveAll(list ...Combination) ([]Result, error) {
	m, err := newModel(f, 1)
	if err != nil {
		return nil, err
	}
	var results []Result
	for _, c := range list {
		s, err := m.solve(c, false)
		if err != nil {
			return nil, fmt.Errorf("combination %q: %w", c.Name, err)
		}
		results = append(results, s.result())
	}
	return results, nil
}

// SolveSecondOrder is Solve with the forces in balance on the displaced frame
// (P-delta): what compression adds to deflections and moments, and tension
// takes away.
//
// Rotations are small, members are cut into Pieces, and the axial forces are
// found by repeating until they change by less than 1e-9. It is an error beyond
// the critical load.
//
// Source: geometric stiffness by pieces; Przemieniecki, Theory of Matrix
// Structural Analysis, chapter 15.
func (f Frame) SolveSecondOrder(c Combination) (Result, error) {
	m, err := newModel(f, f.cuts())
	if err != nil {
		return Result{}, err
	}
	s, err := m.solve(c, true)
	if err != nil {
		return Result{}, fmt.Errorf("combination %q: %w", c.Name, err)
	}
	return s.result(), nil
}

// cuts is Pieces or what it stands for.
func (f Frame) cuts() int {
	if f.Pieces > 0 {
		return f.Pieces
	}
	return 8
}

// A solution is a combination on a model in balance.
type solution struct {
	*stiffness.State
	model *model
	name  string
}

// held is the model as its supports stand in the solution.
func (s *solution) held() held { return held{s.Held, s.model} }

// solve finds the state of the pads and the displacements.
func (m *model) solve(c Combination, second bool) (*solution, error) {
	loads, err := m.apply(c)
	if err != nil {
		return nil, err
	}
	lifted := make([]bool, len(m.frame.Supports))
	seen := map[string]bool{}
	single := false
	rounds := 0
	for rounds < 200 {
		s := &solution{&stiffness.State{Held: m.Hold(lifted), Force: loads.force, Moved: loads.moved, Second: second}, m, c.Name}
		if err := s.balance(); err != nil {
			return nil, err
		}
		rounds += s.Rounds
		change, worst := s.padChanges()
		if worst < 0 {
			s.Rounds = rounds
			return s, nil
		}
		single = single || seen[fmt.Sprint(lifted)]
		seen[fmt.Sprint(lifted)] = true
		for i := range lifted {
			if change[i] && (!single || i == worst) {
				lifted[i] = !lifted[i]
			}
		}
	}
	return nil, fmt.Errorf("pads: got no state in which all agree after 200 rounds: some sit and lift by turns; make them springs")
}

// padChanges are the pads that pull, or have lifted and would sink in; worst is
// the one that does so most, -1 if there is none.
func (s *solution) padChanges() (change []bool, worst int) {
	m := s.model
	change = make([]bool, len(m.frame.Supports))
	worst = -1
	most := 0.0
	force, sink := 0.0, 0.0
	for i := range m.frame.Supports {
		force = math.Max(force, math.Abs(s.reaction(i).Press))
	}
	sink = 1e-9 * ldl.Most(s.U)
	for i, support := range m.frame.Supports {
		if !support.Lifts {
			continue
		}
		wrong := 0.0
		if !s.Lifted[i] {
			if press := s.reaction(i).Press; press < -1e-9*force {
				wrong = -press / force
			}
		} else if below := s.Moved[6*int(support.Node-1)+2] - s.U[6*int(support.Node-1)+2]; below > sink {
			wrong = below / ldl.Most(s.U)
		}
		change[i] = wrong > 0
		if wrong > most {
			most, worst = wrong, i
		}
	}
	return change, worst
}

// balance finds the displacements in one state of the pads.
func (s *solution) balance() error {
	switch err := s.Balance(); {
	case errors.Is(err, stiffness.ErrBeyond):
		return fmt.Errorf("second order: %w: the frame buckles; see Buckling for the factor", err)
	case errors.Is(err, stiffness.ErrRestless):
		return fmt.Errorf("second order: %w: the load is close to the critical one", err)
	case err != nil:
		return s.held().mechanism(err)
	}
	return nil
}

// reaction is what support i gives to the frame.
func (s *solution) reaction(i int) Reaction {
	m := s.model
	support := m.frame.Supports[i]
	r := Reaction{Node: support.Node, Lifted: s.Lifted[i]}
	if s.Lifted[i] {
		return r
	}
	own := s.Reaction(i)
	force := m.supports[i].Out(vector.Vector{own[0], own[1], own[2]})
	moment := m.supports[i].Out(vector.Vector{own[3], own[4], own[5]})
	r.FX, r.FY, r.FZ = force[0], force[1], force[2]
	r.MX, r.MY, r.MZ = moment[0], moment[1], moment[2]
	r.Press, r.Slide = own[2], math.Hypot(own[0], own[1])
	if r.Press > 0 {
		r.Friction = r.Slide / r.Press
	}
	return r
}
