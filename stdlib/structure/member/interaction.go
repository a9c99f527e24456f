package member

import (
	"math"

	"tautline/stdlib/internal/argument"
	"tautline/stdlib/structure/section"
	"tautline/stdlib/units"
)

// EquivalentMoment is the factor Cm that turns the moments along a member, given
// at its ends and in its middle, into an even one.
//
// Between ends without load it is 0.6 + 0.4·psi, at least 0.4, psi being the
// smaller end moment over the larger one. With load between, the column for even
// loads is used, which is never less than that for point loads. Moments are
// finite; outside it panics. Without any moment it is 1.
//
// Source: EN 1993-1-1:2005, Annex B, Table B.3, from memory: verify against the
// document.
func EquivalentMoment(first, middle, last units.Moment) units.Number {
	argument.Demand("member: EquivalentMoment", argument.Finite("first", first), argument.Finite("middle", middle), argument.Finite("last", last))
	hogging, other := first, last
	if math.Abs(last) > math.Abs(first) {
		hogging, other = last, first
	}
	most := math.Max(math.Abs(hogging), math.Abs(middle))
	if most == 0 {
		return 1
	}
	if math.Abs(middle-(first+last)/2) <= 1e-6*most {
		return math.Max(0.4, 0.6+0.4*other/hogging)
	}
	psi := 0.0
	if hogging != 0 {
		psi = other / hogging
	}
	if math.Abs(middle) <= math.Abs(hogging) {
		a := middle / hogging
		switch {
		case a >= 0:
			return math.Max(0.4, 0.2+0.8*a)
		case psi >= 0:
			return math.Max(0.4, 0.1-0.8*a)
		}
		return math.Max(0.4, 0.1*(1-psi)-0.8*a)
	}
	a := hogging / middle
	if a < 0 && psi < 0 {
		return 0.95 + 0.05*a*(1+2*psi)
	}
	return 0.95 + 0.05*a
}

// Interaction are the factors k of compression on bending.
type Interaction struct {
	YY, YZ, ZY, ZZ units.Number
	Source         string
}

// An AxialShare is how slender a member is about an axis and how much of its
// buckling resistance the compression uses.
type AxialShare struct {
	Lambda units.Number // relative slenderness
	Share  units.Number // of the buckling resistance, 0 or more
}

// Interactions are the factors of method 2 for a section, plastic (classes 1 and
// 2) or elastic, with equivalent moments cmy, cmz and, for the moments between
// points held sideways, cmlt.
//
// Tubes and round bars, which hardly twist, follow Table B.1; all others Table
// B.2. Factors are more than 0, cmlt of an open section more than 0.25, shares
// and slendernesses 0 or more; outside it panics.
//
// Source: EN 1993-1-1:2005, Annex B, Tables B.1 and B.2, from memory: verify
// against the document. For channels, angles and bars, which the tables do not
// name, used by analogy.
func Interactions(s section.Section, plastic bool, y, z AxialShare, cmy, cmz, cmlt units.Number) Interaction {
	argument.Demand("member: Interactions", argument.NotNegative("slenderness about y", y.Lambda), argument.NotNegative("slenderness about z", z.Lambda),
		argument.NotNegative("share about y", y.Share), argument.NotNegative("share about z", z.Share),
		argument.Positive("cmy", cmy), argument.Positive("cmz", cmz), argument.Above("cmlt", cmlt, 0.25))
	k := Interaction{Source: "EN 1993-1-1:2005, 6.3.3 and Annex B (from memory: verify against the document)"}
	if plastic {
		k.YY = cmy * (1 + math.Min(y.Lambda-0.2, 0.8)*y.Share)
		slope := math.Min(z.Lambda-0.2, 0.8)
		if s.Shape == section.IShape {
			slope = math.Min(2*z.Lambda-0.6, 1.4)
		}
		k.ZZ = cmz * (1 + slope*z.Share)
		k.YZ, k.ZY = 0.6*k.ZZ, 0.6*k.YY
	} else {
		k.YY = cmy * (1 + 0.6*math.Min(y.Lambda, 1)*y.Share)
		k.ZZ = cmz * (1 + 0.6*math.Min(z.Lambda, 1)*z.Share)
		k.YZ, k.ZY = k.ZZ, 0.8*k.YY
	}
	if twists(s) {
		k.ZY = twisting(plastic, z, cmlt)
	}
	return k
}

// twists reports whether a section gives way to torsion when it buckles.
func twists(s section.Section) bool { return !s.Hollow() && s.Shape != section.Rod }

// twisting is k of bending about y in buckling about z, Table B.2.
func twisting(plastic bool, z AxialShare, cmlt float64) float64 {
	slope := 0.05
	if plastic {
		slope = 0.1
	}
	k := 1 - slope*math.Min(z.Lambda, 1)*z.Share/(cmlt-0.25)
	if plastic && z.Lambda < 0.4 {
		k = math.Min(0.6+z.Lambda, 1-slope*z.Lambda*z.Share/(cmlt-0.25))
	}
	return k
}
