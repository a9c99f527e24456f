package fatigue

import (
	"math"

	"tautline/stdlib/internal/argument"
	"tautline/stdlib/sheet"
	"tautline/stdlib/units"
)

// DrawLife draws, over the number of cycles, the range that the detail bears with
// the factors, and a bar for each block of cycles: as high as its range, as wide as
// the cycles of it that the life brings, beside those of greater ranges. Both axes
// are divided by powers of ten.
//
// The cycles are Blocks of one event, the events how many make the life. Numbers
// out of range panic.
//
// Source: EN 1993-1-9:2005, Figure 7.1.
func (d Detail) DrawLife(fig *sheet.Figure, blocks []Cycle, events units.Number, f Factors) {
	argument.Demand("fatigue: Detail.DrawLife", d.check(), f.check(), argument.Positive("events", events))
	fig.Axes("Number", "Pressure")
	fig.LogX()
	fig.LogY()
	c := d.curve(f)
	var numbers, ranges []float64
	for i := range 101 {
		n := math.Pow(10, 4+float64(i)/20)
		numbers = append(numbers, n)
		ranges = append(ranges, c.rangeAt(n)/f.Load)
	}
	fig.Curve("borne by "+d.Name, numbers, ranges)
	var xs, ys []float64
	from := 1e3 // where the axis begins
	for _, b := range blocks {
		if n := b.Count * events; b.Range > 0 && n > 0 {
			from = math.Min(from, n/10)
			break
		}
	}
	least := c.cutOff / f.Load
	total := 0.0
	for _, b := range blocks {
		if b.Count <= 0 || b.Range <= 0 {
			continue
		}
		least = math.Min(least, b.Range)
		total += b.Count * events
		if total <= from {
			continue
		}
		xs = append(xs, from, total)
		ys = append(ys, b.Range, b.Range)
		from = total
	}
	if len(xs) > 0 {
		xs, ys = append(xs, from), append(ys, least/2)
		fig.Curve("cycles of the life", xs, ys)
	}
	fig.LimitY("harmless below", c.cutOff/f.Load)
}

// rangeAt is the range that breaks the detail after a number of cycles.
func (c curve) rangeAt(n float64) float64 {
	switch {
	case n >= atCutOff:
		return c.cutOff
	case c.shear:
		return c.category * math.Pow(atCategory/n, 1.0/5)
	case n > atConstant:
		return c.constant * math.Pow(atConstant/n, 1.0/5)
	}
	return c.category * math.Pow(atCategory/n, 1.0/3)
}

// DrawDamage draws a bar for each block of cycles: the share of the damage of one
// event that its range does.
//
// The blocks come from Blocks with the same step. Cycles out of range are an
// error.
//
// Source: Miner's rule.
func (d Detail) DrawDamage(fig *sheet.Figure, blocks []Cycle, step units.Pressure, f Factors) error {
	argument.Demand("fatigue: Detail.DrawDamage", argument.Positive("step", step))
	whole, err := d.Damage(blocks, f)
	if err != nil {
		return err
	}
	fig.Axes("Pressure", "Number")
	var xs, ys []float64
	for i := len(blocks) - 1; i >= 0; i-- {
		part, err := d.Damage(blocks[i:i+1], f)
		if err != nil {
			return err
		}
		share := 0.0
		if whole.Sum > 0 {
			share = part.Sum / whole.Sum
		}
		high := blocks[i].Range
		xs = append(xs, high-step, high-step, high, high)
		ys = append(ys, 0, share, share, 0)
	}
	fig.Curve("share of the damage", xs, ys)
	fig.LimitX("harmless below", d.CutOff()/f.Strength/f.Load)
	return nil
}
