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
		guarding.AmericanHeads().Source, guarding.ToddlerHeads().Source, guarding.Suspect(0).Rule} {
		if !strings.Contains(s, "verify against the document") {
			t.Errorf("source %q does not ask to be verified", s)
		}
	}
}
