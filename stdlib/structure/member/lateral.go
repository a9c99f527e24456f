package member

import (
	"math"

	"tautline/stdlib/internal/argument"
	"tautline/stdlib/structure/section"
	"tautline/stdlib/units"
)

// CriticalMoment is the moment about y at which a perfect elastic beam kicks out
// sideways (lateral-torsional buckling): one with two like flanges, or loaded
// through its shear centre.
//
// With L for LengthLT, h for C2·LoadHeight and z for the critical force
// π²·E·Iz/L² it is C1·z·(√(Iw/Iz + G·It/z + h²) - h). A member without what it
// needs panics.
//
// Source: Timoshenko and Gere, Theory of Elastic Stability, chapter 6; with C1
// and C2 as in ENV 1993-1-1:1992, Annex F, from memory: verify against the
// document.
func (m Member) CriticalMoment() units.Moment {
	full, err := m.check()
	argument.Demand("member: Member.CriticalMoment", err)
	s, mat := full.Section, full.Material
	z := EulerLoad(mat.E, s.Iz, full.LengthLT)
	h := full.C2 * full.LoadHeight
	return full.C1 * z * (math.Sqrt(s.Iw/s.Iz+mat.G*s.It/z+h*h) - h)
}

// lateralCurve is the curve of lateral buckling. Source: EN 1993-1-1:2005, Table
// 6.4.
func lateralCurve(s section.Section) Curve {
	slender := s.Height > 2*s.Width
	switch {
	case s.Shape != section.IShape:
		return CurveD
	case s.Forming == section.Welded && slender:
		return CurveD
	case s.Forming == section.Welded:
		return CurveC
	case slender:
		return CurveB
	}
	return CurveA
}

// lateralPlateau is the slenderness up to which a beam does not buckle sideways.
// Source: EN 1993-1-1:2005, 6.3.2.2(4) with 6.3.2.3(1), recommended value.
const lateralPlateau = 0.4

// lateral is chi of lateral buckling for a bending resistance w·fy, 1 for a
// section that cannot: round or square, or bent about its weaker axis.
func (m Member) lateral(w units.SectionModulus) (chi, lambda units.Number) {
	s := m.Section
	if s.Shape == section.RoundTube || s.Shape == section.Rod || s.Iz >= s.Iy*(1-1e-9) {
		return 1, 0
	}
	lambda = math.Sqrt(w * m.Material.Fy / m.CriticalMoment())
	if lambda <= lateralPlateau {
		return 1, lambda
	}
	return Reduction(lateralCurve(s), lambda), lambda
}
