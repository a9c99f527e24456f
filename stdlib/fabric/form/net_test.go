package form_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"tautline/stdlib/fabric/form"
	"tautline/stdlib/fabric/surface"
	"tautline/stdlib/internal/proof"
	"tautline/stdlib/units"
)

func hung(t *testing.T, n form.Net) form.Hanging {
	t.Helper()
	h, err := n.Form()
	if err != nil {
		t.Fatal(err)
	}
	if h.Status != form.Balanced || len(h.Warnings) > 0 {
		t.Fatalf("got %s after %d steps with %g N left, %q, want balance", h.Status, h.Steps, h.Residual, h.Warnings)
	}
	return h
}

func at(t *testing.T, h form.Hanging, point int, x, y, z float64) {
	t.Helper()
	p := h.Points[point]
	what := fmt.Sprintf("point %d", point)
	proof.Near(t, what+" x", p.X, x, 1e-12)
	proof.Near(t, what+" y", p.Y, y, 1e-12)
	proof.Near(t, what+" z", p.Z, z, 1e-12)
}

// One free node on four links of densities 1 to 4: the mean of their ends weighted
// by density, and the load over the sum of them. Forces are density times length.
func TestNetOneNode(t *testing.T) {
	h := hung(t, form.Net{
		Points: []surface.Point{{}, {X: 4, Z: 1}, {X: 4, Y: 3}, {Y: 3, Z: 2}, {X: 9, Y: 9, Z: 9}},
		Held:   []int{0, 1, 2, 3},
		Links:  []form.Link{{From: 0, To: 4, Density: 1}, {From: 4, To: 1, Density: 2}, {From: 2, To: 4, Density: 3}, {From: 3, To: 4, Density: 4}},
		Loads:  []form.PointLoad{{Point: 4, Z: -5}},
	})
	at(t, h, 4, 2, 21.0/10, 1.0/2)
	for i, want := range []float64{2.9427878, 5.8855756, 6.7483331, 10.6282642} { // roots of 8.66, 34.64, 45.54, 112.96
		proof.Near(t, "force", h.Links[i].Force, want, 1e-8)
	}
	proof.Near(t, "greatest", h.Most, 10.6282642, 1e-8)
	proof.Near(t, "least", h.Least, 2.9427878, 1e-8)
}

// A net of 4 by 4 meshes hung in the corners of a saddle with edges four times
// as dense, in exact fractions (the linear equations solved by computer algebra,
// sympy), and what they make of forces, with the corner's pull.
func TestNetSaddle(t *testing.T) {
	net, err := form.Grid{Corners: [4]surface.Point{{}, {X: 4, Z: 2}, {X: 4, Y: 4}, {Y: 4, Z: 2}},
		Across: 4, Along: 4, Inner: 1 * units.KNPerM, Edge: 4 * units.KNPerM}.Net()
	if err != nil {
		t.Fatal(err)
	}
	h := hung(t, net)
	place := func(i, j int) int { return 5*i + j }
	at(t, h, place(1, 0), 1318.0/1301, 390.0/1301, 9.0/17)
	at(t, h, place(2, 0), 2, 514.0/1301, 1)
	at(t, h, place(1, 1), 1454.0/1301, 1454.0/1301, 13.0/17)
	at(t, h, place(2, 1), 2, 1506.0/1301, 1)
	at(t, h, place(2, 2), 2, 2, 1)
	at(t, h, place(3, 1), 3750.0/1301, 1454.0/1301, 21.0/17)
	force := func(a, b int) float64 {
		for i, l := range net.Links {
			if l.From == a && l.To == b {
				return h.Links[i].Force
			}
		}
		t.Fatalf("no link from %d to %d", a, b)
		return 0
	}
	for _, c := range []struct {
		from, to int
		want     float64
	}{
		{place(0, 0), place(1, 0), 4726.8476}, {place(1, 0), place(2, 0), 4390.1244}, {place(1, 0), place(1, 1), 857.4035},
		{place(1, 1), place(2, 1), 914.1047}, {place(2, 1), place(2, 2), 842.4289},
	} {
		proof.Near(t, "force", force(c.from, c.to), c.want, 1e-7)
	}
	proof.Near(t, "greatest", h.Most, 4726.8476, 1e-7)
	proof.Near(t, "least", h.Least, 762.4904, 1e-7)
	sum := 0.0
	for _, l := range h.Links {
		sum += l.Force * l.Length
	}
	proof.Near(t, "sum of density times length squared", sum, 100.9626984e3, 1e-9)
	corner := h.Held[0] // what holds the corner pulls against the net
	proof.Near(t, "corner x", -corner.X, 6832.0/1301*1e3, 1e-12)
	proof.Near(t, "corner y", -corner.Y, 6832.0/1301*1e3, 1e-12)
	proof.Near(t, "corner z", -corner.Z, 72.0/17*1e3, 1e-12)
}

// A flat net held all round under even loads: the nine-point case of Poisson's
// equation in fractions.
func TestNetFlat(t *testing.T) {
	net := rim(t, 4, 4, surface.Point{X: 4, Y: 4})
	for i := 1; i < 4; i++ {
		for j := 1; j < 4; j++ {
			net.Loads = append(net.Loads, form.PointLoad{Point: 5*i + j, Z: -1})
		}
	}
	h := hung(t, net)
	at(t, h, 6, 1, 1, -11.0/16)
	at(t, h, 11, 2, 1, -7.0/8)
	at(t, h, 12, 2, 2, -9.0/8)
}

// rim is a net of even density held all round a rectangle.
func rim(t *testing.T, across, along int, far surface.Point) form.Net {
	t.Helper()
	net, err := form.Grid{Corners: [4]surface.Point{{}, {X: far.X}, far, {Y: far.Y}}, Across: across, Along: along, Inner: 1, Edge: 1, Rim: true}.Net()
	if err != nil {
		t.Fatal(err)
	}
	return net
}

// A rim on z = x·y, or in square meshes on z = x² - y²: the net lies exactly on it,
// since its five-point equation holds there exactly.
func TestNetHarmonic(t *testing.T) {
	for what, f := range map[string]func(x, y float64) float64{
		"xy":      func(x, y float64) float64 { return x * y },
		"x² - y²": func(x, y float64) float64 { return x*x - y*y },
	} {
		net := rim(t, 7, 5, surface.Point{X: 3.5, Y: 2.5})
		for _, p := range net.Held {
			net.Points[p].Z = f(net.Points[p].X, net.Points[p].Y)
		}
		h := hung(t, net)
		for p, q := range h.Points {
			if want := f(q.X, q.Y); math.Abs(q.Z-want) > 1e-12 {
				t.Errorf("%s: point %d: got z %.15g, want %.15g", what, p, q.Z, want)
			}
		}
	}
}

// A chain with a load at each node hangs on a parabola, to the last digit.
func TestNetChain(t *testing.T) {
	net := form.Net{Held: []int{0, 10}}
	for i := range 11 {
		net.Points = append(net.Points, surface.Point{X: 10 * float64(i/10), Z: float64(i / 10)})
		if i > 0 {
			net.Links = append(net.Links, form.Link{From: i - 1, To: i, Density: 50})
		}
		if i > 0 && i < 10 {
			net.Loads = append(net.Loads, form.PointLoad{Point: i, Z: -2})
		}
	}
	h := hung(t, net)
	for i := range 11 {
		x := float64(i)
		if got, want := h.Points[i].Z, x/10-2.0/50*x*(10-x)/2; math.Abs(got-want) > 1e-14 || math.Abs(h.Points[i].X-x) > 1e-13 {
			t.Errorf("node %d: got (%g, %.15g), want (%g, %.15g)", i, h.Points[i].X, got, x, want)
		}
	}
}

// On any net held somewhere: reactions are minus the loads; densities times k leave
// an unloaded net where it is and make its forces k times as great; and the form has
// less of the sum of density times length squared than any other.
func TestNetProperties(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := rand.New(rand.NewPCG(rapid.Uint64().Draw(t, "seed"), 0))
		count := rapid.IntRange(4, 40).Draw(t, "points")
		net := form.Net{Held: []int{0, 1, 2}}
		for p := range count {
			net.Points = append(net.Points, surface.Point{X: r.NormFloat64(), Y: r.NormFloat64(), Z: r.NormFloat64()})
			if p > 0 {
				net.Links = append(net.Links, form.Link{From: r.IntN(p), To: p, Density: 0.1 + r.Float64()})
			}
		}
		for range count {
			a, b := r.IntN(count), r.IntN(count)
			if a != b {
				net.Links = append(net.Links, form.Link{From: a, To: b, Density: 0.1 + r.Float64()})
			}
		}
		free, err := net.Form()
		if err != nil {
			t.Fatal(err)
		}
		k := 0.5 + 5*r.Float64()
		more := net
		more.Links = append([]form.Link(nil), net.Links...)
		for i := range more.Links {
			more.Links[i].Density *= k
		}
		scaled, err := more.Form()
		if err != nil {
			t.Fatal(err)
		}
		measure := func(at []surface.Point) (sum float64) {
			for _, l := range net.Links {
				a, b := at[l.From], at[l.To]
				sum += l.Density * ((a.X-b.X)*(a.X-b.X) + (a.Y-b.Y)*(a.Y-b.Y) + (a.Z-b.Z)*(a.Z-b.Z))
			}
			return sum
		}
		moved := append([]surface.Point(nil), free.Points...)
		for p := 3; p < count; p++ {
			if q := scaled.Points[p]; math.Abs(q.X-free.Points[p].X)+math.Abs(q.Y-free.Points[p].Y)+math.Abs(q.Z-free.Points[p].Z) > 1e-9 {
				t.Fatalf("point %d: got %v with densities times %g, want %v", p, q, k, free.Points[p])
			}
			moved[p].X += 0.1 * r.NormFloat64()
			moved[p].Z += 0.1 * r.NormFloat64()
		}
		if measure(moved) < measure(free.Points) {
			t.Fatalf("moved, the net has %g of density times length squared, less than its form, %g", measure(moved), measure(free.Points))
		}
		var want form.PointLoad
		for p := range count {
			l := form.PointLoad{Point: p, X: r.NormFloat64(), Y: r.NormFloat64(), Z: r.NormFloat64()}
			net.Loads = append(net.Loads, l)
			want.X, want.Y, want.Z = want.X-l.X, want.Y-l.Y, want.Z-l.Z
		}
		loaded, err := net.Form()
		if err != nil {
			t.Fatal(err)
		}
		for _, held := range loaded.Held {
			want.X, want.Y, want.Z = want.X-held.X, want.Y-held.Y, want.Z-held.Z
		}
		if math.Abs(want.X)+math.Abs(want.Y)+math.Abs(want.Z) > 1e-9*float64(count) {
			t.Fatalf("reactions and loads leave %v", want)
		}
	})
}

// A six-sided pyramid with pressure inside: on its top act a third of the pressure
// on the plan and six links, density times height each, so z = p·A/(18·q) whatever
// the height.
func TestNetUnderPressure(t *testing.T) {
	net := form.Net{Points: []surface.Point{{Z: 5}}, Pressure: 900}
	for k := range 6 {
		sin, cos := math.Sincos(float64(k) * math.Pi / 3)
		net.Points = append(net.Points, surface.Point{X: cos, Y: sin})
		net.Held = append(net.Held, k+1)
		net.Links = append(net.Links, form.Link{From: 0, To: k + 1, Density: 100})
		net.Faces = append(net.Faces, surface.Triangle{A: 0, B: k + 1, C: (k+1)%6 + 1})
	}
	h := hung(t, net)
	area := 6 * math.Sqrt(3) / 4
	proof.Near(t, "height", h.Points[0].Z, 900*area/(18*100), 1e-9)
	up := 0.0
	for _, p := range h.Held {
		up += p.Z
	}
	proof.Near(t, "reactions", up, -900*area, 1e-9)
}

// A net that pulls like a skin of even tension, on a round rim under pressure, is
// a cap of a ball of radius 2·tension/p: harmonic with respect to a disc, the cap is
// so without any iteration (Hildebrandt, surfaces of constant mean curvature). For
// 1000 N/m and 1200 Pa on a radius of 1 m, R = 5/3 m: rise 1/3 m, area 3.4906585 m²,
// volume 0.5429913 m³; the error falls with the square of the triangles' size.
func TestNetCap(t *testing.T) {
	before := math.Inf(1)
	for _, rings := range []int{8, 16, 32} {
		disc, err := surface.Disc{Radius: 1, Rings: rings}.Mesh()
		disc = must(t, disc, err)
		net, err := form.NetOf(disc, 1000, seam(t, disc, "rim"))
		if err != nil {
			t.Fatal(err)
		}
		net.Pressure = 1200
		h := hung(t, net)
		disc.Points = h.Points
		_, high := disc.Bounds()
		off := max(math.Abs(high.Z*3-1), math.Abs(disc.Area()/3.4906585-1))
		if off > before/3.5 {
			t.Errorf("%d rings: %.2g off after %.2g, want a quarter", rings, off, before)
		}
		before = off
	}
	if before > 2e-3 {
		t.Errorf("finest mesh: %.2g off, want 0.2 %%", before)
	}
	disc, _ := surface.Disc{Radius: 1, Rings: 8}.Mesh()
	net, _ := form.NetOf(disc, 1000, seam(t, disc, "rim"))
	net.Pressure = 2100 // more than 2·1000/1 Pa, which half a ball holds
	h, err := net.Form()
	if err != nil || h.Status == form.Balanced || !strings.Contains(strings.Join(h.Warnings, ""), "no form of these densities holds 2100 Pa") {
		t.Errorf("at 2100 Pa: got %s, %q, %v, want none in balance", h.Status, h.Warnings, err)
	}
}

// The net of a net's form, again and again, is a catenoid. Closed form for two
// rings of radius 1 at a distance h: c·cosh(h/(2c)) = 1 gives the neck, and
// pi·c²·(h/c + sinh(h/c)) the area (Isenberg, The Science of Soap Films and Soap
// Bubbles). The mesh of 48 by 24 comes within 0.2 % of the area and 0.5 % of the neck.
func TestNetCatenoid(t *testing.T) {
	for _, c := range []struct{ h, neck, area float64 }{{0.5, 0.96752085, 3.10811242}, {1, 0.84833794, 5.99179698}} {
		tube, err := surface.Tube{Radius: 1, Length: c.h, Open: true, Around: 48, Along: 24}.Mesh()
		tube = must(t, tube, err)
		held := seam(t, tube, "near seam", "far seam")
		for range 40 {
			net, err := form.NetOf(tube, 1000, held)
			if err != nil {
				t.Fatal(err)
			}
			tube.Points = hung(t, net).Points
		}
		neck := math.Inf(1)
		for _, p := range tube.Points {
			neck = min(neck, math.Hypot(p.Y, p.Z))
		}
		proof.Near(t, "neck", neck, c.neck, 5e-3)
		proof.Near(t, "area", tube.Area(), c.area, 2e-3)
	}
}

// What is wrong with a net is named, with its point or link.
func TestNetErrors(t *testing.T) {
	good := func() form.Net {
		return form.Net{Points: []surface.Point{{}, {X: 1}, {X: 2}}, Held: []int{0, 2},
			Links: []form.Link{{From: 0, To: 1, Density: 1}, {From: 1, To: 2, Density: 1}}}
	}
	for words, spoil := range map[string]func(n *form.Net){
		"point 1: y: got NaN, want a finite number":             func(n *form.Net) { n.Points[1].Y = math.NaN() },
		"held 1: point: got 3, want 0 to 2":                     func(n *form.Net) { n.Held[1] = 3 },
		"link 1: point: got -1, want 0 to 2":                    func(n *form.Net) { n.Links[1].To = -1 },
		"link 0: both ends: got point 1, want two points":       func(n *form.Net) { n.Links[0].From = 1 },
		"link 0: density: got 0, want a force over a length":    func(n *form.Net) { n.Links[0].Density = 0 },
		"load 0: z: got +Inf, want a finite number":             func(n *form.Net) { n.Loads = []form.PointLoad{{Z: math.Inf(1)}} },
		"pressure: got -5, want 0 or more: turn the faces over": func(n *form.Net) { n.Pressure = -5 },
		"pressure: got 5 Pa and no faces":                       func(n *form.Net) { n.Pressure = 5 },
		"face 0: point: got 7, want 0 to 2":                     func(n *form.Net) { n.Faces = []surface.Triangle{{A: 7}} },
		"held: got all 3 points, want some that are free":       func(n *form.Net) { n.Held = []int{0, 1, 2} },
		"point 1: pulls and pushes cancel there":                func(n *form.Net) { n.Links[1].Density = -1 },
		"point 3 at (7, 0, 0) m: no links lead from it to a held point, nor from 2 points in all: tie it": func(n *form.Net) {
			n.Points = append(n.Points, surface.Point{X: 7}, surface.Point{X: 8})
			n.Links = append(n.Links, form.Link{From: 3, To: 4, Density: 1})
		},
	} {
		n := good()
		spoil(&n)
		_, err := n.Form()
		proof.Fails(t, "form", err, "net: "+words)
	}
	_, err := form.Grid{Across: 0, Along: 2, Inner: 1, Edge: 1}.Net()
	proof.Fails(t, "grid", err, "grid: meshes across: got 0, want 1 to 2000")
	_, err = form.Grid{Across: 1, Along: 2, Inner: 1}.Net()
	proof.Fails(t, "grid", err, "grid: density of the edge: got 0, want more than 0")
	bed, err := surface.Mattress{Length: 1, Bays: 2, Pitch: 0.5, Height: 0.6}.Mesh()
	bed = must(t, bed, err)
	_, err = form.NetOf(bed, 1000, []int{0})
	proof.Fails(t, "net of a mesh", err, "got 3 triangles, want one or two")
	_, err = form.NetOf(bed, 0, []int{0})
	proof.Fails(t, "net of a mesh", err, "net of a mesh: ")
}
