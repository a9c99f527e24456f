package beam_test

import (
	"math"
	"testing"

	"tautline/stdlib/internal/beam"
	"tautline/stdlib/internal/proof"
	"tautline/stdlib/internal/vector"
)

// level is a beam of 2 m along x with EI = 1000 N·m² both ways.
func level() beam.Element {
	e := beam.Element{Length: 2, To: vector.Vector{2, 0, 0}, Axes: beam.Global, Principal: beam.Global, EA: 1e6, GJ: 500, EIY: 1000, EIZ: 1000, Mass: 3, Polar: 0.01}
	e.Transform([2]beam.Basis{beam.Global, beam.Global}, [2]vector.Vector{}, [12]int{-1, -1, -1, -1, -1, -1, -1, -1, -1, -1, -1, -1})
	return e
}

// Moved or turned as a rigid body an element takes no force: its stiffness and its
// weight under acceleration say so.
func TestRigidBody(t *testing.T) {
	e := level()
	for what, d := range map[string][12]float64{
		"along": {0: 1, 6: 1}, "across": {1: 1, 7: 1}, "up": {2: 1, 8: 1}, "twisted": {3: 1, 9: 1},
		"about y": {4: 1, 10: 1, 8: -2}, "about z": {5: 1, 11: 1, 7: 2},
	} {
		for i, v := range e.End(d, 0) {
			if math.Abs(v) > 1e-9 { // of stiffnesses up to 5e5
				t.Errorf("%s: force %d: got %g, want 0", what, i, v)
			}
		}
	}
	m := e.Inertia()
	sum := 0.0
	for _, i := range []int{1, 7} {
		for _, j := range []int{1, 7} {
			sum += m[i][j]
		}
	}
	proof.Near(t, "mass across", sum, 3*2, 1e-12)
}

// A beam fixed at both ends under an even load: w·l²/12 at its ends, w·l²/24 and
// w·l⁴/384/EI in its middle.
func TestFixedEnds(t *testing.T) {
	e := level()
	e.Loads = []beam.Load{{To: 2, First: vector.Vector{0, 0, -60}, Last: vector.Vector{0, 0, -60}}}
	path := e.Path([12]float64{}, 0, 4)
	first, middle, last := path[0], path[len(path)/2], path[len(path)-1]
	// The upper side is stretched at the ends, where the moment about y is above 0.
	proof.Near(t, "first end", first.Moment[1], 60*4/12.0, 1e-12)
	proof.Near(t, "last end", last.Moment[1], 60*4/12.0, 1e-12)
	proof.Near(t, "middle", middle.Moment[1], -60*4/24.0, 1e-12)
	proof.Near(t, "sag", middle.Move[2], -60*16/384.0/1000, 1e-12)
	proof.Near(t, "shear", first.Force[2], -60, 1e-12) // of the part beyond on the part before: it hangs on it
	if d := math.Abs(last.Move[2]); d > 1e-15 {
		t.Errorf("far end: got %g m off its node, want 0", d)
	}
}
