package fabric

import (
	"tautline/stdlib/internal/argument"
	"tautline/stdlib/units"
)

// A Sphere is a round balloon or the round end of a tube.
type Sphere struct {
	Radius   units.Length   // more than 0
	Pressure units.Pressure // gauge, 0 or more
}

// Tension is the line force in every direction.
//
//	N = s.Pressure*s.Radius/2
//
// It panics if a field is out of its range.
//
// Source: equilibrium of half a sphere.
func (s Sphere) Tension() units.ForcePerLength {
	argument.Demand("fabric: Sphere.Tension", argument.Positive("radius", s.Radius), argument.NotNegative("pressure", s.Pressure))
	return s.Pressure * s.Radius / 2
}

// LargestSphere is the radius of the largest sphere that an allowable line
// force permits.
//
//	r = 2*allowable/p
//
// The allowable line force is 0 or more, the gauge pressure p more than 0;
// outside it panics.
//
// Source: equilibrium of half a sphere, solved for the radius.
func LargestSphere(allowable units.ForcePerLength, p units.Pressure) units.Length {
	argument.Demand("fabric: LargestSphere", argument.NotNegative("allowable", allowable), argument.Positive("pressure", p))
	return 2 * allowable / p
}
