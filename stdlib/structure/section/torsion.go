package section

import (
	"math"

	"tautline/stdlib/internal/argument"
	"tautline/stdlib/units"
)

// OpenTorsion is the torsion constant of a thin open profile, whatever its fold:
// a slit tube has hundreds of times less than the closed one.
//
//	It = developed*t*t*t/3
//
// The developed length of the wall's middle line and the wall t are more than 0;
// outside it panics.
//
// Source: Saint-Venant, thin strip; Timoshenko and Goodier, Theory of Elasticity,
// torsion of thin open sections.
func OpenTorsion(developed, t units.Length) units.SecondMoment {
	argument.Demand("section: OpenTorsion", argument.Positive("developed length", developed), argument.Positive("wall", t))
	return developed * t * t * t / 3
}

// BredtStress is the shear stress of a thin closed tube under torque, even
// across its wall.
//
//	tau = torque/(2*enclosed*t)
//
// The area enclosed by the wall's middle line and the wall t are more than 0;
// outside it panics. The torsion modulus Wt of a tube, by EN 10219-2, gives
// the greater stress at the outside of the wall: use one or the other.
//
// Source: Bredt's first formula; Timoshenko and Goodier, Theory of Elasticity,
// torsion of thin tubes.
func BredtStress(torque units.Moment, enclosed units.Area, t units.Length) units.Pressure {
	argument.Demand("section: BredtStress", argument.Positive("enclosed area", enclosed), argument.Positive("wall", t))
	return torque / (2 * enclosed * t)
}

// rectangleTorsion is k1 and k2 of a solid rectangle of sides ratio times t and
// t: It = k1·ratio·t⁴, and the torque over k2·ratio·t³ is the greatest shear
// stress, which is in the middle of the long side. The ratio is 1 or more.
// Source: Timoshenko and Goodier, Theory of Elasticity, torsion of rectangular
// bars.
func rectangleTorsion(ratio float64) (k1, k2 units.Number) {
	constant, stress := 0.0, 0.0
	for n := 1.0; n < 40; n += 2 {
		x := n * math.Pi * ratio / 2
		constant += math.Tanh(x) / (n * n * n * n * n)
		stress += 1 / (n * n * math.Cosh(x))
	}
	k1 = (1 - 192/(math.Pow(math.Pi, 5)*ratio)*constant) / 3
	k2 = k1 / (1 - 8/(math.Pi*math.Pi)*stress)
	return k1, k2
}

// The bulge where web and flange meet adds to the torsion constant of the
// rectangles. D is the diameter of the greatest circle in the junction, α a
// factor on D⁴. Source: El Darwish and Johnston, Torsion of structural shapes,
// Journal of the Structural Division, ASCE 91(ST1), 1965, from memory: verify
// against the document.

// cornerBulge is α·D⁴ of an L-shaped junction.
func cornerBulge(web, flange, root float64) units.SecondMoment {
	alpha := -0.0908 + 0.2621*web/flange + 0.1231*root/flange - 0.0752*web*root/(flange*flange) - 0.0945*(web/flange)*(web/flange)
	d := 2 * ((3*root + web + flange) - math.Sqrt(2*(2*root+web)*(2*root+flange)))
	return alpha * d * d * d * d
}

// teeBulge is α·D⁴ of a T-shaped junction.
func teeBulge(web, flange, root float64) units.SecondMoment {
	alpha := -0.042 + 0.2204*web/flange + 0.1355*root/flange - 0.0865*root*web/(flange*flange) - 0.0725*(web/flange)*(web/flange)
	d := ((flange+root)*(flange+root) + (root+web/4)*web) / (2*root + flange)
	return alpha * d * d * d * d
}
