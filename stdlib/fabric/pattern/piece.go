package pattern

import (
	"fmt"
	"math"
	"slices"

	"tautline/stdlib/internal/argument"
	"tautline/stdlib/internal/polygon"
	"tautline/stdlib/units"
)

// A Piece is one flat panel, seen from its outer face.
type Piece struct {
	Name     string
	Count    units.Number // copies to cut, 1 or more
	Edges    []Edge       // the seam line, anticlockwise
	Openings []Edge       // cut out within it: blower tube, zip, branch, air
	Lines    []Edge       // drawn on it: where a patch or a strap goes
	Drills   []Drill
	Notches  []Notch
	Grain    units.Angle // of the warp, anticlockwise from the x axis
	Across   bool        // may also lie with its warp across the roll
	OneWay   bool        // must not be turned end for end on the roll
	Rounded  bool        // the cut line goes round the corners, else straight on to a point
}

// A Drill is a hole to punch, such as that of a D-ring or an eyelet.
type Drill struct {
	Name     string
	X, Y     units.Length // its centre
	Diameter units.Length // more than 0
	Only     units.Number // only so many copies of the piece have it; 0: all
}

// A Notch is a mark on an edge that meets the mark of the same number on the
// edge it is sewn to.
type Notch struct {
	Edge   string
	At     units.Length // along the edge, from its beginning
	Number units.Number
}

// joint is how far apart the ends of two edges may lie and still be one corner.
const joint = 1e-6 // m

// Area is the fabric within the seam line, less the openings that all copies
// have.
//
// Source: geometry of a polygon.
func (p Piece) Area() units.Area {
	area := p.seamLine().Area()
	for _, o := range p.Openings {
		if o.Only == 0 {
			area -= o.loop().Area()
		}
	}
	return area
}

// Width is the piece's extent in x, within the seam line.
//
// Source: geometry.
func (p Piece) Width() units.Length {
	low, high := p.seamLine().Bounds()
	return high.X - low.X
}

// Height is the piece's extent in y, within the seam line.
//
// Source: geometry.
func (p Piece) Height() units.Length {
	low, high := p.seamLine().Bounds()
	return high.Y - low.Y
}

// Edge is the edge of a name, round the piece or of one of its openings.
func (p Piece) Edge(name string) (Edge, error) {
	for _, e := range slices.Concat(p.Edges, p.Openings) {
		if e.Name == name {
			return e, nil
		}
	}
	names := ""
	for i, e := range slices.Concat(p.Edges, p.Openings) {
		if i > 0 {
			names += ", "
		}
		names += e.Name
	}
	return Edge{}, fmt.Errorf("piece %s: edge: got %q, want one of: %s", p.Name, name, names)
}

// Check is nil for a piece that can be cut: edges that follow one another to a
// closed anticlockwise outline that does not cross itself, with openings and
// holes inside it and clear of one another.
func (p Piece) Check() error {
	for _, err := range []error{
		argument.Above("count", p.Count, 0), argument.Whole("count", p.Count), argument.Finite("grain", p.Grain),
		p.checkEdges(), p.checkOutline(), p.checkInside(),
	} {
		if err != nil {
			return fmt.Errorf("piece %s: %w", p.Name, err)
		}
	}
	return nil
}

func (p Piece) checkEdges() error {
	if len(p.Edges) == 0 {
		return fmt.Errorf("got no edges, want a closed outline")
	}
	seen := map[string]bool{}
	for i, e := range slices.Concat(p.Edges, p.Openings, p.Lines) {
		switch {
		case len(e.X) != len(e.Y) || len(e.X) < 2:
			return fmt.Errorf("edge %d %q: got %d x and %d y values, want the same count, 2 or more", i+1, e.Name, len(e.X), len(e.Y))
		case i < len(p.Edges)+len(p.Openings) && (e.Name == "" || seen[e.Name]):
			return fmt.Errorf("edge %d: got the name %q, want one of its own", i+1, e.Name)
		}
		seen[e.Name] = true
		for _, err := range []error{argument.NotNegative("allowance", e.Allowance), p.checkOnly(e.Only)} {
			if err != nil {
				return fmt.Errorf("edge %d %q: %w", i+1, e.Name, err)
			}
		}
		for k := range e.X {
			if v := e.X[k] + e.Y[k]; math.IsNaN(v) || math.IsInf(v, 0) {
				return fmt.Errorf("edge %d %q: point %d: got (%g, %g), want finite numbers", i+1, e.Name, k+1, e.X[k], e.Y[k])
			}
		}
	}
	for i, e := range p.Edges {
		next := p.Edges[(i+1)%len(p.Edges)]
		n := len(e.X) - 1
		if gap := math.Hypot(next.X[0]-e.X[n], next.Y[0]-e.Y[n]); gap > joint {
			return fmt.Errorf("edge %q begins %.3g mm from the end of edge %q: want a closed outline", next.Name, gap*1e3, e.Name)
		}
	}
	for _, e := range p.Openings {
		n := len(e.X) - 1
		if gap := math.Hypot(e.X[n]-e.X[0], e.Y[n]-e.Y[0]); gap > joint {
			return fmt.Errorf("opening %q ends %.3g mm from where it began: want a closed one", e.Name, gap*1e3)
		}
	}
	return nil
}

func (p Piece) checkOutline() error {
	line, owner := p.outline()
	if len(line) < 3 {
		return fmt.Errorf("got an outline of %d points, want 3 or more", len(line))
	}
	if x := line.SelfCrossings(); len(x) > 0 {
		return fmt.Errorf("outline meets itself at (%.1f, %.1f) mm, edge %q with edge %q: want one that does not cross itself",
			x[0].At.X*1e3, x[0].At.Y*1e3, p.Edges[owner[x[0].I]].Name, p.Edges[owner[x[0].J]].Name)
	}
	if area := line.Area(); area <= 0 {
		return fmt.Errorf("outline runs clockwise, round an area of %.4g m²: want it anticlockwise", area)
	}
	return nil
}

func (p Piece) checkInside() error {
	line := p.seamLine()
	for i, o := range p.Openings {
		loop := o.loop()
		if len(loop) < 3 || len(loop.SelfCrossings()) > 0 {
			return fmt.Errorf("opening %q: its outline crosses itself: want a simple one", o.Name)
		}
		if !loop.Inside(line) {
			return fmt.Errorf("opening %q: reaches over the seam line: want it inside the piece", o.Name)
		}
		for _, other := range p.Openings[:i] {
			if l := other.loop(); len(loop.Crossings(l)) > 0 || l.Contains(loop[0]) || loop.Contains(l[0]) {
				return fmt.Errorf("openings %q and %q lie over one another: want them apart", other.Name, o.Name)
			}
		}
	}
	for _, d := range p.Drills {
		for _, err := range []error{argument.Positive("diameter", d.Diameter), p.checkOnly(d.Only)} {
			if err != nil {
				return fmt.Errorf("hole %q: %w", d.Name, err)
			}
		}
		if !Circle(d.Name, d.X, d.Y, d.Diameter/2).loop().Inside(line) {
			return fmt.Errorf("hole %q at (%.1f, %.1f) mm: want it inside the piece", d.Name, d.X*1e3, d.Y*1e3)
		}
	}
	for _, n := range p.Notches {
		e, err := p.Edge(n.Edge)
		if err == nil {
			err = argument.Within("place on edge "+n.Edge, n.At, 0, e.Length()+joint)
		}
		if err != nil {
			return fmt.Errorf("notch %g: %w", n.Number, err)
		}
	}
	return nil
}

// checkOnly checks how many copies have something.
func (p Piece) checkOnly(copies float64) error {
	if err := argument.Whole("copies that have it", copies); err != nil {
		return err
	}
	return argument.Within("copies that have it", copies, 0, p.Count)
}

// outline is the seam line, and for each of its segments the edge that it is of.
// Points that make one corner are one.
func (p Piece) outline() (line polygon.Loop, owner []int) {
	for i, e := range p.Edges {
		for _, q := range e.points() {
			if n := len(line); n > 0 && q.Distance(line[n-1]) <= joint {
				owner[n-1] = i
				continue
			}
			line, owner = append(line, q), append(owner, i)
		}
	}
	if n := len(line) - 1; n > 0 && line[n].Distance(line[0]) <= joint {
		line, owner = line[:n], owner[:n]
	}
	return line, owner
}

func (p Piece) seamLine() polygon.Loop {
	line, _ := p.outline()
	return line
}

// clone is a piece that shares no list with the first.
func (p Piece) clone() Piece {
	for _, list := range []*[]Edge{&p.Edges, &p.Openings, &p.Lines} {
		*list = slices.Clone(*list)
		for i := range *list {
			(*list)[i] = (*list)[i].clone()
		}
	}
	p.Drills, p.Notches = slices.Clone(p.Drills), slices.Clone(p.Notches)
	return p
}

// Tick is where a notch stands on the seam line, the direction to the allowance
// there, and how wide that is. Not for cells.
func (p Piece) Tick(n Notch) (at, out polygon.Point, allowance float64, err error) {
	e, err := p.Edge(n.Edge)
	if err != nil {
		return at, out, 0, err
	}
	at, along := e.at(n.At)
	out = polygon.Point{X: along.Y, Y: -along.X}
	round := slices.ContainsFunc(p.Openings, func(o Edge) bool { return o.Name == n.Edge })
	if loop := polygon.Loop(e.points()); round && loop.Area() > 0 {
		out = polygon.Point{X: -out.X, Y: -out.Y} // the allowance lies in the opening
	}
	return at, out, e.Allowance, nil
}
