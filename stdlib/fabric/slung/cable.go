package slung

import (
	"cmp"
	"fmt"
	"math"

	"tautline/stdlib/internal/argument"
	"tautline/stdlib/internal/root"
	"tautline/stdlib/sheet"
	"tautline/stdlib/units"
)

// A Catenary is a cable that hangs under its own weight and does not stretch: a
// guy, a rope between masts, a power cable over the yard.
type Catenary struct {
	Span   units.Length         // level, from the left support to the right one, more than 0
	Rise   units.Length         // of the right support above the left one, negative when it is lower
	Length units.Length         // of the cable, more than the straight way between its supports
	Weight units.ForcePerLength // per length of cable, more than 0
}

// A Parabola is a cable under a load that is even over the level length, such as a
// light deck or a net hung on it, and does not stretch.
type Parabola struct {
	Span units.Length         // level, from the left support to the right one, more than 0
	Rise units.Length         // of the right support above the left one, negative when it is lower
	Sag  units.Length         // in the middle, below the straight way between the supports, more than 0
	Load units.ForcePerLength // downward, per level length, more than 0
}

// A HungCable is how a cable hangs and what it pulls.
type HungCable struct {
	Pull    units.Force  // level, the same in all of the cable
	Left    units.Force  // tension at the left support
	Right   units.Force  // at the right support
	LeftUp  units.Force  // by which the left support holds the cable up; below 0 it holds it down
	RightUp units.Force  // the same at the right support
	Low     units.Length // level, from the left support to where the curve is lowest; outside the span the cable only rises or falls
	Sag     units.Length // lowest point of the cable below the lower support, 0 or more
	Length  units.Length // of the cable
}

// Form is how the cable hangs.
//
// A cable that is not longer than the straight way between its supports is an
// error, as is a field out of its range. The curve is found by halving until it no
// longer changes.
//
// Caution: a taut cable is not long enough to hang by its weight alone: how it
// stretches then decides its tension, which is not in this.
//
// Source: statics of a cable, the catenary y = a·cosh(x/a) with a = pull over
// weight; sqrt(length² - rise²) = 2·a·sinh(span/(2·a)).
func (c Catenary) Form() (HungCable, error) {
	low, a, err := c.curve()
	if err != nil {
		return HungCable{}, fmt.Errorf("catenary: %w", err)
	}
	pull := a * c.Weight
	h := HungCable{Pull: pull, Low: low, Length: c.Length,
		Left: pull * math.Cosh(low/a), Right: pull * math.Cosh((c.Span-low)/a),
		LeftUp: pull * math.Sinh(low/a), RightUp: pull * math.Sinh((c.Span-low)/a)}
	if 0 < low && low < c.Span {
		lower := low
		if c.Rise < 0 {
			lower = c.Span - low
		}
		half := math.Sinh(lower / (2 * a))
		h.Sag = 2 * a * half * half
	}
	return h, nil
}

// curve is where the curve is lowest and its parameter, pull over weight.
func (c Catenary) curve() (low, a float64, err error) {
	err = cmp.Or(argument.Positive("span", c.Span), argument.Finite("rise", c.Rise), argument.Positive("length", c.Length), argument.Positive("weight", c.Weight))
	straight := math.Hypot(c.Span, c.Rise)
	if err == nil && !(c.Length > straight) {
		err = fmt.Errorf("length: got %g m, want more than the straight way between the supports, %g m", c.Length, straight)
	}
	if err != nil {
		return 0, 0, err
	}
	// sinh(u) = k·u with u = span/(2·a); k² - 1 by its factors, which cancel less.
	square := (c.Length - straight) / c.Span * ((c.Length + straight) / c.Span)
	over := square / (math.Sqrt(1+square) + 1) // k - 1
	high := 1.0
	for sinhOver(high) < over {
		high *= 2
	}
	u := root.Bisect(0, high, func(u float64) float64 { return sinhOver(u) - over })
	a = c.Span / (2 * u)
	return c.Span/2 - a*math.Atanh(c.Rise/c.Length), a, nil
}

// sinhOver is sinh(u)/u - 1.
func sinhOver(u float64) float64 {
	if u > 0.5 {
		return math.Sinh(u)/u - 1
	}
	sum, term := 0.0, 1.0
	for k := 2.0; k < 20; k += 2 {
		term *= u * u / (k * (k + 1))
		sum += term
	}
	return sum
}

// Draw draws the cable from its left support at (0, 0), under a name.
//
// It panics where Form gives an error.
func (c Catenary) Draw(d *sheet.Drawing, name string) {
	low, a, err := c.curve()
	argument.Demand("slung: Catenary.Draw", err)
	drawCurve(d, name, c.Span, func(x float64) float64 {
		// The difference of two cosh, as a product.
		return 2 * a * math.Sinh((x-2*low)/(2*a)) * math.Sinh(x/(2*a))
	})
}

// Form is how the cable hangs: its pull is Load·Span²/(8·Sag).
//
// A field out of its range is an error.
//
// Source: statics of a cable; the length of a parabola's arc.
func (p Parabola) Form() (HungCable, error) {
	if err := p.check(); err != nil {
		return HungCable{}, fmt.Errorf("parabola: %w", err)
	}
	first, last := (p.Rise-4*p.Sag)/p.Span, (p.Rise+4*p.Sag)/p.Span // slopes
	pull := p.Load * p.Span * p.Span / (8 * p.Sag)
	arc := func(slope float64) float64 { return slope*math.Hypot(1, slope) + math.Asinh(slope) }
	h := HungCable{Pull: pull, Left: pull * math.Hypot(1, first), Right: pull * math.Hypot(1, last), LeftUp: -pull * first, RightUp: pull * last,
		Low: p.Span * -first / (last - first), Length: p.Span / (2 * (last - first)) * (arc(last) - arc(first))}
	if h.Low > 0 && h.Low < p.Span {
		lower, slope := h.Low, first
		if p.Rise < 0 {
			lower, slope = p.Span-h.Low, last
		}
		h.Sag = lower * math.Abs(slope) / 2
	}
	return h, nil
}

func (p Parabola) check() error {
	return cmp.Or(argument.Positive("span", p.Span), argument.Finite("rise", p.Rise), argument.Positive("sag", p.Sag), argument.Positive("load", p.Load))
}

// Draw draws the cable from its left support at (0, 0), under a name.
//
// It panics where Form gives an error.
func (p Parabola) Draw(d *sheet.Drawing, name string) {
	argument.Demand("slung: Parabola.Draw", p.check())
	drawCurve(d, name, p.Span, func(x float64) float64 {
		return p.Rise*x/p.Span - 4*p.Sag*x*(p.Span-x)/(p.Span*p.Span)
	})
}

func drawCurve(d *sheet.Drawing, name string, span float64, height func(x float64) float64) {
	var xs, ys []float64
	for k := range 61 {
		x := span * float64(k) / 60
		xs, ys = append(xs, x), append(ys, height(x))
	}
	d.Line(name, xs, ys)
}
