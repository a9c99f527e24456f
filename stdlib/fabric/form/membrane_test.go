package form_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"pgregory.net/rapid"

	"tautline/stdlib/fabric"
	"tautline/stdlib/fabric/form"
	"tautline/stdlib/fabric/surface"
	"tautline/stdlib/internal/proof"
	"tautline/stdlib/units"
)

const Et = 300 * units.KNPerM

func cloth(poisson float64) []form.Fabric {
	return []form.Fabric{{Warp: Et, Weft: Et, Poisson: poisson}}
}

func seam(t *testing.T, m surface.Mesh, names ...string) []int {
	t.Helper()
	var points []int
	for _, name := range names {
		s, err := m.Seam(name)
		if err != nil {
			t.Fatal(err)
		}
		points = append(points, s.Points...)
	}
	return points
}

// Patch test: a fabric cut smaller than its frame has the same forces in every
// triangle, however uneven the mesh, and they are those of the law of the
// fabric at the stretch of 1.01 and 1.005.
func TestPatch(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		r := rand.New(rand.NewPCG(rapid.Uint64().Draw(rt, "seed"), 0))
		m, err := surface.Panel{Width: 2, Length: 1, Across: 6}.Mesh()
		if err != nil {
			rt.Fatal(err)
		}
		var edge []int
		for i, p := range m.Points {
			if p.X == 0 || p.X == 2 || p.Y == 0 || p.Y == 1 {
				edge = append(edge, i)
			} else {
				m.Points[i].X += 0.1 * (r.Float64() - 0.5)
				m.Points[i].Y += 0.1 * (r.Float64() - 0.5)
			}
		}
		f := form.Fabric{Warp: 400 * units.KNPerM, Weft: 300 * units.KNPerM, Poisson: 0.2, Shear: 15 * units.KNPerM,
			Along: form.Direction{X: math.Cos(0.5), Y: math.Sin(0.5)}, WarpCut: 0.01, WeftCut: 0.005}
		e, err := form.Membrane{Mesh: m, Fabrics: []form.Fabric{f}, Supports: []form.Support{{Points: edge}}}.Equilibrium()
		if err != nil || e.Status != form.Balanced {
			rt.Fatal(e.Status, err)
		}
		// E = (1.01² - 1)/2 and (1.005² - 1)/2; line forces per length as it
		// stands are the law's times the one stretch over the other.
		ew, ef := 0.01005, 0.0050125
		share := 1 - 0.2*0.15
		warp := (400e3*ew + 0.2*300e3*ef) / share * 1.01 / 1.005
		weft := (300e3*ef + 0.2*300e3*ew) / share * 1.005 / 1.01
		for i, tr := range e.Triangles {
			if math.Abs(tr.Warp-warp) > 1e-6*warp || math.Abs(tr.Weft-weft) > 1e-6*warp || math.Abs(tr.Shear) > 1e-6*warp || math.Abs(tr.WarpStrain-0.01) > 1e-9 {
				rt.Fatalf("triangle %d: got %+v, want %g along the warp and %g along the weft", i, tr, warp, weft)
			}
		}
	})
}

// A closed tube, 400 kN/m stiff along its axis and 300 kN/m round it, with nu =
// 0.2 for a pull along: by the orthotropic law N_hoop/Ef - nu·N_axial/Ew and
// N_axial/Ew - nu·Ef/Ew·N_hoop/Ef the strains are 0.01541667 round it and 0.00375
// along at 20 kPa and a radius of 0.25 m; a hundredth of that at 200 Pa, where
// the tube's growth changes nothing. A polygon of 96 sides has a hoop force of
// p·r·cos(pi/96), half a thousandth less.
func TestOrthotropicTube(t *testing.T) {
	const p, r, around = 200.0, 0.25, 96
	tube, err := surface.Tube{Radius: r, Length: 1, Open: true, Around: around, Along: 6}.Mesh()
	tube = must(t, tube, err)
	m := form.Membrane{Mesh: tube,
		Fabrics:   []form.Fabric{{Warp: 400 * units.KNPerM, Weft: 300 * units.KNPerM, Poisson: 0.2, Shear: 10 * units.KNPerM}},
		Pressures: []form.Pressure{{Gauge: p}},
		Supports:  []form.Support{{Points: seam(t, tube, "near seam"), FreeY: true, FreeZ: true}}}
	for _, i := range seam(t, tube, "far seam")[1:] { // the pull of the end
		m.Loads = append(m.Loads, form.PointLoad{Point: i, X: p * math.Pi * r * r / around})
	}
	e := balanced(t, m)
	for _, tr := range e.Triangles[:2*around] {
		proof.Near(t, "hoop force", tr.Weft, p*r, 1e-3)
		proof.Near(t, "axial force", tr.Warp, p*r/2, 1e-3)
		proof.Near(t, "hoop strain", tr.WeftStrain, 0.0001541667, 1e-3)
		proof.Near(t, "axial strain", tr.WarpStrain, 0.0000375, 2e-3)
	}
}

// A ball nobody holds: p·R/2 on the average over its surface, and nearer to it in
// each triangle by the square of the refinement. Source: equilibrium of half a ball.
func TestSphere(t *testing.T) {
	before := math.Inf(1)
	for _, rows := range []int{12, 24, 48} {
		ball, err := surface.Sphere{Radius: 1, Rows: rows}.Mesh()
		ball = must(t, ball, err)
		e := balanced(t, form.Membrane{Mesh: ball, Fabrics: []form.Fabric{{Warp: 30e3, Weft: 30e3, Poisson: 0.3}}, Pressures: []form.Pressure{{Gauge: 1000}}})
		area := e.Mesh.Area()
		want := 500 * math.Sqrt(area/(4*math.Pi)) // as it has grown
		sum, scatter := 0.0, 0.0
		for i, tr := range e.Triangles {
			mean, a := (tr.High+tr.Low)/2, e.Mesh.TriangleArea(i)
			sum += mean * a
			scatter += math.Pow(mean/want-1, 2) * a
		}
		proof.Near(t, "mean tension", sum/area, want, 0.01)
		scatter = math.Sqrt(scatter / area)
		if scatter > before/3 {
			t.Errorf("%d rows: forces scatter by %.3g, %.3g on the coarser mesh", rows, scatter, before)
		}
		before = scatter
	}
	if before > 0.003 {
		t.Errorf("finest mesh: forces scatter by %.3g", before)
	}
}

// A long strip clamped along both edges, blown from flat without stress:
// alpha/sin(alpha) - 1 = p·b/(2·Et·sin(alpha)) gives for b = 1 m, 300 kN/m and
// 1000 Pa the line force 2337.062 N/m and the rise 0.05411241 m.
func TestClampedStrip(t *testing.T) {
	strip, err := surface.Panel{Width: 1, Length: 0.2, Across: 40, Along: 4}.Mesh()
	strip = must(t, strip, err)
	e := balanced(t, form.Membrane{Mesh: strip, Fabrics: cloth(0), Pressures: []form.Pressure{{Gauge: 1000}}, Supports: []form.Support{
		{Points: seam(t, strip, "left", "right")},
		{Points: seam(t, strip, "near", "far"), FreeX: true, FreeZ: true},
	}})
	proof.Near(t, "rise", e.Rise, 0.05411241, 5e-3)
	for _, tr := range e.Triangles {
		proof.Near(t, "line force", tr.Warp, 2337.062, 5e-3)
	}
}

// The lobes of a mattress are arcs of circles through both ends of their chords,
// which are in balance as drawn: N = p·sqrt(s² + h²)/2 across the lobe, T = p·s in
// the baffle (see fabric.Mattress). Stiff fabric stays there.
func TestMattress(t *testing.T) {
	want := fabric.Mattress{Pitch: 0.5, Height: 1, Pressure: 1500}
	bed, err := surface.Mattress{Length: 0.4, Bays: 4, Pitch: 0.5, Height: 1, Open: true, Across: 16, Along: 4}.Mesh()
	bed = must(t, bed, err)
	e := balanced(t, form.Membrane{Mesh: bed, Fabrics: []form.Fabric{{Warp: 100 * Et, Weft: 100 * Et}},
		Pressures: []form.Pressure{{Parts: []string{"skin"}, Gauge: 1500}},
		Supports:  []form.Support{{Points: append(bed.Within(surface.Point{X: -9, Z: -9}, surface.Point{X: 9, Z: 9}), bed.Within(surface.Point{X: -9, Y: 0.4, Z: -9}, surface.Point{X: 9, Y: 0.4, Z: 9})...), FreeX: true, FreeZ: true}}})
	for i, tr := range e.Triangles {
		if e.Mesh.Parts[e.Mesh.Triangles[i].Part] == "skin" {
			proof.Near(t, "line force of the lobe", tr.High, want.LineForce(), 5e-3)
		} else {
			proof.Near(t, "line force of the baffle", tr.High, want.BaffleForce(), 5e-3)
		}
	}
	low, high := e.Mesh.Bounds()
	proof.Near(t, "depth of the bed", high.Z-low.Z, want.CrownHeight(), 2e-3)
}

// A disc of cloth that hardly stretches, sewn to another one at the rim: the
// balloon of two flat discs. For a disc of radius 1 the radius becomes 0.7627597635
// and the thickness 0.9138931621. Source: Paulsen, What is the shape of a Mylar
// balloon?, American Mathematical Monthly 101, 1994; constants recomputed from
// its elliptic integrals. By symmetry one disc whose rim slides in its plane
// stands for both; the cloth stretches by a ten-thousandth. Half the volume is
// pi/3·a·r² = 0.6092621; only the meridian carries, p·r²/(2·rho) at the distance rho
// from the axis. The error falls with each finer mesh, below 1 % from 16 rings on, and
// the rim never runs back round the axis: cloth that may not pass through itself.
func TestDiscBalloon(t *testing.T) {
	before := math.Inf(1)
	for _, rings := range []int{8, 16, 24} {
		off := discBalloon(t, rings)
		if off >= before || rings >= 16 && off > 0.01 {
			t.Errorf("%d rings: %.2g off after %.2g on the coarser mesh, want less and from 16 rings on 1 %%", rings, off, before)
		}
		before = off
	}
}

// discBalloon is by how much half the thickness, radius and half the volume are off.
func discBalloon(t *testing.T, rings int) float64 {
	t.Helper()
	const p = 1e-4 * Et
	disc, err := surface.Disc{Radius: 1, Rings: rings}.Mesh()
	disc = must(t, disc, err)
	rim := seam(t, disc, "rim")
	e, err := form.Membrane{Mesh: disc, Fabrics: cloth(0.3), Pressures: []form.Pressure{{Gauge: p}},
		Supports: []form.Support{{Points: rim, FreeX: true, FreeY: true}}}.Equilibrium()
	if err != nil || e.Status != form.Balanced || e.Balance > 1e-8 {
		t.Fatal(rings, e.Status, e.Steps, e.Balance, err)
	}
	radius := 0.0
	for k, i := range rim[1:] {
		a, b := e.Mesh.Points[rim[k]], e.Mesh.Points[i]
		radius += math.Hypot(b.X, b.Y) / float64(len(rim)-1)
		if a.X*b.Y-a.Y*b.X < 0 {
			t.Errorf("%d rings: the rim runs back round the axis at its point %d", rings, k)
		}
	}
	volume, sum, area, wrinkled := 0.0, 0.0, 0.0, 0.0
	for i, tr := range e.Mesh.Triangles {
		a, b, c := e.Mesh.Points[tr.A], e.Mesh.Points[tr.B], e.Mesh.Points[tr.C]
		plan := ((b.X-a.X)*(c.Y-a.Y) - (b.Y-a.Y)*(c.X-a.X)) / 2
		volume += plan * (a.Z + b.Z + c.Z) / 3
		if rho := math.Hypot(a.X+b.X+c.X, a.Y+b.Y+c.Y) / 3; rho > 0.3 && rho < 0.6 { // away from the peak in the middle and the folds at the rim
			sum += e.Triangles[i].High * rho * e.Mesh.TriangleArea(i)
			area += e.Mesh.TriangleArea(i)
		}
		if e.Triangles[i].Wrinkled || e.Triangles[i].Slack {
			wrinkled += e.Mesh.TriangleArea(i) / e.Mesh.Area()
		}
	}
	if rings == 16 {
		proof.Near(t, "line force times distance from the axis", sum/area, p*0.7627597635*0.7627597635/2, 0.01)
	}
	if wrinkled < 0.7 {
		t.Errorf("got %.0f %% of it wrinkled, want most: the hoop force is 0", 100*wrinkled)
	}
	return max(math.Abs(e.Rise/(0.9138931621/2)-1), math.Abs(radius/0.7627597635-1), math.Abs(volume/0.6092621-1))
}

// Pressure alone lifts nothing off its supports; a dome open below is lifted with
// the pressure on its circle, p·pi·r² = 8482.300 N for 3 m and 300 Pa.
func TestReactions(t *testing.T) {
	dome, err := surface.Dome{Radius: 3, Rows: 24}.Mesh()
	dome = must(t, dome, err)
	e := balanced(t, form.Membrane{Mesh: dome, Fabrics: cloth(0.3), Pressures: []form.Pressure{{Gauge: 300}},
		Supports: []form.Support{{Name: "rim", Points: seam(t, dome, "rim")}}})
	n := float64(len(seam(t, dome, "rim")) - 1)
	circle := n / 2 * 9 * math.Sin(2*math.Pi/n) // of straight edges
	proof.Near(t, "pull on the ground", e.Supports[0].Z, -300*circle, 1e-6)
	proof.Near(t, "circle", 300*circle, 8482.300, 1e-3)

	box, err := surface.Box{Length: 1, Width: 1, Height: 0.5, Bays: 2, Across: 3}.Mesh()
	box = must(t, box, err)
	low, high := box.Bounds()
	high.Z = low.Z
	e, err = form.Membrane{Mesh: box, Fabrics: cloth(0.3), Pressures: []form.Pressure{{Parts: []string{"skin", "near end", "far end"}, Gauge: 1500}},
		Supports: []form.Support{{Points: box.Within(low, high)}}}.Equilibrium()
	if err != nil || e.Status != form.Balanced {
		t.Fatal(e.Status, err)
	}
	proof.Near(t, "lift of a closed box", e.Supports[0].Z, 0, 1e-4)
}

// A tie in the middle of its part of a panel carries the pressure on that part:
// 0.50 m by 0.60 m at 1500 Pa make 450 N.
func TestTie(t *testing.T) {
	panel, err := surface.Panel{Width: 0.5, Length: 0.6, Across: 10}.Mesh()
	panel = must(t, panel, err)
	middle := panel.Nearest(0.25, 0.3, 0)
	panel.Points = append(panel.Points, surface.Point{X: 0.25, Y: 0.3, Z: -0.8})
	ground := len(panel.Points) - 1
	e, err := form.Membrane{Mesh: panel, Fabrics: cloth(0.3), Pressures: []form.Pressure{{Gauge: 1500}},
		Cables: []form.Cable{{Name: "tie", Points: []int{ground, middle}, Stiffness: 50 * units.KN}},
		Supports: []form.Support{
			{Points: seam(t, panel, "left", "right"), FreeY: true, FreeZ: true},
			{Points: seam(t, panel, "near", "far"), FreeX: true, FreeZ: true},
			{Name: "ground", Points: []int{ground}},
		}}.Equilibrium()
	if err != nil || e.Status != form.Balanced {
		t.Fatal(e.Status, err)
	}
	proof.Near(t, "tie", e.Cables[0].Most, 450, 1e-6)
	proof.Near(t, "ground", e.Supports[2].Z, -450, 1e-6)
	proof.Near(t, "length", e.Cables[0].Length, 0.8*(1+450/50e3), 1e-6)
}

// A cable in the edge of a film becomes an arc of radius force over tension: 800 N
// and 1000 N/m make 0.8 m, which over a chord of 1 m cuts in by 0.8 - sqrt(0.39) m.
func TestEdgeCable(t *testing.T) {
	panel, err := surface.Panel{Width: 1, Length: 1, Across: 20}.Mesh()
	panel = must(t, panel, err)
	near := seam(t, panel, "near")
	e := balanced(t, form.Membrane{Mesh: panel, Fabrics: []form.Fabric{{Film: 1000}},
		Cables:   []form.Cable{{Name: "edge", Points: near, Force: 800}},
		Supports: []form.Support{{Points: seam(t, panel, "left", "right", "far")}}})
	in := 0.0
	for _, p := range near {
		in = math.Max(in, e.Mesh.Points[p].Y)
	}
	proof.Near(t, "cut in", in, 0.8-math.Sqrt(0.39), 5e-3)
}

// A cable in forty even pieces, so stiff that it does not stretch, hung by its weight
// at the nodes: a level catenary of span 10 m, length 12 m and 5 N/m. By length =
// 2·a·sinh(span/(2·a)) its sag is 2.92343798 m and its level pull 23.4770762 N. The
// polygon differs from the curve by the square of a piece's length, some thousandth.
func TestCatenaryBySearch(t *testing.T) {
	const pieces = 40
	disc, err := surface.Disc{Radius: 0.1, Rings: 1}.Mesh() // a membrane has a triangle at least
	disc = must(t, disc, err)
	m := form.Membrane{Mesh: disc, Fabrics: cloth(0)}
	held := len(disc.Points)
	cable := form.Cable{Name: "rope", Stiffness: 1e4 * units.KN, Length: 12}
	for k := range pieces + 1 {
		s := float64(k) / pieces
		m.Mesh.Points = append(m.Mesh.Points, surface.Point{X: 10 * s, Y: 1, Z: -math.Sqrt(6*6-5*5) * (1 - math.Abs(2*s-1))})
		cable.Points = append(cable.Points, held+k)
		if k > 0 && k < pieces {
			m.Loads = append(m.Loads, form.PointLoad{Point: held + k, Z: -5 * 12.0 / pieces})
		}
	}
	m.Cables = []form.Cable{cable}
	m.Supports = []form.Support{{Points: seam(t, disc, "rim")}, {Name: "ends", Points: []int{held, held + pieces}}}
	e, err := m.Equilibrium()
	if err != nil || e.Status != form.Balanced {
		t.Fatal(e.Status, err)
	}
	low := 0.0
	for _, p := range e.Mesh.Points {
		low = math.Min(low, p.Z)
	}
	proof.Near(t, "sag", -low, 2.92343798, 2e-3)
	proof.Near(t, "pull", e.Supports[1].Points[1].X, 23.4770762, 2e-3)
	proof.Near(t, "ends", e.Supports[1].Z, 5*12*(1-1.0/pieces), 1e-6) // half a piece at each end loads nothing
}

// What nothing holds says so.
func TestRunAway(t *testing.T) {
	disc, err := surface.Disc{Radius: 1, Rings: 6}.Mesh()
	disc = must(t, disc, err)
	m := form.Membrane{Mesh: disc, Fabrics: []form.Fabric{{Film: 1000}}, Supports: []form.Support{{Points: seam(t, disc, "rim")}}}
	m.Pressures = []form.Pressure{{Gauge: 2100}} // a film of radius 1 holds 2·1000/1 Pa
	e, err := m.Equilibrium()
	if err != nil || e.Status == form.Balanced || len(e.Warnings) == 0 {
		t.Errorf("got %s, %q, %v, want none in balance", e.Status, e.Warnings, err)
	}
	m.Pressures[0].Gauge, m.Steps = 1200, 2
	e, err = m.Equilibrium()
	if err != nil || e.Status != form.Stopped || len(e.Warnings) == 0 || e.Steps != 2 {
		t.Errorf("got %s after %d steps, %q, %v", e.Status, e.Steps, e.Warnings, err)
	}
}

// What is wrong is named, with its part and number.
func TestMembraneErrors(t *testing.T) {
	disc, err := surface.Disc{Radius: 1, Rings: 2}.Mesh()
	disc = must(t, disc, err)
	tube, err := surface.Tube{Radius: 1, Length: 1}.Mesh()
	tube = must(t, tube, err)
	rim := seam(t, disc, "rim")
	ball, err := surface.Sphere{Radius: 1, Rows: 8}.Mesh()
	ball = must(t, ball, err)
	torn := disc.Moved(0, 0, 0)
	torn.Triangles[0].B, torn.Triangles[0].C = torn.Triangles[0].C, torn.Triangles[0].B
	pushed := []form.Pressure{{Gauge: 1000}}
	for words, m := range map[string]form.Membrane{
		`part "disc": got no fabric`:                                    {Mesh: disc},
		"fabric 0: warp stiffness: got 0, want more than 0":             {Mesh: disc, Fabrics: []form.Fabric{{Weft: 1}}},
		"fabric 1: part: got \"side\", want one of [\"disc\"]":          {Mesh: disc, Fabrics: []form.Fabric{cloth(0)[0], {Parts: []string{"side"}, Film: 1}}},
		"fabric 0: ratio of Poisson: got 1.5, want less than":           {Mesh: disc, Fabrics: cloth(1.5)},
		"support 0 rim: point: got 19, want 0 to 18":                    {Mesh: disc, Fabrics: cloth(0), Supports: []form.Support{{Name: "rim", Points: []int{19}}}},
		"support 1 : free in x, y and z: it holds nothing":              {Mesh: disc, Fabrics: cloth(0), Supports: []form.Support{{Points: rim}, {Points: rim, FreeX: true, FreeY: true, FreeZ: true}}},
		"cable 0 edge: stiffness: got 0, want more than 0":              {Mesh: disc, Fabrics: cloth(0), Cables: []form.Cable{{Name: "edge", Points: rim}}},
		"cable 0 : points: got 1, want at least two":                    {Mesh: disc, Fabrics: cloth(0), Cables: []form.Cable{{Points: rim[:1]}}},
		"load 0: z: got NaN, want a finite number":                      {Mesh: disc, Fabrics: cloth(0), Loads: []form.PointLoad{{Z: math.NaN()}}},
		"pressure 0: gauge pressure: got +Inf":                          {Mesh: disc, Fabrics: cloth(0), Pressures: []form.Pressure{{Gauge: math.Inf(1)}}},
		`of part "near end": the warp's direction stands upright on it`: {Mesh: tube, Fabrics: []form.Fabric{{Warp: 2, Weft: 1}}},
		"supports: they hold every point":                               {Mesh: disc, Fabrics: cloth(0), Supports: []form.Support{{Points: disc.Within(surface.Point{X: -1, Y: -1}, surface.Point{X: 1, Y: 1})}}},
		"equilibrium: mesh: got no triangles":                           {},
		// A rim of twelve sides: 12·sin(30°)/2 = 3 m² at 1000 Pa.
		`part "disc": nothing holds it along z and its loads push it that way with 3000 N`: {Mesh: disc, Fabrics: cloth(0), Pressures: pushed},
		`part "disc": nothing holds it along x and its loads push it that way with -7 N`: {Mesh: disc, Fabrics: cloth(0), Loads: []form.PointLoad{{Point: 3, X: -7}},
			Supports: []form.Support{{Points: rim, FreeX: true}}},
		`got -200 Pa behind a closed skin, want 0 or more`: {Mesh: ball, Fabrics: cloth(0), Pressures: []form.Pressure{{Gauge: -200}}},
		`triangle 0 of part "disc" and triangle`:           {Mesh: torn, Fabrics: cloth(0), Pressures: pushed, Supports: []form.Support{{Points: rim}}},
		"balance: got 0.5, want 0 to 0.1":                  {Mesh: disc, Fabrics: cloth(0), Balance: 0.5},
	} {
		_, err := m.Equilibrium()
		proof.Fails(t, "equilibrium", err, words)
	}
}

// must is a mesh without its error.
func must(t *testing.T, m surface.Mesh, err error) surface.Mesh {
	t.Helper()
	if err != nil {
		t.Fatal(err)
	}
	return m
}
