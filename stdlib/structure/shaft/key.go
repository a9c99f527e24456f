package shaft

import (
	"tautline/stdlib/internal/argument"
	"tautline/stdlib/units"
)

// KeyForce is the force between shaft and key.
//
//	F = 2*torque/diameter
//
// The torque is 0 or more, the shaft's diameter more than 0; outside it panics.
//
// Source: equilibrium, derived here.
func KeyForce(torque units.Moment, diameter units.Length) units.Force {
	argument.Demand("shaft: KeyForce", argument.NotNegative("torque", torque), argument.Positive("diameter", diameter))
	return 2 * torque / diameter
}

// KeyShear is the shear stress in a parallel key.
//
//	tau = 2*torque/(diameter*width*length)
//
// The torque is 0 or more; the shaft's diameter, the key's width and the length
// that carries are more than 0. Outside it panics.
//
// Source: equilibrium, derived here.
func KeyShear(torque units.Moment, diameter, width, length units.Length) units.Pressure {
	argument.Demand("shaft: KeyShear", argument.Positive("width", width), argument.Positive("length", length))
	return KeyForce(torque, diameter) / (width * length)
}

// KeyBearing is the pressure on the side of a parallel key, of which half the
// height carries.
//
//	p = 2*torque/(diameter*length*height/2)
//
// The torque is 0 or more; the shaft's diameter, the key's height and the length
// that carries are more than 0. Outside it panics.
//
// Source: equilibrium, derived here.
func KeyBearing(torque units.Moment, diameter, height, length units.Length) units.Pressure {
	argument.Demand("shaft: KeyBearing", argument.Positive("height", height), argument.Positive("length", length))
	return KeyForce(torque, diameter) / (length * height / 2)
}

// KeywayFactor is what a keyway leaves of a shaft's strength in torsion.
//
//	e = 1 - 0.2*width/diameter - 1.1*depth/diameter
//
// The shaft's diameter is more than 0; the keyway's width and depth are 0 or
// more and less than half of it. Outside it panics.
//
// Source: Moore's factor, common practice.
func KeywayFactor(diameter, width, depth units.Length) units.Number {
	argument.Demand("shaft: KeywayFactor", argument.Positive("diameter", diameter), argument.Within("width", width, 0, diameter/2), argument.Within("depth", depth, 0, diameter/2))
	return 1 - 0.2*width/diameter - 1.1*depth/diameter
}
