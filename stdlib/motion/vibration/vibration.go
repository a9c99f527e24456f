// Package vibration weighs the vibration and the slow sway of a ride as ISO
// 2631-1 has it: for health, comfort and motion sickness.
//
//	w := sheet.Must(vibration.Weigh(vibration.Wk(), trace.Z, 5*units.Ms))
//	sheet.AtMost("sickness", vibration.Illness(w.Rms, ride.Duration), 0.10)
//
// The weightings are transfer functions; samples are weighted in the frequency
// domain, as if they recurred. The mean of the samples, one g along z, is taken
// out first.
//
// The numbers support a competent designer and an inspection body; they replace
// neither.
package vibration
