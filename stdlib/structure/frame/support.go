package frame

import (
	"cmp"
	"fmt"
	"math"

	"tautline/stdlib/internal/argument"
	"tautline/stdlib/internal/beam"
	"tautline/stdlib/internal/vector"
	"tautline/stdlib/units"
)

// A Support holds a node. Its axes are the global ones unless Up or Forward say
// otherwise.
type Support struct {
	Node       Node
	X, Y, Z    bool // held against moving along
	RX, RY, RZ bool // held against turning about

	// Springs hold what is not held above.
	KX, KY, KZ    units.ForcePerLength
	KRX, KRY, KRZ units.RotationalStiffness

	// Lifts says that the support pushes along its z and never pulls: a pad on
	// the ground. A node that lifts off is held by nothing of this support, so
	// not sideways either, until it comes down again. Friction has no limit
	// here: compare the reaction's Friction with what the ground gives.
	Lifts bool

	Up      Direction // its z; none is global z
	Forward Direction // its x is the direction nearest to this; none is global x, or y when x runs along Up
}

// Support holds a node as s says, whose Node is set. Springs are 0 or more;
// outside it panics.
func (f *Frame) Support(n Node, s Support) {
	f.demandNode("Support", n)
	argument.Demand("frame: Frame.Support", s.springs())
	s.Node = n
	f.Supports = append(f.Supports, s)
}

func (s Support) springs() error {
	return cmp.Or(argument.NotNegative("KX", s.KX), argument.NotNegative("KY", s.KY), argument.NotNegative("KZ", s.KZ),
		argument.NotNegative("KRX", s.KRX), argument.NotNegative("KRY", s.KRY), argument.NotNegative("KRZ", s.KRZ))
}

// Fix holds a node against every movement.
func (f *Frame) Fix(n Node) {
	f.Support(n, Support{X: true, Y: true, Z: true, RX: true, RY: true, RZ: true})
}

// Pin holds a node against moving, not against turning.
func (f *Frame) Pin(n Node) { f.Support(n, Support{X: true, Y: true, Z: true}) }

// Roller holds a node against moving along one direction only, both ways: that
// of (x, y, z).
func (f *Frame) Roller(n Node, x, y, z units.Number) {
	f.Support(n, Support{Z: true, Up: Direction{x, y, z}})
}

// Pad stands a node on the ground: pushed up, never pulled down, and held against
// sliding while it stands. The stiffness is that of a rubber pad, 0 for a rigid
// one; below 0 it panics.
func (f *Frame) Pad(n Node, stiffness units.ForcePerLength) {
	f.Support(n, Support{X: true, Y: true, Z: stiffness == 0, KZ: stiffness, Lifts: true})
}

// beam.Basis is the support's own axes.
func (s Support) basis() (beam.Basis, error) {
	if s.Up == (Direction{}) && s.Forward == (Direction{}) {
		return beam.Global, nil
	}
	z, x := vector.Vector{s.Up.X, s.Up.Y, s.Up.Z}, vector.Vector{s.Forward.X, s.Forward.Y, s.Forward.Z}
	if z == (vector.Vector{}) {
		z = beam.Global[2]
	}
	z = z.Unit()
	if x == (vector.Vector{}) {
		x = beam.Global[0]
		if math.Abs(z.Dot(x)) > 0.999 {
			x = beam.Global[1]
		}
	}
	y := z.Cross(x)
	if !(y.Length() > 1e-6*x.Length()) {
		return beam.Basis{}, fmt.Errorf("support axes: got Forward along Up, want two directions")
	}
	y = y.Unit()
	return beam.Basis{y.Cross(z), y, z}, nil
}

func (s Support) held() [6]bool { return [6]bool{s.X, s.Y, s.Z, s.RX, s.RY, s.RZ} }
func (s Support) stiffness() [6]float64 {
	return [6]float64{s.KX, s.KY, s.KZ, s.KRX, s.KRY, s.KRZ}
}
