// Package anchoring calculates what keeps an inflatable where it stands, the way
// a standard's annex or a hand calculation does: the wind on it, the anchors and
// ballast that hold it, and whether it tips or slides.
//
// Its nouns: a Wind is a design wind with its source, a Block what stands in it,
// Factors the safety factors of one standard, AnchorRule what a document asks of
// every anchor, a Point a place on the site. Plain functions give the force laws
// of ballast and friction. Beside it, windload knows the wind of a site, holding
// what anchors hold in the ground, tether the whole set of straps from every side,
// and siting how the device may stand and run.
//
//	wind := anchoring.PlayInflatableWind()
//	rule := anchoring.PlayInflatableAnchors()
//	bed := anchoring.Block{Width: 5 * units.M, Height: 3 * units.M, Depth: 4 * units.M, Mass: 150 * units.Kg}
//	F := wind.Force(bed.Face())
//	n := anchoring.AnchorsPerFace(F, rule.Factor, rule.Load)
//	m := anchoring.BallastMass(rule.Load, 45*units.Deg, 0.4) // 404 kg a strap, not 163 kg
//
// Invariants: angles of straps are measured from the ground, 0 lying and 90°
// upright; a force is a size, 0 or more, unless its comment gives it a sign;
// weight is taken at standard gravity. Own weight helps only through a factor
// that a standard allows. A function given a number outside the range in its
// comment panics; data that describes something impossible comes back as an
// error.
//
// The play-inflatable standards EN 14960-1 and ISO 20187 cover bouncing and
// sliding by users up to 14 years. A powered ride's bed is outside their scope:
// their wind and anchor rules are used here by analogy, which the designer has to
// justify. An anchor that fails lets a bed fly with people on it: local law, the
// ground found on the day, the standards that apply and licensed practice come
// before any number given here.
package anchoring
