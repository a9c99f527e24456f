package form

import (
	"cmp"
	"fmt"
	"math"

	"tautline/stdlib/internal/argument"
	"tautline/stdlib/internal/balance"
	"tautline/stdlib/units"
)

// A Fabric is what parts are cut of: stiff along its warp and weft, without any
// stiffness against bending or compression. Where it would be compressed it
// wrinkles and carries tension one way only.
//
// A Fabric with Film is no cloth but a skin of that tension everywhere and in
// every direction, such as a soap film: the form of least area.
type Fabric struct {
	Parts   []string             // cut of it; none: all parts
	Warp    units.ForcePerLength // stiffness along the warp: line force over strain, more than 0
	Weft    units.ForcePerLength // along the weft, more than 0
	Poisson units.Number         // strain across, as a share of that along, when the warp is pulled; its square less than Warp/Weft
	Shear   units.ForcePerLength // stiffness in shear: line force over the angle; 0: by Huber's rule from the other three
	Along   Direction            // of the warp, laid on each triangle of the mesh as cut; 0: x
	Round   bool                 // the warp runs round the z axis instead
	WarpCut units.Number         // share by which the warp is cut shorter than the mesh, more than -0.5, to pull it taut
	WeftCut units.Number         // the same of the weft
	Film    units.ForcePerLength // tension of a film, without the stiffness above
}

// A Direction in space, of any length but 0.
type Direction struct {
	X, Y, Z units.Number
}

func (f Fabric) check() error {
	if f.Film != 0 {
		return argument.Positive("film", f.Film)
	}
	err := cmp.Or(argument.Positive("warp stiffness", f.Warp), argument.Positive("weft stiffness", f.Weft), argument.NotNegative("shear stiffness", f.Shear),
		argument.NotNegative("ratio of Poisson", f.Poisson), argument.Within("warp cut", f.WarpCut, -0.5, 0.5), argument.Within("weft cut", f.WeftCut, -0.5, 0.5))
	if err == nil && !(f.Poisson*f.Poisson*f.Weft < f.Warp) {
		err = fmt.Errorf("ratio of Poisson: got %g, want less than sqrt(warp/weft stiffness) = %.4g", f.Poisson, math.Sqrt(f.Warp/f.Weft))
	}
	return err
}

// law is how the fabric answers strain.
func (f Fabric) law() balance.Law {
	return balance.Orthotropic(f.Warp, f.Weft, f.Poisson, f.Shear)
}
