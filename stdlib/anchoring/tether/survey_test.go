package tether_test

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"tautline/stdlib/anchoring"
	"tautline/stdlib/anchoring/holding"
	"tautline/stdlib/anchoring/tether"
	"tautline/stdlib/anchoring/windload"
	"tautline/stdlib/internal/proof"
	"tautline/stdlib/units"
)

// heavy is a round bed so heavy and stiff that it only slides, on n like anchors
// at 40° without friction.
func heavy(n float64) tether.Set {
	wind := anchoring.PlayInflatableWind()
	ring := tether.Ring{Number: n, Eye: 2.95, Height: 0.7, Angle: 40 * units.Deg, Holding: 1600, Stiffness: 1e5}
	return tether.Set{Anchors: ring.Anchors(), Feet: tether.RoundBase(2.6, 12, 1e11, 0), Faces: windload.Ring(2.95, 0, 1.4, wind.Coefficient),
		Mass: 1e5, Density: wind.Density, Factors: anchoring.Factors{PermanentFavourable: 1, Wind: 1.2}}
}

// With all straps radial and alike, one at an angle a from the wind stretches by
// the movement times cos(a), and only those on the windward side pull. So with
// eight, the wind along one of them, that one carries F/(2·cos θ), and F·cos 45°/
// cos θ falls on either neighbour when it is lost; the wind between two puts
// F·cos 22.5°/(2·cos θ) on each. With a neighbour lost, the wind along a strap puts
// 0.75·F/cos θ on it: the ring also moves sideways, by a third. Worked by hand.
func TestRingOfRadialStraps(t *testing.T) {
	set := heavy(8)
	F := 1.2 * 114.5853 * 5.9 * 1.4 / math.Cos(40*units.Deg)
	along := proof.Must(set.Solve(11.1, 0))(t)
	proof.Near(t, "strap in the wind", along.Tension[0], F/2, 1e-6)
	proof.Near(t, "its neighbour", along.Tension[1], F/2*math.Cos(45*units.Deg), 1e-6)
	proof.Near(t, "utilisation", along.Utilisation, F/2/1600, 1e-6)
	if along.Governs != "1" || along.State != tether.StateSlid {
		t.Errorf("got %q governing, state %q", along.Governs, along.State)
	}
	if math.Abs(along.Tension[2]) > 1e-3 || along.Tension[4] != 0 {
		t.Errorf("straps beside and behind pull: %v", along.Tension)
	}
	rest := proof.Must(set.Without("1"))(t)
	proof.Near(t, "neighbour of the lost one", proof.Must(rest.Solve(11.1, 0))(t).Tension[0], F*math.Cos(45*units.Deg), 1e-6)
	wide := 5.9 / 2 * 2 * 1.4 / math.Cos(math.Pi/72) // the faces' corner to the wind
	between := proof.Must(set.Solve(11.1, 22.5*units.Deg))(t)
	proof.Near(t, "wind between two", between.Tension[0], 1.2*114.5853*wide/math.Cos(40*units.Deg)/2*math.Cos(22.5*units.Deg), 1e-6)

	round := proof.Must(set.Survey(11.1, 8))(t)
	proof.Near(t, "greatest", round.Greatest, F/2/1600, 1e-6)
	proof.Near(t, "next", round.Next, F/2/1600, 1e-6) // every anchor in turn faces the wind
	proof.Near(t, "greatest with one lost", round.GreatestOneLost, 0.75*F/1600, 1e-6)
	for i := range 8 {
		proof.Near(t, "tension", round.Tension[i], F/2, 1e-6)
		proof.Near(t, "tension with one lost", round.TensionOneLost[i], 0.75*F, 1e-6)
		proof.Near(t, "loss", round.LossOf[i], 0.75*F/1600, 1e-6)
		proof.Near(t, "by bearing", round.OneLost[i], 0.75*F/1600, 1e-6)
	}

	safe := proof.Must(set.SafeWind(8))(t)
	v := 11.1 * math.Sqrt(1600/(F/2))
	proof.Near(t, "safe wind", safe.AllSet[0], v, 1e-4)
	proof.Near(t, "to a tenth", safe.Speed, math.Floor(v*10)/10, 1e-12)
	proof.Near(t, "safe wind with one lost", safe.OneLost[0], 11.1*math.Sqrt(1600/(0.75*F)), 1e-4)
	if safe.How != "anchor 1 gives way" || !strings.HasPrefix(safe.HowOneLost, "anchor ") {
		t.Errorf("got %q and %q", safe.How, safe.HowOneLost)
	}
}

// The found wind is safe and one a little higher is not, from every side, with
// feet that may lift and feet that may not. Near the end of what friction can
// hold, a device may count as lost in a wind between two in which it stands: such
// draws are counted, and have to be rare.
func TestSafeWindIsTheLimit(t *testing.T) {
	odd := 0
	rapid.Check(t, func(t *rapid.T) {
		rough := rapid.Bool().Draw(t, "rough")
		set := drawSet(t, 4, 5, rough)
		set.Mass += 50
		set.Faces = windload.Box(3, 2, rapid.Float64Range(0.5, 2).Draw(t, "high"), 0.3, 1.5)
		set.MayLift = rapid.Bool().Draw(t, "may lift")
		safe, err := set.SafeWind(2)
		if err != nil {
			t.Fatal(err)
		}
		holds := func(v, from float64) bool {
			h, err := set.Solve(v, from)
			if err != nil {
				t.Fatal(err)
			}
			return h.Stands && h.Utilisation <= 1+1e-6 && (set.MayLift || h.Lifted == 0)
		}
		for i, from := range safe.Bearings {
			v := safe.AllSet[i]
			low, high := v == 0 || holds(0.999*v, from), v == 0 || v == tether.HighestTried || !holds(v+1e-3, from)
			if rough && !(low && high) {
				odd++
			} else if !low || !high {
				t.Errorf("%.4f m/s from %.2f is called the limit: just below holds %v, just above fails %v: %s", v, from, low, high, safe.How)
			}
			if safe.Speed > v+1e-3 {
				t.Errorf("safe wind %.1f m/s is above %.4f m/s from %.2f", safe.Speed, v, from)
			}
		}
	})
	if odd > 2 {
		t.Errorf("with friction, %d limits of some hundred are none", odd)
	}
}

// The whole site turned by a quarter gives the answer turned.
func TestTurnedSite(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		set := drawSet(t, 4, 8, rapid.Bool().Draw(t, "rough"))
		set.Mass += 50
		set.Faces = windload.Box(3, 2, 1.5, 0.3, 1.5)
		set.Slope, set.Uphill = rapid.Float64Range(0, 0.1).Draw(t, "slope"), 0.4
		quarter := func(p anchoring.Point) anchoring.Point { return anchoring.Point{X: p.Y, Y: -p.X, Z: p.Z} } // clockwise
		turned := set
		turned.Anchors, turned.Feet = nil, nil
		for _, a := range set.Anchors {
			a.Eye, a.Ground = quarter(a.Eye), quarter(a.Ground)
			turned.Anchors = append(turned.Anchors, a)
		}
		for _, f := range set.Feet {
			f.At = quarter(f.At)
			turned.Feet = append(turned.Feet, f)
		}
		turned.Faces, turned.Uphill, turned.Centre = windload.Box(3, 2, 1.5, 0.3+math.Pi/2, 1.5), 0.4+math.Pi/2, quarter(set.Centre)
		for _, from := range windload.Bearings(3) {
			a, err := set.Solve(12, from)
			b, err2 := turned.Solve(12, from+math.Pi/2)
			if err != nil || err2 != nil {
				t.Fatal(err, err2)
			}
			if a.State != b.State {
				t.Fatalf("state %q, turned %q", a.State, b.State)
			}
			for i := range a.Tension {
				if math.Abs(a.Tension[i]-b.Tension[i]) > 1e-6*(a.Utilisation*5000+1000) {
					t.Errorf("anchor %d: %g N, turned %g N", i, a.Tension[i], b.Tension[i])
				}
			}
		}
	})
}

// AnchorsNeeded finds the first number that holds; the masses are those of
// equilibrium.
func TestNeeded(t *testing.T) {
	set := heavy(3)
	ring := tether.Ring{Eye: 2.95, Height: 0.7, Angle: 40 * units.Deg, Holding: 1600, Stiffness: 1e5}
	need := proof.Must(set.AnchorsNeeded(ring, 14, 24))(t)
	for k, want := range map[float64]bool{need.Number: true, need.Number - 1: false} {
		ring.Number = k
		set.Anchors = ring.Anchors()
		v := proof.Must(set.Survey(14, 24))(t)
		if got := v.Greatest <= 1 && v.GreatestOneLost <= 1; got != want {
			t.Errorf("%g anchors: hold %v, want %v", k, got, want)
		}
	}
	_, err := set.AnchorsNeeded(ring, 200, 4)
	proof.Fails(t, "storm", err, "200 are not enough in a wind of 200.0 m/s")

	set = heavy(8)
	masses := proof.Must(set.Ballast([]float64{1600, 0, 0, 0, 0, 0, 0, 800}, 0.4, 1))(t)
	sin, cos := math.Sincos(40 * units.Deg)
	proof.Near(t, "ballast", masses[0], 1600*(cos/0.4+sin)/9.80665, 1e-12)
	proof.Near(t, "half of it", masses[7], masses[0]/2, 1e-12)
	// On a slope of 5 %, uphill to anchor 1: its ballast is dragged downhill, that of
	// anchor 5 uphill; the others are in between. Worked by hand along the slope.
	set.Slope = math.Atan(0.05)
	all := []float64{1600, 1600, 1600, 1600, 1600, 1600, 1600, 1600}
	masses = proof.Must(set.Ballast(all, 0.4, 1))(t)
	fall, square := math.Sincos(set.Slope)
	proof.Near(t, "ballast uphill", masses[0], 1600*(cos+0.4*sin)/(0.4*square-fall)/9.80665, 1e-12)
	proof.Near(t, "ballast downhill", masses[4], 1600*(cos+0.4*sin)/(0.4*square+fall)/9.80665, 1e-12)
	W := masses[2] * 9.80665 // across the slope the two forces are square to each other
	proof.Near(t, "ballast across", math.Hypot(1600*cos, W*fall), 0.4*(W*square-1600*sin), 1e-12)
	if !(masses[0] > masses[1] && masses[1] > masses[2] && masses[2] > masses[3] && masses[3] > masses[4]) {
		t.Errorf("ballast round a slope: got %v", masses)
	}
	for i := range masses { // what holds by itself holds less: holding.Ballast takes the worst side
		if got := proof.Must(holding.Ballast{Mass: masses[i], Friction: 0.4, Slope: set.Slope}.Holds(40 * units.Deg))(t).Tension; got > 1600*(1+1e-12) {
			t.Errorf("anchor %d: %g kg hold %g N, more than the 1600 N asked", i+1, masses[i], got)
		}
	}
	_, err = set.Ballast(all, 0.04, 1)
	proof.Fails(t, "ice on a slope", err, "must not slide by itself on the slope): got 0.04, want more than 0.05")
	_, err = set.Ballast([]float64{1}, 0.4, 1)
	proof.Fails(t, "one tension", err, "tensions: got 1, want one for each of 8 anchors")

	// A block of 5 m by 4 m, 3 m high, by EN 1990: 1.460556 of 150 kg, worked by hand.
	wind := anchoring.PlayInflatableWind()
	block := tether.Set{Feet: tether.BoxBase(5, 4, 0, 1e7, 10), Faces: windload.Box(5, 4, 3, 0, wind.Coefficient), Density: wind.Density, Factors: anchoring.EquilibriumFactors()}
	need = proof.Must(block.MassNeeded(wind.Speed, 4))(t)
	proof.Near(t, "mass against tipping", need.Mass, math.Ceil(1.460556*150), 0)
	block.Feet = tether.BoxBase(5, 4, 0, 1e7, 0)
	_, err = block.MassNeeded(wind.Speed, 4)
	proof.Fails(t, "on ice", err, "1000 t are not enough")
}

// On a slope without friction the straps hold the weight's share along it.
func TestSlope(t *testing.T) {
	set := tether.Set{Density: 1.25, Factors: plain(), Mass: 1000, Slope: 5 * units.Deg, Uphill: 90 * units.Deg, Feet: tether.BoxBase(2, 2, 0, 1e9, 0),
		Anchors: []tether.Anchor{{Name: "1", Eye: anchoring.Point{X: 1}, Ground: anchoring.Point{X: 2}, Holding: 1e4, Stiffness: 1e5}}}
	h := proof.Must(set.Solve(0, 0))(t)
	proof.Near(t, "strap uphill", h.Tension[0], 1000*units.Gn*math.Sin(5*units.Deg), 1e-9)
	set.Uphill = 270 * units.Deg
	if h := proof.Must(set.Solve(0, 0))(t); h.State != tether.StateSlides {
		t.Errorf("strap downhill: got %q, want %q", h.State, tether.StateSlides)
	}
}

// Each way of being lost has its name, and every doubtful input its warning.
func TestStates(t *testing.T) {
	set := tether.Set{Density: 1.25, Factors: plain(), Mass: 100, Feet: tether.BoxBase(2, 2, 0, 1e6, 0.5)}
	for _, c := range []struct {
		load windload.Load
		want string
	}{
		{windload.Load{}, tether.StateStands},
		{windload.Load{North: 100}, tether.StateStands},
		{windload.Load{North: 600}, tether.StateSlides},
		{windload.Load{Lift: 1100}, tether.StateLifts},
		{windload.Load{AboutEast: 1100}, tether.StateTips},
		{windload.Load{AboutUp: 2000}, tether.StateTurns},
	} {
		if h := proof.Must(set.Under(c.load))(t); h.State != c.want {
			t.Errorf("%+v: got %q, want %q", c.load, h.State, c.want)
		}
	}
	ring := tether.Ring{Number: 4, Eye: 1, Height: 0.5, Angle: 45 * units.Deg, Splay: 0.3, Holding: 163e3, Stiffness: 1e5, Pretension: 10}
	set.Anchors = ring.Anchors()
	set.Anchors[1].Ground.Z = 2
	set.Faces = windload.Box(2, 2, 1, 0, 0.7)
	h := proof.Must(set.Solve(5, 0))(t)
	text := strings.Join(h.Warnings, "\n")
	for _, want := range []string{"anchor 1: 163 kN is above the 50 kN", "anchor 2: its strap does not rise", `face "front" has a force coefficient of 0.7, below 1`} {
		if !strings.Contains(text, want) {
			t.Errorf("warnings %q, want one with %q", text, want)
		}
	}
	set = heavy(8)
	set.Mass = 20
	v := proof.Must(set.Survey(11.1, 8))(t)
	if v.State != tether.StateLifted || !strings.Contains(strings.Join(v.Warnings, "\n"), "wind gets under it") {
		t.Errorf("light bed: state %q, warnings %q", v.State, v.Warnings)
	}
}

func TestErrors(t *testing.T) {
	for _, c := range []struct {
		change func(*tether.Set)
		want   string
	}{
		{func(s *tether.Set) { s.Density = 0 }, "air density: got 0, want more than 0"},
		{func(s *tether.Set) { s.Factors = anchoring.Factors{} }, "factor on wind (take the factors of a standard"},
		{func(s *tether.Set) { s.Anchors[2].Name = "1" }, `anchor "1": got the name twice`},
		{func(s *tether.Set) { s.Anchors[2].Holding = 0 }, `anchor "3": holding: got 0, want more than 0`},
		{func(s *tether.Set) { s.Anchors[2].Ground = s.Anchors[2].Eye }, `anchor "3": length: got 0`},
		{func(s *tether.Set) { s.Anchors[2].Slack, s.Anchors[2].Pretension = 1, 1 }, "want one of the two"},
		{func(s *tether.Set) { s.Feet[1].Stiffness = 0 }, "foot 2: stiffness: got 0"},
		{func(s *tether.Set) { s.Feet[1].Stiffness = 1e15 }, "want all within a factor of 1e+07"},
		{func(s *tether.Set) { s.Faces[0].Solidity = 0 }, "solidity (1 for a solid face)"},
		{func(s *tether.Set) { s.Anchors, s.Feet = nil, nil }, "got no anchor and no foot"},
		{func(s *tether.Set) { s.Mass = math.NaN() }, "mass: got NaN"},
	} {
		set := heavy(8)
		c.change(&set)
		_, err := set.Solve(10, 0)
		proof.Fails(t, "Solve", err, c.want)
		_, err = set.Survey(10, 4)
		proof.Fails(t, "Survey", err, c.want)
		_, err = set.SafeWind(4)
		proof.Fails(t, "SafeWind", err, c.want)
	}
	_, err := heavy(8).Without("9")
	proof.Fails(t, "Without", err, `no anchor is called "9"`)
	_, err = heavy(8).Survey(10, 0)
	proof.Fails(t, "no bearing", err, "number of bearings: got 0")
	proof.Panics(t, "tether: Ring.Anchors: strap angle: got 0", func() { tether.Ring{Number: 3, Eye: 1, Height: 1}.Anchors() })
}

// A survey says the same as its cases solved one by one.
func TestSurveyAgainstItsCases(t *testing.T) {
	for _, friction := range []float64{0, 0.2} {
		set := crowd(9, friction)
		for i := range set.Anchors {
			set.Anchors[i].Pretension = 0 // which one lost leaves behind under the feet
		}
		set.Anchors[3].Holding, set.Anchors[5].Stiffness = 900, 4e5
		v := proof.Must(set.Survey(16, 12))(t)
		var all, lost float64
		for i, from := range v.From {
			h := proof.Must(set.Solve(16, from))(t)
			proof.Near(t, "with all anchors", v.Utilisation[i], h.Utilisation, 1e-8)
			all = math.Max(all, h.Utilisation)
			worst := 0.0
			for _, a := range set.Anchors {
				rest := proof.Must(set.Without(a.Name))(t)
				worst = math.Max(worst, proof.Must(rest.Solve(16, from))(t).Utilisation)
			}
			proof.Near(t, fmt.Sprintf("with one lost, friction %g", friction), v.OneLost[i], worst, 1e-8)
			lost = math.Max(lost, worst)
		}
		proof.Near(t, "greatest", v.Greatest, all, 1e-8)
		proof.Near(t, "greatest with one lost", v.GreatestOneLost, lost, 1e-8)
		if v.Governs != "4" || v.Next >= v.Greatest {
			t.Errorf("got %s governing with %.3f, next %.3f; want the weak anchor 4 ahead", v.Governs, v.Greatest, v.Next)
		}
	}
}
