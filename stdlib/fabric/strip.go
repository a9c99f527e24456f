package fabric

import (
	"cmp"
	"fmt"
	"math"

	"tautline/stdlib/internal/argument"
	"tautline/stdlib/internal/root"
	"tautline/stdlib/units"
)

// A ClampedStrip is a long flat panel between two edges that hold it, such as a
// window or a floor panel, flat and without tension before the pressure comes.
// It carries the pressure only by stretching into an arc.
type ClampedStrip struct {
	Width     units.Length         // from edge to edge, more than 0
	Stiffness units.ForcePerLength // tensile stiffness E·t across, more than 0
	Pressure  units.Pressure       // gauge, more than 0
}

// An Arch is a clamped strip under pressure.
type Arch struct {
	HalfAngle units.Angle          // half of what its arc spans
	Radius    units.Length         // of the arc
	Rise      units.Length         // of the middle above the edges
	LineForce units.ForcePerLength // across, from edge to edge
	Strain    units.Number         // of the fabric
	Warnings  []string
}

// Blown gives the arc that the strip takes.
//
// The arc is longer than the width by the strain that its line force p·R makes,
// so its half angle less the sine of it is pressure times width over twice the
// stiffness; it is found by halving until it no longer changes. A strain of more than 5 % carries
// a warning. A strip that stretches past a full circle, or a field out of its
// range, is an error.
//
// Source: equilibrium of an arc and Hooke's law on the flat length, derived
// here.
func (s ClampedStrip) Blown() (Arch, error) {
	err := cmp.Or(argument.Positive("width", s.Width), argument.Positive("stiffness", s.Stiffness), argument.Positive("pressure", s.Pressure))
	load := s.Pressure * s.Width / (2 * s.Stiffness)
	if err == nil && load >= math.Pi {
		err = fmt.Errorf("stiffness: got %g N/m, want more than %g N/m: the strip stretches past a full circle; take stiffer fabric or a narrower strip",
			s.Stiffness, s.Pressure*s.Width/(2*math.Pi))
	}
	if err != nil {
		return Arch{}, fmt.Errorf("clamped strip: %w", err)
	}
	half := root.Bisect(0, math.Pi, func(a float64) float64 { return lessSine(a) - load })
	arch := Arch{HalfAngle: half, Radius: s.Width / (2 * math.Sin(half))}
	arch.LineForce = s.Pressure * arch.Radius
	arch.Rise = s.Width / 2 * math.Tan(half/2)
	arch.Strain = arch.LineForce / s.Stiffness
	if arch.Strain > 0.05 {
		arch.Warnings = append(arch.Warnings, fmt.Sprintf(
			"strain is %.0f %%: coated fabric is no longer linear there; take its measured curve", 100*arch.Strain))
	}
	return arch, nil
}

// lessSine is a - sin(a), also where both are nearly the same.
func lessSine(a float64) float64 {
	if a < 0.3 {
		x := a * a
		return a * x / 6 * (1 - x/20*(1-x/42*(1-x/72*(1-x/110))))
	}
	return a - math.Sin(a)
}
