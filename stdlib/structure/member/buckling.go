package member

import (
	"fmt"
	"math"
	"strings"

	"tautline/stdlib/internal/argument"
	"tautline/stdlib/structure/section"
	"tautline/stdlib/units"
)

// Curve is the name of a buckling curve.
type Curve string

// The buckling curves, from the straightest members to the most crooked.
const (
	CurveA0 Curve = "a0"
	CurveA  Curve = "a"
	CurveB  Curve = "b"
	CurveC  Curve = "c"
	CurveD  Curve = "d"
)

// Imperfection is the factor alpha of a buckling curve: 0.13, 0.21, 0.34, 0.49,
// 0.76 from a0 to d.
//
// Another curve panics.
//
// Source: EN 1993-1-1:2005, Table 6.1, from memory: verify against the document.
func Imperfection(c Curve) units.Number {
	switch c {
	case CurveA0:
		return 0.13
	case CurveA:
		return 0.21
	case CurveB:
		return 0.34
	case CurveC:
		return 0.49
	case CurveD:
		return 0.76
	}
	panic(fmt.Sprintf("member: Imperfection: curve: got %q, want a0, a, b, c or d", c))
}

// Curves are the buckling curves of a section of a steel, about y and about z.
//
// A cold-formed tube has curve c whatever its grade, a hot-finished one a, and a0
// in S460. A built-up section is taken at d, on the safe side.
//
// Source: EN 1993-1-1:2005, Table 6.2, from memory: verify against the document.
func Curves(s section.Section, m section.Material) (y, z Curve) {
	strong := strings.HasPrefix(m.Name, "S460")
	switch s.Shape {
	case section.RoundTube, section.RectangularTube:
		switch {
		case s.Forming != section.HotFinished:
			return CurveC, CurveC
		case strong:
			return CurveA0, CurveA0
		}
		return CurveA, CurveA
	case section.AngleShape:
		return CurveB, CurveB
	case section.IShape:
		return curvesOfI(s, strong)
	case section.Composed:
		return CurveD, CurveD
	}
	return CurveC, CurveC // channels and solid bars
}

func curvesOfI(s section.Section, strong bool) (y, z Curve) {
	thin := s.Flange <= 40*units.Mm
	ordinary, high := [2]Curve{CurveD, CurveD}, [2]Curve{CurveC, CurveC}
	switch {
	case s.Forming == section.Welded && thin:
		return CurveB, CurveC
	case s.Forming == section.Welded:
		return CurveC, CurveD
	case s.Height > 1.2*s.Width && thin:
		ordinary, high = [2]Curve{CurveA, CurveB}, [2]Curve{CurveA0, CurveA0}
	case s.Flange <= 100*units.Mm:
		ordinary, high = [2]Curve{CurveB, CurveC}, [2]Curve{CurveA, CurveA}
	}
	if strong {
		return high[0], high[1]
	}
	return ordinary[0], ordinary[1]
}

// EulerLoad is the critical force of a perfect elastic strut.
//
//	N = pi*pi*e*i/(length*length)
//
// The modulus e, the second moment i and the buckling length are more than 0;
// outside it panics.
//
// Source: Euler; Timoshenko and Gere, Theory of Elastic Stability, chapter 2.
func EulerLoad(e units.Pressure, i units.SecondMoment, length units.Length) units.Force {
	argument.Demand("member: EulerLoad", argument.Positive("modulus", e), argument.Positive("second moment", i), argument.Positive("length", length))
	return math.Pi * math.Pi * e * i / (length * length)
}

// BucklingLength is the length of the strut between hinges that has a critical
// force: what a frame's buckling factor makes of a member.
//
//	L = pi*sqrt(e*i/critical)
//
// The modulus e, the second moment i and the critical force, which is the
// member's compression times the frame's factor, are more than 0; outside it
// panics.
//
// Caution: a member with little compression in a frame that another one buckles
// gets a very long length from this, and that is not an error.
//
// Source: as EulerLoad.
func BucklingLength(e units.Pressure, i units.SecondMoment, critical units.Force) units.Length {
	argument.Demand("member: BucklingLength", argument.Positive("modulus", e), argument.Positive("second moment", i), argument.Positive("critical force", critical))
	return math.Pi * math.Sqrt(e*i/critical)
}

// Slenderness is the relative slenderness of a strut.
//
//	lambda = sqrt(area*fy/critical)
//
// The area, the yield strength and the critical force are more than 0; outside
// it panics.
//
// Source: EN 1993-1-1:2005, 6.3.1.2(1), from memory: verify against the document.
func Slenderness(area units.Area, fy units.Pressure, critical units.Force) units.Number {
	argument.Demand("member: Slenderness", argument.Positive("area", area), argument.Positive("yield strength", fy), argument.Positive("critical force", critical))
	return math.Sqrt(area * fy / critical)
}

// Reduction is the reduction factor chi of a buckling curve at a relative
// slenderness: 1 up to 0.2.
//
// phi is 0.5·(1 + alpha·(lambda - 0.2) + lambda²) and chi is 1/(phi + √(phi² -
// lambda²)), at most 1. The slenderness is 0 or more; outside it panics.
//
// Source: EN 1993-1-1:2005, 6.3.1.2(1), equation (6.49), from memory: verify
// against the document.
func Reduction(c Curve, lambda units.Number) units.Number {
	argument.Demand("member: Reduction", argument.NotNegative("slenderness", lambda))
	phi := (1 + Imperfection(c)*(lambda-0.2) + lambda*lambda) / 2
	if lambda <= 0.2 {
		return 1
	}
	return math.Min(1, 1/(phi+math.Sqrt(phi*phi-lambda*lambda)))
}

// TorsionalLoad is the critical force at which an open section under compression
// in its centroid twists, alone or together with bending; it is that of bending
// alone where that is less.
//
// It is the least root of the three critical forces coupled by the distance of
// the shear centre. The lengths are those over which it buckles about the
// principal axes u and v and over which it twists, more than 0, as are the moduli
// e and g; outside it panics.
//
// Source: Timoshenko and Gere, Theory of Elastic Stability, section 5.6; EN
// 1993-1-1:2005, 6.3.1.4, asks for it.
func TorsionalLoad(s section.Section, e, g units.Pressure, lengthU, lengthV, lengthT units.Length) units.Force {
	argument.Demand("member: TorsionalLoad", argument.Positive("torsion constant", s.It), argument.Positive("LengthT", lengthT))
	nu, nv := EulerLoad(e, s.Iu, lengthU), EulerLoad(e, s.Iv, lengthV)
	sin, cos := math.Sincos(s.Alpha)
	u0, v0 := s.CentreY*cos+s.CentreZ*sin, s.CentreZ*cos-s.CentreY*sin
	polar := (s.Iu+s.Iv)/s.A + u0*u0 + v0*v0
	nt := (g*s.It + math.Pi*math.Pi*e*s.Iw/(lengthT*lengthT)) / polar
	low, high := 0.0, math.Min(nt, math.Min(nu, nv))
	for range 100 {
		n := (low + high) / 2
		if polar*(nu-n)*(nv-n)*(nt-n)-n*n*(u0*u0*(nv-n)+v0*v0*(nu-n)) > 0 {
			low = n
		} else {
			high = n
		}
	}
	return low
}
