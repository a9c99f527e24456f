package fatigue

import (
	"fmt"
	"math"
	"sort"

	"tautline/stdlib/internal/argument"
	"tautline/stdlib/units"
)

// A Cycle is a rise and fall of stress, or half of one.
type Cycle struct {
	Range units.Pressure
	Mean  units.Pressure
	Count units.Number // 1, or 0.5 for half a cycle; more for a block of like cycles
}

// Effective is the range that counts at a place that is not welded, or stress
// relieved: the part in compression counts 0.6.
//
// Source: EN 1993-1-9:2005, 7.2.1(2).
func (c Cycle) Effective() units.Pressure {
	high, low := c.Mean+c.Range/2, c.Mean-c.Range/2
	return math.Max(0, high) - math.Max(0, low) + 0.6*(math.Min(0, high)-math.Min(0, low))
}

// Rainflow counts the cycles in a history of stress, in the order in which they
// close.
//
// A range is counted as a whole cycle when a later range encloses it, and as half
// a cycle when it holds the start of the history or is left over at its end.
// Values between turning points do not matter. Fewer than two different values
// give no cycle; one that is not a number is an error.
//
// Source: ASTM E1049-85 (2017), 5.4.4.
func Rainflow(history []units.Pressure) ([]Cycle, error) {
	c := counter{}
	for i, v := range history {
		if v-v != 0 {
			return nil, fmt.Errorf("rainflow: value %d: got %g, want a finite stress", i+1, v)
		}
		c.take(v)
	}
	return c.finish(), nil
}

// RepeatingRainflow counts the cycles of a history that recurs: its end joins its
// beginning, and it is counted from its highest value, so that no cycle is cut in
// two where the record happens to begin.
//
// Two half cycles of the greatest range are one whole. Otherwise as Rainflow.
//
// Source: ASTM E1049-85 (2017), 5.4.5, by counting from the highest peak.
func RepeatingRainflow(history []units.Pressure) ([]Cycle, error) {
	if len(history) == 0 {
		return nil, nil
	}
	top := 0
	for i, v := range history {
		if v-v != 0 {
			return nil, fmt.Errorf("rainflow: value %d: got %g, want a finite stress", i+1, v)
		}
		if v > history[top] {
			top = i
		}
	}
	c := counter{}
	for i := range len(history) + 1 {
		c.take(history[(top+i)%len(history)])
	}
	return c.finish(), nil
}

// A counter keeps the turning points that no cycle has used up. The last one may
// still move.
type counter struct {
	points []float64
	cycles []Cycle
}

// take adds a value to the history.
func (c *counter) take(v float64) {
	n := len(c.points)
	switch {
	case n == 0:
		c.points = append(c.points, v)
		return
	case v == c.points[n-1]:
		return
	case n == 1 || v > c.points[n-1] != (c.points[n-1] > c.points[n-2]): // it turns
		c.close()
		c.points = append(c.points, v)
	default:
		c.points[n-1] = v
	}
}

// close counts what the last turning point, now settled, encloses.
func (c *counter) close() {
	for {
		n := len(c.points)
		if n < 3 {
			return
		}
		a, b, last := c.points[n-3], c.points[n-2], c.points[n-1]
		if math.Abs(last-b) < math.Abs(b-a) {
			return
		}
		if n == 3 { // the range holds the start
			c.count(a, b, 0.5)
			c.points = append(c.points[:0], b, last)
			return
		}
		c.count(a, b, 1)
		c.points = append(c.points[:n-3], last)
	}
}

func (c *counter) count(a, b, count float64) {
	c.cycles = append(c.cycles, Cycle{Range: math.Abs(b - a), Mean: (a + b) / 2, Count: count})
}

// finish counts what is left as half cycles.
func (c *counter) finish() []Cycle {
	c.close()
	for i := 1; i < len(c.points); i++ {
		c.count(c.points[i-1], c.points[i], 0.5)
	}
	return c.cycles
}

// Blocks gathers cycles into blocks of like range, the greatest first: each range
// is rounded up to a whole number of steps, which is on the safe side. The mean
// of a block is that of its cycles.
//
// The step is more than 0; outside it panics. Cycles that are not finite or
// negative are the caller's to keep out.
//
// Source: common practice, no source.
func Blocks(cycles []Cycle, step units.Pressure) []Cycle {
	argument.Demand("fatigue: Blocks", argument.Positive("step", step))
	blocks := map[float64]*Cycle{}
	for _, c := range cycles {
		if c.Count == 0 {
			continue
		}
		k := math.Ceil(c.Range/step - 1e-9)
		b := blocks[k]
		if b == nil {
			b = &Cycle{Range: k * step}
			blocks[k] = b
		}
		b.Mean = (b.Mean*b.Count + c.Mean*c.Count) / (b.Count + c.Count)
		b.Count += c.Count
	}
	var list []Cycle
	for _, b := range blocks {
		list = append(list, *b)
	}
	sort.Slice(list, func(i, k int) bool { return list[i].Range > list[k].Range })
	return list
}

// EquivalentRange is the range of which a number of cycles would do the same
// damage as all of these, on a curve of one slope.
//
// The slope is more than 0: 3 for normal stress, 5 for shear. The number, at, is
// more than 0: two million, to compare with a category. Outside it panics, as
// with a cycle of negative range or count.
//
// Source: Miner's rule on a curve of one slope; EN 1993-1-9:2005, Annex A.
func EquivalentRange(cycles []Cycle, slope, at units.Number) units.Pressure {
	argument.Demand("fatigue: EquivalentRange", argument.Positive("slope", slope), argument.Positive("number of cycles", at))
	sum := 0.0
	for _, c := range cycles {
		argument.Demand("fatigue: EquivalentRange", argument.NotNegative("range", c.Range), argument.NotNegative("count", c.Count))
		sum += c.Count * math.Pow(c.Range, slope)
	}
	return math.Pow(sum/at, 1/slope)
}
