package supply_test

import (
	"math"
	"math/cmplx"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"tautline/stdlib/internal/proof"
	"tautline/stdlib/supply"
	"tautline/stdlib/units"
)

const hot units.Temperature = units.ZeroCelsius + 70

// IEC 60228, tables 2 and 3, at 20 °C; BS 7671, tables 4D1B and 4D2B, mV/A/m at 70 °C:
// the resistances worked by hand times 1.1965, and what the tables print, to their
// two digits.
func TestConductors(t *testing.T) {
	for _, c := range []struct{ section, stranded, flexible, one, three, oneTable, threeTable float64 }{
		{1.5, 12.1, 13.3, 28.96, 25.1, 29, 25}, {2.5, 7.41, 7.98, 17.73, 15.4, 18, 15}, {4, 4.61, 4.95, 11.03, 9.55, 11, 9.5},
		{6, 3.08, 3.30, 7.37, 6.38, 7.3, 6.4}, {10, 1.83, 1.91, 4.38, 3.79, 4.4, 3.8}, {16, 1.15, 1.21, 2.75, 2.38, 2.8, 2.4}, {25, 0.727, math.NaN(), 0, 0, 0, 0}, {35, 0.524, math.NaN(), 0, 0, 0, 0},
	} {
		size := c.section * units.Mm2
		proof.Near(t, "stranded", proof.Must(supply.ConductorResistance(size, 2))(t), c.stranded*units.OhmPerKm, 1e-12)
		if !math.IsNaN(c.flexible) {
			proof.Near(t, "flexible", proof.Must(supply.ConductorResistance(size, 5))(t), c.flexible*units.OhmPerKm, 1e-12)
		}
		if c.one == 0 {
			continue
		}
		lead := supply.Cable{Section: size, Length: 1, Class: 2, Phases: 1}
		one := proof.Must(lead.PerAmpere(hot))(t)
		lead.Phases = 3
		three := proof.Must(lead.PerAmpere(hot))(t)
		proof.Near(t, "one phase", one*1e3, c.one, 5e-3/c.one)
		proof.Near(t, "three phases", three*1e3, c.three, 0.05/c.three)
		// Tables round up and down: 6 mm² is printed 7.3 for 7.37, 16 mm² 2.8 for 2.75.
		if math.Abs(one*1e3-c.oneTable) > 0.02*c.oneTable || math.Abs(three*1e3-c.threeTable) > 0.03*c.threeTable {
			t.Errorf("%g mm²: got %.3g and %.3g mV/A/m, the table prints %g and %g", c.section, one*1e3, three*1e3, c.oneTable, c.threeTable)
		}
	}
	proof.Near(t, "warm", supply.Warm(1, hot), 1.1965, 1e-12)
	for _, c := range []struct {
		section, class float64
		want           string
	}{{3, 2, "section: got 3 mm², want 1.5, 2.5"}, {2.5, 1, "class: got 1, want 2 (stranded) or 5"}} {
		_, err := supply.ConductorResistance(c.section*units.Mm2, c.class)
		proof.Fails(t, "conductor", err, c.want)
	}
}

// Worked by hand: by tables of mV/A/m, and by IEC 60364-5-52, annex G.
func TestDrop(t *testing.T) {
	const perMetre = 1e-3 // mV/A/m
	first := supply.TableDrop(18*perMetre, 16, 30)
	proof.Near(t, "18 mV/A/m", first, 8.640, 1e-12)
	proof.Near(t, "share", first/230, 0.037565, 1e-5)
	second := supply.TableDrop(7.3*perMetre, 14, 45)
	proof.Near(t, "7.3 mV/A/m", second, 4.599, 1e-12)
	proof.Near(t, "share", second/230, 0.0199957, 1e-5)
	lead := supply.Cable{Section: 2.5 * units.Mm2, Length: 30, Class: 5, Phases: 1}
	proof.Near(t, "annex G, cos φ 1", lead.Drop(16, 1), 8.640, 1e-12)
	proof.Near(t, "annex G, cos φ 0.8", lead.Drop(16, 0.8), 6.95808, 1e-12)
	three := lead
	three.Phases = 3
	proof.Near(t, "to neutral", three.Drop(16, 0.8), 6.95808/2, 1e-12)
	proof.Near(t, "cooler", supply.CoolerFactor(70, 1, 1, 16, 24), 0.925926, 1e-6)
	proof.Near(t, "cooler, 18 mV/A/m", 18*supply.CoolerFactor(70, 1, 1, 16, 24), 16.667, 2e-5)
	proof.Near(t, "full", supply.CoolerFactor(70, 1, 1, 24, 24), 1, 1e-15)
	proof.Panics(t, "supply: Cable.Drop: cable", func() { supply.Cable{}.Drop(1, 1) })
}

// Worked by hand: there and back through 2.5 and 1.5 mm² of class 5, at 20 °C.
func TestLoop(t *testing.T) {
	lead := supply.Cable{Name: "lead", Section: 2.5 * units.Mm2, Earth: 1.5 * units.Mm2, Length: 30, Class: 5, Phases: 1}
	proof.Near(t, "cold", proof.Must(lead.Loop(units.ZeroCelsius+20))(t), 0.030*(7.98+13.3), 1e-12)
	lead.Earth = 0
	proof.Near(t, "same section", proof.Must(lead.Loop(hot))(t), 0.030*2*7.98*1.1965, 1e-12)
	lead.Class = 3
	_, err := lead.Loop(hot)
	proof.Fails(t, "class", err, `cable "lead": conductor: class: got 3`)
}

// IEC 60898-1 and IEC 60364: 230 V · 0.95 over 5, 10 and 20 times the rated current.
func TestBreakers(t *testing.T) {
	for _, c := range []struct {
		curve       string
		rated, want float64
	}{{"B", 32, 1.3656}, {"B", 16, 2.7313}, {"C", 16, 1.3656}, {"C", 32, 0.6828}, {"D", 16, 0.6828}} {
		b := supply.Breaker{Rated: c.rated, Curve: c.curve}
		proof.Near(t, "loop", b.MostLoop(230), c.want, 4e-5) // four decimals are given
		proof.Near(t, "trips", b.MostLoop(230)*b.Trip(), 0.95*230, 1e-12)
	}
	b := supply.Breaker{Rated: 16, Curve: "C"}
	for _, c := range []struct {
		load, cable    float64
		carries, guard bool
	}{{16, 16, true, true}, {16.1, 24, false, true}, {10, 15.9, true, false}} {
		o := b.Between(c.load, c.cable)
		if o.Carries != c.carries || o.Guards != c.guard || (len(o.Warnings) > 0) != !(c.carries && c.guard) {
			t.Errorf("load %g A, cable %g A: got %+v", c.load, c.cable, o)
		}
	}
	if !b.Runs(79.9) || b.Runs(80) {
		t.Error("a C16 stays closed up to 5 times 16 A")
	}
	proof.Near(t, "1000 A, 0.1 s", proof.Must(supply.AdiabaticSection(1000, 0.1, "PVC"))(t)/units.Mm2, 2.7498, 2e-5)
	proof.Near(t, "3000 A, 0.1 s", proof.Must(supply.AdiabaticSection(3000, 0.1, "PVC"))(t)/units.Mm2, 8.2494, 2e-5)
	_, err := supply.AdiabaticSection(1, 1, "paper")
	proof.Fails(t, "paper", err, `insulation: got "paper", want "PVC", "rubber" or "XLPE"`)
	proof.Panics(t, `supply: Breaker.Trip: curve: got "Z", want "B", "C" or "D"`, func() { supply.Breaker{Rated: 1, Curve: "Z"}.Trip() })
}

// Worked by hand.
func TestCurrent(t *testing.T) {
	three := supply.Load{Name: "pump", Power: 7.5e3, Efficiency: 0.85, Factor: 0.87, Phases: 3, Share: 1, Start: 1}
	one := supply.Load{Name: "fan", Power: 1.5e3, Efficiency: 0.78, Factor: 0.90, Phases: 1, Line: 1, Share: 1, Start: 6}
	proof.Near(t, "three phases", proof.Must(supply.Three400().Current(three))(t), 14.6387, 1e-5)
	proof.Near(t, "one phase", proof.Must(supply.Single230().Current(one))(t), 9.29023, 1e-6)
	proof.Near(t, "start", one.Start*one.Apparent(), 12820.5, 1e-5)
	ten := supply.Generator{Name: "ten", Rated: 10e3, Factor: 0.8, Reactance: 0.2}
	proof.Near(t, "dip", ten.Dip(12820.5), 0.20408, 1e-4)
	_, err := supply.Single230().Current(three)
	proof.Fails(t, "one phase", err, `load "pump": got 3 phase`)
	one.Line = 4
	_, err = supply.Three400().Current(one)
	proof.Fails(t, "line", err, `load "fan": line: got 4, want 1, 2 or 3`)
	two := three
	two.Phases = 2
	_, err = supply.Three400().Current(two)
	proof.Fails(t, "phases", err, `load "pump": phases: got 2, want 1 or 3`)
}

// draw makes loads on mains of three phases.
func draw(t *rapid.T) []supply.Load {
	var loads []supply.Load
	for i := range rapid.IntRange(1, 6).Draw(t, "loads") {
		l := supply.Load{Name: string(rune('a' + i)), Power: rapid.Float64Range(10, 5000).Draw(t, "power"), Efficiency: rapid.Float64Range(0.3, 1).Draw(t, "efficiency"),
			Factor: rapid.Float64Range(0.3, 1).Draw(t, "factor"), Phases: 3, Share: rapid.Float64Range(0, 1).Draw(t, "share"), Start: rapid.Float64Range(1, 7).Draw(t, "start")}
		if line := rapid.IntRange(0, 3).Draw(t, "line"); line > 0 {
			l.Phases, l.Line = 1, float64(line)
		}
		loads = append(loads, l)
	}
	return loads
}

// Against complex impedances: each load is one to neutral on its lines, the currents
// in lines and neutral follow from Ohm's law, the power from voltage times the
// conjugate of the current.
func TestSumAgainstImpedances(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		loads := draw(t)
		s, err := supply.Three400().Sum(loads)
		if err != nil {
			t.Fatal(err)
		}
		var lines [3]complex128
		for _, l := range loads {
			share, from, to := l.Share, 0, 3
			if l.Phases == 3 {
				share /= 3
			} else {
				from, to = int(l.Line)-1, int(l.Line)
			}
			for k := from; k < to; k++ {
				v := cmplx.Rect(230, -2*math.Pi/3*float64(k))
				power := cmplx.Rect(share*l.Power/(l.Efficiency*l.Factor), math.Acos(l.Factor))
				if power == 0 {
					continue
				}
				z := 230 * 230 / cmplx.Conj(power)
				lines[k] += v / z
			}
		}
		var all, neutral complex128
		for k, i := range lines {
			neutral += i
			all += cmplx.Rect(230, -2*math.Pi/3*float64(k)) * cmplx.Conj(i)
			if math.Abs(cmplx.Abs(i)-s.Lines[k]) > 1e-9 {
				t.Errorf("line %d: got %g A, want %g", k+1, s.Lines[k], cmplx.Abs(i))
			}
		}
		for _, c := range []struct {
			what      string
			got, want float64
		}{{"neutral", s.Neutral, cmplx.Abs(neutral)}, {"real", s.Real, real(all)}, {"reactive", s.Reactive, imag(all)}, {"apparent", s.Apparent, cmplx.Abs(all)}} {
			if math.Abs(c.got-c.want) > 1e-9*(1+math.Abs(c.want)) {
				t.Errorf("%s: got %g, want %g", c.what, c.got, c.want)
			}
		}
	})
}

// A balanced set leaves nothing in the neutral, a load on one line all of its
// current; the hardest start, worked by hand.
func TestSum(t *testing.T) {
	heater := supply.Load{Name: "heater", Power: 2300, Efficiency: 1, Factor: 1, Phases: 1, Line: 1, Share: 1, Start: 1}
	s := proof.Must(supply.Three400().Sum([]supply.Load{heater}))(t)
	proof.Near(t, "line", s.Most, 10, 1e-12)
	proof.Near(t, "neutral", s.Neutral, 10, 1e-12)
	second, third := heater, heater
	second.Line, third.Line = 2, 3
	s = proof.Must(supply.Three400().Sum([]supply.Load{heater, second, third}))(t)
	proof.Near(t, "neutral, balanced", s.Neutral, 0, 1e-12)
	proof.Near(t, "real", s.Real, 6900, 1e-12)
	fan := supply.Load{Name: "fan", Power: 1.5e3, Efficiency: 0.78, Factor: 0.90, Phases: 1, Line: 1, Share: 1, Start: 6}
	spare := fan
	spare.Name, spare.Share = "second fan", 0
	one := proof.Must(supply.Single230().Sum([]supply.Load{fan, spare}))(t)
	proof.Near(t, "one fan runs", one.Most, 9.29023, 1e-6)
	proof.Near(t, "power factor", one.Factor, 0.9, 1e-12)
	proof.Near(t, "start", one.Start, 12820.5, 1e-5)
	proof.Near(t, "while the other runs", one.Starting, 7*1500/(0.78*0.9), 1e-12)
	none := proof.Must(supply.Single230().Sum([]supply.Load{spare}))(t)
	if none.Apparent != 0 || none.Factor != 1 {
		t.Errorf("nothing runs: got %+v", none)
	}
	_, err := supply.Single230().Sum(nil)
	proof.Fails(t, "no load", err, "loads: got none")
	_, err = supply.Single230().Sum([]supply.Load{second})
	proof.Fails(t, "line 2 of one", err, `load "heater": got 1 phase on line 2`)
	_, err = supply.Mains{}.Sum([]supply.Load{fan})
	proof.Fails(t, "no mains", err, "mains: voltage to neutral: got 0")
}

// Worked by hand: 2.9 kVA and 1.5 kW running, 12.8 kVA to start.
func TestGenerators(t *testing.T) {
	s := supply.Sum{Apparent: 2900, Real: 1500, Start: 12800}
	ten := supply.Generator{Name: "ten", Rated: 10e3, Factor: 0.8, Reactance: 0.2}
	f := proof.Must(ten.Feed(s, 0.8, 0.25))(t)
	proof.Near(t, "use", f.Use, 0.29, 1e-12)
	proof.Near(t, "dip", f.Dip, 2560.0/12560, 1e-12)
	if !f.Holds || len(f.Warnings) != 1 || !strings.Contains(f.Warnings[0], "ten runs at 29 % of its rating") {
		t.Errorf("got %+v", f)
	}
	// The dip asks for x·s·(1-d)/d: 0.2·12.8·0.85/0.15 = 14.5 kVA.
	g := proof.Must(supply.Choose(supply.InventedGenerators(), s, 0.8, 0.15))(t)
	proof.Near(t, "chosen", g.Rated, 20e3, 0)
	real := proof.Must(supply.Choose(supply.InventedGenerators(), supply.Sum{Apparent: 2500, Real: 2400}, 0.8, 0.15))(t)
	proof.Near(t, "by real power", real.Rated, 5e3, 0) // 2.4 kW over 3 kVA·0.8 is all of it
	_, err := supply.Choose(supply.InventedGenerators(), s, 0.8, 0.05)
	proof.Fails(t, "none", err, "the largest, G20 (invented), is used to 14 % of at most 80 %, and dips by 11 % of at most 5 %")
	_, err = supply.Choose(nil, s, 0.8, 0.15)
	proof.Fails(t, "no list", err, "generators: got none")
	_, err = supply.Generator{Name: "g"}.Feed(s, 0.8, 0.15)
	proof.Fails(t, "no rating", err, `generator "g": rating: got 0`)
}

// IEC 60364-4-41: 50 V over 30 mA are 1667 ohm; IEC 60364-5-53: 0.3 of 30 mA are 9 mA.
func TestResidual(t *testing.T) {
	thirty := supply.Residual{Rated: 30 * units.MA}
	f := proof.Must(thirty.Judge(200, 7*units.MA, "three phases"))(t)
	proof.Near(t, "earth", f.Earth, 1666.67, 3e-6)
	proof.Near(t, "touch", f.Touch, 6, 1e-12)
	proof.Near(t, "leaks", f.Leaks, 7.0/9, 1e-12)
	if f.Type != "B" || len(f.Warnings) != 0 {
		t.Errorf("got %+v", f)
	}
	bad := proof.Must(supply.Residual{Rated: 300 * units.MA}.Judge(200, 100*units.MA, "none"))(t)
	if bad.Type != "A" || len(bad.Warnings) != 3 || !strings.Contains(strings.Join(bad.Warnings, "\n"), "leaves 60 V on a faulty part") {
		t.Errorf("300 mA: got %+v", bad)
	}
	_, err := thirty.Judge(200, 0, "many")
	proof.Fails(t, "electronics", err, `electronics: got "many", want "none"`)
}

func TestFormulas(t *testing.T) {
	proof.Formulas(t, []proof.Call{
		proof.Of("Load.Apparent", supply.Load.Apparent, [][]any{{supply.Load{Power: 1000, Efficiency: 0.8, Factor: 0.9, Phases: 3, Start: 1}}}),
		proof.Of("Warm", supply.Warm, [][]any{{0.0074, 343.15}}),
		proof.Of("TableDrop", supply.TableDrop, [][]any{{0.018, 16.0, 30.0}}),
		proof.Of("CoolerFactor", supply.CoolerFactor, [][]any{{70.0, 0.9, 0.8, 12.0, 24.0}}),
		proof.Of("Generator.Dip", supply.Generator.Dip, [][]any{{supply.Generator{Rated: 8000, Factor: 0.8, Reactance: 0.2}, 6000.0}}),
	})
}
