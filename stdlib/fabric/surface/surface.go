// Package surface is the shape of inflatables: meshes of their parts.
//
//	ring := sheet.Must(surface.Ring{Radius: 2.6 * units.M, Tube: 0.35 * units.M}.Mesh())
//	volume := sheet.Must(ring.Volume())
//
// A Mesh is points, the triangles between them, each of a named part, and named
// seams along their edges. Parts such as Tube, Ring or Mattress make one, or package
// meshfile reads it; Joined sews several together. Package form inflates it, package
// flatten lays it flat.
//
// Invariants: points, triangles and corners are counted from 0, as in a slice. A
// triangle's corners run counter-clockwise seen from outside, where the air is
// not. No function changes a mesh that it is given, and what it returns shares no
// memory with it.
package surface
