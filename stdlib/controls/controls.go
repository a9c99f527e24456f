// Package controls judges the safety functions of a ride: how good they have to
// be, how good they are, and how far away people have to be kept meanwhile.
//
// Its nouns: a Risk leads to the performance level that is required; a Part, put
// into channels, makes a Subsystem; subsystems in a row make a Function, which
// reaches a performance level or does not. CCF holds the measures against one
// cause that takes both channels.
//
//	need := sheet.Must(controls.Risk{Severity: 2, Frequency: 1, Avoidance: 2}.Required())
//	stop := controls.Function{Name: "kill cord stops the skiff", Required: need, Emergency: true, Parts: parts}
//	reached := sheet.Must(stop.Assess())
//	sheet.Holds("level reached", reached.Holds, "ISO 13849-1:2015, 4.7")
//
// Invariants: levels are the letters "a" to "e", categories "B", "1", "2", "3",
// "4". Where a standard has no value the result is an error, never the next best
// number. Values from standards say the edition; those from memory say so.
//
// A control that fails can kill. The numbers support a competent designer and an
// inspection body and replace neither; what a maker states for his part, and the
// text of the standard, come first. A level also needs measures against faults of
// design and of software, which no number here counts.
package controls
