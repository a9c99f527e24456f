package flatten

import (
	"fmt"
	"math"

	"tautline/stdlib/fabric/surface"
	"tautline/stdlib/units"
)

// Defects is, for each point of a mesh, by how much the angles of the triangles
// round it fall short of lying flat: of 360° at an inner point, of 180° at one on
// the rim. A surface unrolls exactly when all inner ones are 0; their sum over a
// disc, with those of the rim, is always 360°.
//
// A mesh that is not one skin is an error.
//
// Source: theorem of Gauss and Bonnet for a surface of flat triangles.
func Defects(mesh surface.Mesh) ([]units.Angle, error) {
	c, err := newCloth(mesh)
	if err == nil {
		err = c.manifold()
	}
	var rims [][]int
	if err == nil {
		rims, err = c.rims()
	}
	if err != nil {
		return nil, fmt.Errorf("angle defects: %w", err)
	}
	defects := make([]float64, len(mesh.Points))
	for i := range defects {
		defects[i] = 2 * math.Pi
	}
	for _, rim := range rims {
		for _, p := range rim {
			defects[p] = math.Pi
		}
	}
	for _, t := range mesh.Triangles {
		f := flatTriangle(mesh, t)
		for k := range 3 {
			i, j := (k+1)%3, (k+2)%3
			ux, uy, vx, vy := f.x[i]-f.x[k], f.y[i]-f.y[k], f.x[j]-f.x[k], f.y[j]-f.y[k]
			defects[f.corner[k]] -= math.Atan2(ux*vy-uy*vx, ux*vx+uy*vy)
		}
	}
	return defects, nil
}
