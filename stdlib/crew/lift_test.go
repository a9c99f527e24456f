package crew_test

import (
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"tautline/stdlib/crew"
	"tautline/stdlib/internal/proof"
	"tautline/stdlib/units"
)

// DHHS (NIOSH) 94-110, revised 2021, worked examples 1 to 4, in pounds and inches.
// The exact limit is worked by hand from the formula, to the four digits it is
// given with; the published one was worked with multipliers of two digits, and in
// example 1 with .44 from the table where the formula gives .435: within 2.5 %, and for
// the index half of its one decimal more.
func TestLiftExamples(t *testing.T) {
	lift := func(load, h0, v0, h1, v1, twist, rate float64, hours float64, grip string, placed bool) crew.Lift {
		return crew.Lift{Name: "example", Mass: load * units.Lb, From: crew.Hold{Out: h0 * units.In, Height: v0 * units.In, Twist: twist * units.Deg},
			To: crew.Hold{Out: h1 * units.In, Height: v1 * units.In, Twist: twist * units.Deg}, Grip: grip, Rate: rate * units.PerMin, Work: hours * units.H, Placed: placed, Pounds: true}
	}
	const seldom = 0.2
	for _, c := range []struct {
		name                         string
		lift                         crew.Lift
		end                          string
		exact, index                 float64
		published, published2, other float64 // other: limit at the other end
	}{
		{"1, origin alone", lift(44, 23, 15, 23, 63, 0, seldom, 1, "fair", false), "origin", 16.03, 2.745, 16.3, 2.7, 14.31},
		{"1, destination", lift(44, 23, 15, 23, 63, 0, seldom, 1, "fair", true), "destination", 14.31, 3.075, 14.5, 3.0, 16.03},
		{"2, origin", lift(35, 20, 27, 10, 10, 0, seldom, 1, "poor", true), "origin", 20.77, 1.685, 20.9, 1.7, 36.12},
		{"3, bags into a hopper", lift(40, 18, 15, 10, 36, 45, seldom, 1, "fair", false), "origin", 18.52, 2.160, 18.9, 2.1, math.NaN()},
		{"4, inspection, destination", lift(26, 10, 22, 20, 59, 0, 3, 1, "fair", true), "destination", 15.25, 1.705, 15.2, 1.7, 34.81},
	} {
		j := proof.Must(c.lift.Judge())(t)
		if j.End != c.end {
			t.Errorf("%s: end: got %s, want %s", c.name, j.End, c.end)
		}
		proof.Near(t, c.name+", limit", j.Limit/units.Lb, c.exact, 1e-3)
		proof.Near(t, c.name+", index", j.Index, c.index, 1e-3)
		proof.Near(t, c.name+", published limit", j.Limit/units.Lb, c.published, 0.025)
		if math.Abs(j.Index-c.published2) > 0.025*c.published2+0.05 {
			t.Errorf("%s: index: got %g, published %g", c.name, j.Index, c.published2)
		}
		other := j.AtOrigin
		if c.end == "origin" {
			other = j.AtEnd
		}
		if !math.IsNaN(c.other) {
			proof.Near(t, c.name+", other end", other/units.Lb, c.other, 1e-3)
		}
	}
}

// The metric equation, worked by hand: 23·(25/40)·(1-0.003·55)·(0.82+4.5/60)·
// (1-0.0032·30)·0.95, and where it ends.
func TestLiftMetric(t *testing.T) {
	at := func(out, height, twist float64) crew.Hold {
		return crew.Hold{Out: out * units.Cm, Height: height * units.Cm, Twist: twist * units.Deg}
	}
	for _, c := range []struct {
		from, to crew.Hold
		grip     string
		rate     float64
		want     float64
	}{
		{at(40, 20, 30), at(40, 80, 30), "fair", 1, 23 * 0.625 * 0.835 * 0.895 * 0.904 * 0.94 * 0.95},
		{at(40, 20, 30), at(40, 80, 30), "fair", 0.2, 9.225914},
		{at(25, 75, 0), at(25, 90, 0), "good", 0.2, 23},
		{at(10, 75, 0), at(10, 75, 0), "good", 0, 23},
		{at(63, 75, 0), at(63, 75, 0), "good", 0.2, 9.126984},
		{at(64, 75, 0), at(64, 75, 0), "good", 0.2, 0},
		{at(25, 175, 0), at(25, 175, 0), "good", 0.2, 23 * 0.70},
		{at(25, 176, 0), at(25, 176, 0), "good", 0.2, 0},
		{at(25, 75, 135), at(25, 75, 0), "good", 0.2, 23 * 0.568},
		{at(25, 75, 136), at(25, 75, 0), "good", 0.2, 0},
	} {
		l := crew.Lift{Name: "sack", Mass: 10, From: c.from, To: c.to, Grip: c.grip, Rate: c.rate * units.PerMin, Work: 1 * units.H}
		j := proof.Must(l.Judge())(t)
		proof.Near(t, "limit", j.Limit, c.want, 1e-6) // seven digits are given
		if c.want > 0 {
			proof.Near(t, "index", j.Index, 10/c.want, 1e-6)
		} else if !math.IsInf(j.Index, 1) || len(j.Warnings) != 1 || !strings.Contains(j.Warnings[0], "sack is not to be lifted at all") {
			t.Errorf("beyond the equation: got index %g, warnings %q", j.Index, j.Warnings)
		}
	}
}

// DHHS (NIOSH) 94-110, table 5, every row, and lines between rows.
func TestFrequencyMultiplier(t *testing.T) {
	rows := [][]float64{ // lifts a minute; up to 1, 2, 8 h below 75 cm; the same above
		{0, 1, .95, .85, 1, .95, .85}, {0.2, 1, .95, .85, 1, .95, .85}, {0.5, .97, .92, .81, .97, .92, .81}, {1, .94, .88, .75, .94, .88, .75}, {2, .91, .84, .65, .91, .84, .65},
		{3, .88, .79, .55, .88, .79, .55}, {4, .84, .72, .45, .84, .72, .45}, {5, .80, .60, .35, .80, .60, .35}, {6, .75, .50, .27, .75, .50, .27}, {7, .70, .42, .22, .70, .42, .22},
		{8, .60, .35, .18, .60, .35, .18}, {9, .52, .30, 0, .52, .30, .15}, {10, .45, .26, 0, .45, .26, .13}, {11, .41, 0, 0, .41, .23, 0}, {12, .37, 0, 0, .37, .21, 0},
		{13, 0, 0, 0, .34, 0, 0}, {14, 0, 0, 0, .31, 0, 0}, {15, 0, 0, 0, .28, 0, 0}, {15.1, 0, 0, 0, 0, 0, 0},
		{5.3333333, .80 - .05/3, .60 - .10/3, .35 - .08/3, .80 - .05/3, .60 - .10/3, .35 - .08/3}, {12.5, 0, 0, 0, .355, 0, 0},
	}
	for _, r := range rows {
		for i, hours := range []float64{1, 2, 8} {
			proof.Near(t, "low", crew.FrequencyMultiplier(r[0]*units.PerMin, hours*units.H, 74*units.Cm), r[1+i], 1e-7)
			proof.Near(t, "high", crew.FrequencyMultiplier(r[0]*units.PerMin, hours*units.H, 75*units.Cm), r[4+i], 1e-7)
		}
	}
	proof.Panics(t, "time of work: got 28801, want 0 to 28800", func() { crew.FrequencyMultiplier(0, 28801, 0) })
	// Page 16: 10 lifts a minute for 8 of 15 minutes.
	proof.Near(t, "averaged", crew.AverageRate(10*units.PerMin, 8*units.Min)/units.PerMin, 5.3333, 1e-5)
}

// DHHS (NIOSH) 94-110, page 28, the three tasks of its example; the composite index
// worked by hand.
func TestTogether(t *testing.T) {
	tasks := []crew.Task{
		{Name: "1", Mass: 20 * units.Lb, Limit: 20 * units.Lb, Rate: 1 * units.PerMin, Height: 0.5},
		{Name: "2", Mass: 30 * units.Lb, Limit: 20 * units.Lb, Rate: 2 * units.PerMin, Height: 0.5},
		{Name: "3", Mass: 10 * units.Lb, Limit: 15 * units.Lb, Rate: 4 * units.PerMin, Height: 0.5},
	}
	c := proof.Must(crew.Together(tasks, 1*units.H))(t)
	if got := strings.Join(c.Order, " "); got != "2 1 3" {
		t.Errorf("order: got %s, want 2 1 3", got)
	}
	for i, want := range []float64{1.6484, 1.0638, 0.7937} { // four decimals are given
		proof.Near(t, "single index", c.Single[i], want, 1e-4)
	}
	for i, want := range []float64{1.5, 1.0, 0.6667} {
		proof.Near(t, "index without frequency", c.Seldom[i], want, 1e-4)
	}
	proof.Near(t, "composite index", c.Index, 1.880619, 1e-6)
	tasks[2].Rate = 12 * units.PerMin
	many := proof.Must(crew.Together(tasks, 1*units.H))(t)
	if !math.IsInf(many.Index, 1) || len(many.Warnings) != 1 || !strings.Contains(many.Warnings[0], "15 lifts a minute in all") {
		t.Errorf("too many lifts: got %+v", many)
	}
	_, err := crew.Together(nil, 0)
	proof.Fails(t, "no task", err, "tasks: got none")
	_, err = crew.Together([]crew.Task{{Name: "x", Mass: 1}}, 0)
	proof.Fails(t, "no limit", err, `task "x": limit: got 0`)
}

// One task alone is a lift by itself; a task added never makes the work lighter.
func TestTogetherAgreesWithJudge(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		draw := func(name string) crew.Lift {
			hold := func(end string) crew.Hold {
				return crew.Hold{Out: rapid.Float64Range(0, 0.6).Draw(t, name+end), Height: rapid.Float64Range(0, 1.7).Draw(t, name+end), Twist: rapid.Float64Range(0, 2).Draw(t, name+end)}
			}
			return crew.Lift{Name: name, Mass: rapid.Float64Range(1, 30).Draw(t, name), From: hold("from"), To: hold("to"), Grip: "fair", Rate: rapid.Float64Range(0, 4).Draw(t, name) * units.PerMin, Work: 1 * units.H, Placed: true}
		}
		a, b := draw("a"), draw("b")
		j, err := a.Judge()
		if err != nil {
			t.Fatal(err)
		}
		first, err := a.Task()
		if err != nil {
			t.Fatal(err)
		}
		second, err := b.Task()
		if err != nil {
			t.Fatal(err)
		}
		alone, _ := crew.Together([]crew.Task{first}, 1*units.H)
		if !(math.Abs(alone.Index-j.Index) <= 1e-12*j.Index) {
			t.Errorf("one task: got %g, want the lift's own index %g", alone.Index, j.Index)
		}
		both, _ := crew.Together([]crew.Task{first, second}, 1*units.H)
		if both.Index < alone.Index*(1-1e-12) {
			t.Errorf("two tasks: got %g, less than one of them, %g", both.Index, alone.Index)
		}
	})
}

// HSE L23: two lift two thirds of their sum, three half of it.
func TestTeams(t *testing.T) {
	one := crew.Lift{Name: "hull", Mass: 30, From: crew.Hold{Height: 0.75}, To: crew.Hold{Height: 0.75}, Grip: "good"}
	for people, want := range map[float64]float64{0: 23, 1: 23, 2: 23 * 4.0 / 3, 3: 23 * 1.5} {
		one.People = people
		j := proof.Must(one.Judge())(t)
		proof.Near(t, "limit", j.Limit, want, 1e-12)
		if (people > 1) != (len(j.Warnings) == 1) {
			t.Errorf("%g people: got warnings %q", people, j.Warnings)
		}
	}
	one.People = 4
	_, err := one.Judge()
	proof.Fails(t, "four", err, `lift "hull": people: got 4, want 0 to 3`)
	_, err = crew.TeamLimit(4)
	proof.Fails(t, "four", err, "want 1, 2 or 3: for more use wheels or a hoist")
}

func TestLiftRefuses(t *testing.T) {
	good := crew.Lift{Name: "box", Mass: 10, From: crew.Hold{Height: 0.5}, To: crew.Hold{Height: 0.5}, Grip: "good"}
	for _, c := range []struct {
		change func(*crew.Lift)
		want   string
	}{
		{func(l *crew.Lift) { l.Mass = 0 }, `lift "box": mass: got 0, want more than 0`},
		{func(l *crew.Lift) { l.Grip = "slippery" }, `grip: got "slippery", want "good", "fair" or "poor"`},
		{func(l *crew.Lift) { l.To.Height = -0.1 }, "destination: height: got -0.1"},
		{func(l *crew.Lift) { l.From.Out = math.NaN() }, "origin: out: got NaN"},
		{func(l *crew.Lift) { l.Work = 9 * units.H }, "time of work: got 32400"},
		{func(l *crew.Lift) { l.People = 1.5 }, "people: got 1.5, want a whole number"},
	} {
		l := good
		c.change(&l)
		_, err := l.Judge()
		proof.Fails(t, "lift", err, c.want)
		_, err = crew.Survey([]crew.Lift{good, l})
		proof.Fails(t, "lifts", err, c.want)
	}
	s := proof.Must(crew.Survey([]crew.Lift{good, {Name: "high", Mass: 10, From: crew.Hold{Out: 0.5, Height: 0.75}, To: crew.Hold{Height: 0.75}, Grip: "good", People: 2}}))(t)
	proof.Near(t, "worst", s.Worst, 10/(23*0.5*4.0/3), 1e-12)
	if s.Heaviest != "high" || s.Alone || s.Governs[1] != "reach, taken up" || s.From[1] != 0.75 || s.To[0] != 0.5 || s.Out[1] != 0.5 || len(s.Warnings) != 1 {
		t.Errorf("survey: got %+v", s)
	}
}

// A cart of 250 kg up 8°, worked by hand: 250·9.80665·(sin 8° + 0.02·cos 8°).
func TestPush(t *testing.T) {
	c := crew.Cart{Mass: 250, Rolling: 0.02, Slope: 8 * units.Deg}
	proof.Near(t, "steady", c.Push(0), 389.7615, 1e-6)
	proof.Near(t, "speeding up", c.Push(0.3), 464.7615, 1e-6)
	down := c
	down.Slope = -8 * units.Deg
	proof.Near(t, "held back", c.Push(0)-down.Push(0), 2*250*9.80665*math.Sin(8*math.Pi/180), 1e-12)
	g := crew.PushForEverybody()
	proof.Near(t, "start", g.Start, 15*9.80665, 1e-12)
	proof.Near(t, "keep", g.Keep, 7*9.80665, 1e-12)
	proof.Panics(t, "crew: Cart.Push: slope", func() { crew.Cart{Mass: 1, Slope: 1}.Push(0) })
}

// Worked by hand; waits of M/D/1 and M/M/1 queues.
func TestThroughput(t *testing.T) {
	one := crew.Cycle{Seats: 1, Taken: 1, Ride: 90, Change: 45}
	two := crew.Cycle{Seats: 2, Taken: 1, Ride: 120, Change: 60}
	five := crew.Cycle{Seats: 1, Taken: 0.85, Ride: 90, Change: 45}
	proof.Near(t, "one seat", one.Throughput()/units.PerH, 26.6667, 2e-6)
	proof.Near(t, "two seats", two.Throughput()/units.PerH, 40, 1e-12)
	proof.Near(t, "not full", five.Throughput()/units.PerH, 22.6667, 2e-6)
	q := proof.Must(crew.Wait(20*units.PerH, 135))(t)
	proof.Near(t, "busy", q.Busy, 0.75, 1e-12)
	proof.Near(t, "steady", q.Steady, 202.5, 1e-12)
	proof.Near(t, "random", q.Random, 405, 1e-12)
	_, err := crew.Wait(27*units.PerH, 135)
	proof.Fails(t, "too many", err, "got 27 an hour, want less than the 26.7 that are served")
	proof.Panics(t, "crew: Cycle.Throughput: seats", func() { crew.Cycle{}.Throughput() })
}

// Simulated apart from the formula: 400 000 people who come at random, seeded, to a
// ride of one length. The mean wait then strays by about 1 % (as batches of it do).
func TestWaitSimulated(t *testing.T) {
	const each, rate, n = 135.0, 20.0 / 3600, 400000
	seed := uint64(1852)
	next := func() float64 { // xorshift
		seed ^= seed << 13
		seed ^= seed >> 7
		seed ^= seed << 17
		return (float64(seed>>11) + 0.5) / (1 << 53)
	}
	come, free, wait := 0.0, 0.0, 0.0
	for range n {
		come -= math.Log(next()) / rate
		start := max(come, free)
		wait += start - come
		free = start + each
	}
	proof.Near(t, "mean wait", wait/n, proof.Must(crew.Wait(rate, each))(t).Steady, 0.03)
}

func TestFormulas(t *testing.T) {
	proof.Formulas(t, []proof.Call{
		proof.Of("AverageRate", crew.AverageRate, [][]any{{0.2, 300.0}}),
		proof.Of("Cart.Push", crew.Cart.Push, [][]any{{crew.Cart{Mass: 200, Rolling: 0.03, Slope: 0.1}, 0.2}}),
		proof.Of("LeastNose", crew.LeastNose, [][]any{{500.0}, {900.0}}),
		proof.Of("Cycle.Throughput", crew.Cycle.Throughput, [][]any{{crew.Cycle{Seats: 2, Taken: 0.9, Ride: 80, Change: 60}}}),
	})
}
