package report

import (
	"math"
	"testing"
)

func TestVerdict(t *testing.T) {
	for _, tc := range []struct {
		v    Verdict
		want string
	}{
		{Verdict{Kind: AllHold, Hold: 9}, "All 9 checks hold."},
		{Verdict{Kind: AllHold, Hold: 1}, "The one check holds."},
		{Verdict{Kind: SomeFail, Hold: 7, Fail: 2}, "2 of 9 checks fail."},
		{Verdict{Kind: SomeFail, Hold: 8, Fail: 1}, "1 of 9 checks fails."},
		{Verdict{Kind: SomeFail, Fail: 1}, "The one check fails."},
		{Verdict{Kind: NotDone, Faults: 1}, "No verdict: the run did not finish, with 1 fault."},
		{Verdict{Kind: NotDone, Hold: 1, Fail: 2, Faults: 2}, "No verdict: the run did not finish, with 2 faults. Before it ended 1 check held and 2 failed."},
		{Verdict{Kind: NoChecks}, "No verdict: nothing was checked."},
	} {
		if got := tc.v.Sentence(); got != tc.want {
			t.Errorf("Sentence of %+v: got %q, want %q", tc.v, got, tc.want)
		}
	}
}

func TestPercent(t *testing.T) {
	for _, tc := range []struct {
		u     float64
		holds bool
		want  string
	}{
		{0.871, true, "87\u202f%"}, {1, true, "100\u202f%"}, {0, true, "0\u202f%"},
		{1.00001, false, "over 100\u202f%"}, {1.003, false, "100.3\u202f%"}, {1.161, false, "116\u202f%"},
		{math.Inf(1), false, "no capacity"}, {math.NaN(), true, ""},
	} {
		if got := (&Check{Utilisation: tc.u, Holds: tc.holds}).Percent(); got != tc.want {
			t.Errorf("Percent of %v (holds %v): got %q, want %q", tc.u, tc.holds, got, tc.want)
		}
	}
}
