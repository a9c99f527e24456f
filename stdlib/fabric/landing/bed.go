package landing

import (
	"cmp"
	"fmt"
	"math"

	"tautline/stdlib/internal/argument"
	"tautline/stdlib/internal/ode"
	"tautline/stdlib/units"
)

// A Bed is air over foam over the ground.
type Bed struct {
	Depth    units.Length   // of the air below the body, 0 or more
	Volume   units.Volume   // of all air that is pressed together at once; more than the body can push aside
	Pressure units.Pressure // gauge, before the landing, 0 or more
	Ambient  units.Pressure // absolute, outside, more than 0
	Density  units.Density  // of the air outside, more than 0
	Exponent units.Number   // 1: the air stays at one temperature; 1.4: it takes no heat, which is harder
	Vent     units.Area     // of all openings, times their discharge coefficients, 0 or more
	Foam     Foam           // below the air
}

// A Body is what falls.
type Body struct {
	Mass  units.Mass   // more than 0
	Area  units.Area   // of contact when it lies in the bed, more than 0
	Round units.Length // depth at which the whole area is in contact, from none at the top; 0: at once
}

// A Landing is how a body falls onto a bed.
type Landing struct {
	Depth    units.Length   // deepest, from the bed's top
	Time     units.Time     // from the top to there
	Pressure units.Pressure // most, gauge
	Felt     units.Number   // most force of the bed over the body's weight
	FeltTime units.Time     // when that was
	Foam     units.Length   // how far the foam was pressed
	Bottoms  bool           // the body reached the ground: the answer is Speed and HardDrop
	Speed    units.Speed    // at the ground; 0 if it did not get there
	HardDrop units.Length   // free fall onto the hard ground that ends as fast
	Rebound  units.Speed    // upward, as it leaves the bed again
	History  History        // of what was felt
	Warnings []string
}

func (b Bed) check() error {
	return cmp.Or(argument.NotNegative("depth", b.Depth), argument.NotNegative("bed pressure", b.Pressure), argument.Positive("ambient pressure", b.Ambient),
		argument.Positive("air density", b.Density), argument.Within("exponent", b.Exponent, 1, 1.4), argument.NotNegative("vent", b.Vent),
		argument.NotNegative("volume", b.Volume), b.Foam.check(), argument.Positive("depth of air and foam", b.Depth+b.Foam.travel()))
}

// area is that of contact at a depth.
func (b Body) area(depth units.Length) units.Area {
	if depth < b.Round {
		return b.Area * depth / b.Round
	}
	return b.Area
}

// pushed is the air that the body has pushed aside at a depth.
func (b Body) pushed(depth units.Length) units.Volume {
	if depth < b.Round {
		return b.Area * depth * depth / (2 * b.Round)
	}
	return b.Area * (depth - b.Round/2)
}

// Drop follows a body from the bed's top, which it meets after a free fall from
// a height, 0 or more, until it leaves the bed again or reaches the ground.
//
// The air obeys p·V^Exponent for what is left of it; what the vents let out, or
// in, follows from the pressure and the density inside. Once the body has pushed
// all air aside, the foam carries it as soon as its stress is more than the
// air's pressure. The motion is integrated with a step that its error sets, 1e-9
// of each value; the deepest point, the ground and the bed's top end a stage
// exactly. Blowers give nothing in so short a time.
//
// Reaching the ground is an answer with a warning. A field out of its range is
// an error, as is a volume that the body would push aside altogether.
//
// Caution: what happens after a body reaches the ground is not covered. A check of
// what is felt alone then still holds: check that it does not reach the ground, too.
//
// Source: equation of motion, ideal gas law and Bernoulli's equation, derived
// here.
func (b Bed) Drop(body Body, height units.Length) (Landing, error) {
	err := cmp.Or(b.check(), argument.Positive("mass", body.Mass), argument.Positive("area", body.Area), argument.NotNegative("round", body.Round),
		argument.NotNegative("height", height))
	if least := body.pushed(b.Depth); err == nil && b.Depth > 0 && b.Volume <= least {
		err = fmt.Errorf("volume: got %g m³, want more than the %g m³ that the body pushes aside", b.Volume, least)
	}
	if err != nil {
		return Landing{}, fmt.Errorf("drop: %w", err)
	}
	d := &drop{Bed: b, body: body}
	if err := d.fall(FallSpeed(height)); err != nil {
		return Landing{}, fmt.Errorf("drop: %w", err)
	}
	return d.Landing, nil
}

// A drop is a body on its way through a bed. Its state is depth, speed and the
// air left, as a share of that before.
type drop struct {
	Bed
	Landing
	body   Body
	rising bool // it has been at the deepest point
}

const (
	longestSink    = 10 * units.S
	longestRebound = 3 * units.S
)

func (d *drop) fall(speed units.Speed) error {
	ground := d.Bed.Depth + d.Bed.Foam.travel()
	system := ode.System{
		Derivative: d.derivative, Longest: 0.5 * units.Ms, Tolerance: 1e-9, Scale: []float64{1e-3, 1e-3, 1e-3},
		Events: []func(float64, []float64) float64{
			func(_ float64, y []float64) float64 { return y[1] },
			func(_ float64, y []float64) float64 { return ground - y[0] },
		},
	}
	down, err := system.Run(0, []float64{0, speed, 1}, longestSink)
	if err != nil {
		return err
	}
	d.keep(down)
	t, y := down.Last()
	d.Landing.Depth, d.Time = y[0], t
	d.Landing.Foam = math.Max(0, y[0]-d.Bed.Depth)
	switch down.Event {
	case 1:
		d.Bottoms, d.Speed = true, y[1]
		d.HardDrop = FallHeight(y[1])
		d.Warnings = append(d.Warnings, fmt.Sprintf("the body reaches the ground at %.3g m/s, as after a fall of %.0f mm onto it: "+
			"what it feels there is not in these numbers; make the bed deeper or harder", d.Speed, 1000*d.HardDrop))
		return nil
	case -1:
		d.Warnings = append(d.Warnings, fmt.Sprintf("the body still sinks after %g s, at %.2g m/s", float64(longestSink), y[1]))
		return nil
	}
	d.rising = true
	slope := make([]float64, 3)
	if d.derivative(t, y, slope); slope[1] >= 0 { // the foam gives too little back to lift it
		return nil
	}
	system.Events = []func(float64, []float64) float64{
		func(_ float64, y []float64) float64 { return y[0] },
		func(_ float64, y []float64) float64 { return -y[1] },
	}
	up, err := system.Run(t, y, t+longestRebound)
	if err != nil {
		return err
	}
	d.keep(up)
	if _, y := up.Last(); up.Event == 0 {
		d.Rebound = math.Max(0, -y[1])
	}
	return nil
}

func (d *drop) derivative(_ float64, y, dydt []float64) {
	absolute := d.absolute(y)
	dydt[0] = y[1]
	dydt[1] = units.Gn - d.force(y, absolute)/d.body.Mass
	dydt[2] = 0
	if d.Volume > 0 {
		inside := d.Density * (d.Bed.Pressure + d.Ambient) / d.Ambient // before
		if absolute >= d.Ambient {
			dense := y[2] * inside * d.Volume / d.air(y[0])
			dydt[2] = -d.Vent * math.Sqrt(2*dense*(absolute-d.Ambient)) / (inside * d.Volume)
		} else {
			dydt[2] = d.Vent * math.Sqrt(2*d.Density*(d.Ambient-absolute)) / (inside * d.Volume)
		}
	}
}

// air is the volume of air in the bed.
func (d *drop) air(depth units.Length) units.Volume {
	return d.Volume - d.body.pushed(math.Max(0, math.Min(depth, d.Bed.Depth)))
}

// absolute is the pressure of the air in the bed.
func (d *drop) absolute(y []float64) units.Pressure {
	if d.Volume == 0 {
		return d.Ambient
	}
	return (d.Bed.Pressure + d.Ambient) * math.Pow(y[2]*d.Volume/d.air(y[0]), d.Exponent)
}

// force is the bed's on the body.
func (d *drop) force(y []float64, absolute units.Pressure) units.Force {
	carried := 0.0
	if d.Bed.Depth > 0 {
		carried = absolute - d.Ambient
	}
	stress := d.Bed.Foam.stressAt(y[0] - d.Bed.Depth)
	if d.rising {
		stress *= d.Bed.Foam.Return
	}
	return math.Max(carried, stress) * d.body.area(math.Max(0, y[0]))
}

// keep adds a stage to the history and to the greatest values.
func (d *drop) keep(run ode.Run) {
	for i, y := range run.Y {
		if i == 0 && len(d.History.Time) > 0 {
			continue
		}
		absolute := d.absolute(y)
		felt := d.force(y, absolute) / (d.body.Mass * units.Gn)
		d.History.Time = append(d.History.Time, run.T[i])
		d.History.Felt = append(d.History.Felt, felt)
		if felt > d.Felt {
			d.Felt, d.FeltTime = felt, run.T[i]
		}
		d.Landing.Pressure = math.Max(d.Landing.Pressure, absolute-d.Ambient)
	}
}

// DepthFor is the depth of air at which a body that drops from a height stops
// with a share of that depth left below it.
//
// The volume goes with the depth; the foam is left out, so that it is a reserve.
// The share left is 0 or more and less than 1, the greatest depth that may be
// tried is more than 0. The depth is found by halving to a ten-thousandth of a
// millimetre. It is an error if no depth up to the greatest does, or a number is
// out of its range.
//
// Source: as Drop.
func (b Bed) DepthFor(body Body, height units.Length, left units.Number, greatest units.Length) (units.Length, error) {
	err := cmp.Or(argument.Positive("depth", b.Depth), argument.Positive("volume", b.Volume), argument.Within("share left", left, 0, 0.99),
		argument.Positive("greatest depth", greatest))
	if err != nil {
		return 0, fmt.Errorf("depth of a bed: %w", err)
	}
	stops := func(depth float64) (bool, error) {
		bed := b
		bed.Depth, bed.Volume, bed.Foam = depth, b.Volume*depth/b.Depth, Foam{}
		fall, err := bed.Drop(body, height)
		return err == nil && !fall.Bottoms && fall.Depth <= (1-left)*depth, err
	}
	ok, err := stops(greatest)
	if err != nil {
		return 0, fmt.Errorf("depth of a bed: %w", err)
	}
	if !ok {
		return 0, fmt.Errorf("depth of a bed: at %g m the body does not stop with %g %% left: blow harder, close vents or spread the body", greatest, 100*left)
	}
	low, high := 0.0, greatest
	for high-low > 1e-4*units.Mm {
		middle := (low + high) / 2
		if ok, _ := stops(middle); ok { // what was right at the greatest depth is right at each
			high = middle
		} else {
			low = middle
		}
	}
	return high, nil
}
