package frame

import (
	"fmt"
	"math"

	"tautline/stdlib/internal/beam"
	"tautline/stdlib/internal/ldl"
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
	*held
	name   string
	loads  applied
	second bool
	u      []float64 // freedoms
	pull   []float64 // of each element, for the second order
	rest   []float64 // of the balance at each freedom: at a support what it takes
	rounds int
}

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
		s := &solution{held: m.hold(lifted), name: c.Name, loads: loads, second: second}
		if err := s.balanceAll(); err != nil {
			return nil, err
		}
		rounds += s.rounds
		change, worst := s.padChanges()
		if worst < 0 {
			s.rounds = rounds
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
	sink = 1e-9 * ldl.Most(s.u)
	for i, support := range m.frame.Supports {
		if !support.Lifts {
			continue
		}
		wrong := 0.0
		if !s.lifted[i] {
			if press := s.reaction(i).Press; press < -1e-9*force {
				wrong = -press / force
			}
		} else if below := s.loads.moved[6*int(support.Node-1)+2] - s.u[6*int(support.Node-1)+2]; below > sink {
			wrong = below / ldl.Most(s.u)
		}
		change[i] = wrong > 0
		if wrong > most {
			most, worst = wrong, i
		}
	}
	return change, worst
}

// balanceAll finds the displacements in one state of the pads.
func (s *solution) balanceAll() error {
	m := s.model
	k, factor, err := s.stiff()
	if err != nil {
		return err
	}
	s.u = make([]float64, m.freedoms())
	s.pull = make([]float64, len(m.elements))
	for p, at := range s.equation {
		if at < 0 && !s.isLifted(p) {
			s.u[p] = s.loads.moved[p]
		}
	}
	s.refine(factor)
	if !s.second {
		s.refine(factor) // what rounding left
		s.rounds = 1
		return nil
	}
	for s.rounds = 1; s.rounds <= 60; s.rounds++ {
		changed, most := s.updatePulls()
		if changed <= 1e-9*most {
			return nil
		}
		tangent := k.Plus(1, s.assemble(s.pulled, false))
		factor, err := s.plan.Factor(tangent, vanished)
		if err != nil || factor.Minus > 0 {
			return fmt.Errorf("second order: the load is beyond the critical one: the frame buckles; see Buckling for the factor")
		}
		s.refine(factor)
		s.refine(factor)
	}
	return fmt.Errorf("second order: axial forces still change after 60 rounds: the load is close to the critical one")
}

// pulled is the geometric stiffness of an element under its present force.
func (s *solution) pulled(e *beam.Element) beam.Matrix {
	g := e.Geometric()
	n := s.pull[e.Index]
	for i := range g {
		for j := range g[i] {
			g[i][j] *= n
		}
	}
	return g
}

// refine adds to the displacements what the forces left over ask for.
func (s *solution) refine(factor *ldl.Factor) {
	s.settleBalance()
	x := make([]float64, s.unknowns)
	for p, at := range s.equation {
		if at >= 0 {
			x[at] = s.rest[p]
		}
	}
	factor.Solve(x)
	for p, at := range s.equation {
		if at >= 0 {
			s.u[p] += x[at]
		}
	}
	s.settleBalance()
}

// settleBalance sets rest to the loads less what elements and springs take.
func (s *solution) settleBalance() {
	m := s.model
	s.rest = append([]float64(nil), s.loads.force...)
	for i := range m.elements {
		e := &m.elements[i]
		f := e.End(e.Local(s.u), s.pull[i])
		for j := range f {
			f[j] = -f[j]
		}
		e.Back(s.rest, f)
	}
	for _, spring := range m.springs {
		give := 0.0
		for i, p := range spring.freedoms {
			give += spring.weights[i] * s.u[p]
		}
		for i, p := range spring.freedoms {
			s.rest[p] -= spring.stiffness * give * spring.weights[i]
		}
	}
	for i, support := range m.frame.Supports {
		for k, stiffness := range support.stiffness() {
			if p := 6*int(support.Node-1) + k; !s.lifted[i] && s.equation[p] >= 0 {
				s.rest[p] -= stiffness * (s.u[p] - s.loads.moved[p])
			}
		}
	}
}

// updatePulls takes the axial forces from the displacements.
func (s *solution) updatePulls() (changed, most float64) {
	for i := range s.model.elements {
		e := &s.model.elements[i]
		f := e.End(e.Local(s.u), s.pull[i])
		n := (f[6] - f[0]) / 2
		changed = math.Max(changed, math.Abs(n-s.pull[i]))
		most = math.Max(most, math.Abs(n))
		s.pull[i] = n
	}
	return changed, most
}

// isLifted reports whether freedom p is that of a pad that has lifted off.
func (s *solution) isLifted(p int) bool {
	for i, support := range s.model.frame.Supports {
		if s.lifted[i] && int(support.Node-1) == p/6 {
			return true
		}
	}
	return false
}

// reaction is what support i gives to the frame.
func (s *solution) reaction(i int) Reaction {
	m := s.model
	support := m.frame.Supports[i]
	r := Reaction{Node: support.Node, Lifted: s.lifted[i]}
	if s.lifted[i] {
		return r
	}
	var own [6]float64
	held, stiffness := support.held(), support.stiffness()
	for k := range own {
		p := 6*int(support.Node-1) + k
		if held[k] {
			own[k] = -s.rest[p]
		} else {
			own[k] = -stiffness[k] * (s.u[p] - s.loads.moved[p])
		}
	}
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
