package guarding_test

import (
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"tautline/stdlib/guarding"
	"tautline/stdlib/internal/proof"
	"tautline/stdlib/units"
)

const mm = units.Mm

// ISO 13854:2017, table 1: the least gaps, as transcribed by others.
func TestCrushGap(t *testing.T) {
	for _, c := range []struct {
		part string
		gap  float64
	}{{"body", 500}, {"head", 300}, {"leg", 180}, {"foot", 120}, {"toes", 50}, {"arm", 120}, {"hand", 100}, {"finger", 25}} {
		p := proof.Must(guarding.CrushGap(c.part))(t)
		proof.Near(t, c.part, p.Gap, c.gap*mm, 0)
		at := guarding.Closing{Name: "g", Open: 600 * mm, Closed: c.gap * mm, Parts: []string{c.part}}
		if s := proof.Must(at.Judge())(t); !s.Safe || s.Least != c.gap*mm {
			t.Errorf("%s in its least gap: got %+v, want safe", c.part, s)
		}
		at.Closed -= 0.1 * mm
		if s := proof.Must(at.Judge())(t); s.Safe || s.Caught[0] != c.part {
			t.Errorf("%s in 0.1 mm less: got %+v, want it caught", c.part, s)
		}
	}
	_, err := guarding.CrushGap("tail")
	proof.Fails(t, "tail", err, `part of the body: got "tail", want one of body, head, leg`)
}

// Gaps between two limits, read off the table by hand.
func TestClosing(t *testing.T) {
	for _, c := range []struct {
		open, closed float64
		parts        []string
		caught       string
		least        float64
	}{
		{600, 500, nil, "", 500},
		{600, 499, nil, "body", 500},
		{260, 150, nil, "body, head, leg", 500},
		{260, 150, []string{"hand", "arm", "foot"}, "", 120},
		{260, 110, []string{"hand", "arm"}, "arm", 120},
		{80, 20, []string{"finger", "toes"}, "toes, finger", 50},
		{80, 0, []string{"finger"}, "finger", 25},
		{4, 0, nil, "", 0},
		{4.1, 0, []string{"finger"}, "finger", 25},
	} {
		s := proof.Must(guarding.Closing{Open: c.open * mm, Closed: c.closed * mm, Parts: c.parts}.Judge())(t)
		if got := strings.Join(s.Caught, ", "); got != c.caught || s.Safe != (c.caught == "") || s.Least != c.least*mm {
			t.Errorf("%g to %g mm, %v: got %+v, want %q caught, least %g mm", c.open, c.closed, c.parts, s, c.caught, c.least)
		}
	}
	for _, c := range []struct {
		gap  guarding.Closing
		want string
	}{
		{guarding.Closing{Name: "hinge", Open: 10 * mm, Closed: 20 * mm}, `gap "hinge": open: got 0.01, want 0.02 to`},
		{guarding.Closing{Name: "hinge", Open: 1, Closed: math.NaN()}, `gap "hinge": closed: got NaN`},
		{guarding.Closing{Name: "hinge", Open: 1, Parts: []string{"nose"}}, `gap "hinge": part of the body: got "nose"`},
	} {
		_, err := c.gap.Judge()
		proof.Fails(t, "gap", err, c.want)
		_, err = guarding.Survey([]guarding.Closing{c.gap})
		proof.Fails(t, "gaps", err, c.want)
	}
	g := proof.Must(guarding.Survey([]guarding.Closing{{Name: "a", Open: 0.6, Closed: 0.5}, {Name: "b", Open: 0.6, Closed: 0.02, Parts: []string{"finger", "hand"}}}))(t)
	if g.Safe || len(g.Name) != 2 || g.Parts[0] != "any" || g.Parts[1] != "finger, hand" || g.Verdict[1] != "crushes hand, finger" || g.Least[1] != 100*mm {
		t.Errorf("survey: got %+v", g)
	}
}

// ISO 13857:2019, table 4: both sides of the limits between its rows.
func TestReach(t *testing.T) {
	for _, c := range []struct {
		shape               string
		width, length, want float64
	}{
		{"slot", 4, 50, 2}, {"square", 4, 0, 2}, {"round", 4, 0, 2},
		{"slot", 6, 50, 10}, {"square", 6, 0, 5}, {"round", 6, 0, 5},
		{"slot", 8, 50, 20}, {"square", 8, 0, 15}, {"round", 8, 0, 5},
		{"slot", 10, 50, 80}, {"square", 10, 0, 25}, {"round", 10, 0, 20},
		{"slot", 12, 50, 100}, {"square", 12, 0, 80}, {"round", 12, 0, 80},
		{"slot", 12.1, 50, 120}, {"square", 20, 0, 120}, {"round", 20, 0, 120},
		{"slot", 25, 60, 200}, {"slot", 25, 65, 200}, {"slot", 25, 70, 850}, {"square", 30, 0, 120}, {"round", 30, 0, 120},
		{"slot", 40, 60, 850}, {"square", 40, 0, 200}, {"round", 40, 0, 120},
		{"square", 41, 0, 850}, {"round", 41, 0, 850}, {"slot", 120, 120, 850},
	} {
		r := proof.Must(guarding.Opening{Shape: c.shape, Width: c.width * mm, Length: c.length * mm}.Reach())(t)
		proof.Near(t, c.shape, r.Distance, c.want*mm, 0)
	}
	for _, c := range []struct {
		o    guarding.Opening
		want string
	}{
		{guarding.Opening{Shape: "square", Width: 121 * mm}, "width: got 121 mm, want at most 120 mm"},
		{guarding.Opening{Shape: "heart", Width: 10 * mm}, `shape: got "heart", want slot, square or round`},
		{guarding.Opening{Shape: "slot", Width: 10 * mm, Length: 5 * mm}, "length of the slot: got 0.005"},
		{guarding.Opening{Shape: "round"}, "width: got 0"},
	} {
		_, err := c.o.Reach()
		proof.Fails(t, "reach", err, c.want)
	}
}

// ISO 13857:2019, table 7, slots.
func TestLegReach(t *testing.T) {
	for _, c := range []struct{ width, want float64 }{{36, 180}, {60, 180}, {61, 650}, {80, 650}, {81, 1100}, {95, 1100}, {180, 1100}} {
		proof.Near(t, "leg", proof.Must(guarding.Opening{Shape: "slot", Width: c.width * mm, Length: 1}.LegReach())(t).Distance, c.want*mm, 0)
	}
	_, err := guarding.Opening{Shape: "slot", Width: 181 * mm, Length: 1}.LegReach()
	proof.Fails(t, "leg", err, "want at most 180 mm")
	_, err = guarding.Opening{Shape: "round", Width: 50 * mm}.LegReach()
	proof.Fails(t, "leg", err, "want slot")
}

// A wider opening never reaches less far, a slot at least as far as a square, a
// square as a round; a child at least as far as someone grown.
func TestReachIsInOrder(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		e := rapid.Float64Range(0.5, 100).Draw(t, "width") * mm
		wider := min(e*rapid.Float64Range(1, 2).Draw(t, "by"), 100*mm)
		reach := func(shape string, width float64, call func(guarding.Opening) (guarding.Reach, error)) float64 {
			r, err := call(guarding.Opening{Shape: shape, Width: width, Length: 1})
			if err != nil {
				t.Fatal(err)
			}
			return r.Distance
		}
		last := math.Inf(1)
		for _, shape := range []string{"slot", "square", "round"} {
			grown, child := reach(shape, e, guarding.Opening.Reach), reach(shape, e, guarding.Opening.ChildReach)
			if grown > last {
				t.Errorf("%s of %g m: reaches %g, more than the shape before", shape, e, grown)
			}
			if child < grown {
				t.Errorf("%s of %g m: a child reaches %g, someone grown %g", shape, e, child, grown)
			}
			if reach(shape, wider, guarding.Opening.Reach) < grown || reach(shape, wider, guarding.Opening.ChildReach) < child {
				t.Errorf("%s of %g m: a wider one reaches less", shape, e)
			}
			last = grown
		}
	})
	_, err := guarding.Opening{Shape: "round", Width: 101 * mm}.ChildReach()
	proof.Fails(t, "child", err, "want at most 100 mm")
	short := proof.Must(guarding.Opening{Shape: "slot", Width: 20 * mm, Length: 40 * mm}.ChildReach())(t)
	proof.Near(t, "thumb stops", short.Distance, 120*mm, 0)
}

// EN 1176-1: rods of 8 and 25 mm; CPSC: 9.525 and 25.4 mm.
func TestFingers(t *testing.T) {
	for _, c := range []struct {
		rule  guarding.FingerRule
		width float64
		safe  bool
	}{
		{guarding.PlayFingers(), 7, true}, {guarding.PlayFingers(), 8, false}, {guarding.PlayFingers(), 12, false}, {guarding.PlayFingers(), 24.9, false}, {guarding.PlayFingers(), 25, true},
		{guarding.AmericanFingers(), 9.5, true}, {guarding.AmericanFingers(), 9.6, false}, {guarding.AmericanFingers(), 25.3, false}, {guarding.AmericanFingers(), 25.4, true},
	} {
		if j := c.rule.Judge(c.width * mm); j.Safe != c.safe || !strings.Contains(j.Rule, c.rule.Source) {
			t.Errorf("%g mm by %s: got %+v, want safe %v", c.width, c.rule.Name, j, c.safe)
		}
	}
}

// EN 1176-1 and CPSC pub. 325: worked by hand from the sizes of the probes.
func TestHeads(t *testing.T) {
	for _, c := range []struct {
		rule          guarding.HeadRule
		width, height float64
		safe          bool
	}{
		{guarding.PlayHeads(), 80, 400, true}, {guarding.PlayHeads(), 240, 240, true}, {guarding.PlayHeads(), 120, 200, false}, {guarding.PlayHeads(), 89, 157, false},
		{guarding.PlayHeads(), 150, 156, true}, {guarding.PlayHeads(), 229, 600, false}, {guarding.PlayHeads(), 230, 230, true},
		{guarding.AmericanHeads(), 228, 228, false}, {guarding.AmericanHeads(), 229, 229, true}, {guarding.AmericanHeads(), 80, 150, true}, {guarding.ToddlerHeads(), 80, 150, false},
	} {
		for _, j := range []guarding.Judgement{c.rule.Judge(c.width*mm, c.height*mm), c.rule.Judge(c.height*mm, c.width*mm)} {
			if j.Safe != c.safe || !strings.Contains(j.Rule, c.rule.Source) {
				t.Errorf("%g × %g mm by %s: got %+v, want safe %v", c.width, c.height, c.rule.Name, j, c.safe)
			}
		}
	}
	for _, c := range []struct {
		width float64
		safe  bool
	}{{88.9, true}, {89, false}, {228, false}, {228.6, true}} {
		if j := guarding.Suspect(c.width * mm); j.Safe != c.safe {
			t.Errorf("quick look at %g mm: got %+v, want safe %v", c.width, j, c.safe)
		}
	}
	proof.Panics(t, "guarding: HeadRule.Judge: width: got 0", func() { guarding.PlayHeads().Judge(0, 1) })
	proof.Panics(t, "guarding: FingerRule.Judge: thick rod", func() { guarding.FingerRule{Thin: 1, Thick: 0.5}.Judge(0) })
}

// Every value asks to be verified.
func TestSources(t *testing.T) {
	for _, s := range []string{guarding.CrushGaps()[0].Source, guarding.PlayFingers().Source, guarding.AmericanFingers().Source, guarding.PlayHeads().Source,
		guarding.AmericanHeads().Source, guarding.ToddlerHeads().Source, guarding.Suspect(0).Rule, guarding.PlayNecks().Source, guarding.AmericanNecks().Source,
		guarding.InflatableFingers().Source, guarding.InflatableHeads().Source, guarding.RideFences().Source, guarding.InflatableNets().Source} {
		if !strings.Contains(s, "verify against the document") {
			t.Errorf("source %q does not ask to be verified", s)
		}
	}
}

// ISO 13857:2019, tables 1 and 2 (from memory): rows read off at, between and
// beyond their heights, the worse of two always; by hand.
func TestOver(t *testing.T) {
	for _, c := range []struct {
		risk            string
		edge, low, high float64
		want            float64
	}{
		{"high", 1000, 1000, 1000, 1500}, {"high", 1100, 1000, 1000, 1500}, {"high", 1400, 1000, 1000, 1000}, {"high", 1400, 1001, 1001, 1100},
		{"high", 1800, 1400, 1400, 800}, {"high", 1800, 800, 1000, 0}, {"high", 1800, 800, 1001, 700}, {"high", 2000, 0, 1400, 0}, {"high", 2000, 0, 1401, 500}, {"high", 2500, 2400, 2400, 100},
		{"high", 2700, 0, 3000, 0}, {"high", 1000, 2700, 2700, 0}, {"high", 1000, 2650, 2650, 900}, {"high", 1600, 0, 0, 0}, {"high", 1600, 300, 700, 600},
		{"low", 1000, 1000, 1000, 1400}, {"low", 1400, 1600, 1600, 900}, {"low", 1800, 1600, 1600, 500}, {"low", 2200, 2200, 2200, 250}, {"low", 2400, 2400, 2400, 100}, {"low", 2500, 0, 2500, 0},
		{"low", 1000, 0, 500, 1200}, {"low", 1999, 1800, 1900, 600},
	} {
		r := proof.Must(guarding.Structure{Height: c.edge * mm, Risk: c.risk}.Over(c.low*mm, c.high*mm))(t)
		if math.Abs(r.Distance-c.want*mm) > 1e-12 {
			t.Errorf("%s risk, %g mm high, from %g to %g mm: got %g m, want %g mm", c.risk, c.edge, c.low, c.high, r.Distance, c.want)
		}
	}
	for _, c := range []struct {
		s         guarding.Structure
		low, high float64
		want      string
	}{
		{guarding.Structure{Height: 0.9, Risk: "low"}, 0, 1, "structure: height of the structure: got 0.9, want 1 to"},
		{guarding.Structure{Height: 1, Risk: "some"}, 0, 1, `risk: got "some", want "low" or "high"`},
		{guarding.Structure{Height: 1, Risk: "low"}, 2, 1, "highest of what hurts: got 1, want 2 to"},
	} {
		_, err := c.s.Over(c.low, c.high)
		proof.Fails(t, "over", err, c.want)
	}
}

// Nobody reaches farther over a higher structure, or farther for what hurts less;
// what reaches over more heights is reached from at least as far. No one reaches
// farther than a tall person's arm and hips do: a shoulder 1.6 m high that leans
// over the edge, hips 1 m high at the edge, an arm of 0.85 m: within 1.5 m.
func TestOverIsInOrder(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		edge := rapid.Float64Range(1, 2.8).Draw(t, "edge")
		low := rapid.Float64Range(0, 2.9).Draw(t, "low")
		high := low + rapid.Float64Range(0, 1).Draw(t, "span")
		over := func(risk string, edge, low, high float64) float64 {
			r, err := guarding.Structure{Height: edge, Risk: risk}.Over(low, high)
			if err != nil {
				t.Fatal(err)
			}
			return r.Distance
		}
		least, most := over("low", edge, low, high), over("high", edge, low, high)
		if least > most || most > 1.5 {
			t.Errorf("over %g m for %g to %g m: low risk %g m, high risk %g m", edge, low, high, least, most)
		}
		for _, risk := range []string{"low", "high"} {
			if over(risk, edge+0.2, low, high) > over(risk, edge, low, high) {
				t.Errorf("%s: over a higher edge than %g m more is reached", risk, edge)
			}
			if over(risk, edge, low, high+0.1) < over(risk, edge, low, high) {
				t.Errorf("%s: more heights, less reach", risk)
			}
		}
	})
}

// ISO 13857:2019, 4.2.1 and table 3 (from memory). The reach through the widest
// opening of table 4 is that of the whole arm.
func TestUpAndAround(t *testing.T) {
	proof.Near(t, "low", proof.Must(guarding.Up("low"))(t).Distance, 2.5, 0)
	proof.Near(t, "high", proof.Must(guarding.Up("high"))(t).Distance, 2.7, 0)
	for risk, rows := range map[string]float64{"low": 2.5, "high": 2.7} {
		r := proof.Must(guarding.Structure{Height: 1, Risk: risk}.Over(rows, 5))(t)
		proof.Near(t, "over, where nobody reaches up", r.Distance, 0, 0)
	}
	for joint, want := range map[string]float64{"shoulder": 850, "elbow": 550, "wrist": 230, "knuckles": 130} {
		proof.Near(t, joint, proof.Must(guarding.Around(joint))(t).Distance, want*mm, 1e-12)
	}
	arm := proof.Must(guarding.Opening{Shape: "square", Width: 120 * mm}.Reach())(t)
	proof.Near(t, "whole arm", arm.Distance, proof.Must(guarding.Around("shoulder"))(t).Distance, 0)
	_, err := guarding.Up("middling")
	proof.Fails(t, "up", err, `risk: got "middling"`)
	_, err = guarding.Around("neck")
	proof.Fails(t, "around", err, `joint: got "neck", want shoulder`)
}

// Notches worked by hand from the two tapers. In a V of 200 mm mouth and 200 mm depth
// the width is 200 - z, the angle 2·atan(1/2). Its sides lean more than those of a
// probe that widens by 81 mm on 105 mm (38.6 % a side against 50 %), so the probe
// stands on its tip of 75 mm: 125 mm deep. A V of 400 mm depth leans less, 25 %: it
// meets the end of the taper or the mouth first.
func TestNotches(t *testing.T) {
	rule := guarding.PlayNecks()
	v := guarding.Notch{Mouth: 200 * mm, Depth: 200 * mm}
	proof.Near(t, "angle", v.Angle(), 53.130102*units.Deg, 1e-8)
	proof.Near(t, "tip", rule.Stands(v), 125*mm, 1e-9)
	// Width 200 - z/2 at the end of the taper, 105 mm above the tip, is 156: z = 193.
	deep := guarding.Notch{Mouth: 200 * mm, Depth: 400 * mm}
	proof.Near(t, "end of the taper", rule.Stands(deep), 193*mm, 1e-8) // widths compare within 1e-9
	// A mouth of 100 mm meets the taper at its own width: (100 - 75)/81·105 above the tip.
	narrow := guarding.Notch{Mouth: 100 * mm, Depth: 400 * mm}
	proof.Near(t, "mouth", rule.Stands(narrow), 25*mm*105/81, 1e-8)
	for _, c := range []struct {
		n             guarding.Notch
		safe, america bool
	}{
		{v, false, false}, {deep, false, false}, {narrow, false, false},
		{guarding.Notch{Mouth: 44 * mm, Depth: 100 * mm}, true, true},                    // narrower than a neck
		{guarding.Notch{Mouth: 46 * mm, Depth: 100 * mm}, false, true},                   // between 45 mm and 1.875 in
		{guarding.Notch{Mouth: 160 * mm, Base: 160 * mm, Depth: 300 * mm}, true, true},   // a slot as wide as a head
		{guarding.Notch{Mouth: 150 * mm, Base: 150 * mm, Depth: 300 * mm}, false, false}, // one that is not
		{guarding.Notch{Mouth: 240 * mm, Base: 80 * mm, Depth: 100 * mm}, true, true},    // a tray: the tip meets its base
		{guarding.Notch{Mouth: 240 * mm, Depth: 200 * mm}, false, true},                  // sides 61.9° apart: no angle is exempt in Europe
		{guarding.Notch{Mouth: 200 * mm, Depth: 193 * mm}, false, false},                 // 54.8°
	} {
		if j := rule.Judge(c.n); j.Safe != c.safe || !strings.Contains(j.Rule, rule.Source) {
			t.Errorf("%+v by %s: got %+v, want safe %v", c.n, rule.Name, j, c.safe)
		}
		if j := guarding.AmericanNecks().Judge(c.n); j.Safe != c.america {
			t.Errorf("%+v in America: got %+v, want safe %v", c.n, j, c.america)
		}
	}
	proof.Panics(t, "guarding: NeckRule.Judge: notch: base: got 2, want 0 to 1", func() { rule.Judge(guarding.Notch{Mouth: 1, Base: 2, Depth: 1}) })
	proof.Panics(t, "guarding: NeckRule.Stands: rule: neck", func() { guarding.NeckRule{}.Stands(v) })
	proof.Formulas(t, []proof.Call{proof.Of("Notch.Angle", guarding.Notch.Angle, [][]any{{v}, {deep}, {guarding.Notch{Mouth: 0.3, Base: 0.1, Depth: 0.05}}})})
}

// Slid down in small steps with the whole outline compared, the probe stands where
// the library says.
func TestStandsByOutline(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		mouth := rapid.Float64Range(0.05, 0.4).Draw(t, "mouth")
		n := guarding.Notch{Mouth: mouth, Base: mouth * rapid.Float64Range(0, 1).Draw(t, "base"), Depth: rapid.Float64Range(0.02, 0.6).Draw(t, "depth")}
		r := guarding.PlayNecks()
		const step = 0.5e-3
		depth := 0.0
		for z := step; z < n.Depth; z += step {
			fits := true
			for s := 0.0; s <= z; s += step {
				wide := min(r.Tip+(r.Wide-r.Tip)*s/r.Taper, r.Wide)
				fits = fits && wide <= n.Mouth-(n.Mouth-n.Base)*(z-s)/n.Depth
			}
			if !fits {
				break
			}
			depth = z
		}
		if got := r.Stands(n); math.Abs(got-depth) > 3*step {
			t.Errorf("%+v: got %g m, want %g m within %g m", n, got, depth, 3*step)
		}
	})
}

// ASTM F2291: 101.6 mm; EN 14960-1: 30 mm (both from memory). Either way round.
func TestBalls(t *testing.T) {
	for _, c := range []struct {
		rule          guarding.BallRule
		width, height float64
		safe          bool
	}{{guarding.RideFences(), 101.6, 900, true}, {guarding.RideFences(), 900, 101.7, false}, {guarding.InflatableNets(), 30, 30, true}, {guarding.InflatableNets(), 31, 40, false}} {
		if j := c.rule.Judge(c.width*mm, c.height*mm); j.Safe != c.safe || !strings.Contains(j.Rule, c.rule.Source) {
			t.Errorf("%g × %g mm by %s: got %+v, want safe %v", c.width, c.height, c.rule.Name, j, c.safe)
		}
	}
	proof.Panics(t, "guarding: BallRule.Judge: ball: got 0", func() { guarding.BallRule{}.Judge(1, 1) })
}
