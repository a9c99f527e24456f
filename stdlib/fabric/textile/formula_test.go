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
	proof.Of("Allowable", textile.Allowable, calls(a(37e3, 0.6, 5.0))),
}

var seam = textile.Seam{Rows: 2, Thread: 88, Pitch: 0.005, Loss: 0.1}

func a(args ...any) []any         { return args }
func calls(args ...[]any) [][]any { return args }

func TestFormulaLines(t *testing.T) { proof.Formulas(t, formulaCalls) }
