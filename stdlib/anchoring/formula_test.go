package anchoring_test

import (
	"testing"

	"tautline/stdlib/anchoring"
	"tautline/stdlib/internal/proof"
)

// The calls by which each documented formula is compared with its function:
// the function and sample arguments, the receiver first.
var formulaCalls = []proof.Call{
	proof.Of("Wind.Pressure", anchoring.Wind.Pressure, calls(a(wind))),
	proof.Of("Wind.FacePressure", anchoring.Wind.FacePressure, calls(a(wind))),
	proof.Of("Wind.Force", anchoring.Wind.Force, calls(a(wind, 15.0))),
	proof.Of("WindPressure", anchoring.WindPressure, calls(a(1.25, 24.0))),
	proof.Of("WindAtHeight", anchoring.WindAtHeight, calls(a(6.0, 2.0, 10.0, 0.03), a(6.0, 10.0, 2.0, 0.3))),
	proof.Of("WindAtHeightByPower", anchoring.WindAtHeightByPower, calls(a(6.0, 2.0, 10.0, 0.14))),
	proof.Of("TurbulenceIntensity", anchoring.TurbulenceIntensity, calls(a(10.0, 0.05))),
	proof.Of("GustRatio", anchoring.GustRatio, calls(a(0.19))),
	proof.Of("BeaufortSpeed", anchoring.BeaufortSpeed, calls(a(5.0))),
	proof.Of("AnchorsPerFace", anchoring.AnchorsPerFace, calls(a(1804.7, 1.5, 1600.0), a(3200.0, 1.0, 1600.0))),
	proof.Of("AnchorsInAll", anchoring.AnchorsInAll, calls(a(2.0, 3.0, 6.0), a(1.0, 1.0, 6.0))),
	proof.Of("BallastWeight", anchoring.BallastWeight, straps(1600.0)),
	proof.Of("BallastMass", anchoring.BallastMass, straps(1600.0)),
	proof.Of("SlipTension", anchoring.SlipTension, straps(1598.0)),
	proof.Of("LiftTension", anchoring.LiftTension, calls(a(1598.0, 0.6))),
	proof.Of("WorstStrapAngle", anchoring.WorstStrapAngle, calls(a(0.4))),
	proof.Of("Block.Face", anchoring.Block.Face, calls(a(block))),
	proof.Of("Block.OverturningMoment", anchoring.Block.OverturningMoment, calls(a(block, 1700.0, factors))),
	proof.Of("Block.RightingMoment", anchoring.Block.RightingMoment, calls(a(block, factors))),
	proof.Of("Block.SlidingForce", anchoring.Block.SlidingForce, calls(a(block, 1700.0, factors))),
	proof.Of("Block.FrictionForce", anchoring.Block.FrictionForce, calls(a(block, 0.4, factors))),
	proof.Of("Block.OverturningTension", anchoring.Block.OverturningTension,
		calls(a(block, 1700.0, 0.7, factors), a(block, 100.0, 0.7, factors))),
	proof.Of("Block.SlidingTension", anchoring.Block.SlidingTension,
		calls(a(block, 1700.0, 0.3, 0.7, factors), a(block, 100.0, 0.3, 0.7, factors))),
	proof.Of("SlopeAngle", anchoring.SlopeAngle, calls(a(0.05), a(-0.1))),
	proof.Of("Point.Distance", anchoring.Point.Distance, calls(a(anchoring.Point{X: 3, Y: -4, Z: 7}))),
	proof.Of("BridleLeg", anchoring.BridleLeg, calls(a(1000.0, 0.3, 0.9))),
}

var (
	wind    = anchoring.Wind{Density: 1.24, Speed: 11.1, Coefficient: 1.5}
	block   = anchoring.Block{Width: 5, Height: 3, Depth: 4, Mass: 150}
	factors = anchoring.EquilibriumFactors()
)

func straps(force float64) [][]any {
	return calls(a(force, 0.0, 0.4), a(force, 0.7, 0.4), a(force, 1.5, 0.2))
}

func a(args ...any) []any         { return args }
func calls(args ...[]any) [][]any { return args }

func TestFormulaLines(t *testing.T) { proof.Formulas(t, formulaCalls) }
