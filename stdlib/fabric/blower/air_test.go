package blower_test

import (
	"testing"

	"tautline/stdlib/fabric/blower"
	"tautline/stdlib/internal/proof"
	"tautline/stdlib/units"
)

// Ideal gas law and ISO 2533; values computed apart from this code.
func TestAirDensity(t *testing.T) {
	proof.Near(t, "standard air", blower.AirDensity(101325, 15+units.ZeroCelsius), 1.225012, 1e-5)
	proof.Near(t, "hot and high", blower.AirDensity(84556, 35+units.ZeroCelsius), 0.955927, 1e-5)
	proof.Near(t, "cold high", blower.AirDensity(102000, -5+units.ZeroCelsius), 1.325149, 1e-5)
	proof.Near(t, "standard pressure at 1500 m", blower.StandardPressure(1500), 84556, 1e-5)
	proof.Near(t, "standard pressure at 0 m", blower.StandardPressure(0), 101325, 0)
}
