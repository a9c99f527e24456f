package motion

import (
	"fmt"
	"math"

	"tautline/stdlib/units"
)

// extremes are the ends of what an axis reaches.
type extremes struct {
	low, high, speed, acceleration, jerk float64
}

func (e *extremes) take(s AxisState) {
	e.low, e.high = math.Min(e.low, s.Position), math.Max(e.high, s.Position)
	e.speed = math.Max(e.speed, math.Abs(s.Speed))
	e.acceleration = math.Max(e.acceleration, math.Abs(s.Acceleration))
	e.jerk = math.Max(e.jerk, math.Abs(s.Jerk))
}

// looks is into how many parts a piece is cut to find its extremes; between two
// looks a smooth piece rises by less than a ten-thousandth.
const looks = 240

// reach takes the extremes of the pieces that start from one time to another.
func (k *Track) reach(from, to float64) extremes {
	at := k.at(from).Position
	e := extremes{low: at, high: at}
	for i, p := range k.pieces {
		if k.starts[i] < from-1e-9 || k.starts[i] >= to-1e-9 {
			continue
		}
		for j := range looks + 1 {
			e.take(p.at(p.duration * float64(j) / looks))
		}
	}
	return e
}

// within reports what of the track passes a limit or an end of travel.
func (k *Track) within(axis Axis, l Limits) error {
	e := k.reach(0, math.Inf(1))
	const rounding = 1 + 1e-9
	switch {
	case e.speed > l.Speed*rounding:
		return fmt.Errorf("speed: got %.4g rad/s, want at most %.4g: lower the amplitude or lengthen the period", e.speed, l.Speed)
	case e.acceleration > l.Acceleration*rounding:
		return fmt.Errorf("acceleration: got %.4g rad/s², want at most %.4g: lower the amplitude or lengthen the period", e.acceleration, l.Acceleration)
	case e.jerk > l.Jerk*rounding:
		return fmt.Errorf("jerk: got %.4g rad/s³, want at most %.4g: lower the amplitude or lengthen the period", e.jerk, l.Jerk)
	case !axis.Continuous && (e.low < axis.Low-1e-12 || e.high > axis.High+1e-12):
		return fmt.Errorf("travel: got %.4g to %.4g rad, want within %.4g to %.4g", e.low, e.high, axis.Low, axis.High)
	}
	return nil
}

// Extremes are what each axis reaches in each level, one row for each pair.
type Extremes struct {
	Level        []string
	Axis         []string
	Low, High    []units.Angle
	Speed        []units.AngularSpeed
	Acceleration []units.AngularAcceleration
	Jerk         []units.AngularJerk
}

// Extremes are what each axis reaches in each level: ends of travel, and greatest
// speed, acceleration and jerk without sign.
//
// They are found at 240 points of each piece, which comes within a ten-thousandth
// of the true extreme. An end of travel under 1e-8 rad is what rounding leaves, and 0.
//
// Source: derived here.
func (r Ride) Extremes() Extremes {
	var out Extremes
	for i, level := range r.Levels {
		for k := range r.tracks {
			e := r.tracks[k].reach(r.Starts[i], r.Ends[i])
			out.Level = append(out.Level, level)
			out.Axis = append(out.Axis, axisNames[k])
			out.Low, out.High = append(out.Low, unrounded(e.low)), append(out.High, unrounded(e.high))
			out.Speed = append(out.Speed, e.speed)
			out.Acceleration = append(out.Acceleration, e.acceleration)
			out.Jerk = append(out.Jerk, e.jerk)
		}
	}
	return out
}

// unrounded is 0 in the place of what rounding leaves of it.
func unrounded(angle float64) float64 {
	if math.Abs(angle) < 1e-8 {
		return 0
	}
	return angle
}

// A Step is by how much a ride jumps where one piece of it meets the next, the
// most over all axes.
type Step struct {
	Position     units.Angle
	Speed        units.AngularSpeed
	Acceleration units.AngularAcceleration
}

// Step is by how much the ride jumps anywhere; rounding apart it is 0.
//
// Source: derived here: both sides of every joint are compared, and the ends with
// rest.
func (r Ride) Step() Step {
	var s Step
	for k := range r.tracks {
		before := AxisState{}
		for _, p := range r.tracks[k].pieces {
			s.take(before, p.at(0))
			before = p.at(p.duration)
		}
		s.take(AxisState{Position: before.Position}, before)
	}
	return s
}

func (s *Step) take(a, b AxisState) {
	s.Position = math.Max(s.Position, math.Abs(b.Position-a.Position))
	s.Speed = math.Max(s.Speed, math.Abs(b.Speed-a.Speed))
	s.Acceleration = math.Max(s.Acceleration, math.Abs(b.Acceleration-a.Acceleration))
}
