package fatigue

import (
	"fmt"
	"math"

	"tautline/stdlib/internal/argument"
	"tautline/stdlib/units"
)

// A Damage is what a set of cycles does to a detail.
type Damage struct {
	Sum       units.Number   // Miner's sum: 1 is the life
	Greatest  units.Pressure // range, with the factor on load
	Worst     units.Pressure // range, with the factor on load, whose cycles do the most of it
	Share     units.Number   // of the sum, that the worst range does
	Counted   units.Number   // cycles that do damage
	Harmless  units.Number   // cycles below the cut-off
	Unlimited bool           // no cycle does damage
}

// Damage is Miner's sum of cycles at the detail, of variable amplitude.
//
// Where the detail is not welded, the part of a cycle in compression counts 0.6,
// by its mean. Cycles are 0 or more in range and count, the mean finite; others
// are an error.
//
// Source: EN 1993-1-9:2005, 7.1, 7.2.1 and 8; Annex A.5.
func (d Detail) Damage(cycles []Cycle, f Factors) (Damage, error) {
	argument.Demand("fatigue: Detail.Damage", d.check(), f.check())
	c := d.curve(f)
	var r Damage
	worst := 0.0
	for i, cycle := range cycles {
		if !(cycle.Range >= 0 && cycle.Count >= 0) || math.IsInf(cycle.Range, 1) || math.IsInf(cycle.Count, 1) || cycle.Mean-cycle.Mean != 0 {
			return Damage{}, fmt.Errorf("damage at %q: cycle %d: got range %g, mean %g, count %g, want finite numbers, range and count 0 or more", d.Name, i+1, cycle.Range, cycle.Mean, cycle.Count)
		}
		s := cycle.Range
		if !d.Welded && !d.Shear {
			s = cycle.Effective()
		}
		s *= f.Load
		each := c.damage(s)
		part := each * cycle.Count
		r.Sum += part
		r.Greatest = math.Max(r.Greatest, s)
		if each == 0 {
			r.Harmless += cycle.Count
		} else {
			r.Counted += cycle.Count
		}
		if part > worst {
			worst, r.Worst = part, s
		}
	}
	if r.Sum > 0 {
		r.Share = worst / r.Sum
	}
	r.Unlimited = r.Sum == 0
	return r, nil
}

// A Season is how often a ride runs. An event is what its load history records:
// one ride, or one act of setting up.
type Season struct {
	EventsPerHour units.Number // 0 or more, while it runs
	HoursPerDay   units.Number // 0 to 24
	Days          units.Number // 0 to 366, of running in a season
}

// Events is how often the event happens in a season.
//
//	n = s.EventsPerHour*s.HoursPerDay*s.Days
//
// It panics if a field is out of its range.
//
// Source: common practice, no source.
func (s Season) Events() units.Number {
	argument.Demand("fatigue: Season.Events", argument.NotNegative("events per hour", s.EventsPerHour),
		argument.Within("hours per day", s.HoursPerDay, 0, 24), argument.Within("days", s.Days, 0, 366))
	return s.EventsPerHour * s.HoursPerDay * s.Days
}

// A SeasonLife is how many seasons a detail lasts.
type SeasonLife struct {
	Seasons   units.Number // infinite when Unlimited
	Unlimited bool
}

// Life is how many seasons it takes to reach a Miner's sum of 1, one over damage
// times events.
//
// The damage of one event is 0 or more; with 0, or no events, the life is
// unlimited. Outside it panics, as it does if a field is out of its range.
//
// Caution: the curves are for a survival of 95 %. A design life is a fraction of
// this, and it ends at once with a dent, a burn or a repair weld.
//
// Source: Miner's rule; EN 1993-1-9:2005, Annex A.5.
func (s Season) Life(damage units.Number) SeasonLife {
	argument.Demand("fatigue: Season.Life", argument.NotNegative("damage", damage))
	if rate := damage * s.Events(); rate > 0 {
		return SeasonLife{Seasons: 1 / rate}
	}
	return SeasonLife{Seasons: math.Inf(1), Unlimited: true}
}
