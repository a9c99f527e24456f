// Package supply sizes what feeds a set with electricity: currents of motors,
// cables, breakers, residual-current devices and a generator; what harmonics drives
// draw, and which of two devices in a row trips.
//
// Its nouns: a Load is what draws power; Mains are the voltages; a Cable leads from
// the one to the other; a Breaker and a Residual cut it off; a Generator stands in
// for the mains; a Spectrum is what harmonics a load draws.
//
//	mains := supply.Single230()
//	fan := supply.Load{Name: "blower", Power: 1.1 * units.KW, Efficiency: 0.78, Factor: 0.9, Phases: 1, Line: 1, Share: 1, Start: 6}
//	sum := sheet.Must(mains.Sum([]supply.Load{fan}))
//	lead := supply.Cable{Section: 2.5 * units.Mm2, Length: 30 * units.M, Class: 5, Phases: 1}
//	sheet.AtMost("drop in the lead", lead.Drop(sum.Most, sum.Factor)/mains.Line, 0.05)
//
// Invariants: voltages and currents are root mean squares; apparent power is
// counted in VA, real power in W; a line's voltage is to neutral.
//
// Electricity on wet grass kills. The numbers serve to plan; a qualified
// electrician puts the installation up, tests every device and the loop of every
// circuit before the public comes near, and the local rules and those of the site's
// owner come first.
package supply
