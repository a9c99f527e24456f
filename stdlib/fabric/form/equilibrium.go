package form

import (
	"fmt"
	"math"
	"slices"

	"tautline/stdlib/fabric/surface"
	"tautline/stdlib/internal/balance"
	"tautline/stdlib/kept"
	"tautline/stdlib/units"
)

// Status says how a search for balance ended.
type Status string

// How a search ended.
const (
	Balanced Status = "balanced" // no force is out of balance beyond Membrane.Balance
	Stopped  Status = "stopped"  // the steps were used up before
	RunAway  Status = "run away" // a point moved fifty times the mesh's extent: nothing holds the load
)

// An Equilibrium is the form of a membrane under load and the forces in it.
type Equilibrium struct {
	Status    Status
	Residual  units.Force  // greatest force out of balance at a point
	Balance   units.Number // that force over the greatest sum of pulls at a point
	Steps     int
	Moved     units.Length // farthest that a point moved from the mesh as cut
	Rise      units.Length // highest that a point rose above it, 0 or more
	Sag       units.Length // deepest that a point sank below it, 0 or more
	Warnings  []string
	Mesh      surface.Mesh // as it stands
	Cables    []CableForce
	Supports  []Reaction
	Triangles []Tension // of each triangle of the mesh
}

// A Tension is the state of a triangle: line forces on the fabric as it stands,
// strains as share of the length as cut.
type Tension struct {
	Warp       units.ForcePerLength // along the warp
	Weft       units.ForcePerLength // across it
	Shear      units.ForcePerLength // between both
	High       units.ForcePerLength // greatest in any direction
	Low        units.ForcePerLength // least in any direction, 0 when wrinkled
	WarpStrain units.Number
	WeftStrain units.Number
	HighStrain units.Number // greatest in any direction
	Wrinkled   bool         // carries tension in one direction only
	Slack      bool         // carries none
}

// A CableForce is the state of a cable.
type CableForce struct {
	Name   string
	Points []int       // places in the mesh
	Least  units.Force // in its loosest piece
	Most   units.Force // in its tautest piece
	Length units.Length
}

// Equilibrium is the form in which the membrane's fabric and cables balance
// pressure and loads.
//
// The mesh and what stands beside it are checked: what is wrong is an error that
// names the part and the number, as are neighbours that the pressure pushes
// opposite ways, suction behind a closed skin, and loads on what nothing holds
// against them. A search that used up its steps, or ran away
// because nothing holds the load, says so in Status and in a warning; its form is
// then not one in balance. Warnings also name how much of each part is wrinkled
// or slack.
//
// Fabric is taken as elastic without limit and as weightless unless a SpreadLoad
// gives its weight. Strains of more than some 0.1 are beyond the law of cloth.
// Wrinkled cloth may balance in several forms near one another: the search gives one.
// Cloth so loose that it could fold over itself at no cost is left a small line force
// across its wrinkles, some hundredths of the mean pull, less on a finer mesh; a
// warning says how much. A load or support at a single point brings
// more force and a deeper hollow the finer the mesh: spread it over a patch. Some
// 20 000 triangles of taut cloth take a few seconds, of cloth loose nearly everywhere
// a minute or two.
//
// Caution: wrinkled or slack fabric flutters in wind, and its strength is not what
// was tested taut. Real seams, creep and a mesh too coarse for a small radius
// bring forces that are not in these numbers.
//
// Source: constant-strain triangles with Green's strain, following pressure, the
// tension field of least energy; Newton's method damped to lower the energy
// (Nocedal and Wright, Numerical Optimization, chapter 10), for loose cloth from soft
// to stiff.
func (m Membrane) Equilibrium() (Equilibrium, error) {
	return kept.Result("form.Membrane.Equilibrium", m, Membrane.equilibrium)
}

func (m Membrane) equilibrium() (Equilibrium, error) {
	if err := m.check(); err != nil {
		return Equilibrium{}, fmt.Errorf("equilibrium: %w", err)
	}
	s, err := m.system()
	if err == nil {
		err = m.sense(s)
	}
	if err != nil {
		return Equilibrium{}, fmt.Errorf("equilibrium: %w", err)
	}
	tol, steps := m.Balance, m.Steps
	if tol == 0 {
		tol = 1e-8
	}
	if steps == 0 {
		steps = 300
	}
	end, taken, floor, how := s.Balance(tol, steps)
	status := Status(how)
	e := Equilibrium{Mesh: m.Mesh.Moved(0, 0, 0), Status: status, Residual: end.Rest, Steps: taken}
	if end.Weight > 0 {
		e.Balance = end.Rest / end.Weight
	}
	if status != Balanced {
		e.Warnings = append(e.Warnings, fmt.Sprintf("the form is not in balance (%s): %.3g N are left after %d steps, %.2g of the greatest pull at a point", status, end.Rest, taken, e.Balance))
	}
	if floor > 0 {
		e.Warnings = append(e.Warnings, fmt.Sprintf("loose cloth that could fold at no cost was left %.3g N/m across its wrinkles to find its form; a finer mesh leaves less", floor))
	}
	for i, v := range s.X {
		if v.Dot(v)-v.Dot(v) != 0 {
			return Equilibrium{}, fmt.Errorf("equilibrium: point %d: its place is no number any more: the loads are too large for the stiffness", i)
		}
		e.Mesh.Points[i] = surface.Point{X: v[0], Y: v[1], Z: v[2]}
		from := m.Mesh.Points[i]
		e.Moved = math.Max(e.Moved, v.Minus(vec{from.X, from.Y, from.Z}).Length())
		e.Rise = math.Max(e.Rise, v[2]-from.Z)
		e.Sag = math.Max(e.Sag, from.Z-v[2])
	}
	for i := range s.Patches {
		e.Triangles = append(e.Triangles, tension(&s.Patches[i], s.X))
	}
	e.cables(m.Cables, s)
	e.reactions(m.Supports, end.Out)
	e.warnWrinkles()
	return e, nil
}

// tension is the state of a patch.
func tension(e *balance.Patch, x []vec) Tension {
	if e.Film > 0 {
		return Tension{Warp: e.Film, Weft: e.Film, High: e.Film, Low: e.Film}
	}
	warp, weft := e.Stretch(x)
	strains := balance.Strain(warp, weft)
	s, _, _ := e.Law.Respond(strains)
	in := e.Law.State(strains)
	growth := warp.Cross(weft).Length() // of the area
	// Cauchy's line force along and across the warp as it stands.
	a := warp.Length()
	b, c := warp.Dot(weft)/a, growth/a // the weft along and across it
	along := (a*a*s[0] + 2*a*b*s[2] + b*b*s[1]) / growth
	shear := c * (a*s[2] + b*s[1]) / growth
	over := c * c * s[1] / growth
	low, high := balance.Principal(balance.Flow{along, over, shear}, 1)
	if in != balance.Taut {
		low = 0
	}
	_, most := balance.Principal(strains, 0.5)
	return Tension{
		Warp: along, Weft: over, Shear: shear, High: high, Low: low,
		WarpStrain: a - 1, WeftStrain: weft.Length() - 1, HighStrain: math.Sqrt(1+2*most) - 1,
		Wrinkled: in == balance.Wrinkled, Slack: in == balance.Slack,
	}
}

func (e *Equilibrium) cables(cables []Cable, s *balance.System) {
	k := 0
	for _, c := range cables {
		f := CableForce{Name: c.Name, Points: slices.Clone(c.Points), Least: math.Inf(1), Length: e.Mesh.PathLength(c.Points)}
		on := func(a, b int) bool {
			return k < len(s.Segments) && s.Segments[k].Corners == [2]int{a, b}
		}
		for i := 1; i < len(c.Points); i++ {
			if !on(c.Points[i-1], c.Points[i]) {
				continue // the points are in one place
			}
			g := &s.Segments[k]
			force, _, _ := g.Tension(s.X[g.Corners[1]].Minus(s.X[g.Corners[0]]).Length())
			f.Least, f.Most = math.Min(f.Least, force), math.Max(f.Most, force)
			k++
		}
		if f.Most == 0 {
			e.Warnings = append(e.Warnings, fmt.Sprintf("cable %q hangs loose", c.Name))
		}
		e.Cables = append(e.Cables, f)
	}
}

// warnWrinkles says how much of each part carries less than it was cut for.
func (e *Equilibrium) warnWrinkles() {
	for p, part := range e.Mesh.Parts {
		whole, loose, none := 0.0, 0.0, 0.0
		for i, t := range e.Triangles {
			if e.Mesh.Triangles[i].Part != p {
				continue
			}
			a := e.Mesh.TriangleArea(i)
			whole += a
			if t.Wrinkled {
				loose += a
			}
			if t.Slack {
				none += a
			}
		}
		if loose > 0 {
			e.Warnings = append(e.Warnings, fmt.Sprintf("part %q: %.1f %% of it is wrinkled", part, 100*loose/whole))
		}
		if none > 0 {
			e.Warnings = append(e.Warnings, fmt.Sprintf("part %q: %.1f %% of it is slack", part, 100*none/whole))
		}
	}
}

// Most is the greatest of the line forces and strains in a part, each wherever it
// is greatest; Low and its flags are the least. A part that the mesh does not have
// is an error.
//
// Source: as Membrane.Equilibrium.
func (e Equilibrium) Most(part string) (Tension, error) {
	p := slices.Index(e.Mesh.Parts, part)
	if p < 0 {
		return Tension{}, fmt.Errorf("part: got %q, want one of %q", part, e.Mesh.Parts)
	}
	most := Tension{Low: math.Inf(1), High: math.Inf(-1), Warp: math.Inf(-1), Weft: math.Inf(-1), WarpStrain: math.Inf(-1), WeftStrain: math.Inf(-1), HighStrain: math.Inf(-1)}
	for i, t := range e.Triangles {
		if e.Mesh.Triangles[i].Part != p {
			continue
		}
		most.Warp, most.Weft = math.Max(most.Warp, t.Warp), math.Max(most.Weft, t.Weft)
		most.Shear = math.Max(most.Shear, math.Abs(t.Shear))
		most.High, most.Low = math.Max(most.High, t.High), math.Min(most.Low, t.Low)
		most.WarpStrain, most.WeftStrain = math.Max(most.WarpStrain, t.WarpStrain), math.Max(most.WeftStrain, t.WeftStrain)
		most.HighStrain = math.Max(most.HighStrain, t.HighStrain)
		most.Wrinkled, most.Slack = most.Wrinkled || t.Wrinkled, most.Slack || t.Slack
	}
	return most, nil
}
