package laminate

import (
	"cmp"
	"fmt"
	"math"

	"tautline/stdlib/internal/argument"
	"tautline/stdlib/units"
)

// Edge says how a panel is held all round.
type Edge string

// The ways of holding a panel.
const (
	Supported Edge = "supported" // held, free to turn: over a stringer of open section
	Clamped   Edge = "clamped"   // held and kept from turning: over a wide bonded flange
)

// A Panel is a rectangle of laminate between stiffeners, flat or slightly curved.
type Panel struct {
	Length  units.Length // along x
	Width   units.Length // along y
	RadiusX units.Length // of the curve along x: above 0 it bulges towards the load, below 0 away from it; 0 when straight
	RadiusY units.Length // along y
	Edges   Edge         // "" is Supported
	Skin    Laminate     // its first ply lies on the side away from the load, as the mould's side of a body that people sit in
}

// A PanelLoad is what a panel bears: a pressure all over it, and a force spread
// over a rectangle.
type PanelLoad struct {
	Pressure units.Pressure
	Force    units.Force
	X, Y     units.Length // of the middle of the rectangle, from the panel's corner
	AlongX   units.Length // size of the rectangle
	AlongY   units.Length
}

// A PanelResult is how a panel bears its load.
type PanelResult struct {
	Deflection units.Length // greatest
	X, Y       units.Length // where
	MomentX    units.Force  // moment per length about y, of the greatest size, above 0 where the far side is stretched
	MomentY    units.Force
	CentreX    units.Force // the same in the middle of the panel
	CentreY    units.Force
	OverThick  units.Number // deflection over thickness
	Safety     units.Number // how many times the load may grow before the first ply breaks; 0 when not asked for
	Ply        string       // that breaks first
	BreakX     units.Length // where
	BreakY     units.Length
	Warnings   []string
}

func (p Panel) check() error {
	err := cmp.Or(argument.Positive("length", p.Length), argument.Positive("width", p.Width), p.Skin.check())
	for _, side := range []struct {
		name         string
		radius, edge float64
	}{{"radius along x", p.RadiusX, p.Length}, {"radius along y", p.RadiusY, p.Width}} {
		if err = cmp.Or(err, argument.Finite(side.name, side.radius)); err == nil && side.radius != 0 && side.edge > math.Abs(side.radius) {
			err = fmt.Errorf("%s: got %g m over a side of %g m, want at least the side: the panel is too deep for a shallow one", side.name, side.radius, side.edge)
		}
	}
	if err == nil && p.Edges != "" && p.Edges != Supported && p.Edges != Clamped {
		err = fmt.Errorf("edges: got %q, want Supported or Clamped", p.Edges)
	}
	if err == nil && p.Edges == Clamped && p.curved() {
		err = fmt.Errorf("edges: got a curved panel that is clamped, which is not covered: take Supported, which gives more deflection")
	}
	return err
}

func (p Panel) curved() bool { return p.RadiusX != 0 || p.RadiusY != 0 }

func (p Panel) checkLoad(l PanelLoad) error {
	err := cmp.Or(argument.Finite("pressure", l.Pressure), argument.Finite("force", l.Force))
	if err == nil && l.Pressure == 0 && l.Force == 0 {
		err = fmt.Errorf("load: got none, want some")
	}
	if err != nil || l.Force == 0 {
		return err
	}
	if err = cmp.Or(argument.Positive("size along x", l.AlongX), argument.Positive("size along y", l.AlongY)); err != nil {
		return err
	}
	const slack = 1e-9
	if l.X-l.AlongX/2 < -slack || l.X+l.AlongX/2 > p.Length+slack || l.Y-l.AlongY/2 < -slack || l.Y+l.AlongY/2 > p.Width+slack {
		return fmt.Errorf("load: got a rectangle of %g by %g m about (%g, %g) m, want it on the panel of %g by %g m", l.AlongX, l.AlongY, l.X, l.Y, p.Length, p.Width)
	}
	return nil
}

// Press is how the panel gives under a load.
//
// Supported: Navier's double sine series of the orthotropic plate or shallow
// shell, 79 waves each way. Clamped: the least energy of 23 by 23 polynomials
// that keep to the edge. Both with the stiffness in bending of a laminate that is
// free to stretch (D - B·A⁻¹·B). Deflections and moments are looked for on a grid
// of 41 by 41 points and under the load.
//
// A panel or load out of range is an error. A deflection beyond half the
// thickness carries a warning: a flat panel then begins to carry as a membrane,
// which is not in it and makes it stiffer. So does a panel that bulges towards the
// load and gives more than its thickness, because it may snap through.
//
// Source: Timoshenko and Woinowsky-Krieger, Theory of Plates and Shells, 2nd
// edition, chapters 5, 6, 11 and 15; shallow shell by Donnell and Vlasov.
func (p Panel) Press(load PanelLoad) (PanelResult, error) {
	r, _, err := p.press(load)
	return r, err
}

// Bear is Press, and how many times the load may grow before the first ply breaks
// anywhere on the grid, by a criterion.
//
// Plies without strengths are an error. The doubts of the plies' numbers are
// passed on as warnings.
//
// Caution: breaking is of the laminate only; its edge, its bond to the stiffener
// and its core are not looked at. A panel that people stand on is proved by
// standing on it with what the standard for the ride asks.
//
// Source: as Press and Laminate.FirstPly.
func (p Panel) Bear(load PanelLoad, c Criterion) (PanelResult, error) {
	r, field, err := p.press(load)
	if err != nil {
		return PanelResult{}, err
	}
	s, err := p.Skin.Stiffness()
	if err != nil {
		return PanelResult{}, err
	}
	give, err := s.compliance()
	if err != nil {
		return PanelResult{}, err
	}
	r.Safety = math.Inf(1)
	for _, at := range field {
		if at.load == (Load{}) {
			continue
		}
		f, err := p.Skin.firstPly(give, at.load, c)
		if err != nil {
			return PanelResult{}, fmt.Errorf("panel: %w", err)
		}
		if f.Safety < r.Safety {
			r.Safety, r.Ply, r.BreakX, r.BreakY = f.Safety, f.Ply, at.x, at.y
		}
	}
	r.Warnings = append(r.Warnings, p.Skin.doubts()...)
	return r, nil
}

// A spot is a place on a panel with what happens there. Moments stretch the first
// ply where the panel sags: they are those of a laminate whose z points against
// the load.
type spot struct {
	x, y, deflection float64
	load             Load
}

func (p Panel) press(load PanelLoad) (PanelResult, []spot, error) {
	if err := cmp.Or(p.check(), p.checkLoad(load)); err != nil {
		return PanelResult{}, nil, fmt.Errorf("panel: %w", err)
	}
	s, err := p.Skin.Stiffness()
	if err != nil {
		return PanelResult{}, nil, err
	}
	b := s.bending()
	xs, ys := grid(p.Length, load.X, load.Force), grid(p.Width, load.Y, load.Force)
	var field []spot
	if p.Edges == Clamped {
		field, err = p.clamped(load, b, xs, ys)
	} else {
		field, err = p.navier(load, s, b, xs, ys)
	}
	if err != nil {
		return PanelResult{}, nil, fmt.Errorf("panel: %w", err)
	}
	r := p.result(field)
	r.Warnings = append(s.Warnings, p.warnings(r, s, b)...)
	return r, field, nil
}

// grid is places along a side: 41 evenly, and the middle of the force.
func grid(side, at, force float64) []float64 {
	var list []float64
	for i := range 41 {
		x, next := side*float64(i)/40, side*float64(i+1)/40
		list = append(list, x)
		if force != 0 && at > x && at < next {
			list = append(list, at)
		}
	}
	return list
}

func (p Panel) result(field []spot) PanelResult {
	var r PanelResult
	for _, at := range field {
		if math.Abs(at.deflection) > math.Abs(r.Deflection) {
			r.Deflection, r.X, r.Y = at.deflection, at.x, at.y
		}
		mx, my := -at.load.Mx, -at.load.My
		if math.Abs(mx) > math.Abs(r.MomentX) {
			r.MomentX = mx
		}
		if math.Abs(my) > math.Abs(r.MomentY) {
			r.MomentY = my
		}
		if at.x == p.Length*20/40 && at.y == p.Width*20/40 {
			r.CentreX, r.CentreY = mx, my
		}
	}
	r.OverThick = math.Abs(r.Deflection) / p.Skin.Thickness()
	return r
}

func (p Panel) warnings(r PanelResult, s Stiffness, b [6]float64) (list []string) {
	switch {
	case (p.RadiusX > 0 || p.RadiusY > 0) && r.OverThick > 1:
		list = append(list, fmt.Sprintf("the curved panel gives %.1f of its thickness: it may snap through; stiffen it", r.OverThick))
	case !p.curved() && r.OverThick > 0.5:
		list = append(list, fmt.Sprintf("the panel gives %.1f of its thickness: beyond 0.5 it carries as a membrane too, which is left out", r.OverThick))
	}
	if coupled := math.Max(math.Abs(b[2]), math.Abs(b[4])); p.Edges != Clamped && coupled > 0.02*math.Min(b[0], b[3]) {
		list = append(list, fmt.Sprintf("plies at an angle couple bending and twist by %.0f %% of the stiffness, which a supported panel leaves out", 100*coupled/math.Min(b[0], b[3])))
	}
	if thick := s.Thickness / math.Min(p.Length, p.Width); thick > 0.1 {
		list = append(list, fmt.Sprintf("the panel is %.2f of its shorter side thick: shear, which is left out, matters beyond 0.1", thick))
	}
	return list
}

// Posture is how a rider bears on a panel.
type Posture string

// The postures, with the share of the weight and the rectangle that bears it.
const (
	Standing Posture = "standing" // the whole weight on one heel, 60 by 60 mm
	Kneeling Posture = "kneeling" // the whole weight on one knee, 80 by 80 mm
	Sitting  Posture = "sitting"  // the whole weight on the seat, 300 mm along y by 200 mm along x
)

// RiderLoad is the load of a rider on a panel.
//
// The rider's mass is more than 0; the factor, 1 or more, is for what the ride does
// besides gravity, as the peak of the felt acceleration over g; x and y are where
// he bears. A posture that is not one of those here panics, as do numbers out of
// range.
//
// Source: areas by common practice, no source.
func RiderLoad(mass units.Mass, factor units.Number, posture Posture, x, y units.Length) PanelLoad {
	argument.Demand("laminate: RiderLoad", argument.Positive("mass", mass), argument.Within("factor", factor, 1, 100), argument.Finite("x", x), argument.Finite("y", y))
	l := PanelLoad{Force: mass * units.Gn * factor, X: x, Y: y}
	switch posture {
	case Standing:
		l.AlongX, l.AlongY = 60*units.Mm, 60*units.Mm
	case Kneeling:
		l.AlongX, l.AlongY = 80*units.Mm, 80*units.Mm
	case Sitting:
		l.AlongX, l.AlongY = 200*units.Mm, 300*units.Mm
	default:
		panic(fmt.Sprintf("laminate: RiderLoad: posture: got %q, want Standing, Kneeling or Sitting", posture))
	}
	return l
}
