package stopping

import (
	"fmt"
	"math"

	"tautline/stdlib/internal/argument"
	"tautline/stdlib/motion"
	"tautline/stdlib/units"
)

// An Axle is what can stop one axis; all of it counted at the axis.
type Axle struct {
	Deceleration units.AngularAcceleration // of the controlled stop, by the drive; more than 0
	Jerk         units.AngularJerk         // of the controlled stop, more than 0
	Inertia      units.Inertia             // of motor and train, by the square of the ratio; 0 or more
	Friction     units.Moment              // always there, 0 or more
	Brake        units.Moment              // closed, 0 or more
	Delay        units.Time                // from power off until the brake begins to bite, 0 or more
	Rise         units.Time                // from then to its full torque, 0 or more
	Runaway      motion.Limits             // the most that the drive does when it does not obey
}

func (a Axle) check() error {
	for _, err := range []error{
		argument.Positive("deceleration", a.Deceleration), argument.Positive("jerk", a.Jerk), argument.NotNegative("inertia", a.Inertia),
		argument.NotNegative("friction", a.Friction), argument.NotNegative("brake", a.Brake), argument.NotNegative("delay", a.Delay), argument.NotNegative("rise", a.Rise),
	} {
		if err != nil {
			return err
		}
	}
	return nil
}

// A Chain is what happens from the pull to rest.
type Chain struct {
	Base             motion.Base
	Bodies           []motion.Body // all that moves, riders too
	Yaw, Pitch, Roll Axle
	Category         int        // of the stop: 0 cuts the power, 1 lets the drives stop and then cuts it
	Notice           units.Time // from the pull to the open contact
	Control          units.Time // from there to the outputs
	Patience         units.Time // category 1: after that the power goes, whatever the drives have done
}

func (c Chain) axles() [3]Axle { return [3]Axle{c.Yaw, c.Pitch, c.Roll} }

func (c Chain) axes() [3]motion.Axis { return [3]motion.Axis{c.Base.Yaw, c.Base.Pitch, c.Base.Roll} }

var axisNames = [3]string{"yaw", "pitch", "roll"}

func (c Chain) check() error {
	if err := c.Base.Check(); err != nil {
		return err
	}
	for k, a := range c.axles() {
		if err := a.check(); err != nil {
			return fmt.Errorf("%s: %w", axisNames[k], err)
		}
	}
	switch c.Category {
	case 0, 1:
	case 2:
		return fmt.Errorf("category: got 2, which keeps the power on, want 0 or 1: no emergency stop may have it (IEC 60204-1:2016, 9.2.3.4.2)")
	default:
		return fmt.Errorf("category: got %d, want 0 or 1", c.Category)
	}
	for _, err := range []error{argument.Within("notice", c.Notice, 0, longest), argument.Within("control", c.Control, 0, longest), argument.Within("patience", c.Patience, 0, longest)} {
		if err != nil {
			return err
		}
	}
	_, err := c.Base.Accelerate(motion.State{}, c.Bodies,
		motion.Push{Free: true, Inertia: c.Yaw.Inertia}, motion.Push{Free: true, Inertia: c.Pitch.Inertia}, motion.Push{Free: true, Inertia: c.Roll.Inertia})
	return err
}

// longest is how long a stop is followed.
const longest = 5 * units.S

// A Fault is one broken part, by what it does; the zero value is none.
type Fault struct {
	Part string // that is broken, in words
	Left string // what still stops the ride, in words

	Late      units.Time   // the stop is noticed that much later: by someone, or by something else
	RunsAway  string       // axis, "yaw", "pitch" or "roll", whose drive does not obey and does its most from the fault until the power goes
	Way       units.Number // of the runaway: more than 0 with rising angle, less than 0 with falling, 0 on as it moves
	Reaction  units.Time   // from the runaway's beginning to the pull
	Dead      string       // axis whose drive gives no torque from the pull on, or "all"; its brake stays open until the power goes
	Brake     string       // axis whose brake has lost torque, or "all"
	Lost      units.Number // share of the torque that it has lost, 0 to 1
	PowerLost bool         // the power is gone at once; there is no pull
}

func (f Fault) check() error {
	for _, a := range []struct {
		what, axis string
		all        bool
	}{{"runs away", f.RunsAway, false}, {"dead", f.Dead, true}, {"brake", f.Brake, true}} {
		known := a.axis == "" || a.axis == axisNames[0] || a.axis == axisNames[1] || a.axis == axisNames[2]
		if !known && !(a.all && a.axis == "all") {
			return fmt.Errorf(`%s: got %q, want "yaw", "pitch" or "roll"`, a.what, a.axis)
		}
	}
	for _, err := range []error{
		argument.Within("late", f.Late, 0, longest), argument.Within("reaction", f.Reaction, 0, longest), argument.Within("lost", f.Lost, 0, 1), argument.Finite("way", f.Way),
	} {
		if err != nil {
			return err
		}
	}
	if f.Reaction > 0 && f.RunsAway == "" {
		return fmt.Errorf("reaction: got %g s without a drive that runs away, want an axis", f.Reaction)
	}
	return nil
}

func meant(axis string, k int) bool { return axis == "all" || axis == axisNames[k] }

// A ramp is a change of speed at constant jerk, phase by phase, from a state.
type ramp struct {
	start  motion.AxisState
	time   [3]float64
	jerk   [3]float64
	length float64
}

// newRamp is the fastest change of speed from a state to a speed without
// acceleration, within limits of acceleration and jerk. An acceleration beyond the
// limit is brought inside it first.
func newRamp(start motion.AxisState, to, acceleration, jerk float64) ramp {
	r := ramp{start: start}
	a0 := start.Acceleration
	// The speed at which it ends when its acceleration is just brought to nothing
	// says which way round the rest goes.
	sign := math.Copysign(1, to-start.Speed-a0*math.Abs(a0)/(2*jerk))
	gain, a := sign*(to-start.Speed), sign*a0
	peak := math.Min(acceleration, math.Sqrt(math.Max(jerk*gain+a*a/2, 0)))
	change := math.Abs(peak-a) / jerk
	rest := gain - change*(peak+a)/2 - peak*peak/(2*jerk)
	r.time = [3]float64{change, 0, peak / jerk}
	if peak > 0 {
		r.time[1] = math.Max(rest/peak, 0)
	}
	r.jerk = [3]float64{sign * math.Copysign(jerk, peak-a), 0, -sign * jerk}
	r.length = r.time[0] + r.time[1] + r.time[2]
	return r
}

// at is the state at a time since the start; afterwards the speed goes on.
func (r ramp) at(t float64) motion.AxisState {
	s := r.start
	for i, phase := range r.time {
		d := math.Min(t, phase)
		j := r.jerk[i]
		s = motion.AxisState{
			Position:     s.Position + d*(s.Speed+d*(s.Acceleration/2+d*j/6)),
			Speed:        s.Speed + d*(s.Acceleration+d*j/2),
			Acceleration: s.Acceleration + d*j,
			Jerk:         j,
		}
		if t < phase {
			return s
		}
		t -= phase
	}
	return motion.AxisState{Position: s.Position + t*s.Speed, Speed: s.Speed}
}
