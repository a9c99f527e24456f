package shaft

import (
	"fmt"
	"math"
	"strings"

	"tautline/stdlib/internal/argument"
	"tautline/stdlib/units"
)

// NotchFactor is by how much a notch raises stress in fatigue.
//
//	kf = 1 + q*(kt - 1)
//
// kt, 1 or more, is how much it raises the elastic stress, by its shape; the
// sensitivity q of the steel is 0 to 1. Outside it panics.
//
// Source: Peterson's notch sensitivity.
func NotchFactor(kt, q units.Number) units.Number {
	argument.Demand("shaft: NotchFactor", argument.Within("kt", kt, 1, 100), argument.Within("sensitivity", q, 0, 1))
	return 1 + q*(kt-1)
}

// NotchSensitivity is how much of a notch's elastic stress a steel feels in
// bending fatigue: 1/(1 + sqrt(a/r)), with Neuber's constant a by the steel's
// tensile strength. In torsion it is a little more; take 1 to be safe.
//
// The tensile strength is 340 to 1700 MPa, the notch's radius more than 0;
// outside it panics.
//
// Source: Shigley, Mechanical Engineering Design, 10th edition, equations 6-34
// and 6-35a, from memory: verify against the document.
func NotchSensitivity(tensile units.Pressure, radius units.Length) units.Number {
	argument.Demand("shaft: NotchSensitivity", argument.Within("tensile strength", tensile, 340*units.MPa, 1700*units.MPa), argument.Positive("radius", radius))
	s := tensile / units.Ksi
	root := 0.246 - 3.08e-3*s + 1.51e-5*s*s - 2.67e-8*s*s*s // square root of a, in root inches
	return 1 / (1 + root/math.Sqrt(radius/units.In))
}

// shoulder is a fit kt = a·(r/d)^b to Peterson's curve for one ratio D/d.
type shoulder struct{ ratio, a, b float64 }

var (
	bendingShoulders = []shoulder{
		{1.01, 0.91938, -0.17032}, {1.02, 0.96048, -0.17711}, {1.03, 0.98061, -0.18381}, {1.05, 0.98137, -0.19653}, {1.07, 0.97527, -0.20958}, {1.1, 0.95120, -0.23757},
		{1.2, 0.97098, -0.21796}, {1.5, 0.93836, -0.25759}, {2, 0.90879, -0.28598}, {3, 0.89334, -0.30860}, {6, 0.87868, -0.33243},
	}
	torsionShoulders = []shoulder{{1.09, 0.90337, -0.12692}, {1.2, 0.83425, -0.21649}, {1.33, 0.84897, -0.23161}, {2, 0.86331, -0.23865}}
)

// ShoulderBending is by how much the fillet of a shoulder raises the elastic
// bending stress in the thinner part.
//
// The larger diameter is 1.01 times the smaller or more; the fillet's radius is
// 0.02 to 0.3 of the smaller. Outside it panics.
//
// Source: fits to Peterson's curves, Norton, Machine Design, appendix; from
// memory: verify against the document. Within about 5 % of the curves.
func ShoulderBending(larger, smaller, radius units.Length) units.Number {
	return shoulderFactor("ShoulderBending", bendingShoulders, larger, smaller, radius)
}

// ShoulderTorsion is by how much the fillet of a shoulder raises the elastic
// shear stress in the thinner part.
//
// The larger diameter is 1.09 times the smaller or more. Otherwise as
// ShoulderBending.
//
// Source: as ShoulderBending.
func ShoulderTorsion(larger, smaller, radius units.Length) units.Number {
	return shoulderFactor("ShoulderTorsion", torsionShoulders, larger, smaller, radius)
}

func shoulderFactor(call string, fits []shoulder, larger, smaller, radius float64) float64 {
	argument.Demand("shaft: "+call, argument.Positive("smaller diameter", smaller), argument.Within("larger over smaller diameter", larger/smaller, fits[0].ratio, math.MaxFloat64),
		argument.Within("radius over smaller diameter", radius/smaller, 0.02, 0.3))
	ratio, r := larger/smaller, radius/smaller
	kt := func(s shoulder) float64 { return math.Max(1, s.a*math.Pow(r, s.b)) }
	last := fits[len(fits)-1]
	if ratio >= last.ratio {
		return kt(last)
	}
	k := 1
	for fits[k].ratio < ratio {
		k++
	}
	low, high := fits[k-1], fits[k]
	t := (ratio - low.ratio) / (high.ratio - low.ratio)
	return kt(low) + t*(kt(high)-kt(low))
}

// SurfaceFactor is what the finish of its surface leaves of a steel's endurance
// limit.
//
// The finish is "ground", "machined", "hot-rolled" or "as forged"; another is an
// error. The tensile strength is 340 to 1700 MPa; outside it panics.
//
// Source: Marin's factor ka, Shigley, Mechanical Engineering Design, 10th
// edition, Table 6-2.
func SurfaceFactor(finish string, tensile units.Pressure) (units.Number, error) {
	argument.Demand("shaft: SurfaceFactor", argument.Within("tensile strength", tensile, 340*units.MPa, 1700*units.MPa))
	var known []string
	for _, f := range []struct {
		name string
		a, b float64
	}{{"ground", 1.58, -0.085}, {"machined", 4.51, -0.265}, {"hot-rolled", 57.7, -0.718}, {"as forged", 272, -0.995}} {
		if f.name == finish {
			return math.Min(1, f.a*math.Pow(tensile/units.MPa, f.b)), nil
		}
		known = append(known, f.name)
	}
	return 0, fmt.Errorf("surface factor: finish: got %q, want one of: %s", finish, strings.Join(known, ", "))
}

// DiameterFactor is what the size of a turning shaft in bending or torsion leaves
// of the endurance limit: pow(d/7.62 mm, -0.107) up to 51 mm, 1.51 times
// pow(d/1 mm, -0.157) above.
//
// The diameter is 2.79 to 254 mm; outside it panics.
//
// Source: Marin's factor kb, Shigley, Mechanical Engineering Design, 10th
// edition, equation 6-20.
func DiameterFactor(diameter units.Length) units.Number {
	argument.Demand("shaft: DiameterFactor", argument.Within("diameter", diameter, 2.79*units.Mm, 254*units.Mm))
	if diameter <= 51*units.Mm {
		return math.Pow(diameter/(7.62*units.Mm), -0.107)
	}
	return 1.51 * math.Pow(diameter/units.Mm, -0.157)
}

// ReliabilityFactor is what a reliability leaves of the endurance limit, of which
// the mean is given.
//
// The reliability is 0.5, 0.9, 0.95, 0.99, 0.999 or 0.9999; another is an error.
//
// Source: Shigley, Mechanical Engineering Design, 10th edition, Table 6-5.
func ReliabilityFactor(reliability units.Number) (units.Number, error) {
	for _, r := range [][2]float64{{0.5, 1}, {0.9, 0.897}, {0.95, 0.868}, {0.99, 0.814}, {0.999, 0.753}, {0.9999, 0.702}} {
		if r[0] == reliability {
			return r[1], nil
		}
	}
	return 0, fmt.Errorf("reliability factor: got %g, want 0.5, 0.9, 0.95, 0.99, 0.999 or 0.9999", reliability)
}

// EnduranceLimit is the stress that a polished steel specimen bears for ever in
// rotating bending: half its tensile strength, at most 700 MPa.
//
// The tensile strength is more than 0; outside it panics. A shaft has less: by
// SurfaceFactor, DiameterFactor and ReliabilityFactor.
//
// Source: Shigley, Mechanical Engineering Design, 10th edition, equation 6-8.
func EnduranceLimit(tensile units.Pressure) units.Pressure {
	argument.Demand("shaft: EnduranceLimit", argument.Positive("tensile strength", tensile))
	return math.Min(0.5*tensile, 700*units.MPa)
}

// Fatigue is a shaft's section at a notch, what loads it, and its steel.
type Fatigue struct {
	Section     Round
	Bending     units.Moment // alternating, amplitude: in a turning shaft all of the bending
	MeanBending units.Moment
	Torque      units.Moment // alternating, amplitude
	MeanTorque  units.Moment
	Kf, Kfs     units.Number   // notch factors in bending and torsion, 1 or more
	Endurance   units.Pressure // of the shaft, with Marin's factors
	Tensile     units.Pressure
	Yield       units.Pressure
}

// FatigueSafety is how many times the loads may grow, by each criterion.
type FatigueSafety struct {
	Goodman   units.Number // for everyday use, on the safe side
	Gerber    units.Number // the mean of tests
	Elliptic  units.Number // of ASME
	Soderberg units.Number // safest: against yielding too
	Yield     units.Number // against yielding in the first cycle
}

// Safety is how many times the loads at the notch may grow before it cracks, or
// yields. The stresses of bending and torsion are joined by von Mises, amplitudes
// and means apart, each with its notch factor.
//
// No load, or a number out of range, is an error.
//
// Source: Shigley, Mechanical Engineering Design, 10th edition, equations 7-4 to
// 7-16.
func (s Fatigue) Safety() (FatigueSafety, error) {
	if err := s.check(); err != nil {
		return FatigueSafety{}, fmt.Errorf("fatigue of a shaft: %w", err)
	}
	bend, twist := s.Kf/s.Section.Modulus(), s.Kfs/(2*s.Section.Modulus())
	alternating := VonMises(bend*s.Bending, twist*s.Torque)
	mean := VonMises(bend*s.MeanBending, twist*s.MeanTorque)
	peak := VonMises(bend*(math.Abs(s.Bending)+math.Abs(s.MeanBending)), twist*(math.Abs(s.Torque)+math.Abs(s.MeanTorque)))
	if peak == 0 {
		return FatigueSafety{}, fmt.Errorf("fatigue of a shaft: got no load, want some")
	}
	a, m, y := alternating/s.Endurance, mean/s.Tensile, mean/s.Yield
	return FatigueSafety{
		Goodman:   1 / (a + m),
		Gerber:    2 / (a + math.Sqrt(a*a+4*m*m)),
		Elliptic:  1 / math.Hypot(a, y),
		Soderberg: 1 / (a + y),
		Yield:     s.Yield / peak,
	}, nil
}

func (s Fatigue) check() error {
	for _, err := range []error{
		s.Section.check(), argument.Finite("bending", s.Bending), argument.Finite("mean bending", s.MeanBending), argument.Finite("torque", s.Torque),
		argument.Finite("mean torque", s.MeanTorque), argument.Within("Kf", s.Kf, 1, 100), argument.Within("Kfs", s.Kfs, 1, 100),
		argument.Positive("endurance limit", s.Endurance), argument.Positive("tensile strength", s.Tensile), argument.Positive("yield strength", s.Yield),
	} {
		if err != nil {
			return err
		}
	}
	return nil
}
