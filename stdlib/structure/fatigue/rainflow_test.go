package fatigue_test

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"
	"time"

	"tautline/stdlib/internal/proof"
	"tautline/stdlib/structure/fatigue"
	"tautline/stdlib/units"

	"pgregory.net/rapid"
)

// ASTM E1049-85, 5.4.4 and figure 6: the history and its count as printed.
func TestRainflowPublished(t *testing.T) {
	got := proof.Must(fatigue.Rainflow(history))(t)
	want := []fatigue.Cycle{{3, -0.5, 0.5}, {4, -1, 0.5}, {4, 1, 1}, {8, 1, 0.5}, {9, 0.5, 0.5}, {8, 0, 0.5}, {6, 1, 0.5}}
	same(t, got, want)
	sums := map[float64]float64{}
	for _, b := range fatigue.Blocks(got, 1) {
		sums[b.Range] += b.Count
	}
	for r, n := range map[float64]float64{3: 0.5, 4: 1.5, 6: 0.5, 8: 1, 9: 0.5} {
		if sums[r] != n {
			t.Errorf("range %g: got %g cycles, want %g", r, sums[r], n)
		}
	}
	if len(sums) != 5 {
		t.Errorf("ranges %v, want five", sums)
	}
}

// The same history as a block that recurs, counted from its peak: full cycles of
// 3, 4 and 7 and two halves of 9.
func TestRainflowRepeating(t *testing.T) {
	for _, h := range [][]float64{{5, -1, 3, -4, 4, -3, 1, -2, 5}, {-1, 3, -4, 4, -3, 1, -2, 5}, {4, -3, 1, -2, 5, -1, 3, -4}} {
		got := proof.Must(fatigue.RepeatingRainflow(h))(t)
		sums := map[float64]float64{}
		for _, c := range got {
			sums[c.Range] += c.Count
		}
		for r, n := range map[float64]float64{3: 1, 4: 1, 7: 1, 9: 1} {
			if sums[r] != n {
				t.Errorf("from %g, range %g: got %g cycles, want %g", h[0], r, sums[r], n)
			}
		}
	}
}

var history = []float64{-2, 1, -3, 5, -1, 3, -4, 4, -2}

func same(t *testing.T, got, want []fatigue.Cycle) {
	t.Helper()
	if len(got) != len(want) {
		t.Fatalf("got %v, want %v", got, want)
	}
	for i := range got {
		if got[i] != want[i] {
			t.Errorf("cycle %d: got %v, want %v", i+1, got[i], want[i])
		}
	}
}

// The standard's rules read literally: a list of points, rules 1 to 6, with the
// starting point S kept as an index. Slow, and independent of the library's.
func literal(history []float64) []fatigue.Cycle {
	var turning []float64
	for i, v := range history {
		if i > 0 && v == history[i-1] {
			continue
		}
		if n := len(turning); n >= 2 && (turning[n-1]-turning[n-2])*(v-turning[n-1]) > 0 {
			turning[n-1] = v
		} else {
			turning = append(turning, v)
		}
	}
	if len(turning) < 2 {
		return nil
	}
	var cycles []fatigue.Cycle
	count := func(a, b, n float64) {
		cycles = append(cycles, fatigue.Cycle{Range: math.Abs(a - b), Mean: (a + b) / 2, Count: n})
	}
	var live []float64 // live[0] is S
	for len(turning) > 0 {
		live, turning = append(live, turning[0]), turning[1:] // 1
		for len(live) >= 3 {                                  // 2
			n := len(live)
			x, y := math.Abs(live[n-1]-live[n-2]), math.Abs(live[n-2]-live[n-3])
			if x < y { // 3
				break
			}
			if n > 3 { // 4
				count(live[n-3], live[n-2], 1)
				live = append(live[:n-3:n-3], live[n-1])
			} else { // 5
				count(live[0], live[1], 0.5)
				live = live[1:]
			}
		}
	}
	for i := 1; i < len(live); i++ { // 6
		count(live[i-1], live[i], 0.5)
	}
	return cycles
}

func TestRainflowLiteral(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		h := rapid.SliceOfN(rapid.Map(rapid.IntRange(-20, 20), func(i int) float64 { return float64(i) }), 0, 200).Draw(t, "history")
		got, err := fatigue.Rainflow(h)
		if err != nil {
			t.Fatal(err)
		}
		want := literal(h)
		if len(got) != len(want) {
			t.Fatalf("got %v, want %v", got, want)
		}
		for i := range got {
			if got[i] != want[i] {
				t.Fatalf("got %v, want %v", got, want)
			}
		}
	})
}

// What every count keeps: the sum of ranges times twice the count is the path of
// the stress, the greatest range is found, and turning the history upside down or
// putting values between changes nothing.
func TestRainflowKeeps(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		h := rapid.SliceOfN(rapid.Float64Range(-1e3, 1e3), 2, 300).Draw(t, "history")
		cycles, _ := fatigue.Rainflow(h)
		path, sum := 0.0, 0.0
		var between, mirrored []float64
		for i, v := range h {
			mirrored = append(mirrored, -v)
			if i > 0 {
				path += math.Abs(v - h[i-1])
				between = append(between, h[i-1]+(v-h[i-1])*0.3)
			}
			between = append(between, v)
		}
		for _, c := range cycles {
			sum += 2 * c.Count * c.Range
		}
		if math.Abs(path-sum) > 1e-9*path {
			t.Fatalf("path %g, cycles add to %g", path, sum)
		}
		down, _ := fatigue.Rainflow(mirrored)
		filled, _ := fatigue.Rainflow(between)
		if len(down) != len(cycles) || len(filled) != len(cycles) {
			t.Fatalf("got %d cycles, %d upside down, %d with values between", len(cycles), len(down), len(filled))
		}
	})
}

func TestRainflowEdges(t *testing.T) {
	for _, h := range [][]float64{nil, {1}, {1, 1, 1}} {
		if c := proof.Must(fatigue.Rainflow(h))(t); len(c) != 0 {
			t.Errorf("%v: got %v, want none", h, c)
		}
		if c := proof.Must(fatigue.RepeatingRainflow(h))(t); len(c) != 0 {
			t.Errorf("%v repeating: got %v, want none", h, c)
		}
	}
	_, err := fatigue.Rainflow([]float64{1, math.NaN()})
	proof.Fails(t, "not a number", err, "value 2")
	_, err = fatigue.RepeatingRainflow([]float64{1, math.Inf(1)})
	proof.Fails(t, "infinite", err, "value 2")
}

// EN 1993-1-9, 7.2.1: +80/-50 MPa counts 110 where it is not welded.
func TestEffectiveRange(t *testing.T) {
	c := fatigue.Cycle{Range: 130e6, Mean: 15e6, Count: 1}
	proof.Near(t, "not welded", c.Effective(), 110e6, 1e-12)
	proof.Near(t, "all tension", fatigue.Cycle{Range: 50, Mean: 100}.Effective(), 50, 1e-12)
	proof.Near(t, "all compression", fatigue.Cycle{Range: 50, Mean: -100}.Effective(), 30, 1e-12)
}

// Blocks lose no cycle and no less than the damage.
func TestBlocks(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 2))
	var h []float64
	for range 1000 {
		h = append(h, r.NormFloat64()*30*units.MPa)
	}
	cycles := proof.Must(fatigue.Rainflow(h))(t)
	blocks := fatigue.Blocks(cycles, 5*units.MPa)
	n, m := 0.0, 0.0
	for _, c := range cycles {
		n += c.Count
	}
	for i, b := range blocks {
		m += b.Count
		if i > 0 && b.Range >= blocks[i-1].Range {
			t.Errorf("block %d is not smaller than the one before", i+1)
		}
	}
	proof.Near(t, "count", m, n, 1e-12)
	if fatigue.EquivalentRange(blocks, 3, 2e6) < fatigue.EquivalentRange(cycles, 3, 2e6) {
		t.Error("blocks do less damage than their cycles")
	}
}

// A million points of a noisy program, against sorting as many.
func BenchmarkRainflow(b *testing.B) {
	r := rand.New(rand.NewPCG(1, 2))
	h := make([]float64, 1e6)
	for i := range h {
		h[i] = 40e6*math.Sin(float64(i)/50) + 15e6*r.NormFloat64()
	}
	var own, sorting time.Duration
	for b.Loop() {
		start := time.Now()
		if _, err := fatigue.Rainflow(h); err != nil {
			b.Fatal(err)
		}
		own += time.Since(start)
		sorted := slices.Clone(h)
		start = time.Now()
		slices.Sort(sorted)
		sorting += time.Since(start)
	}
	b.ReportMetric(float64(own)/float64(sorting), "times-sorting")
}
