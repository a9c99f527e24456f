package fabric

import (
	"cmp"
	"fmt"
	"math"

	"tautline/stdlib/internal/argument"
	"tautline/stdlib/units"
)

// A Cantilever is an inflated tube with closed ends, held at one and pushed
// sideways at the other, such as an arm or a post.
type Cantilever struct {
	Length      units.Length         // from the hold to the load, more than 0
	Radius      units.Length         // of the tube, more than 0
	Pressure    units.Pressure       // gauge, 0 or more
	Stiffness   units.ForcePerLength // tensile stiffness E·t of the fabric along the tube, more than 0
	Shear       units.ForcePerLength // shear stiffness G·t of the fabric, more than 0
	ShearFactor units.Number         // share of the section that carries shear, more than 0, at most 1; 0.5 for a thin round tube
}

// A Deflection is how far the tip of a tube moves.
type Deflection struct {
	Bending  units.Length // by bending
	Shear    units.Length // by shear, which the pressure resists too
	Total    units.Length
	Warnings []string
}

func (c Cantilever) check() error {
	return cmp.Or(argument.Positive("length", c.Length), argument.Positive("tube radius", c.Radius), argument.NotNegative("pressure", c.Pressure),
		argument.Positive("stiffness along", c.Stiffness), argument.Positive("shear stiffness", c.Shear),
		argument.Positive("shear factor", c.ShearFactor), argument.Within("shear factor", c.ShearFactor, 0, 1))
}

// WrinklingForce is the side load at the tip at which the first wrinkle appears
// at the hold.
//
//	F = pi*c.Pressure*c.Radius*c.Radius*c.Radius/(2*c.Length)
//
// It panics if a field is out of its range.
//
// Source: Comer and Levy, AIAA Journal 1(7), 1963, 1741-1743.
func (c Cantilever) WrinklingForce() units.Force {
	argument.Demand("fabric: Cantilever.WrinklingForce", c.check())
	return math.Pi * c.Pressure * c.Radius * c.Radius * c.Radius / (2 * c.Length)
}

// Deflection is how far the tip moves under a side load there.
//
// With the pressure's force on the end, P = π·r²·p, bending is
// F·L³/(3·(Et·π·r³ + P·r²/2)) and shear F·L/(P + k·Gt·2π·r).
//
// The load's size counts and not its sign; the deflection has the load's sign.
// Past the WrinklingForce the tube is softer than that: the result carries a
// warning. At twice that force the tube folds, which is an error, as is a field
// out of its range.
//
// Source: Fichter, A theory for inflated thin-wall cylindrical beams, NASA TN
// D-3466 (1966); Le van and Wielgosz, Thin-Walled Structures 43 (2005)
// 1166-1187, from memory: verify against the document.
func (c Cantilever) Deflection(force units.Force) (Deflection, error) {
	if err := cmp.Or(c.check(), argument.Finite("force", force)); err != nil {
		return Deflection{}, fmt.Errorf("deflection of a tube: %w", err)
	}
	first := c.WrinklingForce()
	if force != 0 && math.Abs(force) >= 2*first {
		return Deflection{}, fmt.Errorf("deflection of a tube: force: got %g N, want less than %g N: the tube folds at its hold; "+
			"make it thicker or shorter, or raise the pressure", force, 2*first)
	}
	r := c.Radius
	end := math.Pi * r * r * c.Pressure
	d := Deflection{
		Bending: force * c.Length * c.Length * c.Length / (3 * (c.Stiffness*math.Pi*r*r*r + end*r*r/2)),
		Shear:   force * c.Length / (end + c.ShearFactor*c.Shear*2*math.Pi*r),
	}
	d.Total = d.Bending + d.Shear
	if math.Abs(force) > first {
		d.Warnings = append(d.Warnings, fmt.Sprintf("force is %.2g of that at the first wrinkle: the tube bends more than this", math.Abs(force)/first))
	}
	return d, nil
}
