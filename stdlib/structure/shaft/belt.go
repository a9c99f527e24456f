package shaft

import (
	"math"

	"tautline/stdlib/internal/argument"
	"tautline/stdlib/units"
)

// CapstanRatio is how many times more a rope or belt that is about to slip pulls
// on one side of a drum than on the other.
//
//	k = exp(mu*wrap)
//
// The friction mu and the angle of wrap are 0 or more; outside it panics.
//
// Source: Euler's rope friction.
func CapstanRatio(mu units.Number, wrap units.Angle) units.Number {
	argument.Demand("shaft: CapstanRatio", argument.NotNegative("friction", mu), argument.NotNegative("wrap", wrap))
	return math.Exp(mu * wrap)
}

// GrooveFriction is the friction of a V-belt in its groove, as that of a flat
// belt.
//
//	f = mu/sin(groove/2)
//
// The friction mu is 0 or more, the angle between the groove's flanks more than 0
// to 180°. Outside it panics.
//
// Source: equilibrium of the wedge, derived here.
func GrooveFriction(mu units.Number, groove units.Angle) units.Number {
	argument.Demand("shaft: GrooveFriction", argument.NotNegative("friction", mu), argument.Within("groove", groove, 1*units.Deg, 180*units.Deg))
	return mu / math.Sin(groove/2)
}

// SmallWrap is the angle that an open belt wraps on the smaller pulley.
//
//	theta = pi - 2*asin((large - small)/(2*centres))
//
// The diameters are more than 0, large no less than small; the distance of the
// centres is more than their mean. Outside it panics.
//
// Source: geometry.
func SmallWrap(large, small, centres units.Length) units.Angle {
	demandBelt("SmallWrap", large, small, centres)
	return math.Pi - 2*math.Asin((large-small)/(2*centres))
}

// OpenBeltLength is the length of an open belt.
//
//	L = sqrt(4*centres*centres - (large - small)*(large - small)) + pi*(large + small)/2 + (large - small)*asin((large - small)/(2*centres))
//
// The arguments are those of SmallWrap, diameters at the belt's pitch line.
//
// Source: geometry.
func OpenBeltLength(large, small, centres units.Length) units.Length {
	demandBelt("OpenBeltLength", large, small, centres)
	d := large - small
	return math.Sqrt(4*centres*centres-d*d) + math.Pi*(large+small)/2 + d*math.Asin(d/(2*centres))
}

func demandBelt(call string, large, small, centres float64) {
	argument.Demand("shaft: "+call, argument.Positive("small diameter", small), argument.Within("large diameter", large, small, math.MaxFloat64),
		argument.Above("distance of the centres", centres, (large+small)/2))
}

// TightSide is the tension of a belt's tight side that a torque needs when the
// belt is about to slip; the slack side has it less the torque over the radius.
//
//	T1 = torque/radius*ratio/(ratio - 1) + mass*speed*speed
//
// The torque is 0 or more, the pulley's radius more than 0; the ratio, from
// CapstanRatio on the smaller wrap, is more than 1. The last term is the belt's
// own pull outwards, by its mass per length and its speed, both 0 or more.
// Outside it panics.
//
// Caution: a belt needs a guard on both runs and at both pulleys.
//
// Source: Euler's rope friction; equilibrium, derived here.
func TightSide(torque units.Moment, radius units.Length, ratio units.Number, mass units.MassPerLength, speed units.Speed) units.Force {
	argument.Demand("shaft: TightSide", argument.NotNegative("torque", torque), argument.Positive("radius", radius), argument.Above("ratio", ratio, 1),
		argument.NotNegative("mass per length", mass), argument.NotNegative("speed", speed))
	return torque/radius*ratio/(ratio-1) + mass*speed*speed
}

// ChainRipple is by how much the speed of a chain falls short of its greatest, as
// links lie as chords on a sprocket.
//
//	x = 1 - cos(pi/teeth)
//
// The number of teeth is 3 or more; outside it panics.
//
// Source: geometry.
func ChainRipple(teeth units.Number) units.Number {
	argument.Demand("shaft: ChainRipple", argument.Within("teeth", teeth, 3, math.MaxFloat64))
	return 1 - math.Cos(math.Pi/teeth)
}

// ChainLinks is how many links a chain has that runs over two sprockets, before it
// is rounded up to an even number.
//
//	n = 2*centres + (large + small)/2 + pow((large - small)/(2*pi), 2)/centres
//
// The distance of the centres is counted in links; the numbers of teeth are 3 or
// more, large no less than small. Outside it panics.
//
// Source: ISO 10823, from memory: verify against the document.
func ChainLinks(large, small, centres units.Number) units.Number {
	argument.Demand("shaft: ChainLinks", argument.Within("small sprocket", small, 3, math.MaxFloat64), argument.Within("large sprocket", large, small, math.MaxFloat64),
		argument.Above("distance of the centres", centres, (large+small)/(2*math.Pi)))
	return 2*centres + (large+small)/2 + math.Pow((large-small)/(2*math.Pi), 2)/centres
}
