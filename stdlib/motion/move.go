package motion

import (
	"fmt"
	"math"

	"tautline/stdlib/internal/argument"
	"tautline/stdlib/internal/root"
	"tautline/stdlib/units"
)

// A Move is a jerk-limited move of an axis in the shortest time. It starts and
// ends without acceleration.
type Move struct {
	Duration            units.Time
	Start               units.Time                // from the start speed to the peak speed
	Cruise              units.Time                // at the peak speed
	End                 units.Time                // from the peak speed to the end speed
	Peak                units.AngularSpeed        // between start and end, with its sign
	Acceleration        units.AngularAcceleration // greatest, without sign
	SpeedReached        bool                      // the peak is the limit on speed
	AccelerationReached bool                      // the acceleration is the limit

	track Track
}

// NewMove is the fastest move over a distance, from a start speed to an end
// speed, within limits.
//
// Distance and speeds have a sign; the speeds are at most the limit. Where the
// distance is too short to change the speed on it, the axis backs up or
// overshoots: it still ends at the distance. Numbers out of range are an error.
//
// The peak speed v is the one at which the distances of the two changes of speed,
// each mean speed times time, add up to the whole; a change by d takes
// d/a + a/j, or 2·sqrt(d/j) where d is less than a²/j.
//
// Source: L. Biagiotti and C. Melchiorri, Trajectory Planning for Automatic
// Machines and Robots, 2008, 3.4, except where neither limit is reached and the
// speeds differ: there the peak speed is found exactly instead of by lowering the
// acceleration.
func NewMove(distance units.Angle, startSpeed, endSpeed units.AngularSpeed, limits Limits) (Move, error) {
	if err := limits.check("move"); err != nil {
		return Move{}, err
	}
	top := limits.Speed
	for _, err := range []error{
		argument.Finite("distance", distance),
		argument.Within("start speed", startSpeed, -top, top),
		argument.Within("end speed", endSpeed, -top, top),
	} {
		if err != nil {
			return Move{}, fmt.Errorf("move: %w", err)
		}
	}
	change := func(v, w float64) float64 { return changeTime(w-v, limits) }
	covered := func(peak float64) float64 {
		return (startSpeed+peak)/2*change(startSpeed, peak) + (peak+endSpeed)/2*change(peak, endSpeed)
	}
	// Straight from one speed to the other covers a distance; more needs a peak
	// above both speeds, less one below both.
	direct := (startSpeed + endSpeed) / 2 * change(startSpeed, endSpeed)
	peak, far := math.Max(startSpeed, endSpeed), top
	if distance < direct {
		peak, far = math.Min(startSpeed, endSpeed), -top
	}
	var cruise float64
	switch rest := distance - covered(far); {
	case distance == direct:
	case rest*far >= 0:
		peak, cruise = far, rest/far
	default:
		sign := math.Copysign(1, far)
		peak = sign * root.Bisect(sign*peak, top, func(v float64) float64 { return sign * (covered(sign*v) - distance) })
	}
	m := Move{Peak: peak, Cruise: cruise, Start: change(startSpeed, peak), End: change(peak, endSpeed), SpeedReached: math.Abs(peak) == top}
	m.Duration = m.Start + m.Cruise + m.End
	m.track.changeSpeed(startSpeed, peak, limits)
	m.track.keepSpeed(peak, cruise)
	m.track.changeSpeed(peak, endSpeed, limits)
	greatest := math.Max(math.Abs(peak-startSpeed), math.Abs(endSpeed-peak))
	m.Acceleration = math.Min(limits.Acceleration, math.Sqrt(greatest*limits.Jerk))
	m.AccelerationReached = m.Acceleration == limits.Acceleration
	return m, nil
}

// changeTime is the shortest time to change the speed by d.
func changeTime(d float64, l Limits) float64 {
	d = math.Abs(d)
	if d >= l.Acceleration*l.Acceleration/l.Jerk {
		return d/l.Acceleration + l.Acceleration/l.Jerk
	}
	return 2 * math.Sqrt(d/l.Jerk)
}

// At is the state of the axis at a time from the start of the move, its position
// counted from the start. Before and after the move its speed is that at the end
// concerned.
func (m Move) At(t units.Time) AxisState {
	argument.Demand("motion: Move.At", argument.Finite("time", t))
	return m.track.at(t)
}

// A Stop is what it takes to bring a moving axis to rest.
type Stop struct {
	Time  units.Time
	Angle units.Angle
}

// NewStop is how an axis comes to rest from a speed, after a delay in which it
// goes on at that speed, within limits.
//
// The speed is 0 or more, as is the delay; numbers out of range are an error.
//
// Source: constant jerk, derived here.
func NewStop(speed units.AngularSpeed, delay units.Time, limits Limits) (Stop, error) {
	if err := limits.check("stop"); err != nil {
		return Stop{}, err
	}
	for _, err := range []error{argument.NotNegative("speed", speed), argument.NotNegative("delay", delay)} {
		if err != nil {
			return Stop{}, fmt.Errorf("stop: %w", err)
		}
	}
	t := changeTime(speed, limits)
	return Stop{Time: delay + t, Angle: speed*delay + speed/2*t}, nil
}
