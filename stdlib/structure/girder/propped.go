package girder

import (
	"math"

	"tautline/stdlib/internal/argument"
	"tautline/stdlib/units"
)

// A Propped beam is built in at one end and rests on a hinge at the other: a
// cantilever with a prop under its tip.
type Propped struct {
	Length units.Length       // between its supports, more than 0
	E      units.Pressure     // modulus of elasticity, more than 0
	I      units.SecondMoment // of its section about the axis that it bends about, more than 0
}

// MiddleEndMoment is the bending moment at the built-in end under a force in the
// middle: the greatest.
//
//	M = 3*force*b.Length/16
//
// The force is 0 or more. It panics if a number is out of its range.
//
// Source: Young and Budynas, Roark's Formulas for Stress and Strain, 7th ed., 2002,
// Table 8.1, case 1c (intermediate load, one end fixed, the other simply supported),
// from memory: verify against the document.
func (b Propped) MiddleEndMoment(force units.Force) units.Moment {
	demand("Propped.MiddleEndMoment", b.Length, b.E, b.I, argument.NotNegative("force", force))
	return 3 * force * b.Length / 16
}

// MiddleMoment is the bending moment in the middle under a force there.
//
//	M = 5*force*b.Length/32
//
// The force is 0 or more. It panics if a number is out of its range.
//
// Source: Young and Budynas, Roark's Formulas for Stress and Strain, 7th ed., 2002,
// Table 8.1, case 1c (intermediate load, one end fixed, the other simply supported),
// from memory: verify against the document.
func (b Propped) MiddleMoment(force units.Force) units.Moment {
	demand("Propped.MiddleMoment", b.Length, b.E, b.I, argument.NotNegative("force", force))
	return 5 * force * b.Length / 32
}

// MiddleShear is the shear at the built-in end under a force in the middle: the
// greatest. The prop bears the rest of the force.
//
//	V = 11*force/16
//
// The force is 0 or more. It panics if a number is out of its range.
//
// Source: Young and Budynas, Roark's Formulas for Stress and Strain, 7th ed., 2002,
// Table 8.1, case 1c (intermediate load, one end fixed, the other simply supported),
// from memory: verify against the document.
func (b Propped) MiddleShear(force units.Force) units.Force {
	demand("Propped.MiddleShear", b.Length, b.E, b.I, argument.NotNegative("force", force))
	return 11 * force / 16
}

// MiddleDeflection is the greatest deflection under a force in the middle, 0.447 of
// the length from the prop.
//
//	w = force*b.Length*b.Length*b.Length/(48*sqrt(5)*b.E*b.I)
//
// The force is 0 or more. It panics if a number is out of its range.
//
// Source: Young and Budynas, Roark's Formulas for Stress and Strain, 7th ed., 2002,
// Table 8.1, case 1c (intermediate load, one end fixed, the other simply supported),
// from memory: verify against the document.
func (b Propped) MiddleDeflection(force units.Force) units.Length {
	demand("Propped.MiddleDeflection", b.Length, b.E, b.I, argument.NotNegative("force", force))
	return force * b.Length * b.Length * b.Length / (48 * math.Sqrt(5) * b.E * b.I)
}

// EvenEndMoment is the bending moment at the built-in end under an even load over the
// whole beam: the greatest.
//
//	M = load*b.Length*b.Length/8
//
// The load is per length of the beam, 0 or more. It panics if a number is out of its
// range.
//
// Source: Young and Budynas, Roark's Formulas for Stress and Strain, 7th ed., 2002,
// Table 8.1, case 2c (even load, one end fixed, the other simply supported), from
// memory: verify against the document.
func (b Propped) EvenEndMoment(load units.ForcePerLength) units.Moment {
	demand("Propped.EvenEndMoment", b.Length, b.E, b.I, argument.NotNegative("load", load))
	return load * b.Length * b.Length / 8
}

// EvenSpanMoment is the greatest bending moment between the ends under an even load
// over the whole beam, 3/8 of the length from the prop.
//
//	M = 9*load*b.Length*b.Length/128
//
// The load is per length of the beam, 0 or more. It panics if a number is out of its
// range.
//
// Source: Young and Budynas, Roark's Formulas for Stress and Strain, 7th ed., 2002,
// Table 8.1, case 2c (even load, one end fixed, the other simply supported), from
// memory: verify against the document.
func (b Propped) EvenSpanMoment(load units.ForcePerLength) units.Moment {
	demand("Propped.EvenSpanMoment", b.Length, b.E, b.I, argument.NotNegative("load", load))
	return 9 * load * b.Length * b.Length / 128
}

// EvenShear is the shear at the built-in end under an even load over the whole beam:
// the greatest. The prop bears the other 3/8 of the load.
//
//	V = 5*load*b.Length/8
//
// The load is per length of the beam, 0 or more. It panics if a number is out of its
// range.
//
// Source: Young and Budynas, Roark's Formulas for Stress and Strain, 7th ed., 2002,
// Table 8.1, case 2c (even load, one end fixed, the other simply supported), from
// memory: verify against the document.
func (b Propped) EvenShear(load units.ForcePerLength) units.Force {
	demand("Propped.EvenShear", b.Length, b.E, b.I, argument.NotNegative("load", load))
	return 5 * load * b.Length / 8
}

// EvenDeflection is the greatest deflection under an even load over the whole beam,
// 0.4215 of the length from the prop: about 1/185 of load·length⁴/(E·I).
//
//	w = (39+55*sqrt(33))*load*b.Length*b.Length*b.Length*b.Length/(65536*b.E*b.I)
//
// The load is per length of the beam, 0 or more. It panics if a number is out of its
// range.
//
// Source: Young and Budynas, Roark's Formulas for Stress and Strain, 7th ed., 2002,
// Table 8.1, case 2c (even load, one end fixed, the other simply supported), from
// memory: verify against the document.
func (b Propped) EvenDeflection(load units.ForcePerLength) units.Length {
	demand("Propped.EvenDeflection", b.Length, b.E, b.I, argument.NotNegative("load", load))
	return (39 + 55*math.Sqrt(33)) * load * b.Length * b.Length * b.Length * b.Length / (65536 * b.E * b.I)
}
