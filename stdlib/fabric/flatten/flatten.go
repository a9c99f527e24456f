// Package flatten lays a surface made of triangles flat with the least strain,
// and cuts a mesh along its seam lines into the pieces of a pattern.
//
//	panels := sheet.Must(flatten.Cut(shape))                             // along the mesh's seams
//	made := sheet.Must(flatten.Pattern(shape, 1*units.Percent, 0.005))   // pieces and seams
//	made.Panels[0].Draw(sheet.NewDrawing("Strain of the first panel"))
//
// A surface that unrolls (each inner point has 360° round it) lies flat without
// strain. Any other one must stretch or gather: Flatten shows where and how much,
// and refuses more than the cloth is said to bear.
//
// Method: a conformal map for the start (it keeps angles and cannot be far off),
// then Newton's method on the strain energy of an isotropic cloth without lateral
// contraction, whose minimum is the flat piece from which the surface is made
// with the least work.
//
// Invariants: a piece is seen from the outer face of the mesh; flat and surface
// have the same triangles; no triangle of the flat piece is turned over.
package flatten

import (
	"fmt"
	"math"
	"slices"

	"tautline/stdlib/fabric/surface"
	"tautline/stdlib/internal/argument"
	"tautline/stdlib/kept"
	"tautline/stdlib/sheet"
	"tautline/stdlib/units"
)

// A Flat is a surface laid flat.
type Flat struct {
	Mesh surface.Mesh
	X, Y []units.Length // of each point of the mesh

	// Strains of each triangle when the flat cloth is made up to the surface:
	// the greatest and the least over all directions, positive for stretch.
	High, Low []units.Number

	Most       units.Number // greatest stretch
	Least      units.Number // greatest gathering, negative; 0 or more when all is stretched
	Worst      units.Number // triangle of the larger of the two, counted from 0
	Distortion units.Number // ln of the greatest scale over the least
	EdgeStrain units.Number // greatest size of the strain along an edge of the mesh
	Steps      units.Number // of Newton's method
}

// Flatten lays a mesh flat with the least strain energy. The mesh is one skin
// with one open loop and no hole: a disc.
//
// The limit is the greatest strain, stretched or gathered, that the cloth and its
// sewers bear, 0 or more. More than that is an error which says where; so is a
// mesh that is no disc or lies in a heap however it is flattened.
//
// Source: Lévy, Petitjean, Ray and Maillot, Least squares conformal maps, ACM
// Trans. Graphics 21(3), 2002 (start); Smith, de Goes and Kim, Analytic
// eigensystems for isotropic distortion energies, ACM Trans. Graphics 38(1), 2019
// (second derivatives of the energy).
func Flatten(mesh surface.Mesh, limit units.Number) (Flat, error) {
	return kept.Result("flatten.Flatten", bounded{mesh, limit}, bounded.flatten)
}

// A bounded mesh is what a flattening depends on.
type bounded struct {
	Mesh  surface.Mesh
	Limit float64
}

func (b bounded) flatten() (Flat, error) {
	mesh, limit := b.Mesh, b.Limit
	if err := argument.NotNegative("limit of strain", limit); err != nil {
		return Flat{}, fmt.Errorf("flattening: %w", err)
	}
	s, err := newSkin(mesh)
	if err != nil {
		return Flat{}, fmt.Errorf("flattening: %w", err)
	}
	x, err := s.conformal()
	if err != nil {
		return Flat{}, fmt.Errorf("flattening %s: %w", s.name(0), err)
	}
	steps, err := s.relax(x)
	if err != nil {
		return Flat{}, fmt.Errorf("flattening %s: %w", s.name(0), err)
	}
	f, err := s.judge(x)
	if err != nil {
		return Flat{}, fmt.Errorf("flattening: %w", err)
	}
	f.Steps = float64(steps)
	if worst := max(f.Most, -f.Least); worst > limit {
		t := int(f.Worst)
		return f, fmt.Errorf("flattening: %s: strain: got %.2f %%, want %.2f %% at most: cut the surface into more or narrower panels",
			s.place(t), 100*worst, 100*limit)
	}
	return f, nil
}

// Conformal lays a mesh flat so that angles are kept as well as they can be, in
// the least squares. It shows what the start of Flatten is; cloth is cut by
// Flatten.
//
// A mesh that is no disc is an error.
//
// Source: Lévy, Petitjean, Ray and Maillot, Least squares conformal maps, ACM
// Trans. Graphics 21(3), 2002.
func Conformal(mesh surface.Mesh) (Flat, error) {
	s, err := newSkin(mesh)
	if err != nil {
		return Flat{}, fmt.Errorf("conformal map: %w", err)
	}
	x, err := s.conformal()
	if err != nil {
		return Flat{}, fmt.Errorf("conformal map: %w", err)
	}
	return s.judge(x)
}

// Judge measures the strains of a mesh laid flat in a way of one's own, (xs, ys)
// being where each of its points lies.
//
// A mesh that is no disc, and triangles turned over or of no size, are errors.
//
// Source: singular values of each triangle's map.
func Judge(mesh surface.Mesh, xs, ys []units.Length) (Flat, error) {
	if len(xs) != len(mesh.Points) || len(ys) != len(mesh.Points) {
		return Flat{}, fmt.Errorf("strains: got %d x and %d y values, want %d, one for each point", len(xs), len(ys), len(mesh.Points))
	}
	s, err := newSkin(mesh)
	if err != nil {
		return Flat{}, fmt.Errorf("strains: %w", err)
	}
	x := make([]float64, 0, 2*len(xs))
	for i := range xs {
		x = append(x, xs[i], ys[i])
	}
	return s.judge(x)
}

// judge measures the strains of a flattening.
func (s *skin) judge(x []float64) (Flat, error) {
	f := Flat{Mesh: s.mesh, Most: math.Inf(-1), Least: math.Inf(1)}
	for i := range s.mesh.Points {
		f.X, f.Y = append(f.X, x[2*i]), append(f.Y, x[2*i+1])
	}
	worst := -1.0
	for t := range s.tris {
		large, small := s.scales(t, x)
		if !(small > 0) || math.IsInf(large, 1) {
			return Flat{}, fmt.Errorf("%s: turned over on the table: the surface bends too much for one piece; cut it into more panels", s.place(t))
		}
		high, low := 1/small-1, 1/large-1
		f.High, f.Low = append(f.High, high), append(f.Low, low)
		f.Most, f.Least = max(f.Most, high), min(f.Least, low)
		if w := max(high, -low); w > worst {
			worst, f.Worst = w, float64(t)
		}
		for k := range 3 {
			i, j := s.tris[t].corner[k], s.tris[t].corner[(k+1)%3]
			a, b := s.mesh.Points[i], s.mesh.Points[j]
			long := math.Sqrt((b.X-a.X)*(b.X-a.X) + (b.Y-a.Y)*(b.Y-a.Y) + (b.Z-a.Z)*(b.Z-a.Z))
			f.EdgeStrain = max(f.EdgeStrain, math.Abs(long/math.Hypot(f.X[j]-f.X[i], f.Y[j]-f.Y[i])-1))
		}
	}
	f.Distortion = math.Log((1 + f.Most) / (1 + f.Least))
	return f, nil
}

// Area is that of the flat piece.
//
// Source: geometry of a polygon.
func (f Flat) Area() units.Area {
	sum := 0.0
	for _, t := range f.Mesh.Triangles {
		sum += ((f.X[t.B]-f.X[t.A])*(f.Y[t.C]-f.Y[t.A]) - (f.X[t.C]-f.X[t.A])*(f.Y[t.B]-f.Y[t.A])) / 2
	}
	return sum
}

// Draw shows the flat piece with the strain of each triangle in per cent: where
// the cloth must stretch (positive) or gather (negative), whichever is more there.
// The piece is turned so that it lies in the least box, on its long side.
func (f Flat) Draw(d *sheet.Drawing) {
	reach := max(f.Most, -f.Least, 1e-4)
	d.Scale("strain in per cent", -100*reach, 100*reach)
	f.X, f.Y = f.laid()
	for i, t := range f.Mesh.Triangles {
		value := f.High[i]
		if -f.Low[i] > value {
			value = f.Low[i]
		}
		d.Shade([]float64{f.X[t.A], f.X[t.B], f.X[t.C]}, []float64{f.Y[t.A], f.Y[t.B], f.Y[t.C]}, 100*value)
	}
}

// laid is the piece turned, to the degree, so that it lies in the least box.
func (f Flat) laid() (xs, ys []float64) {
	turned := func(angle float64) (xs, ys []float64, width, height float64) {
		sin, cos := math.Sincos(angle)
		for i, x := range f.X {
			xs, ys = append(xs, x*cos-f.Y[i]*sin), append(ys, x*sin+f.Y[i]*cos)
		}
		return xs, ys, slices.Max(xs) - slices.Min(xs), slices.Max(ys) - slices.Min(ys)
	}
	best, least := 0.0, math.Inf(1)
	for degree := range 180 {
		angle := float64(degree) * math.Pi / 180
		if _, _, w, h := turned(angle); w >= h && w*h < least {
			best, least = angle, w*h
		}
	}
	xs, ys, _, _ = turned(best)
	return xs, ys
}
