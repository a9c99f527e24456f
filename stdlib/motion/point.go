package motion

import (
	"math"

	"tautline/stdlib/internal/argument"
	"tautline/stdlib/units"
)

type (
	// Velocity is a speed with a direction.
	Velocity struct{ X, Y, Z units.Speed }
	// Acceleration is an acceleration with a direction.
	Acceleration struct{ X, Y, Z units.Acceleration }
	// Jerk is the rate of change of an acceleration.
	Jerk struct{ X, Y, Z units.Jerk }
	// Rate is an angular velocity.
	Rate struct{ X, Y, Z units.AngularSpeed }
	// RateChange is the rate of change of the components of a Rate.
	RateChange struct{ X, Y, Z units.AngularAcceleration }
)

// Size is the length of the vector.
//
//	n = sqrt(v.X*v.X + v.Y*v.Y + v.Z*v.Z)
//
// Source: theorem of Pythagoras.
func (v Velocity) Size() units.Speed { return math.Sqrt(v.X*v.X + v.Y*v.Y + v.Z*v.Z) }

// Size is the length of the vector.
//
//	n = sqrt(a.X*a.X + a.Y*a.Y + a.Z*a.Z)
//
// Source: theorem of Pythagoras.
func (a Acceleration) Size() units.Acceleration { return math.Sqrt(a.X*a.X + a.Y*a.Y + a.Z*a.Z) }

// Size is the length of the vector.
//
//	n = sqrt(j.X*j.X + j.Y*j.Y + j.Z*j.Z)
//
// Source: theorem of Pythagoras.
func (j Jerk) Size() units.Jerk { return math.Sqrt(j.X*j.X + j.Y*j.Y + j.Z*j.Z) }

// A Path is where a point of the ride is and how it moves, in the world.
type Path struct {
	At           Point
	Velocity     Velocity
	Acceleration Acceleration
	Jerk         Jerk
}

// Point is how a point of the roll part moves in the world, where the base is in
// a state. at is counted from the roll axis in the roll part.
//
// The result is the exact derivative of the position, with every Coriolis and
// centrifugal part in it. It panics when a number is not finite.
//
// Source: rigid-body kinematics, derived here: the position as a product of
// rotations, differentiated three times by the rule of Leibniz.
func (b Base) Point(s State, at Point) Path {
	argument.Demand("motion: Base.Point", s.check(), finite("place", at.X, at.Y, at.Z))
	p := b.world(s.turns(), 2, at)
	return Path{
		At:           Point(xyz(p.order(0))),
		Velocity:     Velocity(xyz(p.order(1))),
		Acceleration: Acceleration(xyz(p.order(2))),
		Jerk:         Jerk(xyz(p.order(3))),
	}
}

func xyz(v [3]float64) struct{ X, Y, Z float64 } {
	return struct{ X, Y, Z float64 }{v[0], v[1], v[2]}
}

func (s State) check() error {
	for i, a := range s.axes() {
		if err := finite(axisNames[i], a.Position, a.Speed, a.Acceleration, a.Jerk); err != nil {
			return err
		}
	}
	return nil
}

// world is the place in the world of a point of the part that an axis carries:
// 0 the yaw part, 1 the pitch part, 2 the roll part.
func (b Base) world(turns [3]turn, part int, at Point) vector {
	v := fixed(at)
	for k := part; k >= 0; k-- {
		v = turns[k].out(v)
		switch k {
		case 1:
			v = v.plus(fixed(b.PitchAxis))
		case 2:
			v = v.plus(fixed(b.RollAxis))
		}
	}
	return v
}

// rates are the angular velocities of the parts, each in its own axes.
func (s State) rates(turns [3]turn) [3]vector {
	var rates [3]vector
	var w vector
	for k, a := range s.axes() {
		w = turns[k].in(w)
		axis := 2 - k
		w[axis] = w[axis].plus(a.jet().derivative())
		rates[k] = w
	}
	return rates
}

// A Spin is the angular velocity of the roll part in its own axes, and how that
// changes.
type Spin struct {
	Rate   Rate
	Change RateChange
}

// Spin is the angular velocity of the roll part in its own axes.
//
// With yaw ψ, pitch θ and roll φ the rates are φ'-ψ'·sin θ, θ'·cos φ+ψ'·cos θ·sin φ
// and -θ'·sin φ+ψ'·cos θ·cos φ. It panics when a number is not finite.
//
// Source: rigid-body kinematics, derived here.
func (s State) Spin() Spin {
	argument.Demand("motion: State.Spin", s.check())
	w := s.rates(s.turns())[2]
	return Spin{Rate(xyz(w.order(0))), RateChange(xyz(w.order(1)))}
}

// Felt is what a rider feels, in the rider's axes: x forward, y to the left, z
// up along the spine. Positive X presses the back into the seat, positive Y
// presses the right side, positive Z the seat; a negative Z lifts the rider out.
type Felt struct {
	X, Y, Z units.Acceleration // specific force: acceleration less that of free fall
	Jerk    Jerk               // its rate of change, in the same axes
}

// Felt is what the rider on a seat feels, where the base is in a state. Seats
// count from 0.
//
// At rest and upright it is one g along z; in free fall nothing. It panics when
// there is no such seat or a number is not finite.
//
// Caution: this is at the seat's point and before any filter; a head that nods
// and a loose body feel more.
//
// Source: rigid-body kinematics, derived here; axes as in ISO 2631-1:1997,
// Figure 1, seated person (from memory: verify against the document).
func (b Base) Felt(s State, seat int) Felt {
	argument.Demand("motion: Base.Felt", argument.Within("seat", float64(seat), 0, float64(len(b.Seats)-1)), s.check())
	at := b.Seats[seat]
	turns := s.turns()
	f := b.world(turns, 2, at.At).derivative().derivative()
	f[2][0] += units.Gn
	for _, t := range turns {
		f = t.in(f)
	}
	f = newTurn(2, jet{at.Facing}).in(f)
	f = newTurn(1, jet{-at.Recline}).in(f)
	return Felt{f[0][0], f[1][0], f[2][0], Jerk(xyz(f.order(1)))}
}
