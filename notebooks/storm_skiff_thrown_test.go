package notebooks

import (
	"math"
	"math/rand/v2"
	"testing"
)

// The thrown riders of the storm skiff, thrown by the other way.
func TestStormSkiffThrown(t *testing.T) {
	const g = testGravity
	res := run(t, "storm-skiff-thrown.md")
	near(t, "lightest", number(t, res, "mLeast"), 15*1.10*1.10)
	near(t, "heaviest", number(t, res, "mMost"), 29*1.95*1.95)
	crown := math.Hypot(0.75, 0.55) // top and bottom lobe of a bay are arcs of one circle about its middle
	near(t, "crown", number(t, res, "crown"), crown)
	wall := 4*0.35 - crown
	near(t, "wall", number(t, res, "wall"), wall)
	near(t, "flights needed", number(t, res, "need"), math.Ceil(math.Log(0.05)/math.Log(0.999)))
	near(t, "ring", number(t, res, "onRing"), 2.95)
	near(t, "fall of HF-113", number(t, res, "hIn"), 1.3+4/2/g)

	w := &thrower{
		yaw: list(t, res, "yaw", 1), pitch: list(t, res, "pitch", 1), roll: list(t, res, "roll", 1), from: 49, to: 79,
		pitchAxis: 0.75, rollAxis: 0.12, hull: []point{{1.5, 0, 0.35}, {0.7, 0.5, 0.3}, {-1.1, 0.5, 0.3}, {-1.1, -0.5, 0.3}, {0.7, -0.5, 0.3}}, hullDepth: 0.25,
		middle: 0.14, short: 1.10, tall: 1.95, crown: crown, wall: wall, rng: rand.New(rand.NewPCG(7, 11)),
	}
	cases := []struct {
		name        string
		xs          float64
		holdsOn     bool
		least, most float64
		drawn       float64 // in the notebook
	}{
		{"bow", 0.45, true, 0.3, 2, 100_000}, {"stern", -0.45, true, 0.3, 2, 40_000},
		{"nobody holds on", 0.45, false, 0.3, 2, 20_000}, {"jumping", 0.45, true, 2, 2.5, 40_000},
	}
	for i, c := range cases {
		w.place, w.holdsOn, w.least, w.most = point{c.xs, 0, 0.28}, c.holdsOn, c.least, c.most
		w.felt(0.2)
		const n = 40_000
		counts := map[string]float64{}
		var middle, whole, over, fall []float64
		for range n {
			l, what := w.throw()
			if counts[what]++; what == "flew" {
				middle, whole, over, fall = append(middle, l.middle), append(whole, l.whole), append(over, l.wall), append(fall, l.fall)
			}
		}
		for what, name := range map[string]string{"held": "held", "back": "back", "flew": "fly"} {
			got, want := item(t, res, name, i), counts[what]/n
			if off := math.Abs(got - want); off > scatter(math.Max(want, 1e-3), n, c.drawn)+0.003 { // 0.003: hull and needs seen in coarser steps
				t.Errorf("%s, %s: got %.4f, want %.4f", c.name, what, got, want)
			}
		}
		// The bound of 99.9 % is the order statistic that the binomial law gives: between
		// these quantiles of the other sample.
		flown := item(t, res, "fly", i) * c.drawn
		bounds(t, c.name+", middles", item(t, res, "middles", i), middle, flown)
		bounds(t, c.name+", whole", item(t, res, "wholes", i), whole, flown)
		bounds(t, c.name+", walls", item(t, res, "walls", i), over, flown)
		bounds(t, c.name+", fall", item(t, res, "falls", i), fall, flown)
	}
	near(t, "beyond the ring", number(t, res, "short"), item(t, res, "wholes", 0)-2.95)
	near(t, "beyond the inner side", number(t, res, "jumped"), item(t, res, "middles", 3)-2.25)
	near(t, "flown", number(t, res, "flown"), item(t, res, "fly", 0)*100_000)
	near(t, "share that flies", number(t, res, "thrown"), item(t, res, "fly", 0))
	near(t, "share of strikes", number(t, res, "meet"), number(t, res, "met")/(item(t, res, "fly", 0)*100_000+item(t, res, "fly", 1)*40_000))
	if hits := number(t, res, "met"); hits > 10 {
		t.Errorf("strikes: got %g", hits)
	}
	near(t, "as a fall", number(t, res, "asFall"), math.Pow(number(t, res, "strike"), 2)/2/g)

	// The heaviest who jumps, by the other integration.
	V := lobedVolume(0.55, 0.75) * math.Pi * 2.25 * 2.25
	heavy := fallingBody{mass: 29 * 1.95 * 1.95, area: 0.75, round: 0.1, depth: crown, volume: V, p: 1500, vent: 20e-4}
	heavy.drop(math.Sqrt(2*g*number(t, res, "hard")), crown)
	within(t, "air left", number(t, res, "left"), crown-heavy.deepest, 1e-4)
}
