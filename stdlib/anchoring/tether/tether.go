// Package tether finds how the straps of a device share the wind: which are
// taut, which are slack, which foot lifts, which anchor governs, and in which
// wind from which side the first one gives way.
//
// Its noun is a Set: the anchors with their straps, the feet that the device
// stands on, the faces in the wind and the weight.
//
//	ring := tether.Ring{Number: 8, Eye: 2.95 * units.M, Height: 0.7 * units.M, Angle: 40 * units.Deg, Holding: 1600 * units.N, Stiffness: 150 * units.KNPerM}
//	set := tether.Set{Anchors: ring.Anchors(), Feet: tether.RoundBase(2.6*units.M, 12, 1e6*units.NPerM, 0), ...}
//	round := sheet.Must(set.Survey(11.1*units.MPerS, 72)) // every side, each anchor lost in turn
//	safe := sheet.Must(set.SafeWind(72))
//	sheet.AtMost("anchors, any one lost", round.GreatestOneLost, 1)
//
// The device is rigid and moves little. A strap pulls or is slack, a foot presses
// or is off the ground, and rubs up to its friction. Which of them do is found
// together with the forces, as the least energy of the whole (a complementarity
// problem, solved by Newton's method on the set that acts), so a strap that goes
// slack hands its share to the others, and what nothing holds is said to tip,
// slide, lift or turn. Without friction the forces are the only ones possible.
// Friction depends on how the feet press, and the two are brought to agree; a
// device for which they do not agree, near the end of what friction can hold,
// counts as lost. Friction mostly takes load off the straps, but not always:
// calculate without it, too.
//
// Invariants: bearings run clockwise from north, X east, Y north, Z up. The
// factors of a Set multiply wind and weight; what an anchor holds is given with
// its own safety taken off. No face shelters another.
//
// A set that holds on paper fails in the field by one stake in soft ground, one
// strap not hooked in, one ratchet not locked. Count on one anchor lost, pull-test
// on the day, and leave the decision to a competent person on the spot.
package tether
