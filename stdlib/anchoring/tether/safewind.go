package tether

import (
	"fmt"
	"math"

	"tautline/stdlib/anchoring/windload"
	"tautline/stdlib/units"
)

// A SafeWind is the highest wind in which nothing gives way: no tension above its
// holding, no device lost and, unless the set says otherwise, no foot off the
// ground. Speeds carry no factor; the set's factors are on the forces.
type SafeWind struct {
	Bearings []units.Angle

	Speed  units.Speed   // with all anchors, from the worst side; rounded down to 0.1 m/s
	From   units.Angle   // that side
	How    string        // what happens just above
	AllSet []units.Speed // with all anchors, not rounded

	SpeedOneLost units.Speed   // with any one anchor lost; rounded down to 0.1 m/s
	FromOneLost  units.Angle   // from this side
	Lost         string        // while this anchor is lost
	HowOneLost   string        // what happens just above
	OneLost      []units.Speed // with whichever anchor lost is worst, by bearing, not rounded

	Warnings []string
}

// HighestTried is the highest wind that SafeWind looks for.
const HighestTried units.Speed = 60

const (
	windStep  = 1    // m/s, in which the first failure is looked for
	windExact = 1e-4 // m/s, to which it is found
)

// SafeWind finds the highest safe wind from n bearings evenly round from north,
// with all anchors and with each of them lost in turn. It goes up from calm in
// steps of 1 m/s to the first wind that is not safe, and halves that step.
//
// n is 1 or more. A set or number out of its range is an error. Warnings are as
// in Solve; a set that is safe in 60 m/s, where the search ends, adds one.
//
// Caution: it is the wind that the numbers given bear, not one to run in. Riders
// come off earlier, by a plan with margins.
//
// Source: as Solve.
func (s Set) SafeWind(n int) (SafeWind, error) {
	m, err := s.model()
	if err == nil && n < 1 {
		err = fmt.Errorf("number of bearings: got %d, want 1 or more", n)
	}
	if err != nil {
		return SafeWind{}, err
	}
	out := SafeWind{Bearings: windload.Bearings(n), Speed: math.Inf(1), SpeedOneLost: math.Inf(1), Warnings: s.warnings()}
	for _, from := range out.Bearings {
		l, err := windload.On(s.Faces, 1, from)
		if err != nil {
			return SafeWind{}, err
		}
		load := wrenchOfLoad(l, s.Factors.Wind)
		safe, how := m.firstFailure(load, -1, HighestTried)
		out.AllSet = append(out.AllSet, safe)
		if safe < out.Speed-windExact {
			out.Speed, out.From, out.How = safe, from, how
		}
		least := HighestTried
		for off, a := range s.Anchors {
			safe, how := m.firstFailure(load, off, least)
			if safe < out.SpeedOneLost-windExact {
				out.SpeedOneLost, out.FromOneLost, out.Lost, out.HowOneLost = safe, from, a.Name, how
			}
			least = math.Min(least, safe)
		}
		out.OneLost = append(out.OneLost, least)
	}
	if len(s.Anchors) == 0 {
		out.SpeedOneLost, out.FromOneLost, out.HowOneLost = out.Speed, out.From, out.How
	}
	if out.Speed >= HighestTried {
		out.Warnings = append(out.Warnings, fmt.Sprintf("nothing gave way up to %.0f m/s, where the search ends: check areas, units and holdings", HighestTried))
	}
	out.Speed, out.SpeedOneLost = tenthBelow(out.Speed), tenthBelow(out.SpeedOneLost)
	return out, nil
}

// tenthBelow rounds a speed down to 0.1 m/s; one found a hair below a tenth is
// that tenth.
func tenthBelow(v float64) float64 { return math.Floor(v*10+20*windExact) / 10 }

// firstFailure is the highest speed, up to a ceiling, below which nothing gives
// way under the load of one pascal, and what does above it.
func (m *model) firstFailure(unit [6]float64, off int, ceiling float64) (safe float64, how string) {
	m.body.off, m.u = off, vector{}
	fails := func(v float64) string {
		q := m.set.Pressure(v)
		load := unit
		for i := range load {
			load[i] *= q
		}
		return m.failure(load)
	}
	if how = fails(0); how != "" {
		return 0, how
	}
	for low := 0.0; low < ceiling; low += windStep {
		high := math.Min(low+windStep, ceiling)
		how = fails(high)
		if how == "" {
			continue
		}
		for high-low > windExact {
			if middle := (low + high) / 2; fails(middle) == "" {
				low = middle
			} else {
				high = middle
			}
		}
		return low, fails(high)
	}
	return ceiling, ""
}

// failure says what gives way under a load, nothing when all holds.
func (m *model) failure(load [6]float64) string {
	if lostBy := m.equilibrium(load); lostBy != "" {
		return lostBy
	}
	governs, use := -1, 1+1e-9
	for i, a := range m.set.Anchors {
		if t := m.tension(i); t > use*a.Holding {
			governs, use = i, t/a.Holding
		}
	}
	if governs >= 0 {
		return "anchor " + m.set.Anchors[governs].Name + " gives way"
	}
	if !m.set.MayLift {
		for i := range m.set.Feet {
			if m.body.springs[m.floor.first+i].force(&m.u) < -1e-3 { // N: not by rounding
				return fmt.Sprintf("foot %d lifts", i+1)
			}
		}
	}
	return ""
}
