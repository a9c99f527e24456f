// Package textile says what the fabric of inflatables holds: coated cloth, its
// seams, thread and webbing, and the factors between what breaks in a test and
// what a design may use.
//
//	seam := textile.Seam{Rows: 2, Thread: 88 * units.N, Pitch: 5 * units.Mm}
//	strip := textile.StripStrength(1850*units.N, 50*units.Mm)
//	sheet.AtMost("long seam", N, textile.Allowable(strip, seam.Efficiency(strip), 5))
//
// Invariants: strength of cloth is force per length of fabric, never stress;
// what a document asks is data that names its edition and clause.
//
// People jump and fall on what is designed here. The numbers support a
// competent designer; local law, the standards that apply and licensed practice
// come before them, and a test of the shop's own seams before any number here.
package textile
