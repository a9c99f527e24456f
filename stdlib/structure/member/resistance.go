package member

import (
	"math"

	"tautline/stdlib/internal/argument"
	"tautline/stdlib/structure/section"
	"tautline/stdlib/units"
)

// A Resistance is what a section bears of each internal force alone.
type Resistance struct {
	Class  Class
	N      units.Force  // pull, and pressure without buckling
	VY, VZ units.Force  // shear along y and z
	T      units.Moment // Saint-Venant torsion
	MY, MZ units.Moment // bending about y and z: plastic in classes 1 and 2, else elastic
	Source string
}

// resistanceSource is the clause of every resistance.
const resistanceSource = "EN 1993-1-1:2005, 6.2.3 to 6.2.7 (from memory: verify against the document)"

// ResistanceOf is what a section bears, of a class that Classify found and with
// the partial factor M0 on yielding.
//
// An angle is taken elastically in any class. Class 4 is an error, as is a web so
// slender that it buckles in shear (72·epsilon). The yield strength and the
// factor are more than 0; outside it panics.
//
// Source: EN 1993-1-1:2005, 6.2.3 to 6.2.7, from memory: verify against the
// document.
func ResistanceOf(s section.Section, fy units.Pressure, c Class, m0 units.Number) (Resistance, error) {
	argument.Demand("member: ResistanceOf", argument.Positive("yield strength", fy), argument.Positive("factor M0", m0))
	if err := slender(s, fy, c); err != nil {
		return Resistance{}, err
	}
	wy, wz := s.Wply, s.Wplz
	if elastic(s, c) {
		wy, wz = s.Wely, s.Welz
	}
	shear := fy / math.Sqrt(3) / m0
	return Resistance{
		Class: c, N: s.A * fy / m0, VY: s.Avy * shear, VZ: s.Avz * shear, T: s.Wt * shear, MY: wy * fy / m0, MZ: wz * fy / m0,
		Source: resistanceSource,
	}, nil
}

// elastic reports whether a section is taken up to yield at its edge only.
func elastic(s section.Section, c Class) bool {
	return c.Class > 2 || s.Shape == section.AngleShape || s.Shape == section.Composed
}

// ShearLoss is the share of its yield strength that a shear area loses for
// bending, 0 up to half of the shear resistance.
//
// The shear force and the resistance, which torsion may have reduced, are 0 or
// more and more than 0; a force beyond the resistance loses all. Outside it
// panics.
//
// Source: EN 1993-1-1:2005, 6.2.8(3), from memory: verify against the document.
func ShearLoss(shear, resistance units.Force) units.Number {
	argument.Demand("member: ShearLoss", argument.NotNegative("shear force", shear), argument.Positive("shear resistance", resistance))
	share := shear / resistance
	if share <= 0.5 {
		return 0
	}
	return math.Min(1, (2*share-1)*(2*share-1))
}

// shearUnderTorsion is the factor on the shear resistance of a section whose
// torsion stress is a share of the shear strength. Source: EN 1993-1-1:2005,
// 6.2.7(9), (6.26) and (6.28).
func shearUnderTorsion(s section.Section, share float64) float64 {
	if s.Hollow() {
		return math.Max(0, 1-share)
	}
	return math.Sqrt(math.Max(0, 1-share/1.25))
}

// AxialBending is how much of a hollow or solid section's plastic moment is left
// under an axial force, as a share, about y and about z; N and n are force and
// force over resistance, positive either way.
//
// A rectangular tube keeps (1 - n)/(1 - 0.5·a) about y, at most 1, where a is the
// share of its webs in its area, at most 0.5; a round tube 1 - n^1.7; a flat bar
// 1 - n². n is from 0 to 1; outside, and with another shape, it panics.
//
// Source: EN 1993-1-1:2005, 6.2.9.1(3) and (5); round tubes: ENV 1993-1-1:1992,
// 5.4.8.1(7), without its 1.04; from memory: verify against the documents.
func AxialBending(s section.Section, n units.Number) (y, z units.Number) {
	argument.Demand("member: AxialBending", argument.Within("axial share", n, 0, 1))
	switch s.Shape {
	case section.RoundTube:
		y = 1 - math.Pow(n, 1.7)
		return y, y
	case section.Bar:
		return 1 - n*n, 1 - n*n
	case section.RectangularTube:
		keep := func(flange float64) float64 {
			a := math.Min(0.5, (s.A-2*flange*s.Wall)/s.A)
			return math.Min(1, (1-n)/(1-0.5*a))
		}
		return keep(s.Width), keep(s.Height)
	}
	panic("member: AxialBending: shape: got " + string(s.Shape) + ", want a tube or a flat bar")
}

// BiaxialExponent is the power to which the shares of two bending moments are
// raised before they are added, for a rectangular tube: 1.66/(1 - 1.13·n²), at
// most 6, n being the axial share from 0 to 1; outside it panics.
//
// Source: EN 1993-1-1:2005, 6.2.9.1(6), from memory: verify against the document.
func BiaxialExponent(n units.Number) units.Number {
	argument.Demand("member: BiaxialExponent", argument.Within("axial share", n, 0, 1))
	left := 1 - 1.13*n*n
	if left <= 1.66/6 {
		return 6
	}
	return 1.66 / left
}

// A Stress is the state of stress at the worst edge of a section.
type Stress struct {
	Direct   units.Pressure // along the member, the greatest in size, with its sign
	Shear    units.Pressure // the mean of both shear forces and the greatest of torsion, together
	Combined units.Pressure // by von Mises
	Y, Z     units.Length   // where the direct stress is
}

// StressOf is the elastic stress that internal forces bring to a section. The
// direct stress is the greatest at any edge; the shear stress, taken as if it
// were at the same place, is on the safe side.
//
// Forces and moments are finite; outside it panics.
//
// Source: N/A + bending about both axes with the product of area; EN
// 1993-1-1:2005, 6.2.1(5), for the combination.
func StressOf(s section.Section, n, vy, vz units.Force, t, my, mz units.Moment) Stress {
	for _, v := range []float64{n, vy, vz, t, my, mz} {
		argument.Demand("member: StressOf", argument.Finite("internal force", v))
	}
	det := s.Iy*s.Iz - s.Iyz*s.Iyz
	a, b := -(mz*s.Iy+my*s.Iyz)/det, (my*s.Iz+mz*s.Iyz)/det
	worst := Stress{Direct: n / s.A}
	for _, l := range s.Outline() {
		for i := range l.Y {
			if v := n/s.A + a*l.Y[i] + b*l.Z[i]; math.Abs(v) > math.Abs(worst.Direct) {
				worst.Direct, worst.Y, worst.Z = v, l.Y[i], l.Z[i]
			}
		}
	}
	if s.Avy > 0 && s.Avz > 0 {
		worst.Shear = math.Hypot(vy/s.Avy, vz/s.Avz)
	}
	if t != 0 {
		worst.Shear += math.Abs(t) / s.Wt
	}
	worst.Combined = math.Sqrt(worst.Direct*worst.Direct + 3*worst.Shear*worst.Shear)
	return worst
}
