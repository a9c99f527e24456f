package supply_test

import (
	"fmt"
	"math"
	"testing"

	"tautline/stdlib/internal/proof"
	"tautline/stdlib/supply"
	"tautline/stdlib/units"
)

// Closed forms: a square wave has every odd order with a share of 1/n, a distortion of
// √(π²/8 - 1) = 0.48343 and a power factor of √8/π = 0.90032.
func TestSpectrum(t *testing.T) {
	var square supply.Spectrum
	const orders = 999
	for n := 3.0; n <= orders; n += 2 {
		square.Order, square.Share = append(square.Order, n), append(square.Share, 1/n)
	}
	// What is left out, the sum of 1/n² beyond, is about 1/(2·orders).
	left := 1.0 / (2 * orders) / 0.48343 / 2
	proof.Near(t, "square wave", square.Distortion(), math.Sqrt(math.Pi*math.Pi/8-1), 1.1*left/0.48343)
	proof.Near(t, "its power factor", square.PowerFactor(), math.Sqrt(8)/math.Pi, 1e-3)
	for before, want := range map[string]float64{"none": 1.0896, "choke": 0.7189} { // sums of squares by hand: 1.1872 and 0.5168
		s := proof.Must(supply.RectifierSpectrum(before))(t)
		proof.Near(t, before, s.Distortion(), want, 1e-4)
	}
	_, err := supply.RectifierSpectrum("filter")
	proof.Fails(t, "rectifier", err, `got "filter" before it, want "none" or "choke"`)
	proof.Panics(t, "supply: Spectrum.Distortion: spectrum: order: got 1.5, want a whole number", func() {
		supply.Spectrum{Order: []float64{1.5}, Share: []float64{0}}.Distortion()
	})
}

// Three alike loads, one on each line, by samples of their currents over a turn: the
// third harmonics add up in the neutral, all else cancels but the ninth and so on.
func TestHarmonicsBySamples(t *testing.T) {
	s := supply.Spectrum{Order: []float64{3, 9}, Share: []float64{0.8, 0.2}}
	load := func(line float64) supply.Load {
		return supply.Load{Name: fmt.Sprint("drive ", line), Power: 230, Efficiency: 1, Factor: 1 / math.Sqrt(1.68), Phases: 1, Line: line, Share: 1, Start: 1}
	}
	h := proof.Must(supply.Three400().Harmonics([]supply.Load{load(1), load(2), load(3)}, []supply.Spectrum{s, s, s}))(t)
	// 1 A of fundamental each: √1.68 A in a line.
	const n = 3600
	sum, line := 0.0, 0.0
	for i := range n {
		x := 2 * math.Pi * float64(i) / n
		neutral := 0.0
		for k := range 3 {
			a := x - 2*math.Pi/3*float64(k)
			v := math.Sqrt2 * (math.Sin(a) + 0.8*math.Sin(3*a) + 0.2*math.Sin(9*a))
			neutral += v
			if k == 0 {
				line += v * v
			}
		}
		sum += neutral * neutral
	}
	proof.Near(t, "neutral", h.Neutral, math.Sqrt(sum/n), 1e-9)
	proof.Near(t, "distortion", h.Distortion, math.Sqrt(0.68), 1e-9)
	proof.Near(t, "line", math.Sqrt(line/n), math.Sqrt(1.68), 1e-9)
	proof.Near(t, "third", h.Current[0], 0.8, 1e-9)
	proof.Near(t, "ninth", h.Current[1], 0.2, 1e-9)
	if len(h.Warnings) != 1 {
		t.Errorf("warnings: got %q, want that of the neutral", h.Warnings)
	}
}

// IEC 61000-3-2:2018, table 1 (from memory), and a drive beside a heater on one line,
// worked by hand: 2 A of fundamental in the drive's current, 3 A of sine in step.
func TestHarmonics(t *testing.T) {
	mains := supply.Single230()
	drive := supply.Load{Name: "drive", Power: 460, Efficiency: 1, Factor: 0.8, Phases: 1, Line: 1, Share: 1, Start: 1} // 2.5 A in all: 2 A and 1.5 A
	heater := supply.Load{Name: "heater", Power: 690, Efficiency: 1, Factor: 1, Phases: 1, Line: 1, Share: 1, Start: 1}
	h := proof.Must(mains.Harmonics([]supply.Load{drive, heater}, []supply.Spectrum{{Order: []float64{3}, Share: []float64{0.75}}, {}}))(t)
	proof.Near(t, "third", h.Current[0], 1.5, 1e-12)
	proof.Near(t, "over its limit", h.Worst, 1.5/2.30, 1e-12)
	// In all: 5 A real, 1.5 A counted as reactive by Sum; without the third harmonic 5 A.
	proof.Near(t, "distortion", h.Distortion, 1.5/5, 1e-12)
	// Half of it runs: half of the harmonic.
	drive.Share = 0.5
	half := proof.Must(mains.Harmonics([]supply.Load{drive}, []supply.Spectrum{{Order: []float64{3}, Share: []float64{0.75}}}))(t)
	proof.Near(t, "half", half.Current[0], 0.75, 1e-12)
	proof.Near(t, "of one alone", half.Distortion, 0.75, 1e-12)

	var every supply.Spectrum
	want := map[int]float64{2: 1.08, 3: 2.30, 4: 0.43, 5: 1.14, 6: 0.30, 7: 0.77, 8: 0.23, 9: 0.40, 10: 0.184, 11: 0.33, 13: 0.21, 15: 0.15, 21: 15 * 0.15 / 21, 39: 15 * 0.15 / 39, 40: 0.046, 41: 0}
	for n := 2.0; n <= 41; n++ {
		every.Order, every.Share = append(every.Order, n), append(every.Share, 1)
	}
	drive.Share = 1
	limits := proof.Must(mains.Harmonics([]supply.Load{drive}, []supply.Spectrum{every}))(t)
	for i, n := range limits.Order {
		if w, ok := want[int(n)]; ok && math.Abs(limits.Limit[i]-w) > 1e-12 {
			t.Errorf("order %g: got a limit of %g A, want %g A", n, limits.Limit[i], w)
		}
	}
	if len(limits.Warnings) != 1 {
		t.Errorf("warnings: got %q, want that of the limit", limits.Warnings)
	}

	// A generator of 4.6 kVA, 20 A: 1.5 A of the third over 3·0.2 of its impedance.
	g := supply.Generator{Name: "G", Rated: 4600, Factor: 0.8, Reactance: 0.2}
	proof.Near(t, "voltage", g.Distortion(h, 230, 1), 3*0.2*1.5/20, 1e-12)
	proof.Near(t, "voltage, three phases", g.Distortion(h, 230, 3), 3*0.2*1.5/(20/3.0), 1e-12)
	proof.Panics(t, "supply: Generator.Distortion: phases: got 2, want 1 or 3", func() { g.Distortion(h, 230, 2) })

	_, err := mains.Harmonics([]supply.Load{drive}, nil)
	proof.Fails(t, "count", err, "spectra: got 0 for 1 loads, want one for each")
	drive.Phases = 3
	_, err = supply.Three400().Harmonics([]supply.Load{drive}, []supply.Spectrum{every})
	proof.Fails(t, "three phases", err, `load "drive": got a spectrum for three phases`)
}

// Ratios and lower ends of magnetic trips, worked by hand.
func TestSelective(t *testing.T) {
	for _, c := range []struct {
		lower, upper   supply.Breaker
		fault, upTo    float64
		over, shortcut bool
	}{
		{supply.Breaker{Rated: 10, Curve: "C"}, supply.Breaker{Rated: 16, Curve: "C"}, 190, 80, true, false},
		{supply.Breaker{Rated: 10, Curve: "C"}, supply.Breaker{Rated: 16, Curve: "D"}, 150, 160, true, true},
		{supply.Breaker{Rated: 13, Curve: "B"}, supply.Breaker{Rated: 16, Curve: "B"}, 40, 48, false, true},
		{supply.Breaker{Rated: 16, Curve: "B"}, supply.Breaker{Rated: 63, Curve: "C"}, 315, 315, true, false},
	} {
		s := c.lower.Under(c.upper, c.fault)
		proof.Near(t, "up to", s.UpTo, c.upTo, 1e-12)
		if s.Overload != c.over || s.ShortCircuit != c.shortcut || s.Why == "" {
			t.Errorf("%+v under %+v at %g A: got %+v", c.lower, c.upper, c.fault, s)
		}
	}
	// IEC 60364-5-53 (from memory): 3:1 and delayed.
	person := supply.Residual{Rated: 30 * units.MA}
	for _, c := range []struct {
		upper   float64
		delayed bool
		want    bool
	}{{300, true, true}, {300, false, false}, {100, true, true}, {90, true, true}, {89, true, false}} {
		if got := person.Under(supply.Residual{Rated: c.upper * units.MA}, c.delayed); got != c.want {
			t.Errorf("30 mA under %g mA, delayed %v: got %v", c.upper, c.delayed, got)
		}
	}
	proof.Panics(t, "supply: Breaker.Under: short circuit: got -1", func() { supply.Breaker{Rated: 1, Curve: "B"}.Under(supply.Breaker{Rated: 2, Curve: "B"}, -1) })
}
