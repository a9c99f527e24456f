// Package contact calculates what a moving padded part does to a person whom it
// meets: force and energy of the blow, and the head injury criterion.
//
//	arm := contact.Arm{Mass: 12 * units.Kg, Length: 3 * units.M}
//	leg := sheet.Must(contact.NewRegion("lower leg"))
//	blow := contact.Blow{Body: leg, Moving: arm.MassAt(3 * units.M), Pad: 5 * units.NPerMm, Depth: 80 * units.Mm, Usable: 0.7}
//	sheet.AtMost("force on a leg", blow.At(2*units.MPerS).Force, leg.Struck, leg.Source)
//
// The regions of the body are data for adults at the onset of pain, made for
// robots at work. They are no limits for children or for play: they serve to
// compare designs, and to see what is far too hard.
//
// A blow to the head or a fall can kill. The numbers support a competent designer
// and an inspection body; they replace neither.
package contact

import (
	"fmt"
	"math"
	"strings"

	"tautline/stdlib/internal/argument"
	"tautline/stdlib/units"
)

// A Region is a part of the body that may be hit.
type Region struct {
	Name      string
	Clamped   units.Force          // that hurts while it lasts
	Struck    units.Force          // that hurts in a blow; 0 where the document gives none: no blow is allowed
	Stiffness units.ForcePerLength // of the body there
	Mass      units.Mass           // that moves with it
	Source    string
}

// Regions are the parts of the body of an adult.
//
// Caution: onset of pain of adults at work; not for children or play. The head is
// never to be struck.
//
// Source: ISO/TS 15066:2016, Annex A, Tables A.2 and A.3 (from memory: verify
// against the document).
func Regions() []Region {
	var out []Region
	for _, r := range []struct {
		name                            string
		clamped, ratio, stiffness, mass float64
	}{
		{"skull and forehead", 130, 0, 150, 4.4}, {"face", 65, 0, 75, 4.4}, {"neck", 150, 2, 50, 1.2},
		{"back and shoulders", 210, 2, 35, 40}, {"chest", 140, 2, 25, 40}, {"abdomen", 110, 2, 10, 40},
		{"pelvis", 180, 2, 25, 40}, {"upper arm and elbow", 150, 2, 30, 3}, {"lower arm and wrist", 160, 2, 40, 2},
		{"hand and finger", 140, 2, 75, 0.6}, {"thigh and knee", 220, 2, 50, 75}, {"lower leg", 130, 2, 60, 75},
	} {
		out = append(out, Region{
			r.name, r.clamped * units.N, r.clamped * r.ratio * units.N, r.stiffness * units.NPerMm, r.mass * units.Kg,
			"ISO/TS 15066:2016, Annex A (from memory: verify against the document)",
		})
	}
	return out
}

// NewRegion is the region of a name. Another name is an error that lists them.
func NewRegion(name string) (Region, error) {
	var names []string
	for _, r := range Regions() {
		if r.Name == name {
			return r, nil
		}
		names = append(names, r.Name)
	}
	return Region{}, fmt.Errorf("region: got %q, want one of %s", name, strings.Join(names, ", "))
}

// An Arm is a uniform arm that sweeps about one end, and what drives it.
type Arm struct {
	Mass   units.Mass    // more than 0
	Length units.Length  // more than 0
	Motor  units.Inertia // of the motor, and of the gear on its side
	Ratio  units.Number  // of the gear, motor turns for one of the arm
}

// MassAt is the mass that a blow at a radius meets: inertia over radius squared.
//
//	m = (a.Mass*a.Length*a.Length/3 + a.Motor*a.Ratio*a.Ratio)/(radius*radius)
//
// The radius is more than 0, inertia and ratio 0 or more; outside it panics.
//
// Source: equilibrium, derived here: kinetic energy of the arm as that of a mass.
func (a Arm) MassAt(radius units.Length) units.Mass {
	argument.Demand("contact: Arm.MassAt", argument.Positive("mass", a.Mass), argument.Positive("length", a.Length),
		argument.NotNegative("inertia of the motor", a.Motor), argument.NotNegative("ratio", a.Ratio), argument.Positive("radius", radius))
	return (a.Mass*a.Length*a.Length/3 + a.Motor*a.Ratio*a.Ratio) / (radius * radius)
}

// A Blow is a moving mass, such as an arm or a baton, that meets a region of the
// body through a pad.
type Blow struct {
	Body   Region
	Moving units.Mass           // more than 0
	Pad    units.ForcePerLength // stiffness of the padding over the contact; 0 is no pad
	Depth  units.Length         // of the pad; 0 where there is none
	Usable units.Number         // share of the depth that it can be pressed in before it is hard, 0 to 1
}

func (b Blow) check() error {
	for _, err := range []error{
		argument.Positive("stiffness of the body", b.Body.Stiffness), argument.Positive("mass of the body", b.Body.Mass),
		argument.Positive("moving mass", b.Moving), argument.NotNegative("stiffness of the pad", b.Pad),
		argument.NotNegative("depth of the pad", b.Depth), argument.Within("usable share of the pad", b.Usable, 0, 1),
	} {
		if err != nil {
			return err
		}
	}
	return nil
}

// Mass is the mass that the blow stops: that of body and part, their product over
// their sum.
//
// It panics when a field is out of range.
//
// Source: ISO/TS 15066:2016, A.3.4 (from memory: verify against the document);
// momentum, derived here.
func (b Blow) Mass() units.Mass {
	argument.Demand("contact: Blow.Mass", b.check())
	return b.Body.Mass * b.Moving / (b.Body.Mass + b.Moving)
}

// Stiffness is that of body and pad, one after the other.
//
// It panics when a field is out of range.
//
// Source: springs in series.
func (b Blow) Stiffness() units.ForcePerLength {
	argument.Demand("contact: Blow.Stiffness", b.check())
	if b.Pad == 0 {
		return b.Body.Stiffness
	}
	return b.Body.Stiffness * b.Pad / (b.Body.Stiffness + b.Pad)
}

// A Result is what a blow does.
type Result struct {
	Force    units.Force // greatest
	Energy   units.Energy
	Pressed  units.Length // how far the pad gives
	Usable   units.Length // how far it could
	Warnings []string     // the pad is pressed hard: the force is greater than given
}

// At is what the blow does at a speed of approach, both springs straight, nothing
// lost.
//
// Force is speed times √(mass·stiffness), energy half the mass times speed squared.
// The speed is 0 or more; outside it panics.
//
// Caution: a pad pressed hard protects no more; the result warns of it.
//
// Source: ISO/TS 15066:2016, A.3.4 (from memory: verify against the document).
func (b Blow) At(speed units.Speed) Result {
	argument.Demand("contact: Blow.At", b.check(), argument.NotNegative("speed", speed))
	mu := b.Mass()
	r := Result{Force: speed * math.Sqrt(mu*b.Stiffness()), Energy: mu * speed * speed / 2, Usable: b.Depth * b.Usable}
	if b.Pad > 0 {
		r.Pressed = r.Force / b.Pad
		if r.Pressed > r.Usable {
			r.Warnings = append(r.Warnings, fmt.Sprintf("the pad is pressed by %.0f mm, it can give %.0f mm: the force is greater than given", r.Pressed/units.Mm, r.Usable/units.Mm))
		}
	}
	return r
}

// Speed is the speed of approach at which the blow comes to a force.
//
// The force is 0 or more; outside it panics.
//
// Source: ISO/TS 15066:2016, A.3.4 (from memory: verify against the document).
func (b Blow) Speed(force units.Force) units.Speed {
	argument.Demand("contact: Blow.Speed", b.check(), argument.NotNegative("force", force))
	return force / math.Sqrt(b.Mass()*b.Stiffness())
}
