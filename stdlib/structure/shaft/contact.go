package shaft

import (
	"math"

	"tautline/stdlib/internal/argument"
	"tautline/stdlib/units"
)

// ContactModulus joins the moduli of two bodies that touch.
//
//	Es = 1/((1 - nu1*nu1)/e1 + (1 - nu2*nu2)/e2)
//
// The moduli e1 and e2 are more than 0, Poisson's ratios nu1 and nu2 are 0 to
// 0.5. Outside it panics.
//
// Source: Hertz' contact; Johnson, Contact Mechanics, 1985, equation 4.21.
func ContactModulus(e1 units.Pressure, nu1 units.Number, e2 units.Pressure, nu2 units.Number) units.Pressure {
	argument.Demand("shaft: ContactModulus", argument.Positive("modulus", e1), argument.Positive("modulus", e2),
		argument.Within("Poisson's ratio", nu1, 0, 0.5), argument.Within("Poisson's ratio", nu2, 0, 0.5))
	return 1 / ((1-nu1*nu1)/e1 + (1-nu2*nu2)/e2)
}

// ContactRadius joins the radii of two round bodies that touch. On a flat the
// radius of the other one stands as it is.
//
//	R = r1*r2/(r1 + r2)
//
// The radius r1 is more than 0; r2 is below 0 for a hollow that r1 lies in, and
// then larger. Outside it panics.
//
// Source: Hertz' contact; Johnson, Contact Mechanics, 1985, 4.2.
func ContactRadius(r1, r2 units.Length) units.Length {
	argument.Demand("shaft: ContactRadius", argument.Positive("radius", r1), argument.Finite("radius", r2))
	if r2 >= 0 {
		argument.Demand("shaft: ContactRadius", argument.Positive("other radius", r2))
	} else {
		argument.Demand("shaft: ContactRadius", argument.Above("radius of the hollow", -r2, r1))
	}
	return r1 * r2 / (r1 + r2)
}

// LineHalfWidth is half the width of the strip in which a roller touches.
//
//	b = sqrt(4*load*radius/(pi*length*modulus))
//
// The load, the joined radius, the length of the strip and the joined modulus are
// more than 0; outside it panics.
//
// Source: Hertz' contact; Johnson, Contact Mechanics, 1985, equation 4.43.
func LineHalfWidth(load units.Force, radius, length units.Length, modulus units.Pressure) units.Length {
	demandContact("LineHalfWidth", load, radius, modulus, argument.Positive("length", length))
	return math.Sqrt(4 * load * radius / (math.Pi * length * modulus))
}

// LinePressure is the greatest pressure under a roller.
//
//	p = sqrt(load*modulus/(pi*length*radius))
//
// The arguments are those of LineHalfWidth.
//
// Source: Hertz' contact; Johnson, Contact Mechanics, 1985, equation 4.45.
func LinePressure(load units.Force, radius, length units.Length, modulus units.Pressure) units.Pressure {
	demandContact("LinePressure", load, radius, modulus, argument.Positive("length", length))
	return math.Sqrt(load * modulus / (math.Pi * length * radius))
}

// BallRadius is the radius of the spot in which a ball touches.
//
//	a = pow(3*load*radius/(4*modulus), 1.0/3)
//
// The load, the joined radius and the joined modulus are more than 0; outside it
// panics.
//
// Source: Hertz' contact; Johnson, Contact Mechanics, 1985, equation 4.22.
func BallRadius(load units.Force, radius units.Length, modulus units.Pressure) units.Length {
	demandContact("BallRadius", load, radius, modulus)
	return math.Cbrt(3 * load * radius / (4 * modulus))
}

// BallPressure is the greatest pressure under a ball.
//
//	p = pow(6*load*modulus*modulus/(radius*radius), 1.0/3)/pi
//
// The arguments are those of BallRadius.
//
// Source: Hertz' contact; Johnson, Contact Mechanics, 1985, equation 4.24.
func BallPressure(load units.Force, radius units.Length, modulus units.Pressure) units.Pressure {
	demandContact("BallPressure", load, radius, modulus)
	return math.Cbrt(6*load*modulus*modulus/(radius*radius)) / math.Pi
}

func demandContact(call string, load, radius, modulus float64, more ...error) {
	argument.Demand("shaft: "+call, append(more, argument.Positive("load", load), argument.Positive("radius", radius), argument.Positive("modulus", modulus))...)
}
