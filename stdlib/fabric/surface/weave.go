package surface

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"

	"tautline/stdlib/internal/argument"
	"tautline/stdlib/units"
)

// A weave is a mesh in the making. Lines of points are laid first, then joined by
// strips of triangles.
type weave struct {
	Mesh
	strips int
}

// lay adds a point.
func (w *weave) lay(v vec) int {
	w.Points = append(w.Points, point(v))
	return len(w.Points) - 1
}

// line adds the points of f(0) to f(1) in equal steps.
func (w *weave) line(steps int, f func(s float64) vec) []int {
	out := make([]int, steps+1)
	for i := range out {
		out[i] = w.lay(f(float64(i) / float64(steps)))
	}
	return out
}

// loop is line whose end is its beginning.
func (w *weave) loop(steps int, f func(s float64) vec) []int {
	out := make([]int, steps+1)
	for i := range steps {
		out[i] = w.lay(f(float64(i) / float64(steps)))
	}
	out[steps] = out[0]
	return out
}

// part names the part of the strips that follow.
func (w *weave) part(name string) int {
	if p := slices.Index(w.Parts, name); p >= 0 {
		return p
	}
	w.Parts = append(w.Parts, name)
	return len(w.Parts) - 1
}

func (w *weave) seam(name string, points []int) {
	w.Seams = append(w.Seams, Seam{name, slices.Clone(points)})
}

// strip fills the space between two lines with triangles, whose outer side is
// the one from which left is on the left as both go up. Of the two ways on, it
// takes the shorter. Of equal ones it takes the same all along a strip, so that
// each point has as many triangles, and the other one in the next strip, so that the
// mesh leans to no side.
func (w *weave) strip(part int, left, right []int) {
	w.strips++
	at := func(p int) vec { return w.Points[p].vec() }
	i, j := 0, 0
	for i+1 < len(left) || j+1 < len(right) {
		up := j+1 == len(right)
		if i+1 < len(left) && j+1 < len(right) {
			l := at(left[i+1]).Minus(at(right[j])).Length()
			r := at(right[j+1]).Minus(at(left[i])).Length()
			up = l < r
			if math.Abs(l-r) <= 1e-9*(l+r) {
				up = w.strips%2 == 0
			}
		}
		t := Triangle{left[i], right[j], 0, part}
		if up {
			i++
			t.C = left[i]
		} else {
			j++
			t.C = right[j]
		}
		if t.A != t.B && t.B != t.C && t.C != t.A { // lines may begin or end in one point
			w.Triangles = append(w.Triangles, t)
		}
	}
}

// cloth joins each line to the next: the first on the left.
func (w *weave) cloth(part int, lines [][]int) {
	for i := 1; i < len(lines); i++ {
		w.strip(part, lines[i-1], lines[i])
	}
}

// disc fills a closed line with rings about a middle, its outer side the one
// from which the line runs counter-clockwise. at gives the point at a share of the
// way round and out.
func (w *weave) disc(part int, rim []int, at func(round, out float64) vec) {
	around := len(rim) - 1
	rings := max(1, int(math.Round(float64(around)/6)))
	outer := rim
	for k := rings - 1; k >= 0; k-- {
		inner := []int{0}
		if out := float64(k) / float64(rings); k > 0 {
			inner = w.loop(max(3, int(math.Round(float64(around)*out))), func(s float64) vec { return at(s, out) })
		} else {
			inner[0] = w.lay(at(0, 0))
		}
		w.strip(part, inner, outer)
		outer = inner
	}
}

// mesh hands the weave over.
func (w *weave) mesh(err error, what string) (Mesh, error) {
	if err == nil {
		err = w.Check()
	}
	if err != nil {
		article := "a"
		if strings.Contains("aeiou", what[:1]) {
			article = "an"
		}
		return Mesh{}, fmt.Errorf("mesh of %s %s: %w", article, what, err)
	}
	return w.Mesh, nil
}

// pieces is a count of pieces: the usual one for 0.
func pieces(what string, count *int, usual, least int) error {
	if *count == 0 {
		*count = usual
	}
	if *count < least || *count > 2000 {
		return fmt.Errorf("%s: got %d, want %d to 2000, or 0 for %d", what, *count, least, usual)
	}
	return nil
}

// panels is a count of panels: the usual one for 0.
func panels(what string, count *units.Number, usual, least float64) error {
	if *count == 0 {
		*count = usual
	}
	return cmp.Or(argument.Whole(what, *count), argument.Within(what, *count, least, 200))
}

// mirrored is a line the other way round.
func mirrored(line []int) []int {
	out := slices.Clone(line)
	slices.Reverse(out)
	return out
}

// numbered is a name with the number i counts from 0, in words from 1.
func numbered(name string, i int) string { return fmt.Sprintf("%s %d", name, i+1) }

// rename replaces names in pairs of old and new.
func rename(names []string, pairs ...string) {
	for i, n := range names {
		for k := 0; k < len(pairs); k += 2 {
			if n == pairs[k] {
				names[i] = pairs[k+1]
			}
		}
	}
}
