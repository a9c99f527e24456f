package joint

import (
	"math"

	"tautline/stdlib/internal/argument"
	"tautline/stdlib/units"
)

// Preload is the force to which a bolt of grade 8.8 or 10.9 is tightened in a
// connection that must not slip.
//
//	F = 0.7*b.Tensile*b.Stressed
//
// It panics if a field is out of its range.
//
// Caution: only for bolt sets sold for preloading, tightened by a controlled
// method and checked.
//
// Source: EN 1993-1-8:2005, 3.6.1(2), without the factor M7.
func (b Bolt) Preload() units.Force {
	b.demand("Preload")
	return 0.7 * b.Tensile * b.Stressed
}

// SlipResistance is the shear that a preloaded bolt holds by friction alone.
//
//	F = ks*surfaces*mu*(preload - 0.8*tension)/factor
//
// ks is 1 in normal holes, 0.85 in oversize ones and short slots across the
// force, 0.7 in long slots; surfaces is the number of friction surfaces, 1 or 2;
// mu, more than 0 to 1, comes from SlipFactors. The preload is more than 0. The
// tension, 0 or more, is what pulls the plates apart at this bolt at the same
// time. The partial factor is M3, or M3Ser for slip in service. Outside the
// range it panics.
//
// Source: EN 1993-1-8:2005, 3.9.1 and 3.9.2.
func SlipResistance(ks, surfaces, mu units.Number, preload, tension units.Force, factor units.Number) units.Force {
	argument.Demand("joint: SlipResistance", argument.Within("ks", ks, 0.6, 1), argument.Within("surfaces", surfaces, 1, 2), argument.Whole("surfaces", surfaces),
		argument.Within("slip factor", mu, 0.05, 1), argument.Positive("preload", preload), argument.Within("tension", tension, 0, preload/0.8),
		argument.Within("partial factor", factor, 1, math.MaxFloat64))
	return ks * surfaces * mu * (preload - 0.8*tension) / factor
}

// A SlipFactor is the friction of prepared faces.
type SlipFactor struct {
	Class   string
	Mu      units.Number
	Surface string
	Source  string
}

// SlipFactors are the classes of friction surfaces. A painted or galvanised face
// is in none of them unless it has been tested.
//
// Source: EN 1993-1-8:2005, Table 3.7; surfaces as in EN 1090-2, from memory:
// verify against the document.
func SlipFactors() []SlipFactor {
	const source = "EN 1993-1-8:2005, Table 3.7 (surfaces of EN 1090-2 from memory: verify against the document)"
	return []SlipFactor{
		{"A", 0.5, "blasted, loose rust removed, no pits", source},
		{"B", 0.4, "blasted and sprayed with zinc or aluminium, or coated with alkali-zinc silicate", source},
		{"C", 0.3, "wire-brushed or flame-cleaned, loose rust removed", source},
		{"D", 0.2, "as rolled", source},
	}
}

// TighteningTorque is the torque that brings a bolt to its preload.
//
//	T = k*diameter*preload
//
// The torque coefficient k, 0.08 to 0.4, is about 0.2 for a dry black bolt and
// comes with the bolt set; the diameter is more than 0, the preload 0 or more.
// Outside it panics.
//
// Caution: friction takes nine tenths of the torque, so a wrong k is a wrong
// preload. Take k from the certificate of the bolt set, or test it.
//
// Source: common practice, no source.
func TighteningTorque(k units.Number, diameter units.Length, preload units.Force) units.Moment {
	argument.Demand("joint: TighteningTorque", argument.Within("torque coefficient", k, 0.08, 0.4),
		argument.Positive("diameter", diameter), argument.NotNegative("preload", preload))
	return k * diameter * preload
}
