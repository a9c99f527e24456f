package holding_test

import (
	"testing"

	"tautline/stdlib/anchoring/holding"
	"tautline/stdlib/internal/proof"
)

// The calls by which each documented formula is compared with its function:
// the function and sample arguments, the receiver first.
var formulaCalls = []proof.Call{
	proof.Of("Soil.Passive", holding.Soil.Passive, calls(a(holding.Soil{Weight: 18e3, Friction: 0.5}))),
	proof.Of("BromsClayShort", holding.BromsClayShort, calls(a(50e3, 0.016, 0.38, 0.0), a(50e3, 0.025, 0.9, 0.05))),
	proof.Of("BromsClayLong", holding.BromsClayLong, calls(a(50e3, 0.016, 0.0, 160.0), a(50e3, 0.025, 0.05, 600.0))),
	proof.Of("BromsSandShort", holding.BromsSandShort, calls(a(18e3, 3.4, 0.016, 0.38, 0.05))),
	proof.Of("BromsClayMoment", holding.BromsClayMoment, calls(a(50e3, 0.016, 0.05, 900.0))),
	proof.Of("BromsSandMoment", holding.BromsSandMoment, calls(a(18e3, 3.4, 0.016, 0.05, 900.0))),
	proof.Of("ClaySkin", holding.ClaySkin, calls(a(0.5, 50e3, 0.016, 0.38))),
	proof.Of("SandSkin", holding.SandSkin, calls(a(18e3, 0.55, 0.016, 0.38))),
	proof.Of("Inclined", holding.Inclined, calls(a(900.0, 500.0, 0.7), a(900.0, 500.0, 0.0))),
	proof.Of("Stake.PlasticMoment", holding.Stake.PlasticMoment, calls(a(holding.Stake{Length: 1, Diameter: 0.025, Yield: 235e6}))),
	proof.Of("Screw.Breakout", holding.Screw.Breakout, calls(a(shallow), a(screw))),
	proof.Of("Screw.NetArea", holding.Screw.NetArea, calls(a(screw))),
	proof.Of("TorqueHolding", holding.TorqueHolding, calls(a(33.0, 500.0))),
	proof.Of("PlateUplift", holding.PlateUplift, calls(a(16e3, 0.8, 0.5))),
	proof.Of("PlatePull", holding.PlatePull, calls(a(16e3, 3.0, 0.8, 1.2))),
	proof.Of("Ballast.SlipTension", holding.Ballast.SlipTension, calls(a(holding.Ballast{Mass: 490, Friction: 0.4, Slope: 0.05}, 0.7),
		a(holding.Ballast{Mass: 490, Friction: 0.04, Slope: 0.05}, 0.7))),
	proof.Of("FrictionFromDrag", holding.FrictionFromDrag, calls(a(640.0, 163.0))),
	proof.Of("WheelFriction", holding.WheelFriction, calls(a(0.6, 0.5))),
	proof.Of("WaterBallast.MassAfter", holding.WaterBallast.MassAfter, calls(a(tank, 3600.0), a(tank, 1e9))),
	proof.Of("Strap.Allowable", holding.Strap.Allowable, calls(a(strap))),
	proof.Of("Strap.Rigidity", holding.Strap.Rigidity, calls(a(strap))),
	proof.Of("Strap.Stiffness", holding.Strap.Stiffness, calls(a(strap))),
	proof.Of("TieDowns", holding.TieDowns, calls(a(0.8, 1.0, 0.45, 1000.0, 1.25, 1.0, 4000.0), a(0.3, 1.0, 0.45, 1000.0, 1.25, 1.0, 4000.0))),
}

var (
	screw   = holding.Screw{Helix: 0.15, Shaft: 0.038, Depth: 1.5}
	shallow = holding.Screw{Helix: 0.15, Shaft: 0.038, Depth: 0.3}
	tank    = holding.WaterBallast{Tank: 40, Volume: 0.9, Density: 998, Loss: 1e-6}
	strap   = holding.Strap{Limit: 25e3, Reduction: 0.8, Elongation: 0.07, Length: 2.5}
)

func a(args ...any) []any         { return args }
func calls(args ...[]any) [][]any { return args }

func TestFormulaLines(t *testing.T) { proof.Formulas(t, formulaCalls) }
