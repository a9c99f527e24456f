package fabric

import (
	"cmp"
	"fmt"

	"tautline/stdlib/internal/argument"
	"tautline/stdlib/units"
)

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
