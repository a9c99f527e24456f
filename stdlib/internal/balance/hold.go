package balance

import (
	"math"
	"slices"

	"tautline/stdlib/internal/ldl"
)

// A Hold keeps points where they are along some ways.
type Hold struct {
	Points []int
	Ways   []Vec
}

// A Span is the directions that some directions make up: up to three, square to one
// another.
type Span []Vec

// Rest is what of v lies outside.
func (s Span) Rest(v Vec) Vec {
	for range 2 { // once more for rounding
		for _, w := range s {
			v = v.Minus(w.Times(v.Dot(w)))
		}
	}
	return v
}

// With is the span with another direction, and whether that was outside.
func (s Span) With(way Vec) (Span, bool) {
	if rest := s.Rest(way); rest.Length() > 1e-6 {
		return append(slices.Clip(s), rest.Unit()), true
	}
	return s, false
}

// frame are three directions square to one another, those of the span first; held
// says how many.
func (s Span) frame() (axes [3]Vec, held int) {
	held = len(s)
	for d := range 3 {
		var way Vec
		way[d] = 1
		s, _ = s.With(way)
	}
	copy(axes[:], s)
	return axes, held
}

// square reports whether its directions are x, y or z.
func (s Span) square() bool {
	for _, way := range s {
		if math.Max(math.Abs(way[0]), math.Max(math.Abs(way[1]), math.Abs(way[2]))) != 1 {
			return false
		}
	}
	return true
}

// along is a vector by its parts in a frame, and back.
func along(axes [3]Vec, v Vec) Vec { return Vec{axes[0].Dot(v), axes[1].Dot(v), axes[2].Dot(v)} }

func back(axes [3]Vec, v Vec) Vec {
	return axes[0].Times(v[0]).Plus(axes[1].Times(v[1])).Plus(axes[2].Times(v[2]))
}

// hold sets the directions in which points are held: in those of x, y and z
// where that will do, or else in a frame of the point.
func (s *System) hold(holds []Hold) {
	spans := make([]Span, len(s.X))
	for _, g := range holds {
		for _, p := range g.Points {
			for _, way := range g.Ways {
				spans[p], _ = spans[p].With(way)
			}
		}
	}
	s.Held = spans
	s.frames = map[int][3]Vec{}
	for p, held := range spans {
		if len(held) == 0 || s.unknown[p][0] == 0 {
			continue
		}
		if held.square() {
			for _, way := range held {
				for d := range way {
					if way[d] != 0 {
						s.unknown[p][d] = 0
					}
				}
			}
			continue
		}
		axes, count := held.frame()
		s.frames[p] = axes
		for d := range count {
			s.unknown[p][d] = 0
		}
	}
}

// turn writes a block's rows and columns in the frames of its points.
func (s *System) turn(corners []int, b *ldl.Block) {
	n := 3 * len(corners)
	for c, p := range corners {
		axes, turned := s.frames[p]
		if !turned {
			continue
		}
		for k := range n {
			row := along(axes, Vec{b.Values[(3*c)*n+k], b.Values[(3*c+1)*n+k], b.Values[(3*c+2)*n+k]})
			for d := range 3 {
				b.Values[(3*c+d)*n+k] = row[d]
			}
		}
		for k := range n {
			row := along(axes, Vec(b.Values[k*n+3*c:k*n+3*c+3]))
			copy(b.Values[k*n+3*c:], row[:])
		}
	}
}
