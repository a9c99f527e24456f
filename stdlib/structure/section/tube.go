package section

import (
	"fmt"
	"math"

	"tautline/stdlib/internal/argument"
	"tautline/stdlib/units"
)

const tubeSource = "EN 10219-2:2006 and EN 10210-2:2006, Annex B (from memory: verify against the document)"

// CHS is a circular hollow section.
//
// The diameter is the outer one; the wall is more than 0 and less than half the
// diameter; outside it panics. The shear area for deformation is that of a thin
// tube, half the area.
//
// Source: EN 10219-2:2006 and EN 10210-2:2006, Annex B; shear area: EN
// 1993-1-1:2005, 6.2.6(3); from memory: verify against the document.
func CHS(diameter, wall units.Length, forming Forming) Section {
	argument.Demand("section: CHS", argument.Positive("wall", wall), argument.Above("diameter", diameter, 2*wall), hollowForming(forming))
	d, in := diameter, diameter-2*wall
	s := Section{
		Name: fmt.Sprintf("CHS %sx%s %s", millimetres(d), millimetres(wall), forming), Shape: RoundTube, Forming: forming,
		Height: d, Width: d, Wall: wall, Root: d / 2, Toe: in / 2,
		A:    math.Pi / 4 * (d*d - in*in),
		Iy:   math.Pi / 64 * (d*d*d*d - in*in*in*in),
		Wply: (d*d*d - in*in*in) / 6,
		Left: d / 2, Bottom: d / 2,
		Source: tubeSource,
	}
	s.Wely = 2 * s.Iy / d
	s.It, s.Wt = 2*s.Iy, 2*s.Wely
	s.Avz, s.Asz = 2*s.A/math.Pi, s.A/2
	return s.sameBothWays().principal()
}

// SHS is a square hollow section, an RHS with equal sides.
//
// Source: as RHS.
func SHS(side, wall units.Length, forming Forming) Section { return RHS(side, side, wall, forming) }

// RHS is a rectangular hollow section, its height along z.
//
// The corners have the radii that the standard calculates with: cold-formed
// 2·wall outside and 1·wall inside up to 6 mm, 2.5 and 1.5 up to 10 mm, 3 and 2
// above; hot-finished 1.5 and 1 for all. The sides are more than twice the outer
// radius and the wall more than 0; outside it panics. The torsion modulus is the
// standard's, which gives some 14 % more stress than the thin-walled formula of
// Bredt in an SHS 60x60x4. The shear areas for deformation are those of a thin
// box of the same middle line.
//
// Source: EN 10219-2:2006 and EN 10210-2:2006, Annex B; shear area: EN
// 1993-1-1:2005, 6.2.6(3), along the height A·h/(b+h); from memory: verify
// against the document.
func RHS(height, width, wall units.Length, forming Forming) Section {
	argument.Demand("section: RHS", argument.Positive("wall", wall), hollowForming(forming))
	ro, ri := cornerRadii(wall, forming)
	argument.Demand("section: RHS", argument.Above("height", height, 2*ro), argument.Above("width", width, 2*ro))

	h, b, t := height, width, wall
	round := (ro + ri) / 2 // corner of the middle line
	middle := 2*(h-t+b-t) - 2*round*(4-math.Pi)
	enclosed := (b-t)*(h-t) - round*round*(4-math.Pi)
	k := 2 * enclosed * t / middle
	s := Section{
		Name: fmt.Sprintf("RHS %sx%sx%s %s", millimetres(h), millimetres(b), millimetres(t), forming), Shape: RectangularTube, Forming: forming,
		Height: h, Width: b, Wall: t, Root: ro, Toe: ri,
		A:    2*t*(b+h-2*t) - (4-math.Pi)*(ro*ro-ri*ri),
		It:   t*t*t*middle/3 + 2*k*enclosed,
		Left: b / 2, Bottom: h / 2,
		Asy: boxShearArea(b-t, h-t, t), Asz: boxShearArea(h-t, b-t, t),
		Source: tubeSource,
	}
	if h == b {
		s.Name = fmt.Sprintf("SHS %sx%sx%s %s", millimetres(h), millimetres(b), millimetres(t), forming)
	}
	s.Wt = s.It / (t + k/t)
	s.Avy, s.Avz = s.A*b/(b+h), s.A*h/(b+h)
	s.Iy, s.Wply = roundedBox(h, b, t, ro, ri)
	s.Iz, s.Wplz = roundedBox(b, h, t, ro, ri)
	s.Wely, s.Welz = 2*s.Iy/h, 2*s.Iz/b
	return s.principal()
}

// roundedBox is the second moment and plastic modulus of a tube with rounded
// corners about the axis across its height h.
func roundedBox(h, b, t, ro, ri float64) (units.SecondMoment, units.SectionModulus) {
	type corner struct{ area, arm, own float64 } // between the corner's square and its arc
	at := func(r, half float64) corner {
		return corner{
			area: (1 - math.Pi/4) * r * r,
			arm:  half - (10-3*math.Pi)/(12-3*math.Pi)*r,
			own:  (1.0/3 - math.Pi/16 - 1/(3*(12-3*math.Pi))) * r * r * r * r,
		}
	}
	out, in := at(ro, h/2), at(ri, h/2-t)
	hi, bi := h-2*t, b-2*t
	i := b*h*h*h/12 - bi*hi*hi*hi/12 -
		4*(out.own+out.area*out.arm*out.arm) + 4*(in.own+in.area*in.arm*in.arm)
	w := b*h*h/4 - bi*hi*hi/4 - 4*out.area*out.arm + 4*in.area*in.arm
	return i, w
}

// boxShearArea is the area that gives a thin box of middle line h·b the shear
// deformation along h of its own shear flow: I² over the integral of Q²/t.
// Source: Castigliano, derived here.
func boxShearArea(h, b, t float64) units.Area {
	i := t*h*h*h/6 + t*b*h*h/2
	edge, c := t*b*h/4, t/2 // Q where the web begins; Q = edge + c·(h²/4 - z²) along it
	webs := 2 / t * (edge*edge*h + edge*c*h*h*h/3 + c*c*h*h*h*h*h/30)
	flanges := t * h * h * b * b * b / 24
	return i * i / (webs + flanges)
}

// cornerRadii are the outer and inner radii that the product standard calculates
// with. Source: EN 10219-2:2006 and EN 10210-2:2006, Annex B.
func cornerRadii(wall units.Length, forming Forming) (outer, inner units.Length) {
	// A wall of 6 mm that was computed, not typed, still is one of 6 mm.
	const hair = 1e-9 * units.M
	switch {
	case forming == HotFinished:
		return 1.5 * wall, wall
	case wall <= 6*units.Mm+hair:
		return 2 * wall, wall
	case wall <= 10*units.Mm+hair:
		return 2.5 * wall, 1.5 * wall
	}
	return 3 * wall, 2 * wall
}

func hollowForming(f Forming) error {
	if f == ColdFormed || f == HotFinished {
		return nil
	}
	return fmt.Errorf("forming: got %q, want section.ColdFormed or section.HotFinished", f)
}

// millimetres writes a length as names of sections do: 60.3.
func millimetres(l units.Length) string { return fmt.Sprintf("%.4g", l/units.Mm) }
