package fabric

import (
	"cmp"
	"fmt"
	"math"

	"tautline/stdlib/internal/argument"
	"tautline/stdlib/units"
)

// AirDensity is the density of dry air.
//
//	rho = absolute/(287.05*temperature)
//
// The absolute pressure and the absolute temperature are more than 0; outside
// it panics. The constant is the gas constant of dry air, 287.05 J/(kg·K).
// Wind loads from a standard keep the standard's own density.
//
// Source: ideal gas law.
func AirDensity(absolute units.Pressure, temperature units.Temperature) units.Density {
	argument.Demand("fabric: AirDensity", argument.Positive("absolute pressure", absolute), argument.Positive("temperature", temperature))
	return absolute / (287.05 * temperature)
}

// StandardPressure is the absolute pressure of the standard atmosphere at a
// height above sea level.
//
//	p = 101325*pow(1 - 2.25577e-5*height, 5.25588)
//
// The height is from -1000 m to 11000 m; outside it panics.
//
// Source: ISO 2533, International Standard Atmosphere, troposphere.
func StandardPressure(height units.Length) units.Pressure {
	argument.Demand("fabric: StandardPressure", argument.Within("height", height, -1000, 11000))
	return 101325 * math.Pow(1-2.25577e-5*height, 5.25588)
}

// A SealedTube is an airtight tube with its valve closed, stiff enough that its
// volume stays the same. Its pressure goes with the weather.
type SealedTube struct {
	Fill        units.Pressure    // gauge pressure when it was closed, 0 or more
	Temperature units.Temperature // absolute temperature of its air then, more than 0
	Ambient     units.Pressure    // absolute pressure outside then, more than 0
}

// PressureAt is the gauge pressure of the tube at another temperature and
// outside pressure.
//
//	p = (s.Fill + s.Ambient)*temperature/s.Temperature - ambient
//
// The absolute temperature of the air in the tube and the absolute pressure
// outside are more than 0. It is an error if the tube goes slack or a number is
// out of its range.
//
// Source: ideal gas law at constant volume.
func (s SealedTube) PressureAt(temperature units.Temperature, ambient units.Pressure) (units.Pressure, error) {
	err := cmp.Or(
		argument.NotNegative("fill pressure", s.Fill), argument.Positive("temperature at filling", s.Temperature),
		argument.Positive("ambient pressure at filling", s.Ambient),
		argument.Positive("temperature", temperature), argument.Positive("ambient pressure", ambient))
	if err != nil {
		return 0, fmt.Errorf("sealed tube: %w", err)
	}
	p := (s.Fill+s.Ambient)*temperature/s.Temperature - ambient
	if p < 0 {
		return 0, fmt.Errorf("sealed tube: gauge pressure: got %g Pa, want 0 or more: the tube goes slack; fill it harder", p)
	}
	return p, nil
}
