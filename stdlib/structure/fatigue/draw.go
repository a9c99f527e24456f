package fatigue

import (
	"math"

	"tautline/stdlib/internal/argument"
	"tautline/stdlib/sheet"
	"tautline/stdlib/units"
)

// DrawLife draws, over the number of cycles as a power of ten, the range that the
// detail bears with the factors, and how many cycles of at least each range the
// life brings: events times those of one event.
//
// The figure's x axis is the power of ten, a pure number, its y axis a stress
// range. The cycles are Blocks of one event. Numbers out of range panic.
//
// Source: EN 1993-1-9:2005, Figure 7.1.
func (d Detail) DrawLife(fig *sheet.Figure, blocks []Cycle, events units.Number, f Factors) {
	argument.Demand("fatigue: Detail.DrawLife", d.check(), f.check(), argument.Positive("events", events))
	c := d.curve(f)
	var powers, ranges []float64
	for i := range 121 {
		power := 4 + float64(i)/20
		powers = append(powers, power)
		ranges = append(ranges, c.rangeAt(math.Pow(10, power))/f.Load)
	}
	fig.Curve("borne by "+d.Name, powers, ranges)
	var stairX, stairY []float64
	total := 0.0
	for _, b := range blocks {
		if b.Count <= 0 || b.Range <= 0 {
			continue
		}
		if total > 0 {
			stairX, stairY = append(stairX, math.Log10(total)), append(stairY, b.Range)
		}
		total += b.Count * events
		stairX, stairY = append(stairX, math.Log10(total)), append(stairY, b.Range)
	}
	if total > 0 {
		fig.Curve("cycles of the life, at least so great", stairX, stairY)
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
// The figure's x axis is a stress range, its y axis a pure number. The blocks
// come from Blocks with the same step. Cycles out of range are an error.
//
// Source: Miner's rule.
func (d Detail) DrawDamage(fig *sheet.Figure, blocks []Cycle, step units.Pressure, f Factors) error {
	argument.Demand("fatigue: Detail.DrawDamage", argument.Positive("step", step))
	whole, err := d.Damage(blocks, f)
	if err != nil {
		return err
	}
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
