package landing_test

import (
	"testing"

	"tautline/stdlib/fabric/landing"
	"tautline/stdlib/internal/proof"
)

// The calls by which each documented formula is compared with its function:
// the function and sample arguments, the receiver first.
var formulaCalls = []proof.Call{
	proof.Of("FallSpeed", landing.FallSpeed, calls(a(1.5))),
	proof.Of("FallHeight", landing.FallHeight, calls(a(5.0))),
	proof.Of("Throw.Reach", landing.Throw.Reach, calls(a(throw))),
	proof.Of("Throw.Angle", landing.Throw.Angle, calls(a(throw))),
	proof.Of("Throw.ImpactSpeed", landing.Throw.ImpactSpeed, calls(a(throw))),
	proof.Of("SpringFelt", landing.SpringFelt, calls(a(1.5, 0.1))),
	proof.Of("OpenBed.Pressure", landing.OpenBed.Pressure, calls(a(open, 5.0))),
	proof.Of("OpenBed.SinkSpeed", landing.OpenBed.SinkSpeed, calls(a(open, 80.0))),
}

var (
	throw = landing.Throw{Speed: 3, Height: 1.2}
	open  = landing.OpenBed{Area: 0.8, Vent: 0.05, Density: 1.2}
)

func a(args ...any) []any         { return args }
func calls(args ...[]any) [][]any { return args }

func TestFormulaLines(t *testing.T) { proof.Formulas(t, formulaCalls) }
