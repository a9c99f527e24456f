package unroll

import (
	"fmt"
	"math"

	"tautline/stdlib/fabric/pattern"
	"tautline/stdlib/internal/argument"
	"tautline/stdlib/units"
)

// A Tube is a length of round tube between two cuts, each square or in a mitre.
// Angles round the tube start where its two cuts lean apart, on the outer side of
// the bend.
type Tube struct {
	Radius units.Length // more than 0
	Length units.Length // along the centre line, from cut to cut, more than 0
	Start  units.Angle  // of the first cut against square: half the bend there; within ±90°
	End    units.Angle  // of the second cut against square
	Twist  units.Angle  // by which the second bend is turned round the tube against the first
}

func (t Tube) check() error {
	for _, err := range []error{
		argument.Positive("radius", t.Radius), argument.Positive("length", t.Length), argument.Finite("twist", t.Twist),
		argument.Within("start", t.Start, -89*units.Deg, 89*units.Deg), argument.Within("end", t.End, -89*units.Deg, 89*units.Deg),
	} {
		if err != nil {
			return err
		}
	}
	shortest, where := math.Inf(1), 0
	for k := range 360 {
		if l := t.lengthAt(float64(k) * units.Deg); l < shortest {
			shortest, where = l, k
		}
	}
	if shortest <= 0 {
		return fmt.Errorf("length: got %g m, want more than %g m: the cuts meet at %d° round the tube", t.Length, t.Length-shortest, where)
	}
	return nil
}

// lengthAt is the length of the tube's wall at an angle round it.
func (t Tube) lengthAt(angle float64) float64 {
	return t.Length + t.Radius*(math.Tan(t.Start)*math.Cos(angle)+math.Tan(t.End)*math.Cos(angle-t.Twist))
}

// MitreRise is how far a mitred cut stands out from the square one, at an angle
// round the tube from the outer side of the bend.
//
//	y = radius*sin(half)/cos(half)*cos(angle)
//
// The radius of the tube is 0 or more. Half is half the angle by which the two
// tubes bend, 0 or more and less than 90°: a right-angled elbow of one mitre has
// 45°. Outside it panics. Drawn over the way round the tube, radius*angle, this
// is the line to cut by.
//
// Source: plane cut of a cylinder, derived here.
func MitreRise(radius units.Length, half, angle units.Angle) units.Length {
	demandMitre("MitreRise", radius, half)
	argument.Demand("unroll: MitreRise", argument.Finite("angle", angle))
	return radius * math.Tan(half) * math.Cos(angle)
}

// MitreLength is the way round a mitred cut, which is an ellipse with the radius
// of the tube as its small half axis and radius/cos(half) as its large one. It is
// the length of the seam there.
//
// The radius is 0 or more, half is half the bend, 0 or more and less than 90°;
// outside it panics.
//
// Source: circumference of an ellipse by the arithmetic-geometric mean; DLMF
// 19.8.6.
func MitreLength(radius units.Length, half units.Angle) units.Length {
	demandMitre("MitreLength", radius, half)
	return ellipse(radius/math.Cos(half), radius)
}

func demandMitre(call string, radius units.Length, half units.Angle) {
	argument.Demand("unroll: "+call, argument.NotNegative("radius", radius), argument.Within("half angle", half, 0, math.Nextafter(math.Pi/2, 0)))
}

// ellipse is the circumference by its half axes a ≥ b, by the
// arithmetic-geometric mean.
func ellipse(a, b float64) float64 {
	if b == 0 {
		return 4 * a
	}
	x, y := a, b
	sum, power := (a*a-b*b)/2, 0.5
	for x-y > 1e-9*x { // the mean converges quadratically: 1e-9 here is 1e-18 next
		c := (x - y) / 2
		x, y = (x+y)/2, math.Sqrt(x*y)
		power *= 2
		sum += power * c * c
	}
	return 2 * math.Pi * (a*a - sum) / ((x + y) / 2)
}

// Panel is the piece that covers the tube from one angle round it to another, up
// to a full turn later. Its edges are start, right (at the angle to), end and left
// (at the angle from). Its x axis goes round the tube, with the warp along it, as
// the force round a tube is twice the one along; its y axis along the tube.
//
// Cuts that meet are an error, as are fields and angles out of their ranges.
//
// Source: a cylinder unrolled; plane cuts as MitreRise.
func (t Tube) Panel(name string, from, to units.Angle) (pattern.Piece, error) {
	err := t.check()
	if err == nil && !(to > from && to-from <= 2*math.Pi+1e-9) {
		err = fmt.Errorf("angles: got %g° to %g°, want them to rise by a full turn at most", from/units.Deg, to/units.Deg)
	}
	if err != nil {
		return pattern.Piece{}, fmt.Errorf("panel %s of a tube: %w", name, err)
	}
	rise, twisted := t.Radius*math.Tan(t.Start), t.Radius*math.Tan(t.End)
	return strip(name, t.Radius, from, to,
		func(f float64) float64 { return t.Length/2 + rise*math.Cos(f) },
		func(f float64) float64 { return t.Length/2 + twisted*math.Cos(f-t.Twist) }), nil
}

// strip is a piece unrolled round a tube: how far it reaches below and above the
// x axis by the angle round the tube.
func strip(name string, radius, from, to float64, below, above func(angle float64) float64) pattern.Piece {
	n := pattern.Turns(to - from)
	middle := (from + to) / 2
	along := func(name string, from, to, sign float64, reach func(float64) float64) pattern.Edge {
		return pattern.Trace(name, n, func(s float64) (float64, float64) {
			f := from*(1-s) + to*s
			return radius * (f - middle), sign * reach(f)
		})
	}
	x := radius * (to - from) / 2
	return pattern.Piece{Name: name, Count: 1, Edges: []pattern.Edge{
		along("start", from, to, -1, below),
		pattern.Line("right", x, -below(to), x, above(to)),
		along("end", to, from, 1, above),
		pattern.Line("left", -x, above(from), -x, -below(from)),
	}}
}
