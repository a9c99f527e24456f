package fabric

import (
	"math"

	"tautline/stdlib/internal/argument"
	"tautline/stdlib/units"
)

// A Cone is a tapered tube or a pointed end.
type Cone struct {
	HalfAngle units.Angle    // between axis and wall, 0 or more, less than 90°
	Pressure  units.Pressure // gauge, 0 or more
}

func (c Cone) demand(call string, radius units.Length) {
	argument.Demand("fabric: "+call, argument.Within("half angle", c.HalfAngle, 0, math.Nextafter(math.Pi/2, 0)),
		argument.NotNegative("pressure", c.Pressure), argument.NotNegative("radius", radius))
}

// Hoop is the line force round the cone.
//
//	N = c.Pressure*radius/cos(c.HalfAngle)
//
// The radius is that of the place asked for, square to the axis, 0 or more. It
// panics if the radius or a field is out of its range.
//
// Source: Roark's Formulas for Stress and Strain, ch. 13, cone.
func (c Cone) Hoop(radius units.Length) units.ForcePerLength {
	c.demand("Cone.Hoop", radius)
	return c.Pressure * radius / math.Cos(c.HalfAngle)
}

// Meridian is the line force along the wall, from the point to the wide end.
//
//	N = c.Pressure*radius/(2*cos(c.HalfAngle))
//
// The radius is that of the place asked for, square to the axis, 0 or more. It
// panics if the radius or a field is out of its range.
//
// Source: as Hoop.
func (c Cone) Meridian(radius units.Length) units.ForcePerLength {
	c.demand("Cone.Meridian", radius)
	return c.Pressure * radius / (2 * math.Cos(c.HalfAngle))
}
