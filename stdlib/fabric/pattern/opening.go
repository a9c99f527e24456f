package pattern

import (
	"slices"

	"tautline/stdlib/units"
)

// Open cuts an opening, such as a Circle for the blower tube or a Slot for a zip,
// into every copy of a piece. One that is not wholly inside the piece, or over
// another one, is an error.
func (p Pattern) Open(piece string, opening Edge) (Pattern, error) {
	return p.edit(piece, func(piece Piece) (Piece, error) {
		piece.Openings = append(piece.Openings, opening.clone())
		return piece, nil
	})
}

// Punch puts a drill hole into every copy of a piece. One outside the piece is an
// error.
func (p Pattern) Punch(piece string, hole Drill) (Pattern, error) {
	return p.edit(piece, func(piece Piece) (Piece, error) {
		piece.Drills = append(piece.Drills, hole)
		return piece, nil
	})
}

// Mark draws a line on every copy of a piece, such as the outline of a patch.
func (p Pattern) Mark(piece string, line Edge) (Pattern, error) {
	return p.edit(piece, func(piece Piece) (Piece, error) {
		piece.Lines = append(piece.Lines, line.clone())
		return piece, nil
	})
}

// Lay says how every copy of a piece may lie on the roll: the direction of its
// warp, anticlockwise from its x axis, whether that may also run across the roll,
// and whether the piece must not be turned end for end, as printed fabric demands.
func (p Pattern) Lay(piece string, grain units.Angle, across, oneWay bool) (Pattern, error) {
	return p.edit(piece, func(piece Piece) (Piece, error) {
		piece.Grain, piece.Across, piece.OneWay = grain, across, oneWay
		return piece, nil
	})
}

// Round makes the cut line of every piece go round its corners instead of
// straight on to a point.
func (p Pattern) Round() Pattern {
	p.Pieces = slices.Clone(p.Pieces)
	for i := range p.Pieces {
		p.Pieces[i].Rounded = true
	}
	return p
}
