// Package polygon is plane geometry of closed outlines: area, what lies inside,
// where an outline crosses itself, and the outline moved outwards or inwards.
//
//	square := polygon.Loop{{0, 0}, {1, 0}, {1, 1}, {0, 1}}
//	wider := square.Offset([]float64{0.1, 0.1, 0.1, 0.1}, polygon.Mitred)
//
// A Loop closes from its last point to its first. Anticlockwise loops have a
// positive area. Segment i runs from point i to the next.
package polygon

import (
	"cmp"
	"math"
	"slices"
)

// A Point of the plane.
type Point struct{ X, Y float64 }

func (p Point) add(q Point) Point               { return Point{p.X + q.X, p.Y + q.Y} }
func (p Point) sub(q Point) Point               { return Point{p.X - q.X, p.Y - q.Y} }
func (p Point) times(s float64) Point           { return Point{s * p.X, s * p.Y} }
func (p Point) dot(q Point) float64             { return p.X*q.X + p.Y*q.Y }
func (p Point) cross(q Point) float64           { return p.X*q.Y - p.Y*q.X }
func (p Point) Distance(q Point) float64        { return math.Hypot(p.X-q.X, p.Y-q.Y) }
func (p Point) toward(q Point, s float64) Point { return Point{p.X + s*(q.X-p.X), p.Y + s*(q.Y-p.Y)} }

// A Loop is a closed outline.
type Loop []Point

// segment gives the ends of segment i.
func (l Loop) segment(i int) (a, b Point) { return l[i], l[(i+1)%len(l)] }

// Area is positive for an anticlockwise loop.
func (l Loop) Area() float64 {
	twice := 0.0
	for i := range l {
		a, b := l.segment(i)
		twice += a.sub(l[0]).cross(b.sub(l[0]))
	}
	return twice / 2
}

// Length is the way round.
func (l Loop) Length() float64 {
	sum := 0.0
	for i := range l {
		a, b := l.segment(i)
		sum += a.Distance(b)
	}
	return sum
}

// Bounds are the corners of the upright rectangle round the loop.
func (l Loop) Bounds() (low, high Point) {
	low, high = l[0], l[0]
	for _, p := range l {
		low = Point{min(low.X, p.X), min(low.Y, p.Y)}
		high = Point{max(high.X, p.X), max(high.Y, p.Y)}
	}
	return low, high
}

// Winding is how often the loop runs anticlockwise round p.
func (l Loop) Winding(p Point) int {
	turns := 0
	for i := range l {
		a, b := l.segment(i)
		switch side := b.sub(a).cross(p.sub(a)); {
		case a.Y <= p.Y && b.Y > p.Y && side > 0:
			turns++
		case a.Y > p.Y && b.Y <= p.Y && side < 0:
			turns--
		}
	}
	return turns
}

// Contains reports whether p lies inside the loop, whichever way it runs.
func (l Loop) Contains(p Point) bool { return l.Winding(p) != 0 }

// A Crossing is where two segments meet that must not.
type Crossing struct {
	I, J int // segments, of the first and the second loop
	At   Point
}

// SelfCrossings lists where the loop touches or crosses itself, other than where
// one segment follows another.
func (l Loop) SelfCrossings() []Crossing {
	var found []Crossing
	sweep(l, l, func(i, j int) {
		n := len(l)
		if i >= j {
			return
		}
		a, b := l.segment(i)
		c, d := l.segment(j)
		switch {
		case j == i+1, i == 0 && j == n-1:
			if j != i+1 {
				a, b, d = c, d, b // the last segment comes before the first
			}
			back, on := a.sub(b), d.sub(b)
			if back.dot(on) > 0 && back.cross(on) == 0 {
				found = append(found, Crossing{i, j, b})
			}
		default:
			if at, ok := meet(a, b, c, d); ok {
				found = append(found, Crossing{i, j, at})
			}
		}
	})
	slices.SortFunc(found, func(a, b Crossing) int { return cmp.Or(a.I-b.I, a.J-b.J) })
	return found
}

// Crossings lists where two loops touch or cross.
func (l Loop) Crossings(other Loop) []Crossing {
	var found []Crossing
	sweep(l, other, func(i, j int) {
		a, b := l.segment(i)
		c, d := other.segment(j)
		if at, ok := meet(a, b, c, d); ok {
			found = append(found, Crossing{i, j, at})
		}
	})
	slices.SortFunc(found, func(a, b Crossing) int { return cmp.Or(a.I-b.I, a.J-b.J) })
	return found
}

// Inside reports whether the loop lies wholly inside the other one.
func (l Loop) Inside(other Loop) bool {
	return other.Contains(l[0]) && len(l.Crossings(other)) == 0
}

// meet gives a point that two closed segments have in common.
func meet(a, b, c, d Point) (Point, bool) {
	ab, cd, ac := b.sub(a), d.sub(c), c.sub(a)
	over := ab.cross(cd)
	if over == 0 {
		if ac.cross(ab) != 0 || ab.dot(ab) == 0 {
			return Point{}, false
		}
		s, t := ac.dot(ab)/ab.dot(ab), d.sub(a).dot(ab)/ab.dot(ab)
		low, high := max(0, min(s, t)), min(1, max(s, t))
		return a.toward(b, low), low <= high
	}
	s, t := ac.cross(cd)/over, ac.cross(ab)/over
	return a.toward(b, s), 0 <= s && s <= 1 && 0 <= t && t <= 1
}

// sweep calls do for each pair of segments, one of each loop, whose upright
// rectangles meet.
func sweep(l, m Loop, do func(i, j int)) {
	type span struct {
		low, high Point
		index     int
		second    bool
	}
	var spans []span
	add := func(loop Loop, second bool) {
		for i := range loop {
			a, b := loop.segment(i)
			spans = append(spans, span{Point{min(a.X, b.X), min(a.Y, b.Y)}, Point{max(a.X, b.X), max(a.Y, b.Y)}, i, second})
		}
	}
	add(l, false)
	add(m, true)
	slices.SortStableFunc(spans, func(a, b span) int { return cmp.Compare(a.low.X, b.low.X) })
	var active []span
	for _, s := range spans {
		kept := active[:0]
		for _, o := range active {
			if o.high.X < s.low.X {
				continue
			}
			kept = append(kept, o)
			if o.second == s.second || o.high.Y < s.low.Y || s.high.Y < o.low.Y {
				continue
			}
			if s.second {
				do(o.index, s.index)
			} else {
				do(s.index, o.index)
			}
		}
		active = append(kept, s)
	}
}

// Distance is how far a point lies from the loop's line.
func (l Loop) Distance(p Point) float64 {
	least := math.Inf(1)
	for i := range l {
		least = min(least, l.distanceTo(i, p))
	}
	return least
}

// Within reports whether a point lies within a distance of the loop's line. It
// looks first at segments about the share s of the loop's points.
func (l Loop) Within(p Point, distance, s float64) bool {
	first := int(s * float64(len(l)))
	for i := range l {
		if l.distanceTo((first+i)%len(l), p) <= distance {
			return true
		}
	}
	return false
}

// distanceTo is how far a point lies from segment i.
func (l Loop) distanceTo(i int, p Point) float64 {
	a, b := l.segment(i)
	ab := b.sub(a)
	if square := ab.dot(ab); square > 0 {
		a = a.toward(b, min(1, max(0, p.sub(a).dot(ab)/square)))
	}
	return p.Distance(a)
}

// Inner is a point inside the loop with much room round it: of a grid of points,
// the farthest from the line, and of like ones that near the middle.
func (l Loop) Inner() Point {
	const steps, middling = 24, 0.02
	low, high := l.Bounds()
	middle := low.toward(high, 0.5)
	best, room := l[0], math.Inf(-1)
	for i := range steps {
		for j := range steps {
			p := Point{low.X + (high.X-low.X)*(float64(i)+0.5)/steps, low.Y + (high.Y-low.Y)*(float64(j)+0.5)/steps}
			if d := l.Distance(p) - middling*p.Distance(middle); d > room && l.Contains(p) {
				best, room = p, d
			}
		}
	}
	return best
}
