package tether

import (
	"cmp"
	"fmt"
	"math"

	"tautline/stdlib/internal/argument"
	"tautline/stdlib/units"
)

// A Schedule is the list of anchors that the crew carries: one entry in every list
// for each anchor.
type Schedule struct {
	Name     []string
	Kind     []string
	Bearing  []units.Angle  // of the anchor, from the middle of the device, to 1°
	Distance []units.Length // of the anchor on the ground, from the middle, to 10 mm
	Angle    []units.Angle  // of the strap to the ground, to 1°
	Need     []units.Force  // that the anchor has to hold, along the strap
}

// Schedule lists the anchors with what each has to hold: a tension times a factor,
// or the least that a rule asks of every anchor where that is more, rounded up to
// 10 N. Places and angles are rounded to what a tape and a compass show.
//
// The tensions, one for each anchor, such as Survey.TensionOneLost, and the least
// are 0 or more, the factor 1 or more; a number out of its range is an error, as is
// a set that cannot be calculated.
//
// Caution: the angle on site is measured, not taken from the list: a flatter strap
// drags, a steeper one lifts.
//
// Source: geometry.
func (s Set) Schedule(tensions []units.Force, factor units.Number, least units.Force) (Schedule, error) {
	err := cmp.Or(s.check(), argument.Within("factor", factor, 1, math.MaxFloat64), argument.NotNegative("least to hold", least))
	if err == nil && len(tensions) != len(s.Anchors) {
		err = fmt.Errorf("tensions: got %d, want one for each of %d anchors", len(tensions), len(s.Anchors))
	}
	for i, t := range tensions {
		err = cmp.Or(err, argument.NotNegative(fmt.Sprintf("tension %d", i+1), t))
	}
	if err != nil {
		return Schedule{}, fmt.Errorf("schedule: %w", err)
	}
	var l Schedule
	for i, a := range s.Anchors {
		l.Name, l.Kind = append(l.Name, a.Name), append(l.Kind, a.Kind)
		bearing := math.Mod(math.Round(a.Ground.Bearing()/units.Deg), 360)
		l.Bearing, l.Distance = append(l.Bearing, bearing*units.Deg), append(l.Distance, math.Round(a.Ground.Distance()*100)/100)
		l.Angle = append(l.Angle, math.Round(a.Angle()/units.Deg)*units.Deg)
		l.Need = append(l.Need, 10*math.Ceil(math.Max(factor*tensions[i], least)/10-1e-9))
	}
	return l, nil
}
