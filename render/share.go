package render

import (
	"math"
	"strconv"

	"tautline/runner/outcome"
)

// shareOf is the utilisation that a run gave.
func shareOf(j outcome.Judged) Share { return Share{j.Known, j.Utilisation, j.Holds} }

// String is the utilisation to a tenth of a percent, such as "87.3 %", since
// studies compare what differs little. A check that fails never reads as 100 %.
func (s Share) String() string {
	u := 100 * s.Utilisation
	switch {
	case !s.Known:
		return "no result"
	case math.IsNaN(u):
		return (&Check{Holds: s.Holds}).Word()
	case math.IsInf(u, 0) || u >= 1e5:
		return "no capacity"
	case !s.Holds && u < 100.05:
		return "over 100\u202f%"
	}
	return strconv.FormatFloat(u, 'f', 1, 64) + "\u202f%"
}

// Fails reports whether the check is known to fail.
func (s Share) Fails() bool { return s.Known && !s.Holds }
