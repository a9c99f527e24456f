package stopping

import (
	"fmt"
	"math"

	"tautline/stdlib/internal/argument"
	"tautline/stdlib/motion"
	"tautline/stdlib/units"
)

// A Course is one stop.
type Course struct {
	Moment  units.Time // of the ride at which it starts
	Level   string
	Pull    units.Time // 0 but after a runaway
	Contact units.Time // open
	Command units.Time // the outputs change
	Off     units.Time // the power is gone

	// Of each axis: yaw, pitch, roll.
	Speed  []units.AngularSpeed // at the start
	Angle  []units.Angle        // farthest from where it was at the start, with its sign
	Rest   []units.Time         // last moved
	Energy []units.Energy       // taken by its brake
	Struck []units.AngularSpeed // speed at which it met the end of its travel, 0 if it did not

	Rests    bool         // at the end nothing moves any more
	Whole    units.Time   // until all rest
	Travel   units.Length // of the seat or point of the hull that ends farthest from where it was
	Feels    []Feel       // of each seat
	Warnings []string

	Time                            []units.Time // of the following; at a jolt two values have one time
	YawSpeed, PitchSpeed, RollSpeed []units.AngularSpeed
	YawAngle, PitchAngle, RollAngle []units.Angle
	Felt                            []motion.Trace // of each seat
}

// A Feel is the most that a seat feels during a stop, in the rider's axes and
// before any filter.
type Feel struct {
	Seat          string
	Forward, Back units.Acceleration // greatest felt forward, which presses the back; and the other way
	Side          units.Acceleration // either way
	Press, Lift   units.Acceleration // greatest and least felt upward: a rider who feels less than 0 is lifted out
	Jerk          units.Jerk         // greatest, jolts left out
	Jolt          units.Acceleration // greatest change at once: power off, an axis that catches
}

// Stop works out one stop of a ride, from a moment of it.
//
// The ride is one of the chain's base; the moment is a time of it. Until the
// command the axes go on as the programme has it. Then, in category 1, the drives
// stop them within their limits, from the speed and the acceleration of that
// moment; when all rest the brakes close and the power goes, or after the patience
// at the latest. Without power an axis does what weight, friction and its closing
// brake make of it; where they hold less than the weight it moves on, up to the end
// of its travel, where it stops dead. A stop is followed for 5 s.
//
// Fields out of range are an error; a moment outside the ride panics.
//
// Caution: brakes are counted with the torque stated, and riders as fixed to their
// seats. A worn or wet brake holds less; people slide and are thrown.
//
// Source: Newton's and Euler's equations and dry friction, integrated by the
// classical rule of fourth order in steps of 10 ms, each catch found within a step;
// motion under control exact.
func (c Chain) Stop(ride motion.Ride, moment units.Time, fault Fault) (Course, error) {
	if err := c.ready(fault); err != nil {
		return Course{}, err
	}
	argument.Demand("stopping: Chain.Stop", argument.Within("moment", moment, 0, ride.Duration))
	return c.stop(ride, moment, fault, true), nil
}

func (c Chain) ready(fault Fault) error {
	if err := c.check(); err != nil {
		return fmt.Errorf("stop: %w", err)
	}
	if err := fault.check(); err != nil {
		return fmt.Errorf("stop: fault %q: %w", fault.Part, err)
	}
	if fault.RunsAway != "" {
		for k, a := range c.axles() {
			if l := a.Runaway; axisNames[k] == fault.RunsAway && !(l.Speed > 0 && l.Acceleration > 0 && l.Jerk > 0) {
				return fmt.Errorf("stop: %s: runaway: got %+v, want what the drive does at its most", axisNames[k], l)
			}
		}
	}
	return nil
}

// The longest steps: of motion under control, which is exact, and without.
const (
	steeredStep = 5 * units.Ms
	looseStep   = 10 * units.Ms
)

// stop is the course of a stop; keep says whether its traces are wanted.
func (c Chain) stop(ride motion.Ride, moment float64, fault Fault, keep bool) Course {
	r := newRun(c, ride, moment, fault, keep)
	r.look() // as it was before
	for k := range r.how {
		if meant(fault.Dead, k) {
			r.how[k] = loose
		}
	}
	for range 20 * int(longest/steeredStep) { // each catch cuts a step short
		before := r.how
		if r.now >= r.off {
			r.letGo()
		}
		r.settle()
		if r.how != before || r.hit {
			r.look()
		}
		if r.now >= longest || r.atRest() {
			break
		}
		r.advance(r.next())
		r.look()
	}
	return r.course()
}

// letGo takes the power from all axes.
func (r *run) letGo() {
	for k := range r.how {
		if r.how[k] == steered {
			r.how[k] = loose
		}
	}
}

// next is the end of the step from now.
func (r *run) next() float64 {
	to := r.now + steeredStep
	if r.how[0] != steered && r.how[1] != steered && r.how[2] != steered {
		to = r.now + looseStep
	}
	for _, b := range r.breaks {
		if b > r.now+1e-12 && b < to {
			to = b
		}
	}
	return math.Min(to, longest)
}

// atRest reports whether nothing can move any more.
func (r *run) atRest() bool {
	if r.now < r.closed {
		return false
	}
	for k := range r.how {
		if r.how[k] == steered || r.how[k] == loose {
			return false
		}
	}
	return true
}

// course is what came of the run.
func (r *run) course() Course {
	out := r.out
	out.Rests = true
	for k := range r.at {
		out.Speed = append(out.Speed, r.first[k].Speed)
		out.Angle = append(out.Angle, r.farthest[k])
		out.Rest = append(out.Rest, r.moved[k])
		out.Energy = append(out.Energy, r.energy[k])
		out.Struck = append(out.Struck, r.struck[k])
		out.Whole = math.Max(out.Whole, r.moved[k])
		if r.struck[k] != 0 {
			out.Warnings = append(out.Warnings, strikes(k, r.struck[k]))
		}
		if r.how[k] == loose || r.how[k] == steered {
			out.Rests = false
			out.Warnings = append(out.Warnings, fmt.Sprintf("%s: still moves after %g s", axisNames[k], longest))
		}
	}
	from, to := r.state(r.first), r.state(r.at)
	points := append([]motion.Point{}, r.Base.Hull...)
	for _, s := range r.Base.Seats {
		points = append(points, s.At)
	}
	for _, p := range points {
		a, b := r.Base.Point(from, p).At, r.Base.Point(to, p).At
		out.Travel = math.Max(out.Travel, math.Sqrt((a.X-b.X)*(a.X-b.X)+(a.Y-b.Y)*(a.Y-b.Y)+(a.Z-b.Z)*(a.Z-b.Z)))
	}
	return out
}

func strikes(k int, speed float64) string {
	return fmt.Sprintf("%s: meets the end of its travel at %.2f rad/s: it needs a buffer for this", axisNames[k], math.Abs(speed))
}
