// Package unroll gives the flat pieces of round shapes: those that unroll exactly
// (Tube, Ring, Frustum, Tee, RoundMattress) and gores (SphereGores, RingGores),
// which are exact along their middle and say how their seams pucker.
//
//	tube := unroll.Ring{Radius: 2.6 * units.M, Tube: 350 * units.Mm, Sweep: 360 * units.Deg, Pieces: 16}
//	ring := sheet.Must(tube.Pattern("ring", 2, 0, 0.002)) // two panels round the tube
//	fmt.Sprintf("%g m", tube.OuterLength())
//
// Invariants: shapes are those of the filled bed, without allowances; what
// pressure stretches and what is sewn away is the business of package pattern.
// Edges that a seam joins are drawn with the same points, so they match.
package unroll
