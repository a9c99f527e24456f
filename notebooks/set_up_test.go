package notebooks

import (
	"fmt"
	"math"
	"math/cmplx"
	"testing"

	"tautline/runner"
)

// The set-up worked again in SI units.
func TestSetUp(t *testing.T) {
	res := run(t, "set-up.md")
	minute := 60.0

	// Pieces: tubes by their masses to a metre, the rest as given, and all together.
	flange := 7850 * 0.16 * 0.16 * 0.015
	cross := 6.71*(4*0.60+4*0.85) + flange
	outrigger, brace, mast := 6.71*0.6+1.5, 2.91*0.7, 10.3*0.42+2*flange
	stake := 7850 * math.Pi * 0.016 * 0.016 * 1.1
	near(t, "cross", number(t, res, "cross"), cross)
	near(t, "stake", number(t, res, "stake"), stake)
	near(t, "roll", number(t, res, "roll"), (210-24-18)/2.0)
	near(t, "plates", number(t, res, "plates"), 24)
	others := 100 + 85 + 45 + 2*20 + 18 + 8*9 + 9 + 22 + 8 + 2*7 + 15*8 + 2*14.0
	total := 210 + cross + 4*outrigger + 4*brace + mast + 240 + 12*stake + others
	near(t, "mass in the van", number(t, res, "total"), total)
	volumes := 2*1.6*0.64 + 2*0.5*0.45*0.45 + 6*1.2*0.5*0.1 + 0.95*0.95*0.1 + 4*0.7*0.04 + 4*0.75*0.01 + 0.45*0.0625 + 24*0.32*0.2*0.02 + 0.9*0.9*0.7 + 2.6*0.7 +
		0.54 + 2*1.2*0.7*0.25 + 0.9*0.6*0.4 + 8*0.02 + 12*1.15*0.0036 + 0.072 + 0.216 + 0.12 + 2*0.048 + 15*2.0*1.1*0.04 + 2*0.084
	near(t, "share of the van's space", number(t, res, "packed", 8), volumes/(0.6*4.4*1.8*1.95))

	// Rolling: 145 kg up 2 %, on boards, started, and on a lawn.
	slope := math.Atan(0.02)
	up := func(rolling, a float64) float64 {
		return 145*gn*(math.Sin(slope)+rolling*math.Cos(slope)) + 145*a
	}
	near(t, "slope", number(t, res, "slope"), slope)
	near(t, "heaviest", number(t, res, "heaviest"), 145)
	near(t, "keep", number(t, res, "keep"), up(0.02, 0))
	near(t, "start", number(t, res, "startOff"), up(0.02, 0.2))
	near(t, "on the lawn", number(t, res, "onLawn"), up(0.10, 0))
	near(t, "handle", number(t, res, "handle"), 145*gn*0.025/(0.25*4*0.7))

	// Lifts: 23 kg, hands out and their height in cm, at both ends.
	limit := func(out0, high0, out1, high1, grip0, grip1, fm float64) float64 {
		dm := 0.82 + 4.5/math.Max(math.Abs(high1-high0), 25)
		at := func(out, high, grip float64) float64 {
			return 23 * 25 / out * (1 - 0.003*math.Abs(high-75)) * dm * grip * fm
		}
		return math.Min(at(out0, high0, grip0), at(out1, high1, grip1))
	}
	for i, l := range []struct{ mass, limit float64 }{
		{outrigger, limit(35, 70, 40, 20, 1, 1, 1)}, {brace, limit(35, 70, 35, 75, 1, 1, 1)}, {mast, limit(35, 70, 35, 75, 1, 1, 1)},
		{10, limit(35, 45, 40, 20, 1, 1, 0.91)}, {12, limit(35, 70, 35, 45, 1, 1, 1)}, {3, limit(35, 70, 35, 90, 0.9, 0.9, 1)},
		{9, limit(35, 70, 40, 20, 0.95, 0.95, 0.94)}, {stake, limit(35, 45, 35, 90, 0.95, 1, 1)}, {9, limit(35, 70, 35, 45, 1, 1, 1)},
		{8, limit(35, 70, 35, 75, 1, 1, 1)}, {7, limit(35, 70, 35, 45, 1, 1, 1)}, {8, limit(35, 70, 35, 45, 0.95, 0.95, 0.94)}, {14, limit(30, 70, 30, 45, 1, 1, 1)},
	} {
		near(t, "limit of a lift", value(t, res, "judged", 3, i), l.limit)
		near(t, "index of a lift", value(t, res, "judged", 4, i), l.mass/l.limit)
	}
	for i := range 39 {
		out := float64(25 + i)
		near(t, "to the ground", value(t, res, "toGround", i), limit(out, 70, out, 20, 1, 1, 1))
		near(t, "to the waist", value(t, res, "toWaist", i), limit(out, 70, out, 75, 1, 1, 1))
	}
	near(t, "hands out", number(t, res, "HM"), 0.25/0.4)
	near(t, "hands low", number(t, res, "VM"), 1-0.003*55)
	near(t, "limit of a plate", number(t, res, "RWL"), 23*0.625*0.835*0.91)
	near(t, "plate of 20 kg", number(t, res, "heavyPlate"), 20/(23*0.625*0.835*0.91))
	near(t, "cross by two", number(t, res, "byTwo"), cross/(4.0/3*23*0.625*0.835*0.91))

	byHand := total - 2*104 - cross - 100 - 85 - 45 - 18 - 22
	near(t, "by hand", number(t, res, "byHand"), byHand)
	near(t, "carried in a day", number(t, res, "inDay"), 2*byHand)
	near(t, "carried in a minute", number(t, res, "inMinute"), 20)
	near(t, "may be carried in a minute", number(t, res, "carry", 2), 60)

	// Together over half an hour, hardest first: 24 plates, the mast, 4 outriggers, 4
	// braces. Between 0.5 and 1 lift a minute the multiplier falls by 0.06 for each.
	fm := func(lifts float64) float64 {
		f := lifts / 30
		switch {
		case f <= 0.5:
			return 1 - 0.1*math.Max(f-0.2, 0)
		case f <= 1:
			return 0.97 - 0.06*(f-0.5)
		}
		return 0.94 - 0.03*(f-1)
	}
	joined := 10 / (23 * 0.625 * 0.835) / fm(24)
	joined += mast / limit(35, 70, 35, 75, 1, 1, 1) * (1/fm(25) - 1/fm(24))
	joined += outrigger / limit(35, 70, 40, 20, 1, 1, 1) * (1/fm(29) - 1/fm(25))
	joined += brace / limit(35, 70, 35, 75, 1, 1, 1) * (1/fm(33) - 1/fm(29))
	near(t, "together", number(t, res, "joined", 0), joined)

	// Alone everything adds up but the minute in which the bed fills, in which the
	// fence is begun; two by hand on squared paper.
	sum := 8 + 8 + 14 + 4 + 12 + 8 + 9 + 6 + 7 + 4 + 7 + 15 + 15 + 8 + 8 + 9 + 7 + 6 + 18 + 7 + 6.0
	near(t, "alone", number(t, res, "alone"), sum*minute)
	near(t, "people-time", number(t, res, "handsAlone"), sum*minute)
	near(t, "gain", number(t, res, "gain"), 12*60/sum)
	for i, c := range []struct{ begin, end float64 }{
		{0, 8}, {8, 16}, {8, 23}, {16, 30}, {23, 38}, {30, 34}, {34, 46}, {38, 46}, {46, 54}, {46, 55}, {54, 63}, {63, 69}, {63, 70}, {70, 74}, {70, 77},
		{74, 92}, {77, 85}, {85, 86}, {86, 93}, {92, 98}, {98, 105}, {105, 111},
	} {
		near(t, "begins", value(t, res, "beginTwo", i), c.begin*minute)
		near(t, "ends", value(t, res, "endTwo", i), c.end*minute)
	}
	near(t, "two", number(t, res, "two"), 111*minute)
	chain := 8 + 8 + 14 + 4 + 12 + 8 + 9 + 7 + 7 + 8 + 1 + 7 + 7 + 6.0 // through the rings and the straps
	near(t, "chain", number(t, res, "longest"), chain*minute)
	near(t, "a third", number(t, res, "third"), 1-chain/111)
	for i, total := range []float64{sum, 111, chain, chain, chain, chain} {
		near(t, "people", value(t, res, "sizes", i), float64(i+1))
		near(t, "set up in", value(t, res, "spans", i), total*minute)
		near(t, "none is quicker than", value(t, res, "floors", i), max(chain, sum/float64(i+1))*minute)
		near(t, "at work", value(t, res, "busies", i), sum/float64(i+1)/total)
	}

	setUpLists(t, res)
	setUpPower(t, res)

	// Gaps: the stern's corner turned by the matrices of roll and pitch; two numbers of
	// the tables are used, the rest is given.
	sin, cos := math.Sincos(20 * deg)
	turned := func(m [3][3]float64, p [3]float64) (q [3]float64) {
		for i := range q {
			q[i] = m[i][0]*p[0] + m[i][1]*p[1] + m[i][2]*p[2]
		}
		return q
	}
	p := turned([3][3]float64{{1, 0, 0}, {0, cos, -sin}, {0, sin, cos}}, [3]float64{1.1, -0.5, 0.3})
	p[2] += 0.12
	p = turned([3][3]float64{{cos, 0, sin}, {0, 1, 0}, {-sin, 0, cos}}, p)
	near(t, "corner, rolled", number(t, res, "side"), 0.3*cos-0.5*sin)
	near(t, "corner, pitched", number(t, res, "corner"), p[2])
	near(t, "under the hull", number(t, res, "under"), 0.75+p[2]-0.17)
	near(t, "at rest", number(t, res, "level"), 1)
	near(t, "child through 6 mm", number(t, res, "byFan", 0), 0.020)
	near(t, "child through 80 mm", number(t, res, "byFence", 0), 0.900)
	near(t, "on an arm", number(t, res, "onArm"), 1900*0.3*0.1)

	// Two seats, 0.85 of them taken, every 134 s; a queue of 36 an hour before it.
	rate := 2 * 0.85 / (79 + 55)
	busy := 0.01 / rate
	near(t, "riders", number(t, res, "perHour"), rate)
	near(t, "wait", number(t, res, "wait"), busy/(2*(1-busy))/rate)
	near(t, "in a day", number(t, res, "riders"), rate*6*3600)
	allProved(t, res)
}

// column compares a column of a table with a list of its own.
func column(t *testing.T, res *runner.Result, title, head string, want ...float64) {
	t.Helper()
	for _, e := range res.Outcome.Entries {
		if e.Table == nil || e.Table.Title != title {
			continue
		}
		for _, c := range e.Table.Columns {
			if c.Head != head {
				continue
			}
			if len(c.Numbers) != len(want) {
				t.Fatalf("table %q, %s: got %d rows, want %d", title, head, len(c.Numbers), len(want))
			}
			for i, v := range c.Numbers {
				near(t, fmt.Sprintf("table %q, %s, row %d", title, head, i+1), float64(v), want[i])
			}
			return
		}
	}
	t.Errorf("no column %q in a table %q", head, title)
}

// setUpLists compares the lists of the set-up with lists written down from its pieces,
// lifts and steps.
func setUpLists(t *testing.T, res *runner.Result) {
	flange := 7850 * 0.16 * 0.16 * 0.015
	cross, outrigger, brace, mast := 6.71*5.8+flange, 6.71*0.6+1.5, 2.91*0.7, 10.3*0.42+2*flange
	stake := 7850 * math.Pi * 0.016 * 0.016 * 1.1
	near(t, "outrigger", number(t, res, "outrigger"), outrigger)
	near(t, "mast", number(t, res, "mast"), mast)
	pieces := []struct{ count, mass, box, at float64 }{ // of each kind: how many, kg, m³, m behind the front axle
		{1, 84, 1.6 * 0.8 * 0.8, 2.1}, {1, 84, 1.6 * 0.8 * 0.8, 2.1}, {2, 12, 0.5 * 0.45 * 0.45, 2.6}, {6, 3, 1.2 * 0.5 * 0.1, 2.0}, {1, cross, 0.95 * 0.95 * 0.1, 3.4},
		{4, outrigger, 0.7 * 0.2 * 0.2, 3.2}, {4, brace, 0.75 * 0.1 * 0.1, 3.2}, {1, mast, 0.45 * 0.25 * 0.25, 3.2}, {24, 10, 0.32 * 0.2 * 0.02, 3.3}, {1, 100, 0.9 * 0.9 * 0.7, 3.6},
		{1, 85, 2.6 * 0.7, 4.3}, {1, 45, 1.0 * 0.6 * 0.9, 4.9}, {2, 20, 1.2 * 0.7 * 0.25, 4.6}, {1, 18, 0.9 * 0.6 * 0.4, 4.9}, {8, 9, 2 * 0.5 * 0.02, 4.5}, {12, stake, 1.15 * 0.06 * 0.06, 5.2},
		{1, 9, 0.6 * 0.4 * 0.3, 5.3}, {1, 22, 0.6 * 0.4 * 0.9, 3.0}, {1, 8, 0.6 * 0.5 * 0.4, 2.9}, {2, 7, 0.4 * 0.4 * 0.3, 5.3}, {15, 8, 2 * 1.1 * 0.04, 3.5}, {2, 14, 0.6 * 0.4 * 0.35, 5.4},
	}
	var counts, each, all, boxes []float64
	mass, forward, aft := 0.0, 0.0, 0.0 // kg, and moments about the rear axle and the front one
	for _, p := range pieces {
		m := p.count * p.mass
		counts, each, all, boxes = append(counts, p.count), append(each, p.mass), append(all, m), append(boxes, p.count*p.box)
		mass, forward, aft = mass+m, forward+m*(3.7-p.at), aft+m*p.at
	}
	column(t, res, "Pack list", "count", counts...)
	column(t, res, "Pack list", "mass of one", each...)
	column(t, res, "Pack list", "mass of all", all...)
	column(t, res, "Pack list", "volume of all", boxes...)

	// Axles and ball: moments about the other support.
	near(t, "van", number(t, res, "borne", 2), 2200+mass)
	near(t, "front axle", number(t, res, "borne", 0), 1330+forward/3.7)
	near(t, "rear axle", number(t, res, "borne", 1), 870+aft/3.7)
	near(t, "trailer", number(t, res, "towed", 2), 620+mass)
	near(t, "tow ball", number(t, res, "towed", 0), 50+forward/3.7)
	near(t, "least on it", number(t, res, "leastNose"), 25) // 4 % would be more

	column(t, res, "Lifts, by one person", "mass", outrigger, brace, mast, 10, 12, 3, 9, stake, 9, 8, 7, 8, 14)
	const hands = "Where the hands are: height at both ends, and how far out"
	column(t, res, hands, "from", 0.7, 0.7, 0.7, 0.45, 0.7, 0.7, 0.7, 0.45, 0.7, 0.7, 0.7, 0.7, 0.7)
	column(t, res, hands, "to", 0.2, 0.75, 0.75, 0.2, 0.45, 0.9, 0.2, 0.9, 0.45, 0.75, 0.45, 0.45, 0.45)
	column(t, res, hands, "out", 0.4, 0.35, 0.35, 0.4, 0.35, 0.35, 0.4, 0.35, 0.35, 0.35, 0.35, 0.35, 0.3)

	setUpSteps(t, res)

	// Of the power, what is at the shaft over efficiency, factor and 230 V.
	column(t, res, "What draws how much", "at the shaft", 1100, 1100, 296, 116, 244, 300)
	column(t, res, "What draws how much", "efficiency", 0.78, 0.78, 0.80, 0.80, 0.80, 1)
	column(t, res, "What draws how much", "power factor", 0.90, 0.90, 0.65, 0.65, 0.65, 0.90)
	column(t, res, "What draws how much", "current", 1100/(0.78*0.9*230), 1100/(0.78*0.9*230), 296/(0.52*230), 116/(0.52*230), 244/(0.52*230), 300/(0.9*230))

	// Gaps, as given; ISO 13854 (as quoted by others): arm 120, head 300, none, finger 25 mm.
	const closing = "Gaps that close"
	column(t, res, closing, "widest", 0.260, 1, 0.004, 0.060)
	column(t, res, closing, "narrowest", 0.130, number(t, res, "under"), 0.002, 0.027)
	column(t, res, closing, "least allowed", 0.120, 0.300, 0, 0.025)
	near(t, "skiff to fence", number(t, res, "offFence"), 2.95+1.8-1.5)
	near(t, "over a fence of 1.1 m", number(t, res, "lean", 0), 1.5) // ISO 13857, table 2 (from memory), column of 1 m
	near(t, "fence and gate reach round", demand(t, res, "fence and gate reach round"), 15*2+1)
	near(t, "section of the lead, short circuit", demand(t, res, "section of the lead, short circuit"), 2.5e-6)
}

// setUpSteps follows the plan for one person: each step takes its time, begins when the
// one before ends and after all that it waits for. The bed fills by itself, and what
// does not wait for it goes on meanwhile.
func setUpSteps(t *testing.T, res *runner.Result) {
	const place, beside, bed = "look over the place, wind, pipes; mark the middle", "roll in and pin the hull", "the bed fills"
	steps := map[string]struct {
		minutes float64
		after   []string
	}{
		place: {8, nil}, "lay the boards": {8, []string{place}}, "set down the cross, pin the frame": {14, []string{"lay the boards"}},
		"level the pads": {4, []string{"set down the cross, pin the frame"}}, "lay the plates": {12, []string{"level the pads"}}, "roll in and pin the head": {8, []string{"lay the plates"}},
		beside: {9, []string{"roll in and pin the head"}}, "roll out the mattress": {6, []string{beside}}, "roll out the rings": {7, []string{beside}},
		"take up the boards":               {4, []string{"roll out the mattress", "roll out the rings"}},
		"zip the bed together, sleeves on": {7, []string{"roll out the mattress", "roll out the rings"}},
		"drive six stakes, north":          {15, []string{place}}, "drive six stakes, south": {15, []string{place}}, "pull test of the stakes": {8, []string{"drive six stakes, north", "drive six stakes, south"}},
		"straps on, loose": {8, []string{"zip the bed together, sleeves on", "pull test of the stakes"}}, "cables, cabinet, desk; test button": {9, []string{place}},
		bed: {1, []string{"straps on, loose", "cables, cabinet, desk; test button"}}, "straps taut, angles read": {7, []string{bed}}, "skirt pads": {6, []string{bed}},
		"fence, gate, signs":                                {18, []string{"take up the boards"}},
		"empty skiff through all seas, kill cord pulled":    {7, []string{"straps taut, angles read", "skirt pads", "fence, gate, signs"}},
		"dummy thrown, blower off and on, everyone's place": {6, []string{"empty skiff through all seas, kill cord pulled"}},
	}
	var what []string
	for _, e := range res.Outcome.Entries {
		if e.Table != nil && e.Table.Title == "Steps for one person" {
			what = e.Table.Columns[1].Texts
		}
	}
	if len(what) != len(steps) {
		t.Fatalf("steps for one person: got %d, want %d", len(what), len(steps))
	}
	var number, begins, ends []float64
	done := map[string]float64{}
	now := 0.0
	for i, name := range what {
		s := steps[name]
		start := now
		for _, other := range s.after {
			end, ok := done[other]
			if !ok {
				t.Errorf("%s stands before %s, for which it waits", name, other)
			}
			start = max(start, end)
		}
		done[name] = start + s.minutes*60
		if name != bed {
			now = done[name]
		}
		number, begins, ends = append(number, float64(i+1)), append(begins, start), append(ends, done[name])
	}
	column(t, res, "Steps for one person", "step", number...)
	column(t, res, "Steps for two", "step", number...)
	column(t, res, "Steps for one person", "from", begins...)
	column(t, res, "Steps for one person", "to", ends...)
}

// setUpPower works the supply again with complex powers.
func setUpPower(t *testing.T, res *runner.Result) {
	drawn := func(shaft, eta, factor float64) complex128 { return cmplx.Rect(shaft/(eta*factor), math.Acos(factor)) }
	blower := drawn(1100, 0.78, 0.9)
	drives := drawn(296+116+244, 0.8, 0.65)
	rest := drawn(300, 1, 0.9)
	all := blower + drives + rest
	I := cmplx.Abs(all) / 230
	near(t, "apparent", number(t, res, "running"), cmplx.Abs(all))
	near(t, "current", number(t, res, "I"), I)
	near(t, "blower", number(t, res, "Iblower"), cmplx.Abs(blower)/230)
	near(t, "start", number(t, res, "hardest"), 5*cmplx.Abs(blower))
	near(t, "starting", number(t, res, "Istart"), I+4*cmplx.Abs(blower)/230)
	phi := cmplx.Phase(all)
	U := 2 * I * 40 * (0.0225/2.5*math.Cos(phi) + 0.00008*math.Sin(phi))
	near(t, "lost", number(t, res, "U"), U)
	near(t, "share", number(t, res, "share"), U/230)
	loop := 0.35 + 2*0.040*7.98*(1+0.00393*50)
	near(t, "loop", number(t, res, "Zs"), loop)
	near(t, "short circuit", number(t, res, "fault"), 230/0.35)
	near(t, "section", number(t, res, "thick"), 230/0.35*math.Sqrt(0.1)/141e6)
	near(t, "leak", number(t, res, "leak"), 0.0071)
	near(t, "touch", number(t, res, "shock", 1), 150*0.03)
	near(t, "generator", number(t, res, "rating"), 8000) // 5 kVA dip by 1567/(5000+1567), 24 %; 8 kVA by 16 %
	near(t, "dip", number(t, res, "dip"), cmplx.Abs(blower)/(8000+cmplx.Abs(blower)))
	near(t, "energy", number(t, res, "energy"), real(all)*6*3600)
	near(t, "generator in use", demand(t, res, "generator in use"), max(cmplx.Abs(all)/8000, real(all)/6400))
	near(t, "back", number(t, res, "back"), 2*0.040*7.98*(1+0.00393*50))
	near(t, "behind the cabinet", number(t, res, "atCabinet"), 230/loop)
	near(t, "breaker at the socket", number(t, res, "apart"), 5*16)

	// Harmonics: of the drives' current so much is fundamental that the shares, squared
	// and added to 1, give the square of all; each order drops over n times 0.2 of the
	// generator's impedance.
	shares := []float64{0.65, 0.28, 0.09, 0.07, 0.04, 0.03, 0.02}
	squares := 0.0
	for _, s := range shares {
		squares += s * s
	}
	fundamental := cmplx.Abs(drives) / 230 / math.Sqrt(1+squares)
	dropped := 0.0
	var orders, currents []float64
	for k, s := range shares {
		n := float64(2*k + 3)
		orders, currents = append(orders, n), append(currents, s*fundamental)
		v := n * 0.2 * s * fundamental / (8000.0 / 230)
		dropped += v * v
	}
	column(t, res, "Harmonics in the lead, at most", "order", orders...)
	column(t, res, "Harmonics in the lead, at most", "current", currents...)
	column(t, res, "Harmonics in the lead, at most", "one piece of class A", 2.30, 1.14, 0.77, 0.40, 0.33, 0.21, 0.15) // IEC 61000-3-2, table 1 (from memory)
	near(t, "worst", number(t, res, "worst"), 0.65*fundamental/2.30)
	extra := fundamental * fundamental * squares
	near(t, "distortion", number(t, res, "THD"), math.Sqrt(extra/(I*I-extra)))
	near(t, "voltage", number(t, res, "bent"), math.Sqrt(dropped))

	// On three lines the currents are a third of a turn apart.
	turn := func(k float64, s complex128) complex128 {
		return cmplx.Conj(s) / 230 * cmplx.Rect(1, -2*math.Pi/3*k)
	}
	near(t, "neutral", number(t, res, "balanced", 8), cmplx.Abs(turn(0, blower)+turn(1, drives)+turn(2, rest)))
	apart := cmplx.Abs(turn(0, blower) + turn(1, drives) + turn(2, rest))
	near(t, "neutral, with harmonics", demand(t, res, "neutral, with harmonics"), math.Sqrt(apart*apart+extra)) // the drives are on one line
	near(t, "busiest", number(t, res, "balanced", 7), cmplx.Abs(blower)/230)
}
