package girder

import (
	"math"

	"tautline/stdlib/internal/argument"
	"tautline/stdlib/units"
)

// A Simple beam is simply supported: it lies on a hinge at each end and turns there
// freely. A plank on two trestles, a floor joist, an axle between two bearings.
type Simple struct {
	Length units.Length       // between its supports, more than 0
	E      units.Pressure     // modulus of elasticity, more than 0
	I      units.SecondMoment // of its section about the axis that it bends about, more than 0
}

// MiddleMoment is the greatest bending moment under a force in the middle, where it
// acts.
//
//	M = force*b.Length/4
//
// The force is 0 or more. It panics if a number is out of its range.
//
// Source: Young and Budynas, Roark's Formulas for Stress and Strain, 7th ed., 2002,
// Table 8.1, case 1e (intermediate load, both ends simply supported), from memory:
// verify against the document.
func (b Simple) MiddleMoment(force units.Force) units.Moment {
	demand("Simple.MiddleMoment", b.Length, b.E, b.I, argument.NotNegative("force", force))
	return force * b.Length / 4
}

// MiddleShear is the shear in each half, and what each support bears, under a force in
// the middle.
//
//	V = force/2
//
// The force is 0 or more. It panics if a number is out of its range.
//
// Source: equilibrium.
func (b Simple) MiddleShear(force units.Force) units.Force {
	demand("Simple.MiddleShear", b.Length, b.E, b.I, argument.NotNegative("force", force))
	return force / 2
}

// MiddleDeflection is how far the middle bends under a force there.
//
//	w = force*b.Length*b.Length*b.Length/(48*b.E*b.I)
//
// The force is 0 or more. It panics if a number is out of its range.
//
// Source: Young and Budynas, Roark's Formulas for Stress and Strain, 7th ed., 2002,
// Table 8.1, case 1e (intermediate load, both ends simply supported), from memory:
// verify against the document.
func (b Simple) MiddleDeflection(force units.Force) units.Length {
	demand("Simple.MiddleDeflection", b.Length, b.E, b.I, argument.NotNegative("force", force))
	return force * b.Length * b.Length * b.Length / (48 * b.E * b.I)
}

// PointMoment is the greatest bending moment under a point load anywhere, where it
// acts.
//
//	M = force*at*(b.Length-at)/b.Length
//
// The force is 0 or more; at is its distance from one support, 0 to the length,
// whichever of the two. It panics if a number is out of its range.
//
// Source: Young and Budynas, Roark's Formulas for Stress and Strain, 7th ed., 2002,
// Table 8.1, case 1e (intermediate load, both ends simply supported), from memory:
// verify against the document.
func (b Simple) PointMoment(force units.Force, at units.Length) units.Moment {
	demand("Simple.PointMoment", b.Length, b.E, b.I, argument.NotNegative("force", force), argument.Within("at", at, 0, b.Length))
	return force * at * (b.Length - at) / b.Length
}

// PointShear is the greatest shear under a point load anywhere, and what the nearer
// support bears.
//
//	V = force*max(at, b.Length-at)/b.Length
//
// The force is 0 or more; at is its distance from one support, 0 to the length,
// whichever of the two. It panics if a number is out of its range.
//
// Source: equilibrium.
func (b Simple) PointShear(force units.Force, at units.Length) units.Force {
	demand("Simple.PointShear", b.Length, b.E, b.I, argument.NotNegative("force", force), argument.Within("at", at, 0, b.Length))
	return force * math.Max(at, b.Length-at) / b.Length
}

// PointDeflection is the greatest deflection under a point load anywhere, between the
// load and the middle.
//
//	w = force*min(at, b.Length-at)*pow(b.Length*b.Length-pow(min(at, b.Length-at), 2), 1.5)/(9*sqrt(3)*b.Length*b.E*b.I)
//
// The force is 0 or more; at is its distance from one support, 0 to the length,
// whichever of the two. It panics if a number is out of its range.
//
// Source: Young and Budynas, Roark's Formulas for Stress and Strain, 7th ed., 2002,
// Table 8.1, case 1e (intermediate load, both ends simply supported), from memory:
// verify against the document.
func (b Simple) PointDeflection(force units.Force, at units.Length) units.Length {
	demand("Simple.PointDeflection", b.Length, b.E, b.I, argument.NotNegative("force", force), argument.Within("at", at, 0, b.Length))
	a := math.Min(at, b.Length-at)
	return force * a * math.Pow(b.Length*b.Length-a*a, 1.5) / (9 * math.Sqrt(3) * b.Length * b.E * b.I)
}

// EvenMoment is the greatest bending moment under an even load over the whole beam, in
// the middle.
//
//	M = load*b.Length*b.Length/8
//
// The load is per length of the beam, 0 or more. It panics if a number is out of its
// range.
//
// Source: Young and Budynas, Roark's Formulas for Stress and Strain, 7th ed., 2002,
// Table 8.1, case 2e (even load, both ends simply supported), from memory: verify
// against the document.
func (b Simple) EvenMoment(load units.ForcePerLength) units.Moment {
	demand("Simple.EvenMoment", b.Length, b.E, b.I, argument.NotNegative("load", load))
	return load * b.Length * b.Length / 8
}

// EvenShear is the shear at each end, and what each support bears, under an even load
// over the whole beam.
//
//	V = load*b.Length/2
//
// The load is per length of the beam, 0 or more. It panics if a number is out of its
// range.
//
// Source: equilibrium.
func (b Simple) EvenShear(load units.ForcePerLength) units.Force {
	demand("Simple.EvenShear", b.Length, b.E, b.I, argument.NotNegative("load", load))
	return load * b.Length / 2
}

// EvenDeflection is how far the middle bends under an even load over the whole beam.
//
//	w = 5*load*b.Length*b.Length*b.Length*b.Length/(384*b.E*b.I)
//
// The load is per length of the beam, 0 or more. It panics if a number is out of its
// range.
//
// Source: Young and Budynas, Roark's Formulas for Stress and Strain, 7th ed., 2002,
// Table 8.1, case 2e (even load, both ends simply supported), from memory: verify
// against the document.
func (b Simple) EvenDeflection(load units.ForcePerLength) units.Length {
	demand("Simple.EvenDeflection", b.Length, b.E, b.I, argument.NotNegative("load", load))
	return 5 * load * b.Length * b.Length * b.Length * b.Length / (384 * b.E * b.I)
}
