package controls

import (
	"fmt"
	"slices"
	"strings"

	"tautline/stdlib/internal/argument"
	"tautline/stdlib/units"
)

// A Risk is what a failure of the safety function can lead to.
type Risk struct {
	Severity  int // 1 slight, it heals; 2 serious, for life or death
	Frequency int // 1 seldom or short; 2 often or long
	Avoidance int // 1 can be avoided under some conditions; 2 scarcely
}

// Required is the performance level that a safety function needs against the
// risk, "a" to "e".
//
// Numbers other than 1 and 2 are an error.
//
// Caution: the graph is a guide for the people who judge the risk; a standard for
// the kind of ride that asks for more comes before it.
//
// Source: ISO 13849-1:2015, Annex A, Figure A.1 (from memory: verify against the
// document).
func (r Risk) Required() (string, error) {
	for _, p := range []struct {
		what string
		v    int
	}{{"severity", r.Severity}, {"frequency", r.Frequency}, {"avoidance", r.Avoidance}} {
		if p.v != 1 && p.v != 2 {
			return "", fmt.Errorf("risk: %s: got %d, want 1 or 2", p.what, p.v)
		}
	}
	return levels[(r.Severity-1)*2+r.Frequency-1+r.Avoidance-1], nil
}

var levels = []string{"a", "b", "c", "d", "e"}

// rank is the place of a level, from 0.
func rank(level string) (int, error) {
	i := slices.Index(levels, level)
	if i < 0 {
		return 0, fmt.Errorf(`performance level: got %q, want one of "a" to "e"`, level)
	}
	return i, nil
}

// lower is the lower of two levels that are ones.
func lower(a, b string) string { return min(a, b) } // letters in their order

// bounds are the greatest rates of the levels, each not in its band: 1/h.
var bounds = []float64{1e-4, 1e-5, 3e-6, 1e-6, 1e-7}

// Level is the performance level of a rate of dangerous failures, "a" to "e".
//
// Each band holds its lower end and not its upper: 10⁻⁶ per hour is "c". The rate
// is more than 0; below 10⁻⁸ per hour it is "e" all the same, from 10⁻⁴ up there
// is none, an error.
//
// Source: ISO 13849-1:2015, Table 2 (from memory: verify against the document).
func Level(rate units.Frequency) (string, error) {
	if err := argument.Positive("rate of dangerous failures", rate); err != nil {
		return "", err
	}
	hourly := rate / units.PerH
	const rounding = 1 - 1e-12
	for i := len(bounds) - 1; i >= 0; i-- {
		if hourly < bounds[i]*rounding {
			return levels[i], nil
		}
	}
	return "", fmt.Errorf("rate of dangerous failures: got %.3g per hour, want less than 10⁻⁴: no performance level is so poor; take better parts or a second channel", hourly)
}

// SeriesLevel is the performance level of subsystems in a row of which only the
// levels are known.
//
// The lowest level counts, one lower where it comes more often than three times
// for "a", "d" and "e" or twice for "b" and "c". No levels, other letters, and
// more than three "a", for which there is no level, are an error.
//
// Source: ISO 13849-1:2015, Table 11 (from memory: verify against the document).
func SeriesLevel(of []string) (string, error) {
	if len(of) == 0 {
		return "", fmt.Errorf("levels in a row: got none, want at least one")
	}
	lowest := "e"
	for _, l := range of {
		if _, err := rank(l); err != nil {
			return "", fmt.Errorf("levels in a row: %w", err)
		}
		lowest = lower(lowest, l)
	}
	times := strings.Count(strings.Join(of, ""), lowest)
	most := map[string]int{"a": 3, "b": 2, "c": 2, "d": 3, "e": 3}[lowest]
	if times <= most {
		return lowest, nil
	}
	if lowest == "a" {
		return "", fmt.Errorf(`levels in a row: got %d of "a", want at most 3: no level is left; take fewer or better subsystems`, times)
	}
	i, _ := rank(lowest)
	return levels[i-1], nil
}
