package guarding

import (
	"cmp"
	"fmt"

	"tautline/stdlib/internal/argument"
	"tautline/stdlib/units"
)

// An Opening is a regular hole in a guard.
type Opening struct {
	Shape  string       // "slot", "square" or "round"
	Width  units.Length // narrow side, side or diameter, more than 0
	Length units.Length // of a slot, no less than its width; else not used
}

// A Reach is how far a limb comes through an opening: what can hurt lies at least
// so far behind it.
type Reach struct {
	Distance units.Length
	Source   string
}

const (
	through = "ISO 13857:2019, table 4 (as quoted by others: verify against the document)"
	child   = "ISO 13857:2019, table 5 (from memory: verify against the document)"
	leg     = "ISO 13857:2019, table 7 (slots of 35 mm and more as quoted by others, the others from memory: verify against the document)"
)

// A row of a table of reaches: openings up to a width, the distance behind slots,
// squares and rounds, in millimetres.
type row struct{ width, slot, square, round float64 }

var adult = []row{{4, 2, 2, 2}, {6, 10, 5, 5}, {8, 20, 15, 5}, {10, 80, 25, 20}, {12, 100, 80, 80}, {20, 120, 120, 120}, {30, 850, 120, 120}, {40, 850, 200, 120}, {120, 850, 850, 850}}

var small = []row{{4, 2, 2, 2}, {6, 20, 10, 10}, {8, 40, 30, 20}, {10, 80, 60, 60}, {12, 100, 80, 80}, {20, 900, 120, 120}, {30, 900, 550, 120}, {100, 900, 900, 900}}

var foot = []row{{5, 0, 0, 0}, {15, 10, 0, 0}, {35, 80, 0, 0}, {60, 180, 0, 0}, {80, 650, 0, 0}, {180, 1100, 0, 0}}

func (o Opening) check() error {
	err := argument.Positive("width", o.Width)
	if o.Shape == "slot" {
		err = cmp.Or(err, argument.Within("length of the slot", o.Length, o.Width*(1-1e-9), 1e3*units.M))
	} else if o.Shape != "square" && o.Shape != "round" {
		err = cmp.Or(err, fmt.Errorf("shape: got %q, want slot, square or round", o.Shape))
	}
	return err
}

// find is the row for the opening.
func (o Opening) find(table []row) (row, error) {
	if err := o.check(); err != nil {
		return row{}, fmt.Errorf("opening: %w", err)
	}
	for _, r := range table {
		if atMost(o.Width, r.width*units.Mm) {
			return r, nil
		}
	}
	return row{}, fmt.Errorf("opening: width: got %.3g mm, want at most %g mm: whoever fits through it walks in", o.Width/units.Mm, table[len(table)-1].width)
}

func (o Opening) distance(r row) units.Length {
	switch o.Shape {
	case "slot":
		return r.slot * units.Mm
	case "square":
		return r.square * units.Mm
	}
	return r.round * units.Mm
}

// Reach is how far somebody of 14 years or more reaches through the opening. A slot
// of more than 20 to 30 mm that is no longer than 65 mm stops the thumb: 200 mm.
//
// A number out of its range, another shape or an opening wider than 120 mm, which
// keeps nobody out, is an error.
//
// Source: ISO 13857:2019, table 4, as quoted by others; its note on slots of 65 mm
// from memory: verify against the document.
func (o Opening) Reach() (Reach, error) {
	r, err := o.find(adult)
	if err != nil {
		return Reach{}, err
	}
	d := o.distance(r)
	if o.Shape == "slot" && r.width == 30 && atMost(o.Length, 65*units.Mm) {
		d = 200 * units.Mm
	}
	return Reach{d, through}, nil
}

// ChildReach is how far somebody of 3 years or more reaches through the opening:
// a child's hand follows its finger where a grown hand stops. A slot of more than
// 12 to 20 mm that is no longer than 40 mm stops the thumb: 120 mm.
//
// A number out of its range, another shape or an opening wider than 100 mm is an
// error.
//
// Source: ISO 13857:2019, table 5, from memory: verify against the document before
// a child stands before the guard.
func (o Opening) ChildReach() (Reach, error) {
	r, err := o.find(small)
	if err != nil {
		return Reach{}, err
	}
	d := o.distance(r)
	if o.Shape == "slot" && r.width == 20 && atMost(o.Length, 40*units.Mm) {
		d = 120 * units.Mm
	}
	return Reach{d, child}, nil
}

// LegReach is how far a foot and a leg reach through a slot, where nobody reaches
// with a hand.
//
// The opening is a slot of at most 180 mm; anything else is an error.
//
// Source: ISO 13857:2019, table 7; slots of up to 35 mm from memory: verify against
// the document.
func (o Opening) LegReach() (Reach, error) {
	if o.Shape != "slot" {
		return Reach{}, fmt.Errorf("opening: shape: got %q, want slot: the table of legs here has no others", o.Shape)
	}
	r, err := o.find(foot)
	if err != nil {
		return Reach{}, err
	}
	return Reach{o.distance(r), leg}, nil
}
