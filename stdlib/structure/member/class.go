package member

import (
	"fmt"
	"math"

	"tautline/stdlib/internal/argument"
	"tautline/stdlib/structure/section"
	"tautline/stdlib/units"
)

// A Class says how far a section's walls stand compression before they buckle:
// 1 turns as a plastic hinge, 2 reaches its plastic moment, 3 its elastic one, 4
// buckles before it yields.
type Class struct {
	Class  units.Number
	Part   string       // that governs
	Ratio  units.Number // its width over its thickness
	Limits [3]units.Number
	Source string
}

// classSource is the clause of every class.
const classSource = "EN 1993-1-1:2005, 5.5 and Table 5.2 (from memory: verify against the document)"

// Epsilon is the factor of yield strength on the limits of slenderness.
//
//	epsilon = sqrt(235e6/fy)
//
// The yield strength is more than 0; outside it panics.
//
// Source: EN 1993-1-1:2005, Table 5.2, from memory: verify against the document.
func Epsilon(fy units.Pressure) units.Number {
	argument.Demand("member: Epsilon", argument.Positive("yield strength", fy))
	return math.Sqrt(235 * units.MPa / fy)
}

// Classify is the class of a section under a compression and bending moments
// about its axes, design values; a tension is negative compression.
//
// Where the section is bent about one axis, the walls across it are judged by
// even compression and the walls along it by compression and bending together.
// Bent about both, all are judged by even compression, on the safe side. A solid
// bar is of class 1. Compression and moments are finite, the yield strength more
// than 0; outside it panics. A built-up section is an error: classify its parts.
//
// Source: EN 1993-1-1:2005, 5.5 and Table 5.2, from memory: verify against the
// document.
func Classify(s section.Section, fy units.Pressure, compression units.Force, my, mz units.Moment) (Class, error) {
	argument.Demand("member: Classify", argument.Positive("yield strength", fy), argument.Finite("compression", compression),
		argument.Finite("MY", my), argument.Finite("MZ", mz))
	worst := Class{Class: 1, Part: "solid", Source: classSource}
	if s.Shape == section.Composed {
		return worst, fmt.Errorf("class of %s: got a built-up section, want its parts classified one by one", s.Name)
	}
	small := 1e-9 * fy * s.Wely // moments that are rounding only
	load := loading{s: s, fy: fy, n: math.Max(0, compression), y: math.Abs(my) > small, z: math.Abs(mz) > small}
	if load.n == 0 && !load.y && !load.z {
		worst.Part = "in tension"
		return worst, nil
	}
	for _, w := range load.walls() {
		c := Class{Class: 4, Part: w.name, Ratio: w.ratio, Limits: w.limits, Source: classSource}
		for i, limit := range w.limits {
			if w.ratio <= limit {
				c.Class = float64(i + 1)
				break
			}
		}
		if c.Class > worst.Class || worst.Limits[2] == 0 || c.Class == worst.Class && c.Ratio/c.Limits[2] > worst.Ratio/worst.Limits[2] {
			worst = c
		}
	}
	return worst, nil
}

// A loading is what Classify was given; y and z say about which axes it bends.
type loading struct {
	s    section.Section
	fy   float64
	n    float64
	y, z bool
}

// A wall is a flat or round part of a section.
type wall struct {
	name   string
	ratio  float64
	limits [3]float64
}

func (l loading) walls() []wall {
	s := l.s
	e := Epsilon(l.fy)
	even := [3]float64{33 * e, 38 * e, 42 * e}
	outstand := [3]float64{9 * e, 10 * e, 14 * e}
	switch s.Shape {
	case section.RoundTube:
		return []wall{{"tube", s.Height / s.Wall, [3]float64{50 * e * e, 70 * e * e, 90 * e * e}}}
	case section.RectangularTube:
		upright, level := even, even
		if l.y && !l.z {
			upright = l.bent(s.Height-3*s.Wall, 2)
		}
		if l.z && !l.y {
			level = l.bent(s.Width-3*s.Wall, 2)
		}
		return []wall{{"upright wall", s.Height/s.Wall - 3, upright}, {"level wall", s.Width/s.Wall - 3, level}}
	case section.AngleShape:
		leg := math.Max(s.Height, s.Width) / s.Wall
		if l.y || l.z {
			return []wall{{"leg", leg, [3]float64{0, 0, 14 * e}}}
		}
		both := (s.Height + s.Width) / (2 * s.Wall)
		return []wall{{"leg", leg, [3]float64{0, 0, 15 * e}}, {"both legs", both, [3]float64{0, 0, 11.5 * e}}}
	case section.ChannelShape, section.IShape:
		flange := s.Width - s.Wall - s.Root
		if s.Shape == section.IShape {
			flange = (s.Width - s.Wall - 2*s.Root) / 2
		}
		web := even
		depth := s.Height - 2*s.Flange - 2*s.Root
		if l.y && !l.z {
			web = l.bent(depth, 1)
		}
		return []wall{{"flange", flange / s.Flange, outstand}, {"web", depth / s.Wall, web}}
	}
	return nil
}

// bent are the limits of a number of walls of clear depth c that are bent in
// their plane and share the compression.
func (l loading) bent(c float64, count float64) [3]float64 {
	e := Epsilon(l.fy)
	if l.n == 0 {
		return [3]float64{72 * e, 83 * e, 124 * e}
	}
	alpha := math.Min(1, (1+l.n/(count*c*l.s.Wall*l.fy))/2) // of the depth in compression, plastic
	psi := math.Min(1, 2*l.n/(l.s.A*l.fy)-1)                // of the stresses at the edges, elastic
	first, second := 36*e/alpha, 41.5*e/alpha
	if alpha > 0.5 {
		first, second = 396*e/(13*alpha-1), 456*e/(13*alpha-1)
	}
	third := 42 * e / (0.67 + 0.33*psi)
	if psi <= -1 {
		third = 62 * e * (1 - psi) * math.Sqrt(-psi)
	}
	return [3]float64{first, second, third}
}
