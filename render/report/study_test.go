package report

import (
	"math"
	"testing"
)

// A check that fails at an end of a tolerance is said to, though no sample comes
// so far.
func TestStudySentence(t *testing.T) {
	at := func(fails int, worst Share, by string) *StudyCheck {
		return &StudyCheck{What: "seam", Worst: worst, By: by, Fails: fails, Of: 10}
	}
	good, bad := Share{true, 0.9, true}, Share{true, 1.1, false}
	for _, c := range []struct {
		s    Study
		want string
	}{
		{Study{Samples: 10, Checks: []*StudyCheck{at(0, good, "r at 1 mm")}}, "Within the tolerances every check holds."},
		{Study{Samples: 10, Checks: []*StudyCheck{at(0, bad, "r at 1 mm"), at(0, good, "")}}, "Within the tolerances 1 of 2 checks can fail: seam with r at 1 mm."},
		{Study{Samples: 10, Checks: []*StudyCheck{at(3, bad, "r at 1 mm")}}, "Within the tolerances 1 of 1 checks can fail: seam in 3 of 10 samples."},
		{Study{Samples: 10, Faulted: 2, Checks: []*StudyCheck{at(0, good, "")}}, "In the samples that could be computed every check holds."},
		{Study{Samples: 10, Faulted: 10, Checks: []*StudyCheck{at(0, good, "")}}, "No sample could be computed."},
	} {
		if got := c.s.Sentence(); got != c.want {
			t.Errorf("got %q, want %q", got, c.want)
		}
	}
}

func TestShare(t *testing.T) {
	for _, c := range []struct {
		s    Share
		want string
	}{
		{Share{true, 0.8731, true}, "87.3\u202f%"}, {Share{true, 1, true}, "100.0\u202f%"}, {Share{true, 1.0001, false}, "over 100\u202f%"},
		{Share{true, 1.2, false}, "120.0\u202f%"}, {Share{true, math.Inf(1), false}, "no capacity"},
		{Share{true, math.NaN(), true}, "holds"}, {Share{true, math.NaN(), false}, "FAILS"}, {Share{}, "no result"},
	} {
		if got := c.s.String(); got != c.want {
			t.Errorf("%+v: got %q, want %q", c.s, got, c.want)
		}
	}
}
