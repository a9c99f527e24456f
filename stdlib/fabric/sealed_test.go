package fabric_test

import (
	"math"
	"testing"

	"tautline/stdlib/fabric"
	"tautline/stdlib/internal/proof"
	"tautline/stdlib/units"
)

// Ideal gas law on absolute pressure and temperature, worked by hand to a
// pascal.
func TestSealedTube(t *testing.T) {
	tube := fabric.SealedTube{Fill: 20e3, Temperature: 20 + units.ZeroCelsius, Ambient: 101325}
	for _, c := range []struct{ celsius, ambient, want float64 }{
		{50, 101325, 32416}, {0, 101325, 11723}, {-5, 101325, 9653}, {20, 84556, 36769},
	} {
		got := proof.Must(tube.PressureAt(c.celsius+units.ZeroCelsius, c.ambient))(t)
		if math.Abs(got-c.want) > 1 {
			t.Errorf("at %g °C and %g Pa: got %g Pa, want %g Pa within 1 Pa", c.celsius, c.ambient, got, c.want)
		}
	}
	_, err := tube.PressureAt(220, 101325)
	proof.Fails(t, "very cold tube", err, "goes slack")
	_, err = tube.PressureAt(-5, 101325)
	proof.Fails(t, "temperature in °C", err, "temperature: got -5, want more than 0")
}
