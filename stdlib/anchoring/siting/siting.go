// Package siting says how a device may stand and be run: up to which wind, with
// how much room round it, by whom, and what is done when a blower stops.
//
// Its nouns: a WindPlan is what the crew does as the wind rises, with the Actions
// read from it; Surround, Walls and GroundingMass are what the play-inflatable
// standard asks of the place and the device.
//
//	plan := siting.PlanWind(safe.SpeedOneLost, set.Factors.Wind, anchoring.PlayInflatableAnchors())
//	plan.Gust = open.GustFactor(10 * units.M)
//	actions := sheet.Must(plan.Actions())
//
// Invariants: the winds of a plan are gusts at 10 m; what a hand anemometer shows
// nearer the ground, and the ten-minute mean that a forecast gives, are lower and
// follow from them.
//
// The play-inflatable standards EN 14960-1 and ISO 20187 cover bouncing and
// sliding by users up to 14 years. The bed of a powered ride is outside their
// scope: what stands here serves it by analogy, which the designer has to
// justify. The local code, the permit and a competent person on the spot come
// first, and the crew may stop the ride at any wind it does not like.
package siting
