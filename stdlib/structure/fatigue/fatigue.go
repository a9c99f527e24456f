// Package fatigue calculates how long a steel frame lasts under loads that come
// and go: it counts cycles in a history of stress, holds them against the curves
// of EN 1993-1-9, and says which weld gives way first and after how many seasons.
//
// Its nouns: a Detail is a place where cracks start, with its category; Loads are
// a history of forces; a Spot turns loads into stress at a detail; a Cycle is
// what Rainflow counts; a Season is how often the ride runs.
//
//	weld := sheet.Must(fatigue.NewDetail("8.5-1"))
//	post := fatigue.Spot{Name: "post on its plate", Detail: weld, Ax: tube.A, Wy: tube.Wely}
//	f := sheet.Must(fatigue.RecommendedFactors("safe life", "high"))
//	r := sheet.Must(fatigue.Assess([]fatigue.Spot{post}, loads, f))
//	year := fatigue.Season{EventsPerHour: 20, HoursPerDay: 8, Days: 60}
//	sheet.AtMost("fatigue damage in ten seasons", r.Damage*year.Events()*10, 1)
//
// Invariants: a stress range is nominal stress at the detail in service, without
// the partial factors of strength; the factors of fatigue are applied inside, the
// one on load to every range and the one on strength to the category. Damage is
// Miner's sum of one event: 1 is a crack as the test pieces had.
//
// A fatigue crack breaks a ride without warning. The numbers support a competent
// designer; local law, the standards that apply and licensed practice come before
// them. A life on paper does not replace looking at the welds: say where, how
// often and by whom.
package fatigue

import (
	"fmt"
	"math"

	"tautline/stdlib/internal/argument"
	"tautline/stdlib/units"
)

// Factors are the partial factors of a fatigue assessment.
type Factors struct {
	Load     units.Number // on stress ranges, gamma Ff
	Strength units.Number // on the category, gamma Mf
	Source   string
}

// RecommendedFactors are those of the Eurocode for a method and a consequence of
// failure.
//
// The method is "damage tolerant", when cracks are looked for and found before
// they matter, or "safe life", when nobody looks. The consequence is "low" or
// "high"; where a rider can be thrown or dropped it is high. Other words are an
// error.
//
// Source: EN 1993-1-9:2005, Table 3.1, recommended values; 3(7) with the factor
// on load of 1.0.
func RecommendedFactors(method, consequence string) (Factors, error) {
	table := map[string]map[string]float64{
		"damage tolerant": {"low": 1.00, "high": 1.15},
		"safe life":       {"low": 1.15, "high": 1.35},
	}
	row, ok := table[method]
	if !ok {
		return Factors{}, fmt.Errorf(`fatigue factors: method: got %q, want "damage tolerant" or "safe life"`, method)
	}
	strength, ok := row[consequence]
	if !ok {
		return Factors{}, fmt.Errorf(`fatigue factors: consequence: got %q, want "low" or "high"`, consequence)
	}
	return Factors{Load: 1, Strength: strength, Source: fmt.Sprintf("EN 1993-1-9:2005, Table 3.1: %s, %s consequence", method, consequence)}, nil
}

func (f Factors) check() error {
	if err := argument.Within("partial factor on load (take RecommendedFactors)", f.Load, 1, math.MaxFloat64); err != nil {
		return err
	}
	return argument.Within("partial factor on strength (take RecommendedFactors)", f.Strength, 1, math.MaxFloat64)
}
