package siting

import (
	"cmp"
	"fmt"
	"math"

	"tautline/stdlib/anchoring"
	"tautline/stdlib/internal/argument"
	"tautline/stdlib/units"
)

// A WindPlan is what a crew does in which wind. Its speeds are gusts at 10 m.
type WindPlan struct {
	SetUp     units.Speed  // up to which the device is laid out, inflated and strapped, more than 0
	Run       units.Speed  // up to which riders are on it, no less than SetUp
	Deflate   units.Speed  // from which it is let down, no less than Run
	Safe      units.Speed  // in which its anchors hold with Factor on the wind, no less than Deflate
	Factor    units.Number // on the wind's force in Safe, 1 or more
	Standard  units.Speed  // up to which a standard lets it run; 0 when there is none
	Gust      units.Number // gust over the ten-minute mean, 1 or more
	Hand      units.Length // height of the hand anemometer, more than Roughness, up to 10 m
	Roughness units.Length // of the ground, more than 0: 0.03 m short grass
}

// PlanWind is a plan from the wind that the anchors hold with a factor on it, such
// as tether.SafeWind.SpeedOneLost, and the limit of a rule: riders on up to 0.95
// of it, as the rule's 38 km/h are to its design wind of 11.1 m/s, or the rule's
// limit; set up to 0.6 of that, let down from the safe wind. Gusts are 1.6 of the
// mean, the anemometer is held at 2 m over short grass.
//
// The safe wind is more than 0, the factor in it 1 or more; outside it panics.
// Change any field for a reason of your own.
//
// Caution: squalls come faster than riders climb off. Watch the sky and the
// warning service, not just the anemometer.
//
// Source: the rule; the share for setting up and the gust factor: common practice,
// no source.
func PlanWind(safe units.Speed, factor units.Number, rule anchoring.AnchorRule) WindPlan {
	argument.Demand("siting: PlanWind", argument.Positive("safe wind", safe), argument.Within("factor", factor, 1, 10), argument.Positive("wind of the rule", rule.MaxWind))
	run := math.Min(rule.MaxWind, 0.95*safe)
	return WindPlan{SetUp: 0.6 * run, Run: run, Deflate: safe, Safe: safe, Factor: factor, Standard: rule.MaxWind,
		Gust: 1.6, Hand: 2 * units.M, Roughness: 30 * units.Mm}
}

// tenMetres is the height at which winds are forecast.
const tenMetres = 10 * units.M

// Actions is the table that a crew reads: one row for each action, with the wind
// it begins or ends at in three ways, each rounded down to 0.1 m/s.
type Actions struct {
	Action   []string
	Gust     []units.Speed  // at 10 m
	Hand     []units.Speed  // gust that the hand anemometer shows
	Forecast []units.Speed  // ten-minute mean at 10 m
	Beaufort []units.Number // of that mean
	Margin   []units.Number // force that the anchors hold over the force of this wind, rounded down to 0.01
	Why      []string
	Warnings []string
}

// Actions works the plan out.
//
// A plan whose speeds do not rise, or with a number out of its range, is an
// error. Riders on above the standard's limit, or above a gust that the anchors
// hold with less than 1.5 of its force, carry warnings.
//
// Caution: the scale's numbers are of a mean, the limits of gusts: Beaufort 4 has
// gusts of Beaufort 6.
//
// Source: logarithmic wind profile, as anchoring.WindAtHeight, taken for gusts,
// too; the margin is the factor times the square of the speeds' ratio.
func (p WindPlan) Actions() (Actions, error) {
	err := cmp.Or(argument.Positive("wind to set up in", p.SetUp), argument.Within("wind to run in", p.Run, p.SetUp, p.Deflate), argument.Within("wind to deflate in", p.Deflate, p.Run, p.Safe),
		argument.Positive("safe wind", p.Safe), argument.Within("factor", p.Factor, 1, 10), argument.NotNegative("wind of the standard", p.Standard), argument.Within("gust factor", p.Gust, 1, 10),
		argument.Positive("roughness", p.Roughness), argument.Above("height of the anemometer", p.Hand, p.Roughness), argument.Within("height of the anemometer", p.Hand, 0, tenMetres))
	if err != nil {
		return Actions{}, fmt.Errorf("wind plan: %w", err)
	}
	var a Actions
	row := func(action string, v units.Speed, why string) {
		a.Action, a.Why = append(a.Action, action), append(a.Why, why)
		a.Gust = append(a.Gust, tenthBelow(v))
		a.Hand = append(a.Hand, tenthBelow(anchoring.WindAtHeight(v, tenMetres, p.Hand, p.Roughness)))
		a.Forecast = append(a.Forecast, tenthBelow(v/p.Gust))
		a.Beaufort = append(a.Beaufort, anchoring.Beaufort(v/p.Gust))
		a.Margin = append(a.Margin, math.Floor(100*p.margin(v)+1e-9)/100)
	}
	row("set up: up to", p.SetUp, "an inflatable half up has no anchors yet")
	row("riders on: up to", p.Run, "above it riders off, at once; nobody by the walls")
	row("let it down: from", p.Deflate, "blowers off, zips open, straps on to the end")
	row("keep away: from", p.Safe*math.Sqrt(p.Factor), "anchors give way, no reserve is left")
	if p.Standard > 0 && p.Run > p.Standard*(1+1e-9) {
		a.Warnings = append(a.Warnings, fmt.Sprintf("riders are on up to %.1f km/h, above the standard's limit of %.1f km/h", p.Run/units.KmPerH, p.Standard/units.KmPerH))
	}
	if margin := p.margin(p.Run); margin < 1.5*(1-1e-9) {
		a.Warnings = append(a.Warnings, fmt.Sprintf("with riders on the anchors hold only %.2f times the wind's force: leave at least 1.5 for the time that it takes to get them off", margin))
	}
	return a, nil
}

// tenthBelow rounds down to 0.1 m/s.
func tenthBelow(v float64) float64 { return math.Floor(10*v+1e-9) / 10 }

// margin is the force that the anchors hold over the force of a wind.
func (p WindPlan) margin(v units.Speed) units.Number { return p.Factor * (p.Safe / v) * (p.Safe / v) }
