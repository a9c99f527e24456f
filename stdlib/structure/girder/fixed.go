package girder

import (
	"tautline/stdlib/internal/argument"
	"tautline/stdlib/units"
)

// A Fixed beam is built in at both ends, which neither turn nor sink, and is free to
// draw in along its length. Few real ends are: Simple gives the moment in the middle
// and the deflection on the safe side.
type Fixed struct {
	Length units.Length       // between its supports, more than 0
	E      units.Pressure     // modulus of elasticity, more than 0
	I      units.SecondMoment // of its section about the axis that it bends about, more than 0
}

// MiddleMoment is the bending moment under a force in the middle, where it acts and,
// turned over, at both ends.
//
//	M = force*b.Length/8
//
// The force is 0 or more. What holds the ends must bear that moment and not turn: few
// clamps and no bolted plate do so fully. It panics if a number is out of its range.
//
// Source: Young and Budynas, Roark's Formulas for Stress and Strain, 7th ed., 2002,
// Table 8.1, case 1d (intermediate load, both ends fixed), from memory: verify against
// the document.
func (b Fixed) MiddleMoment(force units.Force) units.Moment {
	demand("Fixed.MiddleMoment", b.Length, b.E, b.I, argument.NotNegative("force", force))
	return force * b.Length / 8
}

// MiddleShear is the shear in each half under a force in the middle.
//
//	V = force/2
//
// The force is 0 or more. It panics if a number is out of its range.
//
// Source: equilibrium.
func (b Fixed) MiddleShear(force units.Force) units.Force {
	demand("Fixed.MiddleShear", b.Length, b.E, b.I, argument.NotNegative("force", force))
	return force / 2
}

// MiddleDeflection is how far the middle bends under a force there.
//
//	w = force*b.Length*b.Length*b.Length/(192*b.E*b.I)
//
// The force is 0 or more. It panics if a number is out of its range.
//
// Source: Young and Budynas, Roark's Formulas for Stress and Strain, 7th ed., 2002,
// Table 8.1, case 1d (intermediate load, both ends fixed), from memory: verify against
// the document.
func (b Fixed) MiddleDeflection(force units.Force) units.Length {
	demand("Fixed.MiddleDeflection", b.Length, b.E, b.I, argument.NotNegative("force", force))
	return force * b.Length * b.Length * b.Length / (192 * b.E * b.I)
}

// EvenEndMoment is the bending moment at both ends under an even load over the whole
// beam: the greatest.
//
//	M = load*b.Length*b.Length/12
//
// The load is per length of the beam, 0 or more. What holds the ends must bear that
// moment and not turn: few clamps and no bolted plate do so fully. It panics if a
// number is out of its range.
//
// Source: Young and Budynas, Roark's Formulas for Stress and Strain, 7th ed., 2002,
// Table 8.1, case 2d (even load, both ends fixed), from memory: verify against the
// document.
func (b Fixed) EvenEndMoment(load units.ForcePerLength) units.Moment {
	demand("Fixed.EvenEndMoment", b.Length, b.E, b.I, argument.NotNegative("load", load))
	return load * b.Length * b.Length / 12
}

// EvenMiddleMoment is the bending moment in the middle under an even load over the
// whole beam.
//
//	M = load*b.Length*b.Length/24
//
// The load is per length of the beam, 0 or more. It panics if a number is out of its
// range.
//
// Source: Young and Budynas, Roark's Formulas for Stress and Strain, 7th ed., 2002,
// Table 8.1, case 2d (even load, both ends fixed), from memory: verify against the
// document.
func (b Fixed) EvenMiddleMoment(load units.ForcePerLength) units.Moment {
	demand("Fixed.EvenMiddleMoment", b.Length, b.E, b.I, argument.NotNegative("load", load))
	return load * b.Length * b.Length / 24
}

// EvenShear is the shear at each end under an even load over the whole beam.
//
//	V = load*b.Length/2
//
// The load is per length of the beam, 0 or more. It panics if a number is out of its
// range.
//
// Source: equilibrium.
func (b Fixed) EvenShear(load units.ForcePerLength) units.Force {
	demand("Fixed.EvenShear", b.Length, b.E, b.I, argument.NotNegative("load", load))
	return load * b.Length / 2
}

// EvenDeflection is how far the middle bends under an even load over the whole beam.
//
//	w = load*b.Length*b.Length*b.Length*b.Length/(384*b.E*b.I)
//
// The load is per length of the beam, 0 or more. It panics if a number is out of its
// range.
//
// Source: Young and Budynas, Roark's Formulas for Stress and Strain, 7th ed., 2002,
// Table 8.1, case 2d (even load, both ends fixed), from memory: verify against the
// document.
func (b Fixed) EvenDeflection(load units.ForcePerLength) units.Length {
	demand("Fixed.EvenDeflection", b.Length, b.E, b.I, argument.NotNegative("load", load))
	return load * b.Length * b.Length * b.Length * b.Length / (384 * b.E * b.I)
}
