package holding

import (
	"cmp"
	"fmt"
	"math"

	"tautline/stdlib/internal/argument"
	"tautline/stdlib/units"
)

// A PullTest is what the crew read when it pulled anchors like those in use, in
// the same ground and at the same strap angle, until they moved or to the end of
// the test.
type PullTest struct {
	Readings []units.Force // one for each anchor pulled, each more than 0
	Factor   units.Number  // that the lowest reading is divided by, 1 or more
}

// A Tested is what a pull test allows.
type Tested struct {
	Count    units.Number
	Lowest   units.Force
	Mean     units.Force
	Spread   units.Number // highest over lowest reading
	Holding  units.Force  // the lowest over the factor
	Warnings []string
}

// EnoughPulls is the least number of pulls that a test rests on.
//
// Source: common practice, no source.
const EnoughPulls units.Number = 3

// UnlikelyRating is the force above which an anchor's rating is most likely a
// slip of units: kilograms read as newtons, newtons as kilonewtons.
//
// Source: common practice, no source.
const UnlikelyRating units.Force = 50 * units.KN

// UnlikelyWarning says that a rating is most likely a slip of units, when it is
// above UnlikelyRating. Not for cells.
func UnlikelyWarning(what string, rating units.Force) []string {
	if rating <= UnlikelyRating {
		return nil
	}
	return []string{fmt.Sprintf("%s: %.0f kN is above the %.0f kN that an anchor of this kind may hold: check its unit (163 kg of ballast weighs 1.6 kN, not 163 kN)",
		what, rating/units.KN, UnlikelyRating/units.KN)}
}

// Holding is what the test allows: the lowest reading, never the mean, over the
// factor.
//
// No reading, or a number out of its range, is an error. Fewer than three pulls,
// readings that differ by more than half, and one above 50 kN carry a warning.
//
// Caution: it holds for the ground on the day of the test. After rain, test
// again.
//
// Source: common practice, no source.
func (p PullTest) Holding() (Tested, error) {
	err := argument.Within("factor", p.Factor, 1, math.MaxFloat64)
	if len(p.Readings) == 0 {
		err = cmp.Or(err, fmt.Errorf("readings: got none, want one for each anchor pulled: pull at least %g", EnoughPulls))
	}
	for i, r := range p.Readings {
		err = cmp.Or(err, argument.Positive(fmt.Sprintf("reading %d", i+1), r))
	}
	if err != nil {
		return Tested{}, fmt.Errorf("pull test: %w", err)
	}
	t := Tested{Count: float64(len(p.Readings)), Lowest: p.Readings[0]}
	highest := p.Readings[0]
	for i, r := range p.Readings {
		t.Lowest, highest = math.Min(t.Lowest, r), math.Max(highest, r)
		t.Mean += r / t.Count
		t.Warnings = append(t.Warnings, UnlikelyWarning(fmt.Sprintf("pull test, reading %d", i+1), r)...)
	}
	t.Spread = highest / t.Lowest
	t.Holding = t.Lowest / p.Factor
	if t.Count < EnoughPulls {
		t.Warnings = append(t.Warnings, fmt.Sprintf("pull test rests on %g pulls: pull at least %g anchors", t.Count, EnoughPulls))
	}
	if t.Spread > 1.5 {
		t.Warnings = append(t.Warnings, fmt.Sprintf("readings differ by a factor of %.1f: the ground is uneven; pull every anchor", t.Spread))
	}
	return t, nil
}
