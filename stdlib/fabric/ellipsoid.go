package fabric

import (
	"fmt"
	"math"

	"tautline/stdlib/internal/argument"
	"tautline/stdlib/units"
)

// An Ellipsoid of revolution is a flattened or stretched balloon, or the domed
// end of a tube.
type Ellipsoid struct {
	Radius     units.Length   // at the equator, more than 0
	HalfHeight units.Length   // from the middle to a pole, more than 0
	Pressure   units.Pressure // gauge, 0 or more
}

// A ShellForce is what the fabric of a shell of revolution carries at one
// place.
type ShellForce struct {
	Meridian       units.ForcePerLength // from pole to pole
	Hoop           units.ForcePerLength // round the axis; below 0 the fabric wrinkles
	MeridianRadius units.Length         // of curvature, along the meridian
	HoopRadius     units.Length         // of curvature, square to the meridian
	Warnings       []string
}

// Wrinkles tells whether the fabric wrinkles at the equator, where the hoop
// force turns to compression once Radius is more than √2 times HalfHeight.
// Fabric cannot carry that: the real shape is then not this ellipsoid.
//
// It panics if a field is out of its range.
//
// Source: as At.
func (e Ellipsoid) Wrinkles() bool {
	e.demand("Ellipsoid.Wrinkles")
	return e.Radius > math.Sqrt2*e.HalfHeight
}

// At gives both line forces and both radii of curvature at the place whose
// surface normal stands at the angle from the axis: 0 at the pole, 90° at the
// equator.
//
// With a the radius, b the half height and D² = a² sin² + b² cos², the hoop
// radius is a²/D, the meridian radius a²b²/D³, the meridian force half of
// pressure times hoop radius; the hoop force follows from both. A hoop force
// below 0 carries a warning. It panics if the angle is not finite or a field is
// out of its range.
//
// Source: Flügge, Stresses in Shells; Timoshenko and Woinowsky-Krieger, Theory
// of Plates and Shells, shells of revolution.
func (e Ellipsoid) At(angle units.Angle) ShellForce {
	e.demand("Ellipsoid.At", argument.Finite("angle", angle))
	a, b := e.Radius, e.HalfHeight
	d := math.Hypot(a*math.Sin(angle), b*math.Cos(angle))
	s := ShellForce{HoopRadius: a * a / d, MeridianRadius: a * a * b * b / (d * d * d)}
	s.Meridian = e.Pressure * s.HoopRadius / 2
	s.Hoop = e.Pressure * s.HoopRadius * (1 - s.HoopRadius/(2*s.MeridianRadius))
	if s.Hoop < 0 && e.Wrinkles() {
		s.Warnings = append(s.Warnings, fmt.Sprintf(
			"hoop force is %.3g N/m of compression: the fabric wrinkles and takes another shape; keep the radius below √2 times the half height", -s.Hoop))
	}
	return s
}

func (e Ellipsoid) demand(call string, more ...error) {
	argument.Demand("fabric: "+call, append(more, argument.Positive("radius", e.Radius), argument.Positive("half height", e.HalfHeight),
		argument.NotNegative("pressure", e.Pressure))...)
}
