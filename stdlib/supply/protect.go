package supply

import (
	"cmp"
	"fmt"
	"math"

	"tautline/stdlib/internal/argument"
	"tautline/stdlib/units"
)

// A Breaker cuts off too much current.
type Breaker struct {
	Rated units.Current // more than 0
	Curve string        // of its magnetic trip: "B", "C" or "D"
}

// times is the greatest current at which the magnetic trip acts, over the rated.
func (b Breaker) times() float64 { return map[string]float64{"B": 5, "C": 10, "D": 20}[b.Curve] }

func (b Breaker) check() error {
	err := argument.Positive("rated current", b.Rated)
	if err == nil && b.times() == 0 {
		err = fmt.Errorf(`curve: got %q, want "B", "C" or "D"`, b.Curve)
	}
	return err
}

// Trip is the current at which the breaker trips at once: 5, 10 or 20 times the
// rated current for the curves B, C and D.
//
// It panics when a field is out of its range.
//
// Source: IEC 60898-1, upper ends of the ranges, from memory: verify against the
// document.
func (b Breaker) Trip() units.Current {
	argument.Demand("supply: Breaker.Trip", b.check())
	return b.times() * b.Rated
}

// Runs says whether the breaker stays closed when a load starts: its starting
// current lies under the lower end of the magnetic trip, 3, 5 or 10 times the rated
// current.
//
// The starting current is 0 or more; outside it panics.
//
// Source: IEC 60898-1, lower ends of the ranges, from memory: verify against the
// document.
func (b Breaker) Runs(starting units.Current) bool {
	argument.Demand("supply: Breaker.Runs", b.check(), argument.NotNegative("starting current", starting))
	return starting < map[string]float64{"B": 3, "C": 5, "D": 10}[b.Curve]*b.Rated
}

// MostLoop is the greatest impedance of the loop of a fault at which the breaker
// still trips at once: 0.95 of the voltage to neutral over the trip.
//
// The voltage is more than 0; outside it panics.
//
// Source: IEC 60364-4-41, 411.4.4, with the factor of 0.95 of BS 7671, from memory:
// verify against the documents.
func (b Breaker) MostLoop(toNeutral units.Voltage) units.Resistance {
	argument.Demand("supply: Breaker.MostLoop", b.check(), argument.Positive("voltage", toNeutral))
	return 0.95 * toNeutral / b.Trip()
}

// An Overload is a breaker between a load and a cable.
type Overload struct {
	Carries  bool // the load's current is no more than the breaker's
	Guards   bool // the breaker's current is no more than the cable may carry
	Warnings []string
}

// Between judges the breaker between a load's current and what its cable may carry
// as it lies: the load no more than the breaker, the breaker no more than the
// cable. A breaker that trips for sure at 1.45 of its rated current then guards the
// cable against overload as well.
//
// The load's current is 0 or more, the cable's more than 0; outside it panics.
//
// Source: IEC 60364-4-43, 433.1, from memory: verify against the document.
func (b Breaker) Between(load, cable units.Current) Overload {
	argument.Demand("supply: Breaker.Between", b.check(), argument.NotNegative("current of the load", load), argument.Positive("current of the cable", cable))
	o := Overload{Carries: load <= b.Rated*(1+1e-9), Guards: b.Rated <= cable*(1+1e-9)}
	if !o.Carries {
		o.Warnings = append(o.Warnings, fmt.Sprintf("the load draws %.3g A, more than the breaker's %.3g A: it trips while people ride", load, b.Rated))
	}
	if !o.Guards {
		o.Warnings = append(o.Warnings, fmt.Sprintf("the breaker lets %.3g A through a cable that carries %.3g A: it burns", b.Rated, cable))
	}
	return o
}

// AdiabaticSection is the least section of a conductor that a short circuit does not
// overheat in a time: √(I²·t)/k.
//
// The insulation is "PVC" (k of 115 A·√s/mm²), "rubber" (141, 60 °C) or "XLPE" (143);
// the current is 0 or more, the time more than 0 to 5 s; outside is an error.
//
// Source: IEC 60364-4-43, 434.5.2 and table 43A, copper, from memory: verify against
// the document.
func AdiabaticSection(current units.Current, time units.Time, insulation string) (units.Area, error) {
	k := map[string]float64{"PVC": 115, "rubber": 141, "XLPE": 143}[insulation]
	err := cmp.Or(argument.NotNegative("current", current), argument.Within("time", time, 1e-9, 5*units.S))
	if err == nil && k == 0 {
		err = fmt.Errorf(`insulation: got %q, want "PVC", "rubber" or "XLPE"`, insulation)
	}
	if err != nil {
		return 0, fmt.Errorf("section for a short circuit: %w", err)
	}
	return current * math.Sqrt(time) / k * units.Mm2, nil
}

// A Residual is a residual-current device.
type Residual struct {
	Rated units.Current // residual current at which it trips for sure, more than 0
}

// An EarthFault is what a residual-current device does for who touches a faulty
// part.
type EarthFault struct {
	Earth    units.Resistance // the earth electrode may have at most
	Touch    units.Voltage    // on the faulty part when it trips, with the electrode as it is
	Leaks    units.Number     // standing leakage over what may stand, 0.3 of the rated
	Type     string           // of device: "A", "F" or "B"
	Notes    []string         // for the crew
	Warnings []string
}

// Judge says what the device does with an earth electrode, the standing leakage of
// all that hangs on it, and the electronics behind it: "none", "one phase" for
// drives fed by one phase, "three phases" for drives fed by three, whose faults may
// be direct current that blinds a device of type A or F.
//
// The electrode has 0 or more, the leakage is 0 or more; outside, or other
// electronics, is an error. A touch voltage above 50 V, leakage above 0.3 of the
// rated current, and more than 30 mA carry warnings.
//
// Caution: 30 mA save most people, not all, and only while the device works: press
// its button before every session, and have an electrician measure it. It does not
// help between two lines.
//
// Source: IEC 60364-4-41, 411.3.3 and 411.5.3; IEC 60364-5-53, 531.3; IEC
// 60364-7-740 on fairgrounds; from memory: verify against the documents.
func (r Residual) Judge(electrode units.Resistance, leakage units.Current, electronics string) (EarthFault, error) {
	types := map[string]string{"none": "A", "one phase": "F", "three phases": "B"}
	err := cmp.Or(argument.Positive("rated residual current", r.Rated), argument.NotNegative("electrode", electrode), argument.NotNegative("leakage", leakage))
	if err == nil && types[electronics] == "" {
		err = fmt.Errorf(`electronics: got %q, want "none", "one phase" or "three phases"`, electronics)
	}
	if err != nil {
		return EarthFault{}, fmt.Errorf("residual-current device: %w", err)
	}
	f := EarthFault{Earth: 50 * units.V / r.Rated, Touch: electrode * r.Rated, Leaks: leakage / (0.3 * r.Rated), Type: types[electronics]}
	f.Notes = []string{
		fmt.Sprintf("device of type %s, %.0f mA, in front of everything that people touch", f.Type, r.Rated/units.MA),
		"press its button before every session: it must trip; set it again, and if it does not stay, nobody plugs round it",
		"sockets and plugs off the ground, leads whole, no joints in the grass, out of the way of feet and wheels",
		"frame, skiff, blowers and generator on one protective conductor",
	}
	if r.Rated > 30*units.MA*(1+1e-9) {
		f.Warnings = append(f.Warnings, fmt.Sprintf("%.0f mA do not save a person who touches a line: sockets and hand-held things need 30 mA", r.Rated/units.MA))
	}
	if f.Touch > 50*units.V*(1+1e-9) {
		f.Warnings = append(f.Warnings, fmt.Sprintf("an electrode of %.0f ohm leaves %.0f V on a faulty part, more than 50 V: drive a longer one", electrode, f.Touch))
	}
	if f.Leaks > 1+1e-9 {
		f.Warnings = append(f.Warnings, fmt.Sprintf("%.1f mA of standing leakage are more than 0.3 of the %.0f mA: it will trip for nothing; give drives a device of their own", leakage/units.MA, r.Rated/units.MA))
	}
	return f, nil
}
