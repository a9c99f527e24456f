package holding

import (
	"fmt"
	"math"
	"strings"

	"tautline/stdlib/internal/argument"
	"tautline/stdlib/units"
)

// A Strap is webbing or rope between device and anchor, with its fittings.
type Strap struct {
	Limit      units.Force  // working load limit or lashing capacity of the weakest part, more than 0
	Reduction  units.Number // factor for knots, edges and splices, see StrapFactors; more than 0 to 1
	Elongation units.Number // at Limit, over its length; more than 0
	Length     units.Length // between its ends, more than 0
}

func (s Strap) demand(call string) {
	argument.Demand("holding: Strap."+call, argument.Positive("limit", s.Limit), argument.Positive("reduction", s.Reduction), argument.Within("reduction", s.Reduction, 0, 1),
		argument.Positive("elongation", s.Elongation), argument.Positive("length", s.Length))
}

// Allowable is the tension that the strap may carry.
//
//	T = s.Limit*s.Reduction
//
// It panics if a field is out of its range.
//
// Source: definition of the working load limit; factors as StrapFactors.
func (s Strap) Allowable() units.Force {
	s.demand("Allowable")
	return s.Limit * s.Reduction
}

// Rigidity is the tension per strain of the strap.
//
//	EA = s.Limit/s.Elongation
//
// It panics if a field is out of its range.
//
// Source: Hooke's law through the elongation at the limit.
func (s Strap) Rigidity() units.Force {
	s.demand("Rigidity")
	return s.Limit / s.Elongation
}

// Stiffness is the tension per length that the strap stretches.
//
//	k = s.Limit/(s.Elongation*s.Length)
//
// It panics if a field is out of its range.
//
// Source: Hooke's law through the elongation at the limit.
func (s Strap) Stiffness() units.ForcePerLength {
	s.demand("Stiffness")
	return s.Limit / (s.Elongation * s.Length)
}

// WebbingRule is what web lashings have to keep to.
type WebbingRule struct {
	Elongation units.Number // most, at the lashing capacity
	Webbing    units.Number // strength of the webbing over the capacity, least
	Complete   units.Number // strength of the whole lashing over the capacity, least
	Hand       units.Force  // standard hand force on the ratchet
	Source     string
}

// WebLashing is the rule for web lashings of man-made fibres.
//
// Caution: its lashing capacity is for loads on lorries; over people take a
// larger margin.
//
// Source: EN 12195-2, from memory: verify against the document.
func WebLashing() WebbingRule {
	return WebbingRule{Elongation: 7 * units.Percent, Webbing: 3, Complete: 2, Hand: 500 * units.N,
		Source: "EN 12195-2 (from memory: verify against the document)"}
}

// A StrapFactor is what is left of a strap's strength where it is knotted, bent
// or joined.
type StrapFactor struct {
	Where  string
	Factor units.Number
	Source string
}

// StrapFactors is the table of reductions. Where two meet, multiply them.
//
// Caution: webbing is not to be knotted at all (EN 12195-2); the factor serves to
// judge what is found on site.
//
// Source: common practice, no source.
func StrapFactors() []StrapFactor {
	const source = "common practice, no source"
	return []StrapFactor{
		{"sewn eye, as tested with the strap", 1, source},
		{"edge with a protector", 1, source},
		{"round edge, radius over twice the thickness", 0.8, source},
		{"choked round a ring or bar", 0.8, source},
		{"knot", 0.5, source},
		{"sharp edge", 0.3, source},
	}
}

// StrapFactorOf is the reduction for one place.
//
// A place that is not in the table is an error, which lists those that are.
//
// Source: as StrapFactors.
func StrapFactorOf(where string) (StrapFactor, error) {
	var known []string
	for _, f := range StrapFactors() {
		if f.Where == where {
			return f, nil
		}
		known = append(known, f.Where)
	}
	return StrapFactor{}, fmt.Errorf("strap factor: got %q, want one of: %s", where, strings.Join(known, "; "))
}

// TieDowns is the number of straps over the top of a load that hold it by
// friction alone.
//
//	n = ceil(max(0, (acceleration - mu*down)*mass*9.81*factor/(2*mu*sin(angle)*tension)))
//
// The accelerations along and down are in units of gravity, 0 or more; the
// friction coefficient mu more than 0; the mass 0 or more; the safety factor 1 or
// more; the strap's angle to the bed above 0 to 90°; the tension in each strap
// more than 0. Outside it panics. Both ends of a strap count with the same
// tension. The standard takes gravity as 9.81 m/s².
//
// Source: EN 12195-1:2010, frictional lashing, from memory: verify against the
// document.
func TieDowns(acceleration, down, mu units.Number, mass units.Mass, factor units.Number, angle units.Angle, tension units.Force) units.Number {
	argument.Demand("holding: TieDowns", argument.NotNegative("acceleration", acceleration), argument.NotNegative("acceleration down", down),
		argument.Positive("friction coefficient", mu), argument.NotNegative("mass", mass), argument.Within("factor", factor, 1, math.MaxFloat64),
		argument.Positive("strap angle", angle), strapRange(angle), argument.Positive("tension", tension))
	return math.Ceil(math.Max(0, (acceleration-mu*down)*mass*9.81*factor/(2*mu*math.Sin(angle)*tension)))
}
