package meshfile

import (
	"encoding/binary"
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"tautline/stdlib/fabric/surface"
	"tautline/stdlib/internal/argument"
	"tautline/stdlib/internal/vector"
	"tautline/stdlib/units"
)

// ReadSTL reads a mesh from the text of an STL file, with words or binary. unit is
// the length of its number 1, since the file does not say. An STL file has no
// points, only facets: corners not farther apart than within become one point, and
// a facet that shrinks to a line by that is left out. Each solid is a part; one
// without a name, as in a binary file, is "surface".
//
// unit is more than 0, within 0 or more and much less than the shortest edge.
//
// Text that is not such a file or is cut off, a facet whose corners lie on a line,
// one whose normal points against the order of its corners, a point beyond 100 km
// and what surface.Mesh.Check finds are errors. A normal of length 0 is not looked at.
// Open loops are no error here: ask Closed, or for the Volume.
//
// Source: 3D Systems, Stereolithography Interface Specification (1988): ASCII and
// binary form, facets counter-clockwise seen from outside [from memory: verify
// against the document].
func ReadSTL(text string, unit, within units.Length) (surface.Mesh, error) {
	err := checkUnit("STL", unit)
	if err == nil {
		err = argument.NotNegative("within", within)
	}
	if err != nil {
		return surface.Mesh{}, err
	}
	s := soup{unit: unit, within: within}
	switch {
	case isBinary(text):
		err = s.readBinary(text)
	case strings.HasPrefix(strings.ToLower(strings.TrimLeft(text, " \t\r\n")), "solid"):
		err = s.readWords(text)
	default:
		err = fmt.Errorf(`got %d bytes that neither begin with "solid" nor have the length of a binary file, 84 and 50 for each facet%s`, len(text), s.counted(text))
	}
	if err != nil {
		return surface.Mesh{}, fmt.Errorf("STL: %w", err)
	}
	m := surface.Joined(within, s.Mesh)
	if err := m.Check(); err != nil {
		return surface.Mesh{}, fmt.Errorf("STL: %w", err)
	}
	return m, nil
}

// flat is the height of a facet over its longest side below which surface.Mesh.Check
// takes it for a line.
const flat = 1e-6

const (
	headBytes  = 84 // free text, then the count of facets
	facetBytes = 50
)

// isBinary reports whether a text is as long as its count of facets says. Binary
// files may begin with "solid" too.
func isBinary(text string) bool {
	return len(text) >= headBytes && len(text) == headBytes+facetBytes*facets(text)
}

func facets(text string) int {
	return int(binary.LittleEndian.Uint32([]byte(text[headBytes-4 : headBytes])))
}

// A soup is triangles that share no points yet.
type soup struct {
	surface.Mesh
	unit, within float64
	facets       int
}

// counted says for an error how many facets a binary file would have.
func (s *soup) counted(text string) string {
	if len(text) < headBytes {
		return ""
	}
	return fmt.Sprintf(", of which it would have %d", facets(text))
}

func (s *soup) readBinary(text string) error {
	count := facets(text)
	s.Points, s.Triangles = make([]surface.Point, 0, 3*count), make([]surface.Triangle, 0, count)
	for at := headBytes; at < len(text); at += facetBytes {
		var n [12]float64 // the normal and three corners
		for i := range n {
			n[i] = float64(math.Float32frombits(binary.LittleEndian.Uint32([]byte(text[at+4*i : at+4*i+4]))))
		}
		var corners [3]vector.Vector
		for i := range corners {
			corners[i] = vector.Vector(n[3*i+3 : 3*i+6])
		}
		if err := s.add("surface", vector.Vector(n[:3]), corners[:]); err != nil {
			return err
		}
	}
	return nil
}

// add puts a facet into the soup.
func (s *soup) add(part string, normal vector.Vector, corners []vector.Vector) error {
	s.facets++
	for i, c := range corners {
		corners[i] = c.Times(s.unit)
		if err := near(corners[i]); err != nil {
			return fmt.Errorf("facet %d: corner %d: %w", s.facets, i+1, err)
		}
	}
	a, b, c := corners[0], corners[1], corners[2]
	sides := []float64{b.Minus(a).Length(), c.Minus(b).Length(), a.Minus(c).Length()}
	if slices.Min(sides) <= s.within {
		return nil // becomes a line
	}
	up := b.Minus(a).Cross(c.Minus(a))
	longest := slices.Max(sides)
	slim := up.Length() / (longest * longest)
	if !(slim >= flat) {
		return fmt.Errorf("facet %d: its corners (%g, %g, %g), (%g, %g, %g) and (%g, %g, %g) m lie on a line: leave it out or move a corner",
			s.facets, a[0], a[1], a[2], b[0], b[1], b[2], c[0], c[1], c[2])
	}
	// Of a slimmer one the corners' rounding turns the normal.
	if n := normal.Unit(); slim > 1e-3 && n.Dot(up.Unit()) < -1e-3 {
		return fmt.Errorf("facet %d: its normal (%g, %g, %g) points against the order of its corners: turn one of them over where the file was made", s.facets, normal[0], normal[1], normal[2])
	}
	p := slices.Index(s.Parts, part)
	if p < 0 {
		p = len(s.Parts)
		s.Parts = append(s.Parts, part)
	}
	first := len(s.Points)
	for _, v := range corners {
		s.Points = append(s.Points, surface.Point{X: v[0], Y: v[1], Z: v[2]})
	}
	s.Triangles = append(s.Triangles, surface.Triangle{A: first, B: first + 1, C: first + 2, Part: p})
	return nil
}

// words is where the reader of a text stands.
type words struct {
	*soup
	line    int
	solid   bool
	part    string
	inside  string // "facet" or "loop"
	normal  vector.Vector
	corners []vector.Vector
}

func (s *soup) readWords(text string) error {
	w := words{soup: s}
	for line := range strings.Lines(text) {
		w.line++
		if f := strings.Fields(line); len(f) > 0 {
			if err := w.read(f); err != nil {
				return fmt.Errorf("line %d: %w", w.line, err)
			}
		}
	}
	if w.solid {
		return fmt.Errorf("line %d: the text ends inside solid %q: got %d facets and no endsolid: is the file cut off?", w.line, w.part, w.facets)
	}
	return nil
}

func (w *words) read(f []string) error {
	key := strings.ToLower(f[0])
	switch want := w.wanted(); {
	case !slices.Contains(strings.Split(want, ", "), key):
		return fmt.Errorf("got %q, want %s", f[0], want)
	case key == "solid":
		w.solid, w.part = true, strings.Join(f[1:], " ")
		if w.part == "" {
			w.part = "surface"
		}
	case key == "endsolid":
		w.solid = false
	case key == "facet":
		w.inside, w.corners = "facet", nil
		if len(f) < 2 || strings.ToLower(f[1]) != "normal" {
			return fmt.Errorf(`got %q, want "facet normal" and three numbers`, strings.Join(f, " "))
		}
		return numbers(&w.normal, f[2:], "normal")
	case key == "outer":
		w.inside = "loop"
	case key == "vertex":
		var v vector.Vector
		w.corners = append(w.corners, v)
		return numbers(&w.corners[len(w.corners)-1], f[1:], "vertex")
	case key == "endloop":
		w.inside = "facet"
	case key == "endfacet":
		w.inside = ""
		return w.add(w.part, w.normal, w.corners)
	}
	return nil
}

// wanted lists the words that may come next.
func (w *words) wanted() string {
	switch {
	case !w.solid:
		return "solid"
	case w.inside == "loop" && len(w.corners) < 3:
		return "vertex"
	case w.inside == "loop":
		return "endloop"
	case w.inside == "facet" && len(w.corners) == 0:
		return "outer"
	case w.inside == "facet":
		return "endfacet"
	}
	return "facet, endsolid"
}

func numbers(v *vector.Vector, fields []string, what string) error {
	if len(fields) != 3 {
		return fmt.Errorf("%s: got %d numbers, want 3", what, len(fields))
	}
	for i, f := range fields {
		x, err := strconv.ParseFloat(f, 64)
		if err != nil {
			return fmt.Errorf("%s: got %q, want a number", what, f)
		}
		v[i] = x
	}
	return nil
}
