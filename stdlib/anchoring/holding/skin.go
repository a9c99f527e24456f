package holding

import (
	"math"

	"tautline/stdlib/internal/argument"
	"tautline/stdlib/units"
)

// ClaySkin is the force that draws a round stake straight out of clay.
//
//	Q = adhesion*strength*pi*diameter*length
//
// The adhesion is 0 to 1, about 0.5; the undrained strength, the diameter and the
// length below ground are more than 0. Outside it panics.
//
// Source: adhesion over the skin (alpha method); M. J. Tomlinson, Pile Design and
// Construction Practice, from memory: verify against the document.
func ClaySkin(adhesion units.Number, strength units.Pressure, diameter, length units.Length) units.Force {
	argument.Demand("holding: ClaySkin", argument.Within("adhesion", adhesion, 0, 1), argument.Positive("strength", strength),
		argument.Positive("diameter", diameter), argument.Positive("length", length))
	return adhesion * strength * math.Pi * diameter * length
}

// SandSkin is the force that draws a round stake straight out of sand: earth at
// rest presses on its skin, with two thirds of the sand's friction.
//
//	Q = 0.5*weight*(1 - sin(friction))*tan(2/3*friction)*pi*diameter*length*length
//
// The unit weight, the diameter and the length below ground are more than 0, the
// angle of friction is above 0 to 45°. Outside it panics.
//
// Source: earth pressure at rest, Jaky (1944); two thirds of the friction angle
// between steel and sand: common practice, no source.
func SandSkin(weight units.SpecificWeight, friction units.Angle, diameter, length units.Length) units.Force {
	argument.Demand("holding: SandSkin", argument.Positive("unit weight", weight), argument.Positive("angle of friction", friction),
		argument.Within("angle of friction", friction, 0, math.Pi/4), argument.Positive("diameter", diameter), argument.Positive("length", length))
	return 0.5 * weight * (1 - math.Sin(friction)) * math.Tan(2.0/3*friction) * math.Pi * diameter * length * length
}

// Inclined is the tension that an anchor holds under a pull between two
// directions in which it is known: the straight line between the two, below the
// ellipse that tests follow.
//
//	T = 1/(cos(angle)/across + sin(angle)/along)
//
// What the anchor holds across and along are more than 0; the angle of the pull
// from across towards along is 0 to 90°. Outside it panics.
//
// Source: lower bound, derived here: what an anchor holds bulges outward between
// two directions. The ellipse: G. G. Meyerhof, Uplift resistance of inclined
// anchors and piles, 8th ICSMFE, Moscow 1973, from memory: verify against the
// document.
func Inclined(across, along units.Force, angle units.Angle) units.Force {
	argument.Demand("holding: Inclined", argument.Positive("force across", across), argument.Positive("force along", along), argument.Within("angle", angle, 0, math.Pi/2))
	return 1 / (math.Cos(angle)/across + math.Sin(angle)/along)
}
