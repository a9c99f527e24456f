package form

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"tautline/stdlib/fabric/surface"
	"tautline/stdlib/internal/argument"
	"tautline/stdlib/internal/balance"
	"tautline/stdlib/units"
)

// A Membrane is a mesh of fabric, as cut, with what holds and loads it.
//
//	rim := sheet.Must(disc.Seam("rim"))
//	blown := sheet.Must(form.Membrane{
//		Mesh:      disc,
//		Fabrics:   []form.Fabric{{Warp: 300 * units.KNPerM, Weft: 300 * units.KNPerM, Poisson: 0.3}},
//		Pressures: []form.Pressure{{Gauge: 1 * units.KPa}},
//		Supports:  []form.Support{{Points: rim.Points}},
//	}.Equilibrium())
type Membrane struct {
	Mesh      surface.Mesh
	Fabrics   []Fabric
	Cables    []Cable
	Pressures []Pressure
	Spread    []SpreadLoad
	Loads     []PointLoad
	Supports  []Support
	Balance   units.Number // greatest unbalanced force over the greatest pull at a point that ends the search, 0: 1e-8
	Steps     int          // at most, 0: 300
}

// A Cable runs through points of the mesh, pulls where it is taut and hangs loose
// where it is not: a cable in an edge, a tie line inside, a tuft.
type Cable struct {
	Name      string
	Points    []int        // two or more
	Stiffness units.Force  // force over strain: modulus times section, more than 0
	Length    units.Length // from end to end without force; 0: as in the mesh
	Force     units.Force  // that it keeps at any length, instead of stiffness and length
}

// A Pressure stands behind parts of the mesh and pushes them outward.
type Pressure struct {
	Parts []string       // none: all parts
	Gauge units.Pressure // inside over outside; negative: suction
}

// A SpreadLoad is a load on each area of the mesh as cut that keeps its direction:
// weight, snow.
type SpreadLoad struct {
	Parts   []string // none: all parts
	X, Y, Z units.Pressure
}

// A PointLoad pulls at a point.
type PointLoad struct {
	Point   int
	X, Y, Z units.Force
}

// check names what is wrong with the membrane.
func (m Membrane) check() error {
	if err := m.Mesh.Check(); err != nil {
		return err
	}
	if m.Balance < 0 || m.Balance > 0.1 || math.IsNaN(m.Balance) {
		return fmt.Errorf("balance: got %g, want 0 to 0.1", m.Balance)
	}
	if m.Steps < 0 {
		return fmt.Errorf("steps: got %d, want 0 or more", m.Steps)
	}
	for i, f := range m.Fabrics {
		if err := cmp.Or(f.check(), m.knows(f.Parts)); err != nil {
			return fmt.Errorf("fabric %d: %w", i, err)
		}
	}
	for i, p := range m.Pressures {
		if err := cmp.Or(argument.Finite("gauge pressure", p.Gauge), m.knows(p.Parts)); err != nil {
			return fmt.Errorf("pressure %d: %w", i, err)
		}
	}
	for i, s := range m.Spread {
		if err := cmp.Or(argument.Finite("x", s.X), argument.Finite("y", s.Y), argument.Finite("z", s.Z), m.knows(s.Parts)); err != nil {
			return fmt.Errorf("spread load %d: %w", i, err)
		}
	}
	for i, l := range m.Loads {
		if err := cmp.Or(argument.Finite("x", l.X), argument.Finite("y", l.Y), argument.Finite("z", l.Z), m.has([]int{l.Point})); err != nil {
			return fmt.Errorf("load %d: %w", i, err)
		}
	}
	for i, s := range m.Supports {
		if err := cmp.Or(m.has(s.Points), s.check()); err != nil {
			return fmt.Errorf("support %d %s: %w", i, s.Name, err)
		}
	}
	for i, c := range m.Cables {
		if err := m.checkCable(c); err != nil {
			return fmt.Errorf("cable %d %s: %w", i, c.Name, err)
		}
	}
	return nil
}

func (m Membrane) checkCable(c Cable) error {
	if err := cmp.Or(m.has(c.Points), argument.NotNegative("length", c.Length)); err != nil {
		return err
	}
	if len(c.Points) < 2 {
		return fmt.Errorf("points: got %d, want at least two", len(c.Points))
	}
	if !(m.Mesh.PathLength(c.Points) > 0) {
		return fmt.Errorf("points: they are in one place, want some way between them")
	}
	if c.Force != 0 {
		return argument.Positive("force", c.Force)
	}
	return argument.Positive("stiffness", c.Stiffness)
}

// knows says which part the mesh does not have.
func (m Membrane) knows(parts []string) error {
	for _, p := range parts {
		if !slices.Contains(m.Mesh.Parts, p) {
			return fmt.Errorf("part: got %q, want one of %q", p, m.Mesh.Parts)
		}
	}
	return nil
}

// has says which point the mesh does not have.
func (m Membrane) has(points []int) error {
	for _, p := range points {
		if p < 0 || p >= len(m.Mesh.Points) {
			return fmt.Errorf("point: got %d, want 0 to %d", p, len(m.Mesh.Points)-1)
		}
	}
	return nil
}

// covers reports whether a list of parts, none for all, has one.
func covers(parts []string, part string) bool {
	return len(parts) == 0 || slices.Contains(parts, part)
}

// system makes of the membrane what is balanced: elements, loads and the unknowns.
func (m Membrane) system() (*balance.System, error) {
	s := &balance.System{X: make([]vec, len(m.Mesh.Points)), Load: make([]vec, len(m.Mesh.Points))}
	for i, p := range m.Mesh.Points {
		s.X[i] = vec{p.X, p.Y, p.Z}
	}
	for i, t := range m.Mesh.Triangles {
		if err := m.addTriangle(s, i, t); err != nil {
			return nil, err
		}
	}
	for _, c := range m.Cables {
		whole := m.Mesh.PathLength(c.Points)
		for k := 1; k < len(c.Points); k++ {
			a, b := c.Points[k-1], c.Points[k]
			length := m.Mesh.PathLength([]int{a, b})
			if length == 0 {
				continue
			}
			e := balance.Segment{Corners: [2]int{a, b}, Length: length, Stiffness: c.Stiffness, Force: c.Force}
			if c.Length > 0 {
				e.Length *= c.Length / whole
			}
			s.Segments = append(s.Segments, e)
		}
	}
	for _, l := range m.Loads {
		s.Load[l.Point] = s.Load[l.Point].Plus(vec{l.X, l.Y, l.Z})
	}
	return s, s.Number(holds(m.Supports))
}

// addTriangle adds a triangle of fabric with the pressure and the load on it.
func (m Membrane) addTriangle(s *balance.System, i int, t surface.Triangle) error {
	part := m.Mesh.Parts[t.Part]
	k := slices.IndexFunc(m.Fabrics, func(f Fabric) bool { return covers(f.Parts, part) })
	if k < 0 {
		return fmt.Errorf("part %q: got no fabric, want one", part)
	}
	e := balance.Patch{Corners: [3]int{t.A, t.B, t.C}, Film: m.Fabrics[k].Film, Law: m.Fabrics[k].law()}
	for _, p := range m.Pressures {
		if covers(p.Parts, part) {
			e.Pressure += p.Gauge
		}
	}
	a, b, c := s.X[t.A], s.X[t.B], s.X[t.C]
	warp, ok := m.Fabrics[k].warp(a.Plus(b).Plus(c).Times(1.0/3), b.Minus(a), b.Minus(a).Cross(c.Minus(a)).Unit())
	if !ok {
		return fmt.Errorf("triangle %d of part %q: the warp's direction stands upright on it: give the part a fabric with another direction", i, part)
	}
	e.Cut(a, b, c, warp, m.Fabrics[k].WarpCut, m.Fabrics[k].WeftCut)
	s.Patches = append(s.Patches, e)
	for _, l := range m.Spread {
		if covers(l.Parts, part) {
			share := vec{l.X, l.Y, l.Z}.Times(m.Mesh.TriangleArea(i) / 3)
			for _, p := range e.Corners {
				s.Load[p] = s.Load[p].Plus(share)
			}
		}
	}
	return nil
}

// warp is the direction of the warp in a triangle with a middle, a side and a
// normal.
func (f Fabric) warp(middle, side, normal vec) (vec, bool) {
	along := vec{f.Along.X, f.Along.Y, f.Along.Z}
	if along == (vec{}) {
		along = vec{1}
	}
	if f.Round {
		along = vec{-middle[1], middle[0]}
	}
	along = along.Unit()
	laid := along.Minus(normal.Times(along.Dot(normal)))
	if laid.Length() > 1e-3 {
		return laid.Unit(), true
	}
	if f.alike() {
		return side.Unit(), true
	}
	return vec{}, false
}

// alike reports whether the fabric is the same in all directions.
func (f Fabric) alike() bool {
	l := f.law()
	return f.Film > 0 || f.Warp == f.Weft && f.WarpCut == f.WeftCut && math.Abs(l.Shear-(l.Warp-l.Cross)/2) <= 1e-9*l.Warp
}
