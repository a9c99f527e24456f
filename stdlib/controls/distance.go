package controls

import (
	"math"

	"tautline/stdlib/internal/argument"
	"tautline/stdlib/units"
)

// Speeds of approach.
//
// Source: ISO 13855:2010, 6.2 (from memory: verify against the document).
const (
	walking = 1600 * units.Mm / units.S // of a body
	hand    = 2000 * units.Mm / units.S // of a hand near by
)

// GuardDistance is how far from what moves a light curtain or a row of beams
// stands, so that all is at rest before whoever breaks it arrives: K·T + C.
//
// stop is the whole time from the approach seen to rest, 0 or more. detail is the
// size of the smallest thing that it sees, 0 to 70 mm. Up to 40 mm a hand is
// expected, at 2000 mm/s plus 8·(d - 14 mm), where this gives more than 500 mm at
// 1600 mm/s but not less than 500 mm, and never less than 100 mm; above 40 mm an
// arm, at 1600 mm/s plus 850 mm. Outside the ranges it panics.
//
// Caution: for adults who do not hurry. Children at play run and crawl; a fence
// keeps them out, not a light curtain.
//
// Source: ISO 13855:2010, 6.2.3 (from memory: verify against the document; the
// edition of 2024 has another form).
func GuardDistance(stop units.Time, detail units.Length) units.Length {
	argument.Demand("controls: GuardDistance", argument.NotNegative("stopping time", stop), argument.Within("detail", detail, 0, 70*units.Mm))
	if detail > 40*units.Mm {
		return walking*stop + 850*units.Mm
	}
	reach := 8 * math.Max(detail-14*units.Mm, 0)
	s := hand*stop + reach
	if s > 500*units.Mm {
		s = math.Max(walking*stop+reach, 500*units.Mm)
	}
	return math.Max(s, 100*units.Mm)
}

// FieldDistance is how far a field parallel to the ground reaches, such as a row
// of beams or a mat that is trodden on, so that all is at rest before whoever
// walks into it arrives.
//
//	S = 1.6*stop + max(1.2-0.4*height, 0.85)
//
// All lengths are in m, speeds in m/s. stop is the whole time from the approach
// seen to rest, 0 or more. height is that of the field over the ground, 0 for a
// mat, at most 1 m. Outside the ranges it panics.
//
// Caution: for adults who do not hurry; a field higher than 0.3 m can be crept
// under by a child.
//
// Source: ISO 13855:2010, 6.3 and clause 7 (from memory: verify against the
// document).
func FieldDistance(stop units.Time, height units.Length) units.Length {
	argument.Demand("controls: FieldDistance", argument.NotNegative("stopping time", stop), argument.Within("height", height, 0, 1))
	return walking*stop + math.Max(1200*units.Mm-0.4*height, 850*units.Mm)
}

// TwoHandDistance is how far from what moves a device stands that keeps it moving
// only while both hands are on it.
//
//	S = max(1.6*stop+0.25, 0.1)
//
// All lengths are in m, speeds in m/s. stop is the whole time from a hand let go to
// rest, 0 or more; outside it panics.
//
// Caution: it protects whoever holds it, and nobody else.
//
// Source: ISO 13855:2010, clause 8 (from memory: verify against the document).
func TwoHandDistance(stop units.Time) units.Length {
	argument.Demand("controls: TwoHandDistance", argument.NotNegative("stopping time", stop))
	return math.Max(walking*stop+250*units.Mm, 100*units.Mm)
}

// GateDistance is how far from what moves a gate stands that stops it when opened,
// where nothing keeps the gate locked meanwhile.
//
//	S = 1.6*stop + reach
//
// All lengths are in m, speeds in m/s. stop is the whole time from the gate open
// to rest, 0 or more; reach is how far an arm gets through the gap that opens
// before the stop begins, from the table of openings of ISO 13857, 0 or more.
// Outside the ranges it panics.
//
// Source: ISO 13855:2010, clause 9 (from memory: verify against the document).
func GateDistance(stop units.Time, reach units.Length) units.Length {
	argument.Demand("controls: GateDistance", argument.NotNegative("stopping time", stop), argument.NotNegative("reach", reach))
	return walking*stop + reach
}
