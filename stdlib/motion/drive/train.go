package drive

import (
	"fmt"
	"math"

	"tautline/stdlib/internal/argument"
	"tautline/stdlib/units"
)

// A Train is what stands between a motor and an axis.
type Train struct {
	Ratio      units.Number  // motor turns for one of the axis, more than 0
	Efficiency units.Number  // with the motor driving, more than 0 to 1
	Backward   units.Number  // with the axis driving, 0 to 1; 0 does not run backward
	Inertia    units.Inertia // on the motor's side, without the motor's own
	Friction   units.Moment  // at the axis, against its motion, 0 or more
}

func (t Train) check() error {
	for _, err := range []error{
		argument.Positive("ratio", t.Ratio), argument.Within("efficiency", t.Efficiency, 1e-9, 1), argument.Within("efficiency backward", t.Backward, 0, 1),
		argument.NotNegative("inertia of the train", t.Inertia), argument.NotNegative("friction", t.Friction),
	} {
		if err != nil {
			return err
		}
	}
	return nil
}

// Backward is the efficiency of a gear or a screw with the load driving, where
// its losses are the same as with the motor driving: 0 where it holds by itself.
//
//	etaBack = max(2 - 1/eta, 0)
//
// eta is the efficiency with the motor driving, more than 0 to 1; outside it
// panics.
//
// Caution: what holds by itself on paper creeps when it shakes. It is no brake.
//
// Source: equal friction both ways, derived here; for screws usual in the makers'
// catalogues.
func Backward(eta units.Number) units.Number {
	argument.Demand("drive: Backward", argument.Within("efficiency", eta, 1e-9, 1))
	return math.Max(2-1/eta, 0)
}

// Reflected is the inertia of a load as the motor feels it.
//
//	J = load/(ratio*ratio)
//
// The load is 0 or more, the ratio more than 0; outside it panics.
//
// Source: equilibrium, derived here: kinetic energy.
func Reflected(load units.Inertia, ratio units.Number) units.Inertia {
	argument.Demand("drive: Reflected", argument.NotNegative("load", load), argument.Positive("ratio", ratio))
	return load / (ratio * ratio)
}

// BestRatio is the ratio at which a motor gives a load without friction the
// greatest acceleration: it then feels as much inertia as its own.
//
//	i = sqrt(load/motor)
//
// The load is 0 or more, the motor's inertia with what turns with it more than 0;
// outside it panics.
//
// Source: equilibrium, derived here.
func BestRatio(load, motor units.Inertia) units.Number {
	argument.Demand("drive: BestRatio", argument.NotNegative("load", load), argument.Positive("motor", motor))
	return math.Sqrt(load / motor)
}

// A Screw is a screw and a nut that push a lever of an axis.
type Screw struct {
	Lead       units.Length // of the screw for one turn, more than 0
	Diameter   units.Length // of the pitch circle, for a screw that slides; 0 for one with balls
	Friction   units.Number // between thread and nut, for a screw that slides
	HalfAngle  units.Angle  // of the thread's flanks; 0 is square
	Efficiency units.Number // of a screw with balls
	Lever      units.Length // of the axis, square to the screw, more than 0
}

func (s Screw) check() error {
	for _, err := range []error{argument.Positive("lead", s.Lead), argument.NotNegative("diameter", s.Diameter)} {
		if err != nil {
			return err
		}
	}
	if s.Diameter == 0 {
		return argument.Within("efficiency", s.Efficiency, 1e-9, 1)
	}
	if err := argument.NotNegative("friction", s.Friction); err != nil {
		return err
	}
	if err := argument.Within("half angle", s.HalfAngle, 0, 1); err != nil {
		return err
	}
	// The thread must be one that a motor can turn.
	return argument.Above("clearance of the lead angle", math.Pi*s.Diameter*math.Cos(s.HalfAngle)-s.Friction*s.Lead, 0)
}

// Forward is the efficiency of the screw with the motor driving.
//
// It panics when a field is out of range.
//
// Source: inclined plane; for a trapezoidal thread friction over the cosine of the
// half angle, after R. Budynas and K. Nisbett, Shigley's Mechanical Engineering
// Design, chapter 8 (from memory: verify against the document).
func (s Screw) Forward() units.Number {
	argument.Demand("drive: Screw.Forward", s.check())
	if s.Diameter == 0 {
		return s.Efficiency
	}
	return s.Lead / (2 * math.Pi) / (s.Diameter / 2 * s.climb(1))
}

// climb is the tangent of the slope that the load climbs with friction (sign 1),
// or goes down with friction against it (-1).
func (s Screw) climb(sign float64) float64 {
	mu := s.Friction / math.Cos(s.HalfAngle)
	slope := s.Lead / (math.Pi * s.Diameter)
	return (slope + sign*mu) / (1 - sign*mu*slope)
}

// Raise is the torque at the screw that pushes a force along it.
//
// The force is finite; else it panics, as when a field is out of range.
//
// Source: as Forward.
func (s Screw) Raise(force units.Force) units.Moment {
	argument.Demand("drive: Screw.Raise", argument.Finite("force", force))
	return force * s.Lead / (2 * math.Pi) / s.Forward()
}

// Lower is the torque at the screw that lets a force come down along it: positive
// has to drive it down, since the screw holds by itself; negative has to hold it
// back.
//
// The force is finite; else it panics, as when a field is out of range.
//
// Source: as Forward; for a screw with balls as Backward.
func (s Screw) Lower(force units.Force) units.Moment {
	argument.Demand("drive: Screw.Lower", s.check(), argument.Finite("force", force))
	if s.Diameter == 0 {
		return -force * s.Lead / (2 * math.Pi) * Backward(s.Efficiency)
	}
	return -force * s.Diameter / 2 * s.climb(-1)
}

// Train is the screw as a train, near the middle of its stroke, where the lever
// is square to it.
//
// The lever is more than 0; else it panics, as when a field is out of range.
// Inertia and friction are to be added.
//
// Source: equilibrium, derived here.
func (s Screw) Train() Train {
	argument.Demand("drive: Screw.Train", s.check(), argument.Positive("lever", s.Lever))
	back := 0.0
	if s.Diameter == 0 {
		back = Backward(s.Efficiency)
	} else {
		back = math.Max(s.Diameter*math.Pi/s.Lead*s.climb(-1), 0)
	}
	return Train{Ratio: 2 * math.Pi * s.Lever / s.Lead, Efficiency: s.Forward(), Backward: back}
}

// A Demand is torque and motion of an axis over time, one value of each for each
// time. The torque is what the axis's part needs, as motion.Loads gives it.
type Demand struct {
	Time         []units.Time // rising
	Torque       []units.Moment
	Speed        []units.AngularSpeed
	Acceleration []units.AngularAcceleration
}

func (d Demand) check() error {
	n := len(d.Time)
	if n < 2 || len(d.Torque) != n || len(d.Speed) != n || len(d.Acceleration) != n {
		return fmt.Errorf("got %d times, %d torques, %d speeds, %d accelerations, want as many of each, two or more", n, len(d.Torque), len(d.Speed), len(d.Acceleration))
	}
	for i := range n {
		if i > 0 && !(d.Time[i] > d.Time[i-1]) {
			return fmt.Errorf("time %d: got %g s after %g s, want rising times", i+1, d.Time[i], d.Time[i-1])
		}
		for _, v := range []float64{d.Time[i], d.Torque[i], d.Speed[i], d.Acceleration[i]} {
			if v-v != 0 {
				return fmt.Errorf("value %d: got %g, want a finite number", i+1, v)
			}
		}
	}
	return nil
}
