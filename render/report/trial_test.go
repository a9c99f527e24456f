package report

import (
	"strings"
	"testing"
	"time"

	"tautline/runner/trial"
	"tautline/stdlib/quantity"
)

func unitOf(t *testing.T, symbol string) quantity.Unit {
	t.Helper()
	u, ok := quantity.Lookup(symbol)
	if !ok {
		t.Fatalf("no unit %q", symbol)
	}
	return u
}

// tried is a report with one trial, measured.
func tried(t *testing.T, symbol string, predicted, tolerance float64, readings ...string) *Report {
	t.Helper()
	u := unitOf(t, symbol)
	planned := NewTrial("bed <floor>", predicted, tolerance, u)
	planned.ID = "trial.1"
	r := &Report{Trials: []*Trial{planned}}
	var all []trial.Reading
	for _, text := range readings {
		number, in, err := trial.Entered(text, u)
		if err != nil {
			t.Fatal(err)
		}
		all = append(all, trial.Reading{Trial: "bed <floor>", Number: number, Unit: in, Who: "the fitter", Instrument: "rule", When: time.Date(2026, 5, 4, 9, 30, 0, 0, time.UTC)})
	}
	r.Measure(all)
	return r
}

// Readings at the very ends of a tolerance are within, in whatever unit they
// were read; the last one decides.
func TestJudged(t *testing.T) {
	for _, c := range []struct {
		symbol               string
		predicted, tolerance float64
		readings             []string
		state                TrialState
		reading, off         string
	}{
		{"mm", 0.512, 0.02, nil, TrialOpen, "", ""},
		{"mm", 0.512, 0.02, []string{"532"}, TrialWithin, "532", "+20"},
		{"mm", 0.512, 0.02, []string{"492"}, TrialWithin, "492", "−20"},
		{"mm", 0.512, 0.02, []string{"532.1"}, TrialOutside, "532.1", "+20"},
		{"mm", 0.512, 0.02, []string{"49.2 cm"}, TrialWithin, "492", "−20"},
		{"mm", 0.512, 0.02, []string{"540", "512"}, TrialWithin, "512", "0"},
		{"mm", 0.512, 0.02, []string{"512", "540"}, TrialOutside, "540", "+28"},
		{"kPa", 1900, 100, []string{"1.8"}, TrialWithin, "1.8", "−0.1"},
		{"kPa", 1900, 100, []string{"1.799"}, TrialOutside, "1.799", "−0.10"},
		{"kPa", -200, 20, []string{"-0.21"}, TrialWithin, "−0.21", "−0.01"},
		{"°C", 293.15, 5, []string{"25"}, TrialWithin, "25", "+5"},
		{"°C", 293.15, 5, []string{"25.1"}, TrialOutside, "25.1", "+5.1"},
	} {
		r := tried(t, c.symbol, c.predicted, c.tolerance, c.readings...)
		got := r.Trials[0]
		if got.State() != c.state {
			t.Errorf("%v %s predicted %g ± %g: got %s, want %s", c.readings, c.symbol, c.predicted, c.tolerance, got.State(), c.state)
		}
		if last := got.Last(); last != nil && (last.Reading.Number != c.reading || last.Off.Number != c.off) {
			t.Errorf("%v: got the reading %q, off by %q, want %q and %q", c.readings, last.Reading.Number, last.Off.Number, c.reading, c.off)
		}
		if good, want := (Verdict{Kind: AllHold, Trials: r.Verdict.Trials}).Good(), c.state != TrialOutside; good != want {
			t.Errorf("%v: the notebook is good: got %t, want %t", c.readings, good, want)
		}
	}
}

// A reading of no trial, or of something else than is to be measured, is told
// and not judged.
func TestReadingsThatDoNotFit(t *testing.T) {
	r := tried(t, "mm", 0.5, 0.02)
	r.Measure([]trial.Reading{{Trial: "another", Number: "1", Unit: unitOf(t, "mm")}, {Trial: "bed <floor>", Number: "1", Unit: unitOf(t, "kPa")}})
	if len(r.Findings) != 2 || r.Trials[0].State() != TrialOpen {
		t.Fatalf("got %d findings and %q, want 2 and open", len(r.Findings), r.Trials[0].State())
	}
	for i, want := range []string{`reading of "another": the notebook has no trial of that name`, "got 1 kPa, want a length"} {
		if !strings.Contains(r.Findings[i].Message, want) {
			t.Errorf("got %q, want %q", r.Findings[i].Message, want)
		}
	}
}

func TestTrialSentence(t *testing.T) {
	for want, c := range map[string]TrialCount{
		"": {},
		"1 trial is still to be made on the built ride.":                    {Open: 1},
		"2 of 3 trials made on the built ride, all as predicted.":           {Open: 1, Within: 2},
		"All 3 trials on the built ride are as predicted.":                  {Within: 3},
		"The one trial on the built ride is as predicted.":                  {Within: 1},
		"Measured on the built ride, 1 of 3 is outside what was predicted.": {Open: 1, Within: 1, Outside: 1},
	} {
		if got := c.Sentence(); got != want {
			t.Errorf("%+v: got %q, want %q", c, got, want)
		}
	}
}
