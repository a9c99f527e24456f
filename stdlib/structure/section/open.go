package section

import (
	"fmt"
	"math"

	"tautline/stdlib/internal/argument"
	"tautline/stdlib/units"
)

// Angle is a rolled angle, its back on the left and its foot at the bottom: the
// leg of the given height stands along z, that of the given width lies along y.
//
// Legs are longer than their thickness and the fillet, the radii of root and
// toes 0 or more and the toe no more than the thickness; outside it panics. An
// angle buckles about v, not about y or z, and bends askew unless it is held.
// Its shear areas are its legs: common practice, no source.
//
// Source: geometry, integrated over the outline with its fillets; torsion: El
// Darwish and Johnston, Torsion of structural shapes, ASCE 91(ST1), 1965, from
// memory: verify against the document.
func Angle(height, width, thickness, root, toe units.Length) Section {
	h, b, t := height, width, thickness
	argument.Demand("section: Angle", argument.Positive("thickness", t), argument.NotNegative("root radius", root),
		argument.Within("toe radius", toe, 0, t), argument.Above("height", h, t+root+toe), argument.Above("width", b, t+root+toe))
	s := Section{
		Name: fmt.Sprintf("L %sx%sx%s", millimetres(h), millimetres(b), millimetres(t)), Shape: AngleShape, Forming: Rolled,
		Height: h, Width: b, Wall: t, Root: root, Toe: toe,
		Avy: b * t, Avz: h * t, Asy: b * t * 5 / 6, Asz: h * t * 5 / 6,
		Iw:     t * t * t * (math.Pow(h-t/2, 3) + math.Pow(b-t/2, 3)) / 36,
		Source: "geometry; El Darwish and Johnston, ASCE 91(ST1), 1965 (from memory: verify against the document)",
	}
	s.It = (b*t*t*t+(h-t)*t*t*t)/3 + cornerBulge(t, t, root) - 0.21*t*t*t*t
	s.Wt = s.It / t
	s = s.measured()
	s.CentreY, s.CentreZ = t/2-s.Left, t/2-s.Bottom
	return s
}

// Channel is a channel with parallel flanges, its web upright on the left.
//
// The height is more than twice flange and fillet, the width more than web and
// fillet, thicknesses more than 0, the root radius 0 or more; outside it panics.
// A load that is not in the plane through the shear centre, which lies outside
// the web, twists the channel: nothing here adds that torque.
//
// Source: geometry, integrated over the outline with its fillets; torsion as
// Angle; warping and shear centre: thin-walled theory (Timoshenko and Gere,
// Theory of Elastic Stability, appendix); shear area: EN 1993-1-1:2005,
// 6.2.6(3); from memory: verify against the document.
func Channel(height, width, web, flange, root units.Length) Section {
	h, b, t, f := height, width, web, flange
	argument.Demand("section: Channel", argument.Positive("web", t), argument.Positive("flange", f), argument.NotNegative("root radius", root),
		argument.Above("height", h, 2*(f+root)), argument.Above("width", b, t+root))
	s := Section{
		Name: fmt.Sprintf("channel %sx%sx%sx%s", millimetres(h), millimetres(b), millimetres(t), millimetres(f)), Shape: ChannelShape, Forming: Rolled,
		Height: h, Width: b, Wall: t, Flange: f, Root: root,
		Avy: 2 * b * f, Asy: 2 * b * f * 5 / 6, Asz: (h - f) * t,
		Source: "geometry; El Darwish and Johnston, ASCE 91(ST1), 1965; Timoshenko and Gere, Theory of Elastic Stability (from memory: verify against the document)",
	}
	s.It = 2*b*f*f*f/3 + (h-2*f)*t*t*t/3 + 2*cornerBulge(t, f, root) - 0.42*f*f*f*f
	s.Wt = s.It / math.Max(t, f)
	hm, bm := h-f, b-t/2 // of the middle lines
	s.Iw = f * bm * bm * bm * hm * hm / 12 * (3*bm*f + 2*hm*t) / (6*bm*f + hm*t)
	s = s.measured()
	s.Avz = s.A - 2*b*f + (t+root)*f
	s.CentreY = t/2 - 3*bm*bm*f/(6*bm*f+hm*t) - s.Left
	return s
}

// ISection is an I- or H-section with two equal flanges, rolled or welded.
//
// The height is more than twice flange and fillet, the width more than web and
// two fillets, thicknesses more than 0, the root radius 0 or more; outside it
// panics. Forming is Rolled or Welded; a weld's throat may be given as the
// root.
//
// Source: as Channel.
func ISection(height, width, web, flange, root units.Length, forming Forming) Section {
	h, b, t, f := height, width, web, flange
	argument.Demand("section: ISection", argument.Positive("web", t), argument.Positive("flange", f), argument.NotNegative("root radius", root),
		argument.Above("height", h, 2*(f+root)), argument.Above("width", b, t+2*root), openForming(forming))
	s := Section{
		Name: fmt.Sprintf("I %sx%sx%sx%s", millimetres(h), millimetres(b), millimetres(t), millimetres(f)), Shape: IShape, Forming: forming,
		Height: h, Width: b, Wall: t, Flange: f, Root: root,
		Avy: 2 * b * f, Asy: 2 * b * f * 5 / 6, Asz: (h - f) * t,
		Source: "geometry; El Darwish and Johnston, ASCE 91(ST1), 1965 (from memory: verify against the document)",
	}
	s.It = 2*b*f*f*f/3 + (h-2*f)*t*t*t/3 + 2*teeBulge(t, f, root) - 0.42*f*f*f*f
	s.Wt = s.It / math.Max(t, f)
	s = s.measured()
	s.Iw = s.Iz * (h - f) * (h - f) / 4
	s.Avz = math.Max(s.A-2*b*f+(t+2*root)*f, (h-2*f)*t)
	if forming == Welded {
		s.Avz = (h - 2*f) * t
	}
	return s
}

func openForming(f Forming) error {
	if f == Rolled || f == Welded {
		return nil
	}
	return fmt.Errorf("forming: got %q, want section.Rolled or section.Welded", f)
}
