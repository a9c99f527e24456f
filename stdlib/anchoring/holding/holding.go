// Package holding estimates what an anchor holds: a stake, a screw or a plate in
// the ground, ballast on it, and the strap between.
//
// Its nouns: a Soil is a class of ground, Stake, Screw and Ballast are anchors, a
// Strap ties them to the device, a PullTest is what the crew measured.
//
//	lawn := sheet.Must(holding.SoilOf("firm clay"))
//	stake := holding.Stake{Length: 850 * units.Mm, Diameter: 25 * units.Mm, Arm: 50 * units.Mm, Yield: 235 * units.MPa, Lean: 15 * units.Deg}
//	guess := sheet.Must(stake.Holds(lawn, 40*units.Deg))
//	test := holding.PullTest{Readings: []units.Force{3.1 * units.KN, 2.7 * units.KN, 3.4 * units.KN}, Factor: 1.5}
//	found := sheet.Must(test.Holding()) // this decides, not the guess
//
// Invariants: strap angles are measured from the ground, 0 lying and 90°
// upright; a tension is that at which the anchor gives way, with no safety taken
// off unless a name says so.
//
// The ground of a fairground is not that of a table: turf, roots, old trenches,
// rain and the last event change it by a factor of two within a metre. A
// calculated stake is a guess for planning. The pull test on the day, the strap
// angle on the day and a competent person decide. Buried cables and pipes come
// before every stake.
package holding
