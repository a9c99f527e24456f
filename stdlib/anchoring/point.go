package anchoring

import (
	"cmp"
	"math"

	"tautline/stdlib/internal/argument"
	"tautline/stdlib/units"
)

// A Point is a place on the site: X to the east, Y to the north, Z up from the
// ground.
type Point struct{ X, Y, Z units.Length }

// Check reports an error when a coordinate is not finite. Not for cells.
func (p Point) Check(what string) error {
	return cmp.Or(argument.Finite(what+", X", p.X), argument.Finite(what+", Y", p.Y), argument.Finite(what+", Z", p.Z))
}

// At is the point at a bearing and a level distance from the origin, at a
// height: X = distance·sin(bearing), Y = distance·cos(bearing), Z = height.
//
// The bearing runs clockwise from north; distance and height have any sign. It
// panics if a number is not finite.
//
// Source: definition of the bearing.
func At(bearing units.Angle, distance, height units.Length) Point {
	argument.Demand("anchoring: At", argument.Finite("bearing", bearing), argument.Finite("distance", distance), argument.Finite("height", height))
	sin, cos := math.Sincos(bearing)
	return Point{X: distance * sin, Y: distance * cos, Z: height}
}

// Bearing is the bearing of a point seen from the origin, clockwise from north,
// from 0 up to a full turn; 0 above the origin itself.
//
// It panics if a coordinate is not finite.
//
// Source: definition of the bearing.
func (p Point) Bearing() units.Angle {
	argument.Demand("anchoring: Point.Bearing", p.Check("point"))
	return math.Mod(math.Atan2(p.X, p.Y)+2*math.Pi, 2*math.Pi)
}

// Distance is the level distance of a point from the origin.
//
//	d = sqrt(p.X*p.X + p.Y*p.Y)
//
// It panics if a coordinate is not finite.
//
// Source: Pythagoras.
func (p Point) Distance() units.Length {
	argument.Demand("anchoring: Point.Distance", p.Check("point"))
	return math.Sqrt(p.X*p.X + p.Y*p.Y)
}
