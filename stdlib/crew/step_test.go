package crew_test

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"tautline/stdlib/crew"
	"tautline/stdlib/internal/proof"
	"tautline/stdlib/sheet"
	"tautline/stdlib/units"
)

const minute = units.Min

// A tent for two, worked by hand on squared paper. Alone everything adds up; two
// share it, but the blower fills by itself and the end waits for it.
var tent = []crew.Step{
	{Name: "unroll", Time: 4 * minute, People: 1},
	{Name: "fill", After: []string{"unroll"}, Time: 10 * minute},
	{Name: "stakes", Time: 8 * minute, People: 1},
	{Name: "straps", After: []string{"fill", "stakes"}, Time: 6 * minute, People: 1},
	{Name: "look", After: []string{"straps"}, Time: 2 * minute, People: 1},
}

func TestArrangeByHand(t *testing.T) {
	one := proof.Must(crew.Arrange(tent, 1))(t)
	proof.Near(t, "alone", one.Total, 22*minute, 1e-12)
	proof.Near(t, "work", one.Work, 20*minute, 1e-12)
	proof.Near(t, "least", one.Least, 22*minute, 1e-12)
	proof.Near(t, "busy", one.Busy, 20.0/22, 1e-12)
	if got := strings.Join(one.Chain, " "); got != "unroll fill straps look" {
		t.Errorf("chain: got %s", got)
	}
	if got := fmt.Sprint(one.Name, one.Who, one.After); got != "[unroll fill stakes straps look] [A nobody A A A] [ 1  2, 3 4]" {
		t.Errorf("alone: got %s", got)
	}
	proof.Near(t, "spare of the stakes", one.Spare[2], 2*minute, 1e-12)
	two := proof.Must(crew.Arrange(tent, 2))(t)
	proof.Near(t, "two", two.Total, 22*minute, 1e-12)
	if got := fmt.Sprint(two.Name, two.Who); got != "[unroll stakes fill straps look] [A B nobody A A]" {
		t.Errorf("two: got %s", got)
	}
	heavy := slices.Clone(tent)
	heavy[0].People = 2
	both := proof.Must(crew.Arrange(heavy, 2))(t)
	if got := both.Who[0]; got != "A and B" {
		t.Errorf("who: got %s, want A and B", got)
	}
	_, err := crew.Arrange(heavy, 1)
	proof.Fails(t, "alone", err, `step "unroll": people: got 2, want at most the 1 of the crew: find another way`)
}

// A step that is worth waiting for: the longest chain goes first although it stands
// last in the list. Worked by hand: 1+9 for A and 3·3 for B, against 12 and more.
func TestArrangeTakesTheLongChainFirst(t *testing.T) {
	steps := []crew.Step{
		{Name: "a", Time: 3 * minute, People: 1}, {Name: "b", Time: 3 * minute, People: 1}, {Name: "c", Time: 3 * minute, People: 1},
		{Name: "long", After: []string{"short"}, Time: 9 * minute, People: 1}, {Name: "short", Time: 1 * minute, People: 1},
	}
	s := proof.Must(crew.Arrange(steps, 2))(t)
	proof.Near(t, "total", s.Total, 10*minute, 1e-12)
}

func TestArrangeRefuses(t *testing.T) {
	for _, c := range []struct {
		steps  []crew.Step
		people float64
		want   string
	}{
		{nil, 1, "steps: got 0, want 1 to 500"},
		{tent, 1.5, "people: got 1.5, want a whole number"},
		{tent, 0, "people: got 0, want 1 to 26"},
		{[]crew.Step{{Time: 1}}, 1, `step 1: name: got ""`},
		{[]crew.Step{{Name: "a", Time: 1}, {Name: "a", Time: 1}}, 1, `step 2: name: got "a", want one of its own`},
		{[]crew.Step{{Name: "a"}}, 1, `step "a": time: got 0`},
		{[]crew.Step{{Name: "a", Time: math.NaN()}}, 1, `step "a": time: got NaN`},
		{[]crew.Step{{Name: "a", Time: 1, After: []string{"z"}}}, 1, `step "a": after: got "z", want the name of a step`},
		{[]crew.Step{{Name: "a", Time: 1, After: []string{"b"}}, {Name: "b", Time: 1, After: []string{"a"}}, {Name: "c", Time: 1}}, 1, "steps: a, b: got a ring"},
	} {
		_, err := crew.Arrange(c.steps, c.people)
		proof.Fails(t, "arrange", err, c.want)
	}
}

// draw makes up to n steps that wait for earlier ones, in whole seconds.
func draw(t *rapid.T, n, people int) []crew.Step {
	var steps []crew.Step
	for i := range rapid.IntRange(1, n).Draw(t, "steps") {
		s := crew.Step{Name: fmt.Sprint(i), Time: float64(rapid.IntRange(1, 9).Draw(t, "time")), People: float64(rapid.IntRange(0, people).Draw(t, "people"))}
		for j := range i {
			if rapid.IntRange(0, 3).Draw(t, "waits") == 0 {
				s.After = append(s.After, fmt.Sprint(j))
			}
		}
		steps = append(steps, s)
	}
	return steps
}

// follows fails where a schedule is not one of the steps: no step before its turn,
// nobody in two places, times kept, bounds kept.
func follows(t *rapid.T, steps []crew.Step, people int, s crew.Schedule) {
	at := map[string]int{}
	for k, name := range s.Name {
		at[name] = k
	}
	work, end := 0.0, 0.0
	for _, step := range steps {
		k := at[step.Name]
		work += step.Time * step.People
		end = max(end, s.End[k])
		if s.End[k]-s.Begin[k] != step.Time || s.Begin[k] < 0 || s.Spare[k] < 0 {
			t.Errorf("step %s: from %g to %g, spare %g, want %g long", step.Name, s.Begin[k], s.End[k], s.Spare[k], step.Time)
		}
		for _, name := range step.After {
			if s.End[at[name]] > s.Begin[k] {
				t.Errorf("step %s begins at %g, before %s ends at %g", step.Name, s.Begin[k], name, s.End[at[name]])
			}
		}
		hands := strings.Count(s.Who[k], ",") + strings.Count(s.Who[k], "and") + 1
		if s.Who[k] == "nobody" {
			hands = 0
		}
		if float64(hands) != step.People {
			t.Errorf("step %s: done by %s, want %g people", step.Name, s.Who[k], step.People)
		}
	}
	for k := range s.Name {
		for l := range k {
			for p := range people {
				letter := string(rune('A' + p))
				if strings.Contains(s.Who[k], letter) && strings.Contains(s.Who[l], letter) && s.Begin[k] < s.End[l] && s.Begin[l] < s.End[k] {
					t.Errorf("%s does %s and %s at once", letter, s.Name[k], s.Name[l])
				}
			}
		}
	}
	if s.Total != end || math.Abs(s.Work-work) > 1e-9 || s.Total < s.Least-1e-9 {
		t.Errorf("total %g, work %g, least %g: want %g, %g and no less than the least", s.Total, s.Work, s.Least, end, work)
	}
	chain := 0.0
	for i, name := range s.Chain {
		k := at[name]
		chain += s.End[k] - s.Begin[k]
		if i > 0 && s.End[at[s.Chain[i-1]]] > s.Begin[k] {
			t.Errorf("chain %v does not follow", s.Chain)
		}
	}
	if s.Least < chain-1e-9 {
		t.Errorf("least %g is under the chain's %g", s.Least, chain)
	}
}

// Where every step takes one person or none, a moment with idle hands always
// shortens the longest chain left: the whole takes no longer than the work shared
// by all and that chain (Graham, 1969). Alone and without waiting it is the sum.
func TestArrangeIsInBounds(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		people := rapid.IntRange(1, 4).Draw(t, "crew")
		steps := draw(t, 14, 1)
		s, err := crew.Arrange(steps, float64(people))
		if err != nil {
			t.Fatal(err)
		}
		follows(t, steps, people, s)
		chain := 0.0
		for _, name := range s.Chain {
			k := slices.Index(s.Name, name)
			chain += s.End[k] - s.Begin[k]
		}
		if s.Total > s.Work/float64(people)+chain+1e-9 {
			t.Errorf("total %g is over %g of work for %d and a chain of %g", s.Total, s.Work, people, chain)
		}
		sum := 0.0
		for i := range steps {
			steps[i].People = 1
			sum += steps[i].Time
		}
		alone, err := crew.Arrange(steps, 1)
		if err != nil {
			t.Fatal(err)
		}
		if alone.Total != sum {
			t.Errorf("alone: got %g, want the sum %g", alone.Total, sum)
		}
	})
}

// shortest tries every order of the steps, each as early as its turn and hands let
// it: one of them is the shortest of all plans.
func shortest(steps []crew.Step, people int) float64 {
	best := math.Inf(1)
	end := map[string]float64{}
	var use []float64 // people at work in each second
	var place func(left int, total float64)
	place = func(left int, total float64) {
		if total >= best {
			return
		}
		if left == 0 {
			best = total
			return
		}
	next:
		for _, s := range steps {
			if _, done := end[s.Name]; done {
				continue
			}
			from := 0.0
			for _, name := range s.After {
				e, done := end[name]
				if !done {
					continue next
				}
				from = max(from, e)
			}
			fits := func(from int) bool {
				for k := range int(s.Time) {
					if use[from+k]+s.People > float64(people) {
						return false
					}
				}
				return true
			}
			at := int(from)
			for !fits(at) {
				at++
			}
			for k := range int(s.Time) {
				use[at+k] += s.People
			}
			end[s.Name] = float64(at) + s.Time
			place(left-1, max(total, end[s.Name]))
			delete(end, s.Name)
			for k := range int(s.Time) {
				use[at+k] -= s.People
			}
		}
	}
	use = make([]float64, 200)
	place(len(steps), 0)
	return best
}

// Against every order there is, of up to six steps: never shorter than the
// shortest, and the shortest in nine of ten.
func TestArrangeAgainstEveryOrder(t *testing.T) {
	tried, met := 0, 0
	rapid.Check(t, func(t *rapid.T) {
		people := rapid.IntRange(1, 3).Draw(t, "crew")
		steps := draw(t, 6, people)
		s, err := crew.Arrange(steps, float64(people))
		if err != nil {
			t.Fatal(err)
		}
		follows(t, steps, people, s)
		least := shortest(steps, people)
		if s.Total < least || s.Least > least+1e-9 {
			t.Errorf("got %g, least %g: the shortest is %g", s.Total, s.Least, least)
		}
		tried++
		if s.Total == least {
			met++
		}
	})
	if met*10 < tried*9 {
		t.Errorf("the shortest plan in %d of %d, want nine of ten", met, tried)
	}
}

// A chart of a bar for each step, of a look for each who, and upright lines at
// whole steps of time.
func TestChart(t *testing.T) {
	d := new(sheet.Sheet).NewDrawing("chart")
	proof.Must(crew.Arrange(tent, 1))(t).Draw(d)
	bars, lines := map[string]int{}, 0
	for _, s := range d.Shapes {
		switch s.Kind {
		case sheet.ShapeArea:
			bars[s.Name]++
			if s.Name == "nobody" && (math.Abs(float64(s.X[0])-4.0/22) > 1e-12 || math.Abs(float64(s.X[1])-14.0/22) > 1e-12) {
				t.Errorf("the bed fills from %g to %g of the width, want 4/22 to 14/22", s.X[0], s.X[1])
			}
		case sheet.ShapeThin:
			lines++
		}
	}
	if bars["A"] != 4 || bars["nobody"] != 1 || lines != 5 || !d.Free {
		t.Errorf("got bars %v and %d lines, want 4 of A, 1 of nobody, lines at 0, 5, 10, 15, 20", bars, lines)
	}
}

// Worked by hand.
func TestPack(t *testing.T) {
	van := crew.Vehicle{Name: "van", Payload: 1000, Long: 3, Wide: 1.7, High: 1.8, Door: 1.5, Lintel: 1.7, Fill: 0.6}
	pieces := []crew.Piece{
		{Name: "bed", Count: 1, Mass: 210, Long: 1.6, Wide: 0.9, High: 0.9},
		{Name: "plates", Count: 24, Mass: 10, Long: 0.3, Wide: 0.3, High: 0.02},
	}
	p := proof.Must(van.Pack(pieces))(t)
	proof.Near(t, "mass", p.Mass, 450, 1e-12)
	proof.Near(t, "volume", p.Volume, 1.6*0.81+24*0.0018, 1e-12)
	proof.Near(t, "share of mass", p.MassShare, 0.45, 1e-12)
	proof.Near(t, "share of volume", p.VolumeShare, (1.6*0.81+24*0.0018)/(0.6*9.18), 1e-12)
	proof.Near(t, "pieces", p.Pieces(), 25, 0)
	if !p.Fits() || len(p.Warnings) != 0 || fmt.Sprint(p.Heavier(20)) != "[bed]" || p.Most != 210 {
		t.Errorf("got %+v", p)
	}
	pole := append(pieces, crew.Piece{Name: "pole", Count: 1, Mass: 5, Long: 3.2, Wide: 0.1, High: 0.1}, crew.Piece{Name: "hull", Count: 1, Mass: 800, Long: 2.6, Wide: 1.6, High: 1.6})
	q := proof.Must(van.Pack(pole))(t)
	if q.Fits() || fmt.Sprint(q.Misfits) != "[pole hull]" || len(q.Warnings) != 4 {
		t.Errorf("too much: got misfits %v, warnings %q", q.Misfits, q.Warnings)
	}
	_, err := van.Pack([]crew.Piece{{Name: "bed", Count: 1.5}})
	proof.Fails(t, "half", err, `piece "bed": count: got 1.5, want a whole number`)
	_, err = van.Pack(nil)
	proof.Fails(t, "none", err, `vehicle "van": pieces: got none`)
	van.Fill = 0
	_, err = van.Pack(pieces)
	proof.Fails(t, "fill", err, `vehicle "van": fill: got 0`)
}
