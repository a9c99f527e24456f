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
	argument.Demand("fabric: Tufts.TieForce", argument.Positive("distance in a row", t.Along), argument.Positive("distance of rows", t.Across),
		argument.NotNegative("pressure", t.Pressure))
	return t.Pressure * t.Along * t.Across
}
