// Package landing calculates how a rider falls onto a bed: how fast, how far he
// may be thrown, how deep he sinks into air and foam, and what he feels.
//
// A Body drops on a Bed; the Landing says how deep it came, how hard it was and,
// if the bed is too shallow, how fast the body reached the ground. A History is
// what was felt over time, computed or measured, and gives the head injury
// criterion.
//
//	bed := landing.Bed{Depth: 0.9 * units.M, Volume: 12 * units.M3, Pressure: 1.9 * units.KPa,
//		Ambient: 101325 * units.Pa, Density: 1.2 * units.KgPerM3, Exponent: 1.4}
//	fall := sheet.Must(bed.Drop(landing.Body{Mass: 100 * units.Kg, Area: 0.8 * units.M2}, 1.2*units.M))
//	sheet.AtMost("depth", fall.Depth, bed.Depth)
//
// Invariants: depth is downward from the bed's top; what is felt is the bed's
// force over the rider's weight, 1 when he lies still, and so 1 more than the
// net deceleration over gravity.
//
// Bottoming is an answer, not an error: the run ends at the ground with the speed
// left. No number says what the ground then does.
//
// A fall can kill. The numbers support a competent designer; local law, the
// standards that apply and licensed practice come before them, and a bed is
// proved by dropping dummies on it. The criteria used are those of a headform on
// playground surfacing; for a rider who lands on his back they serve by analogy.
package landing
