// Package meshfile reads meshes that were made elsewhere and puts seams on them.
//
//	hull := sheet.Must(meshfile.ReadSTL(sheet.ReadText("hull.stl"), units.Mm, 0.01*units.Mm))
//	hull = sheet.Must(meshfile.SeamAlong(hull, "keel", []surface.Point{{X: -1.5}, {}, {X: 1.5}}))
//	hull = sheet.Must(meshfile.Creases(hull, 30*units.Deg))
//
// A file has triangles and no more: which edges are seams is said afterwards,
// between places or wherever the surface is creased. Whether the skin is closed is
// asked of the mesh: Closed, Manifold and Volume name what is wrong.
//
// Invariants: what is read passed surface.Mesh.Check; a text that cannot be read
// is an error that names the line or the facet; no text makes it panic.
package meshfile

import (
	"fmt"
	"math"

	"tautline/stdlib/fabric/surface"
	"tautline/stdlib/internal/vector"
)

// farthest is how far from the origin a point may lie, in metres: beyond it the
// unit is wrong.
const farthest = 1e5

func checkUnit(format string, unit float64) error {
	if !(unit > 0 && !math.IsInf(unit, 1)) {
		return fmt.Errorf("%s: unit: got %g m, want more than 0", format, unit)
	}
	return nil
}

// near says that a point is not a place on this earth, or nothing.
func near(v vector.Vector) error {
	for _, x := range v {
		if !(math.Abs(x) <= farthest) {
			return fmt.Errorf("got (%g, %g, %g) m, want at most %g m from the origin: is the unit right?", v[0], v[1], v[2], farthest)
		}
	}
	return nil
}

func position(p surface.Point) vector.Vector { return vector.Vector{p.X, p.Y, p.Z} }
