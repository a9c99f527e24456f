package guarding

import (
	"fmt"

	"tautline/stdlib/internal/argument"
	"tautline/stdlib/units"
)

// A Judgement is a verdict on an opening in which somebody may be caught.
type Judgement struct {
	Safe bool
	Why  string
	Rule string // by which it was judged, with its source
}

// A FingerRule says which openings catch a finger (entrapment): those that a thin
// rod enters and a thick rod does not.
type FingerRule struct {
	Name   string
	Thin   units.Length // diameter of the rod that stands for a finger, more than 0
	Thick  units.Length // diameter of the rod that stands for a free hand, more than Thin
	Source string
}

// PlayFingers is the rule for playground equipment, to which play inflatables
// refer: rods of 8 and 25 mm.
//
// Source: EN 1176-1:2017, 4.2.7, from memory: verify against the document.
func PlayFingers() FingerRule {
	return FingerRule{Name: "rods of 8 and 25 mm", Thin: 8 * units.Mm, Thick: 25 * units.Mm, Source: "EN 1176-1:2017, 4.2.7 (from memory: verify against the document)"}
}

// InflatableFingers is the rule for play inflatables, which refer to the rods of
// playground equipment.
//
// Source: EN 14960-1:2019, entrapment, the clause not known, from memory: verify
// against the document.
func InflatableFingers() FingerRule {
	r := PlayFingers()
	r.Source = "EN 14960-1:2019, by the rods of EN 1176-1 (from memory: verify against the document)"
	return r
}

// AmericanFingers is the American practice for playgrounds: from ⅜ in to 1 in.
//
// Source: CPSC Public Playground Safety Handbook, pub. 325, as quoted by others:
// verify against the document.
func AmericanFingers() FingerRule {
	return FingerRule{Name: "3/8 in to 1 in", Thin: 0.375 * units.In, Thick: 1 * units.In, Source: "CPSC pub. 325 (as quoted by others: verify against the document)"}
}

// Judge says whether an opening of a width catches a finger.
//
// The width is 0 or more, and the thick rod thicker than the thin one; outside it
// panics.
//
// Source: the rule.
func (r FingerRule) Judge(width units.Length) Judgement {
	argument.Demand("guarding: FingerRule.Judge", argument.NotNegative("width", width), argument.Positive("thin rod", r.Thin), argument.Above("thick rod", r.Thick, r.Thin))
	j := Judgement{Rule: fmt.Sprintf("%s: %s", r.Name, r.Source)}
	switch {
	case !atMost(r.Thin, width):
		j.Safe, j.Why = true, "no finger comes in"
	case atMost(r.Thick, width):
		j.Safe, j.Why = true, "a finger comes out again"
	default:
		j.Why = "a finger comes in and stays"
	}
	return j
}

// A HeadRule says which closed openings catch a head (entrapment): those that a
// body passes feet first and a head does not.
type HeadRule struct {
	Name   string
	Narrow units.Length // narrow side of the probe for a body, more than 0
	Long   units.Length // its long side, no less
	Head   units.Length // diameter of the probe for a head, more than Narrow
	Source string
}

// PlayHeads is the rule for playground equipment, to which play inflatables refer:
// a body of 89 by 157 mm, a head of 230 mm.
//
// Source: EN 1176-1:2017, 4.2.7, probes, from memory: verify against the document.
func PlayHeads() HeadRule {
	return HeadRule{Name: "body of 89 × 157 mm, head of 230 mm", Narrow: 89 * units.Mm, Long: 157 * units.Mm, Head: 230 * units.Mm,
		Source: "EN 1176-1:2017, 4.2.7 (from memory: verify against the document)"}
}

// InflatableHeads is the rule for play inflatables, which refer to the probes of
// playground equipment.
//
// Source: EN 14960-1:2019, entrapment, the clause not known, from memory: verify
// against the document.
func InflatableHeads() HeadRule {
	r := PlayHeads()
	r.Source = "EN 14960-1:2019, by the probes of EN 1176-1 (from memory: verify against the document)"
	return r
}

// AmericanHeads is the American practice for playgrounds: a body of 3.5 by 6.2 in,
// a head of 9 in.
//
// Source: CPSC pub. 325 and ASTM F1487, probes, from memory: verify against the
// documents.
func AmericanHeads() HeadRule {
	return HeadRule{Name: "body of 3.5 × 6.2 in, head of 9 in", Narrow: 3.5 * units.In, Long: 6.2 * units.In, Head: 9 * units.In,
		Source: "CPSC pub. 325 and ASTM F1487 (from memory: verify against the documents)"}
}

// ToddlerHeads is the American practice where the smallest children play: a body
// of 3 by 5 in.
//
// Source: CPSC pub. 325, from memory: verify against the document.
func ToddlerHeads() HeadRule {
	return HeadRule{Name: "body of 3 × 5 in, head of 9 in", Narrow: 3 * units.In, Long: 5 * units.In, Head: 9 * units.In,
		Source: "CPSC pub. 325 (from memory: verify against the document)"}
}

// Judge says whether a rectangular opening, closed all round, catches a head.
//
// The sides are more than 0 and stand either way; outside it panics, as where the
// probes are none. Openings of other shapes need the probes themselves, since
// their corners are round.
//
// Source: the rule.
func (r HeadRule) Judge(width, height units.Length) Judgement {
	argument.Demand("guarding: HeadRule.Judge", argument.Positive("width", width), argument.Positive("height", height),
		argument.Positive("narrow side of the body", r.Narrow), argument.Within("long side of the body", r.Long, r.Narrow, 10*units.M), argument.Above("head", r.Head, r.Narrow))
	narrow, long := min(width, height), max(width, height)
	j := Judgement{Rule: fmt.Sprintf("%s: %s", r.Name, r.Source)}
	switch {
	case !atMost(r.Narrow, narrow) || !atMost(r.Long, long):
		j.Safe, j.Why = true, "no body passes"
	case atMost(r.Head, narrow):
		j.Safe, j.Why = true, "a head passes after the body"
	default:
		j.Why = "a body passes and its head does not"
	}
	return j
}

// Suspect is the quick look at a closed opening: suspect where its clear width is
// more than 3.5 in and less than 9 in, whatever its shape.
//
// The width is 0 or more; outside it panics.
//
// Source: CPSC pub. 325, as quoted by others: verify against the document.
func Suspect(width units.Length) Judgement {
	argument.Demand("guarding: Suspect", argument.NotNegative("width", width))
	j := Judgement{Safe: atMost(width, 3.5*units.In) || atMost(9*units.In, width), Why: "not suspect", Rule: "3.5 in to 9 in: CPSC pub. 325 (as quoted by others: verify against the document)"}
	if !j.Safe {
		j.Why = "suspect: try it with the probes"
	}
	return j
}
