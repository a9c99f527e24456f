package laminate

import (
	"math"

	"tautline/stdlib/internal/argument"
	"tautline/stdlib/units"
)

// A SandwichBeam is a strip of two equal faces on a core.
type SandwichBeam struct {
	Width units.Length
	Face  units.Length   // thickness of each face
	FaceE units.Pressure // modulus of the faces
	Core  units.Length   // thickness of the core
	CoreE units.Pressure
	CoreG units.Pressure // shear modulus of the core
}

func (s SandwichBeam) demand(call string, more ...error) {
	argument.Demand("laminate: SandwichBeam."+call, append(more, argument.Positive("width", s.Width), argument.Positive("face", s.Face),
		argument.Positive("face modulus", s.FaceE), argument.Positive("core", s.Core), argument.NotNegative("core modulus", s.CoreE), argument.Positive("core shear modulus", s.CoreG))...)
}

// Rigidity is the strip's stiffness in bending.
//
//	D = s.FaceE*s.Width*s.Face*pow(s.Core + s.Face, 2)/2 + s.FaceE*s.Width*pow(s.Face, 3)/6 + s.CoreE*s.Width*pow(s.Core, 3)/12
//
// It panics if a field is out of its range.
//
// Source: Allen, Analysis and Design of Structural Sandwich Panels, 1969,
// equation 2.1.
func (s SandwichBeam) Rigidity() units.FlexuralRigidity {
	s.demand("Rigidity")
	return s.FaceE*s.Width*s.Face*math.Pow(s.Core+s.Face, 2)/2 + s.FaceE*s.Width*math.Pow(s.Face, 3)/6 + s.CoreE*s.Width*math.Pow(s.Core, 3)/12
}

// BendingDeflection is how far the strip, on two supports, bends in the middle
// under a force there: F·L³/48 over the Rigidity.
//
// The force is finite, the span more than 0. It panics if a number or a field is
// out of its range.
//
// Source: elastic beam theory.
func (s SandwichBeam) BendingDeflection(force units.Force, span units.Length) units.Length {
	s.demand("BendingDeflection", argument.Finite("force", force), argument.Positive("span", span))
	return force * span * span * span / (48 * s.Rigidity())
}

// ShearDeflection is how far the strip, on two supports, gives in the middle as
// its core shears under a force there. It comes on top of BendingDeflection and is
// often as large.
//
//	w = force*span*s.Core/(4*s.CoreG*s.Width*pow(s.Core + s.Face, 2))
//
// The arguments are those of BendingDeflection.
//
// Source: Allen, Analysis and Design of Structural Sandwich Panels, 1969, 2.3.
func (s SandwichBeam) ShearDeflection(force units.Force, span units.Length) units.Length {
	s.demand("ShearDeflection", argument.Finite("force", force), argument.Positive("span", span))
	return force * span * s.Core / (4 * s.CoreG * s.Width * math.Pow(s.Core+s.Face, 2))
}

// FaceStress is the stress in a face under a bending moment.
//
//	sigma = moment/(s.Width*s.Face*(s.Core + s.Face))
//
// The moment is finite. It panics if it or a field is out of its range.
//
// Source: thin faces, Allen, Analysis and Design of Structural Sandwich Panels,
// 1969, 2.2.
func (s SandwichBeam) FaceStress(moment units.Moment) units.Pressure {
	s.demand("FaceStress", argument.Finite("moment", moment))
	return moment / (s.Width * s.Face * (s.Core + s.Face))
}

// CoreShear is the shear stress in the core under a shear force.
//
//	tau = shear/(s.Width*(s.Core + s.Face))
//
// The shear force is finite. It panics if it or a field is out of its range.
//
// Source: thin faces, Allen, Analysis and Design of Structural Sandwich Panels,
// 1969, 2.2.
func (s SandwichBeam) CoreShear(shear units.Force) units.Pressure {
	s.demand("CoreShear", argument.Finite("shear force", shear))
	return shear / (s.Width * (s.Core + s.Face))
}

// Wrinkling is the stress in compression at which a face wrinkles into the core.
//
//	sigma = 0.5*pow(s.FaceE*s.CoreE*s.CoreG, 1.0/3)
//
// It panics if a field is out of its range.
//
// Source: Hoff and Mautner's value for design; Allen, Analysis and Design of
// Structural Sandwich Panels, 1969, chapter 8.
func (s SandwichBeam) Wrinkling() units.Pressure {
	s.demand("Wrinkling", argument.Positive("core modulus", s.CoreE))
	return 0.5 * math.Cbrt(s.FaceE*s.CoreE*s.CoreG)
}
