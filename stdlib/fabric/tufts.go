package fabric

import (
	"cmp"
	"fmt"
	"math"

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

// Rise is how high a panel cut full stands over its ties, midway between four of
// them.
//
// The cut lengths, from tie to tie along a row and from row to row on the panel laid
// flat, are the distances of the ties or more, by up to 15 % of them; the rows are at
// most four times as far apart as the ties in them, or the reverse. Outside
// that, and for a field out of its range, it is an error. The pressure does not matter.
//
// The panel folds along its rows and stands between opposite ties as an arc of the
// diagonal's cut length would: form finding with cloth that hardly stretches gives the
// same or up to 5 % more.
//
// Source: geometry of a circle; held against form finding in the tests of this package.
func (t Tufts) Rise(cutAlong, cutAcross units.Length) (units.Length, error) {
	const fullest, longest = 0.15, 4
	err := cmp.Or(argument.Positive("distance in a row", t.Along), argument.Positive("distance of rows", t.Across))
	if err == nil {
		err = cmp.Or(argument.Within("distance of rows over that in a row", t.Across/t.Along, 1.0/longest, longest),
			argument.Within("cut length along a row", cutAlong, t.Along, (1+fullest)*t.Along),
			argument.Within("cut length from row to row", cutAcross, t.Across, (1+fullest)*t.Across))
	}
	var l Lobe
	chord, cut := math.Hypot(t.Along, t.Across), math.Hypot(cutAlong, cutAcross)
	if err == nil && cut <= chord {
		return 0, nil
	}
	if err == nil {
		l, err = LobeOfCut(chord, cut, t.Pressure)
	}
	if err != nil {
		return 0, fmt.Errorf("tufts: rise: %w", err)
	}
	return l.Rise()
}

// Fullness is the cut length over the distance of the ties, the same along and across,
// with which a panel stands so high over them.
//
// The rise is more than 0 and at most a quarter of the diagonal from tie to tie. It
// panics if it or a field is out of its range.
//
// Source: as Rise.
func (t Tufts) Fullness(rise units.Length) units.Number {
	diagonal := math.Hypot(t.Along, t.Across)
	t.demand("Fullness", argument.Positive("rise", rise), argument.Within("rise", rise, 0, diagonal/4))
	radius := (diagonal*diagonal/4 + rise*rise) / (2 * rise)
	return 2 * radius * math.Asin(diagonal/2/radius) / diagonal
}

func (t Tufts) demand(call string, more ...error) {
	argument.Demand("fabric: Tufts."+call, append(more, argument.Positive("distance in a row", t.Along),
		argument.Positive("distance of rows", t.Across), argument.NotNegative("pressure", t.Pressure))...)
}
