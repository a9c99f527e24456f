package shaft_test

import (
	"testing"

	"tautline/stdlib/internal/proof"
	"tautline/stdlib/structure/shaft"
)

// The calls by which each documented formula is compared with its function:
// the function and sample arguments, the receiver first.
var formulaCalls = []proof.Call{
	proof.Of("Round.SecondMoment", shaft.Round.SecondMoment, calls(a(tube))),
	proof.Of("Round.Modulus", shaft.Round.Modulus, calls(a(tube))),
	proof.Of("Round.BendingStress", shaft.Round.BendingStress, calls(a(tube, 400.0))),
	proof.Of("Round.TorsionStress", shaft.Round.TorsionStress, calls(a(tube, 300.0))),
	proof.Of("Round.Twist", shaft.Round.Twist, calls(a(tube, 300.0, 0.7, 81e9))),
	proof.Of("VonMises", shaft.VonMises, calls(a(6e7, 2e7))),
	proof.Of("Tresca", shaft.Tresca, calls(a(6e7, 2e7))),
	proof.Of("EquivalentMoment", shaft.EquivalentMoment, calls(a(400.0, 300.0))),
	proof.Of("DiameterFor", shaft.DiameterFor, calls(a(400.0, 300.0, 1e8))),
	proof.Of("NotchFactor", shaft.NotchFactor, calls(a(1.7, 0.85))),
	proof.Of("KeyForce", shaft.KeyForce, calls(a(300.0, 0.04))),
	proof.Of("KeyShear", shaft.KeyShear, calls(a(300.0, 0.04, 0.012, 0.04))),
	proof.Of("KeyBearing", shaft.KeyBearing, calls(a(300.0, 0.04, 0.008, 0.04))),
	proof.Of("KeywayFactor", shaft.KeywayFactor, calls(a(0.04, 0.012, 0.005))),
	proof.Of("BearingLife", shaft.BearingLife, calls(a(25e3, 4e3, 3.0))),
	proof.Of("BearingRating", shaft.BearingRating, calls(a(4e3, 2e8, 3.0))),
	proof.Of("BearingHours", shaft.BearingHours, calls(a(2e8, 12.0))),
	proof.Of("EquivalentBearingLoad", shaft.EquivalentBearingLoad, calls(a(4e3, 1e3, 0.56, 1.6), a(4e3, 3e3, 0.56, 1.6))),
	proof.Of("OscillationTurns", shaft.OscillationTurns, calls(a(0.5))),
	proof.Of("ContactModulus", shaft.ContactModulus, calls(a(21e10, 0.3, 7e10, 0.33))),
	proof.Of("ContactRadius", shaft.ContactRadius, calls(a(0.02, 0.05), a(0.02, -0.05))),
	proof.Of("LineHalfWidth", shaft.LineHalfWidth, calls(a(3e3, 0.05, 0.02, 1.15e11))),
	proof.Of("LinePressure", shaft.LinePressure, calls(a(3e3, 0.05, 0.02, 1.15e11))),
	proof.Of("BallRadius", shaft.BallRadius, calls(a(2e3, 0.01, 1.15e11))),
	proof.Of("BallPressure", shaft.BallPressure, calls(a(2e3, 0.01, 1.15e11))),
	proof.Of("CapstanRatio", shaft.CapstanRatio, calls(a(0.3, 2.8))),
	proof.Of("GrooveFriction", shaft.GrooveFriction, calls(a(0.3, 0.66))),
	proof.Of("SmallWrap", shaft.SmallWrap, calls(a(0.3, 0.1, 0.5))),
	proof.Of("OpenBeltLength", shaft.OpenBeltLength, calls(a(0.3, 0.1, 0.5))),
	proof.Of("TightSide", shaft.TightSide, calls(a(20.0, 0.05, 2.3, 0.1, 8.0))),
	proof.Of("ChainRipple", shaft.ChainRipple, calls(a(17.0))),
	proof.Of("ChainLinks", shaft.ChainLinks, calls(a(51.0, 17.0, 40.0))),
	proof.Of("ToothBending", shaft.ToothBending, calls(a(1e3, 1.5, 0.03, 0.003, 0.3))),
	proof.Of("ToothContact", shaft.ToothContact, calls(a(1e3, 1.5, 0.03, 0.05, 0.15, 0.35, 1.15e11))),
	proof.Of("BallScrewTorque", shaft.BallScrewTorque, calls(a(5e3, 0.01, 0.9))),
	proof.Of("BallScrewHolding", shaft.BallScrewHolding, calls(a(5e3, 0.01, 0.9))),
}

var tube = shaft.Round{Diameter: 0.06, Bore: 0.05}

func a(args ...any) []any         { return args }
func calls(args ...[]any) [][]any { return args }

func TestFormulaLines(t *testing.T) { proof.Formulas(t, formulaCalls) }
