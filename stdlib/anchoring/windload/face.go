package windload

import (
	"cmp"
	"fmt"
	"math"

	"tautline/stdlib/anchoring"
	"tautline/stdlib/internal/argument"
	"tautline/stdlib/units"
)

// A Face is one side of a device in the wind. Box, Ring, InnerRing and Wall
// make faces of usual shapes.
type Face struct {
	Name   string
	At     anchoring.Point // its middle
	Area   units.Area      // of the outline, holes included, 0 or more
	Facing units.Angle     // bearing that its outer side looks to
	Tilt   units.Angle     // by which its outer side looks up: 0 a wall, 90° a roof; -90° to 90°
	// Coefficient is of the force along the wind, on the projected area: pressure
	// and, where nothing else stands for it, suction on the lee side; 0 or more.
	Coefficient units.Number
	// Suction is a pressure outward, square to the face, over the velocity
	// pressure, whatever the wind's direction: the lift of a roof. Below 0 it
	// presses on the face.
	Suction  units.Number
	Solidity units.Number // share of the area that is not holes: 1 solid, a net some 0.3; more than 0 to 1
	Open     bool         // the wind meets it from behind, too: a lone wall, a net
}

// Check reports an error when a field is out of its range. Not for cells.
func (f Face) Check() error {
	err := cmp.Or(f.At.Check("middle"), argument.NotNegative("area", f.Area), argument.Finite("facing", f.Facing), argument.Within("tilt", f.Tilt, -math.Pi/2, math.Pi/2),
		argument.NotNegative("force coefficient", f.Coefficient), argument.Finite("suction", f.Suction),
		argument.Positive("solidity (1 for a solid face)", f.Solidity), argument.Within("solidity", f.Solidity, 0, 1))
	if err != nil {
		return fmt.Errorf("face %q: %w", f.Name, err)
	}
	return nil
}

// Warnings says what is doubtful about the face. Not for cells.
func (f Face) Warnings() []string {
	if f.Coefficient > 0 && f.Coefficient < 1 {
		return []string{fmt.Sprintf("face %q has a force coefficient of %.2g, below 1: hardly any wall or ring takes so little; say where it comes from", f.Name, f.Coefficient)}
	}
	return nil
}

// Projected is the area that meets a wind from a bearing, holes taken off; 0
// from behind unless the face is open.
//
// The face is within its ranges and the bearing finite; outside it panics.
//
// Source: projection of the face on a plane square to the wind.
func (f Face) Projected(from units.Angle) units.Area {
	argument.Demand("windload: Face.Projected", f.Check(), argument.Finite("from", from))
	share := math.Cos(f.Tilt) * math.Cos(from-f.Facing)
	if f.Open {
		share = math.Abs(share)
	}
	return f.Solidity * f.Area * math.Max(0, share)
}

// A Load is what the wind does to faces: a force, Lift upward, and its moments
// about the origin on the ground, by the right-hand rule.
type Load struct {
	East, North, Lift              units.Force
	AboutEast, AboutNorth, AboutUp units.Moment
	Warnings                       []string
}

// Push is the level force.
//
//	F = sqrt(l.East*l.East + l.North*l.North)
//
// Source: Pythagoras.
func (l Load) Push() units.Force { return math.Sqrt(l.East*l.East + l.North*l.North) }

// Tipping is the moment of the load that tips towards a bearing, over a level
// line through a point and square to the bearing.
//
// It is above 0 when the load drives the tipping. It panics if the point or the
// bearing is not finite.
//
// Source: statics: moment of a force about a line.
func (l Load) Tipping(over anchoring.Point, towards units.Angle) units.Moment {
	argument.Demand("windload: Load.Tipping", over.Check("point"), argument.Finite("towards", towards))
	east := l.AboutEast - (over.Y*l.Lift - over.Z*l.North)
	north := l.AboutNorth - (over.Z*l.East - over.X*l.Lift)
	sin, cos := math.Sincos(towards)
	return north*sin - east*cos
}

// On is what a wind of a velocity pressure, from a bearing, does to faces: on
// each a force along the wind, pressure times coefficient times projected area,
// and its suction square to it. No face shelters another.
//
// The pressure is 0 or more and the bearing finite. A number out of its range is
// an error. A force coefficient below 1 carries a warning. Friction of the wind
// along long faces is not in it.
//
// Caution: a net that is wet, iced or hung with banners is a solid wall.
//
// Source: definition of the force coefficient; projected area as EN 14960-1:2019,
// Annex A, for each side, from memory: verify against the document.
func On(faces []Face, pressure units.Pressure, from units.Angle) (Load, error) {
	var l Load
	size := 0.0
	if err := cmp.Or(argument.NotNegative("velocity pressure", pressure), argument.Finite("from", from)); err != nil {
		return l, fmt.Errorf("wind on faces: %w", err)
	}
	sin, cos := math.Sincos(from)
	for _, f := range faces {
		if err := f.Check(); err != nil {
			return Load{}, fmt.Errorf("wind on faces: %w", err)
		}
		push := pressure * f.Coefficient * f.Projected(from)
		pull := pressure * f.Suction * f.Solidity * f.Area
		sinF, cosF := math.Sincos(f.Facing)
		sinT, cosT := math.Sincos(f.Tilt)
		l.add(f.At, pull*sinF*cosT-push*sin, pull*cosF*cosT-push*cos, pull*sinT)
		size += (push + math.Abs(pull)) * (1 + math.Abs(f.At.X) + math.Abs(f.At.Y) + math.Abs(f.At.Z))
		l.Warnings = append(l.Warnings, f.Warnings()...)
	}
	for _, sum := range []*float64{&l.East, &l.North, &l.Lift, &l.AboutEast, &l.AboutNorth, &l.AboutUp} {
		if math.Abs(*sum) < 1e-14*size {
			*sum = 0 // what faces that face each other left by rounding
		}
	}
	return l, nil
}

// add adds a force at a point.
func (l *Load) add(at anchoring.Point, east, north, up float64) {
	l.East += east
	l.North += north
	l.Lift += up
	l.AboutEast += at.Y*up - at.Z*north
	l.AboutNorth += at.Z*east - at.X*up
	l.AboutUp += at.X*north - at.Y*east
}

// Bearings are n bearings evenly round from north.
//
// n is 1 or more; outside it panics.
//
// Source: definition.
func Bearings(n int) []units.Angle {
	argument.Demand("windload: Bearings", argument.Above("number of bearings", float64(n), 0))
	out := make([]units.Angle, n)
	for i := range out {
		out[i] = 2 * math.Pi * float64(i) / float64(n)
	}
	return out
}

// A Sweep is what a wind of one pressure does from every side.
type Sweep struct {
	From     []units.Angle
	Push     []units.Force  // level force
	Moment   []units.Moment // that tips downwind, about the origin on the ground
	Greatest units.Force    // of Push
	Worst    units.Angle    // bearing from which it comes; the first of equals
	Warnings []string
}

// Around is the wind on faces from n bearings evenly round from north.
//
// n is 1 or more and the pressure 0 or more; a number out of its range is an
// error.
//
// Source: as On.
func Around(faces []Face, pressure units.Pressure, n int) (Sweep, error) {
	if n < 1 {
		return Sweep{}, fmt.Errorf("wind around: number of bearings: got %d, want 1 or more", n)
	}
	s := Sweep{From: Bearings(n)}
	for _, from := range s.From {
		l, err := On(faces, pressure, from)
		if err != nil {
			return Sweep{}, err
		}
		s.Push = append(s.Push, l.Push())
		s.Moment = append(s.Moment, l.Tipping(anchoring.Point{}, from+math.Pi))
		s.Warnings = l.Warnings
		if l.Push() > s.Greatest*(1+1e-12) {
			s.Greatest, s.Worst = l.Push(), from
		}
	}
	return s, nil
}
