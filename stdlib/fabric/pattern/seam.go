package pattern

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"tautline/stdlib/internal/argument"
	"tautline/stdlib/units"
)

// A Seam joins two edges, or three and more where a baffle meets a panel.
type Seam struct {
	Name  string
	Sides []Side
	Count units.Number // times it is sewn, once for each copy of its pieces; 1 or more
	Ease  units.Number // by how much the longest side may be longer than the shortest, as a share of it
	Inner bool         // lies inside the finished body, out of reach once that is closed
}

// A Side is what one piece, or several in a row, bring to a seam.
type Side struct {
	Edges    []string // each as piece/edge, in the order of sewing
	Reversed bool     // sewn from the end of the last edge to the beginning of the first
}

// Sew is a seam of one edge to another, each given as piece/edge. Both pieces
// seen from their outer face, the second edge runs against the first. It is sewn
// once, inside reach; the ease is 0 or more, otherwise it panics.
func Sew(name, first, second string, ease units.Number) Seam {
	argument.Demand("pattern: Sew", argument.NotNegative("ease", ease))
	return Seam{Name: name, Count: 1, Ease: ease, Sides: []Side{{Edges: []string{first}}, {Edges: []string{second}, Reversed: true}}}
}

// A Match is how well the sides of a seam agree.
type Match struct {
	Seam       string
	Sides      []string       // what each side is made of
	Lengths    []units.Length // of each side
	Shortest   units.Length
	Longest    units.Length
	Difference units.Length // longest less shortest
	Share      units.Number // difference over shortest
	Ease       units.Number // what the seam allows of that
	Holds      bool
}

// Match compares the sides of every seam, in their order. A seam that names a
// piece or an edge which is not there is an error, as is an ease below 0 and
// fewer than two sides.
//
// Source: lengths of the seam lines.
func (p Pattern) Match() ([]Match, error) {
	matches := make([]Match, 0, len(p.Seams))
	for _, s := range p.Seams {
		m, err := p.match(s)
		if err != nil {
			return nil, fmt.Errorf("seam %s: %w", s.Name, err)
		}
		matches = append(matches, m)
	}
	return matches, nil
}

func (p Pattern) match(s Seam) (Match, error) {
	if len(s.Sides) < 2 {
		return Match{}, fmt.Errorf("got %d sides, want 2 or more", len(s.Sides))
	}
	for _, err := range []error{
		argument.NotNegative("ease", s.Ease), argument.Above("count", s.Count, 0), argument.Whole("count", s.Count),
	} {
		if err != nil {
			return Match{}, err
		}
	}
	m := Match{Seam: s.Name, Ease: s.Ease, Shortest: math.Inf(1)}
	for _, side := range s.Sides {
		edges, err := p.edges(side)
		if err != nil {
			return Match{}, err
		}
		length := 0.0
		for _, e := range edges {
			length += e.Length()
		}
		m.Sides = append(m.Sides, strings.Join(side.Edges, " + "))
		m.Lengths = append(m.Lengths, length)
		m.Shortest, m.Longest = min(m.Shortest, length), max(m.Longest, length)
	}
	if m.Shortest == 0 {
		return Match{}, fmt.Errorf("got an edge of no length, want one to sew")
	}
	if m.Difference = m.Longest - m.Shortest; m.Difference < 1e-12*m.Longest {
		m.Difference = 0 // rounding
	}
	m.Share = m.Difference / m.Shortest
	m.Holds = m.Difference <= s.Ease*m.Shortest+joint
	return m, nil
}

// err says why the seam cannot be sewn.
func (m Match) err() error {
	short, long := slices.Index(m.Lengths, m.Shortest), slices.Index(m.Lengths, m.Longest)
	return fmt.Errorf("seam %s: %s is %.1f mm and %s is %.1f mm long: they differ by %.1f mm, %.2f %%, want %.2f %% at most: "+
		"change one of them, or give the seam the ease that the sewers can take in",
		m.Seam, m.Sides[short], m.Shortest*1e3, m.Sides[long], m.Longest*1e3, m.Difference*1e3, m.Share*100, m.Ease*100)
}

// edges are those of one side.
func (p Pattern) edges(side Side) ([]Edge, error) {
	if len(side.Edges) == 0 {
		return nil, fmt.Errorf("got a side without edges, want one or more")
	}
	var edges []Edge
	for _, ref := range side.Edges {
		piece, e, err := p.find(ref)
		if err != nil {
			return nil, err
		}
		edges = append(edges, piece.edge(e))
	}
	return edges, nil
}

// find is the piece of a reference piece/edge, and the name of the edge.
func (p Pattern) find(ref string) (Piece, string, error) {
	name, edge, ok := strings.Cut(ref, "/")
	if !ok {
		return Piece{}, "", fmt.Errorf("edge: got %q, want piece/edge", ref)
	}
	piece, err := p.Piece(name)
	if err == nil {
		_, err = piece.Edge(edge)
	}
	return piece, edge, err
}

// edge is one that is there.
func (p Piece) edge(name string) Edge {
	e, _ := p.Edge(name)
	return e
}
