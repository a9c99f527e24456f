package joint_test

import (
	"testing"

	"tautline/stdlib/internal/proof"
	"tautline/stdlib/structure/joint"
)

// The calls by which each documented formula is compared with its function:
// the function and sample arguments, the receiver first.
var formulaCalls = []proof.Call{
	proof.Of("Bolt.ThreadShear", joint.Bolt.ThreadShear, calls(a(sample, f))),
	proof.Of("Bolt.ShankShear", joint.Bolt.ShankShear, calls(a(sample, f))),
	proof.Of("Bolt.PunchingShear", joint.Bolt.PunchingShear, calls(a(sample, 0.01, 4e8, f))),
	proof.Of("Bolt.Preload", joint.Bolt.Preload, calls(a(sample))),
	proof.Of("ShearAndTension", joint.ShearAndTension, calls(a(3e4, 6e4, 5e4, 9e4), a(0.0, 6e4, 5e4, 9e4))),
	proof.Of("SlipResistance", joint.SlipResistance, calls(a(0.85, 2.0, 0.4, 9e4, 2e4, 1.25))),
	proof.Of("TighteningTorque", joint.TighteningTorque, calls(a(0.18, 0.016, 9e4))),
	proof.Of("BlockTearing", joint.BlockTearing, calls(a(43e7, 27e7, 3e-4, 8e-4, f))),
	proof.Of("RowLength", joint.RowLength, calls(a(0.03, 0.04), a(0.03, 0.2))),
	proof.Of("FilletStrength.Shear", joint.FilletStrength.Shear, calls(a(strength))),
	proof.Of("FilletStrength.PerLength", joint.FilletStrength.PerLength, calls(a(strength, 0.004))),
	proof.Of("Throat", joint.Throat, calls(a(0.006))),
	proof.Of("EyeAhead", joint.EyeAhead, calls(a(6e4, 0.02, 355e6, 0.025, f))),
	proof.Of("EyeBeside", joint.EyeBeside, calls(a(6e4, 0.02, 355e6, 0.025, f))),
	proof.Of("BearingWidth", joint.BearingWidth, calls(a(0.02, 235e6, 8e6, f))),
	proof.Of("TubeResistance.Utilisation", joint.TubeResistance.Utilisation,
		calls(a(joint.TubeResistance{Covered: true, Axial: 9e4, Moment: 3e3, MomentPower: 2}, 2e4, 1e3))),
}

var (
	sample   = joint.Bolt{Name: "M16 8.8", Diameter: 0.016, Stressed: 157e-6, Head: 0.0247, Yield: 64e7, Tensile: 8e8, Alpha: 0.6}
	strength = joint.FilletStrength{Fu: 43e7, BetaW: 0.85, M2: 1.25}
)

func a(args ...any) []any         { return args }
func calls(args ...[]any) [][]any { return args }

func TestFormulaLines(t *testing.T) { proof.Formulas(t, formulaCalls) }
