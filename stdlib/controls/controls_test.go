package controls_test

import (
	"fmt"
	"math"
	"testing"

	"tautline/stdlib/controls"
	"tautline/stdlib/internal/proof"
	"tautline/stdlib/sheet"
	"tautline/stdlib/units"
)

const yr = units.Yr

// ISO 13849-1:2015, Figure A.1 (from memory).
func TestRequired(t *testing.T) {
	for i, want := range []string{"a", "b", "b", "c", "c", "d", "d", "e"} {
		r := controls.Risk{Severity: 1 + i/4, Frequency: 1 + i/2%2, Avoidance: 1 + i%2}
		if got := proof.Must(r.Required())(t); got != want {
			t.Errorf("%+v: got %q, want %q", r, got, want)
		}
	}
	_, err := controls.Risk{Severity: 2, Frequency: 3, Avoidance: 1}.Required()
	proof.Fails(t, "frequency", err, "risk: frequency: got 3, want 1 or 2")
}

// ISO 13849-1:2015, Table 2 (from memory): the lower end belongs to a band, the
// upper does not.
func TestLevel(t *testing.T) {
	for hourly, want := range map[float64]string{
		9.9e-5: "a", 1e-5: "a", 9.99e-6: "b", 3e-6: "b", 2.9e-6: "c", 1e-6: "c", 9.99e-7: "d", 1e-7: "d", 9.9e-8: "e", 1e-8: "e", 1e-9: "e",
	} {
		if got := proof.Must(controls.Level(hourly * units.PerH))(t); got != want {
			t.Errorf("%g per hour: got %q, want %q", hourly, got, want)
		}
	}
	_, err := controls.Level(1e-4 * units.PerH)
	proof.Fails(t, "too often", err, "got 0.0001 per hour, want less than 10⁻⁴")
	_, err = controls.Level(0)
	proof.Fails(t, "never", err, "got 0, want more than 0")
}

// ISO 13849-1:2015, Table 11 (from memory).
func TestSeries(t *testing.T) {
	for of, want := range map[string]string{
		"a": "a", "aaa": "a", "bb": "b", "bbb": "a", "cc": "c", "ccc": "b", "ddd": "d", "dddd": "c", "eee": "e", "eeee": "d", "ecd": "c", "ddde": "d",
	} {
		var list []string
		for _, l := range of {
			list = append(list, string(l))
		}
		if got := proof.Must(controls.SeriesLevel(list))(t); got != want {
			t.Errorf("%s: got %q, want %q", of, got, want)
		}
	}
	_, err := controls.SeriesLevel([]string{"a", "a", "a", "a"})
	proof.Fails(t, "too many", err, `got 4 of "a", want at most 3`)
	_, err = controls.SeriesLevel([]string{"d", "f"})
	proof.Fails(t, "letter", err, `got "f"`)
	_, err = controls.SeriesLevel(nil)
	proof.Fails(t, "none", err, "got none")
}

// IEC 60204-1:2016, 9.2.2 and 9.2.3.4.2 (from memory): an emergency stop has
// category 0 or 1, never 2.
func TestStopCategories(t *testing.T) {
	for c, want := range []bool{true, true, false} {
		got := proof.Must(controls.NewStopCategory(c))(t)
		if got.Emergency != want || got.Category != c || got.Meaning == "" {
			t.Errorf("got %+v, want emergency %t", got, want)
		}
	}
	_, err := controls.NewStopCategory(3)
	proof.Fails(t, "category", err, "stop category: got 3, want 0, 1 or 2")
}

// ISO 13849-1:2015, Tables 4 to 6 (from memory).
func TestClasses(t *testing.T) {
	for years, want := range map[float64]string{3: "low", 9.99: "low", 10: "medium", 29.9: "medium", 30: "high", 100: "high", 2500: "high"} {
		if got := proof.Must(controls.TimeClass(years * yr))(t); got != want {
			t.Errorf("%g years: got %q, want %q", years, got, want)
		}
	}
	_, err := controls.TimeClass(2.99 * yr)
	proof.Fails(t, "too short", err, "got 2.99 years, want at least 3")
	for c, want := range map[float64]string{0: "none", 0.599: "none", 0.6: "low", 0.899: "low", 0.9: "medium", 0.989: "medium", 0.99: "high", 1: "high"} {
		if got := controls.CoverageClass(c); got != want {
			t.Errorf("coverage %g: got %q, want %q", c, got, want)
		}
	}
	for _, c := range []struct{ category, coverage, want string }{
		{"B", "none", "ab-"}, {"1", "none", "--c"}, {"2", "low", "abc"}, {"2", "medium", "bcd"}, {"2", "high", "bcd"},
		{"3", "low", "bcd"}, {"3", "medium", "cdd"}, {"4", "high", "--e"},
	} {
		for i, class := range []string{"low", "medium", "high"} {
			got, err := controls.SimpleLevel(c.category, class, c.coverage)
			if want := c.want[i : i+1]; want == "-" {
				proof.Fails(t, c.category, err, "got no performance level in the table")
			} else if err != nil || got != want {
				t.Errorf("category %s, %s, %s: got %q, %v, want %q", c.category, class, c.coverage, got, err, want)
			}
		}
	}
	for _, c := range []struct{ category, class, coverage, words string }{
		{"3", "high", "none", "diagnostic coverage: got none"}, {"4", "high", "medium", "got medium, want high"}, {"5", "high", "low", `category: got "5"`},
		{"2", "long", "low", `class of time: got "long"`}, {"2", "low", "some", `class of coverage: got "some"`},
	} {
		_, err := controls.SimpleLevel(c.category, c.class, c.coverage)
		proof.Fails(t, c.words, err, c.words)
	}
}

// ISO 13849-1:2015, Table K.1, eight rows (from memory; category B and 1 are one
// over 8760 h and the years).
func TestFailureRates(t *testing.T) {
	columns := []struct {
		category string
		coverage float64
	}{{"2", 0.6}, {"2", 0.9}, {"3", 0.6}, {"3", 0.9}, {"4", 0.99}}
	for years, row := range map[float64][]float64{
		3: {2.58e-5, 1.99e-5, 1.26e-5, 6.09e-6, 0}, 10: {7.18e-6, 5.14e-6, 3.21e-6, 1.36e-6, 0}, 15: {4.53e-6, 3.01e-6, 1.82e-6, 7.44e-7, 0},
		20: {3.26e-6, 2.06e-6, 1.22e-6, 4.85e-7, 0}, 30: {2.06e-6, 1.21e-6, 6.94e-7, 2.65e-7, 9.54e-8}, 39: {1.53e-6, 8.40e-7, 4.53e-7, 1.78e-7, 7.11e-8},
		62: {9.06e-7, 4.43e-7, 2.13e-7, 8.84e-8, 4.22e-8}, 100: {5.28e-7, 2.29e-7, 1.01e-7, 4.29e-8, 2.47e-8},
	} {
		for i, want := range row {
			got, err := controls.FailureRate(columns[i].category, years*yr, columns[i].coverage)
			if want == 0 {
				proof.Fails(t, "category 4", err, "got no performance level")
				continue
			}
			if err != nil {
				t.Fatal(err)
			}
			proof.Near(t, fmt.Sprint(columns[i], years), got/units.PerH, want, 1e-12)
		}
	}
	for years, want := range map[float64]float64{3: 3.80e-5, 10: 1.14e-5, 15: 7.61e-6, 20: 5.71e-6, 30: 3.80e-6, 39: 2.93e-6, 62: 1.84e-6, 100: 1.14e-6} {
		category := "B"
		if years >= 30 {
			category = "1"
		}
		got := proof.Must(controls.FailureRate(category, years*yr, 0))(t)
		proof.Near(t, "one channel", got/units.PerH, want, 2e-3) // three digits, the first of them small
		proof.Near(t, "one channel", got/units.PerH, 1/(8760*years), 1e-12)
	}
	// Between rows the worse one; above the last the last.
	for years, want := range map[float64]float64{29.9: 4.85e-7, 35: 2.65e-7, 61.9: 1.78e-7, 400: 4.29e-8} {
		proof.Near(t, "between rows", proof.Must(controls.FailureRate("3", years*yr, 0.95))(t)/units.PerH, want, 1e-12)
	}
	_, err := controls.FailureRate("1", 20*yr, 0)
	proof.Fails(t, "category 1", err, "category 1 with a time of class medium")
}

// The columns of two channels against a model of three states, integrated here:
// both well, one dead unseen, gone. A fault of one channel that is found is mended;
// one cause takes both with a share of 2 %; the mean runs over 20 years.
func TestFailureRatesByStates(t *testing.T) {
	model := func(years, coverage float64) float64 {
		const beta, life, n = 0.02, 20, 100_000
		rate, dt := 1/years, float64(life)/n
		well, one, gone := 1.0, 0.0, 0.0
		for range n {
			unseen, both, second := 2*rate*(1-beta)*(1-coverage)*well*dt, beta*rate*well*dt, rate*one*dt
			well, one, gone = well-unseen-both, one+unseen-second, gone+both+second
		}
		return gone / life / 8760
	}
	for _, years := range []float64{10, 15, 20, 30, 39, 62, 100} {
		for _, c := range []struct {
			category string
			coverage float64
		}{{"3", 0.6}, {"3", 0.9}, {"4", 0.99}} {
			if c.category == "4" && years < 30 {
				continue
			}
			got := proof.Must(controls.FailureRate(c.category, years*yr, c.coverage))(t)
			// A tenth: the standard's model has more states and other details.
			proof.Near(t, fmt.Sprint(c, years), got/units.PerH, model(years, c.coverage), 0.10)
		}
	}
}

// Category 2 against a model of three states: the channel and its test well, the test
// dead, gone. Of the channel's faults those that are found are mended while the test
// is well; a dead channel is found by the accident and renewed; one cause takes both
// with a share of 2 %; the test fails as often as the channel; the mean runs over 20
// years. The same renewed model for two channels with medium coverage at 3 years.
func TestFailureRatesOfCategory2(t *testing.T) {
	const beta, life, n = 0.02, 20, 50_000
	tested := func(years, coverage float64) float64 {
		rate, dt := 1/years, float64(life)/n
		well, blind, gone := 1.0, 0.0, 0.0
		for range n {
			first, test, second := (beta+(1-beta)*(1-coverage))*rate*well*dt, rate*well*dt, rate*blind*dt
			well, blind, gone = well-test+second, blind+test-second, gone+first+second
		}
		return gone / life / 8760
	}
	two := func(years, coverage float64, renewed bool) float64 {
		rate, dt := 1/years, float64(life)/n
		well, one, gone := 1.0, 0.0, 0.0
		for range n {
			unseen, both, second := 2*rate*(1-beta)*(1-coverage)*well*dt, beta*rate*well*dt, rate*one*dt
			well, one, gone = well-unseen-both, one+unseen-second, gone+both+second
			if renewed {
				well += both + second
			}
		}
		return gone / life / 8760
	}
	rate := func(category string, years, coverage float64) float64 {
		return proof.Must(controls.FailureRate(category, years*yr, coverage))(t) / units.PerH
	}
	// A twentieth: what of the standard's model is not known, such as how often it tests.
	for _, years := range []float64{3, 10, 15, 20, 30, 39, 62, 100} {
		for _, coverage := range []float64{0.6, 0.9} {
			proof.Near(t, fmt.Sprint("category 2, ", years, coverage), rate("2", years, coverage), tested(years, coverage), 0.05)
		}
	}
	proof.Near(t, "category 3, medium, 3 years", rate("3", 3, 0.9), two(3, 0.9, true), 0.05)
	// With low coverage at 3 years a system that is never renewed has mostly died once in
	// 20 years and counts no more; one that always is gives the most.
	if least, got, most := two(3, 0.6, false), rate("3", 3, 0.6), two(3, 0.6, true); !(least < got && got < most) {
		t.Errorf("category 3, low, 3 years: got %g, want %g to %g", got, least, most)
	}
}

// ISO 13849-1:2015, C.4.3 (from memory): 2.53·10⁶ operations, 23.7 and 237 years.
func TestWear(t *testing.T) {
	w := controls.Wear{B10d: 60e6, Days: 220, Hours: 16 * units.H, Every: 5}
	proof.Near(t, "operations", w.Operations(), 2.5344e6, 1e-12)
	proof.Near(t, "replace", w.Replace()/yr, 23.674, 1e-4/2)
	proof.Near(t, "years", w.MTTFd()/yr, 236.742, 1e-6*5)
	w = controls.Wear{B10d: 1.3e6, Days: 200, Hours: 10 * units.H, Every: 30}
	proof.Near(t, "operations", w.Operations(), 240000, 1e-12)
	proof.Near(t, "years", w.Part("valve", 0.9).MTTFd/yr, 54.1667, 1e-6)
	proof.Near(t, "replace", w.Replace()/yr, 5.4167, 1e-5)
	w.Days = 366
	proof.Panics(t, "Wear.MTTFd: days in a year: got 366", func() { w.MTTFd() })
}

// Channels: ISO 13849-1:2015, D.2 (its example gives 66 for 3 and 100; from
// memory), and parts worked by hand.
func TestChannels(t *testing.T) {
	for _, c := range [][3]float64{{3, 100, 66.725}, {15, 60, 42}, {30, 30, 30}} {
		proof.Near(t, "both", controls.BothChannels(c[0]*yr, c[1]*yr)/yr, c[2], 5e-6)
	}
	parts := []controls.Part{{Name: "switch", MTTFd: 150 * yr, Coverage: 0.99}, {Name: "valve", MTTFd: 60 * yr, Coverage: 0.9}, {Name: "drive", MTTFd: 45 * yr, Coverage: 0.9}}
	proof.Near(t, "channel", proof.Must(controls.ChannelTime(parts))(t)/yr, 21.95122, 1e-7)
	proof.Near(t, "coverage", proof.Must(controls.AverageCoverage(parts))(t), 0.913171, 1e-6)
	_, err := controls.ChannelTime(nil)
	proof.Fails(t, "empty", err, "channel: got no parts")
	parts[1].Coverage = 90
	_, err = controls.AverageCoverage(parts)
	proof.Fails(t, "coverage", err, `part "valve": coverage: got 90, want 0 to 1`)
}

// ISO 13849-1:2015, Table F.1 (from memory): 100 points in all, 65 needed.
func TestCommonCause(t *testing.T) {
	all := controls.CCF{Separation: true, Diversity: true, Overload: true, WellTried: true, Analysis: true, Competence: true, Environment: true, Other: true}
	proof.Near(t, "all", all.Score(), 100, 0)
	proof.Near(t, "none", controls.CCF{}.Score(), 0, 0)
	for i, want := range []float64{15, 20, 15, 5, 5, 5, 25, 10} {
		proof.Near(t, all.Lines().Measure[i], all.Lines().Points[i], want, 0)
	}
	enough := controls.CCF{Separation: true, Overload: true, Environment: true, Other: true}
	proof.Near(t, "just enough", enough.Score(), 65, 0)
	s := twoChannels
	s.CCF = enough
	proof.Must(s.Assess())(t)
	s.CCF = controls.CCF{Separation: true, Diversity: true, Environment: true} // 60
	_, err := s.Assess()
	proof.Fails(t, "too little", err, `subsystem "brakes": category 3: measures against one cause for both channels: got 60 points, want at least 65`)
}

// Two channels of 45 years and 30 years.
var twoChannels = controls.Subsystem{
	Name: "brakes", Category: "3",
	One: []controls.Part{{Name: "contactor", MTTFd: 90 * yr, Coverage: 0.9}, {Name: "brake", MTTFd: 90 * yr, Coverage: 0.9}},
	Two: []controls.Part{{Name: "drive", MTTFd: 30 * yr, Coverage: 0.99}},
	CCF: controls.CCF{Separation: true, Diversity: true, Overload: true, Environment: true},
}

// By hand: 45 and 30 years are 38 for both, the row of 30 years; the coverage is
// 0.9·(1/45)+0.99·(1/30) over 1/45+1/30.
func TestSubsystem(t *testing.T) {
	a := proof.Must(twoChannels.Assess())(t)
	proof.Near(t, "years", a.MTTFd/yr, 2.0/3*(45+30-18), 1e-12)
	proof.Near(t, "coverage", a.Coverage, (0.9/45+0.99/30)/(1.0/45+1.0/30), 1e-12)
	proof.Near(t, "rate", a.Rate/units.PerH, 2.65e-7, 1e-12)
	if a.Level != "d" || a.Simple != "d" || a.TimeClass != "high" || a.CoverageClass != "medium" || a.Score != 75 {
		t.Errorf("got %+v", a)
	}
	// One channel of 400 years counts 100, but 400 in category 4.
	long := []controls.Part{{Name: "relay", MTTFd: 400 * yr, Coverage: 0.99}}
	s := controls.Subsystem{Name: "logic", Category: "4", One: long, Two: long, CCF: twoChannels.CCF}
	a = proof.Must(s.Assess())(t)
	proof.Near(t, "category 4", a.MTTFd/yr, 400, 1e-12)
	proof.Near(t, "row of 100 years", a.Rate/units.PerH, 2.47e-8, 1e-12)
	if a.Level != "e" || len(a.Warnings) != 1 {
		t.Errorf("got %+v", a)
	}
	s.Category = "3"
	proof.Near(t, "category 3", proof.Must(s.Assess())(t).MTTFd/yr, 100, 1e-12)
	// At 30 years one failure in that time is 3.8·10⁻⁶ per hour, level b, though
	// the table of classes says c: the lower counts.
	s = controls.Subsystem{Name: "brake", Category: "1", One: []controls.Part{{Name: "brake", MTTFd: 30 * yr}}}
	if a = proof.Must(s.Assess())(t); a.Level != "b" || a.Simple != "c" {
		t.Errorf("got %+v, want b, and c by classes", a)
	}
	s.Two = long
	_, err := s.Assess()
	proof.Fails(t, "channels", err, "category 1: got 1 parts in a second channel")
	_, err = controls.Subsystem{Name: "x", Category: "3", One: long}.Assess()
	proof.Fails(t, "channels", err, "category 3: got 0 parts in a second channel")
	_, err = controls.Subsystem{Name: "x", Category: "1", One: []controls.Part{{Name: "y", MTTFd: 2 * yr}}}.Assess()
	proof.Fails(t, "time", err, "got 2 years, want at least 3")
	_, err = controls.Subsystem{Name: "x", Rate: 2e-7 * units.PerH, Level: "e"}.Assess()
	proof.Fails(t, "stated", err, `stated level "e": got a rate of 2e-07 per hour, which is level "d"`)
	_, err = controls.Subsystem{Name: "x", Rate: 2e-7 * units.PerH, Level: "d", One: long}.Assess()
	proof.Fails(t, "both", err, "got parts and a stated level")
	_, err = controls.Subsystem{Name: "x", Level: "d"}.Assess()
	proof.Fails(t, "rate", err, "stated rate: got 0")
}

func stated(hourly float64, level string) controls.Subsystem {
	return controls.Subsystem{Name: "stated " + level, Rate: hourly * units.PerH, Level: level}
}

// ISO 13849-1:2015, 6.3 (from memory): rates add up, and no function is better
// than its poorest part; ISO 13850:2015: an emergency stop needs c.
func TestFunction(t *testing.T) {
	f := controls.Function{Name: "stop", Required: "d", Parts: []controls.Subsystem{stated(9.06e-8, "e"), stated(2.5e-8, "e"), stated(1.03e-7, "d")}}
	r := proof.Must(f.Assess())(t)
	proof.Near(t, "sum", r.Rate/units.PerH, 2.186e-7, 1e-12)
	if r.Level != "d" || !r.Holds || len(r.Row().Level) != 3 || r.Row().Years[0] != "" {
		t.Errorf("got %+v", r)
	}
	row := proof.Must(controls.Function{Name: "stop", Required: "d", Parts: []controls.Subsystem{twoChannels}}.Assess())(t).Row()
	if row.Years[0] != "38" || row.Coverage[0] != "95 %" { // by hand, as above
		t.Errorf("got %+v", row)
	}
	f.Parts[2] = stated(1e-9, "c")
	if r = proof.Must(f.Assess())(t); r.Level != "c" || r.Holds {
		t.Errorf("one of c: got %s, holds %t", r.Level, r.Holds)
	}
	f.Parts = []controls.Subsystem{stated(6e-8, "e"), stated(6e-8, "e")}
	if r = proof.Must(f.Assess())(t); r.Level != "d" {
		t.Errorf("1.2·10⁻⁷: got %s, want d", r.Level)
	}
	f.Required, f.Emergency = "a", true
	if r = proof.Must(f.Assess())(t); r.Required != "c" {
		t.Errorf("emergency stop: got %s required, want c", r.Required)
	}
	f.Required = "high"
	_, err := f.Assess()
	proof.Fails(t, "required", err, `performance level: got "high"`)
	_, err = controls.Function{Name: "stop", Required: "d"}.Assess()
	proof.Fails(t, "empty", err, "got no subsystems")
}

// ISO 13855:2010, 6.2.3, 6.3 (from memory), worked by hand: both speeds, both
// floors, and fields over the ground.
func TestDistances(t *testing.T) {
	const mm = units.Mm
	for _, c := range []struct{ stop, detail, want float64 }{
		{0.15, 14, 300}, {0.15, 30, 428}, {0.25, 14, 500}, {0.02, 14, 100}, {0.32, 14, 512}, {0.24, 30, 512}, {0.3, 50, 1330}, {0.27, 14, 500}, {0.15, 0, 300},
	} {
		proof.Near(t, fmt.Sprint(c), controls.GuardDistance(c.stop, c.detail*mm)/mm, c.want, 1e-12)
	}
	for height, want := range map[float64]float64{0: 1680, 300: 1560, 875: 1330, 1000: 1330} {
		proof.Near(t, "field", controls.FieldDistance(0.3, height*mm)/mm, want, 1e-12)
	}
	proof.Near(t, "gate", controls.GateDistance(0.5, 0.85), 1.65, 1e-12)
	proof.Near(t, "both hands", controls.TwoHandDistance(0.4), 0.89, 1e-12)
	proof.Panics(t, "detail: got 0.08, want 0 to 0.07", func() { controls.GuardDistance(0.1, 80*mm) })
	proof.Panics(t, "stopping time: got NaN", func() { controls.FieldDistance(math.NaN(), 0) })
}

// ISO 13855:2010, 6.5 and table 1 (from memory), worked by hand: K·T and the reach
// over the edge, at 2000 and at 1600 mm/s, or what goes through where that is more.
func TestCurtainDistance(t *testing.T) {
	const mm = units.Mm
	for _, c := range []struct{ stop, detail, edge, low, high, want float64 }{
		{0.1, 14, 1000, 1000, 1000, 1310}, // 1150 over it, at 1600 mm/s
		{0.1, 14, 1000, 1000, 1001, 1360}, // between 1000 and 1200: 1200
		{0.1, 14, 1050, 1000, 1000, 1310}, // as an edge of 1000
		{0.1, 14, 1600, 1200, 1200, 200},  // nothing over it: 2000·0.1
		{0.1, 14, 2400, 2500, 2500, 300},  // 100 over it, at 2000 mm/s
		{0.1, 14, 2400, 2600, 2600, 200},  // out of reach
		{0.1, 50, 1400, 800, 800, 1010},   // 450 over it, but 850 through it
		{0.1, 14, 900, 1400, 1400, 1360},  // 1200
		{0.1, 14, 1400, 0, 3000, 1010},    // the worst of the column of 1400: 850
		{0.15, 14, 2000, 2400, 2400, 540}, // 300: 600 at 2000 mm/s, 540 at 1600
		{0.12, 14, 2000, 2400, 2400, 500}, // 540, then 492, not less than 500
		{0.1, 14, 1200, 600, 600, 710},    // 550
		{0.1, 14, 1300, 600, 600, 200},    // none
		{0.1, 14, 1800, 1600, 1600, 610},  // 450
		{0.1, 14, 2600, 2500, 2500, 200},  // none
	} {
		proof.Near(t, fmt.Sprint(c), controls.CurtainDistance(c.stop, c.detail*mm, c.edge*mm, c.low*mm, c.high*mm)/mm, c.want, 1e-12)
	}
	// A higher edge is never reached over farther, more heights never less far.
	for low := 0.0; low < 2.7; low += 0.05 {
		for edge := 0.9; edge < 2.6; edge += 0.05 {
			here := controls.CurtainDistance(0.5, 0, edge, low, low)
			if controls.CurtainDistance(0.5, 0, edge+0.05, low, low) > here || controls.CurtainDistance(0.5, 0, edge, low, low+0.1) < here {
				t.Errorf("edge of %g m, %g m high: %g m is not in order", edge, low, here)
			}
		}
	}
	proof.Panics(t, "controls: CurtainDistance: height of the edge: got 0.8, want 0.9 to", func() { controls.CurtainDistance(0.1, 0, 0.8, 0, 1) })
	proof.Panics(t, "highest of what hurts: got 1, want 2 to", func() { controls.CurtainDistance(0.1, 0, 1, 2, 1) })
}

// Five blocks: two subsystems about the parts of two channels and one.
func TestDraw(t *testing.T) {
	f := controls.Function{Name: "stop", Required: "d", Parts: []controls.Subsystem{twoChannels, stated(1e-8, "e")}}
	var s sheet.Sheet
	d := s.NewDrawing("blocks")
	if err := f.Draw(d); err != nil {
		t.Fatal(err)
	}
	count := map[sheet.ShapeKind]int{}
	words := map[string]bool{}
	for _, shape := range d.Shapes {
		count[shape.Kind]++
		words[shape.Name] = true
	}
	if count[sheet.ShapeOutline] != 2 || count[sheet.ShapeThin] != 4 || count[sheet.ShapeArrow] != 1 || !d.Free {
		t.Errorf("got %v", count)
	}
	for _, want := range []string{"brakes", "contactor", "brake", "drive", "category 3, 2.7×10⁻⁷/h, level d", "1×10⁻⁸/h, level e"} {
		if !words[want] {
			t.Errorf("got no %q in %v", want, words)
		}
	}
	if err := (controls.Function{}).Draw(d); err == nil {
		t.Error("a function without parts was drawn")
	}
}

func TestFormulaLines(t *testing.T) {
	w := controls.Wear{B10d: 60e6, Days: 220, Hours: 16 * units.H, Every: 5}
	proof.Formulas(t, []proof.Call{
		proof.Of("Wear.Operations", controls.Wear.Operations, [][]any{{w}}),
		proof.Of("BothChannels", controls.BothChannels, [][]any{{3.0, 100.0}}),
		proof.Of("FieldDistance", controls.FieldDistance, [][]any{{0.3, 0.3}, {0.3, 1.0}}),
		proof.Of("TwoHandDistance", controls.TwoHandDistance, [][]any{{0.4}, {0.0}}),
		proof.Of("GateDistance", controls.GateDistance, [][]any{{0.5, 0.85}}),
	})
}

// Whether a stop of two channels is good enough for a rider who falls.
func Example() {
	need, _ := controls.Risk{Severity: 2, Frequency: 1, Avoidance: 2}.Required()
	stop := controls.Function{Name: "kill cord", Required: need, Emergency: true, Parts: []controls.Subsystem{twoChannels}}
	reached, err := stop.Assess()
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println("needs", need, "reaches", reached.Level)
	// Output: needs d reaches d
}
