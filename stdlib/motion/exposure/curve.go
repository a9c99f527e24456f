package exposure

import (
	"fmt"
	"math"

	"tautline/stdlib/internal/argument"
	"tautline/stdlib/units"
)

// A Curve says how long an acceleration may last at or above each level, in one
// direction, for one kind of restraint.
//
// Level rises and Time falls or stays. Between two points it is a straight line.
// Below the first level there is no limit; above the last nothing is allowed.
type Curve struct {
	Direction string // "+x", "-x", "y" to either side, "+z" or "-z": that of Trace's axes
	Restraint string // for which the document gives it
	Level     []units.Acceleration
	Time      []units.Time
	Shortest  units.Time // what lasts less is not judged, where the document says so; 0 judges all
	Document  string     // with its edition
	Clause    string     // or figure
}

// Check says what of the curve makes no sense, or which part of its origin is
// missing.
func (c Curve) Check() error {
	what := fmt.Sprintf("limit curve %q, restraint %q", c.Direction, c.Restraint)
	if _, ok := directions[c.Direction]; !ok {
		return fmt.Errorf(`%s: direction: want "+x", "-x", "y", "+z" or "-z"`, what)
	}
	if c.Document == "" || c.Clause == "" {
		return fmt.Errorf("%s: document %q, clause %q: want both, from the bought standard", what, c.Document, c.Clause)
	}
	if len(c.Level) != len(c.Time) || len(c.Level) < 2 {
		return fmt.Errorf("%s: got %d levels and %d times, want as many, two or more", what, len(c.Level), len(c.Time))
	}
	if err := argument.NotNegative("shortest", c.Shortest); err != nil {
		return fmt.Errorf("%s: %w", what, err)
	}
	for i := range c.Level {
		if err := argument.Positive("level", c.Level[i]); err != nil {
			return fmt.Errorf("%s: point %d: %w", what, i+1, err)
		}
		if err := argument.Positive("time", c.Time[i]); err != nil {
			return fmt.Errorf("%s: point %d: %w", what, i+1, err)
		}
		if i > 0 && !(c.Level[i] > c.Level[i-1] && c.Time[i] <= c.Time[i-1]) {
			return fmt.Errorf("%s: point %d: got %g m/s² for %g s after %g m/s² for %g s, want rising levels and falling times", what, i+1, c.Level[i], c.Time[i], c.Level[i-1], c.Time[i-1])
		}
	}
	return nil
}

// Allowed is how long an acceleration may last at or above a level: infinite
// below the first, 0 above the last.
//
// It panics when the curve makes no sense or the level is not finite.
//
// Source: the curve's document.
func (c Curve) Allowed(level units.Acceleration) units.Time {
	argument.Demand("exposure: Curve.Allowed", c.Check(), argument.Finite("level", level))
	return c.allowed(level)
}

func (c Curve) allowed(level float64) float64 {
	last := len(c.Level) - 1
	switch {
	case level < c.Level[0]:
		return math.Inf(1)
	case level > c.Level[last]:
		return 0
	}
	i := 1
	for c.Level[i] < level {
		i++
	}
	return c.Time[i-1] + (c.Time[i]-c.Time[i-1])*(level-c.Level[i-1])/(c.Level[i]-c.Level[i-1])
}

// NewCurves reads curves from columns of data: one row for each point, the
// points of one curve under one direction and restraint, by rising level.
//
// Columns of different length, and curves that make no sense, are an error.
func NewCurves(direction, restraint []string, level []units.Acceleration, time []units.Time, document, clause []string) ([]Curve, error) {
	n := len(direction)
	for _, m := range []int{len(restraint), len(level), len(time), len(document), len(clause)} {
		if m != n {
			return nil, fmt.Errorf("limit curves: got columns of %d and %d rows, want as many", n, m)
		}
	}
	var curves []Curve
	at := map[string]int{}
	for i := range n {
		key := direction[i] + "\x00" + restraint[i]
		k, ok := at[key]
		if !ok {
			k = len(curves)
			at[key] = k
			curves = append(curves, Curve{Direction: direction[i], Restraint: restraint[i], Document: document[i], Clause: clause[i]})
		}
		c := &curves[k]
		if c.Document != document[i] {
			return nil, fmt.Errorf("limit curve %q, restraint %q: got points from %q and %q, want one document", c.Direction, c.Restraint, c.Document, document[i])
		}
		c.Level, c.Time = append(c.Level, level[i]), append(c.Time, time[i])
	}
	for _, c := range curves {
		if err := c.Check(); err != nil {
			return nil, err
		}
	}
	return curves, nil
}

// directions turn the components of an acceleration into what counts in each.
var directions = map[string]func(x, y, z float64) float64{
	"+x": func(x, _, _ float64) float64 { return x },
	"-x": func(x, _, _ float64) float64 { return -x },
	"y":  func(_, y, _ float64) float64 { return math.Abs(y) },
	"+z": func(_, _, z float64) float64 { return z },
	"-z": func(_, _, z float64) float64 { return -z },
}
