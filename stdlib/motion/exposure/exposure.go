// Package exposure judges what riders feel: filtered acceleration by axis and
// duration, held against limit curves.
//
// Its nouns: a Filter is the low pass that ride accelerations are read through; a
// Curve is a limit, as long as which acceleration may last; an Assessment holds
// a trace against it.
//
//	low := exposure.RideFilter(200 * units.Hz)
//	z := low.Apply(trace.Z, units.Gn)
//	a := sheet.Must(exposure.Assess(z, 5*units.Ms, curve))
//	sheet.AtMost("felt upward", a.Utilisation, 1, a.Source)
//
// Invariants: no limit of a standard stands in this package. Curves are data that
// the user enters from the bought document, with its edition and clause; where
// there is none, an assessment says so and passes nothing.
//
// Accelerations that last too long injure. The numbers support a competent
// designer and an inspection body; they replace neither.
package exposure
