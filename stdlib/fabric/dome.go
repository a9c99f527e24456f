package fabric

import (
	"math"

	"tautline/stdlib/internal/argument"
	"tautline/stdlib/units"
)

// An OpenDome is half a sphere without a floor, held to the ground at its rim,
// so that its pressure lifts it. A closed inflatable with a floor is not lifted
// by its own pressure: the forces on its skin cancel.
type OpenDome struct {
	Radius   units.Length   // more than 0
	Pressure units.Pressure // gauge, 0 or more
}

func (d OpenDome) demand(call string) {
	argument.Demand("fabric: "+call, argument.Positive("radius", d.Radius), argument.NotNegative("pressure", d.Pressure))
}

// RimForce is the upward line force on the rim.
//
//	N = d.Pressure*d.Radius/2
//
// It panics if a field is out of its range.
//
// Source: equilibrium of half a sphere.
func (d OpenDome) RimForce() units.ForcePerLength {
	d.demand("OpenDome.RimForce")
	return d.Pressure * d.Radius / 2
}

// Uplift is the whole upward force that the anchors hold against the pressure.
//
//	F = pi*d.Pressure*d.Radius*d.Radius
//
// It panics if a field is out of its range.
//
// Source: pressure times the area on the ground.
func (d OpenDome) Uplift() units.Force {
	d.demand("OpenDome.Uplift")
	return math.Pi * d.Pressure * d.Radius * d.Radius
}
