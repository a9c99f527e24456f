package form_test

import (
	"math"
	"testing"

	"tautline/stdlib/fabric/form"
	"tautline/stdlib/fabric/surface"
	"tautline/stdlib/internal/proof"
	"tautline/stdlib/units"
)

// sector lays strips of triangles between rows of points, where row k at a share of
// the angle is at(k, share): a piece of something round.
func sector(rows, across int, closed bool, at func(k int, share float64) surface.Point) surface.Mesh {
	m := surface.Mesh{Parts: []string{"sector"}}
	for k := range rows {
		for i := range across + 1 {
			m.Points = append(m.Points, at(k, float64(i)/float64(across)))
		}
	}
	last := rows - 1
	if closed {
		last = rows
	}
	for k := range last {
		for i := range across {
			a, b := k*(across+1)+i, (k+1)%rows*(across+1)+i
			if (k+i)%2 == 0 {
				m.Triangles = append(m.Triangles, surface.Triangle{A: a, B: b, C: b + 1}, surface.Triangle{A: a, B: b + 1, C: a + 1})
			} else {
				m.Triangles = append(m.Triangles, surface.Triangle{A: a, B: b, C: a + 1}, surface.Triangle{A: b, B: b + 1, C: a + 1})
			}
		}
	}
	return m
}

// sides are the points of the sector's two sides.
func sides(rows, across int) (first, second []int) {
	for k := range rows {
		first, second = append(first, k*(across+1)), append(second, k*(across+1)+across)
	}
	return first, second
}

// plane is square to the side of a sector at an angle from x.
func plane(angle float64) form.Direction {
	return form.Direction{X: -math.Sin(angle), Y: math.Cos(angle)}
}

// The balloon of two flat discs again (see TestDiscBalloon), as a narrow sector
// with a small hole, in which the rim cannot fold unevenly. For a disc of radius 1:
// radius 0.7627597635 and thickness 0.9138931621 (Paulsen, American Mathematical
// Monthly 101, 1994), meridian forces p·r²/(2·rho), no hoop force. The cloth stretches
// by some hundred-thousandth, the hole is a thousandth of the radius; the error falls
// with each finer mesh.
func TestDiscBalloonSector(t *testing.T) {
	const angle, hole, p = 5 * units.Deg, 1e-3, 1e-5 * Et
	before := math.Inf(1)
	for _, rows := range []int{16, 32, 64} {
		m := sector(rows+1, 1, false, func(k int, share float64) surface.Point {
			sin, cos := math.Sincos(share * angle)
			r := hole + (1-hole)*float64(k)/float64(rows)
			return surface.Point{X: r * cos, Y: r * sin}
		})
		first, second := sides(rows+1, 1)
		rim := []int{first[rows], second[rows]}
		e, err := form.Membrane{Mesh: m, Fabrics: cloth(0.3), Pressures: []form.Pressure{{Gauge: p}}, Supports: []form.Support{
			{Name: "first side", Points: first, FreeX: true, FreeZ: true},
			{Name: "second side", Points: second, Across: plane(angle)},
			{Name: "rim", Points: rim, FreeX: true, FreeY: true},
		}}.Equilibrium()
		if err != nil || e.Status != form.Balanced {
			t.Fatal(rows, e.Status, e.Steps, e.Balance, err)
		}
		radius := e.Mesh.Points[rim[0]].X
		off := max(math.Abs(e.Rise/0.4569465811-1), math.Abs(radius/0.7627597635-1))
		if off > 0.6*before {
			t.Errorf("%d rows: %.2g off after %.2g on the coarser mesh", rows, off, before)
		}
		before = off
		if rows < 64 {
			continue
		}
		for k := range rows { // of the two triangles between two rows: one pulls a little more than the other
			rho, force := 0.0, 0.0
			for _, i := range []int{2 * k, 2*k + 1} {
				c := e.Mesh.Triangles[i]
				for _, q := range []int{c.A, c.B, c.C} {
					rho += math.Hypot(e.Mesh.Points[q].X, e.Mesh.Points[q].Y) / 6
				}
				force += e.Triangles[i].High / 2
				if !e.Triangles[i].Wrinkled && k > rows/4 {
					t.Errorf("triangle %d: not wrinkled", i)
				}
			}
			if k > rows/4 { // round the pole real cloth stretches both ways before it wrinkles
				proof.Near(t, "meridian force", force, p*radius*radius/(2*rho), 1e-2)
			}
		}
		proof.Near(t, "rim on its plane", -e.Supports[2].Z, angle/2*p*(radius*radius-hole*hole), 5e-3)
	}
	if before > 3e-3 {
		t.Errorf("finest mesh: %.2g off", before)
	}
}

// A sector of a ring of tube that hardly stretches, 1.5 m to the middle of a tube of
// 0.4 m: round the tube N = p·r·(2R + r·sin f)/(2·(R + r·sin f)), 894.7368 N/m
// at the outer equator and 1181.8182 at the inner one for 2500 Pa; along the ring
// p·r/2 = 500 everywhere. Source: membrane theory of a torus, Roark's Formulas for
// Stress and Strain, chapter 13.
func TestRingSector(t *testing.T) {
	const angle, R, r, p, around, across = 12 * units.Deg, 1.5, 0.4, 2500, 64, 6
	m := sector(around, across, true, func(k int, share float64) surface.Point {
		sin, cos := math.Sincos(share * angle)
		s, c := math.Sincos(2 * math.Pi * float64(k) / around)
		return surface.Point{X: (R + r*c) * cos, Y: (R + r*c) * sin, Z: r * s}
	}).Flipped()
	first, second := sides(around, across)
	e, err := form.Membrane{Mesh: m, Fabrics: []form.Fabric{{Warp: 1e4 * Et, Weft: 1e4 * Et, Poisson: 0.3, Round: true}}, Pressures: []form.Pressure{{Gauge: p}}, Supports: []form.Support{
		{Name: "first side", Points: first, FreeX: true, FreeZ: true},
		{Name: "second side", Points: second, Across: plane(angle)},
		{Name: "level", Points: []int{first[0]}, FreeX: true, FreeY: true},
	}}.Equilibrium()
	if err != nil || e.Status != form.Balanced {
		t.Fatal(e.Status, e.Steps, err)
	}
	sum := map[string][3]float64{}
	for i, tr := range e.Triangles {
		c := e.Mesh.Triangles[i]
		x, z := 0.0, 0.0
		for _, q := range []int{c.A, c.B, c.C} {
			x, z = x+math.Hypot(e.Mesh.Points[q].X, e.Mesh.Points[q].Y)/3, z+e.Mesh.Points[q].Z/3
		}
		where := ""
		switch f := math.Atan2(z, x-R); {
		case math.Abs(f) < 0.15:
			where = "outer"
		case math.Abs(f) > math.Pi-0.15:
			where = "inner"
		}
		sum[where] = [3]float64{sum[where][0] + tr.Weft, sum[where][1] + tr.Warp, sum[where][2] + 1}
	}
	for where, want := range map[string]float64{"outer": 894.7368, "inner": 1181.8182} {
		s := sum[where]
		proof.Near(t, where+": round the tube", s[0]/s[2], want, 0.01)
		proof.Near(t, where+": along the ring", s[1]/s[2], p*r/2, 0.02)
	}
	// The side carries the pressure on the tube's section.
	across2 := e.Supports[1].X*math.Sin(angle) - e.Supports[1].Y*math.Cos(angle)
	section := around / 2 * r * r * math.Sin(2*math.Pi/around)
	proof.Near(t, "side of the sector", -across2, p*section, 1e-3)
}

// A quarter of a clamped disc stands as well when it is turned round, its planes of
// symmetry askew, and what its supports pull turns with it.
func TestTurnedSupports(t *testing.T) {
	disc, err := surface.Disc{Radius: 1, Rings: 6}.Mesh()
	disc = must(t, disc, err)
	const turn = 0.4
	var all []form.Equilibrium
	for _, angle := range []float64{0, turn} {
		var part surface.Mesh
		part.Parts = disc.Parts
		part.Points = disc.TurnedZ(angle).Points
		for _, tr := range disc.Triangles {
			inside := true
			for _, q := range []int{tr.A, tr.B, tr.C} {
				inside = inside && disc.Points[q].X > -1e-9 && disc.Points[q].Y > -1e-9
			}
			if inside {
				part.Triangles = append(part.Triangles, tr)
			}
		}
		var onX, onY, rim []int
		for i, q := range disc.Points {
			if math.Abs(q.X) < 1e-9 && q.Y > -1e-9 {
				onX = append(onX, i)
			}
			if math.Abs(q.Y) < 1e-9 && q.X > -1e-9 {
				onY = append(onY, i)
			}
			if math.Hypot(q.X, q.Y) > 1-1e-9 && q.X > -1e-9 && q.Y > -1e-9 {
				rim = append(rim, i)
			}
		}
		e, err := form.Membrane{Mesh: part, Fabrics: cloth(0.3), Pressures: []form.Pressure{{Gauge: 1000}}, Supports: []form.Support{
			{Name: "x = 0", Points: onX, Across: form.Direction{X: math.Cos(angle), Y: math.Sin(angle)}},
			{Name: "y = 0", Points: onY, Across: form.Direction{X: -3 * math.Sin(angle), Y: 3 * math.Cos(angle)}},
			{Name: "rim", Points: rim},
		}}.Equilibrium()
		if err != nil || e.Status != form.Balanced {
			t.Fatal(e.Status, err)
		}
		all = append(all, e)
	}
	proof.Near(t, "rise", all[1].Rise, all[0].Rise, 1e-6)
	sin, cos := math.Sincos(turn)
	for k, r := range all[0].Supports {
		got := all[1].Supports[k]
		for what, pair := range map[string][2]float64{"x": {got.X, r.X*cos - r.Y*sin}, "y": {got.Y, r.X*sin + r.Y*cos}, "z": {got.Z, r.Z}} {
			if math.Abs(pair[0]-pair[1]) > 1e-4 {
				t.Errorf("%s along %s: got %g N, want %g", r.Name, what, pair[0], pair[1])
			}
		}
	}
	for words, g := range map[string]form.Support{
		"support 0 side: across: got (NaN, 0, 0), want finite numbers": {Name: "side", Across: form.Direction{X: math.NaN()}},
		"support 0 side: across and free: got both, want one":          {Name: "side", Across: form.Direction{X: 1}, FreeX: true},
	} {
		_, err := form.Membrane{Mesh: disc, Fabrics: cloth(0), Supports: []form.Support{g}}.Equilibrium()
		proof.Fails(t, "equilibrium", err, words)
	}
}
