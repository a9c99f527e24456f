package textile_test

import (
	"testing"

	"tautline/stdlib/fabric/textile"
	"tautline/stdlib/internal/proof"
)

// The calls by which each documented formula is compared with its function:
// the function and sample arguments, the receiver first.
var formulaCalls = []proof.Call{
	proof.Of("Seam.Strength", textile.Seam.Strength, calls(a(seam))),
	proof.Of("Seam.Efficiency", textile.Seam.Efficiency, calls(a(seam, 37e3), a(seam, 20e3))),
	proof.Of("StripStrength", textile.StripStrength, calls(a(1850.0, 0.05))),
	proof.Of("Stiffness.WarpStrain", textile.Stiffness.WarpStrain, calls(a(stiffness, 2500.0, 5000.0))),
	proof.Of("Stiffness.WeftStrain", textile.Stiffness.WeftStrain, calls(a(stiffness, 2500.0, 5000.0))),
	proof.Of("Cloth.Strip", textile.Cloth.Strip, calls(a(textile.HarbourCloth()))),
	proof.Of("Joint.Efficiency", textile.Joint.Efficiency, calls(a(textile.Joint{Strength: 20e3}, 37e3), a(textile.Joint{Strength: 50e3}, 37e3))),
	proof.Of("Factors.Product", textile.Factors.Product, calls(a(textile.TensileStructurePractice()))),
	proof.Of("Factors.Allowable", textile.Factors.Allowable, calls(a(textile.TensileStructurePractice(), 30e3))),
	proof.Of("Patch.Strength", textile.Patch.Strength, calls(a(patch, 0.0), a(patch, 0.7))),
	proof.Of("Patch.LineForce", textile.Patch.LineForce, calls(a(patch, 1600.0))),
	proof.Of("Allowable", textile.Allowable, calls(a(37e3, 0.6, 5.0))),
}

var (
	stiffness = textile.Stiffness{Warp: 420e3, Weft: 300e3, Poisson: 0.2}
	patch     = textile.Patch{Width: 0.1, Length: 0.15, Bond: 4e5, Peel: 2e3, Spread: 0.5}
)

var seam = textile.Seam{Rows: 2, Thread: 88, Pitch: 0.005, Loss: 0.1}

func a(args ...any) []any         { return args }
func calls(args ...[]any) [][]any { return args }

func TestFormulaLines(t *testing.T) { proof.Formulas(t, formulaCalls) }
