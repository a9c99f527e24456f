package polygon

import (
	"cmp"
	"math"
	"slices"
)

// Corner says how the outline goes round a corner when it is moved outwards.
type Corner int

// The corners.
const (
	Mitred  Corner = iota // straight on to the point where both sides meet, cut off where that is far away
	Rounded               // along a circle about the corner
)

// mitreLimit is how many widths a mitred corner may stand off before it is cut
// off: a corner of 29° and more keeps its point.
const mitreLimit = 4

// roundStep is the greatest turn of one side of a rounded corner; a corner that
// turns less keeps its point.
const roundStep = 5 * math.Pi / 180

// Offset moves each segment i of an anticlockwise loop outwards by width[i], or
// inwards where that is negative, and gives what is left: one loop as a rule,
// more where narrow parts close, none where everything does. The first is the
// largest; loops round holes are clockwise.
//
// The result is the edge of the set of points that the moved outline runs round,
// so that narrow inner corners are correct however many segments they swallow.
func (l Loop) Offset(width []float64, corner Corner) []Loop {
	raw := l.moved(width, corner)
	if crossings := raw.SelfCrossings(); len(crossings) > 0 {
		return raw.outer(crossings)
	}
	if raw.Area() <= 0 {
		return nil
	}
	return []Loop{raw}
}

// moved is the offset outline with the loops that it makes at inner corners.
// Passing through the corner itself there keeps what is run round correct.
func (l Loop) moved(width []float64, corner Corner) Loop {
	n := len(l)
	var raw Loop
	for i, v := range l {
		before, after := l[(i+n-1)%n], l[(i+1)%n]
		length0, length1 := before.Distance(v), v.Distance(after)
		e0, e1 := v.sub(before).times(1/length0), after.sub(v).times(1/length1)
		d0, d1 := width[(i+n-1)%n], width[i]
		p0, p1 := v.add(Point{e0.Y, -e0.X}.times(d0)), v.add(Point{e1.Y, -e1.X}.times(d1))
		m, ok := mitre(v, e0, e1, d0, d1)
		inner := e0.cross(e1)*(d0+d1) < 0
		switch {
		case !ok:
			raw = append(raw, p0, p1)
		case inner:
			if p0.sub(m).dot(e0) < length0/2 && m.sub(p1).dot(e1) < length1/2 {
				raw = append(raw, m)
			} else {
				raw = append(raw, p0, v, p1)
			}
		case corner == Rounded && d0 == d1 && e0.dot(e1) < math.Cos(roundStep):
			raw = append(raw, arc(v, p0, p1)...)
		case m.Distance(v) <= mitreLimit*max(math.Abs(d0), math.Abs(d1)):
			raw = append(raw, m)
		default:
			raw = append(raw, p0, p1)
		}
	}
	return raw.distinct()
}

// mitre is where two moved sides meet; there is none where they are parallel
// and moved by different widths, or fold back.
func mitre(v, e0, e1 Point, d0, d1 float64) (Point, bool) {
	n0, n1 := Point{e0.Y, -e0.X}, Point{e1.Y, -e1.X}
	if d0 == d1 {
		if k := 1 + n0.dot(n1); k > 1e-9 {
			return v.add(n0.add(n1).times(d0 / k)), true
		}
		return Point{}, false
	}
	turn := n0.cross(n1)
	if math.Abs(turn) < 1e-6 {
		return Point{}, false
	}
	return v.add(Point{d0*n1.Y - d1*n0.Y, d1*n0.X - d0*n1.X}.times(1 / turn)), true
}

// arc goes from p to q about centre, the way the outline turns.
func arc(centre, p, q Point) Loop {
	a, b := p.sub(centre), q.sub(centre)
	turn := math.Atan2(a.cross(b), a.dot(b))
	steps := int(math.Ceil(math.Abs(turn) / roundStep))
	points := Loop{}
	for k := range steps + 1 {
		sin, cos := math.Sincos(turn * float64(k) / float64(steps))
		points = append(points, centre.add(Point{a.X*cos - a.Y*sin, a.X*sin + a.Y*cos}))
	}
	return points
}

// distinct drops points that are next to the one before.
func (l Loop) distinct() Loop {
	var kept Loop
	tiny := 1e-12 * l.size()
	for _, p := range l {
		if len(kept) == 0 || p.Distance(kept[len(kept)-1]) > tiny {
			kept = append(kept, p)
		}
	}
	for len(kept) > 1 && kept[0].Distance(kept[len(kept)-1]) <= tiny {
		kept = kept[:len(kept)-1]
	}
	return kept
}

func (l Loop) size() float64 {
	low, high := l.Bounds()
	return low.Distance(high)
}

// outer cuts the loop at its crossings and joins what bounds the part that it
// runs round anticlockwise, the largest loop first.
func (l Loop) outer(crossings []Crossing) []Loop {
	pieces := l.cut(crossings)
	near := 1e-7 * l.size()
	from := map[Point][]int{}
	var kept [][2]Point
	for _, p := range pieces {
		along := p[1].sub(p[0])
		if along.dot(along) == 0 {
			continue
		}
		side := Point{-along.Y, along.X}.times(near / math.Hypot(along.X, along.Y))
		middle := p[0].toward(p[1], 0.5)
		if l.Winding(middle.add(side)) > 0 && l.Winding(middle.sub(side)) <= 0 {
			from[p[0]] = append(from[p[0]], len(kept))
			kept = append(kept, p)
		}
	}
	used := make([]bool, len(kept))
	var loops []Loop
	for first := range kept {
		if used[first] {
			continue
		}
		var loop Loop
		for k := first; k >= 0 && !used[k]; {
			used[k] = true
			loop = append(loop, kept[k][0])
			next := -1
			for _, c := range from[kept[k][1]] {
				if !used[c] {
					next = c
					break
				}
			}
			k = next
		}
		if loop = loop.distinct(); len(loop) > 2 {
			loops = append(loops, loop)
		}
	}
	for i := range loops {
		if loops[i].Area() > loops[0].Area() {
			loops[0], loops[i] = loops[i], loops[0]
		}
	}
	return loops
}

// cut gives the segments of the loop, split at its crossings. Both segments of
// a crossing get the same point.
func (l Loop) cut(crossings []Crossing) [][2]Point {
	at := make([][]Point, len(l))
	for _, c := range crossings {
		at[c.I] = append(at[c.I], c.At)
		at[c.J] = append(at[c.J], c.At)
	}
	var pieces [][2]Point
	for i := range l {
		a, b := l.segment(i)
		slices.SortFunc(at[i], func(p, q Point) int { return cmp.Compare(p.Distance(a), q.Distance(a)) })
		from := a
		for _, p := range at[i] {
			if p != from {
				pieces = append(pieces, [2]Point{from, p})
				from = p
			}
		}
		if from != b {
			pieces = append(pieces, [2]Point{from, b})
		}
	}
	return pieces
}
