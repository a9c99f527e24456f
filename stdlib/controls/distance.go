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

// Reach over the edge of a light curtain: heights of its upper edge, of what is
// reached for, and the distance to add, in millimetres. Columns that are not there
// are 0.
var (
	curtainEdges   = []float64{900, 1000, 1100, 1200, 1300, 1400, 1600, 1800, 2000, 2200, 2400, 2600}
	curtainHeights = []float64{0, 200, 400, 600, 800, 1000, 1200, 1400, 1600, 1800, 2000, 2200, 2400, 2500, 2600}
	curtainReaches = [][]float64{
		{}, {600}, {900, 700}, {1050, 950, 750, 550}, {1150, 1050, 950, 800, 500, 450}, {1200, 1150, 1050, 950, 750, 700}, {1200, 1200, 1100, 1000, 850, 800},
		{1200, 1200, 1100, 1000, 900, 850, 650}, {1150, 1150, 1100, 1000, 900, 850, 750, 450}, {1100, 1100, 950, 950, 850, 800, 750, 550},
		{950, 950, 850, 850, 800, 750, 700, 550, 400}, {800, 750, 750, 700, 650, 650, 600, 550, 400, 250},
		{550, 550, 550, 500, 450, 450, 400, 400, 300, 250, 100}, {400, 400, 350, 300, 300, 300, 300, 300, 250, 150, 100}, {},
	}
)

// CurtainDistance is how far from what moves a light curtain stands that somebody
// may lean over: the greater of GuardDistance, through it, and K·T + C over its
// edge, with C from a table of the heights of the edge and of what hurts.
//
// stop is the whole time from the approach seen to rest, 0 or more; detail is as in
// GuardDistance. edge is the height of the curtain's upper edge over where people
// stand, 0.9 m or more, since over a lower one they step; low and high are the ends
// of what hurts, low no more than high, 0 or more. Heights between those of the
// table count as the worse of the two, an edge between two as the lower one. K is
// 2000 mm/s, or 1600 mm/s where this gives more than 500 mm, but then not less than
// 500 mm. Outside the ranges it panics.
//
// Caution: as GuardDistance. A curtain that somebody can creep under, or stand
// behind, needs something else besides.
//
// Source: ISO 13855:2010, 6.5 and table 1 (from memory: verify against the
// document; the edition of 2024 has another form).
func CurtainDistance(stop units.Time, detail, edge, low, high units.Length) units.Length {
	argument.Demand("controls: CurtainDistance", argument.NotNegative("stopping time", stop), argument.Within("detail", detail, 0, 70*units.Mm),
		argument.Within("height of the edge", edge, 900*units.Mm, 1e3*units.M), argument.NotNegative("lowest of what hurts", low), argument.Within("highest of what hurts", high, low, 1e3*units.M))
	reach := curtainReach(edge, low, high)
	over := hand*stop + reach
	if over > 500*units.Mm {
		over = math.Max(walking*stop+reach, 500*units.Mm)
	}
	return math.Max(over, GuardDistance(stop, detail))
}

// curtainReach is the greatest reach over an edge to what hurts between two heights.
func curtainReach(edge, low, high units.Length) units.Length {
	const same = 1 + 1e-9 // heights that are alike but for rounding
	column := 0
	for i, e := range curtainEdges {
		if e*units.Mm <= edge*same {
			column = i
		}
	}
	reach := 0.0
	for i, row := range curtainReaches {
		below := i+1 < len(curtainHeights) && curtainHeights[i+1]*units.Mm <= low*same // the next row is no higher than low
		above := i > 0 && high <= curtainHeights[i-1]*units.Mm*same
		if !below && !above && column < len(row) {
			reach = math.Max(reach, row[column])
		}
	}
	return reach * units.Mm
}
