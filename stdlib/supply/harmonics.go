package supply

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"tautline/stdlib/internal/argument"
	"tautline/stdlib/units"
)

// A Spectrum is what harmonics a load draws.
type Spectrum struct {
	Order []units.Number // whole numbers of 2 or more
	Share []units.Number // of the fundamental current, 0 or more, one for each order
}

// RectifierSpectrum is the spectrum of a rectifier of one phase with a capacitor
// behind it, as at the entrance of a small drive, at full load: without a choke
// ("none") or with one in front ("choke"). Anything else is an error. At part load the
// shares are greater, the currents less.
//
// Source: common practice, no source; the drive's data sheet comes before it.
func RectifierSpectrum(before string) (Spectrum, error) {
	shares := map[string][]float64{"none": {0.81, 0.60, 0.37, 0.16, 0.06, 0.05, 0.05}, "choke": {0.65, 0.28, 0.09, 0.07, 0.04, 0.03, 0.02}}[before]
	if shares == nil {
		return Spectrum{}, fmt.Errorf(`rectifier: got %q before it, want "none" or "choke"`, before)
	}
	return Spectrum{[]units.Number{3, 5, 7, 9, 11, 13, 15}, shares}, nil
}

func (s Spectrum) check() error {
	if len(s.Order) != len(s.Share) {
		return fmt.Errorf("spectrum: got %d shares for %d orders, want one for each", len(s.Share), len(s.Order))
	}
	for i, n := range s.Order {
		if err := cmp.Or(argument.Whole("order", n), argument.Within("order", n, 2, 1000), argument.NotNegative("share", s.Share[i])); err != nil {
			return fmt.Errorf("spectrum: %w", err)
		}
	}
	return nil
}

// Distortion is the total harmonic distortion: the root of the sum of the squared
// shares. It panics on a spectrum that is none.
//
// Source: IEC 61000-3-2, definition (from memory: verify against the document).
func (s Spectrum) Distortion() units.Number {
	argument.Demand("supply: Spectrum.Distortion", s.check())
	sum := 0.0
	for _, share := range s.Share {
		sum += share * share
	}
	return math.Sqrt(sum)
}

// PowerFactor is the power factor that the harmonics leave a load whose fundamental
// current is in step with the voltage: 1/√(1 + THD²). It panics on a spectrum that is
// none.
//
// Source: definition; the voltage is a sine.
func (s Spectrum) PowerFactor() units.Number {
	argument.Demand("supply: Spectrum.PowerFactor", s.check())
	return 1 / math.Hypot(1, s.Distortion())
}

// Harmonics are the harmonic currents that loads draw together.
type Harmonics struct {
	Order      []units.Number
	Current    []units.Current // in the line that has most of that order
	Limit      []units.Current // that one piece of equipment of class A may draw; 0 where the table has none
	Distortion units.Number    // of the current in the worst line, over its fundamental
	Worst      units.Number    // greatest of current over limit
	Neutral    units.Current   // with harmonics, at most
	Warnings   []string
}

// classA is the most of an order that a piece of equipment may draw.
func classA(order float64) units.Current {
	n := int(order)
	if a, ok := map[int]float64{2: 1.08, 3: 2.30, 4: 0.43, 5: 1.14, 6: 0.30, 7: 0.77, 9: 0.40, 11: 0.33, 13: 0.21}[n]; ok {
		return a * units.A
	}
	switch {
	case n > 40:
		return 0
	case n%2 == 0:
		return 0.23 * 8 / order * units.A
	}
	return 0.15 * 15 / order * units.A
}

// Harmonics adds the harmonic currents of loads of one phase up, line by line, by
// their shares of running: one spectrum for each load, an empty one for a load that
// draws a sine. They are taken to be in step, which is the worst. The limits are
// those of class A, for all loads together as if they were one piece of equipment: a
// screen, since the limits do not bind professional equipment of more than 1 kW.
//
// Another count of spectra than of loads, a load of three phases with a spectrum, and
// what Sum refuses are errors.
//
// Caution: it is an estimate from shares of the fundamental. Capacitors and long
// leads may resonate; that is not looked at.
//
// Source: sums, worked here; limits: IEC 61000-3-2:2018, table 1, from memory: verify
// against the document.
func (m Mains) Harmonics(loads []Load, spectra []Spectrum) (Harmonics, error) {
	sum, err := m.Sum(loads)
	if err != nil {
		return Harmonics{}, err
	}
	if len(spectra) != len(loads) {
		return Harmonics{}, fmt.Errorf("spectra: got %d for %d loads, want one for each, an empty one for a sine", len(spectra), len(loads))
	}
	lines := map[float64]*[3]float64{} // by order
	var all [3]float64                 // root mean square of each line
	copy(all[:], sum.Lines)
	for i, l := range loads {
		s := spectra[i]
		if err := s.check(); err != nil {
			return Harmonics{}, fmt.Errorf("load %q: %w", l.Name, err)
		}
		if len(s.Order) > 0 && l.Phases == 3 {
			return Harmonics{}, fmt.Errorf("load %q: got a spectrum for three phases, want one phase: its harmonics turn differently", l.Name)
		}
		fundamental := l.Share * sum.Currents[i] * s.PowerFactor()
		for k, n := range s.Order {
			if lines[n] == nil {
				lines[n] = new([3]float64)
			}
			lines[n][int(l.Line)-1] += s.Share[k] * fundamental
		}
	}
	var h Harmonics
	for n := range lines {
		h.Order = append(h.Order, n)
	}
	slices.Sort(h.Order)
	neutral := sum.Neutral * sum.Neutral
	var squares [3]float64
	for _, n := range h.Order {
		line := lines[n]
		most := max(line[0], line[1], line[2])
		h.Current, h.Limit = append(h.Current, most), append(h.Limit, classA(n))
		if a := classA(n); a > 0 {
			h.Worst = max(h.Worst, most/a)
		}
		together := line[0] + line[1] + line[2]
		neutral += together * together
		for k := range squares {
			squares[k] += line[k] * line[k]
		}
	}
	for k, s := range squares {
		if all[k]*all[k] > s && s > 0 {
			h.Distortion = max(h.Distortion, math.Sqrt(s/(all[k]*all[k]-s)))
		}
	}
	h.Neutral = math.Sqrt(neutral)
	if h.Neutral > sum.Most*(1+1e-9) && m.Phases == 3 {
		h.Warnings = append(h.Warnings, fmt.Sprintf("the neutral may carry %.3g A, more than any line: it needs the section of a line and nothing less", h.Neutral))
	}
	if h.Worst > 1+1e-9 {
		h.Warnings = append(h.Warnings, fmt.Sprintf("a harmonic is %.2g times what one piece of equipment of class A may draw: ask the drives' makers for a choke", h.Worst))
	}
	return h, nil
}

// Distortion is the distortion of the voltage of a generator that harmonics flow
// through: each drops over the generator's reactance, which grows with the order.
//
// toNeutral is its voltage to neutral, more than 0; the phases are 1 or 3. Outside it
// panics. Up to 0.08 is what public mains are kept to; motors warm and drives trip
// beyond (EN 50160, from memory: verify against the document).
//
// Source: Ohm's law order by order, with the transient reactance for all of them;
// common practice, no source.
func (g Generator) Distortion(h Harmonics, toNeutral units.Voltage, phases units.Number) units.Number {
	argument.Demand("supply: Generator.Distortion", g.check(), argument.Positive("voltage", toNeutral))
	if phases != 1 && phases != 3 {
		panic(fmt.Sprintf("supply: Generator.Distortion: phases: got %g, want 1 or 3", phases))
	}
	rated := g.Rated / (phases * toNeutral)
	sum := 0.0
	for i, n := range h.Order {
		v := n * g.Reactance * h.Current[i] / rated
		sum += v * v
	}
	return math.Sqrt(sum)
}
