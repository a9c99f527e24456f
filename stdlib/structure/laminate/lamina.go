package laminate

import (
	"cmp"
	"fmt"
	"math"

	"tautline/stdlib/internal/argument"
	"tautline/stdlib/units"
)

// A Lamina is what a layer is like in its own directions: 1 along the fibres, or
// the warp, and 2 across. Strengths are positive; 0 is not known.
type Lamina struct {
	E1, E2  units.Pressure
	Nu12    units.Number // strain along 2 for one along 1, by a stress along 1
	G12     units.Pressure
	Xt, Xc  units.Pressure // strength along 1 in tension and in compression
	Yt, Yc  units.Pressure // along 2
	S       units.Pressure // in shear
	Density units.Density
	Source  string
	// Warnings say what is doubtful about the numbers.
	Warnings []string
}

func (l Lamina) check() error {
	err := cmp.Or(argument.Positive("modulus E1", l.E1), argument.Positive("modulus E2", l.E2), argument.Positive("modulus G12", l.G12), argument.Finite("ratio Nu12", l.Nu12))
	if err == nil && l.Nu12*l.Nu12*l.E2 >= l.E1 {
		err = fmt.Errorf("ratio Nu12: got %g, want less than the root of E1/E2 %g", l.Nu12, math.Sqrt(l.E1/l.E2))
	}
	return err
}

// plane is the stiffness in plane stress: Q11, Q22, Q12 and Q66.
func (l Lamina) plane() [4]float64 {
	d := 1 - l.Nu12*l.Nu12*l.E2/l.E1
	return [4]float64{l.E1 / d, l.E2 / d, l.Nu12 * l.E2 / d, l.G12}
}

// turned is the stiffness in axes from which direction 1 is turned by an angle:
// Q11, Q12, Q16, Q22, Q26 and Q66, for engineering shear strain.
func (l Lamina) turned(angle float64) [6]float64 {
	q := l.plane()
	s, c := math.Sincos(angle)
	s2, c2 := s*s, c*c
	both := q[2] + 2*q[3]
	one, two := q[0]-q[2]-2*q[3], q[2]-q[1]+2*q[3]
	return [6]float64{
		q[0]*c2*c2 + 2*both*s2*c2 + q[1]*s2*s2,
		(q[0]+q[1]-4*q[3])*s2*c2 + q[2]*(s2*s2+c2*c2),
		s * c * (one*c2 + two*s2),
		q[0]*s2*s2 + 2*both*s2*c2 + q[1]*c2*c2,
		s * c * (one*s2 + two*c2),
		(q[0]+q[1]-2*q[2]-2*q[3])*s2*c2 + q[3]*(s2*s2+c2*c2),
	}
}

const doubtful = "moduli and strengths by glass fraction are from memory and of low confidence: test a panel laid up by the same crew before relying on them"

// MatByFraction is chopped strand mat in polyester, hand-laid, by its glass
// fraction by mass.
//
// With psi in MPa: E = 38 000·psi - 5000, tension 200·psi + 25, compression
// 150·psi + 72, shear 80·psi + 38; Poisson's ratio 0.33 and G = E/2/(1 + nu). The
// fraction is 0.2 to 0.45; outside it panics.
//
// Caution: low confidence, see its Warnings.
//
// Source: ISO 12215-5:2008, Annex C, from memory: verify against the document.
func MatByFraction(psi units.Number) Lamina {
	argument.Demand("laminate: MatByFraction", argument.Within("glass fraction by mass", psi, 0.2, 0.45))
	l := Isotropic((38000*psi-5000)*units.MPa, 0.33, GlassPolyester().Density(psi))
	l.Xt, l.Xc, l.S = (200*psi+25)*units.MPa, (150*psi+72)*units.MPa, (80*psi+38)*units.MPa
	l.Yt, l.Yc = l.Xt, l.Xc
	l.Source, l.Warnings = "ISO 12215-5:2008, Annex C (from memory: verify against the document)", []string{doubtful}
	return l
}

// WovenByFraction is balanced woven rovings in polyester, hand-laid, by their
// glass fraction by mass.
//
// With psi in MPa: E = 30 000·psi - 500, tension 400·psi - 10, compression
// 150·psi + 72, shear 80·psi + 38; Poisson's ratio 0.15; the shear modulus is that
// of Constituents.Woven. The fraction is 0.35 to 0.6; outside it panics.
//
// Caution: low confidence, see its Warnings.
//
// Source: ISO 12215-5:2008, Annex C, from memory: verify against the document.
func WovenByFraction(psi units.Number) Lamina {
	argument.Demand("laminate: WovenByFraction", argument.Within("glass fraction by mass", psi, 0.35, 0.6))
	e := (30000*psi - 500) * units.MPa
	l := Lamina{E1: e, E2: e, Nu12: 0.15, G12: GlassPolyester().Woven(psi, 0.5).G12, Density: GlassPolyester().Density(psi)}
	l.Xt, l.Xc, l.S = (400*psi-10)*units.MPa, (150*psi+72)*units.MPa, (80*psi+38)*units.MPa
	l.Yt, l.Yc = l.Xt, l.Xc
	l.Source, l.Warnings = "ISO 12215-5:2008, Annex C (from memory: verify against the document)", []string{doubtful}
	return l
}

// GelCoat is a coat of polyester gel without glass. It carries little and cracks
// first, at some 2 % of strain.
//
// Source: common in makers' sheets; from memory: verify against the sheet.
func GelCoat() Lamina {
	l := Isotropic(3*units.GPa, 0.35, 1200*units.KgPerM3)
	l.Xt, l.Xc, l.Yt, l.Yc, l.S = 55*units.MPa, 100*units.MPa, 55*units.MPa, 100*units.MPa, 45*units.MPa
	l.Source, l.Warnings = "makers' sheets (from memory: verify against the sheet)", []string{"gel coat: strengths are from memory: take the maker's"}
	return l
}
