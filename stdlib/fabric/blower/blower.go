// Package blower calculates the air of inflatables: what leaks, what the blowers
// give, the pressure at which a bed settles, how fast it fills and how long it
// carries its riders once the power fails.
//
// Two nouns meet: a Fan is a blower's curve, a Leak everything through which the
// bed loses air. Where they balance is the OperatingPoint; several blowers, with
// and without flaps, Settle. A PowerLoss is what comes once they stop.
//
//	fan := blower.ParabolicFan(2.5*units.KPa, 0.6*units.M3PerS)
//	leak := blower.Leak{Openings: []blower.Orifice{{Discharge: 0.61, Area: 20 * units.Cm2, Density: 1.2 * units.KgPerM3}}}
//	duty := sheet.Must(blower.OperatingPoint(fan, leak))
//	sheet.AtLeast("bed pressure", duty.Pressure, 1.5*units.KPa)
//
// Invariants: pressure is gauge pressure unless a name says absolute or ambient,
// and small against the atmosphere's; a flow is the volume at the bed's density;
// a flow into the bed is positive.
//
// A leak that beats the fan, a curve that is none and the like come back as an
// error. A plain formula takes every number in the range its comment states; one
// outside it is a mistake in the call and panics.
//
// Riders stand on this air. The numbers support a competent designer; local law,
// the standards that apply and licensed practice come before them, and a bed is
// proved by switching its blower off before the first rider.
package blower
