package textile

import (
	"cmp"
	"fmt"

	"tautline/stdlib/internal/argument"
	"tautline/stdlib/units"
)

// A Stiffness is how woven cloth stretches: two stiffnesses and one contraction.
// The other contraction follows, since warp and weft must draw each other in by
// the same work.
type Stiffness struct {
	Warp    units.ForcePerLength // tensile stiffness E·t along the warp, more than 0
	Weft    units.ForcePerLength // along the weft, more than 0
	Poisson units.Number         // contraction of the weft over stretch of the warp when only the warp is pulled, 0 or more
}

// Check reports an error if a field is out of its range, or if the contraction is
// so large that the cloth would give work for nothing.
func (s Stiffness) Check() error {
	err := cmp.Or(argument.Positive("warp stiffness", s.Warp), argument.Positive("weft stiffness", s.Weft), argument.NotNegative("Poisson's ratio", s.Poisson))
	if err == nil && s.Poisson*s.Poisson*s.Weft >= s.Warp {
		err = fmt.Errorf("ratio of Poisson: got %g, want its square times the weft stiffness %g N/m less than the warp stiffness %g N/m: "+
			"such cloth would give work for nothing; are warp and weft swapped?", s.Poisson, s.Weft, s.Warp)
	}
	return err
}

// WarpStrain is the strain along the warp.
//
//	e = warp/s.Warp - s.Poisson*weft/s.Warp
//
// The line forces warp, along the warp, and weft, along the weft, are 0 or more.
// It panics if a line force or a field is out of its range.
//
// Source: law of an orthotropic membrane.
func (s Stiffness) WarpStrain(warp, weft units.ForcePerLength) units.Number {
	s.demand("WarpStrain", warp, weft)
	return warp/s.Warp - s.Poisson*weft/s.Warp
}

// WeftStrain is the strain along the weft.
//
//	e = weft/s.Weft - s.Poisson*warp/s.Warp
//
// The line forces warp, along the warp, and weft, along the weft, are 0 or more.
// It panics if a line force or a field is out of its range.
//
// Source: law of an orthotropic membrane.
func (s Stiffness) WeftStrain(warp, weft units.ForcePerLength) units.Number {
	s.demand("WeftStrain", warp, weft)
	return weft/s.Weft - s.Poisson*warp/s.Warp
}

func (s Stiffness) demand(call string, warp, weft float64) {
	argument.Demand("textile: Stiffness."+call, s.Check(), argument.NotNegative("warp force", warp), argument.NotNegative("weft force", weft))
}
