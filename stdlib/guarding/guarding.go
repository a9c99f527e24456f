// Package guarding says where a body may be crushed, reach something that moves,
// or stay caught: gaps that close, reaches through, over and round guards, holes
// for fingers, heads and necks.
//
// Its nouns: a Closing is a gap between parts that move towards each other; an
// Opening is a hole in a guard, a Structure what people lean over; a FingerRule, a
// HeadRule, a NeckRule and a BallRule are what a document says of holes, and of a
// Notch, in which somebody is caught.
//
//	knees := guarding.Closing{Name: "cradle over the mast", Open: 260 * units.Mm, Closed: 190 * units.Mm}
//	squeeze := sheet.Must(knees.Judge())
//	sheet.Holds("cradle over the mast", squeeze.Safe, squeeze.Source)
//
// Invariants: a verdict names the rule it was reached by. The values are tables
// with edition and clause; those that say so are from memory and have to be
// verified against the bought document.
//
// Not here: EN 13814 and ISO 17842 have rules of their own for amusement devices,
// whose values are not at hand: enter them as a FingerRule, a HeadRule or a
// BallRule with their clause, and where they differ the stricter counts. Openings
// of other shapes than those here need the probes themselves. Local code and the
// inspection body decide.
package guarding
