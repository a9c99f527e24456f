package slung

import (
	"cmp"
	"fmt"
	"math"

	"tautline/stdlib/internal/argument"
	"tautline/stdlib/units"
)

// An EdgeCable runs in the hollow edge of a skin that pulls square to it,
// evenly: an arc of a circle.
type EdgeCable struct {
	Chord units.Length         // straight, from end to end, more than 0
	Sag   units.Length         // of the arc from the chord in the middle, more than 0, at most half the chord
	Pull  units.ForcePerLength // of the skin, square to the edge, 0 or more
}

func (c EdgeCable) demand(call string) {
	err := cmp.Or(argument.Positive("chord", c.Chord), argument.Positive("sag", c.Sag), argument.NotNegative("pull", c.Pull))
	if err == nil && c.Sag > c.Chord/2 {
		err = fmt.Errorf("sag: got %g m, want at most half the chord %g m: more is past half a circle", c.Sag, c.Chord)
	}
	argument.Demand("slung: EdgeCable."+call, err)
}

// Radius is that of the arc.
//
//	R = c.Chord*c.Chord/(8*c.Sag) + c.Sag/2
//
// It panics if a field is out of its range.
//
// Source: geometry of a circle.
func (c EdgeCable) Radius() units.Length {
	c.demand("Radius")
	return c.Chord*c.Chord/(8*c.Sag) + c.Sag/2
}

// Force is the cable's tension, the same in all of it.
//
//	T = c.Pull*(c.Chord*c.Chord/(8*c.Sag) + c.Sag/2)
//
// It panics if a field is out of its range.
//
// Caution: a flat edge pulls hard: half the sag is twice the force.
//
// Source: equilibrium of a circular arc under an even pull square to it.
func (c EdgeCable) Force() units.Force {
	c.demand("Force")
	return c.Pull * c.Radius()
}

// Length is that of the cable in the edge, under tension.
//
//	L = (c.Chord*c.Chord/(4*c.Sag) + c.Sag)*2*atan(2*c.Sag/c.Chord)
//
// It panics if a field is out of its range.
//
// Source: geometry of a circle.
func (c EdgeCable) Length() units.Length {
	c.demand("Length")
	return 4 * c.Radius() * math.Atan(2*c.Sag/c.Chord)
}
