package motion

import (
	"fmt"
	"math"

	"tautline/stdlib/internal/argument"
	"tautline/stdlib/units"
)

// Limits are the greatest speed, acceleration and jerk of an axis, each more
// than 0.
type Limits struct {
	Speed        units.AngularSpeed
	Acceleration units.AngularAcceleration
	Jerk         units.AngularJerk
}

func (l Limits) check(what string) error {
	for _, err := range []error{
		argument.Positive(what+": speed limit", l.Speed),
		argument.Positive(what+": acceleration limit", l.Acceleration),
		argument.Positive(what+": jerk limit", l.Jerk),
	} {
		if err != nil {
			return err
		}
	}
	return nil
}

// An Axis is one axis of a base and what it can do.
type Axis struct {
	Low, High  units.Angle // ends of its travel, Low below High; not used when Continuous
	Continuous bool        // turns without end
	Limits     Limits
}

func (a Axis) check(what string) error {
	if err := a.Limits.check(what); err != nil {
		return err
	}
	if !a.Continuous && !(a.Low < a.High && a.High-a.Low <= 2*math.Pi) {
		return fmt.Errorf("%s: travel: got %g to %g rad, want the low end below the high one, a turn at most", what, a.Low, a.High)
	}
	return nil
}

// A Point is a place, by its coordinates in a stated frame.
type Point struct{ X, Y, Z units.Length }

// A Seat is where a rider sits.
type Seat struct {
	Name    string
	At      Point       // of the rider's heart or head, from the roll axis, in the roll part
	Facing  units.Angle // of the rider from the bow, to the left; π sits backwards
	Recline units.Angle // of the back from upright
}

// A Base is a three-axis ride base: yaw carries pitch, pitch carries roll.
type Base struct {
	Name             string
	PitchAxis        Point // a point of the pitch axis, from the ground under the yaw axis, in the yaw part
	RollAxis         Point // a point of the roll axis, from that of the pitch axis, in the pitch part
	Yaw, Pitch, Roll Axis
	Seats            []Seat  // none to four
	Hull             []Point // edge of what the roll part carries, from the roll axis in the roll part; for pictures only
}

// Check says what of the base makes no sense: axes without limits or travel, more
// than four seats, names left out or given twice.
func (b Base) Check() error {
	for i, a := range b.axes() {
		if err := a.check(axisNames[i]); err != nil {
			return fmt.Errorf("base %q: %w", b.Name, err)
		}
	}
	if len(b.Seats) > 4 {
		return fmt.Errorf("base %q: got %d seats, want at most 4", b.Name, len(b.Seats))
	}
	seen := map[string]bool{}
	for i, s := range b.Seats {
		if s.Name == "" || seen[s.Name] {
			return fmt.Errorf("base %q: seat %d: name: got %q, want a name of its own", b.Name, i+1, s.Name)
		}
		seen[s.Name] = true
		if err := finite("seat "+s.Name, s.At.X, s.At.Y, s.At.Z, s.Facing, s.Recline); err != nil {
			return fmt.Errorf("base %q: %w", b.Name, err)
		}
	}
	return finite("offsets of the axes", b.PitchAxis.X, b.PitchAxis.Y, b.PitchAxis.Z, b.RollAxis.X, b.RollAxis.Y, b.RollAxis.Z)
}

// axisNames are those of the axes in the order in which they carry each other.
var axisNames = [3]string{"yaw", "pitch", "roll"}

func (b Base) axes() [3]Axis { return [3]Axis{b.Yaw, b.Pitch, b.Roll} }

func finite(what string, values ...float64) error {
	for _, v := range values {
		if err := argument.Finite(what, v); err != nil {
			return err
		}
	}
	return nil
}
