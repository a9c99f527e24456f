package shaft

import (
	"cmp"
	"fmt"
	"math"

	"tautline/stdlib/internal/argument"
	"tautline/stdlib/units"
)

// A Screw is a power screw with a sliding nut.
type Screw struct {
	Pitch    units.Length // pitch diameter, more than 0
	Lead     units.Length // advance in one turn, more than 0
	Friction units.Number // of thread on nut, 0 or more
	Flank    units.Angle  // of the thread from square to the axis: 0 for a square thread, 15° for a trapezoidal one of 30°
}

// A ScrewDrive is what it takes to drive a screw.
type ScrewDrive struct {
	Raise       units.Moment // torque against the load
	Lower       units.Moment // torque with the load; below 0 the screw must be held
	LeadAngle   units.Angle
	Efficiency  units.Number
	SelfLocking bool // the load alone does not turn it
}

// Drive is the torque that moves a load along the screw, without that of its
// thrust bearing.
//
// The force along the screw is more than 0. A number out of range is an error, as
// is a thread so steep and rough that it cannot be raised.
//
// Caution: a screw that is just self-locking creeps down when it is shaken, and a
// worn nut drops its load: a second nut, or a brake, holds a rider.
//
// Source: Shigley, Mechanical Engineering Design, 10th edition, equations 8-1 to
// 8-5.
func (s Screw) Drive(force units.Force) (ScrewDrive, error) {
	err := cmp.Or(argument.Positive("force", force), argument.Positive("pitch diameter", s.Pitch), argument.Positive("lead", s.Lead),
		argument.NotNegative("friction", s.Friction), argument.Within("flank angle", s.Flank, 0, 45*units.Deg))
	if err != nil {
		return ScrewDrive{}, fmt.Errorf("screw: %w", err)
	}
	mu := s.Friction / math.Cos(s.Flank)
	around := math.Pi * s.Pitch
	if mu*s.Lead >= around {
		return ScrewDrive{}, fmt.Errorf("screw: lead: got %g mm, want less than %g mm with this friction: it jams", s.Lead/units.Mm, around/mu/units.Mm)
	}
	d := ScrewDrive{
		Raise:     force * s.Pitch / 2 * (s.Lead + mu*around) / (around - mu*s.Lead),
		Lower:     force * s.Pitch / 2 * (mu*around - s.Lead) / (around + mu*s.Lead),
		LeadAngle: math.Atan(s.Lead / around),
	}
	d.Efficiency = force * s.Lead / (2 * math.Pi * d.Raise)
	d.SelfLocking = d.Lower > 0
	return d, nil
}

// BallScrewTorque is the torque that drives a ball screw against a load.
//
//	T = force*lead/(2*pi*efficiency)
//
// The force is 0 or more, the lead more than 0, the efficiency more than 0.5 to 1.
// Outside it panics.
//
// Source: conservation of energy.
func BallScrewTorque(force units.Force, lead units.Length, efficiency units.Number) units.Moment {
	argument.Demand("shaft: BallScrewTorque", argument.NotNegative("force", force), argument.Positive("lead", lead), argument.Within("efficiency", efficiency, math.Nextafter(0.5, 1), 1))
	return force * lead / (2 * math.Pi * efficiency)
}

// BallScrewHolding is the torque with which a load turns a ball screw backwards,
// and which a brake must hold.
//
//	T = force*lead*(2 - 1/efficiency)/(2*pi)
//
// The arguments are those of BallScrewTorque, with the efficiency of driving.
//
// Caution: a ball screw never locks itself. What holds a rider up needs a brake.
//
// Source: the same friction loss in both directions; ball screw catalogues.
func BallScrewHolding(force units.Force, lead units.Length, efficiency units.Number) units.Moment {
	argument.Demand("shaft: BallScrewHolding", argument.NotNegative("force", force), argument.Positive("lead", lead), argument.Within("efficiency", efficiency, math.Nextafter(0.5, 1), 1))
	return force * lead * (2 - 1/efficiency) / (2 * math.Pi)
}
