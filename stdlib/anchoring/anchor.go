package anchoring

import (
	"math"

	"tautline/stdlib/internal/argument"
	"tautline/stdlib/units"
)

// An AnchorRule is what a document asks of a device's anchors.
type AnchorRule struct {
	Load          units.Force  // that each anchor point and all its parts hold
	Factor        units.Number // on the wind force
	Minimum       units.Number // least number of anchor points on a device
	LowAngle      units.Angle  // least angle of the pull to the ground
	HighAngle     units.Angle  // greatest angle of the pull to the ground
	StakeLength   units.Length // least length of a stake
	StakeDiameter units.Length // least diameter of a stake
	MaxWind       units.Speed  // in which the device may run
	// Ballast is the mass to a point where stakes cannot go. It holds Load only
	// if the pull is straight up, and there a little less: see BallastMass.
	Ballast units.Mass
	Source  string
}

// PlayInflatableAnchors is what the play-inflatable standard and its regulator's
// advice ask. Stakes have rounded tops and lean away from the pull.
//
// Caution: a powered ride's bed is outside the standard's scope; it serves there
// by analogy. The factor is from memory.
//
// Source: ISO 20187:2016, 4.2.1 (load, angles, stakes, wind), whose numbers
// EN 14960-1 shares; HSE, Bouncy castles: safety advice (minimum, ballast), all
// as quoted in public copies. The factor: EN 14960-1:2019, Annex A, from memory:
// verify against the document.
func PlayInflatableAnchors() AnchorRule {
	return AnchorRule{
		Load:          1600 * units.N,
		Factor:        1.5,
		Minimum:       6,
		LowAngle:      30 * units.Deg,
		HighAngle:     45 * units.Deg,
		StakeLength:   380 * units.Mm,
		StakeDiameter: 16 * units.Mm,
		MaxWind:       38 * units.KmPerH,
		Ballast:       163 * units.Kg,
		Source: "ISO 20187:2016, 4.2.1; HSE, Bouncy castles: safety advice (public copies); " +
			"factor from EN 14960-1:2019, Annex A (from memory: verify against the document; a powered ride's bed is outside its scope)",
	}
}

// AnchorsPerFace is the number of anchors that hold the wind on one face.
//
//	n = ceil(factor*force/load)
//
// The wind force on the face is 0 or more, the factor on it 1 or more, the load
// that one anchor holds more than 0; outside it panics. The anchors that count
// are those on the windward side, pulled within the rule's angles.
//
// Caution: the ground must really give the load. One above some 50 kN is most
// likely a unit slip: 163 kg of ballast weighs 1.6 kN and holds less than that
// under a sloping strap.
//
// Source: EN 14960-1:2019, Annex A, from memory: verify against the document.
func AnchorsPerFace(force units.Force, factor units.Number, load units.Force) units.Number {
	argument.Demand("anchoring: AnchorsPerFace", argument.NotNegative("force", force), argument.Within("factor", factor, 1, math.MaxFloat64), argument.Positive("load", load))
	return math.Ceil(factor * force / load)
}

// AnchorsInAll is the number of anchors of a rectangular device that must hold
// the wind from every side.
//
//	n = max(minimum, 2*(front + side))
//
// The numbers front and side, from AnchorsPerFace, and the rule's minimum are 0
// or more; outside it panics.
//
// Source: EN 14960-1:2019, Annex A, read as wind onto each of four sides; from
// memory: verify against the document.
func AnchorsInAll(front, side, minimum units.Number) units.Number {
	argument.Demand("anchoring: AnchorsInAll", argument.NotNegative("front", front), argument.NotNegative("side", side), argument.NotNegative("minimum", minimum))
	return math.Max(minimum, 2*(front+side))
}
