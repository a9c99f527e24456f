package laminate

import (
	"cmp"
	"math"

	"tautline/stdlib/internal/argument"
	"tautline/stdlib/units"
)

// Constituents are the fibre and the resin of a laminate.
type Constituents struct {
	FibreDensity units.Density
	ResinDensity units.Density
	FibreE       units.Pressure // modulus along the fibre
	ResinE       units.Pressure
	FibreNu      units.Number // Poisson's ratio
	ResinNu      units.Number
	Source       string
}

// GlassPolyester is E-glass in unsaturated polyester.
//
// Source: densities as in ISO 12215-5:2008; moduli and ratios common in
// handbooks; from memory: verify against the documents and the makers' sheets.
func GlassPolyester() Constituents {
	return Constituents{
		FibreDensity: 2560 * units.KgPerM3, ResinDensity: 1200 * units.KgPerM3,
		FibreE: 73 * units.GPa, ResinE: 3 * units.GPa, FibreNu: 0.2, ResinNu: 0.35,
		Source: "densities ISO 12215-5:2008, moduli common in handbooks (from memory: verify against the documents)",
	}
}

func (c Constituents) demand(call string, more ...error) {
	argument.Demand("laminate: "+call, append(more,
		argument.Positive("fibre density (take GlassPolyester)", c.FibreDensity), argument.Positive("resin density", c.ResinDensity),
		argument.Positive("fibre modulus", c.FibreE), argument.Positive("resin modulus", c.ResinE),
		argument.Within("fibre ratio", c.FibreNu, 0, 0.5), argument.Within("resin ratio", c.ResinNu, 0, 0.5))...)
}

// fraction reports an error unless it is more than 0 and less than 1.
func fraction(what string, v float64) error {
	return argument.Within(what, v, math.SmallestNonzeroFloat64, math.Nextafter(1, 0))
}

// Thickness is that of a ply, without voids.
//
//	t = dry/c.FibreDensity + dry*(1 - psi)/(psi*c.ResinDensity)
//
// The dry weight of glass is more than 0, its fraction by mass psi more than 0 and
// less than 1. It panics if a number or a field is out of its range.
//
// Source: volumes of glass and resin, derived here; with 2560 and 1200 kg/m³ it is
// ISO 12215-5:2008, Annex A, (w/3.072)·(2.56/psi - 1.36).
func (c Constituents) Thickness(dry units.MassPerArea, psi units.Number) units.Length {
	c.demand("Constituents.Thickness", argument.Positive("dry weight", dry), fraction("glass fraction by mass", psi))
	return dry/c.FibreDensity + dry*(1-psi)/(psi*c.ResinDensity)
}

// ResinMass is the resin in a ply.
//
//	m = dry*(1 - psi)/psi
//
// The arguments are those of Thickness.
//
// Source: definition of the fraction.
func (c Constituents) ResinMass(dry units.MassPerArea, psi units.Number) units.MassPerArea {
	c.demand("Constituents.ResinMass", argument.Positive("dry weight", dry), fraction("glass fraction by mass", psi))
	return dry * (1 - psi) / psi
}

// VolumeFraction is the share of glass in the volume of a ply, without voids.
//
//	vf = psi/c.FibreDensity/(psi/c.FibreDensity + (1 - psi)/c.ResinDensity)
//
// The glass fraction by mass psi is more than 0 and less than 1. It panics if it
// or a field is out of its range.
//
// Source: volumes of glass and resin, derived here.
func (c Constituents) VolumeFraction(psi units.Number) units.Number {
	c.demand("Constituents.VolumeFraction", fraction("glass fraction by mass", psi))
	glass, resin := psi/c.FibreDensity, (1-psi)/c.ResinDensity
	return glass / (glass + resin)
}

// Density is that of a ply.
//
//	rho = 1/(psi/c.FibreDensity + (1 - psi)/c.ResinDensity)
//
// The glass fraction by mass psi is more than 0 and less than 1. It panics if it
// or a field is out of its range.
//
// Source: volumes of glass and resin, derived here.
func (c Constituents) Density(psi units.Number) units.Density {
	c.demand("Constituents.Density", fraction("glass fraction by mass", psi))
	return 1 / (psi/c.FibreDensity + (1-psi)/c.ResinDensity)
}

// Unidirectional is a lamina of straight parallel fibres, without strengths.
//
// Along the fibre and for Poisson's ratio by the rule of mixtures, across it and
// in shear by Halpin and Tsai with factors 2 and 1. The glass fraction by mass is
// more than 0 and less than 1; outside it panics.
//
// Source: Jones, Mechanics of Composite Materials, 2nd edition, 3.2 and 3.5.
func (c Constituents) Unidirectional(psi units.Number) Lamina {
	c.demand("Constituents.Unidirectional", fraction("glass fraction by mass", psi))
	vf := c.VolumeFraction(psi)
	mixed := func(fibre, resin float64) float64 { return vf*fibre + (1-vf)*resin }
	halpinTsai := func(fibre, resin, factor float64) float64 {
		eta := (fibre/resin - 1) / (fibre/resin + factor)
		return resin * (1 + factor*eta*vf) / (1 - eta*vf)
	}
	shear := func(e, nu float64) float64 { return e / (2 * (1 + nu)) }
	return Lamina{
		E1: mixed(c.FibreE, c.ResinE), E2: halpinTsai(c.FibreE, c.ResinE, 2), Nu12: mixed(c.FibreNu, c.ResinNu),
		G12: halpinTsai(shear(c.FibreE, c.FibreNu), shear(c.ResinE, c.ResinNu), 1), Density: c.Density(psi),
		Source: "rule of mixtures and Halpin–Tsai; " + c.Source,
	}
}

// RandomMat is a lamina of fibres in every direction of its plane, without
// strengths: 3/8 of the modulus along and 5/8 of that across, in shear 1/8 and
// 1/4. It stands some tenth above the mean of a laminate's directions.
//
// The glass fraction by mass is more than 0 and less than 1; outside it panics.
//
// Caution: hand-laid chopped strand mat comes out less stiff than this, by a
// quarter and more: see MatByFraction.
//
// Source: Tsai and Pagano's approximation; Jones, Mechanics of Composite
// Materials, 2nd edition, 3.5.
func (c Constituents) RandomMat(psi units.Number) Lamina {
	u := c.Unidirectional(psi)
	e, g := 3*u.E1/8+5*u.E2/8, u.E1/8+u.E2/4
	return Lamina{E1: e, E2: e, Nu12: e/(2*g) - 1, G12: g, Density: u.Density, Source: "Tsai–Pagano; " + c.Source}
}

// Woven is a lamina of crossed fibres, without strengths: of parallel fibres both
// ways, bonded, without what crimp takes away.
//
// The glass fraction by mass is more than 0 and less than 1, the share of it along
// direction 1 likewise: 0.5 for a balanced cloth. Outside it panics.
//
// Source: laminate theory on two crossed laminae, derived here.
func (c Constituents) Woven(psi, along units.Number) Lamina {
	argument.Demand("laminate: Constituents.Woven", fraction("share along", along))
	u := c.Unidirectional(psi)
	q := u.plane()
	q11, q22 := along*q[0]+(1-along)*q[1], along*q[1]+(1-along)*q[0]
	return Lamina{
		E1: q11 - q[2]*q[2]/q22, E2: q22 - q[2]*q[2]/q11, Nu12: q[2] / q22, G12: u.G12, Density: u.Density,
		Source: "crossed laminae; " + u.Source,
	}
}

// Isotropic is a lamina of a material that is alike in every direction, such as
// resin or steel, without strengths.
//
// The modulus e is more than 0, Poisson's ratio nu 0 to 0.5, the density 0 or
// more. Outside it panics.
//
// Source: elasticity.
func Isotropic(e units.Pressure, nu units.Number, density units.Density) Lamina {
	argument.Demand("laminate: Isotropic", cmp.Or(argument.Positive("modulus", e), argument.Within("Poisson's ratio", nu, 0, 0.5), argument.NotNegative("density", density)))
	return Lamina{E1: e, E2: e, Nu12: nu, G12: e / (2 * (1 + nu)), Density: density, Source: "isotropic"}
}
