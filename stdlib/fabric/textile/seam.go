package textile

import (
	"cmp"
	"math"

	"tautline/stdlib/internal/argument"
	"tautline/stdlib/units"
)

// A Seam is rows of stitches, judged by the thread alone.
type Seam struct {
	Rows   units.Number // of stitching, 1 or more
	Thread units.Force  // breaking force of the thread, more than 0
	Pitch  units.Length // stitch length, more than 0
	Loss   units.Number // share of the thread's strength lost in loops and knots, 0 or more, less than 1
}

// Strength is the line force square to the seam at which its thread breaks,
// counting one leg of thread per stitch.
//
//	N = s.Rows*s.Thread*(1 - s.Loss)/s.Pitch
//
// It panics if a field is out of its range.
//
// Caution: a lower bound of the thread's share only. Fabric that tears along the
// needle holes is not covered, so a seam test comes before this number.
//
// Source: common practice, no source.
func (s Seam) Strength() units.ForcePerLength {
	argument.Demand("textile: Seam.Strength", s.check())
	return s.Rows * s.Thread * (1 - s.Loss) / s.Pitch
}

func (s Seam) check() error {
	return cmp.Or(argument.Within("rows", s.Rows, 1, math.MaxFloat64), argument.Positive("thread strength", s.Thread),
		argument.Positive("stitch pitch", s.Pitch), argument.Within("loss", s.Loss, 0, math.Nextafter(1, 0)))
}

// Efficiency is the seam's strength over that of the fabric it joins, at most
// 1, because past that the fabric breaks first.
//
//	e = min(1, s.Rows*s.Thread*(1 - s.Loss)/(s.Pitch*strip))
//
// The strip strength of the fabric is more than 0. It panics if the strip or a
// field is out of its range.
//
// Source: common practice, no source.
func (s Seam) Efficiency(strip units.ForcePerLength) units.Number {
	argument.Demand("textile: Seam.Efficiency", argument.Positive("strip strength", strip))
	return math.Min(1, s.Strength()/strip)
}
