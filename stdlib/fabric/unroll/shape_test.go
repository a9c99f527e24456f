package unroll_test

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"tautline/stdlib/fabric/pattern"
	"tautline/stdlib/fabric/unroll"
	"tautline/stdlib/internal/proof"
	"tautline/stdlib/units"
)

// A cone frustum unrolled: radii 0.5 and 0.9 m, 1.2 m high. The ring sector
// follows from similar triangles; values computed apart from this code.
func TestFrustum(t *testing.T) {
	f := unroll.Frustum{Small: 0.5, Large: 0.9, Height: 1.2}
	proof.Near(t, "slant", f.Slant(), 1.26491106, 1e-7)
	outer := proof.Must(f.OuterRadius())(t)
	proof.Near(t, "outer radius", outer, 2.84604989, 1e-7)
	proof.Near(t, "inner radius", outer-f.Slant(), 1.58113883, 1e-7)
	proof.Near(t, "sector", f.Sector()/units.Deg, 113.841996, 1e-7)
	proof.Near(t, "area", f.Area(), 5.56336943, 1e-7)
	proof.Near(t, "chord of the whole", f.PanelChord(1), 4.76951741, 1e-7)
	proof.Near(t, "one of 8", f.Sector()/8/units.Deg, 14.2302495, 1e-7)
	proof.Near(t, "chord of one of 8", f.PanelChord(8), 0.70504297, 1e-7)
	proof.Near(t, "sagitta of one of 8", f.PanelSagitta(8), 0.02191665, 3e-7) // half its last printed digit is 2.3e-7 of it
	piece := proof.Must(f.Panel("cone", 8))(t)
	proof.Near(t, "area of 8 panels", piece.Count*piece.Area(), 5.56336943, 1e-4) // 45 chords of 1° each
	for _, e := range piece.Edges {
		if e.Name == "left" || e.Name == "right" {
			proof.Near(t, e.Name, e.Length(), 1.26491106, 1e-8)
		}
	}
	whole := proof.Must(f.Panel("cone", 1))(t)
	proof.Near(t, "large end", edge(t, whole, "large").Length(), 2*math.Pi*0.9, 2e-5)
	proof.Near(t, "small end", edge(t, whole, "small").Length(), 2*math.Pi*0.5, 2e-5)
}

// The cone that touches a ball of radius 1 at the rim of a cap of half angle a has
// its point 1/cos a from the middle; unrolled it is a sector of 360°·cos a.
func TestTangentCone(t *testing.T) {
	for _, c := range []struct{ degrees, sector float64 }{
		{10, 354.530791}, {20, 338.289343}, {30, 311.769145}, {45, 254.558441}, {60, 180},
	} {
		sin, cos := math.Sincos(c.degrees * units.Deg)
		f := unroll.Frustum{Small: 0, Large: sin, Height: 1/cos - cos}
		proof.Near(t, "sector", f.Sector()/units.Deg, c.sector, 1e-8)
	}
}

// The flat pieces have the fabric of the shape, whatever its measures: mitred
// rings and frustums by Pappus and Guldin, gores of a ball by its surface, chords of
// a degree apart; gores of a ball never have less edge than the meridian.
func TestFabricOfPieces(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		tube := rapid.Float64Range(0.1, 0.6).Draw(t, "tube")
		ring := unroll.Ring{Radius: tube * rapid.Float64Range(1.5, 10).Draw(t, "R/r"), Tube: tube, Sweep: 2 * math.Pi, Pieces: float64(rapid.IntRange(6, 30).Draw(t, "pieces"))}
		p, err := ring.Pattern("ring", float64(rapid.IntRange(1, 4).Draw(t, "panels")), rapid.Float64Range(0, 6).Draw(t, "first seam"), 1e-6)
		if err != nil {
			t.Fatal(err)
		}
		near := func(what string, got, want, tol float64) {
			if math.Abs(got-want) > tol*want {
				t.Errorf("%s: got %g m², want %g", what, got, want)
			}
		}
		near("ring", p.Area(), ring.Surface(), 2e-5)
		f := unroll.Frustum{Small: rapid.Float64Range(0, 1).Draw(t, "small"), Large: rapid.Float64Range(1.01, 2).Draw(t, "large"), Height: rapid.Float64Range(0.5, 3).Draw(t, "height")}
		n := float64(rapid.IntRange(1, 8).Draw(t, "panels of the frustum"))
		panel, err := f.Panel("cone", n)
		if err != nil {
			t.Fatal(err)
		}
		near("frustum", n*panel.Area(), math.Pi*(f.Small+f.Large)*math.Hypot(f.Height, f.Large-f.Small), 2e-4)
		g := unroll.SphereGores{Radius: tube, Gores: float64(rapid.IntRange(4, 24).Draw(t, "gores"))}
		ball, err := g.Pattern("ball", 0)
		if err != nil {
			t.Fatal(err)
		}
		near("ball", ball.Area(), 4*math.Pi*tube*tube, 3e-5)
		if g.Fullness() < 1 {
			t.Errorf("gores: fullness %g, want 1 or more", g.Fullness())
		}
	})
}

// Equal ends make a rectangle, nearly equal ends nearly that.
func TestFrustumAsTube(t *testing.T) {
	for _, c := range []struct{ more, tol float64 }{{0, 1e-15}, {1e-9, 1e-6}} {
		f := unroll.Frustum{Small: 0.5, Large: 0.5 + c.more, Height: 1.2}
		p := proof.Must(f.Panel("tube", 1))(t)
		proof.Near(t, "width", p.Width(), 3.14159265358979, c.tol+1e-14)
		proof.Near(t, "height", p.Height(), 1.2, c.tol+1e-15)
		proof.Near(t, "area", p.Area(), 3.14159265358979*1.2, c.tol+1e-14)
	}
	_, err := unroll.Frustum{Small: 0.5, Large: 0.5, Height: 1.2}.OuterRadius()
	proof.Fails(t, "straight tube", err, "the wall is a rectangle")
	point := proof.Must(unroll.Frustum{Large: 0.3, Height: 0.4}.Panel("cone", 1))(t)
	proof.Near(t, "cone with a point", point.Area(), math.Pi*0.3*0.5, 1e-4)
	_, err = unroll.Frustum{Large: 0.3, Height: 0.1}.Panel("flat cone", 1)
	if err != nil {
		t.Errorf("flat cone: sector of 341°: got %v", err)
	}
}

// A tube of 300 mm cut by planes: the elbow of 45° has one mitre of 22.5°. The
// edge is a cosine over the way round, the seam an ellipse; values of the
// complete elliptic integral computed apart from this code.
func TestMitre(t *testing.T) {
	half := 22.5 * units.Deg
	tube := unroll.Tube{Radius: 0.3, Length: 1, End: half}
	piece := proof.Must(tube.Panel("elbow", 0, 360*units.Deg))(t)
	end := edge(t, piece, "end")
	n := len(end.X) - 1
	for _, c := range []struct {
		degrees int
		y, s    float64
	}{
		{0, 0.12426407, 0}, {30, 0.10761584, 0.15707963}, {45, 0.08786797, 0.23561945},
		{60, 0.06213203, 0.31415927}, {90, 0, 0.47123890}, {180, -0.12426407, 0.94247780},
	} {
		angle := float64(c.degrees) * units.Deg
		// A printed digit is 5e-9; at 90° the cosine leaves 1e-17.
		proof.Near(t, "rise", unroll.MitreRise(0.3, half, angle)+1, c.y+1, 1e-8)
		x, y := end.X[n-c.degrees], end.Y[n-c.degrees] // the edge runs against the angle
		proof.Near(t, "way round on the piece", x-end.X[n]+1, c.s+1, 1e-8)
		proof.Near(t, "rise on the piece", y-0.5+1, c.y+1, 1e-8)
	}
	proof.Near(t, "seam", unroll.MitreLength(0.3, half), 1.96337659, 1e-8)
	proof.Near(t, "seam on the piece", end.Length(), 1.96337659, 2e-5)
	proof.Near(t, "square end", unroll.MitreLength(0.3, 0), 1.88495559, 1e-8)
	proof.Near(t, "right-angled elbow, rise", unroll.MitreRise(0.3, 45*units.Deg, 0), 0.3, 1e-15)
	proof.Near(t, "right-angled elbow, seam", unroll.MitreLength(0.3, 45*units.Deg), 2.29211867, 1e-8)
	_, err := unroll.Tube{Radius: 0.3, Length: 0.5, Start: 45 * units.Deg, End: 45 * units.Deg}.Panel("short", 0, 1)
	proof.Fails(t, "cuts that meet", err, "the cuts meet at 180°")
}

// Two tubes of 300 mm crossing square: each meets the other along two half
// ellipses, and the hole unrolls to exactly 4r².
func TestTeeOfEqualTubes(t *testing.T) {
	tee := unroll.Tee{Main: 0.3, Branch: 0.3, Angle: 90 * units.Deg}
	for _, c := range []struct{ degrees, z float64 }{{0, 0.3}, {30, 0.25980762}, {45, 0.21213203}, {60, 0.15}, {90, 0}} {
		proof.Near(t, "profile", tee.Profile(c.degrees*units.Deg)+1, c.z+1, 1e-8)
	}
	proof.Near(t, "hole", tee.HoleArea(), 0.36, 1e-9)
	proof.Near(t, "seam", tee.SeamLength(), 2.29211867, 1e-8)
	hole := tee.Hole("branch", 0, 0)
	low, high := bounds(hole)
	proof.Near(t, "hole along the main tube", high[1], 0.3, 1e-8)
	proof.Near(t, "hole round the main tube", high[0], 0.47123890, 1e-8)
	proof.Near(t, "hole, other side", low[0], -0.47123890, 1e-8)
	branch := proof.Must(tee.BranchPanel("branch", 0.8))(t)
	proof.Near(t, "seam on the branch", edge(t, branch, "start").Length(), 2.29211867, 2e-5)
	proof.Near(t, "seam on the main tube", hole.Length(), 2.29211867, 2e-5)
	// A branch as thick as the main tube loses a volume, and so a wall area, that
	// the hole's own symmetry gives: the flat branch is the cylinder less 4r².
	proof.Near(t, "fabric of the branch", branch.Area(), 2*math.Pi*0.3*0.8-0.36, 1e-4)
}

// Any tee: the seam drawn on the branch and on the main tube, rolled up again,
// are one curve in space, so every straight part has the same length to within
// what the two curvatures bend it.
func TestTeeSeamIsOneCurve(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		main := rapid.Float64Range(0.1, 1).Draw(t, "main")
		tee := unroll.Tee{Main: main, Branch: main * rapid.Float64Range(0.2, 1).Draw(t, "share"),
			Angle: rapid.Float64Range(30, 90).Draw(t, "lean") * units.Deg}
		far := tee.Profile(0)
		branch, err := tee.BranchPanel("branch", far+0.5)
		if err != nil {
			t.Fatal(err)
		}
		start, err := branch.Edge("start")
		if err != nil {
			t.Fatal(err)
		}
		hole := tee.Hole("hole", 0, 0)
		sin, cos := math.Sincos(tee.Angle)
		for i := range start.X {
			f := start.X[i] / tee.Branch // 0 on the side towards which it leans
			up := (far+0.5)/2 + start.Y[i]
			x := up*cos + tee.Branch*math.Cos(f)*sin
			y := tee.Branch * math.Sin(f)
			z := up*sin - tee.Branch*math.Cos(f)*cos
			if r := math.Hypot(y, z); math.Abs(r-main) > 1e-9 || z < -1e-9 {
				t.Fatalf("branch at %g°: %g m from the main axis, want %g", f/units.Deg, r, main)
			}
			least := math.Inf(1)
			for k := range hole.X {
				a := hole.X[k] / main
				least = min(least, math.Abs(hole.Y[k]-x)+main*math.Abs(math.Sin(a)-y/main)+main*math.Abs(math.Cos(a)-z/main))
			}
			if least > 1e-9 {
				t.Fatalf("branch at %g°: %g m from the nearest point of the hole, want 0", f/units.Deg, least)
			}
		}
		if d := math.Abs(hole.Length() - start.Length()); d > 1e-3*hole.Length() {
			t.Fatalf("seam: %g m on the hole, %g m on the branch", hole.Length(), start.Length())
		}
	})
}

// A ball of 900 mm in ten gores, the width of each a tenth of the parallel.
func TestSphereGores(t *testing.T) {
	g := unroll.SphereGores{Radius: 0.9, Gores: 10}
	p := proof.Must(g.Pattern("ball", 0))(t)
	right := edge(t, p.Pieces[0], "right")
	for _, c := range []struct {
		degrees int
		w, s    float64
	}{
		{0, 0.56548668, 0}, {15, 0.54621819, 0.23561945}, {30, 0.48972583, 0.47123890}, {45, 0.39985946, 0.70685835},
		{60, 0.28274334, 0.94247780}, {75, 0.14635872, 1.17809725}, {90, 0, 1.41371669},
	} {
		proof.Near(t, "width", g.Width(float64(c.degrees)*units.Deg)+1, c.w+1, 1e-8)
		proof.Near(t, "width of the piece", 2*right.X[90+c.degrees]+1, c.w+1, 1e-8)
		proof.Near(t, "arc of the piece", right.Y[90+c.degrees]+1, c.s+1, 1e-8)
	}
	// Fabric within the edges is the ball's surface; drawn with a chord for each
	// degree, (1°)²/12 less.
	proof.Near(t, "fabric", p.Area(), 10.17876020, 3e-5)
	for _, c := range []struct{ gores, length, ratio float64 }{{8, 3.25941652, 1.03750450}, {12, 3.19475026, 1.01692059}} {
		g := unroll.SphereGores{Radius: 1, Gores: c.gores}
		proof.Near(t, "edge", g.EdgeLength(), c.length, 1e-8)
		proof.Near(t, "fullness", g.Fullness(), c.ratio, 1e-8)
		p := proof.Must(g.Pattern("ball", 0))(t)
		proof.Near(t, "edge of the piece", edge(t, p.Pieces[0], "left").Length(), c.length, 2e-5)
		proof.Near(t, "neighbour's edge", edge(t, p.Pieces[0], "right").Length(), edge(t, p.Pieces[0], "left").Length(), 1e-14)
		if len(p.Warnings) != 1 {
			t.Errorf("gores: got warnings %q, want one that says how the seams pucker", p.Warnings)
		}
	}
}

// A ring of 16 straight mitred pieces, 1.5 m to the centre of its 400 mm tube;
// surface and volume by symmetric cuts and Pappus.
func TestRing(t *testing.T) {
	r := unroll.Ring{Radius: 1.5, Tube: 0.4, Sweep: 360 * units.Deg, Pieces: 16}
	proof.Near(t, "centre", r.CentreLength(), 0.59673710, 1e-8)
	proof.Near(t, "outer", r.OuterLength(), 0.75586700, 1e-8)
	proof.Near(t, "inner", r.InnerLength(), 0.43760721, 1e-7) // its last printed digit is 1e-8
	proof.Near(t, "rise of the cut", unroll.MitreRise(0.4, 11.25*units.Deg, 0), 0.07956495, 1e-7)
	proof.Near(t, "volume", r.Volume(), 4.79924453, 1e-8)
	proof.Near(t, "surface", r.Surface(), 23.99622267, 1e-8)
	for _, panels := range []float64{1, 2, 3} {
		p := proof.Must(r.Pattern("ring", panels, 0, 1e-9))(t)
		proof.Near(t, "fabric of the pieces", p.Area(), 23.99622267, 1e-6) // chords over the two cosines cancel but for (1°)²/12 of the rise
		proof.Near(t, "pieces", p.Count(), 16*panels, 0)
		first := p.Pieces[0]
		proof.Near(t, "outer side", edge(t, first, "left").Length(), 0.75586700, 1e-8)
	}
	half := proof.Must(r.Pattern("ring", 2, 0, 1e-9))(t)
	proof.Near(t, "inner side", edge(t, half.Pieces[0], "right").Length(), 0.43760721, 1e-7)
	// A half-round arch of eight of them has the same pieces and a joint less.
	arch := proof.Must(unroll.Ring{Radius: 1.5, Tube: 0.4, Sweep: 180 * units.Deg, Pieces: 8}.Pattern("arch", 2, 0, 1e-9))(t)
	proof.Near(t, "arch", arch.Area(), half.Area()/2, 1e-12)
	proof.Near(t, "joints of the arch", arch.Seams[0].Count, 7, 0)
	for _, bad := range []struct {
		ring  unroll.Ring
		words string
	}{
		{unroll.Ring{Radius: 1, Tube: 1, Sweep: 1, Pieces: 2}, "the ring touches itself"},
		{unroll.Ring{Radius: 1, Tube: 0.2, Sweep: 2 * math.Pi, Pieces: 2}, "want at least 3"},
		{unroll.Ring{Radius: 1, Tube: 0.2, Sweep: 2 * math.Pi, Pieces: 4.5}, "want a whole number"},
		{unroll.Ring{Radius: 1, Tube: math.NaN(), Sweep: 2 * math.Pi, Pieces: 4}, "tube radius"},
	} {
		_, err := bad.ring.Pattern("ring", 1, 0, 0)
		proof.Fails(t, "ring", err, bad.words)
	}
}

// Gores of a smooth ring: the fabric is Pappus's surface, the edge an ellipse of
// half axes r·√(1+(π/n)²) and r, whose circumference Ramanujan gives to 1e-9
// here (On the expression of π, 1914: error below (h/4)⁵ of its h = 2e-5).
func TestRingGores(t *testing.T) {
	g := unroll.RingGores{Radius: 1.5, Tube: 0.4, Gores: 16}
	p := proof.Must(g.Pattern("ring", 2, 0, 1e-9))(t)
	proof.Near(t, "fabric", p.Area(), 4*math.Pi*math.Pi*1.5*0.4, 1e-6)
	proof.Near(t, "width inside", g.Width(180*units.Deg), 2*math.Pi*1.1/16, 1e-14)
	a, b := 0.4*math.Hypot(1, math.Pi/16), 0.4
	h := (a - b) * (a - b) / (a + b) / (a + b)
	proof.Near(t, "edge", g.EdgeLength(), math.Pi*(a+b)*(1+3*h/(10+math.Sqrt(4-3*h))), 1e-9)
	drawn := edge(t, p.Pieces[0], "end").Length() + edge(t, p.Pieces[1], "end").Length()
	proof.Near(t, "edge of the pieces", drawn, g.EdgeLength(), 2e-5)
}

func edge(t *testing.T, p pattern.Piece, name string) pattern.Edge {
	t.Helper()
	return proof.Must(p.Edge(name))(t)
}

func bounds(e pattern.Edge) (low, high [2]float64) {
	low, high = [2]float64{e.X[0], e.Y[0]}, [2]float64{e.X[0], e.Y[0]}
	for i := range e.X {
		low = [2]float64{min(low[0], e.X[i]), min(low[1], e.Y[i])}
		high = [2]float64{max(high[0], e.X[i]), max(high[1], e.Y[i])}
	}
	return low, high
}

// The lobes of a round bed end on an upright wall. The curve where they meet is
// rolled up again from each piece: on the wall at its radius, on the lobe at the
// lobe's, at the same points in space.
func TestRoundMattress(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		m := unroll.RoundMattress{
			Radius: rapid.Float64Range(1, 4).Draw(t, "radius"), Height: rapid.Float64Range(0.4, 1.2).Draw(t, "height"),
			Pitch: rapid.Float64Range(0.3, 0.7).Draw(t, "pitch"),
		}
		p, err := m.Pattern("bed", 1e-3)
		if err != nil {
			t.Fatal(err)
		}
		n := int(math.Ceil(2 * m.Radius / m.Pitch))
		wall, _ := p.Piece("bed wall front")
		lobe := math.Hypot(m.Height/2, m.Pitch/2)
		for k := 1; k <= n; k++ {
			piece, err := p.Piece(fmt.Sprintf("bed lobe %d", k))
			if err != nil {
				t.Fatal(err)
			}
			front, _ := piece.Edge("front")
			top, err := wall.Edge(fmt.Sprintf("top %d", k))
			if err != nil {
				t.Fatal(err)
			}
			middle := (float64(k) - float64(n+1)/2) * m.Pitch
			for i := range front.X {
				x, y, z := middle+lobe*math.Sin(front.X[i]/lobe), front.Y[i], lobe*math.Cos(front.X[i]/lobe)
				j := len(top.X) - 1 - i
				wx, wy, wz := m.Radius*math.Sin(top.X[j]/m.Radius), -m.Radius*math.Cos(top.X[j]/m.Radius), top.Y[j]
				if d := math.Hypot(math.Hypot(x-wx, y-wy), z-wz); d > 1e-9 {
					t.Fatalf("bay %d, point %d: lobe and wall are %g m apart, want 0", k, i, d)
				}
			}
		}
	})
}

// Areas of a bed worked by quadrature in space: a lobe's is ∫ chord ds over its
// arc, the wall's ∫ height ds round it.
func TestRoundMattressFabric(t *testing.T) {
	m := unroll.RoundMattress{Radius: 2.25, Height: 0.75, Pitch: 0.55, Passage: 0.1}
	p := proof.Must(m.Pattern("bed", 1e-3))(t)
	proof.Near(t, "bays", m.Bays(), 9, 0)
	proof.Near(t, "pieces", p.Count(), 9*2+8+2, 0)
	lobe := math.Hypot(0.75/2, 0.55/2)
	const steps = 200_000
	lobes, walls := 0.0, 0.0
	for i := range steps {
		x := -2.25 + 4.5*(float64(i)+0.5)/steps
		u := x - 0.55*math.Round(x/0.55) // nine bays: the middle one about 0
		lobes += 2 * 2 * math.Sqrt(2.25*2.25-x*x) * lobe / math.Sqrt(lobe*lobe-u*u) * 4.5 / steps
		a := math.Pi * (float64(i) + 0.5) / steps
		x = 2.25 * math.Cos(a)
		u = x - 0.55*math.Round(x/0.55)
		walls += 2 * 2 * math.Sqrt(lobe*lobe-u*u) * 2.25 * math.Pi / steps
	}
	gotLobes, gotWalls, gotBaffles, baffles := 0.0, 0.0, 0.0, 0.0
	for _, piece := range p.Pieces {
		switch {
		case strings.Contains(piece.Name, "lobe"):
			gotLobes += piece.Count * piece.Area()
		case strings.Contains(piece.Name, "wall"):
			gotWalls += piece.Count * piece.Area()
		default:
			gotBaffles += piece.Count * piece.Area()
		}
	}
	for k := 1.0; k <= 8; k++ {
		x := (k - 4.5) * 0.55
		chord := 2 * math.Sqrt(2.25*2.25-x*x)
		proof.Near(t, "baffle", m.BaffleLength(k), chord, 1e-14)
		// Two segments of a circle, 0.1 high over 0.75: r = (c²/4 + h²)/2h.
		r := (0.375*0.375 + 0.01) / 0.2
		a := math.Asin(0.375 / r)
		baffles += chord*0.75 - 2*(r*r*a-0.375*(r-0.1))
	}
	proof.Near(t, "fabric of the lobes", gotLobes, lobes, 1e-4)
	proof.Near(t, "fabric of the wall", gotWalls, walls, 1e-4)
	proof.Near(t, "fabric of the baffles", gotBaffles, baffles, 1e-4)
	_, err := unroll.RoundMattress{Radius: 2.25, Height: 0.75, Pitch: 0.55, Passage: 1.2}.Pattern("bed", 0)
	proof.Fails(t, "baffles hollowed through", err, "passage: got 1.2 m at both ends of a baffle 2.32")
}
