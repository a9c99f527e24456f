package tether

import (
	"fmt"
	"math"
	"sort"

	"tautline/stdlib/anchoring"
	"tautline/stdlib/internal/argument"
	"tautline/stdlib/sheet"
	"tautline/stdlib/units"
)

// Plan draws the set from above, north up: the base, each strap from its eye to
// its anchor, and the anchors by their names.
//
// It panics if a coordinate is not finite.
func (s Set) Plan(d *sheet.Drawing) {
	if xs, ys := s.base(); len(xs) > 2 {
		d.Outline(xs, ys)
	}
	for _, a := range s.Anchors {
		d.Line("strap", []units.Length{a.Eye.X, a.Ground.X}, []units.Length{a.Eye.Y, a.Ground.Y})
		d.Mark(a.Name, a.Ground.X, a.Ground.Y)
	}
	d.Compass()
}

// base is the outline of the feet from above, their convex hull; of the eyes
// where there are too few feet.
func (s Set) base() (xs, ys []units.Length) {
	var points []anchoring.Point
	for _, f := range s.Feet {
		points = append(points, f.At)
	}
	if len(points) < 3 {
		for _, a := range s.Anchors {
			points = append(points, a.Eye)
		}
	}
	sort.Slice(points, func(i, j int) bool {
		return points[i].X < points[j].X || points[i].X == points[j].X && points[i].Y < points[j].Y
	})
	var hull []anchoring.Point
	chain := func(p anchoring.Point, from int) {
		for n := len(hull); n-from >= 2; n = len(hull) {
			a, b := hull[n-2], hull[n-1]
			if (b.X-a.X)*(p.Y-a.Y)-(b.Y-a.Y)*(p.X-a.X) > 0 {
				break
			}
			hull = hull[:n-1]
		}
		hull = append(hull, p)
	}
	for _, p := range points {
		chain(p, 0)
	}
	lower := len(hull) - 1
	for i := len(points) - 2; i >= 0; i-- {
		chain(points[i], lower)
	}
	for _, p := range hull[:max(0, len(hull)-1)] {
		xs, ys = append(xs, p.X), append(ys, p.Y)
	}
	return xs, ys
}

// Forces draws the plan with what a wind does: an arrow of the wind, and along
// each strap that pulls an arrow as long as its tension.
//
// The result is of this set, by Solve; any other panics.
func (s Set) Forces(d *sheet.Drawing, h Held) {
	if len(h.Tension) != len(s.Anchors) && h.Stands {
		panic(fmt.Sprintf("tether: Set.Forces: tensions: got %d, want one for each of %d anchors", len(h.Tension), len(s.Anchors)))
	}
	s.Plan(d)
	reach, most := 0.0, 0.0
	for i, a := range s.Anchors {
		reach = math.Max(reach, math.Max(a.Eye.Distance(), a.Ground.Distance()))
		if h.Stands {
			most = math.Max(most, h.Tension[i])
		}
	}
	from, to := anchoring.At(h.From, 1.6*reach, 0), anchoring.At(h.From, 1.2*reach, 0)
	d.Arrow(fmt.Sprintf("wind %.1f m/s", h.Speed), from.X, from.Y, to.X, to.Y)
	if most == 0 {
		return
	}
	for i, a := range s.Anchors {
		share := h.Tension[i] / most
		if share < 0.01 {
			continue
		}
		x, y := a.Ground.X-a.Eye.X, a.Ground.Y-a.Eye.Y
		if L := math.Hypot(x, y); L > 0 {
			x, y = x/L*share*reach/3, y/L*share*reach/3
		}
		d.Arrow(fmt.Sprintf("%.2f kN", h.Tension[i]/units.KN), a.Eye.X, a.Eye.Y, a.Eye.X+x, a.Eye.Y+y)
	}
}

// Section draws the strap from the side: the device's wall up to its top, the
// strap with its angle and measures, and the anchor: a stake that goes below the
// ground, leaning away from the pull, or ballast when below is 0.
//
// The height of the wall's top and the length below ground are 0 or more, the lean
// is within 80°, and the strap rises; outside it panics.
func (a Anchor) Section(d *sheet.Drawing, top, below units.Length, lean units.Angle) {
	argument.Demand("tether: Anchor.Section", argument.NotNegative("top", top), argument.NotNegative("length below ground", below),
		argument.Within("lean", lean, -80*units.Deg, 80*units.Deg), argument.Positive("strap angle", a.Angle()), a.Check())
	height := a.Eye.Z - a.Ground.Z
	reach := math.Hypot(a.Eye.X-a.Ground.X, a.Eye.Y-a.Ground.Y)
	d.Thin([]units.Length{-0.6 * height, reach + height}, []units.Length{0, 0})
	if top > 0 {
		d.Outline([]units.Length{-0.6 * height, 0, 0, -0.6 * height}, []units.Length{0, 0, top, top})
	}
	d.Line("strap", []units.Length{0, reach}, []units.Length{height, 0})
	if below > 0 {
		sin, cos := math.Sincos(lean)
		head := 0.08 * height
		d.Line("stake", []units.Length{reach + head*sin, reach - below*sin}, []units.Length{head * cos, -below * cos})
	} else {
		w := 0.5 * height
		d.Area("ballast", []units.Length{reach, reach + w, reach + w, reach}, []units.Length{0, 0, w, w})
	}
	var xs, ys []units.Length
	for i := range 13 {
		sin, cos := math.Sincos(a.Angle() * float64(i) / 12)
		xs, ys = append(xs, reach-0.4*reach*cos), append(ys, 0.4*reach*sin)
	}
	d.Thin(xs, ys)
	sin, cos := math.Sincos(a.Angle() / 2)
	d.Text(fmt.Sprintf("%.0f°", a.Angle()/units.Deg), reach-0.28*reach*cos, 0.28*reach*sin)
	d.Dimension(0, 0, 0, height, 0.25*height)
	d.Dimension(0, 0, reach, 0, -0.35*height-below)
}

// Clipped is a list of values, each at most so much, for a picture of utilisations
// that are infinite where the device is lost.
//
// Source: definition.
func Clipped(values []units.Number, most units.Number) []units.Number {
	out := make([]units.Number, len(values))
	for i, v := range values {
		out[i] = math.Min(v, most)
	}
	return out
}
