package unroll

import (
	"fmt"
	"math"

	"tautline/stdlib/fabric/pattern"
	"tautline/stdlib/internal/argument"
	"tautline/stdlib/units"
)

// A Frustum is a tapered tube, or a cone when its small end is a point.
type Frustum struct {
	Small  units.Length // radius of the small end, 0 or more
	Large  units.Length // radius of the large end, at least Small, more than 0
	Height units.Length // from end to end along the axis, more than 0
}

func (f Frustum) check() error {
	for _, err := range []error{
		argument.NotNegative("small radius", f.Small), argument.Positive("large radius", f.Large), argument.Positive("height", f.Height),
	} {
		if err != nil {
			return err
		}
	}
	if f.Small > f.Large {
		return fmt.Errorf("small radius: got %g m, want at most the large radius %g m", f.Small, f.Large)
	}
	return nil
}

func (f Frustum) demand(call string) { argument.Demand("unroll: "+call, f.check()) }

// Slant is the length of the wall from end to end.
//
//	L = sqrt(f.Height*f.Height + (f.Large - f.Small)*(f.Large - f.Small))
//
// It panics if a field is out of its range.
//
// Source: Pythagoras.
func (f Frustum) Slant() units.Length {
	f.demand("Frustum.Slant")
	return math.Hypot(f.Height, f.Large-f.Small)
}

// Sector is the angle that the whole wall spans when it lies flat, 0 for a
// straight tube.
//
//	psi = 2*pi*(f.Large - f.Small)/sqrt(f.Height*f.Height + (f.Large - f.Small)*(f.Large - f.Small))
//
// It panics if a field is out of its range.
//
// Source: a cone unrolled: the large end's circumference is an arc about the
// point.
func (f Frustum) Sector() units.Angle {
	f.demand("Frustum.Sector")
	return 2 * math.Pi * (f.Large - f.Small) / f.Slant()
}

// OuterRadius is the radius to strike the large end with on the table. A
// straight tube has none and is an error.
//
//	rho = f.Large*sqrt(f.Height*f.Height + (f.Large - f.Small)*(f.Large - f.Small))/(f.Large - f.Small)
//
// It panics if a field is out of its range.
//
// Source: as Sector.
func (f Frustum) OuterRadius() (units.Length, error) {
	f.demand("Frustum.OuterRadius")
	if f.Large == f.Small {
		return 0, fmt.Errorf("outer radius of a frustum: got equal ends of %g m, want different ones: the wall is a rectangle", f.Large)
	}
	return f.Large * f.Slant() / (f.Large - f.Small), nil
}

// Area is the wall's fabric within the seams.
//
//	A = pi*(f.Small + f.Large)*sqrt(f.Height*f.Height + (f.Large - f.Small)*(f.Large - f.Small))
//
// It panics if a field is out of its range.
//
// Source: area of a ring sector.
func (f Frustum) Area() units.Area {
	f.demand("Frustum.Area")
	return math.Pi * (f.Small + f.Large) * f.Slant()
}

// Panel is one of so many equal pieces round the frustum, 1 or more, counted so
// often. Its edges are large, right, small and left; the warp runs round the
// frustum.
//
// Fields and panels out of their ranges are an error, as is a single flat panel
// that would lap over itself.
//
// Source: as Sector.
func (f Frustum) Panel(name string, panels units.Number) (pattern.Piece, error) {
	err := f.check()
	for _, e := range []error{argument.Whole("panels", panels), argument.Within("panels", panels, 1, 360)} {
		if err == nil {
			err = e
		}
	}
	if err != nil {
		return pattern.Piece{}, fmt.Errorf("panel %s of a frustum: %w", name, err)
	}
	slant, spread := f.Slant(), f.Sector()/panels
	// A point at the share s of the panel's width, at a distance up the wall where
	// the frustum has that radius. Written by the arc, not the striking radius, so
	// that a straight tube is no special case.
	at := func(s, radius, up float64) (x, y float64) {
		arc, turn := 2*math.Pi*radius/panels*s, spread*s
		return arc * sinc(turn), up + arc*sinc(turn/2)*math.Sin(turn/2)
	}
	n := pattern.Turns(2 * math.Pi / panels)
	p := pattern.Piece{Name: name, Count: panels}
	p.Edges = append(p.Edges, pattern.Trace("large", n, func(s float64) (float64, float64) { return at(s-0.5, f.Large, 0) }))
	xl, yl := at(0.5, f.Large, 0)
	xs, ys := at(0.5, f.Small, slant)
	p.Edges = append(p.Edges, pattern.Line("right", xl, yl, xs, ys))
	if f.Small > 0 {
		p.Edges = append(p.Edges, pattern.Trace("small", n, func(s float64) (float64, float64) { return at(0.5-s, f.Small, slant) }))
	}
	p.Edges = append(p.Edges, pattern.Line("left", -xs, ys, -xl, yl))
	return p, p.Check()
}

// sinc is sin(x)/x.
func sinc(x float64) float64 {
	if math.Abs(x) < 1e-4 {
		return 1 - x*x/6
	}
	return math.Sin(x) / x
}

// PanelChord is the straight width of a panel at the large end.
//
// It panics if a field is out of its range or panels is below 1.
//
// Source: as Sector.
func (f Frustum) PanelChord(panels units.Number) units.Length {
	argument.Demand("unroll: Frustum.PanelChord", argument.Within("panels", panels, 1, math.MaxFloat64))
	return 2 * math.Pi * f.Large / panels * sinc(f.Sector()/panels/2)
}

// PanelSagitta is how far the large end of a panel bulges beyond its chord.
//
// It panics if a field is out of its range or panels is below 1.
//
// Source: as Sector.
func (f Frustum) PanelSagitta(panels units.Number) units.Length {
	argument.Demand("unroll: Frustum.PanelSagitta", argument.Within("panels", panels, 1, math.MaxFloat64))
	half := f.Sector() / panels / 2
	return math.Pi * f.Large / panels * sinc(half/2) * math.Sin(half/2)
}
