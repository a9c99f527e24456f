package sensitivity

import (
	"math"
	"strings"
	"testing"

	"tautline/render/report"
	"tautline/runner/check"
	"tautline/runner/document"
	"tautline/runner/outcome"
	"tautline/stdlib/sheet"
)

// tubePlan is a plan of a tube under pressure, and what a run of it gives.
func tubePlan(t *testing.T) (*check.Plan, *outcome.Outcome) {
	t.Helper()
	nb, _ := document.Parse("t.md", []byte("---\ntitle: Tube\n---\n\n```go\nr := sheet.Given(sheet.PlusMinus(300*units.Mm, 5*units.Mm), 200*units.Mm, 400*units.Mm)\nt := units.ZeroCelsius + 20*units.K\nN := 1800 * units.Pa * r\nsheet.AtMost(\"seam\", N, 600*units.NPerM, fmt.Sprint(t))\n```\n"))
	plan, diags := check.Check(nb)
	for _, d := range diags {
		t.Fatal(d.Message)
	}
	number := func(v float64) sheet.Value { return sheet.Value{Kind: sheet.KindNumber, Number: sheet.Float(v)} }
	return plan, &outcome.Outcome{Cells: []outcome.State{outcome.Done},
		Values: map[string]sheet.Value{"r": number(0.3), "t": number(293.15), "N": number(540)}}
}

func judged(u float64) outcome.Judged {
	return outcome.Judged{Known: true, Utilisation: u, Holds: !(u > 1)}
}

// Values of a sweep read in the unit that the given was written in.
func TestAssembleSweep(t *testing.T) {
	plan, out := tubePlan(t)
	swept := &outcome.Swept{Given: "r", Nominal: 0.3, Values: []float64{0.2, 0.3, 0.4}, Faults: []string{"", "", ""},
		Courses: []*outcome.Course{
			{Check: outcome.CheckID{What: "seam"}, Nominal: judged(0.9), Points: []outcome.Judged{judged(0.6), judged(0.9), judged(1.2)},
				Turns: []outcome.Turn{{At: 1.0 / 3, Fails: true}}},
			{Check: outcome.CheckID{What: "still"}, Nominal: judged(0.5), Points: []outcome.Judged{judged(0.5), judged(0.5), judged(0.5)}},
			{Check: outcome.CheckID{What: "window"}, Nominal: judged(0.5), Points: []outcome.Judged{judged(1.5), judged(0.5), judged(4)},
				Turns: []outcome.Turn{{At: 0.25}, {At: 0.35, Fails: true}}},
			{Check: outcome.CheckID{What: "band", Nth: 1}, Nominal: judged(0.5), Points: []outcome.Judged{judged(0.5), judged(0.5), {}},
				Turns: []outcome.Turn{{At: 0.21, Fails: true}, {At: 0.22}}},
		}}
	s := Sweep(plan, out, swept)
	if s.From.String() != "200\u00a0mm" || s.To.String() != "400\u00a0mm" || s.Nominal.String() != "300\u00a0mm" {
		t.Errorf("got %v to %v about %v", s.From, s.To, s.Nominal)
	}
	if want := "Going up, the first to fail is seam, above 333.3\u00a0mm. Going down, the first to fail is window, below 250\u00a0mm."; s.Summary != want {
		t.Errorf("summary: got %q, want %q", s.Summary, want)
	}
	for i, want := range []struct{ what, greatest, where, fails string }{
		{"seam", "120.0\u202f%", "at 400\u00a0mm", "above 333.3\u00a0mm"},
		{"still", "50.0\u202f%", "throughout", "never"},
		{"window", "400.0\u202f%", "at 400\u00a0mm", "below 250\u00a0mm, above 350\u00a0mm"},
		{"band (2)", "50.0\u202f%", "throughout", "210\u00a0mm to 220\u00a0mm"},
	} {
		r := s.Rows[i]
		if r.What != want.what || r.Greatest.String() != want.greatest || r.Where != want.where || r.Fails != want.fails {
			t.Errorf("row %d: got %+v, want %+v", i, r, want)
		}
	}
	if len(s.Figures) != 1 || len(s.Figures[0].Curves) != 2 {
		t.Fatalf("got %d figures, want one of the two checks that move", len(s.Figures))
	}
	if c := s.Figures[0].Curves[0]; c.Name != "window" || c.X[0] != 200 || c.Y[0] != 150 || !math.IsNaN(c.Y[2]) {
		t.Errorf("first curve: got %+v, want the window's, the highest, cut at 300 %%", c)
	}
}

// A tolerance reads in the unit of its given; one of a temperature is a
// difference.
func TestAssembleStudy(t *testing.T) {
	plan, out := tubePlan(t)
	tol := &outcome.Toleranced{Samples: 10, Seed: 3, Faulted: 1, Fault: "line 8: too thin",
		Givens: []outcome.Tolerance{{Given: "r", Value: 0.3, PlusMinus: 0.005}, {Given: "t", Value: 293.15, PlusMinus: 5}},
		Checks: []*outcome.Sensitivity{
			{Check: outcome.CheckID{What: "near"}, Nominal: judged(0.8), Least: 0.7, Greatest: 0.85,
				Effects: []outcome.Effect{{Low: judged(0.8), High: judged(0.8)}, {Low: judged(0.79), High: judged(0.82)}}},
			{Check: outcome.CheckID{What: "seam"}, Nominal: judged(0.99), Least: 0.9, Greatest: 1.1, Fails: 4, Missing: 1,
				Effects: []outcome.Effect{{Low: judged(0.9), High: judged(1.08)}, {Low: judged(0.985), High: judged(0.99)}}},
		}}
	s := Tolerances(plan, out, tol, []*report.Check{{ID: "check.1", What: "near"}, {ID: "check.2", What: "seam"}})
	if g := s.Givens[1]; g.PlusMinus.String() != "5\u00a0K" || s.Givens[0].PlusMinus.String() != "5\u00a0mm" {
		t.Errorf("tolerances: got %v and %v", s.Givens[0].PlusMinus, g.PlusMinus)
	}
	if want := "Within the tolerances 1 of 2 checks can fail: seam in 4 of 9 samples."; s.Sentence() != want {
		t.Errorf("sentence: got %q, want %q", s.Sentence(), want)
	}
	seam := s.Checks[1]
	if seam.ID != "check.2" || seam.By != "r at 305\u00a0mm" || seam.Worst.String() != "108.0\u202f%" || !seam.Greatest.Fails() || seam.Failing() != "4 of 9" {
		t.Errorf("seam: got %+v", seam)
	}
	if len(s.Tornadoes) != 2 || s.Tornadoes[0].What != "seam" || len(s.Tornadoes[0].Bars) != 2 || !strings.HasPrefix(s.Tornadoes[0].Bars[0].Given, "r ") {
		t.Errorf("tornadoes: got %+v, want the governing first, its widest bar first", s.Tornadoes)
	}
}
