package motion

import (
	"fmt"

	"tautline/stdlib/internal/argument"
	"tautline/stdlib/units"
)

// A Push is what acts on an axis from its drive's side.
type Push struct {
	Free    bool          // nothing steers the axis: it does what torque and weight make it do
	Torque  units.Moment  // of brake and friction on a free axis, positive with the angle
	Inertia units.Inertia // that turns with a free axis besides the bodies: motor and train, by the square of their ratio; 0 or more
}

// Accelerate is the state with the accelerations that free axes take, under
// torque, weight and what the other axes do; an axis that is not free keeps that
// of the state. The jerk of a free axis is given as 0.
//
// Bodies as in Base.Load, numbers out of range and a free axis on which nothing
// has inertia are an error; a state that is not finite panics.
//
// Source: Newton's and Euler's equations of rigid bodies, solved for the
// accelerations, derived here.
func (b Base) Accelerate(s State, bodies []Body, yaw, pitch, roll Push) (State, error) {
	argument.Demand("motion: Base.Accelerate", s.check())
	for _, body := range bodies {
		if err := body.check(); err != nil {
			return State{}, fmt.Errorf("acceleration: %w", err)
		}
	}
	pushes := [3]Push{yaw, pitch, roll}
	axes := [3]*AxisState{&s.Yaw, &s.Pitch, &s.Roll}
	for k, p := range pushes {
		for _, err := range []error{argument.Finite("torque", p.Torque), argument.NotNegative("inertia", p.Inertia)} {
			if err != nil {
				return State{}, fmt.Errorf("acceleration: %s: %w", axisNames[k], err)
			}
		}
		if p.Free {
			axes[k].Acceleration, axes[k].Jerk = 0, 0
		}
	}
	still := b.load(s, bodies)
	need := [3]float64{still.Yaw, still.Pitch, still.Roll}
	inertia := b.inertia(s, bodies)
	// Rows of the free axes, the torque that is left at the right.
	var rows [3][4]float64
	for k, p := range pushes {
		if !p.Free {
			rows[k][k] = 1
			continue
		}
		for j, other := range pushes {
			if other.Free {
				rows[k][j] = inertia[k][j]
			}
		}
		rows[k][k] += p.Inertia
		rows[k][3] = p.Torque - need[k]
	}
	for k := range rows {
		if !(rows[k][k] > 1e-12) { // kg·m²
			return State{}, fmt.Errorf("acceleration: %s: got a free axis without inertia, want a body or a motor on it", axisNames[k])
		}
		for j := k + 1; j < 3; j++ {
			share := rows[j][k] / rows[k][k]
			for i := k; i < 4; i++ {
				rows[j][i] -= share * rows[k][i]
			}
		}
	}
	var a [3]float64
	for k := 2; k >= 0; k-- {
		a[k] = rows[k][3]
		for j := k + 1; j < 3; j++ {
			a[k] -= rows[k][j] * a[j]
		}
		a[k] /= rows[k][k]
		if pushes[k].Free {
			axes[k].Acceleration = a[k]
		}
	}
	return s, nil
}

// inertia is the torque of each axis for one unit of acceleration of each, of
// bodies at rest without weight.
func (b Base) inertia(s State, bodies []Body) (m [3][3]float64) {
	turns := s.turns()
	var axes, pivots [3][3]float64
	places := [3]Point{{}, b.PitchAxis, b.RollAxis}
	for k := range axes {
		axes[k][2-k] = 1
		for j := k - 1; j >= 0; j-- {
			axes[k] = turns[j].outNow(axes[k])
		}
		pivots[k] = b.worldNow(turns, max(k-1, 0), places[k])
	}
	for _, body := range bodies {
		part := body.part()
		at := b.worldNow(turns, part, body.At)
		own := [3]float64{body.X, body.Y, body.Z}
		var moved, turned [3][3]float64 // by one unit of speed of each axis: the centre in the world, the body in its own axes
		for k := 0; k <= part; k++ {
			arm := at
			for i := range arm {
				arm[i] -= pivots[k][i]
			}
			moved[k] = cross(axes[k], arm)
			turned[k][2-k] = 1 // an axis is fixed to the part that it carries
			for j := k + 1; j <= part; j++ {
				turned[k] = turns[j].inNow(turned[k])
			}
		}
		for k := 0; k <= part; k++ {
			for j := 0; j <= part; j++ {
				m[k][j] += body.Mass * dot(moved[k], moved[j])
				for i := range own {
					m[k][j] += own[i] * turned[k][i] * turned[j][i]
				}
			}
		}
	}
	return m
}

// outNow and inNow are out and in without derivatives.
func (t turn) outNow(v [3]float64) [3]float64 {
	i, j := (t.axis+1)%3, (t.axis+2)%3
	v[i], v[j] = t.cos[0]*v[i]-t.sin[0]*v[j], t.sin[0]*v[i]+t.cos[0]*v[j]
	return v
}

func (t turn) inNow(v [3]float64) [3]float64 {
	i, j := (t.axis+1)%3, (t.axis+2)%3
	v[i], v[j] = t.cos[0]*v[i]+t.sin[0]*v[j], t.cos[0]*v[j]-t.sin[0]*v[i]
	return v
}

// worldNow is world without derivatives.
func (b Base) worldNow(turns [3]turn, part int, at Point) [3]float64 {
	v := [3]float64{at.X, at.Y, at.Z}
	for k := part; k >= 0; k-- {
		v = turns[k].outNow(v)
		offset := Point{}
		switch k {
		case 1:
			offset = b.PitchAxis
		case 2:
			offset = b.RollAxis
		}
		v[0], v[1], v[2] = v[0]+offset.X, v[1]+offset.Y, v[2]+offset.Z
	}
	return v
}
