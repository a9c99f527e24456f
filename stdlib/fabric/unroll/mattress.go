package unroll

import (
	"fmt"
	"math"

	"tautline/stdlib/fabric"
	"tautline/stdlib/fabric/pattern"
	"tautline/stdlib/internal/argument"
	"tautline/stdlib/units"
)

// A RoundMattress is a flat round bed of upright baffles under lobes, inside an
// upright wall. The lobes are round between the baffles as fabric.Mattress has
// them and are cut off by the wall, so every piece unrolls exactly.
//
// Seen from above, x runs across the baffles and y along them. Bays count from
// the least x, the wall's front half is that of negative y.
type RoundMattress struct {
	Radius  units.Length // of the wall, more than 0
	Height  units.Length // of the baffles, more than 0
	Pitch   units.Length // from baffle to baffle, more than 0
	Passage units.Length // by which the ends of a baffle are hollowed for air, 0 or more
}

func (m RoundMattress) check() error {
	for _, err := range []error{
		argument.Positive("radius", m.Radius), argument.Positive("height", m.Height),
		argument.Positive("pitch", m.Pitch), argument.NotNegative("passage", m.Passage),
	} {
		if err != nil {
			return err
		}
	}
	n := math.Ceil(2*m.Radius/m.Pitch - 1e-9)
	if n < 2 || n > 200 {
		return fmt.Errorf("pitch: got %g m in a bed %g m wide, want 2 to 200 bays", m.Pitch, 2*m.Radius)
	}
	// The outermost baffle is the shortest.
	if shortest := 2 * m.chord((n/2-1)*m.Pitch); shortest <= 2*m.Passage {
		return fmt.Errorf("passage: got %g m at both ends of a baffle %g m long, want less than half of it", m.Passage, shortest)
	}
	return nil
}

// Bays is the number of lobes across the bed, those at the two sides cut off by
// the wall.
//
//	n = ceil(2*m.Radius/m.Pitch)
//
// It panics if a field is out of its range.
//
// Source: geometry.
func (m RoundMattress) Bays() units.Number {
	argument.Demand("unroll: RoundMattress.Bays", m.check())
	return math.Ceil(2*m.Radius/m.Pitch - 1e-9)
}

// BaffleLength is the length of a baffle, counted from 1 to one less than the
// bays.
//
// It panics if a field is out of its range or there is no such baffle.
//
// Source: chord of a circle.
func (m RoundMattress) BaffleLength(baffle units.Number) units.Length {
	n := m.Bays()
	argument.Demand("unroll: RoundMattress.BaffleLength", argument.Whole("baffle", baffle), argument.Within("baffle", baffle, 1, n-1))
	return 2 * m.chord((baffle-n/2)*m.Pitch)
}

// chord is half the bed's length along y at x.
func (m RoundMattress) chord(x float64) float64 {
	return math.Sqrt(max(0, (m.Radius-x)*(m.Radius+x)))
}

// lobe is the radius of the bulges, about the middle of the bed's height.
func (m RoundMattress) lobe() float64 {
	return fabric.Mattress{Pitch: m.Pitch, Height: m.Height}.LobeRadius()
}

// A bay is where one lobe meets the front half of the wall.
type bay struct {
	middle   float64 // of the lobe, in x
	from, to float64 // angles round the wall, from the middle of its half
	parts    int     // straight parts that the meeting curve is drawn in
}

func (m RoundMattress) bay(number int) bay {
	reach := func(x float64) float64 { return math.Asin(min(1, max(-1, x/m.Radius))) }
	middle := (float64(number) - (m.Bays()+1)/2) * m.Pitch
	b := bay{middle: middle, from: reach(middle - m.Pitch/2), to: reach(middle + m.Pitch/2)}
	roll := func(angle float64) float64 { return math.Asin((m.Radius*math.Sin(angle) - middle) / m.lobe()) }
	b.parts = pattern.Turns(b.to - b.from + roll(b.to) - roll(b.from)) // both surfaces turn along the curve
	return b
}

// pattern.Pattern is the mattress's pieces and seams: lobes (each cut twice, for top and
// bottom), baffles, and the wall in a front and a back half.
//
// A lobe has the edges front and back on the wall and left and right on the
// baffles; its warp runs along the baffles. A baffle has bottom and top, and two
// free ends; its warp runs along it. The wall's edges over the bays are top 1,
// bottom 1 and so on; its warp runs round the bed.
//
// Fields out of their ranges are an error.
//
// Caution: the wall is drawn as it stands against a ring round the bed. Without
// one it bulges, and the outer lobes pull it in.
//
// Source: intersection of the lobes' cylinders with the wall's, unrolled, derived
// here; radius of the lobes as fabric.Mattress.
func (m RoundMattress) Pattern(name string, ease units.Number) (pattern.Pattern, error) {
	if err := m.check(); err != nil {
		return pattern.Pattern{}, fmt.Errorf("mattress %s: %w", name, err)
	}
	n := int(m.Bays())
	var p pattern.Pattern
	call := func(what string, number int) string { return fmt.Sprintf("%s %s %d", name, what, number) }
	front, back := name+" wall front", name+" wall back"
	for k := 1; k <= n; k++ {
		lobe := call("lobe", k)
		p.Pieces = append(p.Pieces, m.lobePiece(lobe, k))
		// A bottom lobe is turned over about the x axis, so that its back edge lies in
		// front; and seen from outside, the back half of the wall runs the other way.
		for _, s := range []struct {
			edge, half, level string
			at                int
		}{
			{"front", front, "top", k}, {"back", front, "bottom", k},
			{"back", back, "top", n + 1 - k}, {"front", back, "bottom", n + 1 - k},
		} {
			p.Seams = append(p.Seams, pattern.Sew(fmt.Sprintf("%s on %s, %s", lobe, s.half, s.level),
				lobe+"/"+s.edge, fmt.Sprintf("%s/%s %d", s.half, s.level, s.at), ease))
		}
	}
	for k := 1; k < n; k++ {
		baffle := call("baffle", k)
		p.Pieces = append(p.Pieces, m.bafflePiece(baffle, k))
		for _, level := range []string{"top", "bottom"} {
			s := pattern.Sew(baffle+" "+level, call("lobe", k)+"/right", call("lobe", k+1)+"/left", ease)
			s.Sides = append(s.Sides, pattern.Side{Edges: []string{baffle + "/" + level}, Reversed: true})
			s.Inner = true
			p.Seams = append(p.Seams, s)
		}
	}
	p.Pieces = append(p.Pieces, m.wallPiece(front), m.wallPiece(back))
	p.Seams = append(p.Seams, pattern.Sew(name+" wall right", front+"/right", back+"/left", ease), pattern.Sew(name+" wall left", back+"/right", front+"/left", ease))
	return p, p.Check()
}

// lobePiece unrolls the lobe of a bay. Its curved edges have points where those
// of the wall have them.
func (m RoundMattress) lobePiece(name string, number int) pattern.Piece {
	b, radius := m.bay(number), m.lobe()
	curve := func(name string, from, to, sign float64) pattern.Edge {
		return pattern.Trace(name, b.parts, func(s float64) (x, y float64) {
			sin, cos := math.Sincos(from*(1-s) + to*s)
			return radius * math.Asin((m.Radius*sin-b.middle)/radius), sign * m.Radius * cos
		})
	}
	front, back := curve("front", b.from, b.to, -1), curve("back", b.to, b.from, 1)
	n := b.parts
	p := pattern.Piece{Name: name, Count: 2, Grain: 90 * units.Deg, Edges: []pattern.Edge{front}}
	if b.to < math.Pi/2 {
		p.Edges = append(p.Edges, pattern.Line("right", front.X[n], front.Y[n], back.X[0], back.Y[0]))
	}
	p.Edges = append(p.Edges, back)
	if b.from > -math.Pi/2 {
		p.Edges = append(p.Edges, pattern.Line("left", back.X[n], back.Y[n], front.X[0], front.Y[0]))
	}
	return p
}

// bafflePiece is a rectangle, its ends hollowed to a circle's arc.
func (m RoundMattress) bafflePiece(name string, baffle int) pattern.Piece {
	x, y := m.BaffleLength(float64(baffle))/2, m.Height/2
	end := func(name string, side float64) pattern.Edge {
		if m.Passage == 0 {
			return pattern.Line(name, side*x, -side*y, side*x, side*y)
		}
		// An arc of rise Passage over the chord Height.
		half := 2 * math.Atan(m.Passage/y)
		radius := y / math.Sin(half)
		return pattern.Trace(name, pattern.Turns(2*half), func(s float64) (float64, float64) {
			a := half * (2*s - 1)
			return side * (x - radius*(math.Cos(a)-math.Cos(half))), side * radius * math.Sin(a)
		})
	}
	return pattern.Piece{Name: name, Count: 1, Edges: []pattern.Edge{
		pattern.Line("bottom", -x, -y, x, -y), end("right", 1), pattern.Line("top", x, y, -x, y), end("left", -1),
	}}
}

// wallPiece is half of the wall, unrolled, as high everywhere as the lobes are.
func (m RoundMattress) wallPiece(name string) pattern.Piece {
	n := int(m.Bays())
	edge := func(level string, number int, sign float64) pattern.Edge {
		b := m.bay(number)
		if sign > 0 { // the top runs backwards
			b.from, b.to = b.to, b.from
		}
		return pattern.Trace(fmt.Sprintf("%s %d", level, number), b.parts, func(s float64) (x, y float64) {
			angle := b.from*(1-s) + b.to*s
			across := m.Radius*math.Sin(angle) - b.middle
			return m.Radius * angle, sign * math.Sqrt((m.lobe()-across)*(m.lobe()+across))
		})
	}
	p := pattern.Piece{Name: name, Count: 1}
	for k := 1; k <= n; k++ {
		p.Edges = append(p.Edges, edge("bottom", k, -1))
	}
	last := p.Edges[n-1]
	x, y := last.X[len(last.X)-1], last.Y[len(last.Y)-1]
	p.Edges = append(p.Edges, pattern.Line("right", x, y, x, -y))
	for k := n; k >= 1; k-- {
		p.Edges = append(p.Edges, edge("top", k, 1))
	}
	p.Edges = append(p.Edges, pattern.Line("left", -x, -y, -x, y))
	return p
}
