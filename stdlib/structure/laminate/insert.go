package laminate

import (
	"fmt"
	"math"

	"tautline/stdlib/internal/argument"
	"tautline/stdlib/units"
)

// Fixing is how something is fastened to a laminate.
type Fixing string

// The fixings.
const (
	Backed  Fixing = "bolt through, with a plate behind"
	BigHead Fixing = "plate with a stud, laminated over"
	Potted  Fixing = "potted into a sandwich core"
)

// An Insert is a fastener in a laminate, pulled square to it.
type Insert struct {
	Fixing    Fixing
	Plate     units.Length   // diameter of the plate, washer or potting
	Thickness units.Length   // of the laminate that the plate would punch through
	Shear     units.Pressure // strength through the thickness, from a test: that in the plane is another one
}

// An InsertResistance is what an insert may hold.
type InsertResistance struct {
	Covered bool
	Why     string      // no rule covers it
	Pull    units.Force // at which the plate punches through, without any factor
	Source  string
}

// Resistance is the pull at which an insert fails.
//
// A backed one fails when its plate punches a disc out of the laminate, with the
// shear strength on the edge of the disc: pi·plate·thickness·shear. It needs a
// factor of safety, at least 4 in hand lay-up by common practice. For a plate that
// is laminated over, which peels, and for a potted one, which depends on the
// potting, no clear rule is at hand: the result is not covered, and a pull test of
// the shop's own insert decides.
//
// Numbers out of range and another fixing are errors.
//
// Caution: a rider's handle is pull-tested on every body.
//
// Source: equilibrium of the punched disc, derived here.
func (i Insert) Resistance() (InsertResistance, error) {
	for _, err := range []error{argument.Positive("plate", i.Plate), argument.Positive("thickness", i.Thickness), argument.Positive("shear strength through the thickness", i.Shear)} {
		if err != nil {
			return InsertResistance{}, fmt.Errorf("insert: %w", err)
		}
	}
	switch i.Fixing {
	case Backed:
		return InsertResistance{Covered: true, Pull: math.Pi * i.Plate * i.Thickness * i.Shear, Source: "equilibrium of the punched disc"}, nil
	case BigHead:
		return InsertResistance{Why: "a plate that is laminated over peels: test it"}, nil
	case Potted:
		return InsertResistance{Why: "a potted insert depends on its potting: test it"}, nil
	}
	return InsertResistance{}, fmt.Errorf("insert: fixing: got %q, want Backed, BigHead or Potted", i.Fixing)
}

// HoleBearing is what a bolt may push along the laminate before its hole is
// crushed.
//
//	F = diameter*thickness*strength
//
// The bolt's diameter, the laminate's thickness and its bearing strength, from a
// test, are more than 0. Outside it panics. It needs a factor of safety, and an
// edge at least three diameters away.
//
// Source: definition of the bearing strength.
func HoleBearing(diameter, thickness units.Length, strength units.Pressure) units.Force {
	argument.Demand("laminate: HoleBearing", argument.Positive("diameter", diameter), argument.Positive("thickness", thickness), argument.Positive("bearing strength", strength))
	return diameter * thickness * strength
}
