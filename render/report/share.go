package report

import (
	"math"

	"tautline/render/lettering"
	"tautline/runner/outcome"
)

// ShareOf is the utilisation that a run gave.
func ShareOf(j outcome.Judged) Share { return Share{j.Known, j.Utilisation, j.Holds} }

// String is the utilisation to a tenth of a percent, such as "87.3 %", since
// studies compare what differs little. A check that fails never reads as 100 %.
func (s Share) String() string {
	switch {
	case !s.Known:
		return "no result"
	case math.IsNaN(s.Utilisation):
		return (&Check{Holds: s.Holds}).Word()
	}
	return lettering.Percent(s.Utilisation, s.Holds)
}

// Fails reports whether the check is known to fail.
func (s Share) Fails() bool { return s.Known && !s.Holds }
