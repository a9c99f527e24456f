package form

import (
	"cmp"
	"errors"
	"fmt"
	"math"
	"slices"

	"tautline/stdlib/fabric/surface"
	"tautline/stdlib/internal/argument"
	"tautline/stdlib/internal/balance"
	"tautline/stdlib/internal/ldl"
	"tautline/stdlib/kept"
	"tautline/stdlib/units"
)

// A Net is points and straight links between them, each of a given force density:
// its force over its length. Where the points come to stand follows from that
// alone, by linear equations: a form for cables, cords or cloth that carries its
// loads by pull, before anybody has cut anything.
//
//	net := sheet.Must(form.Grid{
//		Corners: [4]surface.Point{{}, {X: 4 * units.M, Z: 2 * units.M}, {X: 4 * units.M, Y: 4 * units.M}, {Y: 4 * units.M, Z: 2 * units.M}},
//		Across:  4, Along: 4, Inner: 1 * units.KNPerM, Edge: 4 * units.KNPerM,
//	}.Net())
//	sail := sheet.Must(net.Form())
//
// A Net may have faces that a pressure stands behind. It then stands where the
// pressure, square to the faces as they stand, is in balance.
type Net struct {
	Points   []surface.Point // held ones as they stay, the others anywhere
	Held     []int           // places in Points
	Links    []Link
	Faces    []surface.Triangle // that the pressure pushes outward, their parts of no account
	Pressure units.Pressure     // inside over outside, 0 or more
	Loads    []PointLoad
}

// A Link pulls two points of a net together, or with a density below 0 pushes
// them apart.
type Link struct {
	From, To int                  // places in Net.Points
	Density  units.ForcePerLength // force over length; not 0
}

// A Hanging is the form of a net.
type Hanging struct {
	Points   []surface.Point
	Links    []LinkForce
	Held     []PointLoad // by which what holds the net pulls at each held point
	Most     units.Force // greatest pull in a link
	Least    units.Force // least; below 0 it is a push
	Status   Status
	Residual units.Force // greatest force out of balance at a free point
	Steps    int
	Warnings []string
}

// A LinkForce is the state of a link.
type LinkForce struct {
	From, To int // places in Hanging.Points
	Length   units.Length
	Force    units.Force // density times length
}

// A Grid is a net of square mesh between four corners, or what is drawn so.
type Grid struct {
	Corners [4]surface.Point     // counter-clockwise
	Across  int                  // meshes from the first corner to the second, 1 or more
	Along   int                  // meshes from the second corner to the third, 1 or more
	Inner   units.ForcePerLength // density of the links inside, more than 0
	Edge    units.ForcePerLength // of those along the edges, more than 0
	Rim     bool                 // held all along its edges, straight from corner to corner, not only in the corners
}

// Net is the net of the grid, held in its corners or at its rim. Point (i, j),
// counted from the first corner, has the place i·(Along + 1) + j.
//
// A field out of its range is an error.
func (g Grid) Net() (Net, error) {
	if err := cmp.Or(within("meshes across", g.Across), within("meshes along", g.Along),
		argument.Positive("inner density", g.Inner), argument.Positive("density of the edge", g.Edge)); err != nil {
		return Net{}, fmt.Errorf("grid: %w", err)
	}
	var n Net
	c := [4]vec{}
	for k, p := range g.Corners {
		c[k] = vec{p.X, p.Y, p.Z}
	}
	place := func(i, j int) int { return i*(g.Along+1) + j }
	for i := range g.Across + 1 {
		for j := range g.Along + 1 {
			s, t := float64(i)/float64(g.Across), float64(j)/float64(g.Along)
			v := c[0].Toward(c[1], s).Toward(c[3].Toward(c[2], s), t)
			n.Points = append(n.Points, surface.Point{X: v[0], Y: v[1], Z: v[2]})
			endAcross, endAlong := i == 0 || i == g.Across, j == 0 || j == g.Along
			if endAcross && endAlong || g.Rim && (endAcross || endAlong) {
				n.Held = append(n.Held, place(i, j))
			}
			along, across := g.Inner, g.Inner
			if endAcross {
				along = g.Edge
			}
			if endAlong {
				across = g.Edge
			}
			if i < g.Across {
				n.Links = append(n.Links, Link{place(i, j), place(i+1, j), across})
			}
			if j < g.Along {
				n.Links = append(n.Links, Link{place(i, j), place(i, j+1), along})
			}
		}
	}
	return n, nil
}

func within(what string, v int) error { return argument.Within(what, float64(v), 1, 2000) }

// NetOf is the net along the edges of a mesh that pulls at every point as a skin
// of an even tension in every direction does in the mesh as it stands. Its faces are
// the triangles; its points are held where they are named.
//
// The net of a net's form, again and again, comes to rest as the film of that
// tension, the form of least area. With a pressure and a round rim the first one
// is a cap of a ball already.
//
// The tension is more than 0. That, a mesh that is not one skin with two sides, and
// a point that it does not have, are errors.
//
// Source: Pinkall and Polthier, Computing discrete minimal surfaces and their
// conjugates, Experimental Mathematics 2(1), 1993: half the tension times the
// cotangents of the two angles across an edge.
func NetOf(m surface.Mesh, tension units.ForcePerLength, held []int) (Net, error) {
	if err := cmp.Or(m.Manifold(), argument.Positive("tension", tension)); err != nil {
		return Net{}, fmt.Errorf("net of a mesh: %w", err)
	}
	type edge struct{ a, b int }
	density := map[edge]float64{}
	var order []edge
	for _, t := range m.Triangles {
		c := [3]int{t.A, t.B, t.C}
		for k := range c {
			a, b, o := c[k], c[(k+1)%3], c[(k+2)%3]
			u, v := away(m, o, a), away(m, o, b)
			e := edge{min(a, b), max(a, b)}
			if _, met := density[e]; !met {
				order = append(order, e)
			}
			density[e] += tension / 2 * u.Dot(v) / u.Cross(v).Length()
		}
	}
	n := Net{Points: slices.Clone(m.Points), Held: slices.Clone(held), Faces: slices.Clone(m.Triangles)}
	for _, e := range order {
		if q := density[e]; math.Abs(q) > 1e-9*tension { // across a square nothing pulls
			n.Links = append(n.Links, Link{e.a, e.b, q})
		}
	}
	return n, nil
}

// away is the way from one point of a mesh to another.
func away(m surface.Mesh, from, to int) vec {
	a, b := m.Points[from], m.Points[to]
	return vec{b.X - a.X, b.Y - a.Y, b.Z - a.Z}
}

// check names what is wrong with the net.
func (n Net) check() error {
	has := func(p int) error {
		if p < 0 || p >= len(n.Points) {
			return fmt.Errorf("point: got %d, want 0 to %d", p, len(n.Points)-1)
		}
		return nil
	}
	for i, p := range n.Points {
		if err := cmp.Or(argument.Finite("x", p.X), argument.Finite("y", p.Y), argument.Finite("z", p.Z)); err != nil {
			return fmt.Errorf("point %d: %w", i, err)
		}
	}
	for i, p := range n.Held {
		if err := has(p); err != nil {
			return fmt.Errorf("held %d: %w", i, err)
		}
	}
	for i, l := range n.Links {
		err := cmp.Or(has(l.From), has(l.To), argument.Finite("density", l.Density))
		switch {
		case err != nil:
		case l.From == l.To:
			err = fmt.Errorf("both ends: got point %d, want two points", l.From)
		case l.Density == 0:
			err = fmt.Errorf("density: got 0, want a force over a length: leave the link out")
		}
		if err != nil {
			return fmt.Errorf("link %d: %w", i, err)
		}
	}
	for i, l := range n.Loads {
		if err := cmp.Or(has(l.Point), argument.Finite("x", l.X), argument.Finite("y", l.Y), argument.Finite("z", l.Z)); err != nil {
			return fmt.Errorf("load %d: %w", i, err)
		}
	}
	for i, t := range n.Faces {
		if err := cmp.Or(has(t.A), has(t.B), has(t.C)); err != nil {
			return fmt.Errorf("face %d: %w", i, err)
		}
	}
	if err := argument.NotNegative("pressure", n.Pressure); err != nil {
		return fmt.Errorf("%w: turn the faces over to have it on their other side", err)
	}
	if n.Pressure > 0 && len(n.Faces) == 0 {
		return fmt.Errorf("pressure: got %g Pa and no faces that it could stand behind, want faces", n.Pressure)
	}
	return n.checkTied()
}

// checkTied finds a point from which no links lead to a held one.
func (n Net) checkTied() error {
	g := newGroups(len(n.Points))
	for _, l := range n.Links {
		g.join(l.From, l.To)
	}
	tied := make([]bool, len(n.Points))
	held := map[int]bool{}
	for _, p := range n.Held {
		tied[g.of(p)], held[p] = true, true
	}
	if len(held) == len(n.Points) {
		return fmt.Errorf("held: got all %d points, want some that are free to find their place", len(held))
	}
	loose, first := 0, -1
	for p := range n.Points {
		if !tied[g.of(p)] {
			if loose++; first < 0 {
				first = p
			}
		}
	}
	if loose == 0 {
		return nil
	}
	p := n.Points[first]
	return fmt.Errorf("point %d at (%g, %g, %g) m: no links lead from it to a held point, nor from %d points in all: tie it, hold it or leave it out", first, p.X, p.Y, p.Z, loose)
}

// Form is the form in which the pulls of the links balance loads and pressure.
//
// Without pressure it is the solution of linear equations, one for each free
// point, the same for x, y and z. With pressure it is found by Newton's method as in
// Membrane.Equilibrium; a pressure that no form balances ends with another Status
// than Balanced, and with a warning.
//
// A number out of its range, a point that nothing ties to a held one and
// densities that cancel are errors that name the point or link.
//
// Caution: a force density is a choice, not a stiffness. Nobody has yet said of
// what the links are made, how long they are cut and what another load does.
//
// Source: Schek, The force density method for form finding and computation of
// general networks, Computer Methods in Applied Mechanics and Engineering 3, 1974,
// 115-134; the pressure's force on a triangle, a third at each corner.
func (n Net) Form() (Hanging, error) { return kept.Result("form.Net.Form", n, Net.form) }

func (n Net) form() (Hanging, error) {
	if err := n.check(); err != nil {
		return Hanging{}, fmt.Errorf("net: %w", err)
	}
	s, err := n.system()
	if err != nil {
		return Hanging{}, fmt.Errorf("net: %w", err)
	}
	h := Hanging{Status: Balanced, Most: math.Inf(-1), Least: math.Inf(1)}
	if err := n.solve(s); err != nil { // without pressure, which is where the search with it begins
		return Hanging{}, fmt.Errorf("net: %w", err)
	}
	end := s.At(s.X)
	if n.Pressure > 0 {
		var how balance.Status
		end, h.Steps, _, how = s.Balance(1e-10, 300)
		h.Status = Status(how)
	}
	h.Residual = end.Rest
	if h.Status != Balanced {
		h.Warnings = append(h.Warnings, fmt.Sprintf("the form is not in balance (%s): %.3g N are left after %d steps: no form of these densities holds %g Pa, or densities below 0 make it give way", h.Status, end.Rest, h.Steps, n.Pressure))
	}
	for i, v := range s.X {
		if v.Dot(v)-v.Dot(v) != 0 {
			return Hanging{}, fmt.Errorf("net: point %d: its place is no number: the loads are too large for the densities", i)
		}
		h.Points = append(h.Points, surface.Point{X: v[0], Y: v[1], Z: v[2]})
	}
	for _, l := range n.Links {
		length := s.X[l.To].Minus(s.X[l.From]).Length()
		h.Links = append(h.Links, LinkForce{l.From, l.To, length, l.Density * length})
		h.Most, h.Least = math.Max(h.Most, l.Density*length), math.Min(h.Least, l.Density*length)
	}
	for _, p := range slices.Compact(slices.Sorted(slices.Values(n.Held))) {
		f := end.Out[p]
		h.Held = append(h.Held, PointLoad{p, f[0], f[1], f[2]})
	}
	return h, nil
}

// system makes of the net what is balanced.
func (n Net) system() (*balance.System, error) {
	s := &balance.System{Load: make([]vec, len(n.Points))}
	for _, p := range n.Points {
		s.X = append(s.X, vec{p.X, p.Y, p.Z})
	}
	for _, l := range n.Links {
		s.Segments = append(s.Segments, balance.Segment{Corners: [2]int{l.From, l.To}, Length: 1, Density: l.Density})
	}
	if n.Pressure > 0 {
		for _, t := range n.Faces {
			s.Patches = append(s.Patches, balance.Patch{Corners: [3]int{t.A, t.B, t.C}, Pressure: n.Pressure})
		}
	}
	for _, l := range n.Loads {
		s.Load[l.Point] = s.Load[l.Point].Plus(vec{l.X, l.Y, l.Z})
	}
	return s, s.Number(holds([]Support{{Points: n.Held}}))
}

// solve sets the free points by the linear equations.
func (n Net) solve(s *balance.System) error {
	k, right := n.linear(s)
	f, err := ldl.Analyse(k).Factor(k, 1e-13)
	if bad := (*ldl.Singular)(nil); errors.As(err, &bad) {
		for p := range s.X {
			if s.Place(p) == bad.Unknown {
				return fmt.Errorf("point %d: pulls and pushes cancel there and leave it free to go anywhere: want densities above 0", p)
			}
		}
	}
	if err != nil {
		return err
	}
	for d := range right {
		f.Solve(right[d])
		for p := range s.X {
			if i := s.Place(p); i >= 0 {
				s.X[p][d] = right[d][i]
			}
		}
	}
	return nil
}

// linear is the matrix of the densities and the right sides for x, y and z.
func (n Net) linear(s *balance.System) (k *ldl.Matrix, right [3][]float64) {
	blocks := make([]ldl.Block, len(n.Links))
	for i, l := range n.Links {
		q := l.Density
		blocks[i] = ldl.Block{Index: []int{s.Place(l.From), s.Place(l.To)}, Values: []float64{q, -q, -q, q}}
	}
	for d := range right {
		right[d] = make([]float64, s.Unknowns()/3)
		for p := range s.X {
			if i := s.Place(p); i >= 0 {
				right[d][i] = s.Load[p][d]
			}
		}
		for _, l := range n.Links {
			if a, b := s.Place(l.From), s.Place(l.To); a >= 0 && b < 0 {
				right[d][a] += l.Density * s.X[l.To][d]
			} else if a < 0 && b >= 0 {
				right[d][b] += l.Density * s.X[l.From][d]
			}
		}
	}
	return ldl.Assemble(s.Unknowns()/3, blocks), right
}
