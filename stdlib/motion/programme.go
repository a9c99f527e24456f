package motion

import (
	"fmt"
	"math"

	"tautline/stdlib/internal/argument"
	"tautline/stdlib/units"
)

// A Wave is what one axis does through a level: it waits, goes to the centre,
// swings about it, and comes back. With no amplitude it holds the centre as a
// pose; with a spin it turns instead.
type Wave struct {
	Delay     units.Time         // before it starts, 0 or more
	Centre    units.Angle        // from where the axis rests
	Amplitude units.Angle        // greatest, to each side, 0 or more
	Period    units.Time         // of a full swing, the shortest
	Spin      units.AngularSpeed // of the yaw axis, either way round; needs no other field but Delay
	Limits    Limits             // of this level, at most those of the axis; left out, they are those
}

// A Level is a stretch of a ride under a name of the game, such as a state of the
// sea, from rest to rest.
type Level struct {
	Name             string     // what the operator's panel calls it
	Duration         units.Time // more than 0
	Yaw, Pitch, Roll Wave
	// Variation is how irregular the swings are, 0 to 0.5: each is drawn lower by
	// up to this share of its amplitude and longer by up to this share of its
	// period. Nothing is ever drawn higher or quicker than the Wave says.
	Variation units.Number
}

// A Programme is what a ride does: its levels in order.
type Programme struct {
	Name   string
	Levels []Level
	Pause  units.Time // at rest between two levels, 0 or more
	Seed   int        // of the draws; the same seed gives the same ride
}

// A Ride is a programme worked out for a base.
type Ride struct {
	Name     string
	Levels   []string     // their names
	Starts   []units.Time // of the levels
	Ends     []units.Time
	Duration units.Time // of the whole ride

	base   Base
	tracks [3]Track
}

// Ride works the programme out for a base.
//
// A regular wave is an exact sine between two jerk-limited moves, one of which
// ends and the other of which starts at the sine's speed. An irregular one is a
// row of half waves from crest to crest, each the polynomial of fifth degree that
// meets position, speed and acceleration at both crests. A spin runs whole turns,
// so that every level ends where it started. All of it is continuous in position,
// speed and acceleration.
//
// What passes a limit or an end of travel, and a wave that does not fit into its
// level, are errors that name level and axis.
//
// Caution: limits here are those that the designer states. Nothing in the
// programme keeps the built ride inside them; its controls have to.
//
// Source: L. Biagiotti and C. Melchiorri, Trajectory Planning for Automatic
// Machines and Robots, 2008, 2.1.7 and 3.4.
func (p Programme) Ride(b Base) (Ride, error) {
	if err := b.Check(); err != nil {
		return Ride{}, err
	}
	if err := p.check(); err != nil {
		return Ride{}, fmt.Errorf("programme %q: %w", p.Name, err)
	}
	r := Ride{Name: p.Name, base: b}
	for i, l := range p.Levels {
		if i > 0 {
			for k := range r.tracks {
				r.tracks[k].hold(p.Pause)
			}
			r.Duration += p.Pause
		}
		r.Levels = append(r.Levels, l.Name)
		r.Starts = append(r.Starts, r.Duration)
		for k, w := range [3]Wave{l.Yaw, l.Pitch, l.Roll} {
			draw := draws{variation: l.Variation, state: uint64(p.Seed)<<16 ^ uint64(3*i+k)}
			track, err := w.track(b.axes()[k], l.Duration, draw)
			if err == nil && w.Spin != 0 && k > 0 {
				err = fmt.Errorf("spin: got %g rad/s, want none: only the yaw axis turns on", w.Spin)
			}
			if err != nil {
				return Ride{}, fmt.Errorf("programme %q: level %q: %s: %w", p.Name, l.Name, axisNames[k], err)
			}
			r.tracks[k].follow(track)
		}
		r.Duration += l.Duration
		r.Ends = append(r.Ends, r.Duration)
	}
	return r, nil
}

func (p Programme) check() error {
	if len(p.Levels) == 0 {
		return fmt.Errorf("got no levels, want at least one")
	}
	if err := argument.NotNegative("pause", p.Pause); err != nil {
		return err
	}
	seen := map[string]bool{}
	for i, l := range p.Levels {
		if l.Name == "" || seen[l.Name] {
			return fmt.Errorf("level %d: name: got %q, want a name of its own", i+1, l.Name)
		}
		seen[l.Name] = true
		for _, err := range []error{argument.Positive("duration", l.Duration), argument.Within("variation", l.Variation, 0, 0.5)} {
			if err != nil {
				return fmt.Errorf("level %q: %w", l.Name, err)
			}
		}
	}
	return nil
}

// track is the wave on an axis that starts and ends at rest at 0.
func (w Wave) track(axis Axis, duration float64, d draws) (Track, error) {
	if w.Limits == (Limits{}) {
		w.Limits = axis.Limits
	}
	if err := w.check(axis); err != nil {
		return Track{}, err
	}
	var k Track
	var err error
	k.hold(w.Delay)
	switch {
	case w.Spin != 0:
		err = w.spin(&k, duration)
	case w.Amplitude == 0 && w.Centre == 0:
	case w.Amplitude == 0:
		err = w.hold(&k, duration)
	case d.variation == 0:
		err = w.regular(&k, duration)
	default:
		err = w.irregular(&k, duration, d)
	}
	if err == nil && k.end > duration*(1+1e-12) {
		err = fmt.Errorf("needs %.3g s, has %.3g s: lengthen the level or soften the wave", k.end, duration)
	}
	if err != nil {
		return Track{}, err
	}
	k.hold(duration - k.end)
	return k, k.within(axis, w.Limits)
}

func (w Wave) check(axis Axis) error {
	for _, err := range []error{
		w.Limits.check("level"), argument.NotNegative("delay", w.Delay), argument.Finite("centre", w.Centre),
		argument.NotNegative("amplitude", w.Amplitude), argument.NotNegative("period", w.Period), argument.Finite("spin", w.Spin),
	} {
		if err != nil {
			return err
		}
	}
	l, a := w.Limits, axis.Limits
	switch {
	case l.Speed > a.Speed || l.Acceleration > a.Acceleration || l.Jerk > a.Jerk:
		return fmt.Errorf("limits of the level: got %+v, want at most those of the axis, %+v", l, a)
	case w.Amplitude > 0 && w.Period == 0:
		return fmt.Errorf("period: got 0, want more for a wave with an amplitude")
	case w.Spin != 0 && (w.Amplitude != 0 || w.Centre != 0):
		return fmt.Errorf("got a spin and a wave, want one of them")
	case w.Spin != 0 && !axis.Continuous:
		return fmt.Errorf("spin: got %g rad/s on an axis with ends, want a continuous axis", w.Spin)
	}
	return nil
}

// spin turns whole turns.
func (w Wave) spin(k *Track, duration float64) error {
	if math.Abs(w.Spin) > w.Limits.Speed {
		return fmt.Errorf("spin: got %g rad/s, want at most %g", w.Spin, w.Limits.Speed)
	}
	ramp := changeTime(w.Spin, w.Limits)
	turns := math.Floor(math.Abs(w.Spin) * (duration - k.end - ramp) / (2 * math.Pi))
	cruise := turns*2*math.Pi/math.Abs(w.Spin) - ramp // the ramps together turn as far as one at full speed
	if turns < 1 || cruise < 0 {
		return fmt.Errorf("spin at %.3g rad/s: no whole turn fits into %.3g s: lengthen the level or turn faster", w.Spin, duration-k.end)
	}
	k.changeSpeed(0, w.Spin, w.Limits)
	k.keepSpeed(w.Spin, cruise)
	k.changeSpeed(w.Spin, 0, w.Limits)
	return nil
}

// move appends the fastest move over a distance.
func (w Wave) move(k *Track, distance, start, end float64) error {
	m, err := NewMove(distance, start, end, w.Limits)
	if err != nil {
		return err
	}
	k.follow(m.track)
	return nil
}

// hold takes the pose, keeps it and comes back.
func (w Wave) hold(k *Track, duration float64) error {
	there := k.end
	if err := w.move(k, w.Centre, 0, 0); err != nil {
		return err
	}
	k.hold(duration - k.end - (k.end - there))
	return w.move(k, -w.Centre, 0, 0)
}

// regular swings as many whole periods as fit.
func (w Wave) regular(k *Track, duration float64) error {
	rate := 2 * math.Pi / w.Period
	if err := w.move(k, w.Centre, 0, w.Amplitude*rate); err != nil {
		return err
	}
	var back Track
	if err := w.move(&back, -w.Centre, w.Amplitude*rate, 0); err != nil {
		return err
	}
	periods := math.Floor((duration - k.end - back.end) / w.Period * (1 + 1e-12))
	if periods < 1 {
		return fmt.Errorf("no whole period of %.3g s fits into the %.3g s left between the moves: lengthen the level", w.Period, duration-k.end-back.end)
	}
	k.add(piece{duration: periods * w.Period, c: [6]float64{w.Centre}, amplitude: w.Amplitude, rate: rate})
	k.follow(back)
	return nil
}

// irregular swings from crest to crest.
func (w Wave) irregular(k *Track, duration float64, d draws) error {
	if err := w.move(k, w.Centre, 0, 0); err != nil {
		return err
	}
	var back Track
	if err := w.move(&back, -w.Centre, 0, 0); err != nil {
		return err
	}
	half := d.longer(w.Period / 2)
	side, swings := 1.0, 0
	for {
		next := d.longer(w.Period / 2)
		height := d.lower(w.Amplitude)
		if k.end+1.5*half+1.5*next+back.end > duration { // a blend may take longer than drawn

			break
		}
		bend := math.Pi / math.Max(half, next)
		w.blend(k, AxisState{Position: w.Centre + side*height, Acceleration: -side * height * bend * bend}, half)
		side, half, swings = -side, next, swings+1
	}
	if swings < 2 {
		return fmt.Errorf("no whole period of %.3g s fits into %.3g s: lengthen the level", w.Period, duration)
	}
	w.blend(k, AxisState{Position: w.Centre}, half)
	k.follow(back)
	return nil
}

// blend goes to a state in a time, or in the longer one that keeps speed and
// acceleration below those of the regular wave.
func (w Wave) blend(k *Track, to AxisState, duration float64) {
	rate := 2 * math.Pi / w.Period
	from := *k
	for tries := 0; ; tries++ {
		k.blend(to, duration)
		e := k.reach(from.end, math.Inf(1))
		if e.speed <= w.Amplitude*rate && e.acceleration <= w.Amplitude*rate*rate*(1+1e-12) || tries == 40 {
			return // what is still too quick, the limits find
		}
		*k = from
		duration *= 1.01
	}
}

// draws are a row of random numbers that a seed sets.
type draws struct {
	variation float64
	state     uint64
}

// next is a number from 0 to 1, by the generator splitmix64.
func (d *draws) next() float64 {
	d.state += 0x9e3779b97f4a7c15
	z := d.state
	z = (z ^ z>>30) * 0xbf58476d1ce4e5b9
	z = (z ^ z>>27) * 0x94d049bb133111eb
	return float64((z^z>>31)>>11) / (1 << 53)
}

func (d *draws) lower(v float64) float64  { return v * (1 - d.variation*d.next()) }
func (d *draws) longer(v float64) float64 { return v * (1 + d.variation*d.next()) }
