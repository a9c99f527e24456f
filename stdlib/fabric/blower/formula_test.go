package blower_test

import (
	"testing"

	"tautline/stdlib/fabric/blower"
	"tautline/stdlib/internal/proof"
)

// The calls by which each documented formula is compared with its function:
// the function and sample arguments, the receiver first.
var formulaCalls = []proof.Call{
	proof.Of("AirDensity", blower.AirDensity, calls(a(101325.0, 288.15))),
	proof.Of("StandardPressure", blower.StandardPressure, calls(a(1500.0), a(-200.0))),
	proof.Of("Orifice.FlowAt", blower.Orifice.FlowAt, calls(a(orifice, 1000.0))),
	proof.Of("Orifice.PressureLossTime", blower.Orifice.PressureLossTime, calls(a(orifice, 50.0, 1000.0, 300.0, 101325.0))),
	proof.Of("Orifice.EmptyTime", blower.Orifice.EmptyTime, calls(a(orifice, 50.0, 6.4))),
	proof.Of("WeightPressure", blower.WeightPressure, calls(a(0.65))),
	proof.Of("StandingPatch", blower.StandingPatch, calls(a(85.0, 1500.0))),
	proof.Of("ClothLeak.FlowAt", blower.ClothLeak.FlowAt, calls(a(blower.ClothLeak{Speed: 1e-3, At: 100, Exponent: 0.9, Area: 40}, 1500.0))),
	proof.Of("Duct.Speed", blower.Duct.Speed, calls(a(blower.Duct{Diameter: 0.25, Length: 4, Roughness: 1e-3}, 0.4))),
	proof.Of("AirViscosity", blower.AirViscosity, calls(a(288.15, 1.2))),
	proof.Of("SeamLeak.FlowAt", blower.SeamLeak.FlowAt, calls(a(blower.SeamLeak{Flow: 0.2, At: 50, Exponent: 0.65}, 1000.0))),
	proof.Of("Point.AirPower", blower.Point.AirPower, calls(a(point))),
	proof.Of("Point.ShaftPower", blower.Point.ShaftPower, calls(a(point, 0.45))),
	proof.Of("Point.TemperatureRise", blower.Point.TemperatureRise, calls(a(point, 1.2, 0.45))),
}

var (
	orifice = blower.Orifice{Discharge: 0.61, Area: 0.001, Density: 1.2}
	point   = blower.Point{Flow: 0.37, Pressure: 1500}
)

func a(args ...any) []any         { return args }
func calls(args ...[]any) [][]any { return args }

func TestFormulaLines(t *testing.T) { proof.Formulas(t, formulaCalls) }
