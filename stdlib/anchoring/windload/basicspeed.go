package windload

import (
	"fmt"
	"math"

	"tautline/stdlib/internal/argument"
	"tautline/stdlib/units"
)

// BasicSpeed is the basic wind speed: the ten-minute mean at 10 m over open
// country that belongs to a direction, a season and a probability.
//
//	vb = direction*season*probability*fundamental
//
// The fundamental speed, from the national map, is 0 or more; the factors for
// direction, season and probability are more than 0. Outside it panics.
//
// Caution: factors below 1 for direction and season are national values; without
// them both are 1. A season that is built for must be the season it stands in.
//
// Source: EN 1991-1-4:2005, 4.2, equation 4.1 with notes 2 to 4.
func BasicSpeed(fundamental units.Speed, direction, season, probability units.Number) units.Speed {
	argument.Demand("windload: BasicSpeed", argument.NotNegative("fundamental speed", fundamental), argument.Positive("direction factor", direction),
		argument.Positive("season factor", season), argument.Positive("probability factor", probability))
	return direction * season * probability * fundamental
}

// ProbabilityFactor is by how much the wind speed changes from the map's
// probability of being exceeded in a year, 2 %, to another.
//
//	cprob = pow((1 - shape*log(log(1/(1 - p))))/(1 - shape*log(log(1/0.98))), exponent)
//
// The yearly probability p is above 0 and below 1: 1/T for a return period of T
// years above one. The recommended shape is 0.2, the exponent 0.5; both are more
// than 0. Outside it panics, as it does where the probability is so high that
// the formula has no value.
//
// Source: EN 1991-1-4:2005, 4.2, note 4, equation 4.2.
func ProbabilityFactor(p, shape, exponent units.Number) units.Number {
	base := (1 - shape*math.Log(math.Log(1/(1-p)))) / (1 - shape*math.Log(math.Log(1/0.98)))
	argument.Demand("windload: ProbabilityFactor", argument.Above("probability", p, 0), argument.Positive("rest of the probability", 1-p),
		argument.Positive("shape", shape), argument.Positive("exponent", exponent), argument.Positive("base of the factor", base))
	return math.Pow(base, exponent)
}

// A ReturnPeriod is how rare a wind has to be for something that stands no
// longer than a duration.
type ReturnPeriod struct {
	Longest units.Time   // it stands up to so long
	Years   units.Number // return period
	Source  string
}

// Probability is the probability in a year that belongs to a return period.
//
//	p = 1/r.Years
//
// The return period is above one year; outside it panics.
//
// Source: definition of the return period.
func (r ReturnPeriod) Probability() units.Number {
	argument.Demand("windload: ReturnPeriod.Probability", argument.Above("return period in years", r.Years, 1))
	return 1 / r.Years
}

// ReturnPeriods are the return periods for what stands for a time only.
//
// Caution: a device that is set up again and again stands for the sum of its
// days; the values are from memory.
//
// Source: EN 1991-1-6:2005, 3.1 (5), Table 3.1, from memory: verify against the
// document.
func ReturnPeriods() []ReturnPeriod {
	const source = "EN 1991-1-6:2005, Table 3.1 (from memory: verify against the document)"
	const day = 24 * units.H
	return []ReturnPeriod{
		{3 * day, 2, source},
		{92 * day, 5, source}, // three months
		{365 * day, 10, source},
		{math.MaxFloat64, 50, source},
	}
}

// ReturnPeriodFor is the return period for what stands for a duration.
//
// A duration of 0 or less is an error.
//
// Source: as ReturnPeriods.
func ReturnPeriodFor(duration units.Time) (ReturnPeriod, error) {
	for _, r := range ReturnPeriods() {
		if duration > 0 && duration <= r.Longest {
			return r, nil
		}
	}
	return ReturnPeriod{}, fmt.Errorf("return period: duration: got %g h, want more than 0", duration/units.H)
}
