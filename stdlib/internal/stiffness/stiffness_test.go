package stiffness_test

import (
	"errors"
	"math"
	"testing"

	"tautline/stdlib/internal/beam"
	"tautline/stdlib/internal/ldl"
	"tautline/stdlib/internal/proof"
	"tautline/stdlib/internal/stiffness"
	"tautline/stdlib/internal/vector"
)

// cantilever is a beam of 2 m along x with EI = 1000 N·m², held at its first end,
// with a support under its tip that has some stiffness upward.
func cantilever(upward float64) *stiffness.System {
	e := beam.Element{Length: 2, To: vector.Vector{2, 0, 0}, Axes: beam.Global, Principal: beam.Global, EA: 1e6, GJ: 500, EIY: 1000, EIZ: 1000}
	e.Transform([2]beam.Basis{beam.Global, beam.Global}, [2]vector.Vector{}, [12]int{-1, -1, -1, -1, -1, -1, -1, -1, -1, -1, -1, -1})
	for i := range 12 {
		e.Places[i] = i
	}
	s := &stiffness.System{Elements: []beam.Element{e}, Supports: []stiffness.Support{
		{First: 0, Held: [6]bool{true, true, true, true, true, true}}, {First: 6, Stiffness: [6]float64{2: upward}}}}
	s.FindActive(12)
	return s
}

// loaded is the system with 6 N down at the tip.
func loaded(t *testing.T, s *stiffness.System, lifted ...bool) *stiffness.State {
	t.Helper()
	state := &stiffness.State{Held: s.Hold(lifted), Force: make([]float64, 12), Moved: make([]float64, 12)}
	state.Force[8] = -6
	if err := state.Balance(); err != nil {
		t.Fatal(err)
	}
	return state
}

// A beam held at one end is as stiff at its tip as 3·EI/l³ = 375 N/m, a spring
// under the tip stands beside it, and one that has lifted off does nothing. The
// hold takes the rest of the load, and its moment.
func TestCantilever(t *testing.T) {
	const own, spring = 375.0, 125.0
	s := cantilever(spring)
	for _, c := range []struct {
		name    string
		lifted  bool
		against float64
	}{{"on the spring", false, own + spring}, {"lifted", true, own}} {
		state := loaded(t, s, false, c.lifted)
		proof.Near(t, c.name+": sinks", -state.U[8], 6/c.against, 1e-12)
		proof.Near(t, c.name+": hold up", state.Reaction(0)[2], 6*own/c.against, 1e-12)
		proof.Near(t, c.name+": moment of the hold", math.Abs(state.Reaction(0)[4]), 2*6*own/c.against, 1e-12)
	}
	proof.Near(t, "spring up", loaded(t, s, false, false).Reaction(1)[2], 6*spring/(own+spring), 1e-12)
}

// What nothing holds is found singular.
func TestLoose(t *testing.T) {
	s := cantilever(1)
	_, _, err := s.Hold([]bool{true, false}).Stiff()
	var singular *ldl.Singular
	if !errors.As(err, &singular) {
		t.Errorf("a beam on one spring: got %v, want it singular", err)
	}
}

// Beyond Euler's load of a column held at one end, π²·EI/(4·l²), the second order
// finds no balance; below it there is one.
func TestCritical(t *testing.T) {
	critical := math.Pi * math.Pi * 1000 / (4 * 4)
	for share, want := range map[float64]error{0.9: nil, 1.05: stiffness.ErrBeyond} { // one element is 0.75 % too stiff
		s := cantilever(0)
		state := &stiffness.State{Held: s.Hold([]bool{false, false}), Force: make([]float64, 12), Moved: make([]float64, 12), Second: true}
		state.Force[6] = -share * critical
		if err := state.Balance(); !errors.Is(err, want) {
			t.Errorf("%g of the critical load: got %v, want %v", share, err, want)
		}
	}
}
