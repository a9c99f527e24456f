package study

import (
	"math"
	"reflect"
	"runtime"
	"strings"
	"testing"

	"tautline/runner/outcome"
)

// tube is a tube under pressure: N = p*r, membrane equilibrium. N reaches
// Nallow = 700 N/m at r = 700/1800 m.
const tube = `p := sheet.PlusMinus(1800*units.Pa, 50*units.Pa)
r := sheet.Given(sheet.PlusMinus(300*units.Mm, 5*units.Mm), 200*units.Mm, 500*units.Mm)
Nallow := 700 * units.NPerM
N := p * r
sheet.AtMost("seam", N, Nallow)
sheet.AtLeast("radius", r, 250*units.Mm)`

// near fails unless got is want within a relative 1e-12, thousands of times the
// rounding of the few operations behind each number.
func near(t *testing.T, what string, got, want float64) {
	t.Helper()
	if !(math.Abs(got-want) <= 1e-12*math.Abs(want)) {
		t.Errorf("%s: got %.15g, want %.15g", what, got, want)
	}
}

// Along r the utilisation of the seam is p*r/Nallow and that of the radius
// 0.25/r; the seam fails above r = Nallow/p, the radius below 0.25 m.
func TestSweep(t *testing.T) {
	b := notebook(t, tube)
	s := b.sweep("r", 0.20, 0.50, 7)
	if len(s.Values) != 7 || s.Values[0] != 0.20 || s.Values[6] != 0.50 || s.Nominal != 0.30 {
		t.Fatalf("got values %v about %g", s.Values, s.Nominal)
	}
	seam, radius := s.Courses[0], s.Courses[1]
	for i, r := range s.Values {
		near(t, "r", r, 0.20+0.05*float64(i))
		near(t, "seam, utilisation", seam.Points[i].Utilisation, 1800*r/700)
		near(t, "seam, demand", seam.Points[i].Demand, 1800*r)
		near(t, "radius, utilisation", radius.Points[i].Utilisation, 0.25/r)
		if p := seam.Points[i]; p.Holds != (1800*r <= 700) || !p.Known || s.Faults[i] != "" {
			t.Errorf("r = %g: got %+v, fault %q", r, p, s.Faults[i])
		}
	}
	near(t, "as the notebook has it", seam.Nominal.Utilisation, 1800*0.30/700)
	turns(t, "seam", seam, 0.30, outcome.Turn{At: 700.0 / 1800, Fails: true})
	turns(t, "radius", radius, 0.30, outcome.Turn{At: 0.25})
	if g := seam.Greatest(); g != 6 {
		t.Errorf("greatest of the seam: got value %d, want the last", g)
	}
	if g := radius.Greatest(); g != 0 {
		t.Errorf("greatest of the radius: got value %d, want the first", g)
	}
	if got := seam.Fails(); len(got) != 1 || !math.IsInf(got[0].High, 1) {
		t.Errorf("the seam fails in %v, want from the turn on", got)
	}
	if !reflect.DeepEqual(s, b.sweep("r", 0.50, 0.20, 7)) {
		t.Error("the sweep from the other end differs")
	}
}

// turns compares the turns of a check with those of a closed form, to 1e-6 of
// the sweep's width, and looks on which side of it the check holds.
func turns(t *testing.T, what string, c *outcome.Course, width float64, want ...outcome.Turn) {
	t.Helper()
	if len(c.Turns) != len(want) {
		t.Errorf("%s: got turns %+v, want %+v", what, c.Turns, want)
		return
	}
	for i, turn := range c.Turns {
		w := want[i]
		off := w.At - turn.At // the last value that holds lies below a turn to failing
		if !w.Fails {
			off = -off
		}
		if turn.Fails != w.Fails || off < -1e-15 || off > 1e-6*width {
			t.Errorf("%s: got turn %+v, want %+v and at most %g from it, where it holds", what, turn, w, 1e-6*width)
		}
	}
}

// A window: x² between 1 and 4 holds for 1 <= |x| <= 2, so along x from -3 to 3
// the check turns four times. Steps of 1.5 see -3, -1.5, 0, 1.5, 3 and all turns
// between them.
func TestSweepTurnsTwice(t *testing.T) {
	b := notebook(t, "x := 1.5\ny := x * x\nsheet.Within(\"y\", y, 1, 4)\nsheet.Holds(\"always\", y >= 0)")
	s := b.sweep("x", -3, 3, 5)
	turns(t, "y", s.Courses[0], 6, outcome.Turn{At: -2}, outcome.Turn{At: -1, Fails: true}, outcome.Turn{At: 1}, outcome.Turn{At: 2, Fails: true})
	spans := s.Courses[0].Fails()
	if len(spans) != 3 || !math.IsInf(spans[0].Low, -1) || spans[1].Low != s.Courses[0].Turns[1].At || !math.IsInf(spans[2].High, 1) {
		t.Errorf("fails: got %v", spans)
	}
	always := s.Courses[1]
	if len(always.Turns) != 0 || always.Fails() != nil || always.Greatest() != -1 || always.Moves() {
		t.Errorf("always: got %+v", always)
	}
}

// Nonlinear: a jump. ceil(x) <= 3 holds up to x = 3 exactly; exp(x) <= 10 up to
// ln 10.
func TestSweepJump(t *testing.T) {
	b := notebook(t, "x := 1.0\nsheet.AtMost(\"steps\", math.Ceil(x), 3)\nsheet.AtMost(\"growth\", math.Exp(x), 10)")
	s := b.sweep("x", 0.5, 4.1, 4)
	turns(t, "steps", s.Courses[0], 3.6, outcome.Turn{At: 3, Fails: true})
	turns(t, "growth", s.Courses[1], 3.6, outcome.Turn{At: math.Ln10, Fails: true})
}

// A value at which the run faults is a gap; a check of an equal text, and one in
// a loop, keep to their own courses.
func TestSweepFaults(t *testing.T) {
	b := notebook(t, "x := 4.0\nif x < 2 {\n\tpanic(\"too small\")\n}\nfor k := range 2 {\n\tsheet.AtMost(\"load\", x, 5+float64(k))\n}\nsheet.AtMost(\"load\", x, 10)")
	s := b.sweep("x", 0, 8, 9)
	for i, f := range s.Faults {
		if want := i < 2; strings.Contains(f, "too small") != want || !want && f != "" {
			t.Errorf("x = %g: got fault %q", s.Values[i], f)
		}
	}
	for k, limit := range []float64{5, 6, 10} {
		c := s.Courses[k]
		if c.Check != (outcome.CheckID{What: "load", Nth: k}) || c.Points[1].Known || !c.Points[2].Known {
			t.Errorf("course %d: got %+v", k, c)
		}
		near(t, "utilisation", c.Points[8].Utilisation, 8/limit)
	}
	turns(t, "second", s.Courses[1], 8, outcome.Turn{At: 6, Fails: true})
}

// A check that holds, faults and then fails turns somewhere in the gap.
func TestSweepGap(t *testing.T) {
	b := notebook(t, "x := 1.0\nif x > 3 && x < 5 {\n\tpanic(\"no\")\n}\nsheet.AtMost(\"x\", x, 4)")
	c := b.sweep("x", 0, 8, 9).Courses[0]
	if len(c.Turns) != 1 || !c.Turns[0].Fails || math.Abs(c.Turns[0].At-3) > 1e-3 {
		t.Errorf("got turns %+v, want one near 3, the last value known to hold", c.Turns)
	}
}

// The result does not depend on how many work on it.
func TestSweepWorkers(t *testing.T) {
	b := notebook(t, tube)
	many := b.sweep("r", 0.2, 0.5, 21)
	defer runtime.GOMAXPROCS(runtime.GOMAXPROCS(1))
	if !reflect.DeepEqual(many, b.sweep("r", 0.2, 0.5, 21)) {
		t.Error("one processor gives another result than several")
	}
}
