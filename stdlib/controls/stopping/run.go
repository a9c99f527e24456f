package stopping

import (
	"math"
	"slices"

	"tautline/stdlib/motion"
	"tautline/stdlib/units"
)

// How an axis moves.
const (
	steered = iota // a drive has it, obeying or not
	loose          // weight, friction and brake have it
	held           // friction and brake hold it
	stuck          // at the end of its travel
)

// A run is a stop being worked out.
type run struct {
	Chain
	fault  Fault
	ride   motion.Ride
	moment float64

	now, command, off, closed float64
	orderly                   bool // all axes rest before the power goes
	breaks                    []float64
	away                      [3]ramp // of a drive that runs away, from the start
	slow                      [3]ramp // of a controlled stop, from the command

	how      [3]int
	at       [3]motion.AxisState
	way      [3]float64 // in which a loose axis moves
	sticks   [3]float64 // until when an axis is held whatever acts on it
	first    [3]motion.AxisState
	farthest [3]float64
	moved    [3]float64
	energy   [3]float64
	struck   [3]float64

	keep    bool
	started bool
	hit     bool    // an axis has just met the end of its travel
	looked  float64 // when last
	before  []motion.Felt
	out     Course
}

func newRun(c Chain, ride motion.Ride, moment float64, fault Fault, keep bool) *run {
	r := &run{Chain: c, fault: fault, ride: ride, moment: moment, keep: keep}
	s := ride.At(moment)
	r.at = [3]motion.AxisState{s.Yaw, s.Pitch, s.Roll}
	r.first = r.at
	r.out.Moment, r.out.Level = moment, ride.LevelAt(moment)
	r.schedule()
	for _, seat := range c.Base.Seats {
		r.out.Feels = append(r.out.Feels, Feel{Seat: seat.Name, Forward: math.Inf(-1), Back: math.Inf(-1), Press: math.Inf(-1), Lift: math.Inf(1)})
		r.before = append(r.before, motion.Felt{})
		if keep {
			r.out.Felt = append(r.out.Felt, motion.Trace{})
		}
	}
	return r
}

// schedule finds when what happens.
func (r *run) schedule() {
	f := r.fault
	r.out.Pull = f.Reaction
	r.out.Contact = r.out.Pull + r.Notice + f.Late
	r.command = r.out.Contact + r.Control
	if f.PowerLost {
		r.out.Contact, r.command = 0, 0
	}
	r.off = r.command
	ahead := r.ride.At(math.Min(r.moment+r.command, r.ride.Duration))
	last := 0.0
	for k, s := range [3]motion.AxisState{ahead.Yaw, ahead.Pitch, ahead.Roll} {
		a := r.axles()[k]
		r.slow[k] = newRamp(s, 0, a.Deceleration, a.Jerk)
		last = math.Max(last, r.slow[k].length)
		if axisNames[k] == f.RunsAway {
			way := f.Way
			if way == 0 {
				way = r.at[k].Speed
			}
			r.away[k] = newRamp(r.at[k], math.Copysign(a.Runaway.Speed, way), a.Runaway.Acceleration, a.Runaway.Jerk)
		}
	}
	if r.Category == 1 && !f.PowerLost {
		r.orderly = f.RunsAway == "" && f.Dead == "" && last <= r.Patience
		r.off = r.command + r.Patience
		if r.orderly {
			r.off = r.command + last
		}
	}
	r.out.Command, r.out.Off = r.command, r.off
	r.closed = r.off
	r.breaks = []float64{r.command, r.off}
	for k, a := range r.axles() {
		r.breaks = append(r.breaks, r.command+r.slow[k].length)
		if !r.orderly {
			r.breaks = append(r.breaks, r.off+a.Delay, r.off+a.Delay+a.Rise)
			r.closed = math.Max(r.closed, r.off+a.Delay+a.Rise)
		}
	}
	for _, away := range r.away { // its corners, where a rider feels most
		end := 0.0
		for _, phase := range away.time {
			end += phase
			r.breaks = append(r.breaks, end)
		}
	}
	slices.Sort(r.breaks)
}

// steer is the state that the drive of an axis gives it at a time.
func (r *run) steer(k int, t float64) motion.AxisState {
	switch {
	case axisNames[k] == r.fault.RunsAway:
		return r.away[k].at(t)
	case t >= r.command && r.Category == 1:
		return r.slow[k].at(t - r.command)
	}
	s := r.ride.At(math.Min(r.moment+t, r.ride.Duration))
	return [3]motion.AxisState{s.Yaw, s.Pitch, s.Roll}[k]
}

// brake is the torque of the brake of an axis at a time.
func (r *run) brake(k int, t float64) float64 {
	if t > r.now { // a step ends before what happens at its end
		t -= 1e-12
	}
	if t < r.off {
		return 0
	}
	a := r.axles()[k]
	full := a.Brake
	if meant(r.fault.Brake, k) {
		full *= 1 - r.fault.Lost
	}
	since := t - r.off - a.Delay
	switch {
	case r.orderly || since >= a.Rise && since >= 0:
		return full
	case since <= 0:
		return 0
	}
	return full * since / a.Rise
}

func (r *run) state(at [3]motion.AxisState) motion.State {
	return motion.State{Yaw: at[0], Pitch: at[1], Roll: at[2]}
}

// solve fills in the accelerations at a time: of steered axes from their drives,
// of loose ones from what acts on them; held and stuck ones have none.
func (r *run) solve(t float64, at [3]motion.AxisState) [3]motion.AxisState {
	var push [3]motion.Push
	free := false
	for k := range at {
		switch r.how[k] {
		case steered:
			at[k] = r.steer(k, t)
		case loose:
			a := r.axles()[k]
			push[k] = motion.Push{Free: true, Torque: -r.way[k] * (a.Friction + r.brake(k, t)), Inertia: a.Inertia}
			free = true
		default:
			at[k].Speed, at[k].Acceleration, at[k].Jerk = 0, 0, 0
		}
	}
	if !free {
		return at
	}
	s, err := r.Base.Accelerate(r.state(at), r.Bodies, push[0], push[1], push[2])
	if err != nil { // Chain.check tried the bodies
		return at
	}
	return [3]motion.AxisState{s.Yaw, s.Pitch, s.Roll}
}

// shortest is a step within which an axis that slips and catches has not moved.
const shortest = 1e-6 * units.S

// still is the speed below which an axis counts as at rest: 1e-9 rad/s.
const still = 1e-9

// settle finds which axes at rest are held, and which way the others go.
func (r *run) settle() {
	for k := range r.how {
		if r.how[k] == loose && math.Abs(r.at[k].Speed) <= still || r.how[k] == held {
			r.how[k] = held
			r.at[k].Speed = 0
		} else {
			r.way[k] = math.Copysign(1, r.at[k].Speed)
		}
	}
	for range r.how { // an axis that slips may make another slip
		r.at = r.solve(r.now, r.at)
		if !slices.Contains(r.how[:], held) {
			return
		}
		load, err := r.Base.Load(r.state(r.at), r.Bodies)
		if err != nil {
			return
		}
		slipped := false
		for k, need := range [3]float64{load.Yaw, load.Pitch, load.Roll} {
			if r.how[k] == held && r.now >= r.sticks[k] && math.Abs(need) > r.axles()[k].Friction+r.brake(k, r.now)+1e-9 {
				r.how[k], r.way[k], slipped = loose, -math.Copysign(1, need), true
			}
		}
		if !slipped {
			return
		}
	}
	r.at = r.solve(r.now, r.at)
}

// advance goes on to a time, or to where an axis catches or meets its end.
func (r *run) advance(to float64) {
	h, turned := to-r.now, -1
	after := r.integrate(h)
	for k := range r.how {
		if r.how[k] != loose {
			continue
		}
		switch {
		case r.outside(k, after) > 0:
			h, turned = r.meet(r.outside, k, h), -1
			after = r.integrate(h)
			after[k].Position += math.Copysign(1e-11, r.way[k]) // just past it, for what follows
		case r.back(k, after) > 0:
			h, turned = r.meet(r.back, k, h), k
			after = r.integrate(h)
		}
	}
	if turned >= 0 {
		after[turned].Speed = 0
		if h < shortest { // it slips one way and is pushed the other by an axis that slips too
			r.sticks[turned] = r.now + looseStep/10
		}
	}
	end := r.now + h
	after = r.solve(end, after)
	for k, a := range r.axes() {
		if r.beyond(k, after[k]) {
			for i := range r.Base.Seats { // the last moment before, where a seat is lightest
				r.out.Feels[i].take(r.Base.Felt(r.state(after), i))
			}
			r.struck[k], r.how[k], r.hit = after[k].Speed, stuck, true
			after[k] = motion.AxisState{Position: math.Min(math.Max(after[k].Position, a.Low), a.High)}
		}
	}
	r.note(after, end)
	r.at, r.now = after, end
}

// beyond reports whether an axis is beyond the end of its travel.
func (r *run) beyond(k int, s motion.AxisState) bool {
	a := r.axes()[k]
	return !a.Continuous && (s.Position < a.Low-1e-12 || s.Position > a.High+1e-12)
}

// back is how fast a loose axis turns back, less than 0 while it goes on.
func (r *run) back(k int, at [3]motion.AxisState) float64 { return -at[k].Speed * r.way[k] }

// outside is by how much an axis is beyond the end of its travel, less than 0 within.
func (r *run) outside(k int, at [3]motion.AxisState) float64 {
	a := r.axes()[k]
	if a.Continuous {
		return math.Inf(-1)
	}
	return math.Max(a.Low-at[k].Position, at[k].Position-a.High)
}

// meet is how long from now what is more than 0 after h is 0: by straight lines
// between both sides, with the value of a side that stays halved.
func (r *run) meet(what func(k int, at [3]motion.AxisState) float64, k int, h float64) float64 {
	low, high := 0.0, h
	below, above := what(k, r.at), what(k, r.integrate(h))
	for range 60 {
		middle := (low + high) / 2
		if below < 0 {
			middle = high - (high-low)*above/(above-below)
		}
		v := what(k, r.integrate(middle))
		switch {
		case math.Abs(v) < 1e-13 || high-low < 1e-13:
			return middle
		case v > 0:
			high, above, below = middle, v, below/2
		default:
			low, below, above = middle, v, above/2
		}
	}
	return high
}

// integrate is the state of all axes a time from now, without the accelerations
// of loose ones.
func (r *run) integrate(h float64) [3]motion.AxisState {
	if !slices.Contains(r.how[:], loose) {
		return r.solve(r.now+h, r.at)
	}
	moved := func(slope [3]motion.AxisState, d float64) [3]motion.AxisState {
		at := r.at
		for k := range at {
			if r.how[k] == loose {
				at[k].Position += d * slope[k].Speed
				at[k].Speed += d * slope[k].Acceleration
			}
		}
		return at
	}
	k1 := r.solve(r.now, r.at)
	k2 := r.solve(r.now+h/2, moved(k1, h/2))
	k3 := r.solve(r.now+h/2, moved(k2, h/2))
	k4 := r.solve(r.now+h, moved(k3, h))
	var mean [3]motion.AxisState
	for k := range mean {
		mean[k].Speed = (k1[k].Speed + 2*k2[k].Speed + 2*k3[k].Speed + k4[k].Speed) / 6
		mean[k].Acceleration = (k1[k].Acceleration + 2*k2[k].Acceleration + 2*k3[k].Acceleration + k4[k].Acceleration) / 6
	}
	after := moved(mean, h)
	for k := range after {
		if r.how[k] == steered {
			after[k] = r.steer(k, r.now+h)
		}
	}
	return after
}

// note keeps account of a step that ends in a state at a time.
func (r *run) note(after [3]motion.AxisState, end float64) {
	for k := range after {
		if gone := after[k].Position - r.first[k].Position; math.Abs(gone) > math.Abs(r.farthest[k]) {
			r.farthest[k] = gone
		}
		if math.Abs(after[k].Speed) > still || math.Abs(r.at[k].Speed) > still || after[k].Position != r.at[k].Position {
			r.moved[k] = end
		}
		if r.how[k] == loose {
			// The torque is a straight line over the step, the speed a parabola.
			first, last := r.brake(k, r.now), r.brake(k, end)
			way, v, w := after[k].Position-r.at[k].Position, r.at[k].Speed*(end-r.now), after[k].Speed*(end-r.now)
			r.energy[k] += math.Abs(first*way + (last-first)*(v/2+(w-v)/3+(way-(v+w)/2)/2))
		}
	}
}

// look notes what the seats feel now. From one look to the next at one time the
// change is a jolt, else it comes at a rate.
func (r *run) look() {
	s := r.state(r.at)
	exact := r.how == [3]int{}
	since := r.now - r.looked
	if r.keep && (since > 0 || len(r.out.Time) == 0 || !exact) {
		r.record()
	}
	for i := range r.Base.Seats {
		f, b := r.Base.Felt(s, i), r.before[i]
		e := &r.out.Feels[i]
		e.take(f)
		change := motion.Acceleration{X: f.X - b.X, Y: f.Y - b.Y, Z: f.Z - b.Z}.Size()
		rate := f.Jerk.Size()
		switch {
		case !r.started:
			rate = 0
		case r.hit: // no blow of a buffer is worked out
			rate = 0
		case since > looseStep/10 && !exact:
			rate = change / since
		case since == 0 && change < 1e-9: // rounding
			rate = 0
		case since == 0:
			e.Jolt = math.Max(e.Jolt, change)
			rate = 0
		case !exact: // too short a step for a rate
			rate = 0
		}
		e.Jerk = math.Max(e.Jerk, rate)
		if r.keep {
			t := &r.out.Felt[i]
			if len(t.Time) < len(r.out.Time) {
				t.Time, t.X, t.Y, t.Z, t.Jerk = append(t.Time, r.now), append(t.X, f.X), append(t.Y, f.Y), append(t.Z, f.Z), append(t.Jerk, rate)
			}
		}
		r.before[i] = f
	}
	r.looked, r.started = r.now, true
	r.hit = r.hit && since > 0 // for the second look at its time
}

// take keeps the greatest of what is felt.
func (e *Feel) take(f motion.Felt) {
	e.Forward, e.Back, e.Side = math.Max(e.Forward, f.X), math.Max(e.Back, -f.X), math.Max(e.Side, math.Abs(f.Y))
	e.Press, e.Lift = math.Max(e.Press, f.Z), math.Min(e.Lift, f.Z)
}

// record keeps where the axes are and how fast they turn.
func (r *run) record() {
	o := &r.out
	o.Time = append(o.Time, r.now)
	o.YawSpeed, o.PitchSpeed, o.RollSpeed = append(o.YawSpeed, r.at[0].Speed), append(o.PitchSpeed, r.at[1].Speed), append(o.RollSpeed, r.at[2].Speed)
	o.YawAngle, o.PitchAngle, o.RollAngle = append(o.YawAngle, r.at[0].Position), append(o.PitchAngle, r.at[1].Position), append(o.RollAngle, r.at[2].Position)
}
