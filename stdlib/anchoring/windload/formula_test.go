package windload_test

import (
	"testing"

	"tautline/stdlib/anchoring/windload"
	"tautline/stdlib/internal/proof"
)

// The calls by which each documented formula is compared with its function:
// the function and sample arguments, the receiver first.
var formulaCalls = []proof.Call{
	proof.Of("Terrain.Factor", windload.Terrain.Factor, calls(a(town))),
	proof.Of("Terrain.MeanFactor", windload.Terrain.MeanFactor, calls(a(town, 3.0), a(town, 30.0))),
	proof.Of("Terrain.MeanSpeed", windload.Terrain.MeanSpeed, calls(a(town, 24.0, 3.0, 1.0), a(town, 24.0, 30.0, 1.2))),
	proof.Of("Terrain.Turbulence", windload.Terrain.Turbulence, calls(a(town, 3.0, 1.0), a(town, 30.0, 1.2))),
	proof.Of("Terrain.GustFactor", windload.Terrain.GustFactor, calls(a(town, 3.0), a(town, 30.0))),
	proof.Of("BasicSpeed", windload.BasicSpeed, calls(a(26.0, 0.9, 1.0, 0.85))),
	proof.Of("ProbabilityFactor", windload.ProbabilityFactor, calls(a(0.2, 0.2, 0.5), a(0.01, 0.1, 1.0))),
	proof.Of("ReturnPeriod.Probability", windload.ReturnPeriod.Probability, calls(a(windload.ReturnPeriod{Years: 5}))),
	proof.Of("Exposure.Coefficient", windload.Exposure.Coefficient, calls(a(open, 3.0), a(open, 30.0))),
	proof.Of("VelocityPressure", windload.VelocityPressure, calls(a(0.85, 1.1, 0.85, 0.95, 50.0))),
	proof.Of("Person.Force", windload.Person.Force, calls(a(windload.StandingPerson(), 76.0))),
	proof.Of("Person.Moment", windload.Person.Moment, calls(a(windload.SittingPerson(), 76.0, 0.4))),
	proof.Of("Load.Push", windload.Load.Push, calls(a(windload.Load{East: 3, North: -4}))),
}

var (
	town = windload.Terrain{Roughness: 0.3, Least: 5}
	open = windload.Exposure{Exponent: 9.5, Gradient: 274.32}
)

func a(args ...any) []any         { return args }
func calls(args ...[]any) [][]any { return args }

func TestFormulaLines(t *testing.T) { proof.Formulas(t, formulaCalls) }
