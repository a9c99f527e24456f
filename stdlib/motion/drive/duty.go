package drive

import (
	"fmt"
	"math"

	"tautline/stdlib/internal/argument"
	"tautline/stdlib/sheet"
	"tautline/stdlib/units"
)

// A Duty is what a motor does over a programme that recurs.
type Duty struct {
	Time       []units.Time
	Torque     []units.Moment       // of the motor
	Speed      []units.AngularSpeed // of the motor
	Rms        units.Moment         // over the whole time
	MeanSpeed  units.AngularSpeed   // rms, for the torque that lasts
	Peak       units.Moment         // greatest, without sign
	TopSpeed   units.AngularSpeed   // greatest, without sign
	PeakPower  units.Power          // given by the motor
	BackPower  units.Power          // greatest given to the motor, without sign
	Given      units.Energy         // by the motor over the whole time
	Regained   units.Energy         // by the motor, without sign: a resistor or the mains has to take it
	Heat       units.Number         // rms torque over what lasts at MeanSpeed
	Margin     units.Number         // greatest of torque over what the motor gives for a moment at that speed; infinite above its top speed
	HeatPeak   units.Number         // greatest warming over that allowed, as it recurs, from the square of torque over what lasts
	InertiaFor units.Number         // inertia of the load at the motor over that of motor and train
}

// Duty is what a motor does on the train, for a demand that recurs.
//
// At the motor the inertia of rotor and train is added to the load. Where motor
// and axis turn so that power flows to the axis, the load is divided by the
// efficiency; where it flows back, it is multiplied by the one backward.
// Friction works against the motion. Between two times everything is a straight
// line; the integral of a square takes both ends.
//
// Lists that do not fit, times that do not rise and values that are not finite
// are an error, as are fields of train and motor out of range.
//
// Source: equilibrium, derived here; rms torque as the measure of heat: common
// practice in makers' handbooks.
func (t Train) Duty(d Demand, m Motor) (Duty, error) {
	for _, err := range []error{t.check(), m.check(), d.check()} {
		if err != nil {
			return Duty{}, fmt.Errorf("duty: %w", err)
		}
	}
	out := Duty{Time: append([]float64(nil), d.Time...)}
	for i := range d.Time {
		load := d.Torque[i]
		if d.Speed[i] != 0 {
			load += math.Copysign(t.Friction, d.Speed[i])
		}
		torque := t.atMotor(load, d.Speed[i]) + (m.Inertia+t.Inertia)*d.Acceleration[i]*t.Ratio
		speed := d.Speed[i] * t.Ratio
		out.Torque, out.Speed = append(out.Torque, torque), append(out.Speed, speed)
		out.Peak, out.TopSpeed = math.Max(out.Peak, math.Abs(torque)), math.Max(out.TopSpeed, math.Abs(speed))
		out.PeakPower, out.BackPower = math.Max(out.PeakPower, torque*speed), math.Max(out.BackPower, -torque*speed)
		out.Margin = math.Max(out.Margin, share(math.Abs(torque), m.most(math.Abs(speed))))
	}
	whole := d.Time[len(d.Time)-1] - d.Time[0]
	out.Rms = math.Sqrt(integral(d.Time, squares(out.Torque)) / whole)
	out.MeanSpeed = math.Sqrt(integral(d.Time, squares(out.Speed)) / whole)
	out.Heat = share(out.Rms, m.Continuous(out.MeanSpeed))
	power := make([]float64, len(d.Time))
	back := make([]float64, len(d.Time))
	for i := range power {
		p := out.Torque[i] * out.Speed[i]
		power[i], back[i] = math.Max(p, 0), math.Max(-p, 0)
	}
	out.Given, out.Regained = integral(d.Time, power), integral(d.Time, back)
	out.HeatPeak = out.warmest(m)
	out.InertiaFor = t.apparent(d) / (m.Inertia + t.Inertia)
	return out, nil
}

// atMotor is the torque at the motor for one at the axis.
func (t Train) atMotor(load, speed float64) float64 {
	switch {
	case load*speed > 0:
		return load / (t.Ratio * t.Efficiency)
	case load*speed < 0 && t.Backward > 0:
		return load * t.Backward / t.Ratio
	case load*speed < 0: // holds by itself: the motor has to drive it on
		return 0
	}
	return load / t.Ratio
}

// apparent is the inertia of the load at the motor: the slope of torque over
// acceleration that fits the demand best.
func (t Train) apparent(d Demand) float64 {
	var xx, xy float64
	for i, a := range d.Acceleration {
		xx += a * a
		xy += a * d.Torque[i]
	}
	if xx == 0 {
		return 0
	}
	return math.Abs(xy/xx) / (t.Ratio * t.Ratio)
}

func share(used, available float64) float64 {
	if used == 0 {
		return 0
	}
	return used / available // infinite where nothing is available
}

func squares(v []float64) []float64 {
	out := make([]float64, len(v))
	for i := range v {
		out[i] = v[i] * v[i]
	}
	return out
}

// integral is that of a broken line.
func integral(x, y []float64) float64 {
	sum := 0.0
	for i := 1; i < len(x); i++ {
		sum += (x[i] - x[i-1]) * (y[i-1] + y[i]) / 2
	}
	return sum
}

// warmest is the greatest warming of a body of one time constant that is heated
// by the square of the torque over what lasts, cycle upon cycle.
func (d Duty) warmest(m Motor) float64 {
	pass := func(warm float64) (end, most float64) {
		most = warm
		for i := 1; i < len(d.Time); i++ {
			heat := 0.0
			for _, k := range []int{i - 1, i} {
				u := share(math.Abs(d.Torque[k]), m.continuous(math.Abs(d.Speed[k])))
				heat += u * u / 2
			}
			left := math.Exp(-(d.Time[i] - d.Time[i-1]) / m.Heating)
			warm = heat + (warm-heat)*left
			most = math.Max(most, warm)
		}
		return warm, most
	}
	// One cycle carries warmth over linearly: the one that it settles at follows
	// from two passes.
	cold, _ := pass(0)
	left := math.Exp(-(d.Time[len(d.Time)-1] - d.Time[0]) / m.Heating)
	_, most := pass(cold / (1 - left))
	return most
}

// A Choice is the motor that suits a train and its demands.
type Choice struct {
	Motor    Motor
	Duty     Duty     // the hardest, by heat
	Rejected []string // smaller motors and why not
}

// Choose is the first motor of a table, by rising torque, that bears every
// demand: the heat with a share of it, the torque at every speed with a share of
// what the motor gives for a moment.
//
// The shares are more than 0, at most 1. A table without a motor that suits is an
// error that says why the last does not, as is what is an error in Duty.
//
// Source: as Train.Duty.
func (t Train) Choose(table []Motor, demands []Demand, heat, peak units.Number) (Choice, error) {
	argument.Demand("drive: Train.Choose", argument.Within("share of heat", heat, 1e-9, 1), argument.Within("share of peak", peak, 1e-9, 1))
	if len(table) == 0 || len(demands) == 0 {
		return Choice{}, fmt.Errorf("choice of a motor: got %d motors and %d demands, want at least one of each", len(table), len(demands))
	}
	var out Choice
	for _, m := range table {
		out.Motor, out.Duty = m, Duty{}
		why := ""
		for i, d := range demands {
			duty, err := t.Duty(d, m)
			if err != nil {
				return Choice{}, fmt.Errorf("choice of a motor: demand %d: %w", i+1, err)
			}
			if duty.Heat > out.Duty.Heat || i == 0 {
				out.Duty = duty
			}
			switch {
			case duty.TopSpeed > m.Top:
				why = fmt.Sprintf("%s: %.0f rpm, turns at most %.0f", m.Name, duty.TopSpeed/units.Rpm, m.Top/units.Rpm)
			case duty.Margin > peak:
				why = fmt.Sprintf("%s: needs %.0f %% of its greatest torque, want at most %.0f %%", m.Name, 100*duty.Margin, 100*peak)
			case math.Max(duty.Heat, duty.HeatPeak) > heat:
				why = fmt.Sprintf("%s: heated to %.0f %%, want at most %.0f %%", m.Name, 100*math.Max(duty.Heat, duty.HeatPeak), 100*heat)
			}
		}
		if why == "" {
			return out, nil
		}
		out.Rejected = append(out.Rejected, why)
	}
	return Choice{}, fmt.Errorf("choice of a motor: none of %d suits; %s: change the ratio or take a larger one", len(table), out.Rejected[len(out.Rejected)-1])
}

// A Halt is what a brake on the motor's side does with a moving axis.
type Halt struct {
	Torque units.Moment // that stops it in the time
	Energy units.Energy // that the brake takes
	Angle  units.Angle  // of the motor, to rest
}

// Brake is what stops inertia at the motor from a speed in a time, with no load
// but a constant one that drives on.
//
// Inertia, speed and load are 0 or more, the time more than 0; outside it panics.
//
// Caution: a holding brake wears out when it stops a moving axis; ask the maker
// for the energy and the count of stops that it bears.
//
// Source: equilibrium, derived here.
func Brake(inertia units.Inertia, speed units.AngularSpeed, time units.Time, load units.Moment) Halt {
	argument.Demand("drive: Brake", argument.NotNegative("inertia", inertia), argument.NotNegative("speed", speed), argument.Positive("time", time), argument.NotNegative("load", load))
	h := Halt{Torque: inertia*speed/time + load, Angle: speed * time / 2}
	h.Energy = h.Torque * h.Angle
	return h
}

// Draw draws torque over speed of the motor, without sign: what it gives for ever
// and for a moment, and a point for each time of the duty.
//
// The figure's x axis is an angular speed, its y axis a moment. It panics when a
// field of the motor is out of range.
//
// Source: as Motor.
func (d Duty) Draw(fig *sheet.Figure, m Motor) {
	argument.Demand("drive: Duty.Draw", m.check())
	fig.Axes("AngularSpeed", "Moment")
	var speeds, lasting, most []float64
	const n = 90
	for i := range n + 1 {
		w := m.Top * (float64(i) / n)
		speeds, lasting, most = append(speeds, w), append(lasting, m.Continuous(w)), append(most, m.Most(w))
	}
	fig.Curve("for a moment", speeds, most)
	fig.Curve("lasting", speeds, lasting)
	var xs, ys []float64
	for i := range d.Time {
		xs, ys = append(xs, math.Abs(d.Speed[i])), append(ys, math.Abs(d.Torque[i]))
	}
	fig.Curve("the programme", xs, ys)
	fig.Mark("rms", d.MeanSpeed, d.Rms)
}
