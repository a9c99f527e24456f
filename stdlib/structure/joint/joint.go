// Package joint calculates what holds a steel frame together: bolts, pins,
// fillet welds, base plates and hollow-section joints.
//
// Three families of nouns. A Bolt, a Pin and a Weld say what the fastener is and
// what it may carry. A BoltGroup and a WeldGroup share an Action out among
// fasteners, elastically, as a rigid plate on springs does. A BasePlate, a
// HoldDown, a TStub and a TubeJoint are whole connections with the plates they
// bend.
//
//	f := joint.RecommendedFactors()
//	bolt := sheet.Must(joint.NewBolt("M16", "8.8"))
//	group := joint.BoltGroup{Y: ys, Z: zs}
//	worst := sheet.Must(group.Worst(joint.Action{Fz: -20 * units.KN, Mx: 4 * units.KNm}, bolt.ThreadShear(f), bolt.Tension(f)))
//	sheet.AtMost("bolts", worst.Utilisation, 1)
//
// Axes are those of the member that ends at the joint: x along it and out of the
// plate, y and z in the plate, right-handed. So the end forces of a frame
// analysis are an Action as they stand. Tension is positive.
//
// Invariants: resistances are design values, with the partial factor that is
// passed; a strength that depends on the steel's fu takes fu as a number,
// because EN 1993-1-1 and the product standards give different ones for the same
// grade. The rules are those of EN 1993-1-8:2005; its second generation
// (EN 1993-1-8:2024) changes the bearing of bolts among others.
//
// People sit on what is joined here. The numbers support a competent designer;
// local law, the standards that apply and licensed practice come before them,
// and a weld counts only when a qualified welder made it and someone looked at
// it.
package joint

import (
	"cmp"
	"math"

	"tautline/stdlib/internal/argument"
	"tautline/stdlib/internal/vector"
	"tautline/stdlib/units"
)

// An Action is what a member does to its joint: three forces and three moments
// about the origin of the joint's axes.
type Action struct {
	Fx, Fy, Fz units.Force
	Mx, My, Mz units.Moment // right-handed about each axis
}

func (a Action) check() error {
	return cmp.Or(argument.Finite("force Fx", a.Fx), argument.Finite("force Fy", a.Fy), argument.Finite("force Fz", a.Fz),
		argument.Finite("moment Mx", a.Mx), argument.Finite("moment My", a.My), argument.Finite("moment Mz", a.Mz))
}

// A Point is a place in the joint's axes.
type Point struct{ X, Y, Z units.Length }

func (p Point) vector() vector.Vector { return vector.Vector{p.X, p.Y, p.Z} }

func (p Point) check(what string) error {
	return cmp.Or(argument.Finite(what+", x", p.X), argument.Finite(what+", y", p.Y), argument.Finite(what+", z", p.Z))
}

// Factors are the partial factors on resistance.
type Factors struct {
	M0     units.Number // of cross-sections
	M2     units.Number // of bolts, rivets, pins, welds and plates in bearing
	M3     units.Number // of slip at the ultimate limit
	M3Ser  units.Number // of slip in service
	M5     units.Number // of joints of hollow sections
	M6Ser  units.Number // of pins in service
	Source string
}

// RecommendedFactors are the values recommended in the Eurocode. A National
// Annex may set others.
//
// Source: EN 1993-1-8:2005, 2.2(2), Table 2.1.
func RecommendedFactors() Factors {
	return Factors{
		M0: 1.00, M2: 1.25, M3: 1.25, M3Ser: 1.10, M5: 1.00, M6Ser: 1.00,
		Source: "EN 1993-1-8:2005, Table 2.1, recommended values",
	}
}

// factor reports an error unless a partial factor is 1 or more.
func factor(name string, v float64) error {
	return argument.Within("partial factor "+name+" (take RecommendedFactors)", v, 1, math.MaxFloat64)
}
