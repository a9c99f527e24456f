package fabric

import (
	"fmt"
	"math"

	"tautline/stdlib/internal/argument"
	"tautline/stdlib/units"
)

// Discs are two flat round pieces sewn together at their rim and blown up: a
// buoy, a cushion. The fabric does not stretch; it gathers along the rim, so that only
// the meridians carry.
type Discs struct {
	Cut      units.Length   // radius of each piece within the seam, more than 0
	Pressure units.Pressure // gauge, 0 or more
}

// Half the lemniscate constant and its companion: the radius of the piece over that of
// the body, and half the body's thickness over its radius. Their product is π/4.
const (
	discArc   = 1.3110287771461 // Γ(1/4)²/(4·√(2π))
	discCrown = 0.5990701173678
)

// Radius is that of the body, at its rim.
//
//	r = d.Cut/1.3110287771461
//
// It panics if a field is out of its range.
//
// Source: W. H. Paulsen, What is the shape of a Mylar balloon?, American Mathematical
// Monthly 101 (1994) 953-958.
func (d Discs) Radius() units.Length {
	d.demand("Radius")
	return d.Cut / discArc
}

// Thickness is that of the body in its middle.
//
//	t = d.Cut*2*0.5990701173678/1.3110287771461
//
// It panics if a field is out of its range.
//
// Source: as Radius.
func (d Discs) Thickness() units.Length {
	d.demand("Thickness")
	return d.Cut * 2 * discCrown / discArc
}

// Volume is the air within.
//
//	V = 2*pi*d.Cut*d.Cut*d.Cut/(3*1.3110287771461*1.3110287771461)
//
// It panics if a field is out of its range.
//
// Source: as Radius; I. M. Mladenov and J. Oprea, The Mylar balloon revisited,
// American Mathematical Monthly 110 (2003) 761-784.
func (d Discs) Volume() units.Volume {
	d.demand("Volume")
	return 2 * math.Pi * d.Cut * d.Cut * d.Cut / (3 * discArc * discArc)
}

// Surface is that of the body, less than the fabric in it by the gathers.
//
//	A = pi*pi*d.Cut*d.Cut/(1.3110287771461*1.3110287771461)
//
// It panics if a field is out of its range.
//
// Source: as Volume.
func (d Discs) Surface() units.Area {
	d.demand("Surface")
	return math.Pi * math.Pi * d.Cut * d.Cut / (discArc * discArc)
}

// A DiscPoint is a place on the body.
type DiscPoint struct {
	Height    units.Length         // over the plane of the rim
	Arc       units.Length         // on the piece, from its middle
	LineForce units.ForcePerLength // along the meridian; round it there is none
}

// At is the place at a distance from the axis.
//
// The distance is more than 0 and at most the radius of the body; outside it, and for a
// field out of its range, it is an error. At the axis itself the line force would be
// endless: there the fabric stretches, or a patch takes it.
//
// Source: as Radius; the line force by equilibrium of the cap within the distance, after
// G. I. Taylor, On the shapes of parachutes (1919).
func (d Discs) At(distance units.Length) (DiscPoint, error) {
	if err := d.check(); err != nil {
		return DiscPoint{}, fmt.Errorf("discs: %w", err)
	}
	r := d.Radius()
	if !(distance > 0 && distance <= r*(1+1e-12)) {
		return DiscPoint{}, fmt.Errorf("discs: distance: got %g m, want more than 0, where the line force is endless, and at most the radius, %g m", distance, r)
	}
	// With t = sin x both integrals of Paulsen have smooth integrands.
	x := math.Asin(math.Min(1, distance/r))
	height := simpson(x, math.Pi/2, func(x float64) float64 { s := math.Sin(x); return s * s / math.Sqrt(1+s*s) })
	arc := simpson(0, x, func(x float64) float64 { s := math.Sin(x); return 1 / math.Sqrt(1+s*s) })
	return DiscPoint{Height: r * height, Arc: r * arc, LineForce: d.Pressure * r * r / (2 * distance)}, nil
}

// simpson integrates a smooth function to rounding.
func simpson(from, to float64, f func(float64) float64) float64 {
	const halves = 200
	h := (to - from) / (2 * halves)
	sum := f(from) + f(to)
	for i := 1; i < 2*halves; i++ {
		sum += float64(2+2*(i%2)) * f(from+h*float64(i))
	}
	return sum * h / 3
}

func (d Discs) check() error {
	if err := argument.Positive("radius of a piece", d.Cut); err != nil {
		return err
	}
	return argument.NotNegative("pressure", d.Pressure)
}

func (d Discs) demand(call string) { argument.Demand("fabric: Discs."+call, d.check()) }
