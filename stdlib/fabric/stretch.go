package fabric

import (
	"cmp"
	"fmt"

	"tautline/stdlib/fabric/textile"
	"tautline/stdlib/units"
)

// A TubeStretch is what pressure does to the size of a closed tube.
type TubeStretch struct {
	Around units.Number // strain round the tube
	Along  units.Number // strain along it
	Volume units.Number // its volume over that before
}

// Stretch gives how a closed tube of woven cloth grows under its pressure.
//
// warpAlong says that the warp runs along the tube; otherwise it runs round. The
// line forces are those of the tube's radius as it is given, so strains are taken
// as small. A field of the tube or the cloth out of its range is an error.
//
// Source: line forces of a closed tube; law of an orthotropic membrane.
func (t Tube) Stretch(cloth textile.Stiffness, warpAlong bool) (TubeStretch, error) {
	if err := cmp.Or(t.check(), cloth.Check()); err != nil {
		return TubeStretch{}, fmt.Errorf("stretch of a tube: %w", err)
	}
	warp, weft := t.Hoop(), t.Along()
	if warpAlong {
		warp, weft = weft, warp
	}
	s := TubeStretch{Around: cloth.WarpStrain(warp, weft), Along: cloth.WeftStrain(warp, weft)}
	if warpAlong {
		s.Around, s.Along = s.Along, s.Around
	}
	s.Volume = (1 + s.Around) * (1 + s.Around) * (1 + s.Along)
	return s, nil
}
