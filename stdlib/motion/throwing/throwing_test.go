package throwing_test

import (
	"fmt"
	"math"
	"reflect"
	"slices"
	"testing"

	"tautline/stdlib/fabric/landing"
	"tautline/stdlib/internal/proof"
	"tautline/stdlib/motion"
	"tautline/stdlib/motion/throwing"
	"tautline/stdlib/sheet"
	"tautline/stdlib/units"
)

const rad = units.RadPerS

// game is a level place at a radius and a height on a base that waits, or spins at
// 3 rad/s, for points of no size.
func game(radius, height float64, spins bool) throwing.Game {
	wide := motion.Axis{Low: -1, High: 1, Limits: motion.Limits{Speed: 4, Acceleration: 10, Jerk: 100}}
	level := motion.Level{Name: "one", Duration: 20 * units.S}
	if spins {
		level.Yaw.Spin = 3 * rad
	}
	return throwing.Game{
		Base:      motion.Base{Name: "table", Yaw: motion.Axis{Continuous: true, Limits: wide.Limits}, Pitch: wide, Roll: wide},
		Programme: motion.Programme{Name: "spin", Levels: []motion.Level{level}},
		From:      4 * units.S, Until: 12 * units.S,
		Place:   motion.Point{X: radius, Z: height},
		Riders:  throwing.Riders{Short: 1, Tall: 2, Slight: 15, Stout: 30},
		Round:   1e-9,
		Bed:     throwing.Bed{Inner: 3},
		Flights: 1000, Seed: 1, Shares: []float64{0.99}, Confidence: 0.95,
	}
}

// A seat 0.8 m out at 3 rad/s, 1.2 m up: flies 1.187289 m along the tangent and
// lands sqrt(0.8² + 1.187289²) from the axis, not the sum of both. Energy is kept.
func TestSpinningRelease(t *testing.T) {
	land := proof.Must(game(0.8, 1.2, true).Throw())(t)
	e := land.Envelopes[0]
	proof.Near(t, "distance", e.Radius.Best, 1.431662, 1e-6)
	proof.Near(t, "all alike", e.Radius.Upper, e.Radius.Best, 1e-8)
	proof.Near(t, "flight", math.Sqrt(e.Radius.Best*e.Radius.Best-0.64), 1.187289, 1e-6)
	proof.Near(t, "fall", e.Fall.Best, 1.2+2.4*2.4/2/units.Gn, 1e-8)
	proof.Near(t, "drop", e.Drop.Best, 1.2, 1e-8)
	if land.Clear != 1000 || land.Held+land.Back+land.Hull+land.Post+land.Over+land.Off != 0 {
		t.Errorf("counts: got %+v", land)
	}
}

// From a place at rest, pushed off at 3 m/s in any direction upward: the distances
// are those of so many angles, evenly over the sine. The share of the flights drawn
// that keep within a computed distance is the computed share, within four times
// the scatter of a binomial count.
func TestPushedOff(t *testing.T) {
	g := game(0, 1.2, false)
	g.Riders.Least, g.Riders.Most = 3, 3
	g.Flights = 100_000
	g.Shares = []float64{0.9, 0.99, 0.999}
	land := proof.Must(g.Throw())(t)
	const n = 1_000_000
	far := make([]float64, n)
	for i := range far {
		sin := (float64(i) + 0.5) / n
		far[i] = 3 * math.Sqrt(1-sin*sin) * (3*sin + math.Sqrt(9*sin*sin+2*units.Gn*1.2)) / units.Gn
	}
	slices.Sort(far)
	for i, e := range land.Envelopes {
		q := g.Shares[i]
		scatter := 4 * math.Sqrt(q*(1-q)/1e5)
		low, high := far[int((q-scatter)*n)], far[min(int((q+scatter)*n), n-1)]
		if !(low <= e.Radius.Best && e.Radius.Best <= high) {
			t.Errorf("%g: got %g m, want %g to %g m", q, e.Radius.Best, low, high)
		}
		if !(e.Radius.Best <= e.Radius.Upper && e.Radius.Upper <= far[n-1]*(1+1e-8)) {
			t.Errorf("%g: got upper %g m for %g m", q, e.Radius.Upper, e.Radius.Best)
		}
		// The middles of bodies of 1 to 2 m are 0 above the place; each reaches no farther.
		proof.Near(t, "whole", e.Whole.Best, e.Radius.Best, 0)
		proof.Near(t, "fall", e.Fall.Upper, 1.2+9/(2*units.Gn), 1e-7)
		// As wide in every direction: the contour is round.
		least, most := math.Inf(1), 0.0
		for k := range e.X {
			r := math.Hypot(e.X[k], e.Y[k])
			least, most = min(least, r), max(most, r)
		}
		if !(least > 0.98*e.Radius.Best && most < 1.03*e.Radius.Best) {
			t.Errorf("%g: contour %g to %g m about %g m", q, least, most, e.Radius.Best)
		}
	}
	proof.Near(t, "farthest", far[n-1], 1.744948, 1e-6) // v·sqrt(v²+2gh)/g
}

// With the air: scipy 1.10.1, solve_ivp by DOP853 at rtol 1e-12, thrown at 4 m/s
// level from 2 m, 20 kg, drag area 0.8 m², air 1.2 kg/m³.
func TestDrag(t *testing.T) {
	g := game(0, 2, false)
	g.Base.Yaw.Limits.Speed = 5
	g.Programme.Levels[0].Yaw.Spin = 4 * rad
	g.Place.X = 1 // 4 m/s along the tangent
	g.Riders = throwing.Riders{Short: 1, Tall: 1, Slight: 20, Stout: 20}
	g.Drag, g.Air = 0.8, 1.2
	e := proof.Must(g.Throw())(t).Envelopes[0]
	proof.Near(t, "distance", e.Radius.Best, math.Hypot(1, 2.49789154883296), 1e-6)
	proof.Near(t, "fall", e.Fall.Best, 7.10632038198774*7.10632038198774/2/units.Gn, 1e-6)
	g.Air = 0
	_, err := g.Throw()
	proof.Fails(t, "air", err, "air: got 0")
}

// At 3 rad/s and 0.8 m the seat carries 1 g, its friction 0.2 of that, and the
// hands need 9·0.8/g less 0.2. Who holds less is off, who holds more stays.
func TestGrip(t *testing.T) {
	need := 9*0.8/units.Gn - 0.2
	g := game(0.8, 1.2, true)
	g.Friction = 0.2
	g.Flights = 10_000
	g.Riders.Weak, g.Riders.Strong = need-0.1, need+0.3
	g.Riders.Brief, g.Riders.Long = 0.1, 0.3
	land := proof.Must(g.Throw())(t)
	// A quarter of the grips is less. Those whose moment lies in the last 0.2 s on
	// average of the 8 s do not come to open: one fortieth.
	want := 10_000 * 0.25 * (1 - 0.2/8)
	if scatter := 4 * math.Sqrt(10_000*0.25*0.75); math.Abs(land.Clear-want) > scatter {
		t.Errorf("off: got %g, want %g ± %g", land.Clear, want, scatter)
	}
	proof.Near(t, "all", land.Clear+land.Held, 10_000, 0)
	g.Riders.Weak = need + 0.01
	_, err := g.Throw()
	proof.Fails(t, "strong", err, "of 10000 riders nobody flew to the bed")
}

// Over the edge of a square 2 m wide that spins, with no push to speak of: from so
// far out as the edge is in each direction, 1/cos of up to 45°, along the tangent.
func TestOverTheEdge(t *testing.T) {
	g := game(0, 1.2, true)
	g.Edge = true
	g.Base.Hull = []motion.Point{{X: 1, Y: -1, Z: 1.2}, {X: 1, Y: 1, Z: 1.2}, {X: -1, Y: 1, Z: 1.2}, {X: -1, Y: -1, Z: 1.2}}
	g.Flights, g.Shares = 20_000, []float64{0.9, 0.99}
	g.Riders.Least, g.Riders.Most = 1e-9, 1e-9
	land := proof.Must(g.Throw())(t)
	for i, e := range land.Envelopes {
		q := g.Shares[i]
		scatter := 4 * math.Sqrt(q*(1-q)/20_000)
		at := func(q float64) float64 {
			return math.Sqrt(1+9*2*1.2/units.Gn) / math.Cos(q*45*units.Deg)
		}
		if low, high := at(q-scatter), at(min(q+scatter, 1)); !(low <= e.Radius.Best && e.Radius.Best <= high) {
			t.Errorf("%g: got %g m, want %g to %g m", q, e.Radius.Best, low, high)
		}
		proof.Near(t, "drop", e.Drop.Best, 1.2, 1e-8)
	}
	if land.Clear != 20_000 {
		t.Errorf("clear: got %g", land.Clear)
	}
	g.Base.Hull = nil
	_, err := g.Throw()
	proof.Fails(t, "hull", err, "hull: got 0 points")
}

// The wall: who comes down to its top beyond its inner side has passed over it.
func TestWall(t *testing.T) {
	g := game(0.8, 1.2, true)
	g.Bed.Wall = 0.5
	flat := 2.4 * math.Sqrt(2*0.7/units.Gn)
	want := math.Hypot(0.8, flat)
	e := proof.Must(g.Throw())(t).Envelopes[0]
	proof.Near(t, "wall", e.Wall.Best, want, 1e-7)
	g.Bed.Inner = 0.99 * want
	if land := proof.Must(g.Throw())(t); land.Over != 1000 || land.Off != 1000 {
		t.Errorf("inside: got %g over, %g off", land.Over, land.Off)
	}
	g.Bed.Inner = 1.01 * want
	if land := proof.Must(g.Throw())(t); land.Over != 0 || land.Off != 1000 {
		t.Errorf("outside: got %g over, %g off", land.Over, land.Off)
	}
}

// The same seed gives the same flights, another seed others; what a game is counted
// from moves with the bed.
func TestSeed(t *testing.T) {
	g := game(0.8, 1.2, true)
	g.Riders.Most = 2
	a, b := proof.Must(g.Throw())(t), proof.Must(g.Throw())(t)
	if !reflect.DeepEqual(a, b) {
		t.Error("the same seed gave other flights")
	}
	g.Seed = 2
	if c := proof.Must(g.Throw())(t); c.Envelopes[0].Radius == a.Envelopes[0].Radius {
		t.Error("another seed gave the same flights")
	}
	g.Seed, g.Bed.X = 1, 1.5
	moved := proof.Must(g.Throw())(t)
	proof.Near(t, "moved contour", moved.Envelopes[0].X[0], a.Envelopes[0].X[0]+1.5, 1e-12)
}

func TestRefusals(t *testing.T) {
	for _, c := range []struct {
		words  string
		change func(g *throwing.Game)
	}{
		{"flights: got 0", func(g *throwing.Game) { g.Flights = 0 }},
		{"round: got 0", func(g *throwing.Game) { g.Round = 0 }},
		{"share: got 0.5", func(g *throwing.Game) { g.Shares = []float64{0.5} }},
		{"1 less confidence: got 0", func(g *throwing.Game) { g.Confidence = 1 }},
		{"body height: got 2 to 1", func(g *throwing.Game) { g.Riders.Short, g.Riders.Tall = 2, 1 }},
		{"push-off: got -1", func(g *throwing.Game) { g.Riders.Least = -1 }},
		{"moments: got 4 s to 30 s", func(g *throwing.Game) { g.Until = 30 }},
		{"got no levels", func(g *throwing.Game) { g.Programme.Levels = nil }},
		{"place: got NaN", func(g *throwing.Game) { g.Place.X = math.NaN() }},
	} {
		g := game(0.8, 1.2, true)
		c.change(&g)
		_, err := g.Throw()
		proof.Fails(t, c.words, err, c.words)
	}
	g := game(0.8, 1.2, true)
	g.Flights = 100
	if land := proof.Must(g.Throw())(t); len(land.Warnings) != 1 {
		t.Errorf("few flights: got warnings %q", land.Warnings)
	}
}

// Every square and contour is on the picture.
func TestDraw(t *testing.T) {
	g := game(0.8, 1.2, true)
	g.Base.Hull = []motion.Point{{X: 1, Z: 0.3}, {Y: 1, Z: 0.3}, {X: -1, Z: 0.3}}
	land := proof.Must(g.Throw())(t)
	var s sheet.Sheet
	d := s.NewDrawing("landings")
	land.Draw(d)
	kinds := map[sheet.ShapeKind]int{}
	for _, shape := range d.Shapes {
		kinds[shape.Kind]++
	}
	if kinds[sheet.ShapePatch] != len(land.Squares) || kinds[sheet.ShapeLine] != 1 || kinds[sheet.ShapeArea] != 1 {
		t.Errorf("got %v", kinds)
	}
	count := 0.0
	for _, sq := range land.Squares {
		count += sq.Flights
	}
	proof.Near(t, "squares", count, land.Clear, 0)
}

// One in a hundred of those who jump off a still table 1.2 m up, at 1 to 3 m/s, is
// farther away (a million draws by numpy: 2.660 m, 1.740 m, 5.843 m/s); how deep a fall as hard goes is for package landing.
func Example() {
	still := motion.Axis{Low: -0.1, High: 0.1, Limits: motion.Limits{Speed: 1, Acceleration: 1, Jerk: 1}}
	game := throwing.Game{
		Base:      motion.Base{Name: "table", PitchAxis: motion.Point{Z: 1.2 * units.M}, Yaw: still, Pitch: still, Roll: still},
		Programme: motion.Programme{Name: "none", Levels: []motion.Level{{Name: "still", Duration: 10 * units.S}}},
		Riders:    throwing.Riders{Short: 1.2 * units.M, Tall: 1.9 * units.M, Slight: 15 * units.KgPerM2, Stout: 30 * units.KgPerM2, Least: 1 * units.MPerS, Most: 3 * units.MPerS},
		Middle:    0.14, Round: 150 * units.Mm, Stretch: 0.55,
		Bed:     throwing.Bed{Inner: 3 * units.M},
		Flights: 100_000, Seed: 1852, Shares: []units.Number{0.99}, Confidence: 0.95,
	}
	land, err := game.Throw()
	if err != nil {
		fmt.Println(err)
		return
	}
	e := land.Envelopes[0]
	fmt.Printf("bed: %.1f m about the table, for a fall of %.1f m, %.1f m/s\n", e.Whole.Upper, e.Fall.Upper, landing.FallSpeed(e.Fall.Upper))
	// Output: bed: 2.7 m about the table, for a fall of 1.7 m, 5.8 m/s
}

func BenchmarkThrow(b *testing.B) {
	for name, drag := range map[string]float64{"free": 0, "drag": 0.8} {
		g := game(0.8, 1.2, true)
		g.Base.Hull = []motion.Point{{X: 1.5}, {X: 0.7, Y: 0.5}, {X: -1.1, Y: 0.5}, {X: -1.1, Y: -0.5}, {X: 0.7, Y: -0.5}}
		g.Base.PitchAxis.Z = 1
		g.Place.Z = 0.3
		g.Round, g.HullDepth, g.PostRadius, g.PostHeight = 0.15, 0.4, 0.3, 1
		g.Riders.Most, g.Riders.Strong, g.Riders.Long = 3, 0.6, 0.3
		g.Middle, g.Stretch = 0.14, 0.55
		g.Drag, g.Air = drag, 1.2
		g.Flights, g.Shares = 100_000, []float64{0.99, 0.999}
		b.Run(name, func(b *testing.B) {
			for range b.N {
				if _, err := g.Throw(); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}
