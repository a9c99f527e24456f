package shaft

import (
	"cmp"
	"fmt"
	"math"

	"tautline/stdlib/internal/argument"
	"tautline/stdlib/units"
)

// A SlewingRing is a large ball bearing with one row of balls that touch at four
// points, bolted between two frames.
type SlewingRing struct {
	Diameter units.Length // of the circle of balls
	Balls    units.Number // how many
	Angle    units.Angle  // of contact, from the plane of the ring: usually 45°
	Bolts    units.Number // in one of its two circles
	Circle   units.Length // diameter of the circle of bolts
}

// A RingLoad is what a slewing ring and its bolts carry.
type RingLoad struct {
	Ball       units.Force // on the ball that carries most
	Bolt       units.Force // tension of the bolt that carries most, without preload
	Equivalent units.Force // axial load for the life of the ring
	Warnings   []string
}

// Carry is what a load through the middle of the ring does to it.
//
// The push is along the axis, above 0 when it presses the ring together; the
// radial force lies in the ring's plane, the moment tips the ring; both are 0 or
// more and taken to act on the same ball. Rings and frames are rigid and balls
// and bolts are equal springs, so the moment's share is 4·M/(D·n). A ball
// carries |push|/(n·sin) + 4·M/(D·n·sin) + 2·Fr/(n·cos) of the contact angle, a
// bolt 4·M/(Dc·n) - push/n. For the life: 0.75·Fr + |push| + 2·M/D.
//
// A number out of range is an error. Fewer than 12 balls or bolts carry a
// warning, since sharing out is then uneven.
//
// Caution: a frame that gives way loads few balls many times more. The maker's
// limiting curve of moment and push comes before this; so does his tightening of
// the bolts.
//
// Source: equilibrium of rigid rings on equal springs, derived here; equivalent
// load: NREL Design Guideline DG03 (2009), from memory: verify against the
// document.
func (r SlewingRing) Carry(push, radial units.Force, moment units.Moment) (RingLoad, error) {
	err := cmp.Or(argument.Positive("diameter", r.Diameter), argument.Within("balls", r.Balls, 3, 1e6), argument.Within("contact angle", r.Angle, 1*units.Deg, 89*units.Deg),
		argument.Within("bolts", r.Bolts, 3, 1e6), argument.Positive("bolt circle", r.Circle), argument.Finite("push", push),
		argument.NotNegative("radial force", radial), argument.NotNegative("moment", moment))
	if err != nil {
		return RingLoad{}, fmt.Errorf("slewing ring: %w", err)
	}
	sin, cos := math.Sincos(r.Angle)
	l := RingLoad{
		Ball:       math.Abs(push)/(r.Balls*sin) + 4*moment/(r.Diameter*r.Balls*sin) + 2*radial/(r.Balls*cos),
		Bolt:       math.Max(0, 4*moment/(r.Circle*r.Bolts)-push/r.Bolts),
		Equivalent: 0.75*radial + math.Abs(push) + 2*moment/r.Diameter,
	}
	if least := math.Min(r.Balls, r.Bolts); least < 12 {
		l.Warnings = append(l.Warnings, fmt.Sprintf("%g balls or bolts share out unevenly: with fewer than 12 ask the maker", least))
	}
	return l, nil
}
