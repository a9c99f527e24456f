package pattern

import (
	"fmt"
	"math"
	"slices"

	"tautline/stdlib/internal/argument"
	"tautline/stdlib/internal/polygon"
	"tautline/stdlib/units"
)

// Split cuts a piece in two along the straight line through (x, y) at an angle
// from its x axis, and joins the halves by a seam. What lies to the left of the
// line is called a, the rest b; seams that joined an edge which the line cuts join
// its two parts in a row.
//
// It is an error if the line does not cut the outline in just two places, on two
// edges; if it cuts an opening or a hole; and if the piece has notches, which come
// after.
func (p Pattern) Split(piece string, x, y units.Length, angle units.Angle, ease units.Number) (Pattern, error) {
	whole, err := p.Piece(piece)
	for _, e := range []error{argument.Finite("x", x), argument.Finite("y", y), argument.Finite("angle", angle), argument.NotNegative("ease", ease)} {
		if err == nil {
			err = e
		}
	}
	var left, right Piece
	var cut map[string]bool
	if err == nil {
		left, right, cut, err = whole.halves(knife{polygon.Point{X: x, Y: y}, angle})
	}
	if err != nil {
		return p, fmt.Errorf("split of piece %s: %w", piece, err)
	}
	at := slices.IndexFunc(p.Pieces, func(q Piece) bool { return q.Name == piece })
	p.Pieces = slices.Concat(p.Pieces[:at], []Piece{left, right}, p.Pieces[at+1:])
	p.Seams = slices.Clone(p.Seams)
	for i := range p.Seams {
		p.Seams[i].Sides = slices.Clone(p.Seams[i].Sides)
		for k := range p.Seams[i].Sides {
			side := &p.Seams[i].Sides[k]
			side.Edges = splitRefs(side.Edges, whole, left, right, cut)
		}
	}
	seam := Sew(piece+" split", left.Name+"/"+piece+" split", right.Name+"/"+piece+" split", ease)
	seam.Count = whole.Count
	p.Seams = append(p.Seams, seam)
	return p, p.Check()
}

// splitRefs replaces references to edges of the piece by those of its halves. An
// edge that was cut becomes two, in the order along it: cut says whether it
// begins on the left.
func splitRefs(refs []string, whole, left, right Piece, cut map[string]bool) []string {
	var out []string
	for _, ref := range refs {
		edge, ok := refersTo(ref, whole.Name)
		beginsLeft, isCut := cut[edge]
		_, err := left.Edge(edge)
		switch {
		case !ok:
			out = append(out, ref)
		case isCut && beginsLeft:
			out = append(out, left.Name+"/"+edge, right.Name+"/"+edge)
		case isCut:
			out = append(out, right.Name+"/"+edge, left.Name+"/"+edge)
		case err == nil:
			out = append(out, left.Name+"/"+edge)
		default:
			out = append(out, right.Name+"/"+edge)
		}
	}
	return out
}

func refersTo(ref, piece string) (edge string, ok bool) {
	n := len(piece)
	if len(ref) > n && ref[:n] == piece && ref[n] == '/' {
		return ref[n+1:], true
	}
	return "", false
}

// A knife is the line of a split.
type knife struct {
	at    polygon.Point
	angle float64
}

// side is the distance of a point to the left of the line.
func (k knife) side(x, y float64) float64 {
	sin, cos := sincos(k.angle)
	return (y-k.at.Y)*cos - (x-k.at.X)*sin
}

// sincos is exact at quarter turns, where a grain or a split runs along an axis.
func sincos(angle float64) (sin, cos float64) {
	sin, cos = math.Sincos(angle)
	if math.Abs(sin) < 1e-15 {
		sin = 0
	}
	if math.Abs(cos) < 1e-15 {
		cos = 0
	}
	return sin, cos
}

// halves cuts the piece. Cut names each edge that was cut, and whether it begins
// on the left.
func (p Piece) halves(k knife) (left, right Piece, cut map[string]bool, err error) {
	if len(p.Notches) > 0 {
		return left, right, nil, fmt.Errorf("got notches, want none yet: notch what has its final size")
	}
	left, right = p, p
	left.Name, right.Name = p.Name+" a", p.Name+" b"
	for _, half := range []*Piece{&left, &right} {
		half.Edges, half.Openings, half.Lines, half.Drills = nil, nil, nil, nil
	}
	cut = map[string]bool{}
	for _, e := range p.Edges {
		parts, sides := k.cut(e)
		switch len(parts) {
		case 1:
		case 2:
			cut[e.Name] = sides[0]
		default:
			return left, right, nil, fmt.Errorf("the line cuts edge %q %d times, want once at most", e.Name, len(parts)-1)
		}
		for i, part := range parts {
			if sides[i] {
				left.Edges = append(left.Edges, part)
			} else {
				right.Edges = append(right.Edges, part)
			}
		}
	}
	if len(left.Edges) == 0 || len(right.Edges) == 0 {
		return left, right, nil, fmt.Errorf("the line does not meet the piece")
	}
	for _, half := range []*Piece{&left, &right} {
		if err := half.closeSplit(p.Name + " split"); err != nil {
			return left, right, nil, err
		}
	}
	return left, right, cut, k.share(p, &left, &right)
}

// cut divides an edge at the line: the parts, and which lie to the left.
func (k knife) cut(e Edge) (parts []Edge, left []bool) {
	part := Edge{Name: e.Name, Allowance: e.Allowance, Hem: e.Hem}
	current, known := false, false
	end := func() {
		parts, left = append(parts, part), append(left, current)
		part.X, part.Y = nil, nil
	}
	for i := range e.X {
		x, y := e.X[i], e.Y[i]
		s := k.side(x, y)
		if math.Abs(s) > joint {
			if known && (s > 0) != current {
				if prior := k.side(e.X[i-1], e.Y[i-1]); math.Abs(prior) > joint {
					t := prior / (prior - s)
					part.X, part.Y = append(part.X, e.X[i-1]+t*(x-e.X[i-1])), append(part.Y, e.Y[i-1]+t*(y-e.Y[i-1]))
				}
				lastX, lastY := part.X[len(part.X)-1], part.Y[len(part.Y)-1]
				end()
				part.X, part.Y = append(part.X, lastX), append(part.Y, lastY)
			}
			current, known = s > 0, true
		}
		part.X, part.Y = append(part.X, x), append(part.Y, y)
	}
	end()
	return parts, left
}

// closeSplit turns the edges so that they run on from the cut, and adds that.
func (p *Piece) closeSplit(name string) error {
	var gaps []int
	for i, e := range p.Edges {
		next := p.Edges[(i+1)%len(p.Edges)]
		n := len(e.X) - 1
		if math.Hypot(next.X[0]-e.X[n], next.Y[0]-e.Y[n]) > joint {
			gaps = append(gaps, i)
		}
	}
	if len(gaps) != 1 {
		return fmt.Errorf("the line cuts the outline in %d places, want 2", 2*len(gaps))
	}
	at := gaps[0]
	p.Edges = slices.Concat(p.Edges[at+1:], p.Edges[:at+1])
	last, first := p.Edges[len(p.Edges)-1], p.Edges[0]
	n := len(last.X) - 1
	p.Edges = append(p.Edges, Line(name, last.X[n], last.Y[n], first.X[0], first.Y[0]))
	return nil
}

// share gives openings, lines and holes to the half that they lie in.
func (k knife) share(whole Piece, left, right *Piece) error {
	for _, o := range whole.Openings {
		parts, sides := k.cut(o)
		if len(parts) > 1 {
			return fmt.Errorf("the line cuts opening %q: want it clear", o.Name)
		}
		half := right
		if sides[0] {
			half = left
		}
		half.Openings = append(half.Openings, o)
	}
	for _, l := range whole.Lines {
		parts, sides := k.cut(l)
		for i, part := range parts {
			half := right
			if sides[i] {
				half = left
			}
			half.Lines = append(half.Lines, part)
		}
	}
	for _, d := range whole.Drills {
		s := k.side(d.X, d.Y)
		switch {
		case math.Abs(s) < d.Diameter/2:
			return fmt.Errorf("the line cuts hole %q: want it clear", d.Name)
		case s > 0:
			left.Drills = append(left.Drills, d)
		default:
			right.Drills = append(right.Drills, d)
		}
	}
	return nil
}
