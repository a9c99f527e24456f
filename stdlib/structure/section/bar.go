package section

import (
	"fmt"
	"math"

	"tautline/stdlib/internal/argument"
	"tautline/stdlib/units"
)

// Flat is a flat, square or rectangular bar, its height along z and its width
// along y.
//
// Both are more than 0; outside it panics. The torsion constant is
// k1·b·t³ and the modulus k2·b·t², b the longer side.
//
// Source: geometry; torsion: Timoshenko and Goodier, Theory of Elasticity,
// torsion of rectangular bars; shear area: EN 1993-1-1:2005, 6.2.6(3).
func Flat(height, width units.Length) Section {
	argument.Demand("section: Flat", argument.Positive("height", height), argument.Positive("width", width))
	h, b := height, width
	long, t := math.Max(h, b), math.Min(h, b)
	k1, k2 := rectangleTorsion(long / t)
	s := Section{
		Name: fmt.Sprintf("FL %sx%s", millimetres(h), millimetres(b)), Shape: Bar, Forming: Rolled,
		Height: h, Width: b, Wall: t,
		A: h * b, Iy: b * h * h * h / 12, Iz: h * b * b * b / 12,
		Wely: b * h * h / 6, Welz: h * b * b / 6, Wply: b * h * h / 4, Wplz: h * b * b / 4,
		Avy: h * b, Avz: h * b, Asy: h * b * 5 / 6, Asz: h * b * 5 / 6,
		It: k1 * long * t * t * t, Wt: k2 * long * t * t, Iw: long * long * long * t * t * t / 144,
		Left: b / 2, Bottom: h / 2,
		Source: "geometry; Timoshenko and Goodier, Theory of Elasticity, torsion of rectangular bars",
	}
	return s.principal()
}

// RoundBar is a solid round bar.
//
// The diameter is more than 0; outside it panics.
//
// Source: geometry; shear area: EN 1993-1-1:2005, 6.2.6(3).
func RoundBar(diameter units.Length) Section {
	argument.Demand("section: RoundBar", argument.Positive("diameter", diameter))
	d := diameter
	s := Section{
		Name: fmt.Sprintf("RD %s", millimetres(d)), Shape: Rod, Forming: Rolled,
		Height: d, Width: d, Wall: d,
		A: math.Pi * d * d / 4, Iy: math.Pi * d * d * d * d / 64, Wely: math.Pi * d * d * d / 32, Wply: d * d * d / 6,
		It: math.Pi * d * d * d * d / 32, Wt: math.Pi * d * d * d / 16,
		Left: d / 2, Bottom: d / 2,
		Source: "geometry",
	}
	s.Avz, s.Asz = s.A, s.A*9/10
	return s.sameBothWays().principal()
}
