package supply

import (
	"cmp"
	"fmt"
	"math"

	"tautline/stdlib/internal/argument"
	"tautline/stdlib/units"
)

// A conductor's size, and its greatest resistance at 20 °C in ohm/km, stranded and
// flexible.
//
// Source: IEC 60228:2004, tables 2 and 3, plain copper; from memory: verify against
// the document.
var conductors = []struct{ section, stranded, flexible float64 }{
	{1.5, 12.1, 13.3}, {2.5, 7.41, 7.98}, {4, 4.61, 4.95}, {6, 3.08, 3.30}, {10, 1.83, 1.91}, {16, 1.15, 1.21}, {25, 0.727, 0.780}, {35, 0.524, 0.554},
}

// ConductorResistance is the greatest resistance of a copper conductor at 20 °C: of
// class 2, stranded, or class 5, flexible, as leads at a fair are.
//
// The section is one of 1.5, 2.5, 4, 6, 10, 16, 25 and 35 mm²; another, or another
// class, is an error.
//
// Source: IEC 60228:2004, tables 2 and 3, from memory: verify against the document.
func ConductorResistance(section units.Area, class units.Number) (units.ResistancePerLength, error) {
	if class != 2 && class != 5 {
		return 0, fmt.Errorf("conductor: class: got %g, want 2 (stranded) or 5 (flexible)", class)
	}
	for _, c := range conductors {
		if math.Abs(section/units.Mm2-c.section) < 1e-6 {
			if class == 2 {
				return c.stranded * units.OhmPerKm, nil
			}
			return c.flexible * units.OhmPerKm, nil
		}
	}
	return 0, fmt.Errorf("conductor: section: got %.3g mm², want 1.5, 2.5, 4, 6, 10, 16, 25 or 35 mm²", section/units.Mm2)
}

// copperHeat is by how much the resistance of copper grows with each kelvin over
// 20 °C. Source: IEC 60228, from memory: verify against the document.
const copperHeat units.PerKelvin = 0.00393

// Warm is a resistance at 20 °C as it is at a temperature of the conductor.
//
//	R = cold*(1 + 0.00393*(temperature-293.15))
//
// The resistance is 0 or more, the temperature of copper from −50 to 250 °C; outside
// it panics.
//
// Source: IEC 60228, copper, from memory: verify against the document.
func Warm(cold units.ResistancePerLength, temperature units.Temperature) units.ResistancePerLength {
	argument.Demand("supply: Warm", argument.NotNegative("resistance", cold), argument.Within("temperature", temperature, units.ZeroCelsius-50, units.ZeroCelsius+250))
	return cold * (1 + copperHeat*(temperature-(units.ZeroCelsius+20)))
}

// A Cable is a lead of copper.
type Cable struct {
	Name    string
	Section units.Area   // of a line, more than 0
	Earth   units.Area   // of its protective conductor; 0 is the same as a line
	Length  units.Length // 0 or more
	Class   units.Number // 2 stranded, 5 flexible
	Phases  units.Number // 1 or 3
}

func (c Cable) check() error {
	err := cmp.Or(argument.Positive("section", c.Section), argument.NotNegative("section of the protective conductor", c.Earth), argument.NotNegative("length", c.Length))
	if err == nil && c.Phases != 1 && c.Phases != 3 {
		err = fmt.Errorf("phases: got %g, want 1 or 3", c.Phases)
	}
	if err != nil {
		return fmt.Errorf("cable %q: %w", c.Name, err)
	}
	return nil
}

// Resistivity and reactance of the formula for voltage drop.
//
// Source: IEC 60364-5-52:2009, annex G, copper in normal service: 0.0225 Ω·mm²/m,
// 0.08 mΩ/m; from memory: verify against the document.
const (
	inService = 0.0225e-6 // Ω·m
	reactance = 0.08e-3   // Ω/m
)

// Drop is the voltage lost in the cable: b·(ρ·L/S·cos φ + λ·L·sin φ)·I with b of 2 for
// one phase, of 1 to neutral for three; ρ of 0.0225 Ω·mm²/m, λ of 0.08 mΩ/m.
//
// The current is 0 or more, the power factor 0 to 1; outside it panics, as it does
// for a cable that is none. The class of the conductor is not looked at.
//
// Source: IEC 60364-5-52:2009, annex G, from memory: verify against the document.
func (c Cable) Drop(current units.Current, factor units.Number) units.Voltage {
	argument.Demand("supply: Cable.Drop", c.check(), argument.NotNegative("current", current), argument.Within("power factor", factor, 0, 1))
	b := 1.0
	if c.Phases == 1 {
		b = 2
	}
	return b * (inService*c.Length/c.Section*factor + reactance*c.Length*math.Sqrt(1-factor*factor)) * current
}

// PerAmpere is the voltage lost for each ampere and metre, at a temperature of the
// conductor and without reactance: twice the resistance of a line for one phase,
// √3 of it between the lines of three. Tables print it in mV/A/m.
//
// A section or class that the table of conductors does not have, or a number out of
// its range, is an error.
//
// Source: definition; BS 7671, appendix 4 prints such tables.
func (c Cable) PerAmpere(temperature units.Temperature) (units.ResistancePerLength, error) {
	if err := c.check(); err != nil {
		return 0, err
	}
	cold, err := ConductorResistance(c.Section, c.Class)
	if err != nil {
		return 0, fmt.Errorf("cable %q: %w", c.Name, err)
	}
	if c.Phases == 1 {
		return 2 * Warm(cold, temperature), nil
	}
	return math.Sqrt(3) * Warm(cold, temperature), nil
}

// TableDrop is the voltage lost by a table of mV/A/m.
//
//	U = perMetre*current*length
//
// All are 0 or more; outside it panics.
//
// Source: BS 7671, appendix 4, section 6, from memory: verify against the document.
func TableDrop(perMetre units.ResistancePerLength, current units.Current, length units.Length) units.Voltage {
	argument.Demand("supply: TableDrop", argument.NotNegative("value of the table", perMetre), argument.NotNegative("current", current), argument.NotNegative("length", length))
	return perMetre * current * length
}

// CoolerFactor is what the values of a table of mV/A/m are multiplied by when the
// cable carries less than it may and stays cooler.
//
//	C = (230 + tp - (ca*ca*cg*cg-current*current/(tabulated*tabulated))*(tp-30))/(230 + tp)
//
// tp is the greatest temperature of the conductor in °C as a number, 30 to 250; ca
// and cg are the factors for hot surroundings and for cables side by side, more
// than 0 to 2; the current is 0 or more, the tabulated rating more than 0; outside it
// panics.
//
// Source: BS 7671, appendix 4, 6.1, from memory: verify against the document.
func CoolerFactor(tp, ca, cg units.Number, current, tabulated units.Current) units.Number {
	argument.Demand("supply: CoolerFactor", argument.Within("greatest temperature", tp, 30, 250), argument.Within("factor for hot surroundings", ca, 1e-9, 2),
		argument.Within("factor for cables side by side", cg, 1e-9, 2), argument.NotNegative("current", current), argument.Positive("tabulated rating", tabulated))
	share := current / tabulated
	return (230 + tp - (ca*ca*cg*cg-share*share)*(tp-30)) / (230 + tp)
}

// Loop is the resistance of the cable to the far end and back through its protective
// conductor, at a temperature of both.
//
// A section or class that the table of conductors does not have, or a number out of
// its range, is an error.
//
// Source: definition.
func (c Cable) Loop(temperature units.Temperature) (units.Resistance, error) {
	if err := c.check(); err != nil {
		return 0, err
	}
	sum := 0.0
	for _, section := range []float64{c.Section, cmp.Or(c.Earth, c.Section)} {
		cold, err := ConductorResistance(section, c.Class)
		if err != nil {
			return 0, fmt.Errorf("cable %q: %w", c.Name, err)
		}
		sum += Warm(cold, temperature) * c.Length
	}
	return sum, nil
}
