package study

import (
	"context"
	"os"
	"strings"
	"testing"

	"tautline/runner/check"
	"tautline/runner/document"
	"tautline/runner/engine"
	"tautline/runner/lower"
	"tautline/runner/outcome"
)

func TestMain(m *testing.M) {
	engine.Main()
	os.Exit(m.Run())
}

// A book is a notebook under test.
type book struct {
	t    *testing.T
	plan *check.Plan
	prog *lower.Program
	out  *outcome.Outcome
}

// notebook reads, checks, lowers and runs one cell.
func notebook(t *testing.T, cell string) book {
	t.Helper()
	nb, diags := document.Parse("t.md", []byte("---\ntitle: T\n---\n\n```go\n"+cell+"\n```\n"))
	b := book{t: t}
	if nb != nil {
		plan, more := check.Check(nb)
		prog, last := lower.Lower(plan)
		b.plan, b.prog, diags = plan, prog, append(append(diags, more...), last...)
	}
	for _, d := range diags {
		if d.Severity == document.Error {
			t.Errorf("%s", d.Format([]byte(cell), false))
		}
	}
	if b.prog == nil {
		t.Fatal("the notebook was not lowered")
	}
	out, err := engine.Run(t.Context(), b.prog, engine.Limits{})
	if err != nil {
		t.Fatal(err)
	}
	b.out = out
	return b
}

func (b book) sweep(given string, from, to float64, steps int) *outcome.Swept {
	b.t.Helper()
	s, err := Sweep(b.t.Context(), b.plan, b.prog, given, from, to, steps, engine.Limits{}, nil)
	if err != nil {
		b.t.Fatal(err)
	}
	return s
}

func (b book) tolerances(samples int, seed uint64) *outcome.Toleranced {
	b.t.Helper()
	r, err := Tolerances(b.t.Context(), b.plan, b.prog, b.out, samples, seed, engine.Limits{}, nil)
	if err != nil {
		b.t.Fatal(err)
	}
	return r
}

// A study whose caller gives up ends with an error.
func TestCancelled(t *testing.T) {
	b := notebook(t, tube)
	ctx, cancel := context.WithCancel(t.Context())
	cancel()
	if _, err := Sweep(ctx, b.plan, b.prog, "r", 0.2, 0.5, 5, engine.Limits{}, nil); err == nil {
		t.Error("sweep: got no error")
	}
	if _, err := Tolerances(ctx, b.plan, b.prog, b.out, 5, 1, engine.Limits{}, nil); err == nil {
		t.Error("tolerances: got no error")
	}
}

// Whoever watches hears of every run, the last time that all are done.
func TestProgress(t *testing.T) {
	b := notebook(t, tube)
	calls, last, all := 0, 0, 0
	_, err := Tolerances(t.Context(), b.plan, b.prog, b.out, 20, 1, engine.Limits{}, func(done, total int) {
		calls, last, all = calls+1, done, total
	})
	if want := 1 + 2*2 + 20; err != nil || calls != want || last != want || all != want {
		t.Errorf("got %d calls, the last %d of %d, error %v, want %d of each", calls, last, all, err, want)
	}
}

// Wrong use is refused with what to do.
func TestRefusals(t *testing.T) {
	b := notebook(t, tube+"\nn := 3\nname := \"x\"\nconst k = 2.0\na, c := 1.0, 2.0\n_ = a * c * k * float64(n)\nsheet.Holds(name, a < 2)")
	sweep := func(given string, from, to float64, steps int) func(book) error {
		return func(b book) error {
			_, err := Sweep(t.Context(), b.plan, b.prog, given, from, to, steps, engine.Limits{}, nil)
			return err
		}
	}
	tolerances := func(samples int) func(book) error {
		return func(b book) error {
			_, err := Tolerances(t.Context(), b.plan, b.prog, b.out, samples, 1, engine.Limits{}, nil)
			return err
		}
	}
	zero := 0.0
	for _, c := range []struct {
		name string
		do   func(book) error
		in   book
		want []string
	}{
		{"no such name, but one like it", sweep("Nallov", 1, 2, 5), b, []string{"given Nallov", "did you mean Nallow?"}},
		{"no such name", sweep("zzz", 1, 2, 5), b, []string{"its givens are p, r, Nallow"}},
		{"computed", sweep("N", 1, 2, 5), b, []string{"it is computed", "rests on: p, r"}},
		{"whole number", sweep("n", 1, 2, 5), b, []string{"type int, want a float", "8.0"}},
		{"text", sweep("name", 1, 2, 5), b, []string{"type string, want a float"}},
		{"constant", sweep("k", 1, 2, 5), b, []string{"it is a constant", "k := …"}},
		{"two at once", sweep("a", 1, 2, 5), b, []string{"a := … on its own line"}},
		{"no width", sweep("r", 1, 1, 5), b, []string{"the same value from and to"}},
		{"one step", sweep("r", 1, 2, 1), b, []string{"got 1 steps, want 2 to"}},
		{"not finite", sweep("r", 1, 1/zero, 5), b, []string{"want finite values"}},
		{"no samples", tolerances(0), b, []string{"got 0 samples, want 1 to"}},
		{"no tolerance", tolerances(5), notebook(t, "x := 1.0\nsheet.AtMost(\"x\", x, 2)"), []string{"sheet.PlusMinus(300*units.Mm, 5*units.Mm)"}},
		{"negative tolerance", tolerances(5), notebook(t, "x := sheet.PlusMinus(1.0, -0.5)\nsheet.AtMost(\"x\", x, 2)"), []string{"given x", "got a tolerance of -0.5"}},
		{"nothing checked", sweep("x", 1, 2, 5), notebook(t, "x := 1.0"), []string{"checks nothing"}},
		{"does not run", sweep("x", 1, 2, 5), notebook(t, "x := 1.0\nif x < 2 {\n\tpanic(\"too small\")\n}\nsheet.AtMost(\"x\", x, 2)"), []string{"does not run to its end", "too small"}},
	} {
		err := c.do(c.in)
		for _, want := range c.want {
			if err == nil || !strings.Contains(err.Error(), want) {
				t.Errorf("%s: got error %v, want %q in it", c.name, err, want)
			}
		}
	}
}
