package motion

import (
	"fmt"
	"math"
	"strings"

	"tautline/stdlib/internal/argument"
	"tautline/stdlib/units"
)

// At is the state of the axes at a time from the start of the ride. Before and
// after the ride the base rests. It panics when the time is not finite.
func (r Ride) At(t units.Time) State {
	argument.Demand("motion: Ride.At", argument.Finite("time", t))
	return State{r.tracks[0].at(t), r.tracks[1].at(t), r.tracks[2].at(t)}
}

// LevelAt is the name of the level at a time from the start of the ride, or ""
// in a pause and outside the ride.
func (r Ride) LevelAt(t units.Time) string {
	for i := len(r.Starts) - 1; i >= 0; i-- {
		if r.Starts[i] <= t && t <= r.Ends[i] {
			return r.Levels[i]
		}
	}
	return ""
}

// Times are the times of a ride in equal steps, as near to step as fits, both
// ends included. The step is more than 0 and leaves at most a million times;
// outside it panics.
//
// Source: derived here.
func (r Ride) Times(step units.Time) []units.Time {
	argument.Demand("motion: Ride.Times", argument.Positive("step", step), argument.Within("times", r.Duration/step, 0, 1e6))
	n := max(math.Round(r.Duration/step), 1)
	var ts []float64
	for i := range int(n) + 1 {
		ts = append(ts, r.Duration*float64(i)/n)
	}
	return ts
}

// A Record is the motion of one axis, one value for each time.
type Record struct {
	Time         []units.Time
	Position     []units.Angle
	Speed        []units.AngularSpeed
	Acceleration []units.AngularAcceleration
	Jerk         []units.AngularJerk
}

// Record is the motion of an axis, "yaw", "pitch" or "roll", in equal steps of
// time, as Times. Another word is an error; a step out of range panics.
//
// Source: derived here.
func (r Ride) Record(axis string, step units.Time) (Record, error) {
	for k, name := range axisNames {
		if name != axis {
			continue
		}
		out := Record{Time: r.Times(step)}
		for _, t := range out.Time {
			s := r.tracks[k].at(t)
			out.Position = append(out.Position, s.Position)
			out.Speed = append(out.Speed, s.Speed)
			out.Acceleration = append(out.Acceleration, s.Acceleration)
			out.Jerk = append(out.Jerk, s.Jerk)
		}
		return out, nil
	}
	return Record{}, fmt.Errorf(`record: axis: got %q, want "yaw", "pitch" or "roll"`, axis)
}

// A Trace is what one rider feels over a ride, one value for each time, in the
// axes of Felt.
type Trace struct {
	Time    []units.Time
	X, Y, Z []units.Acceleration
	Jerk    []units.Jerk // its size
}

// Trace is what the rider on a seat feels, in equal steps of time, as Times. It
// panics when there is no such seat or the step is out of range.
//
// Source: rigid-body kinematics, derived here.
func (r Ride) Trace(seat int, step units.Time) Trace {
	out := Trace{Time: r.Times(step)}
	for _, t := range out.Time {
		f := r.base.Felt(r.At(t), seat)
		out.X, out.Y, out.Z = append(out.X, f.X), append(out.Y, f.Y), append(out.Z, f.Z)
		out.Jerk = append(out.Jerk, f.Jerk.Size())
	}
	return out
}

// Table is the ride as comma-separated values for the control shop, in equal
// steps of time as Times: one head, then one row for each time.
//
// The columns are time s; then for yaw, pitch and roll the position in deg, the
// speed in deg/s and the acceleration in deg/s2; and level, the name on the
// operator's panel, empty in a pause. Numbers have four decimals and a point.
// It panics when the step is out of range.
func (r Ride) Table(step units.Time) string {
	var b strings.Builder
	b.WriteString("time s")
	for _, axis := range axisNames {
		fmt.Fprintf(&b, ",%s deg,%s deg/s,%s deg/s2", axis, axis, axis)
	}
	b.WriteString(",level\n")
	for _, t := range r.Times(step) {
		fmt.Fprintf(&b, "%.4f", t)
		for _, a := range r.At(t).axes() {
			fmt.Fprintf(&b, ",%s,%s,%s", decimal(a.Position/units.Deg, 4), decimal(a.Speed/units.DegPerS, 4), decimal(a.Acceleration/units.DegPerS2, 4))
		}
		fmt.Fprintf(&b, ",%s\n", field(r.LevelAt(t)))
	}
	return b.String()
}

// decimal has so many decimals, and no sign on a zero.
func decimal(v float64, places int) string {
	text := fmt.Sprintf("%.*f", places, v)
	if strings.Trim(text, "-0.") == "" {
		return strings.TrimPrefix(text, "-")
	}
	return text
}

// field is a text as RFC 4180 has it.
func field(text string) string {
	if strings.ContainsAny(text, "\",\r\n") {
		return `"` + strings.ReplaceAll(text, `"`, `""`) + `"`
	}
	return text
}

// Panel is the list of labels of the operator's panel as comma-separated values:
// position of the selector, label, duration in s, with a head.
func (r Ride) Panel() string {
	var b strings.Builder
	b.WriteString("position,label,duration s\n")
	for i, level := range r.Levels {
		fmt.Fprintf(&b, "%d,%s,%.1f\n", i+1, field(level), r.Ends[i]-r.Starts[i])
	}
	return b.String()
}
