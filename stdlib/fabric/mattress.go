package fabric

import (
	"cmp"
	"fmt"
	"math"

	"tautline/stdlib/internal/argument"
	"tautline/stdlib/internal/root"
	"tautline/stdlib/units"
)

// A Mattress is a flat bed held by upright baffles: equal bays, free to draw
// together sideways. Each bay's top and bottom are arcs of one circle, because
// a cut through the crowns must balance: twice the line force p·R against
// pressure times the height from crown to crown.
type Mattress struct {
	Pitch    units.Length   // from baffle to baffle, inflated, more than 0
	Height   units.Length   // of the baffles, more than 0
	Pressure units.Pressure // gauge, 0 or more
}

// MattressOfCut is the mattress that draws together from panels of a cut length:
// its pitch follows.
//
// The cut length is that of the top or bottom panel from baffle to baffle, more
// than 0, the height that of the baffles, more than 0, the pressure 0 or more;
// anything else is an error. The pitch is found by halving until it no longer
// changes.
//
// Source: as Mattress.ArcLength, solved for the pitch.
func MattressOfCut(cut, height units.Length, p units.Pressure) (Mattress, error) {
	if err := cmp.Or(argument.Positive("cut length", cut), argument.Positive("height", height), argument.NotNegative("pressure", p)); err != nil {
		return Mattress{}, fmt.Errorf("mattress of a cut length: %w", err)
	}
	pitch := root.Bisect(0, cut, func(s float64) float64 { return math.Hypot(s, height)*math.Atan2(s, height) - cut })
	return Mattress{Pitch: pitch, Height: height, Pressure: p}, nil
}

func (m Mattress) demand(call string) {
	argument.Demand("fabric: "+call, argument.Positive("pitch", m.Pitch), argument.Positive("height", m.Height), argument.NotNegative("pressure", m.Pressure))
}

// LobeRadius is the radius of the bulges between the baffles.
//
//	R = sqrt(m.Height*m.Height + m.Pitch*m.Pitch)/2
//
// It panics if a field is out of its range.
//
// Source: equilibrium of a cut through the crowns, derived at Mattress.
func (m Mattress) LobeRadius() units.Length {
	m.demand("Mattress.LobeRadius")
	return math.Hypot(m.Height, m.Pitch) / 2
}

// LobeAngle is half the angle that a bulge spans at its centre.
//
//	alpha = atan(m.Pitch/m.Height)
//
// It panics if a field is out of its range.
//
// Source: as LobeRadius.
func (m Mattress) LobeAngle() units.Angle {
	m.demand("Mattress.LobeAngle")
	return math.Atan2(m.Pitch, m.Height)
}

// LineForce is the line force across the bulges, from baffle to baffle.
//
//	N = m.Pressure*sqrt(m.Height*m.Height + m.Pitch*m.Pitch)/2
//
// It panics if a field is out of its range.
//
// Source: equilibrium of a cut through the crowns, derived at Mattress.
func (m Mattress) LineForce() units.ForcePerLength {
	m.demand("Mattress.LineForce")
	return m.Pressure * m.LobeRadius()
}

// BaffleForce is the upright line force in a baffle between two bays, which is
// what its seams carry.
//
//	T = m.Pressure*m.Pitch
//
// It panics if a field is out of its range.
//
// Source: equilibrium: the baffle holds down half a bay to each side.
func (m Mattress) BaffleForce() units.ForcePerLength {
	m.demand("Mattress.BaffleForce")
	return BaffleForce(m.Pressure, m.Pitch, m.Pitch)
}

// ArcLength is the fabric width of one bulge, from seam to seam, under
// pressure.
//
//	L = sqrt(m.Height*m.Height + m.Pitch*m.Pitch)*atan(m.Pitch/m.Height)
//
// It panics if a field is out of its range.
//
// Source: as LobeRadius.
func (m Mattress) ArcLength() units.Length {
	m.demand("Mattress.ArcLength")
	return 2 * m.LobeRadius() * m.LobeAngle()
}

// Sagitta is the rise of a bulge above its two seams.
//
//	h = (sqrt(m.Height*m.Height + m.Pitch*m.Pitch) - m.Height)/2
//
// It panics if a field is out of its range.
//
// Source: as LobeRadius.
func (m Mattress) Sagitta() units.Length {
	m.demand("Mattress.Sagitta")
	return m.LobeRadius() - m.Height/2
}

// CrownHeight is the height of the bed from the lower to the upper crown.
//
//	H = sqrt(m.Height*m.Height + m.Pitch*m.Pitch)
//
// It panics if a field is out of its range.
//
// Source: as LobeRadius.
func (m Mattress) CrownHeight() units.Length {
	m.demand("Mattress.CrownHeight")
	return 2 * m.LobeRadius()
}

// BaySection is the area of one bay's section; times the bay's length it is the
// air the bay holds.
//
//	A = m.Pitch*m.Height/2 + (m.Height*m.Height + m.Pitch*m.Pitch)*atan(m.Pitch/m.Height)/2
//
// It panics if a field is out of its range.
//
// Source: as LobeRadius.
func (m Mattress) BaySection() units.Area {
	m.demand("Mattress.BaySection")
	R := m.LobeRadius()
	return m.Pitch*m.Height/2 + 2*R*R*m.LobeAngle()
}

// Fullness is the fabric width of a bulge over the pitch: how much wider than
// the finished bed its top is cut.
//
//	f = sqrt(m.Height*m.Height + m.Pitch*m.Pitch)*atan(m.Pitch/m.Height)/m.Pitch
//
// It panics if a field is out of its range.
//
// Source: as LobeRadius.
func (m Mattress) Fullness() units.Number {
	m.demand("Mattress.Fullness")
	return m.ArcLength() / m.Pitch
}

// BaffleForce is the upright line force in a baffle between two bays of
// different pitch, whatever the radius of their bulges.
//
//	T = p*(left + right)/2
//
// The gauge pressure p is 0 or more and the same in both bays; left and right
// are their pitches, 0 or more. Outside the range it panics.
//
// Caution: bulges of different radius also pull the baffle sideways, which is
// not in this force.
//
// Source: equilibrium: the baffle holds down half a bay to each side.
func BaffleForce(p units.Pressure, left, right units.Length) units.ForcePerLength {
	argument.Demand("fabric: BaffleForce", argument.NotNegative("pressure", p), argument.NotNegative("left pitch", left), argument.NotNegative("right pitch", right))
	return p * (left + right) / 2
}
