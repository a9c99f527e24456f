package frame

import (
	"fmt"
	"math"

	"tautline/stdlib/units"
)

// A ForceRange is the least and the greatest of a force over several results,
// and in which of them.
type ForceRange struct {
	Low, High     units.Force
	LowIn, HighIn string
}

// A MomentRange is the least and the greatest of a moment over several results,
// and in which of them.
type MomentRange struct {
	Low, High     units.Moment
	LowIn, HighIn string
}

// An Envelope is between which limits the internal forces of a member lie in
// several combinations, wherever along it.
type Envelope struct {
	Member    Member
	N, VY, VZ ForceRange
	T, MY, MZ MomentRange
}

// EnvelopeOf is the envelope of a member over results.
//
// There is at least one result, and each has the member; otherwise it panics.
//
// Source: definition.
func EnvelopeOf(m Member, results ...Result) Envelope {
	if len(results) == 0 {
		panic("frame: EnvelopeOf: results: got none, want at least one")
	}
	e := Envelope{Member: m}
	force := func(r *ForceRange, v float64, name string) {
		if v < r.Low || r.LowIn == "" {
			r.Low, r.LowIn = v, name
		}
		if v > r.High || r.HighIn == "" {
			r.High, r.HighIn = v, name
		}
	}
	for i, r := range results {
		name := r.Name
		if name == "" {
			name = fmt.Sprintf("result %d", i+1)
		}
		for _, s := range r.Member(m).Stations {
			force(&e.N, s.N, name)
			force(&e.VY, s.VY, name)
			force(&e.VZ, s.VZ, name)
			force((*ForceRange)(&e.T), s.T, name)
			force((*ForceRange)(&e.MY), s.MY, name)
			force((*ForceRange)(&e.MZ), s.MZ, name)
		}
	}
	return e
}

// Most is the greatest size in the range.
//
// Source: definition.
func (r ForceRange) Most() units.Force { return math.Max(math.Abs(r.Low), math.Abs(r.High)) }

// Most is the greatest size in the range.
//
// Source: definition.
func (r MomentRange) Most() units.Moment { return math.Max(math.Abs(r.Low), math.Abs(r.High)) }

// PadEnvelope is between which limits a support presses on the ground over
// results: Low is 0 where a pad lifts off.
//
// There is at least one result, and each has the support; otherwise it panics.
//
// Source: definition.
func PadEnvelope(n Node, results ...Result) ForceRange {
	if len(results) == 0 {
		panic("frame: PadEnvelope: results: got none, want at least one")
	}
	var e ForceRange
	for i, r := range results {
		p := r.Reaction(n).Press
		if p < e.Low || i == 0 {
			e.Low, e.LowIn = p, r.Name
		}
		if p > e.High || i == 0 {
			e.High, e.HighIn = p, r.Name
		}
	}
	return e
}
