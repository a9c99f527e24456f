// Package guarding says where a body may be crushed, reach something that moves,
// or stay caught: gaps that close, openings in guards and nets, holes for fingers
// and heads.
//
// Its nouns: a Closing is a gap between parts that move towards each other; an
// Opening is a hole in a guard; a FingerRule and a HeadRule are what a document
// says of holes in which somebody is caught.
//
//	knees := guarding.Closing{Name: "cradle over the mast", Open: 260 * units.Mm, Closed: 190 * units.Mm}
//	squeeze := sheet.Must(knees.Judge())
//	sheet.Holds("cradle over the mast", squeeze.Safe, squeeze.Source)
//
// Invariants: a verdict names the rule it was reached by. The values are tables
// with edition and clause; those that say so are from memory and have to be
// verified against the bought document.
//
// Not here: reaching over a guard (ISO 13857, tables 1 and 2), openings that are
// open at one side, and V-shaped ones. EN 13814 and ISO 17842 have rules of their
// own for amusement devices: where they differ, enter them as a FingerRule or a
// HeadRule with their clause. The stricter document, the local code and the
// inspection body decide.
package guarding
