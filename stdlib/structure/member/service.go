package member

import (
	"tautline/stdlib/internal/argument"
	"tautline/stdlib/units"
)

// A DeflectionLimit is how far a member may bend under loads without factors, as
// a share of its span.
type DeflectionLimit struct {
	What   string
	Share  units.Number // the span over this
	Source string
}

// DeflectionLimits are customary limits. EN 1993-1-1, 7.2, leaves them to the
// client and the National Annex, and EN 1990, A1.4, names what they are for.
//
// Source: common practice, no source; the cantilever twice its length, as its
// chord is half of a beam's.
func DeflectionLimits() []DeflectionLimit {
	const source = "common practice, no source; EN 1990:2002, A1.4, leaves the value to the client"
	return []DeflectionLimit{
		{"beam under people", 300, source},
		{"beam otherwise", 200, source},
		{"cantilever", 150, source},
		{"sway of a mast or column", 150, source},
	}
}

// Allowed is how far a member of a span may bend.
//
//	w = span/l.Share
//
// The span is more than 0; outside it panics. Of a cantilever the span is its
// length.
//
// Source: definition; the limit names its own.
func (l DeflectionLimit) Allowed(span units.Length) units.Length {
	argument.Demand("member: DeflectionLimit.Allowed", argument.Positive("span", span), argument.Positive("share", l.Share))
	return span / l.Share
}
