package blower

import (
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
	argument.Demand("blower: AirDensity", argument.Positive("absolute pressure", absolute), argument.Positive("temperature", temperature))
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
	argument.Demand("blower: StandardPressure", argument.Within("height", height, -1000, 11000))
	return 101325 * math.Pow(1-2.25577e-5*height, 5.25588)
}
