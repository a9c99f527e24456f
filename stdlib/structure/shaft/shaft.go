// Package shaft calculates what turns: shafts in bending and torsion with their
// notches and keys, how they bend between bearings, how long bearings last, and
// the belts, chains, gears and screws that drive them.
//
// Its nouns: a Round is the section of a shaft or pivot; a Stepped shaft carries
// Loads between two bearings; Fatigue holds alternating and steady loads against
// a steel; a Duty is what a bearing carries through a cycle; a SlewingRing carries
// a whole ride on balls.
//
//	pivot := shaft.Round{Diameter: 40 * units.Mm}
//	sigma := pivot.BendingStress(400 * units.Nm)
//	tau := pivot.TorsionStress(300 * units.Nm)
//	sheet.AtMost("pivot", shaft.VonMises(sigma, tau), 100*units.MPa)
//
// Invariants: x runs along the shaft, y and z across it; loads and moments are
// without partial factors, and what is compared with a strength carries a safety
// factor that the notebook states. The methods are those of mechanical design
// handbooks, in the fewest forms that a small shop can check by hand.
//
// A broken pivot drops a rider. The numbers support a competent designer; the
// bearing maker's data, local law, the standards that apply and licensed practice
// come before them.
package shaft

import (
	"fmt"
	"math"

	"tautline/stdlib/internal/argument"
	"tautline/stdlib/units"
)

// A Round is the section of a solid or hollow shaft.
type Round struct {
	Diameter units.Length // more than 0
	Bore     units.Length // 0 when solid, less than the diameter
}

func (r Round) check() error {
	if err := argument.Positive("diameter", r.Diameter); err != nil {
		return err
	}
	if !(r.Bore >= 0 && r.Bore < r.Diameter) {
		return fmt.Errorf("bore: got %g m, want 0 or more and less than the diameter %g m", r.Bore, r.Diameter)
	}
	return nil
}

func (r Round) demand(call string, more ...error) {
	argument.Demand("shaft: Round."+call, append(more, r.check())...)
}

// SecondMoment is the second moment of area about a diameter.
//
//	I = pi*(pow(r.Diameter, 4) - pow(r.Bore, 4))/64
//
// It panics if a field is out of its range.
//
// Source: geometry.
func (r Round) SecondMoment() units.SecondMoment {
	r.demand("SecondMoment")
	return math.Pi * (math.Pow(r.Diameter, 4) - math.Pow(r.Bore, 4)) / 64
}

// Modulus is the section modulus in bending; that in torsion is twice it.
//
//	W = pi*(pow(r.Diameter, 4) - pow(r.Bore, 4))/(32*r.Diameter)
//
// It panics if a field is out of its range.
//
// Source: geometry.
func (r Round) Modulus() units.SectionModulus {
	r.demand("Modulus")
	return 2 * r.SecondMoment() / r.Diameter
}

// BendingStress is the greatest stress under a bending moment.
//
//	sigma = moment*32*r.Diameter/(pi*(pow(r.Diameter, 4) - pow(r.Bore, 4)))
//
// The moment is finite. It panics if it or a field is out of its range.
//
// Source: elastic beam theory.
func (r Round) BendingStress(moment units.Moment) units.Pressure {
	r.demand("BendingStress", argument.Finite("moment", moment))
	return moment / r.Modulus()
}

// TorsionStress is the greatest shear stress under a torque.
//
//	tau = torque*16*r.Diameter/(pi*(pow(r.Diameter, 4) - pow(r.Bore, 4)))
//
// The torque is finite. It panics if it or a field is out of its range.
//
// Source: elastic torsion of a circular section.
func (r Round) TorsionStress(torque units.Moment) units.Pressure {
	r.demand("TorsionStress", argument.Finite("torque", torque))
	return torque / (2 * r.Modulus())
}

// Twist is the angle by which a length of shaft turns under a torque.
//
//	phi = torque*length*32/(g*pi*(pow(r.Diameter, 4) - pow(r.Bore, 4)))
//
// The torque is finite, the length 0 or more, the shear modulus g more than 0.
// It panics if a number or a field is out of its range.
//
// Source: elastic torsion of a circular section.
func (r Round) Twist(torque units.Moment, length units.Length, g units.Pressure) units.Angle {
	r.demand("Twist", argument.Finite("torque", torque), argument.NotNegative("length", length), argument.Positive("shear modulus", g))
	return torque * length / (g * 2 * r.SecondMoment())
}

// VonMises is the stress in tension that strains steel as much as a normal and a
// shear stress together.
//
//	s = sqrt(sigma*sigma + 3*tau*tau)
//
// The stresses sigma and tau are finite; outside it panics.
//
// Source: von Mises' hypothesis of distortion energy.
func VonMises(sigma, tau units.Pressure) units.Pressure {
	argument.Demand("shaft: VonMises", argument.Finite("normal stress", sigma), argument.Finite("shear stress", tau))
	return math.Sqrt(sigma*sigma + 3*tau*tau)
}

// Tresca is twice the greatest shear stress under a normal and a shear stress
// together. It is on the safe side of VonMises.
//
//	s = sqrt(sigma*sigma + 4*tau*tau)
//
// The stresses sigma and tau are finite; outside it panics.
//
// Source: Tresca's hypothesis of greatest shear stress.
func Tresca(sigma, tau units.Pressure) units.Pressure {
	argument.Demand("shaft: Tresca", argument.Finite("normal stress", sigma), argument.Finite("shear stress", tau))
	return math.Sqrt(sigma*sigma + 4*tau*tau)
}

// EquivalentMoment is the bending moment that strains a round shaft as much as
// bending and torsion together, by von Mises.
//
//	M = sqrt(bending*bending + 0.75*torque*torque)
//
// Both are finite; outside it panics.
//
// Source: von Mises' hypothesis on a circular section.
func EquivalentMoment(bending, torque units.Moment) units.Moment {
	argument.Demand("shaft: EquivalentMoment", argument.Finite("bending moment", bending), argument.Finite("torque", torque))
	return math.Sqrt(bending*bending + 0.75*torque*torque)
}

// DiameterFor is the least diameter of a solid shaft for bending and torsion
// together, without notches.
//
//	d = pow(32*sqrt(bending*bending + 0.75*torque*torque)/(pi*allowed), 1.0/3)
//
// The moments are finite; the stress allowed, by von Mises, is more than 0.
// Outside it panics.
//
// Caution: a shoulder, a key or a thread breaks the shaft long before the plain
// section yields: see Fatigue.
//
// Source: von Mises' hypothesis on a circular section.
func DiameterFor(bending, torque units.Moment, allowed units.Pressure) units.Length {
	argument.Demand("shaft: DiameterFor", argument.Positive("stress allowed", allowed))
	return math.Cbrt(32 * EquivalentMoment(bending, torque) / (math.Pi * allowed))
}
