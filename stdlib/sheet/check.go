package sheet

import (
	"math"

	"tautline/stdlib/units"
)

// Rule says how a check compares. Not for cells.
type Rule string

// The rules of a check.
const (
	RuleAtMost  Rule = "at most"
	RuleAtLeast Rule = "at least"
	RuleWithin  Rule = "within"
	RuleHolds   Rule = "holds"
)

// A Check compares what a design demands with what it can bear. Not for cells.
type Check struct {
	What   string
	Rule   Rule
	Demand Float // the value judged
	Low    Float // RuleAtLeast, RuleWithin: the least allowed
	High   Float // RuleAtMost, RuleWithin: the most allowed
	Holds  bool
	// Utilisation is the share of the capacity that is used, at most 1 when
	// the check holds: demand/capacity, least/value, or the distance from the
	// middle of a range over half its width. RuleHolds has none (NaN), as has
	// a check whose numbers give none.
	Utilisation Float
	Source      string // standard and clause, or the reason for the limit
}

// AtMost checks that demand does not exceed capacity.
//
//	utilisation = demand/capacity
//
// Both have the same dimension and one sign. source, when given, names the
// standard and clause, or the reason, of the capacity.
func AtMost(what string, demand, capacity units.Same, source ...string) {
	own.AtMost(what, demand, capacity, source...)
}

// AtMost is the function AtMost on this sheet. Not for cells.
func (s *Sheet) AtMost(what string, demand, capacity units.Same, source ...string) {
	s.check(Check{What: what, Rule: RuleAtMost, Demand: Float(demand), High: Float(capacity),
		Holds: demand <= capacity, Utilisation: share(demand, capacity)}, source)
}

// AtLeast checks that value does not fall below least.
//
//	utilisation = least/value
//
// Both have the same dimension and one sign. source is as in AtMost.
func AtLeast(what string, value, least units.Same, source ...string) {
	own.AtLeast(what, value, least, source...)
}

// AtLeast is the function AtLeast on this sheet. Not for cells.
func (s *Sheet) AtLeast(what string, value, least units.Same, source ...string) {
	s.check(Check{What: what, Rule: RuleAtLeast, Demand: Float(value), Low: Float(least),
		Holds: value >= least, Utilisation: share(least, value)}, source)
}

// Within checks that value lies from low to high, both ends included.
//
//	utilisation = abs(value-(low+high)/2) / ((high-low)/2)
//
// All have the same dimension. source is as in AtMost.
func Within(what string, value, low, high units.Same, source ...string) {
	own.Within(what, value, low, high, source...)
}

// Within is the function Within on this sheet. Not for cells.
func (s *Sheet) Within(what string, value, low, high units.Same, source ...string) {
	s.check(Check{What: what, Rule: RuleWithin, Demand: Float(value), Low: Float(low), High: Float(high),
		Holds: low <= value && value <= high, Utilisation: share(math.Abs(value-(low+high)/2), (high-low)/2)}, source)
}

// Holds checks a condition that has no utilisation.
func Holds(what string, condition bool, source ...string) { own.Holds(what, condition, source...) }

// Holds is the function Holds on this sheet. Not for cells.
func (s *Sheet) Holds(what string, condition bool, source ...string) {
	s.check(Check{What: what, Rule: RuleHolds, Holds: condition, Utilisation: Float(math.NaN())}, source)
}

func (s *Sheet) check(c Check, source []string) {
	for i, text := range source {
		if i > 0 {
			c.Source += "; "
		}
		c.Source += text
	}
	s.put(Entry{Check: &c}, 64+len(c.What)+len(c.Source))
}

// share is used/available where both are positive and finite, 0 where nothing
// is used, +Inf where nothing is available, NaN where signs or values give no
// share.
func share(used, available float64) Float {
	switch {
	case used >= 0 && available > 0:
		return Float(used / available)
	case used == 0:
		return 0
	case used > 0 && available == 0:
		return Float(math.Inf(1))
	}
	return Float(math.NaN())
}
