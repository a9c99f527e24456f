// Package laminate calculates glass-fibre bodies laid up by hand: how thick and
// heavy plies come out, how stiff the laminate is, when its first ply breaks, how
// a panel gives under a rider, what an insert holds, and how long it all cures.
//
// Its nouns: Constituents are fibre and resin; a Lamina is what one layer is like,
// a Ply such a layer in its thickness and direction, a Laminate a stack of plies; a
// Panel is a rectangle of laminate between its stiffeners, flat or curved.
//
//	glass := laminate.GlassPolyester()
//	mat := laminate.NewPly("mat 450", laminate.MatByFraction(0.30), 450*units.GPerM2, 0.30, glass)
//	skin := laminate.Laminate{Plies: []laminate.Ply{mat, mat, mat}}
//	seat := laminate.Panel{Length: 500 * units.Mm, Width: 400 * units.Mm, Skin: skin}
//	r := sheet.Must(seat.Bear(laminate.RiderLoad(100*units.Kg, 2, laminate.Standing, 250*units.Mm, 200*units.Mm), laminate.TsaiWu))
//	sheet.AtLeast("seat", r.Safety, 3)
//
// Axes: x and y in the laminate, z from the first ply to the last, 0 in the middle:
// the first ply lies at z = -h/2. An angle turns from x to y. Tension is positive;
// a moment per length is positive when it stretches the last ply.
//
// Invariants: plies are thin, bonded and linear; strengths are those of short
// loading in a dry laminate at room temperature. Hand lay-up scatters: what it
// holds is what a test panel of the same crew, mould and day held, and the numbers
// from memory in here are for a first size only. Local law, the standards that
// apply and licensed practice come before them.
package laminate

import (
	"cmp"
	"fmt"

	"tautline/stdlib/internal/argument"
	"tautline/stdlib/units"
)

// A Ply is one layer of a laminate as it is laid.
type Ply struct {
	Name      string
	Lamina    Lamina
	Thickness units.Length      // more than 0
	Angle     units.Angle       // of the lamina's direction 1 from x
	Glass     units.MassPerArea // dry
	Resin     units.MassPerArea
	Core      units.MassPerArea // of a layer that is neither
}

// NewPly is a ply of a reinforcement wetted out by hand.
//
// The dry weight is more than 0, the glass fraction by mass more than 0 and less
// than 1: mat 0.25 to 0.35, woven rovings 0.40 to 0.55. Outside it panics.
//
// Source: as Constituents.Thickness.
func NewPly(name string, lamina Lamina, dry units.MassPerArea, fraction units.Number, c Constituents) Ply {
	return Ply{Name: name, Lamina: lamina, Thickness: c.Thickness(dry, fraction), Glass: dry, Resin: c.ResinMass(dry, fraction)}
}

// NewCoat is a layer without glass: gel coat, top coat or filler.
//
// The thickness is more than 0; outside it panics. Its mass follows from the
// lamina's density.
//
// Source: geometry.
func NewCoat(name string, lamina Lamina, thickness units.Length) Ply {
	argument.Demand("laminate: NewCoat", argument.Positive("thickness", thickness), argument.NotNegative("density", lamina.Density))
	return Ply{Name: name, Lamina: lamina, Thickness: thickness, Resin: thickness * lamina.Density}
}

// NewCore is a layer that is neither glass nor resin: plywood or a board of foam,
// bedded between plies. It is thin to laminate theory, which leaves its give in
// shear out: for soft foam see SandwichBeam.
//
// The thickness is more than 0; outside it panics. Its mass follows from the
// lamina's density.
//
// Source: geometry.
func NewCore(name string, lamina Lamina, thickness units.Length) Ply {
	argument.Demand("laminate: NewCore", argument.Positive("thickness", thickness), argument.NotNegative("density", lamina.Density))
	return Ply{Name: name, Lamina: lamina, Thickness: thickness, Core: thickness * lamina.Density}
}

// Turned is the ply laid at an angle.
func (p Ply) Turned(angle units.Angle) Ply {
	p.Angle = angle
	return p
}

// A Laminate is a stack of plies, the first at the mould.
type Laminate struct{ Plies []Ply }

func (l Laminate) check() error {
	if len(l.Plies) == 0 {
		return fmt.Errorf("laminate: got no plies, want at least one")
	}
	for i, p := range l.Plies {
		err := cmp.Or(argument.Positive("thickness", p.Thickness), argument.Finite("angle", p.Angle), p.Lamina.check())
		if err != nil {
			return fmt.Errorf("laminate: ply %d, %q: %w", i+1, p.Name, err)
		}
	}
	return nil
}

// Thickness is that of all plies.
//
// Source: sum.
func (l Laminate) Thickness() units.Length {
	h := 0.0
	for _, p := range l.Plies {
		h += p.Thickness
	}
	return h
}

// Glass is the dry weight of reinforcement in all plies.
//
// Source: sum.
func (l Laminate) Glass() units.MassPerArea {
	m := 0.0
	for _, p := range l.Plies {
		m += p.Glass
	}
	return m
}

// Resin is the weight of resin in all plies, coats too, without what stays in the
// bucket.
//
// Source: sum.
func (l Laminate) Resin() units.MassPerArea {
	m := 0.0
	for _, p := range l.Plies {
		m += p.Resin
	}
	return m
}

// Mass is the weight of all plies.
//
// Source: sum.
func (l Laminate) Mass() units.MassPerArea {
	sum := l.Glass() + l.Resin()
	for _, p := range l.Plies {
		sum += p.Core
	}
	return sum
}
