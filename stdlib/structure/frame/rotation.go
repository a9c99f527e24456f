package frame

import (
	"math"
	"slices"

	"tautline/stdlib/internal/argument"
	"tautline/stdlib/units"
)

// A Resonance is a speed at which a spinning part shakes a natural frequency.
type Resonance struct {
	Mode      units.Number // from 1
	Order     units.Number // shakes in a turn
	Speed     units.AngularSpeed
	Frequency units.Frequency
}

// Resonances are the speeds at which something that shakes the frame a number of
// times in each turn meets a natural frequency, the slowest first: 2π times the
// frequency over the order.
//
// An unbalanced mast shakes once in a turn; two seats pass a fixed point, and a
// flat mast meets its stiff side, twice; three rollers three times. Orders are
// more than 0; outside it panics.
//
// Source: definition of the order; the diagram is Campbell's (Protection of steam
// turbine disk wheels from axial vibration, Trans. ASME 46, 1924). Frequencies
// are those of the frame at rest: what spinning does to them (gyroscopic forces,
// centrifugal stiffening) is left out, so keep a margin of a fifth.
func Resonances(modes []VibrationMode, orders ...units.Number) []Resonance {
	var list []Resonance
	for i, m := range modes {
		for _, k := range orders {
			argument.Demand("frame: Resonances", argument.Positive("order", k))
			list = append(list, Resonance{float64(i + 1), k, 2 * math.Pi * m.Frequency / k, m.Frequency})
		}
	}
	slices.SortStableFunc(list, func(a, b Resonance) int {
		switch {
		case a.Speed < b.Speed:
			return -1
		case a.Speed > b.Speed:
			return 1
		}
		return 0
	})
	return list
}

// SpeedMargin is how far a speed stays from the nearest resonance, as a share of
// that resonance's speed: 0.2 is a fifth below or above.
//
// The speed is 0 or more; outside it panics. Without resonances the margin is 1.
//
// Source: definition.
func SpeedMargin(list []Resonance, speed units.AngularSpeed) units.Number {
	argument.Demand("frame: SpeedMargin", argument.NotNegative("speed", speed))
	margin := 1.0
	for _, r := range list {
		margin = math.Min(margin, math.Abs(speed-r.Speed)/r.Speed)
	}
	return margin
}
