package joint

import (
	"cmp"
	"fmt"
	"math"

	"tautline/stdlib/internal/argument"
	"tautline/stdlib/units"
)

// A PinJoint is a pin through a middle plate and two outer plates, which may
// turn on it.
type PinJoint struct {
	Diameter units.Length   // of the pin, more than 0
	PinFy    units.Pressure // of the pin
	PinFu    units.Pressure
	PlateFy  units.Pressure // the least of the plates
	Middle   units.Length   // thickness of the middle plate
	Outer    units.Length   // thickness of each outer plate
	Gap      units.Length   // between the plates, on each side
	Hole     units.Length   // diameter; that of the pin or a little more
}

// A PinResult is what a pin and its plates carry, and what they may.
type PinResult struct {
	Moment        units.Moment // in the pin, on spread contact
	MomentMax     units.Moment
	Shear         units.Force // in each of the two planes
	ShearMax      units.Force
	Combined      units.Number // squares of both utilisations
	MiddleBearing units.Force  // that the middle plate may carry
	OuterBearing  units.Force  // that each outer plate may carry
	// Of a pin that is to be taken out, in service.
	MomentService  units.Moment   // that the pin may carry
	MiddleService  units.Force    // that the middle plate may carry
	OuterService   units.Force    // that each outer plate may carry
	Contact        units.Pressure // between pin and middle plate; 0 when hole and pin are of one size
	ContactService units.Pressure // that the contact may carry
	Source         string
}

// Carry is what a force across the pin does to it.
//
// The pin bends as a beam on evenly spread contact, F·(b + 4·c + 2·a)/8, with b
// the middle plate, a an outer one and c the gap. It may carry 1.5·Wel·fyp/M0 in
// bending, 0.6·A·fup/M2 in each shear plane, and a plate 1.5·t·d·fy/M0. In
// service, if it is to be taken out: 0.8·Wel·fyp/M6Ser, 0.6·t·d·fy/M6Ser, and a
// contact stress 0.591·sqrt(E·F·(d0 - d)/(d²·t)) of at most 2.5·fy/M6Ser, with
// E = 210 GPa.
//
// The force is 0 or more. The same force is used for service, which is on the
// safe side. A number out of range is an error.
//
// Caution: a pin needs a keeper at both ends that the crew can see. A pin longer
// than 3 diameters bends more than this.
//
// Source: EN 1993-1-8:2005, 3.13.2, Tables 3.9 and 3.10.
func (p PinJoint) Carry(force units.Force, f Factors) (PinResult, error) {
	err := cmp.Or(argument.NotNegative("force", force), argument.Positive("pin diameter", p.Diameter), argument.Positive("yield strength of the pin", p.PinFy),
		argument.Positive("tensile strength of the pin", p.PinFu), argument.Positive("yield strength of the plates", p.PlateFy),
		argument.Positive("middle plate", p.Middle), argument.Positive("outer plate", p.Outer), argument.NotNegative("gap", p.Gap),
		factor("M0", f.M0), factor("M2", f.M2), factor("M6Ser", f.M6Ser))
	if err == nil && !(p.Hole >= p.Diameter && p.Hole < 1.5*p.Diameter) {
		err = fmt.Errorf("hole: got %g mm for a pin of %g mm, want the pin's diameter or a little more", p.Hole/units.Mm, p.Diameter/units.Mm)
	}
	if err != nil {
		return PinResult{}, fmt.Errorf("pin: %w", err)
	}
	d := p.Diameter
	modulus, area := math.Pi*d*d*d/32, math.Pi*d*d/4
	r := PinResult{
		Moment:         force * (p.Middle + 4*p.Gap + 2*p.Outer) / 8,
		MomentMax:      1.5 * modulus * p.PinFy / f.M0,
		Shear:          force / 2,
		ShearMax:       0.6 * area * p.PinFu / f.M2,
		MiddleBearing:  1.5 * p.Middle * d * p.PlateFy / f.M0,
		OuterBearing:   1.5 * p.Outer * d * p.PlateFy / f.M0,
		MomentService:  0.8 * modulus * p.PinFy / f.M6Ser,
		MiddleService:  0.6 * p.Middle * d * p.PlateFy / f.M6Ser,
		OuterService:   0.6 * p.Outer * d * p.PlateFy / f.M6Ser,
		Contact:        0.591 * math.Sqrt(210*units.GPa*force*(p.Hole-d)/(d*d*p.Middle)),
		ContactService: 2.5 * p.PlateFy / f.M6Ser,
		Source:         "EN 1993-1-8:2005, 3.13.2",
	}
	r.Combined = math.Pow(r.Moment/r.MomentMax, 2) + math.Pow(r.Shear/r.ShearMax, 2)
	return r, nil
}

// EyeAhead is the least material of an eye plate ahead of its hole, in the
// direction in which the pin pulls.
//
//	a = force*f.M0/(2*thickness*fy) + 2*hole/3
//
// The force is 0 or more, the plate's thickness, its yield strength fy and the
// hole more than 0; outside it panics.
//
// Source: EN 1993-1-8:2005, Table 3.9, type A.
func EyeAhead(force units.Force, thickness units.Length, fy units.Pressure, hole units.Length, f Factors) units.Length {
	demandEye("EyeAhead", force, thickness, fy, hole, f)
	return force*f.M0/(2*thickness*fy) + 2*hole/3
}

// EyeBeside is the least material of an eye plate on each side of its hole,
// across the direction in which the pin pulls.
//
//	c = force*f.M0/(2*thickness*fy) + hole/3
//
// The arguments are those of EyeAhead.
//
// Source: EN 1993-1-8:2005, Table 3.9, type A.
func EyeBeside(force units.Force, thickness units.Length, fy units.Pressure, hole units.Length, f Factors) units.Length {
	demandEye("EyeBeside", force, thickness, fy, hole, f)
	return force*f.M0/(2*thickness*fy) + hole/3
}

func demandEye(call string, force, thickness, fy, hole float64, f Factors) {
	argument.Demand("joint: "+call, argument.NotNegative("force", force), argument.Positive("thickness", thickness),
		argument.Positive("yield strength fy", fy), argument.Positive("hole", hole), factor("M0", f.M0))
}
