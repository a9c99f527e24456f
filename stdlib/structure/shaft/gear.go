package shaft

import (
	"fmt"
	"math"

	"tautline/stdlib/internal/argument"
	"tautline/stdlib/units"
)

// lewis is the form factor Y by teeth: full-depth teeth of 20°, load at the tip.
var lewis = [][2]float64{
	{12, 0.245}, {13, 0.261}, {14, 0.277}, {15, 0.290}, {16, 0.296}, {17, 0.303}, {18, 0.309}, {19, 0.314}, {20, 0.322}, {21, 0.328}, {22, 0.331}, {24, 0.337},
	{26, 0.346}, {28, 0.353}, {30, 0.359}, {34, 0.371}, {38, 0.384}, {43, 0.397}, {50, 0.409}, {60, 0.422}, {75, 0.435}, {100, 0.447}, {150, 0.460}, {300, 0.472},
}

// LewisFactor is the form factor of a spur gear's tooth of 20°, full depth; from
// 300 teeth on that of a rack is not reached, and that of 300 is taken.
//
// The number of teeth is 12 or more; fewer is an error. Between the table's lines
// the lower is taken.
//
// Source: Shigley, Mechanical Engineering Design, 10th edition, Table 14-2.
func LewisFactor(teeth units.Number) (units.Number, error) {
	if err := argument.Within("teeth", teeth, 12, math.MaxFloat64); err != nil {
		return 0, fmt.Errorf("form factor of a gear: %w", err)
	}
	y := lewis[0][1]
	for _, row := range lewis {
		if row[0] <= teeth {
			y = row[1]
		}
	}
	return y, nil
}

// VelocityFactor is by how much the unevenness of cut teeth raises their load: 1
// and the speed at the pitch circle over 6.1 m/s.
//
// The speed is 0 or more; outside it panics.
//
// Source: Barth, cut teeth; Shigley, Mechanical Engineering Design, 10th edition,
// equation 14-6b.
func VelocityFactor(speed units.Speed) units.Number {
	argument.Demand("shaft: VelocityFactor", argument.NotNegative("speed", speed))
	return 1 + speed/(6.1*units.MPerS)
}

// ToothBending is the bending stress at the root of a spur gear's tooth.
//
//	sigma = kv*force/(face*module*y)
//
// The force at the pitch circle is 0 or more, the velocity factor kv 1 or more;
// the width of the face, the module and the form factor y are more than 0. Outside
// it panics.
//
// Caution: Lewis' rule, for slow gears and a first size. It knows nothing of
// notches, sharing between teeth, shock or fatigue: keep it under a third of the
// yield strength, and take the maker's rating for a gear that holds a rider up.
//
// Source: Lewis' equation; Shigley, Mechanical Engineering Design, 10th edition,
// equation 14-8.
func ToothBending(force units.Force, kv units.Number, face, module units.Length, y units.Number) units.Pressure {
	argument.Demand("shaft: ToothBending", argument.NotNegative("force", force), argument.Within("velocity factor", kv, 1, 100), argument.Positive("face", face),
		argument.Positive("module", module), argument.Within("form factor", y, 0.05, 1))
	return kv * force / (face * module * y)
}

// ToothContact is the greatest pressure between two spur gears' teeth at the
// pitch point.
//
//	p = sqrt(kv*force*modulus*2*(1/pinion + 1/gear)/(pi*face*cos(angle)*sin(angle)))
//
// The force at the pitch circle is 0 or more, the velocity factor kv 1 or more;
// the face, the pitch diameters of pinion and gear and the joined modulus (see
// ContactModulus) are more than 0; the pressure angle is 10° to 30°. Outside it
// panics.
//
// Caution: for slow gears and a first size; take the maker's rating for a gear that
// holds a rider up.
//
// Source: Hertz' contact of two rollers with the teeth's radii at the pitch point;
// Shigley, Mechanical Engineering Design, 10th edition, equation 14-14.
func ToothContact(force units.Force, kv units.Number, face, pinion, gear units.Length, angle units.Angle, modulus units.Pressure) units.Pressure {
	argument.Demand("shaft: ToothContact", argument.NotNegative("force", force), argument.Within("velocity factor", kv, 1, 100), argument.Positive("face", face),
		argument.Positive("pinion", pinion), argument.Positive("gear", gear), argument.Within("pressure angle", angle, 10*units.Deg, 30*units.Deg), argument.Positive("modulus", modulus))
	sin, cos := math.Sincos(angle)
	return math.Sqrt(kv * force * modulus * 2 * (1/pinion + 1/gear) / (math.Pi * face * cos * sin))
}
