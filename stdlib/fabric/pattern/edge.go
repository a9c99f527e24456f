package pattern

import (
	"math"
	"slices"

	"tautline/stdlib/internal/argument"
	"tautline/stdlib/internal/polygon"
	"tautline/stdlib/units"
)

// An Edge is one side of a piece from corner to corner, an opening in it, or a
// line marked on it.
type Edge struct {
	Name      string
	X, Y      []units.Length // points; an opening ends where it began
	Allowance units.Length   // fabric beyond the edge, 0 or more
	Hem       bool           // folded over along the edge and sewn to its own piece
	Only      units.Number   // of an opening: only so many copies of the piece have it; 0: all
}

// Length is the way along the edge.
//
// Source: sum of the straight parts.
func (e Edge) Length() units.Length {
	sum := 0.0
	for i := 1; i < len(e.X); i++ {
		sum += math.Hypot(e.X[i]-e.X[i-1], e.Y[i]-e.Y[i-1])
	}
	return sum
}

// at is the point at a distance along the edge, and the direction there.
func (e Edge) at(distance float64) (p, along polygon.Point) {
	for i := 1; i < len(e.X); i++ {
		dx, dy := e.X[i]-e.X[i-1], e.Y[i]-e.Y[i-1]
		step := math.Hypot(dx, dy)
		if step > 0 && (distance <= step || i == len(e.X)-1) {
			s := distance / step
			return polygon.Point{X: e.X[i-1] + s*dx, Y: e.Y[i-1] + s*dy}, polygon.Point{X: dx / step, Y: dy / step}
		}
		distance -= step
	}
	return polygon.Point{X: e.X[0], Y: e.Y[0]}, polygon.Point{X: 1}
}

func (e Edge) points() []polygon.Point {
	list := make([]polygon.Point, len(e.X))
	for i := range list {
		list[i] = polygon.Point{X: e.X[i], Y: e.Y[i]}
	}
	return list
}

func (e Edge) clone() Edge {
	e.X, e.Y = slices.Clone(e.X), slices.Clone(e.Y)
	return e
}

// loop is a closed edge as an anticlockwise outline.
func (e Edge) loop() polygon.Loop {
	loop := polygon.Loop(e.points())
	loop = loop[:len(loop)-1]
	if loop.Area() < 0 {
		slices.Reverse(loop)
	}
	return loop
}

// Line is a straight edge.
func Line(name string, x0, y0, x1, y1 units.Length) Edge {
	return Edge{Name: name, X: []units.Length{x0, x1}, Y: []units.Length{y0, y1}}
}

// Circle is a round opening or mark, anticlockwise, of a radius more than 0;
// outside it panics.
func Circle(name string, x, y, radius units.Length) Edge {
	argument.Demand("pattern: Circle", argument.Positive("radius", radius), argument.Finite("x", x), argument.Finite("y", y))
	return Trace(name, Turns(2*math.Pi), func(s float64) (float64, float64) {
		sin, cos := math.Sincos(2 * math.Pi * s)
		return x + radius*cos, y + radius*sin
	}).Closed()
}

// Slot is a straight opening with square ends about the point (x, y), such as
// the one for a zip. Its length and width are more than 0, and it is turned from
// the x axis by the angle; outside it panics.
func Slot(name string, x, y, length, width units.Length, angle units.Angle) Edge {
	argument.Demand("pattern: Slot", argument.Positive("length", length), argument.Positive("width", width),
		argument.Finite("x", x), argument.Finite("y", y), argument.Finite("angle", angle))
	sin, cos := math.Sincos(angle)
	e := Edge{Name: name}
	for _, c := range [][2]float64{{-1, -1}, {1, -1}, {1, 1}, {-1, 1}, {-1, -1}} {
		u, v := c[0]*length/2, c[1]*width/2
		e.X = append(e.X, x+u*cos-v*sin)
		e.Y = append(e.Y, y+u*sin+v*cos)
	}
	return e
}

// In is the edge as an opening in only so many copies of its piece.
func (e Edge) In(copies units.Number) Edge {
	e.Only = copies
	return e
}

// Turns is the number of straight parts for a curve that turns by the angle: one
// for each degree. Not for cells.
func Turns(angle float64) int {
	return max(1, int(math.Ceil(math.Abs(angle)*180/math.Pi-1e-9)))
}

// Trace draws a curve from s = 0 to 1 in so many straight parts. Not for cells.
func Trace(name string, parts int, at func(s float64) (x, y float64)) Edge {
	e := Edge{Name: name, X: make([]float64, parts+1), Y: make([]float64, parts+1)}
	for i := range parts + 1 {
		e.X[i], e.Y[i] = at(float64(i) / float64(parts))
	}
	return e
}

// Closed is the edge with its end made its beginning, exactly. Not for cells.
func (e Edge) Closed() Edge {
	n := len(e.X) - 1
	e.X[n], e.Y[n] = e.X[0], e.Y[0]
	return e
}
