// Package textile says what the fabric of inflatables holds: coated cloth, its
// seams, thread and webbing, and the factors between what breaks in a test and
// what a design may use.
//
// A Cloth is a certificate; a Joint is two edges of cloth and how they hold,
// from its thread (SewnJoint), its weld (WeldedJoint) or a test (TestedJoint).
// Factors, named one by one, make of either what a design may use; a Patch and
// an Attachment bring a strap's pull into the cloth. Utilised and Governing say
// which part is the tightest.
//
//	seam := textile.Seam{Rows: 2, Thread: 95 * units.N, Pitch: 5 * units.Mm, Loss: 0.2}
//	long := sheet.Must(textile.SewnJoint("long seam", textile.DoubleLocked, seam))
//	sheet.AtMost("long seam", N, textile.TensileStructurePractice().Allowable(long.Strength))
//
// Invariants: strength of cloth is force per length of fabric, never stress;
// what a document asks is data that names its edition and clause.
//
// People jump and fall on what is designed here. The numbers support a
// competent designer; local law, the standards that apply and licensed practice
// come before them, and a test of the shop's own seams before any number here.
package textile
