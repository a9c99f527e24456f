package joint

import (
	"cmp"
	"fmt"
	"math"

	"tautline/stdlib/internal/argument"
	"tautline/stdlib/internal/vector"
	"tautline/stdlib/units"
)

// A WeldGroup is the fillet welds that join one part to another, anywhere in
// space.
type WeldGroup struct{ Welds []Weld }

// A WeldLine is a weld group as a line section: what a handbook lists.
type WeldLine struct {
	Length     units.Length
	Area       units.Area // of the throats
	Centre     Point
	Ix, Iy, Iz units.SecondMoment // of the throats about the axes through the centre; Ix is polar for welds in the plane of y and z
}

// A WeldStress is what a weld carries at one of its ends.
type WeldStress struct {
	Weld        string
	At          Point
	PerLength   units.ForcePerLength // resultant on a length of weld
	Resultant   units.Pressure       // the same over the throat
	SigmaAcross units.Pressure       // on the throat plane, square to it
	TauAcross   units.Pressure       // in the throat plane, across the weld
	TauAlong    units.Pressure       // in the throat plane, along the weld
	Simplified  units.Number         // utilisation by the simplified method
	Directional units.Number         // utilisation by the directional method; that of the simplified one where the faces are not known
}

// A WeldCheck says which weld of a group governs, and where.
type WeldCheck struct {
	Governing   string
	At          Point
	Simplified  units.Number // greatest utilisation by the simplified method
	Directional units.Number // greatest utilisation by the directional method, never more
	Ends        []WeldStress // two for each weld
	Warnings    []string
}

func (g WeldGroup) spread() (*spread, error) {
	if len(g.Welds) == 0 {
		return nil, fmt.Errorf("weld group: got no weld, want at least one")
	}
	s := &spread{}
	for _, w := range g.Welds {
		if err := w.check(); err != nil {
			return nil, err
		}
		s.line(w.Throat*w.length(), w.From.vector(), w.To.vector())
	}
	return s, nil
}

// Line is the group as a line section.
//
// A weld out of range is an error.
//
// Source: geometry.
func (g WeldGroup) Line() (WeldLine, error) {
	s, err := g.spread()
	if err != nil {
		return WeldLine{}, err
	}
	l := WeldLine{Area: s.weight}
	for _, w := range g.Welds {
		l.Length += w.length()
	}
	c, j := s.centre(), s.inertia()
	l.Centre = Point{c[0], c[1], c[2]}
	l.Ix, l.Iy, l.Iz = j.At(0, 0), j.At(1, 1), j.At(2, 2)
	return l, nil
}

// Check holds every weld of the group against its strength.
//
// The parts are rigid and a weld is as stiff in every direction, so the force on
// a length of weld is the group's mean and what the moment adds with the
// distance from the group's centre. Along a straight weld that force changes
// evenly and both methods' utilisation is convex in it: the ends decide.
//
// Simplified: resultant over Shear. Directional: the larger of
// sqrt(SigmaAcross² + 3·(TauAcross² + TauAlong²)) over fu/(betaW·M2) and
// SigmaAcross over 0.9·fu/M2.
//
// Welds or numbers out of range are errors, as is a moment about a line through
// all welds. A throat under 3 mm and a weld shorter than 30 mm or 6 throats,
// which must not carry load, carry warnings.
//
// Caution: a weld on one side only must not be bent about its own length.
//
// Source: EN 1993-1-8:2005, 4.5.1, 4.5.2, 4.5.3.2, 4.5.3.3; elastic weld group,
// equilibrium, derived here.
func (g WeldGroup) Check(a Action, strength FilletStrength) (WeldCheck, error) {
	s, err := g.spread()
	if err = cmp.Or(err, a.check(), strength.check()); err != nil {
		return WeldCheck{}, err
	}
	share, err := s.share(a)
	if err != nil {
		return WeldCheck{}, fmt.Errorf("weld group: %w", err)
	}
	c := WeldCheck{Simplified: -1, Directional: -1}
	for _, w := range g.Welds {
		for _, at := range []Point{w.From, w.To} {
			e := w.stress(at, share(at.vector()), strength)
			c.Ends = append(c.Ends, e)
			c.Simplified = math.Max(c.Simplified, e.Simplified)
			if e.Directional > c.Directional {
				c.Directional, c.Governing, c.At = e.Directional, w.Name, at
			}
		}
		if w.Throat < 3*units.Mm-1e-9 {
			c.Warnings = append(c.Warnings, fmt.Sprintf("weld %q: throat %.3g mm, less than the least 3 mm", w.Name, w.Throat/units.Mm))
		}
		if least := math.Max(30*units.Mm, 6*w.Throat); w.length() < least-1e-9 && !g.continues(w) {
			c.Warnings = append(c.Warnings, fmt.Sprintf("weld %q: %.3g mm long, less than the least %.3g mm that may carry load", w.Name, w.length()/units.Mm, least/units.Mm))
		}
	}
	return c, nil
}

// continues reports whether another weld goes on where w ends, as the pieces of
// a round weld do.
func (g WeldGroup) continues(w Weld) bool {
	for _, o := range g.Welds {
		if o != w && (o.To == w.From || o.From == w.To) {
			return true
		}
	}
	return false
}

// stress is what the force q on a unit of throat area does to the weld at a
// place.
func (w Weld) stress(at Point, q vector.Vector, s FilletStrength) WeldStress {
	e := WeldStress{Weld: w.Name, At: at, Resultant: q.Length(), PerLength: q.Length() * w.Throat}
	e.Simplified = e.Resultant / s.Shear()
	e.Directional = e.Simplified
	if !w.directed() {
		return e
	}
	normal, across, _ := w.throatAxes() // checked before
	e.SigmaAcross = q.Dot(normal)
	e.TauAcross = q.Dot(across)
	e.TauAlong = q.Dot(normal.Cross(across))
	combined := math.Sqrt(e.SigmaAcross*e.SigmaAcross + 3*(e.TauAcross*e.TauAcross+e.TauAlong*e.TauAlong))
	e.Directional = math.Max(combined/(s.Fu/(s.BetaW*s.M2)), math.Abs(e.SigmaAcross)/(0.9*s.Fu/s.M2))
	return e
}

// BoxWelds are four fillet welds all round a rectangular part that stands on a
// plate: one along each side, meeting at the corners.
//
// The width along y, the height along z and the throat are more than 0; outside
// it panics.
//
// Source: geometry.
func BoxWelds(width, height, throat units.Length) WeldGroup {
	argument.Demand("joint: BoxWelds", argument.Positive("width", width), argument.Positive("height", height), argument.Positive("throat", throat))
	y, z := width/2, height/2
	plate := Direction{X: 1}
	return WeldGroup{Welds: []Weld{
		{"right side", Point{Y: y, Z: -z}, Point{Y: y, Z: z}, throat, plate, Direction{Y: 1}},
		{"top side", Point{Y: y, Z: z}, Point{Y: -y, Z: z}, throat, plate, Direction{Z: 1}},
		{"left side", Point{Y: -y, Z: z}, Point{Y: -y, Z: -z}, throat, plate, Direction{Y: -1}},
		{"bottom side", Point{Y: -y, Z: -z}, Point{Y: y, Z: -z}, throat, plate, Direction{Z: -1}},
	}}
}

// RingWelds is a fillet weld all round a tube or bar that stands on a plate, as
// 72 straight pieces, which is a tenth of a percent short of the circle.
//
// The diameter and the throat are more than 0; outside it panics.
//
// Source: geometry.
func RingWelds(diameter, throat units.Length) WeldGroup {
	argument.Demand("joint: RingWelds", argument.Positive("diameter", diameter), argument.Positive("throat", throat))
	const pieces = 72
	at := func(i int) Point {
		sin, cos := math.Sincos(2 * math.Pi * float64(i%pieces) / pieces)
		return Point{Y: diameter / 2 * cos, Z: diameter / 2 * sin}
	}
	var g WeldGroup
	for i := range pieces {
		sin, cos := math.Sincos(2 * math.Pi * (float64(i) + 0.5) / pieces)
		g.Welds = append(g.Welds, Weld{
			Name: fmt.Sprintf("ring at %d°", 360*i/pieces), From: at(i), To: at(i + 1), Throat: throat,
			FaceA: Direction{X: 1}, FaceB: Direction{Y: cos, Z: sin},
		})
	}
	return g
}
