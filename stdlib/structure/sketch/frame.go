// Package sketch draws frames: as they stand, with their loads, as they move, with
// their bending moments, and each member in the tone of how far it is used.
//
//	picture := sheet.NewDrawing("The frame under both riders")
//	sketch.Frame(picture, f, sketch.Skew)
//	sketch.Loads(picture, f, sketch.Skew, both.Alone())
//
// Everything is in projection and to scale; a View says from where. The legend names
// what is drawn.
package sketch

import (
	"fmt"
	"math"

	"tautline/stdlib/internal/vector"
	"tautline/stdlib/sheet"
	"tautline/stdlib/structure/frame"
	"tautline/stdlib/units"
)

// View is from where a frame is drawn.
type View string

// The views. Isometric shows x towards the lower left, y towards the lower right
// and z upwards, each in its true length, and hides what lies on a diagonal of a
// square plan; Skew looks along no such line: from the side of -y, turned by 25°
// towards x and 28° from above. The others leave one axis out.
const (
	Isometric View = "isometric"
	Skew      View = "skew"
	Plan      View = "plan"  // x to the right, y upwards
	Front     View = "front" // x to the right, z upwards
	Side      View = "side"  // y to the right, z upwards
)

// on is where a point comes to lie on the drawing.
func (v View) on(p vector.Vector) (x, y units.Length) {
	switch v {
	case Isometric:
		return (p[1] - p[0]) * math.Sqrt(3) / 2, p[2] - (p[0]+p[1])/2
	case Skew:
		sin, cos := math.Sincos(25 * units.Deg)
		rise, height := math.Sincos(28 * units.Deg)
		return p[0]*cos + p[1]*sin, (p[1]*cos-p[0]*sin)*rise + p[2]*height
	case Plan:
		return p[0], p[1]
	case Front:
		return p[0], p[2]
	case Side:
		return p[1], p[2]
	}
	panic(fmt.Sprintf("sketch: View: got %q, want Isometric, Skew, Plan, Front or Side", v))
}

// A path is a line on a drawing.
type path struct{ xs, ys []float64 }

func (v View) path(points ...vector.Vector) path {
	var l path
	for _, p := range points {
		x, y := v.on(p)
		l.xs, l.ys = append(l.xs, x), append(l.ys, y)
	}
	return l
}

// A drawn frame knows where its nodes and members are.
type drawn struct{ *frame.Frame }

func (f drawn) at(n frame.Node) vector.Vector {
	p := f.Nodes[n-1]
	return vector.Vector{p.X, p.Y, p.Z}
}

// ends are the positions of a member's ends, off their nodes or on them.
func (f drawn) ends(b frame.Beam) (from, to vector.Vector) {
	start, end := b.Start.Offset, b.End.Offset
	return f.at(b.From).Plus(vector.Vector{start.X, start.Y, start.Z}), f.at(b.To).Plus(vector.Vector{end.X, end.Y, end.Z})
}

func point(d frame.Direction) vector.Vector { return vector.Vector{d.X, d.Y, d.Z} }

// extent is the size of the frame, to which symbols are in proportion.
func (f drawn) extent() float64 {
	low, high := vector.Vector{math.Inf(1), math.Inf(1), math.Inf(1)}, vector.Vector{math.Inf(-1), math.Inf(-1), math.Inf(-1)}
	for i := range f.Nodes {
		for k, c := range f.at(frame.Node(i + 1)) {
			low[k], high[k] = math.Min(low[k], c), math.Max(high[k], c)
		}
	}
	return high.Minus(low).Length()
}

// Frame draws the frame: its members, named by their sections, its supports and
// the names of its nodes.
//
// A view that does not exist panics.
func Frame(d *sheet.Drawing, of *frame.Frame, v View) {
	f := drawn{of}
	for _, b := range f.Members {
		from, to := f.ends(b)
		l := v.path(f.at(b.From), from, to, f.at(b.To))
		name := b.Section.Name
		if name == "" {
			name = "members"
		}
		d.Line(name, l.xs, l.ys)
	}
	f.drawSupports(d, v)
	for i, p := range f.Nodes {
		if p.Name != "" {
			x, y := v.on(f.at(frame.Node(i + 1)))
			d.Mark(p.Name, x, y)
		}
	}
	f.drawAxes(d, v)
}

// drawSupports draws a symbol under each support: a block where it is fixed, else
// a triangle, which stands off the ground line where it may lift.
func (f drawn) drawSupports(d *sheet.Drawing, v View) {
	s := f.extent() / 40
	for _, support := range f.Supports {
		x, y := v.on(f.at(support.Node))
		if support.RX && support.RY && support.RZ && support.X && support.Y && support.Z {
			d.Outline([]float64{x - s, x + s, x + s, x - s}, []float64{y, y, y - s, y - s})
			continue
		}
		d.Outline([]float64{x - s, x, x + s}, []float64{y - s, y, y - s})
		if support.Lifts {
			d.Thin([]float64{x - 1.5*s, x + 1.5*s}, []float64{y - 1.3*s, y - 1.3*s})
		}
	}
}

// drawAxes draws the directions of the axes beside the frame.
func (f drawn) drawAxes(d *sheet.Drawing, v View) {
	low := vector.Vector{math.Inf(1), math.Inf(1), math.Inf(1)}
	left, bottom := math.Inf(1), math.Inf(1)
	for i := range f.Nodes {
		p := f.at(frame.Node(i + 1))
		x, y := v.on(p)
		left, bottom = math.Min(left, x), math.Min(bottom, y)
		for k := range p {
			low[k] = math.Min(low[k], p[k])
		}
	}
	size := f.extent() / 10
	for k, name := range [3]string{"x", "y", "z"} {
		var axis vector.Vector
		axis[k] = size
		dx, dy := v.on(axis)
		if math.Hypot(dx, dy) > 0 {
			d.Arrow("", left-size, bottom, left-size+dx, bottom+dy)
			d.Text(name, left-size+1.25*dx, bottom+1.25*dy)
		}
	}
}

// Loads draws the forces and line loads of a combination as arrows that end
// where they act, what meets at a node as one, the greatest an eighth of the frame
// long. Moments are written.
// What gravity and warmth bring is not drawn.
//
// A view that does not exist panics.
func Loads(d *sheet.Drawing, of *frame.Frame, v View, c frame.Combination) {
	f := drawn{of}
	if err := c.Check(*of); err != nil {
		panic(fmt.Sprintf("sketch: Loads: %v", err))
	}
	a := arrows{d: d, view: v, length: f.extent() / 8}
	sums := make([]frame.Load, len(f.Nodes))
	for _, t := range c.Terms {
		for _, l := range t.Case.Nodes {
			sums[l.Node-1] = added(sums[l.Node-1], l.Load, t.Factor)
		}
	}
	for i, l := range sums {
		a.load(f.at(frame.Node(i+1)), l, 1)
	}
	for _, t := range c.Terms {
		for _, l := range t.Case.Points {
			from, to := f.ends(f.Members[l.Member-1])
			a.load(from.Plus(to.Minus(from).Unit().Times(l.At)), l.Load, t.Factor)
		}
		for _, l := range t.Case.Lines {
			a.spread(f, l, t.Factor)
		}
	}
	a.draw()
}

func added(l, m frame.Load, factor float64) frame.Load {
	l.FX, l.FY, l.FZ = l.FX+factor*m.FX, l.FY+factor*m.FY, l.FZ+factor*m.FZ
	l.MX, l.MY, l.MZ = l.MX+factor*m.MX, l.MY+factor*m.MY, l.MZ+factor*m.MZ
	return l
}

// arrows collects what is to be drawn until the greatest is known.
type arrows struct {
	d      *sheet.Drawing
	view   View
	length float64
	forces []arrow
	lines  []arrow
}

type arrow struct {
	at, load vector.Vector
	label    string
}

func (a *arrows) load(at vector.Vector, l frame.Load, factor float64) {
	if force := (vector.Vector{l.FX, l.FY, l.FZ}).Times(factor); force.Length() > 0 {
		a.forces = append(a.forces, arrow{at, force, inThousands(force.Length(), "N")})
	}
	if moment := (vector.Vector{l.MX, l.MY, l.MZ}).Times(factor); moment.Length() > 0 {
		x, y := a.view.on(at)
		a.d.Text("moment "+inThousands(moment.Length(), "N·m")+" about "+moment.Words(), x, y)
	}
}

// spread draws a line load as a row of arrows, the middle one labelled.
func (a *arrows) spread(f drawn, l frame.Spread, factor float64) {
	from, to := f.ends(f.Members[l.Member-1])
	along := to.Minus(from)
	last := l.To
	if last == 0 {
		last = along.Length()
	}
	own, err := f.Axes(l.Member)
	const count = 6
	for k := range count + 1 {
		s := float64(k) / count
		q := vector.Vector{l.First.X + s*(l.Last.X-l.First.X), l.First.Y + s*(l.Last.Y-l.First.Y), l.First.Z + s*(l.Last.Z-l.First.Z)}.Times(factor)
		if l.First.Local && err == nil {
			q = point(own.X).Times(q[0]).Plus(point(own.Y).Times(q[1])).Plus(point(own.Z).Times(q[2]))
		}
		if q.Length() == 0 {
			continue
		}
		one := arrow{at: from.Plus(along.Unit().Times(l.From + s*(last-l.From))), load: q}
		if k == count/2 {
			one.label = inThousands(q.Length(), "N/m")
		}
		a.lines = append(a.lines, one)
	}
}

func (a *arrows) draw() {
	for _, group := range [][]arrow{a.forces, a.lines} {
		most := 0.0
		for _, one := range group {
			most = math.Max(most, one.load.Length())
		}
		for _, one := range group {
			x, y := a.view.on(one.at)
			dx, dy := a.view.on(one.load.Times(a.length / most))
			if math.Hypot(dx, dy) > a.length/100 {
				a.d.Arrow(one.label, x-dx, y-dy, x, y)
			}
		}
	}
}

// inThousands writes a number with three figures and its unit, from a thousand
// on in thousands.
func inThousands(v float64, unit string) string {
	if v >= 999.5 {
		return fmt.Sprintf("%.3g k%s", v/1e3, unit)
	}
	return fmt.Sprintf("%.3g %s", v, unit)
}

// Displaced draws the frame as it stands and, magnified, as the loads leave
// it. A magnification of 0 stands for a round one, 1, 2 or 5 times a power of
// ten: the greatest that shows the displacements as a twelfth of the frame or
// less, 1 when nothing moves. The one drawn is written beside it and given back.
//
// The result is of this frame; otherwise it panics, as it does for a view that
// does not exist.
//
// Source: as Frame.Solve.
func Displaced(d *sheet.Drawing, of *frame.Frame, v View, r frame.Result, magnification units.Number) units.Number {
	f := drawn{of}
	f.demandResult("Displaced", len(r.Members))
	lines := make([][]vector.Vector, len(f.Members))
	moves := make([][]vector.Vector, len(f.Members))
	for i, b := range f.Members {
		from, to := f.ends(b)
		for _, s := range r.Members[i].Stations {
			lines[i] = append(lines[i], from.Plus(to.Minus(from).Unit().Times(s.At)))
			moves[i] = append(moves[i], vector.Vector{s.DX, s.DY, s.DZ})
		}
	}
	return f.drawMoved(d, v, "displaced", lines, moves, magnification)
}

// Shape draws the frame as it stands and a shape in which it buckles or
// vibrates, its greatest movement a twelfth of the frame.
//
// The shape is of this frame; otherwise it panics, as it does for a view that
// does not exist.
func Shape(d *sheet.Drawing, of *frame.Frame, v View, s frame.Shape) {
	f := drawn{of}
	f.demandResult("Shape", len(s.Members))
	lines := make([][]vector.Vector, len(f.Members))
	moves := make([][]vector.Vector, len(f.Members))
	for i, b := range f.Members {
		from, to := f.ends(b)
		for k, m := range s.Members[i] {
			share := float64(k) / float64(len(s.Members[i])-1)
			lines[i] = append(lines[i], from.Plus(to.Minus(from).Times(share)))
			moves[i] = append(moves[i], vector.Vector{m.X, m.Y, m.Z})
		}
	}
	f.drawMoved(d, v, "shape", lines, moves, f.extent()/12)
}

func (f drawn) demandResult(call string, members int) {
	if members != len(f.Members) {
		panic(fmt.Sprintf("sketch: %s: members: got %d in the result, want %d as in the frame", call, members, len(f.Members)))
	}
}

func (f drawn) drawMoved(d *sheet.Drawing, v View, name string, lines, moves [][]vector.Vector, magnification float64) float64 {
	if magnification == 0 {
		most := 0.0
		for _, line := range moves {
			for _, m := range line {
				most = math.Max(most, m.Length())
			}
		}
		magnification = round125(f.extent() / 12 / most)
	}
	for i := range lines {
		l := v.path(lines[i]...)
		d.Thin(l.xs, l.ys)
		moved := make([]vector.Vector, len(lines[i]))
		for k, p := range lines[i] {
			moved[k] = p.Plus(moves[i][k].Times(magnification))
		}
		l = v.path(moved...)
		if name == "displaced" {
			d.Line(fmt.Sprintf("displaced, %g times", magnification), l.xs, l.ys)
		} else {
			d.Line(name, l.xs, l.ys)
		}
	}
	f.drawSupports(d, v)
	return magnification
}

// round125 is the greatest of … 0.5, 1, 2, 5, 10 … not above v, 1 for what has no
// such.
func round125(v float64) float64 {
	if !(v > 0) || math.IsInf(v, 1) {
		return 1
	}
	power := math.Pow(10, math.Floor(math.Log10(v)))
	for _, step := range []float64{5, 2} {
		if v >= step*power {
			return step * power
		}
	}
	return power
}

// Moments draws the bending moments of a result along the members, on the
// side that they pull, with the greatest of each kind written: in the plane of
// each member's own x and z, and of its x and y. The greatest is drawn as a
// tenth of the frame.
//
// The result is of this frame; otherwise it panics, as it does for a view that
// does not exist.
func Moments(d *sheet.Drawing, of *frame.Frame, v View, r frame.Result) {
	f := drawn{of}
	f.demandResult("Moments", len(r.Members))
	most := 0.0
	for _, m := range r.Members {
		s := m.Most()
		most = math.Max(most, math.Max(s.MY, s.MZ))
	}
	if most == 0 {
		most = 1
	}
	scale := f.extent() / 10 / most
	written := labels{}
	for i, b := range f.Members {
		from, to := f.ends(b)
		own, err := f.Axes(frame.Member(i + 1))
		if err != nil {
			panic(fmt.Sprintf("sketch: Moments: %v", err))
		}
		l := v.path(from, to)
		d.Thin(l.xs, l.ys)
		for _, kind := range []struct {
			name string
			side vector.Vector
			of   func(frame.Station) float64
		}{{"bending moment about y", point(own.Z), func(s frame.Station) float64 { return s.MY }}, {"bending moment about z", point(own.Y).Times(-1), func(s frame.Station) float64 { return s.MZ }}} {
			points := []vector.Vector{from}
			peak, at := 0.0, vector.Vector{}
			for _, s := range r.Members[i].Stations {
				p := from.Plus(point(own.X).Times(s.At)).Plus(kind.side.Times(scale * kind.of(s)))
				points = append(points, p)
				if m := math.Abs(kind.of(s)); m > peak {
					peak, at = m, p
				}
			}
			if peak < 0.02*most {
				continue
			}
			l := v.path(append(points, to)...)
			d.Area(kind.name, l.xs, l.ys)
			if label := inThousands(peak, "N·m"); peak > 0.3*most && !written.near(label, at, f.extent()/6) {
				x, y := v.on(at)
				d.Text(label, x, y)
			}
		}
	}
}

// labels are what is written, with its places: where members meet, one moment is
// written once.
type labels map[string][]vector.Vector

// near reports whether a label stands near a place already, and notes it if not.
func (l labels) near(label string, at vector.Vector, distance float64) bool {
	for _, other := range l[label] {
		if other.Minus(at).Length() < distance {
			return true
		}
	}
	l[label] = append(l[label], at)
	return false
}

// Used draws each member as a band with a thin edge, in the tone of a number, such
// as its utilisation, on a scale from 0 to high under a name.
//
// There are as many numbers as members, finite; high is more than 0; otherwise it
// panics, as it does for a view that does not exist.
func Used(d *sheet.Drawing, of *frame.Frame, v View, name string, values []units.Number, high units.Number) {
	f := drawn{of}
	f.demandResult("Used", len(values))
	d.Scale(name, 0, high)
	half := f.extent() / 150
	for i, b := range f.Members {
		from, to := f.ends(b)
		l := v.path(from, to)
		dx, dy := l.xs[1]-l.xs[0], l.ys[1]-l.ys[0]
		long := math.Hypot(dx, dy)
		if long == 0 {
			dx, dy, long = half, 0, half // seen from its end
		}
		ex, ey := -dy/long*half, dx/long*half
		xs := []float64{l.xs[0] + ex, l.xs[1] + ex, l.xs[1] - ex, l.xs[0] - ex}
		ys := []float64{l.ys[0] + ey, l.ys[1] + ey, l.ys[1] - ey, l.ys[0] - ey}
		d.Shade(xs, ys, values[i])
		d.Thin(append(xs, xs[0]), append(ys, ys[0])) // the palest tones fade on grey paper
	}
	f.drawSupports(d, v)
}

// Sections draws the sections of the frame's members side by side, each name
// below.
func Sections(d *sheet.Drawing, of *frame.Frame) {
	f := drawn{of}
	x := 0.0
	seen := map[string]bool{}
	for _, b := range f.Members {
		s := b.Section
		if seen[s.Name] || s.Shape == "" {
			continue
		}
		seen[s.Name] = true
		x += s.Left
		s.DrawAt(d, x, 0)
		x += s.Width - s.Left + math.Max(s.Width, s.Height)
	}
}
