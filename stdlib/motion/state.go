package motion

import (
	"math"

	"tautline/stdlib/internal/argument"
	"tautline/stdlib/units"
)

// An AxisState is where an axis is and how it moves.
type AxisState struct {
	Position     units.Angle
	Speed        units.AngularSpeed
	Acceleration units.AngularAcceleration
	Jerk         units.AngularJerk
}

func (a AxisState) jet() jet { return jet{a.Position, a.Speed, a.Acceleration, a.Jerk} }

// A State is where a base's axes are and how they move.
type State struct{ Yaw, Pitch, Roll AxisState }

// Pose is the state of a base that stands still at three angles.
func Pose(yaw, pitch, roll units.Angle) State {
	return State{AxisState{Position: yaw}, AxisState{Position: pitch}, AxisState{Position: roll}}
}

func (s State) axes() [3]AxisState { return [3]AxisState{s.Yaw, s.Pitch, s.Roll} }

// turns are the rotations about z, y and x, in the order in which they carry each
// other.
func (s State) turns() [3]turn {
	return [3]turn{newTurn(2, s.Yaw.jet()), newTurn(1, s.Pitch.jet()), newTurn(0, s.Roll.jet())}
}

// A Rotation turns vectors of the roll part into the world.
type Rotation struct {
	XX, XY, XZ units.Number // world x of the part's x, y and z
	YX, YY, YZ units.Number
	ZX, ZY, ZZ units.Number
}

// Rotation is the matrix Rz(yaw)·Ry(pitch)·Rx(roll).
//
// Source: equilibrium of definitions, derived here: rotations about z, the turned
// y and the turned x.
func (s State) Rotation() Rotation {
	var m [3][3]float64
	turns := s.turns()
	for i := range 3 {
		var e vector
		e[i][0] = 1
		for k := 2; k >= 0; k-- {
			e = turns[k].out(e)
		}
		for j := range 3 {
			m[j][i] = e[j][0]
		}
	}
	return Rotation{m[0][0], m[0][1], m[0][2], m[1][0], m[1][1], m[1][2], m[2][0], m[2][1], m[2][2]}
}

// A Quaternion is a rotation as one real and three imaginary parts, of length 1
// and with W not below 0.
type Quaternion struct{ W, X, Y, Z units.Number }

// Quaternion is the rotation of the roll part as a quaternion.
//
// Source: product of the three half-angle quaternions, derived here.
func (s State) Quaternion() Quaternion {
	sy, cy := math.Sincos(s.Yaw.Position / 2)
	sp, cp := math.Sincos(s.Pitch.Position / 2)
	sr, cr := math.Sincos(s.Roll.Position / 2)
	q := Quaternion{
		W: cy*cp*cr + sy*sp*sr,
		X: cy*cp*sr - sy*sp*cr,
		Y: cy*sp*cr + sy*cp*sr,
		Z: sy*cp*cr - cy*sp*sr,
	}
	if q.W < 0 {
		return Quaternion{-q.W, -q.X, -q.Y, -q.Z}
	}
	return q
}

// Angles are yaw, pitch and roll of a rotation.
type Angles struct {
	Yaw, Pitch, Roll units.Angle
	Locked           bool // pitch is within 1e-6 rad of ±π/2: only yaw minus or plus roll is known, and all of it is given as yaw
}

// Angles are the yaw, pitch and roll that make this rotation, pitch from -π/2 to
// π/2, the others from -π to π.
//
// It panics unless the rotation is one: rows of length 1 within 1e-9.
//
// Source: derived here from Rz(yaw)·Ry(pitch)·Rx(roll).
func (r Rotation) Angles() Angles {
	for _, row := range [][3]float64{{r.XX, r.XY, r.XZ}, {r.YX, r.YY, r.YZ}, {r.ZX, r.ZY, r.ZZ}} {
		argument.Demand("motion: Rotation.Angles", argument.Within("length of a row", math.Sqrt(dot(row, row)), 1-1e-9, 1+1e-9))
	}
	level := math.Hypot(r.XX, r.YX)
	a := Angles{Pitch: math.Atan2(-r.ZX, level)}
	if level < 1e-6 {
		a.Locked = true
		a.Yaw = math.Atan2(-r.XY, r.YY)
		return a
	}
	a.Yaw, a.Roll = math.Atan2(r.YX, r.XX), math.Atan2(r.ZY, r.ZZ)
	return a
}
