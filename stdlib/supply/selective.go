package supply

import (
	"fmt"

	"tautline/stdlib/internal/argument"
	"tautline/stdlib/units"
)

// A Selectivity says whether of two devices in a row only the one next to the fault
// trips.
type Selectivity struct {
	Overload     bool          // at too much current, for as long as it takes
	UpTo         units.Current // short circuits below this leave the upper one closed
	ShortCircuit bool          // the greatest short circuit is one of them
	Why          string
}

// Under judges the breaker under an upper one, for a greatest short circuit behind
// the lower: at overload the upper is rated 1.6 times the lower or more; at a short
// circuit both trip at once from where the upper one's magnetic trip may act, 3, 5 or
// 10 times its rated current.
//
// The short circuit is 0 or more; outside it panics. Makers' tables, which count what
// the lower breaker lets through, allow more than this.
//
// Source: ratio: common practice, no source; lower ends of the ranges: IEC 60898-1,
// from memory: verify against the document.
func (b Breaker) Under(upper Breaker, shortCircuit units.Current) Selectivity {
	argument.Demand("supply: Breaker.Under", b.check(), upper.check(), argument.NotNegative("short circuit", shortCircuit))
	s := Selectivity{Overload: upper.Rated*(1+1e-9) >= 1.6*b.Rated, UpTo: map[string]float64{"B": 3, "C": 5, "D": 10}[upper.Curve] * upper.Rated}
	s.ShortCircuit = shortCircuit < s.UpTo
	switch {
	case s.Overload && s.ShortCircuit:
		s.Why = "only the lower one trips"
	case s.Overload:
		s.Why = fmt.Sprintf("too much current trips the lower one only, a short circuit of more than %.3g A both", s.UpTo)
	default:
		s.Why = fmt.Sprintf("%.3g A over %.3g A are less than 1.6 times: either may trip", upper.Rated, b.Rated)
	}
	return s
}

// Under says whether only this device trips at a fault behind it, and not the upper
// one as well: the upper one is delayed (type S) and rated three times as much or
// more.
//
// It panics on a device that is none.
//
// Source: IEC 60364-5-53, 535.3, from memory: verify clause and text against the
// document.
func (r Residual) Under(upper Residual, delayed bool) bool {
	argument.Demand("supply: Residual.Under", argument.Positive("rated residual current", r.Rated), argument.Positive("rated residual current of the upper device", upper.Rated))
	return delayed && upper.Rated*(1+1e-9) >= 3*r.Rated
}
