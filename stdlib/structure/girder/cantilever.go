package girder

import (
	"tautline/stdlib/internal/argument"
	"tautline/stdlib/units"
)

// A Cantilever is built in at one end and free at the other: a bracket, an arm, a mast
// in its foot.
type Cantilever struct {
	Length units.Length       // from the wall to the tip, more than 0
	E      units.Pressure     // modulus of elasticity, more than 0
	I      units.SecondMoment // of its section about the axis that it bends about, more than 0
}

// TipMoment is the bending moment at the wall under a force at the tip.
//
//	M = force*b.Length
//
// The force is 0 or more. The shear is the force, all along. It panics if a number is
// out of its range.
//
// Source: Young and Budynas, Roark's Formulas for Stress and Strain, 7th ed., 2002,
// Table 8.1, case 1a (load at the free end, the other fixed), from memory: verify
// against the document.
func (b Cantilever) TipMoment(force units.Force) units.Moment {
	demand("Cantilever.TipMoment", b.Length, b.E, b.I, argument.NotNegative("force", force))
	return force * b.Length
}

// TipDeflection is how far the tip bends under a force there.
//
//	w = force*b.Length*b.Length*b.Length/(3*b.E*b.I)
//
// The force is 0 or more. It panics if a number is out of its range.
//
// Source: Young and Budynas, Roark's Formulas for Stress and Strain, 7th ed., 2002,
// Table 8.1, case 1a (load at the free end, the other fixed), from memory: verify
// against the document.
func (b Cantilever) TipDeflection(force units.Force) units.Length {
	demand("Cantilever.TipDeflection", b.Length, b.E, b.I, argument.NotNegative("force", force))
	return force * b.Length * b.Length * b.Length / (3 * b.E * b.I)
}

// TipTurn is by how much the tip turns under a force there.
//
//	phi = force*b.Length*b.Length/(2*b.E*b.I)
//
// The force is 0 or more. It panics if a number is out of its range.
//
// Source: Young and Budynas, Roark's Formulas for Stress and Strain, 7th ed., 2002,
// Table 8.1, case 1a (load at the free end, the other fixed), from memory: verify
// against the document.
func (b Cantilever) TipTurn(force units.Force) units.Angle {
	demand("Cantilever.TipTurn", b.Length, b.E, b.I, argument.NotNegative("force", force))
	return force * b.Length * b.Length / (2 * b.E * b.I)
}

// EvenMoment is the bending moment at the wall under an even load over the whole
// length.
//
//	M = load*b.Length*b.Length/2
//
// The load is per length of the beam, 0 or more. It panics if a number is out of its
// range.
//
// Source: Young and Budynas, Roark's Formulas for Stress and Strain, 7th ed., 2002,
// Table 8.1, case 2a (even load, one end free, the other fixed), from memory: verify
// against the document.
func (b Cantilever) EvenMoment(load units.ForcePerLength) units.Moment {
	demand("Cantilever.EvenMoment", b.Length, b.E, b.I, argument.NotNegative("load", load))
	return load * b.Length * b.Length / 2
}

// EvenShear is the shear at the wall under an even load over the whole length.
//
//	V = load*b.Length
//
// The load is per length of the beam, 0 or more. It panics if a number is out of its
// range.
//
// Source: equilibrium.
func (b Cantilever) EvenShear(load units.ForcePerLength) units.Force {
	demand("Cantilever.EvenShear", b.Length, b.E, b.I, argument.NotNegative("load", load))
	return load * b.Length
}

// EvenDeflection is how far the tip bends under an even load over the whole length.
//
//	w = load*b.Length*b.Length*b.Length*b.Length/(8*b.E*b.I)
//
// The load is per length of the beam, 0 or more. It panics if a number is out of its
// range.
//
// Source: Young and Budynas, Roark's Formulas for Stress and Strain, 7th ed., 2002,
// Table 8.1, case 2a (even load, one end free, the other fixed), from memory: verify
// against the document.
func (b Cantilever) EvenDeflection(load units.ForcePerLength) units.Length {
	demand("Cantilever.EvenDeflection", b.Length, b.E, b.I, argument.NotNegative("load", load))
	return load * b.Length * b.Length * b.Length * b.Length / (8 * b.E * b.I)
}

// EvenTurn is by how much the tip turns under an even load over the whole length.
//
//	phi = load*b.Length*b.Length*b.Length/(6*b.E*b.I)
//
// The load is per length of the beam, 0 or more. It panics if a number is out of its
// range.
//
// Source: Young and Budynas, Roark's Formulas for Stress and Strain, 7th ed., 2002,
// Table 8.1, case 2a (even load, one end free, the other fixed), from memory: verify
// against the document.
func (b Cantilever) EvenTurn(load units.ForcePerLength) units.Angle {
	demand("Cantilever.EvenTurn", b.Length, b.E, b.I, argument.NotNegative("load", load))
	return load * b.Length * b.Length * b.Length / (6 * b.E * b.I)
}
