package joint

import (
	"cmp"
	"fmt"
	"math"
	"strings"

	"tautline/stdlib/internal/argument"
	"tautline/stdlib/units"
)

// A Bolt is a bolt with ISO metric coarse thread.
type Bolt struct {
	Name        string // size and grade: M16 8.8
	Diameter    units.Length
	Stressed    units.Area     // tensile stress area of the thread
	Head        units.Length   // mean of the width across flats and across corners of the head or nut
	Yield       units.Pressure // fyb
	Tensile     units.Pressure // fub
	Alpha       units.Number   // of shear through the thread: 0.6, or 0.5 for the brittle grades
	Countersunk bool           // countersunk head: carries less tension
	Source      string
}

type (
	boltSize  struct{ d, pitch, stressed, flats float64 } // mm, mm, mm², mm: least width across flats, product grade B
	boltGrade struct {
		name            string
		fyb, fub, alpha float64 // MPa, MPa, -
	}
)

// boltSizes: stress areas as rounded in ISO 898-1:2013, Table 4; least widths
// across flats of ISO 4014:2011 (from memory).
var boltSizes = []boltSize{
	{6, 1, 20.1, 9.64}, {8, 1.25, 36.6, 12.57}, {10, 1.5, 58.0, 15.57}, {12, 1.75, 84.3, 17.57}, {14, 2, 115, 20.16},
	{16, 2, 157, 23.16}, {18, 2.5, 192, 26.16}, {20, 2.5, 245, 29.16}, {22, 2.5, 303, 33}, {24, 3, 353, 35},
	{27, 3, 459, 40}, {30, 3.5, 561, 45}, {36, 4, 817, 53.8},
}

// boltGrades: EN 1993-1-8:2005, Table 3.1 and 3.4.
var boltGrades = []boltGrade{
	{"4.6", 240, 400, 0.6}, {"4.8", 320, 400, 0.5}, {"5.6", 300, 500, 0.6}, {"5.8", 400, 500, 0.5},
	{"6.8", 480, 600, 0.5}, {"8.8", 640, 800, 0.6}, {"10.9", 900, 1000, 0.5},
}

// NewBolt is a bolt by its size and grade.
//
//	bolt, err := joint.NewBolt("M16", "8.8")
//
// Sizes run from M6 to M36; grades are 4.6, 4.8, 5.6, 5.8, 6.8, 8.8 and 10.9.
// Another size or grade is an error, which lists those that are known.
//
// Source: ISO 898-1:2013 (stress areas), EN 1993-1-8:2005, Tables 3.1 and 3.4
// (strengths); ISO 4014:2011 (heads), from memory: verify against the document.
func NewBolt(size, grade string) (Bolt, error) {
	var sizes, grades []string
	for _, s := range boltSizes {
		name := fmt.Sprintf("M%g", s.d)
		sizes = append(sizes, name)
		if name != size {
			continue
		}
		for _, g := range boltGrades {
			grades = append(grades, g.name)
			if g.name == grade {
				return Bolt{
					Name: size + " " + grade, Diameter: s.d * units.Mm, Stressed: s.stressed * units.Mm2,
					Head:  (1 + 1.13) / 2 * s.flats * units.Mm, // the least width across corners is 1.13 of that across flats
					Yield: g.fyb * units.MPa, Tensile: g.fub * units.MPa, Alpha: g.alpha,
					Source: "ISO 898-1:2013; EN 1993-1-8:2005, Tables 3.1 and 3.4",
				}, nil
			}
		}
		return Bolt{}, fmt.Errorf("bolt %s: grade: got %q, want one of: %s", size, grade, strings.Join(grades, ", "))
	}
	return Bolt{}, fmt.Errorf("bolt: size: got %q, want one of: %s", size, strings.Join(sizes, ", "))
}

func (b Bolt) check() error {
	return cmp.Or(argument.Positive("diameter", b.Diameter), argument.Positive("stress area", b.Stressed),
		argument.Positive("head", b.Head), argument.Positive("yield strength", b.Yield),
		argument.Positive("tensile strength", b.Tensile), argument.Within("alpha", b.Alpha, 0.5, 0.6))
}

func (b Bolt) demand(call string, more ...error) {
	argument.Demand("joint: Bolt."+call, append(more, b.check())...)
}

// ThreadShear is what one shear plane through the thread may carry.
//
//	F = b.Alpha*b.Tensile*b.Stressed/f.M2
//
// It panics if a field or the factor M2 is out of its range.
//
// Caution: M12 and M14 in holes of 2 mm clearance carry 0.85 of this.
//
// Source: EN 1993-1-8:2005, Table 3.4 and 3.6.1(5).
func (b Bolt) ThreadShear(f Factors) units.Force {
	b.demand("ThreadShear", factor("M2", f.M2))
	return b.Alpha * b.Tensile * b.Stressed / f.M2
}

// ShankShear is what one shear plane through the plain shank may carry.
//
//	F = 0.6*b.Tensile*pi*b.Diameter*b.Diameter/4/f.M2
//
// It panics if a field or the factor M2 is out of its range.
//
// Caution: only where the drawing keeps the thread out of the shear plane.
//
// Source: EN 1993-1-8:2005, Table 3.4.
func (b Bolt) ShankShear(f Factors) units.Force {
	b.demand("ShankShear", factor("M2", f.M2))
	return 0.6 * b.Tensile * math.Pi * b.Diameter * b.Diameter / 4 / f.M2
}

// Tension is what the bolt may carry along its axis: 0.9 of the stress area's
// strength, or 0.63 with a countersunk head, over the factor M2.
//
// It panics if a field or the factor M2 is out of its range.
//
// Caution: prying, which adds to the tension of a bolt through a bending plate,
// is not in it: see TStub.
//
// Source: EN 1993-1-8:2005, Table 3.4.
func (b Bolt) Tension(f Factors) units.Force {
	b.demand("Tension", factor("M2", f.M2))
	k2 := 0.9
	if b.Countersunk {
		k2 = 0.63
	}
	return k2 * b.Tensile * b.Stressed / f.M2
}

// PunchingShear is what a plate under head or nut may carry before the bolt is
// pulled through it.
//
//	F = 0.6*pi*b.Head*thickness*fu/f.M2
//
// The plate's thickness and its tensile strength fu are more than 0. It panics
// if a number or a field is out of its range.
//
// Source: EN 1993-1-8:2005, Table 3.4.
func (b Bolt) PunchingShear(thickness units.Length, fu units.Pressure, f Factors) units.Force {
	b.demand("PunchingShear", factor("M2", f.M2), argument.Positive("thickness", thickness), argument.Positive("tensile strength fu", fu))
	return 0.6 * math.Pi * b.Head * thickness * fu / f.M2
}

// ShearAndTension is the utilisation of a bolt by shear and tension together.
//
//	u = max(shear/shearMax + tension/(1.4*tensionMax), tension/tensionMax)
//
// The forces shear and tension are 0 or more; shearMax and tensionMax, what the
// bolt may carry of each alone, are more than 0. Outside it panics.
//
// Source: EN 1993-1-8:2005, Table 3.4.
func ShearAndTension(shear, shearMax, tension, tensionMax units.Force) units.Number {
	argument.Demand("joint: ShearAndTension", argument.NotNegative("shear", shear), argument.Positive("shear resistance", shearMax),
		argument.NotNegative("tension", tension), argument.Positive("tension resistance", tensionMax))
	return math.Max(shear/shearMax+tension/(1.4*tensionMax), tension/tensionMax)
}
