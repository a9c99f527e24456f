package flatten_test

import (
	"fmt"
	"math"
	"testing"

	"pgregory.net/rapid"

	"tautline/stdlib/fabric/flatten"
	"tautline/stdlib/fabric/surface"
	"tautline/stdlib/internal/proof"
	"tautline/stdlib/sheet"
	"tautline/stdlib/units"
)

// grid is a mesh of rows × columns points, seen from the side from which the way
// along a row, then to the next row, turns anticlockwise.
func grid(rows, columns int, at func(i, j int) surface.Point) surface.Mesh {
	m := surface.Mesh{Parts: []string{"panel"}}
	for i := range rows {
		for j := range columns {
			m.Points = append(m.Points, at(i, j))
		}
	}
	for i := range rows - 1 {
		for j := range columns - 1 {
			a, b, c, d := i*columns+j, i*columns+j+1, (i+1)*columns+j+1, (i+1)*columns+j
			m.Triangles = append(m.Triangles, surface.Triangle{A: a, B: b, C: c}, surface.Triangle{A: a, B: c, C: d})
		}
	}
	return m
}

// cone is the wall of a frustum, slit along one side, drawn by its edges: plane
// quadrilaterals in a strip, or in several rows.
func cone(small, large, height float64, rows, around int, turn float64) surface.Mesh {
	return grid(rows+1, around+1, func(i, j int) surface.Point {
		s := float64(i) / float64(rows)
		r := large + s*(small-large)
		sin, cos := math.Sincos(turn * float64(j) / float64(around))
		return surface.Point{X: r * cos, Y: r * sin, Z: height * s}
	})
}

// cap is a spherical cap of radius 1 seen from outside, in rings of equal width.
func ballCap(angle float64, rings, around int) surface.Mesh {
	m := surface.Mesh{Parts: []string{"cap"}, Points: []surface.Point{{Z: 1}}}
	for i := 1; i <= rings; i++ {
		sinA, cosA := math.Sincos(angle * float64(i) / float64(rings))
		for j := range around {
			sin, cos := math.Sincos(2 * math.Pi * (float64(j) + 0.5*float64(i)) / float64(around))
			m.Points = append(m.Points, surface.Point{X: sinA * cos, Y: sinA * sin, Z: cosA})
		}
	}
	point := func(i, j int) int { return 1 + (i-1)*around + (j+around)%around }
	for j := range around {
		m.Triangles = append(m.Triangles, surface.Triangle{A: 0, B: point(1, j), C: point(1, j+1)})
		for i := 1; i < rings; i++ { // each ring is turned by half a step against the one inside
			m.Triangles = append(m.Triangles,
				surface.Triangle{A: point(i, j), B: point(i+1, j), C: point(i, j+1)},
				surface.Triangle{A: point(i, j+1), B: point(i+1, j), C: point(i+1, j+1)})
		}
	}
	return m
}

// Strips of plane pieces round a cone or a cylinder unroll exactly, by geometry:
// no strain, the same area, 360° round each inner point.
func TestDevelopable(t *testing.T) {
	for _, c := range []struct {
		what         string
		small, large float64
		height, turn float64
		rows, around int
	}{
		{"frustum of radii 0.5 and 0.9 m, 1.2 m high", 0.5, 0.9, 1.2, 2 * math.Pi, 1, 48},
		{"the same in rows", 0.5, 0.9, 1.2, 2 * math.Pi, 8, 48},
		{"half a cylinder of 0.3 m, 1 m long", 0.3, 0.3, 1, math.Pi, 1, 24},
		{"the same in rows", 0.3, 0.3, 1, math.Pi, 6, 24},
	} {
		mesh := cone(c.small, c.large, c.height, c.rows, c.around, c.turn)
		f := proof.Must(flatten.Flatten(mesh, 1e-8))(t)
		proof.Near(t, c.what+", edge strain", f.EdgeStrain, 0, 1e-9)
		proof.Near(t, c.what+", stretch", f.Most, 0, 1e-9)
		proof.Near(t, c.what+", gathering", f.Least, 0, 1e-9)
		proof.Near(t, c.what+", area", f.Area(), mesh.Area(), 1e-12)
		defects := proof.Must(flatten.Defects(mesh))(t)
		inner := 0
		for i := 1; i < c.rows; i++ {
			for j := 1; j < c.around; j++ {
				inner++
				if d := defects[i*(c.around+1)+j]; math.Abs(d) > 1e-9 {
					t.Errorf("%s, row %d, place %d: angles fall short by %g, want 0", c.what, i, j, d)
				}
			}
		}
		if want := (c.rows - 1) * (c.around - 1); inner != want {
			t.Errorf("%s: judged %d inner points, want %d", c.what, inner, want)
		}
	}
	// The strip of 48 around is inscribed: its slit edges and arcs of chords are
	// those of the prism.
	f := proof.Must(flatten.Flatten(cone(0.5, 0.9, 1.2, 1, 48, 2*math.Pi), 1e-8))(t)
	proof.Near(t, "slit", math.Hypot(f.X[49]-f.X[0], f.Y[49]-f.Y[0]), 1.26491106, 1e-8)
	proof.Near(t, "a chord of the rim", math.Hypot(f.X[1]-f.X[0], f.Y[1]-f.Y[0]), 2*0.9*math.Sin(math.Pi/48), 1e-10)
}

// One-piece maps of a spherical cap of half angle a. No map has less distortion
// than ln(a/sin a): Milnor, A problem in cartography, American Mathematical Monthly 76
// (1969) 1101-1112; the equidistant map has just that. No conformal map has less
// than the stereographic one, 1/cos²(a/2): Chebyshev's theorem, the same paper.
// A mesh is inscribed and its triangles average what points do, 2 % here.
func TestCap(t *testing.T) {
	for _, c := range []struct{ degrees, least, conformal, curvature float64 }{
		{10, 0.00508212, 1.00765427, 5.469209}, {20, 0.02039095, 1.03109120, 21.710657}, {30, 0.04611760, 1.07179677, 48.230855},
		{45, 0.10500912, 1.17157288, 105.441559}, {60, 0.18995863, 1.33333333, 180}, {90, 0.45158271, 2.00000000, 360},
	} {
		t.Run(fmt.Sprint(c.degrees), func(t *testing.T) {
			a := c.degrees * units.Deg
			proof.Near(t, "the bound itself", math.Log(a/math.Sin(a)), c.least, 1e-6)
			m := ballCap(a, 48, 288)
			// Curvature over the cap, 360°·(1-cos a): all that lies inside a rim
			// between the last two rings, a share of 1/48 of them less.
			inside := 0.0
			for i, d := range proof.Must(flatten.Defects(m))(t) {
				if p := m.Points[i]; math.Atan2(math.Hypot(p.X, p.Y), p.Z) < a*47.5/48 {
					inside += d / units.Deg
				}
			}
			half := a * 47.5 / 48
			proof.Near(t, "curvature", inside, 360*(1-math.Cos(half)), 2e-3)
			proof.Near(t, "curvature of the whole", inside*(1-math.Cos(a))/(1-math.Cos(half)), c.curvature, 2e-3)
			xs, ys := make([]float64, len(m.Points)), make([]float64, len(m.Points))
			for i, p := range m.Points {
				far := math.Atan2(math.Hypot(p.X, p.Y), p.Z)
				if far > 0 {
					xs[i], ys[i] = far*p.X/math.Hypot(p.X, p.Y), far*p.Y/math.Hypot(p.X, p.Y)
				}
			}
			proof.Near(t, "equidistant map", proof.Must(flatten.Judge(m, xs, ys))(t).Distortion, c.least, 0.02)
			m = ballCap(a, 24, 72)
			f := proof.Must(flatten.Flatten(m, 10))(t)
			if f.Distortion < 0.98*c.least {
				t.Errorf("least strain: distortion %g, less than is possible, %g", f.Distortion, c.least)
			}
			conformal := proof.Must(flatten.Conformal(m))(t)
			if want := 0.98 * math.Log(c.conformal); conformal.Distortion < want {
				t.Errorf("conformal: distortion %g, less than is possible, %g", conformal.Distortion, want)
			}
			if strain, start := strainEnergy(f), strainEnergy(conformal); strain >= start {
				t.Errorf("strain energy %g, that of the conformal start %g: want less", strain, start)
			}
		})
	}
}

// strainEnergy is Σ area·((scale-1)² of both directions), scales being those of
// flat over surface, worked from the strains.
func strainEnergy(f flatten.Flat) float64 {
	sum := 0.0
	for i := range f.High {
		large, small := 1/(1+f.Low[i]), 1/(1+f.High[i])
		sum += f.Mesh.TriangleArea(i) * ((large-1)*(large-1) + (small-1)*(small-1))
	}
	return sum
}

// The least energy is a minimum: moving any point of a flattened sheet, however
// bent, in any direction raises it, and so does any small move of all.
func TestLeastEnergy(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		bend, twist := rapid.Float64Range(-0.3, 0.3).Draw(t, "bend"), rapid.Float64Range(-0.3, 0.3).Draw(t, "twist")
		m := grid(7, 9, func(i, j int) surface.Point {
			x, y := float64(j)/8, float64(i)/6
			return surface.Point{X: x, Y: y, Z: bend*(x*x+y*y) + twist*x*y}
		})
		f, err := flatten.Flatten(m, 10)
		if err != nil {
			t.Fatal(err)
		}
		least := strainEnergy(f)
		for range 10 {
			xs, ys := append([]float64(nil), f.X...), append([]float64(nil), f.Y...)
			for i := range xs {
				xs[i] += 1e-4 * rapid.Float64Range(-1, 1).Draw(t, "dx")
				ys[i] += 1e-4 * rapid.Float64Range(-1, 1).Draw(t, "dy")
			}
			moved, err := flatten.Judge(m, xs, ys)
			if err != nil {
				t.Fatal(err)
			}
			if e := strainEnergy(moved); e < least-1e-15 {
				t.Fatalf("energy %g after a move, want at least %g", e, least)
			}
		}
	})
}

// A square pyramid, base 2, height 1: each face's apex angle is acos(1/3), so
// that the apex falls 360° - 4·70.528779° short.
func TestDefects(t *testing.T) {
	m := surface.Mesh{Parts: []string{"pyramid"},
		Points:    []surface.Point{{X: 1, Y: 1}, {X: -1, Y: 1}, {X: -1, Y: -1}, {X: 1, Y: -1}, {Z: 1}},
		Triangles: []surface.Triangle{{A: 0, B: 1, C: 4}, {A: 1, B: 2, C: 4}, {A: 2, B: 3, C: 4}, {A: 3, B: 0, C: 4}}}
	d := proof.Must(flatten.Defects(m))(t)
	proof.Near(t, "apex", d[4], 1.35934764, 4e-9) // half its last printed digit
	proof.Near(t, "apex", d[4], 2*math.Pi-4*math.Acos(1./3), 1e-14)
	// The theorem of Gauss and Bonnet: a full turn for any disc.
	rapid.Check(t, func(t *rapid.T) {
		m := grid(rapid.IntRange(2, 8).Draw(t, "rows"), rapid.IntRange(2, 8).Draw(t, "columns"), func(i, j int) surface.Point {
			return surface.Point{X: float64(j), Y: float64(i), Z: rapid.Float64Range(-2, 2).Draw(t, "z")}
		})
		d, err := flatten.Defects(m)
		if err != nil {
			t.Fatal(err)
		}
		sum := 0.0
		for _, v := range d {
			sum += v
		}
		if math.Abs(sum-2*math.Pi) > 1e-9 {
			t.Fatalf("sum of all defects: got %g, want a full turn", sum)
		}
	})
}

func TestRefuses(t *testing.T) {
	dome := ballCap(60*units.Deg, 12, 36)
	_, err := flatten.Flatten(dome, 0.02)
	proof.Fails(t, "dome in one piece", err, `part "cap", triangle`)
	proof.Fails(t, "dome in one piece", err, "want 2.00 % at most: cut the surface into more or narrower panels")
	tube := proof.Must(surface.Tube{Radius: 0.3, Length: 1, Around: 12, Along: 2}.Mesh())(t)
	_, err = flatten.Flatten(tube, 1)
	proof.Fails(t, "tube", err, "open loops, want one")
	fin := grid(2, 2, func(i, j int) surface.Point { return surface.Point{X: float64(j), Y: float64(i)} })
	fin.Points = append(fin.Points, surface.Point{Z: 1})
	fin.Triangles = append(fin.Triangles, surface.Triangle{A: 0, B: 3, C: 4})
	_, err = flatten.Flatten(fin, 1)
	proof.Fails(t, "fin", err, "got 3 triangles, want one or two")
	loose := grid(2, 2, func(i, j int) surface.Point { return surface.Point{X: float64(j), Y: float64(i)} })
	loose.Points = append(loose.Points, surface.Point{Z: 1})
	_, err = flatten.Flatten(loose, 1)
	proof.Fails(t, "loose point", err, "point 4: belongs to no triangle")
	_, err = flatten.Judge(dome, []float64{1}, []float64{1})
	proof.Fails(t, "too few places", err, "got 1 x and 1 y values")
	_, err = flatten.Flatten(dome, math.NaN())
	proof.Fails(t, "no limit", err, "limit of strain: got NaN")
}

// The map of strain has a tone for each triangle, the worst of them at an end of
// the scale.
func TestDraw(t *testing.T) {
	f := proof.Must(flatten.Flatten(ballCap(0.5, 4, 12), 1))(t)
	d := new(sheet.Sheet).NewDrawing("strain")
	f.Draw(d)
	most := 0.0
	for _, s := range d.Shapes {
		most = max(most, math.Abs(float64(s.Value)))
	}
	if len(d.Shapes) != len(f.Mesh.Triangles) {
		t.Errorf("got %d patches, want %d", len(d.Shapes), len(f.Mesh.Triangles))
	}
	proof.Near(t, "deepest tone", most, 100*max(f.Most, -f.Least), 1e-12)
	proof.Near(t, "end of the scale", float64(d.Tones.High), most, 1e-12)
}
