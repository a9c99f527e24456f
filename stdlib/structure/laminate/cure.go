package laminate

import (
	"math"

	"tautline/stdlib/internal/argument"
	"tautline/stdlib/units"
)

// A Step is one step of laying up and what comes after it, for the crew.
type Step struct {
	What    string
	Wait    units.Time        // before the next step
	Warmest units.Temperature // of the shop, at most; 0 when of no matter
	Coldest units.Temperature // of the shop, at least
	Sign    string            // how the crew sees that it is ready
	Source  string
}

// HandLayUp is the usual order of laying up a polyester body by hand.
//
// Caution: resin, hardener and dust harm eyes, skin and lungs, styrene burns, and
// a bucket of resin with too much hardener catches fire. The safety data sheets
// come before this list.
//
// Source: common practice, no source; the resin maker's data sheet comes before
// it.
func HandLayUp() []Step {
	const source = "common practice, no source"
	warm, cold := units.ZeroCelsius+25, units.ZeroCelsius+15
	return []Step{
		{"wax and polish the mould", 1 * units.H, 0, cold, "a drop of water stands as a bead", source},
		{"gel coat, 0.5 to 0.6 mm", 2 * units.H, warm, cold, "tacky: a finger leaves a print and stays clean", source},
		{"first mat, rolled free of air", 12 * units.H, warm, cold, "hard, no soft spots", source},
		{"up to three mats, wet on wet", 12 * units.H, warm, cold, "hard and cold; left overnight", source},
		{"last ply and inserts", 24 * units.H, warm, cold, "hard: a coin leaves no dent", source},
		{"demould", 0, 0, cold, "no creak, no warm spot", source},
		{"stand supported in its shape", 7 * 24 * units.H, 0, cold, "no smell of styrene: it may be loaded", source},
	}
}

// Sessions is how many days of laying up some layers take, when only so many are
// laid wet on wet and each stack is left overnight.
//
//	n = ceil(layers/most)
//
// The layers are 0 or more, the most of one session 1 or more; whole numbers.
// Outside it panics. Three layers of mat are usual: more grow hot as they cure.
//
// Source: common practice, no source.
func Sessions(layers, most units.Number) units.Number {
	argument.Demand("laminate: Sessions", argument.NotNegative("layers", layers), argument.Whole("layers", layers), argument.Within("most", most, 1, math.MaxFloat64), argument.Whole("most", most))
	return math.Ceil(layers / most)
}

// CureTime is how long a list of steps takes, waiting only.
//
// Source: sum.
func CureTime(steps []Step) units.Time {
	total := 0.0
	for _, s := range steps {
		total += s.Wait
	}
	return total
}
