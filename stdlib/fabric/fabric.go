// Package fabric calculates the membranes of inflatables: what pressure does to
// their fabric.
//
// The shapes (Torus, Tube, Cantilever, Sphere, Ellipsoid, Cone, Mattress, Row,
// Lobe, DoubleLobe, Tufts, ClampedStrip, Drum, OpenDome, Discs) turn pressure into
// line force, force per length of fabric. What the fabric and its seams hold
// against it is in package textile, which pressure the blower keeps up in package
// blower, and what a fall on the bed is like in package landing.
//
//	ring := fabric.Torus{Radius: 1.5 * units.M, Tube: 400 * units.Mm, Pressure: 2.5 * units.KPa}
//	N := sheet.Must(ring.InnerEquator()) // the highest force in the ring
//	seam := textile.Seam{Rows: 2, Thread: 88 * units.N, Pitch: 5 * units.Mm}
//	strip := textile.StripStrength(1850*units.N, 50*units.Mm)
//	sheet.AtMost("ring at the inner equator", N, textile.Allowable(strip, seam.Efficiency(strip), 5))
//
// Invariants: pressure is gauge pressure unless a name says absolute; membrane
// forces are force per length, never stress; a positive force is tension.
// Shapes are those of the inflated bed by membrane theory, taken as inextensible
// unless they ask for a stiffness: no bending stiffness, no own weight, no force
// concentrations at corners, ties and seam ends.
//
// Where plausible numbers can describe something that cannot exist (a ring that
// touches itself, a tube bent past collapse), the result comes with an error. A
// plain formula takes every number in the range its comment states; one outside it, such as a negative length, is a mistake
// in the call and panics.
//
// People jump and fall on what is designed here. The numbers support a
// competent designer; local law, the standards that apply and licensed practice
// come before them. The play-inflatable standards EN 14960-1 and ISO 20187 do
// not cover the landing bed of a powered ride: their values are used here by
// analogy, which the designer has to justify.
package fabric
