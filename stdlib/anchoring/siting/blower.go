package siting

import (
	"cmp"
	"fmt"

	"tautline/stdlib/internal/argument"
	"tautline/stdlib/units"
)

// A BlowerStop is what changes when one blower stops.
type BlowerStop struct {
	Share    units.Number // pressure left over the pressure before
	Soft     bool         // the bed is softer than a landing needs
	Steps    []string     // what the crew does, in this order
	Warnings []string
}

// BlowerStopped says what to do when a blower stops: the bed keeps the pressure
// left, from those that still run, or sinks.
//
// The pressure before is more than 0, the pressure left 0 to that, the least for
// a landing more than 0; the time in which the bed sinks that far is 0 or more,
// and not used when it stays up. A number out of its range is an error. A bed that
// goes soft carries a warning.
//
// Caution: a soft bed holds neither riders nor wind as calculated: its walls fold,
// its straps go slack, and its anchors are jerked.
//
// Source: common practice, no source.
func BlowerStopped(before, left, least units.Pressure, sinks units.Time) (BlowerStop, error) {
	err := cmp.Or(argument.Positive("pressure before", before), argument.Within("pressure left", left, 0, before), argument.Positive("least pressure", least), argument.NotNegative("time to sink", sinks))
	if err != nil {
		return BlowerStop{}, fmt.Errorf("blower stopped: %w", err)
	}
	s := BlowerStop{Share: left / before, Soft: left < least}
	s.Steps = []string{"stop the ride; nobody jumps, lands or climbs in"}
	if s.Soft {
		s.Steps = append(s.Steps, fmt.Sprintf("riders off at once, attendants hold the wall on the way out: after %.0f s the bed no longer carries a landing", sinks),
			"nobody goes back in to fetch anything; the bed is let down if the blower does not run within the minute")
		s.Warnings = append(s.Warnings, fmt.Sprintf("with one blower stopped the bed falls to %.2f kPa, below the %.2f kPa that a landing needs", left/units.KPa, least/units.KPa))
	} else {
		s.Steps = append(s.Steps, "riders climb off in their own time; the bed still carries a landing")
	}
	s.Steps = append(s.Steps, "close the sleeve of the stopped blower: it leaks like a hole",
		"before riders return: pressure back, every strap taut, every anchor looked at, wind read again")
	return s, nil
}
