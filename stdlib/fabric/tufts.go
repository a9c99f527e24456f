package fabric

import (
	"tautline/stdlib/internal/argument"
	"tautline/stdlib/units"
)

// Tufts are ties or cords that hold two panels together at the points of a
// grid.
type Tufts struct {
	Along    units.Length   // distance of the ties in a row, more than 0
	Across   units.Length   // distance of the rows, more than 0
	Pressure units.Pressure // gauge, 0 or more
}

// TieForce is the pull on one tie with neighbours, or a rigid edge, at the grid
// distance all round.
//
//	T = t.Pressure*t.Along*t.Across
//
// It panics if a field is out of its range.
//
// Caution: how the fabric takes the point load at the tie is not covered.
//
// Source: equilibrium: each tie holds one grid field.
func (t Tufts) TieForce() units.Force {
	t.demand("TieForce")
	return t.Pressure * t.Along * t.Across
}

// EdgeTieForce is the pull on one tie of the last row.
//
//	T = t.Pressure*t.Along*(t.Across + edge)/2
//
// The distance edge, from the row to the edge that holds the panels, is 0 or
// more. It panics if it or a field is out of its range.
//
// Caution: how the fabric takes the point load at the tie is not covered.
//
// Source: equilibrium: the tie holds half of the field to each side.
func (t Tufts) EdgeTieForce(edge units.Length) units.Force {
	t.demand("EdgeTieForce", argument.NotNegative("distance to the edge", edge))
	return t.Pressure * t.Along * (t.Across + edge) / 2
}

// LineForce is the mean line force across the rows in each panel, at a place
// where the bed is so high.
//
//	N = t.Pressure*height/2
//
// The height from panel to panel is the mean along a cut square to the rows, 0
// or more; no seam near a tie carries so little. It panics if it or a field is
// out of its range.
//
// Source: equilibrium of the cut: both panels together hold the pressure on it.
func (t Tufts) LineForce(height units.Length) units.ForcePerLength {
	t.demand("LineForce", argument.NotNegative("height", height))
	return t.Pressure * height / 2
}

func (t Tufts) demand(call string, more ...error) {
	argument.Demand("fabric: Tufts."+call, append(more, argument.Positive("distance in a row", t.Along),
		argument.Positive("distance of rows", t.Across), argument.NotNegative("pressure", t.Pressure))...)
}
