package guarding

import (
	"fmt"

	"tautline/stdlib/internal/argument"
	"tautline/stdlib/units"
)

// A BallRule says which openings of fences and nets are too wide: those that a ball
// passes.
type BallRule struct {
	Name   string
	Ball   units.Length // diameter, more than 0
	Source string
}

// RideFences is the American rule for fences, gates and guard rails of amusement
// rides: no opening passes a ball of 4 in.
//
// Source: ASTM F2291, clause 14, from memory: verify clause and value against the
// document.
func RideFences() BallRule {
	return BallRule{Name: "ball of 4 in", Ball: 4 * units.In, Source: "ASTM F2291, clause 14 (from memory: verify against the document)"}
}

// InflatableNets is the rule for nets of play inflatables: meshes of at most 30 mm.
//
// Source: EN 14960-1:2019, nets, the clause not known, the value from memory:
// verify against the document.
func InflatableNets() BallRule {
	return BallRule{Name: "mesh of 30 mm", Ball: 30 * units.Mm, Source: "EN 14960-1:2019 (from memory: verify against the document)"}
}

// Judge says whether an opening keeps the ball out: its narrow side is no more than
// the ball's diameter.
//
// The sides are more than 0 and stand either way; outside it panics.
//
// Source: the rule.
func (r BallRule) Judge(width, height units.Length) Judgement {
	argument.Demand("guarding: BallRule.Judge", argument.Positive("ball", r.Ball), argument.Positive("width", width), argument.Positive("height", height))
	j := Judgement{Safe: atMost(min(width, height), r.Ball), Why: "the ball does not pass", Rule: fmt.Sprintf("%s: %s", r.Name, r.Source)}
	if !j.Safe {
		j.Why = "the ball passes"
	}
	return j
}
