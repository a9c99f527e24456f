// Package pattern makes the flat pieces that an inflatable is sewn from, and
// says which edge is sewn to which.
//
// Nouns: a Piece is one panel, outlined by named edges along its seam line; a
// Seam joins edges of pieces; a Pattern is pieces and seams together. Package
// unroll gives the pattern of shapes that unroll exactly, package flatten that of
// any other surface.
//
//	ring := unroll.Ring{Radius: 2.6 * units.M, Tube: 350 * units.Mm, Sweep: 360 * units.Deg, Pieces: 16}
//	sewn := sheet.Must(ring.Pattern("ring", 2, 0, 0.002))
//	less := sheet.Must(sewn.Compensate(0.5*units.Percent, 0.8*units.Percent))
//	shop := sheet.Must(less.Allow(20*units.Mm, 40*units.Mm))
//
// Each step gives a new pattern and leaves the one before as it was: shape under
// pressure, less what pressure stretches, plus what is sewn away, with notches.
//
// Invariants: a piece is seen from its outer face, lengths are in the plane of
// the cutting table, outlines run anticlockwise, and each edge begins where the
// one before ended. The outline is the seam line; the fabric beyond it is the
// Allowance of its edges. Curves are drawn by a point for each degree that the
// fabric turns, so an edge is shorter than the true curve by 0.002 % at most.
//
// People jump and fall on what is cut from here. A pattern that is closed and
// matches is not yet a safe bed: what holds it is judged in package fabric, and a
// trial piece comes before a roll is cut.
package pattern

import (
	"fmt"
	"slices"
	"strings"

	"tautline/stdlib/internal/argument"
	"tautline/stdlib/units"
)

// A Pattern is what one article is sewn from.
type Pattern struct {
	Pieces   []Piece
	Seams    []Seam
	Warnings []string
}

// Join is several patterns as one. Names of pieces and seams that come twice are
// an error.
func Join(patterns ...Pattern) (Pattern, error) {
	var all Pattern
	for _, p := range patterns {
		all.Pieces = append(all.Pieces, p.Pieces...)
		all.Seams = append(all.Seams, p.Seams...)
		all.Warnings = append(all.Warnings, p.Warnings...)
	}
	return all, all.checkNames()
}

// WithSeams is the pattern with more seams.
func (p Pattern) WithSeams(seams ...Seam) Pattern {
	p.Seams = append(slices.Clone(p.Seams), seams...)
	return p
}

// Times is the pattern of several such articles: every count so many times, which
// is a whole number of 1 or more; otherwise it panics.
func (p Pattern) Times(articles units.Number) Pattern {
	argument.Demand("pattern: Pattern.Times", argument.Whole("articles", articles), argument.Within("articles", articles, 1, 1e4))
	p.Pieces, p.Seams = slices.Clone(p.Pieces), slices.Clone(p.Seams)
	for i := range p.Pieces {
		piece := p.Pieces[i].clone()
		piece.Count *= articles
		for k := range piece.Openings {
			piece.Openings[k].Only *= articles
		}
		for k := range piece.Drills {
			piece.Drills[k].Only *= articles
		}
		p.Pieces[i] = piece
	}
	for i := range p.Seams {
		p.Seams[i].Count *= articles
	}
	return p
}

// Piece is the piece of a name.
func (p Pattern) Piece(name string) (Piece, error) {
	for _, piece := range p.Pieces {
		if piece.Name == name {
			return piece, nil
		}
	}
	return Piece{}, fmt.Errorf("piece: got %q, want one of: %s", name, strings.Join(p.names(), ", "))
}

// Count is the number of pieces to cut, all copies.
//
// Source: sum of the pieces' counts.
func (p Pattern) Count() units.Number {
	sum := 0.0
	for _, piece := range p.Pieces {
		sum += piece.Count
	}
	return sum
}

// Area is the fabric within the seam lines of all pieces and copies.
//
// Source: geometry of a polygon.
func (p Pattern) Area() units.Area {
	sum := 0.0
	for _, piece := range p.Pieces {
		sum += piece.Count * piece.Area()
	}
	return sum
}

// Check is nil for a pattern that can be cut and sewn: every piece closed and
// not crossing itself, every seam between edges that exist and whose lengths
// agree within its ease.
func (p Pattern) Check() error {
	if err := p.checkNames(); err != nil {
		return err
	}
	for _, piece := range p.Pieces {
		if err := piece.Check(); err != nil {
			return err
		}
	}
	matches, err := p.Match()
	if err != nil {
		return err
	}
	for _, m := range matches {
		if !m.Holds {
			return m.err()
		}
	}
	return nil
}

func (p Pattern) names() []string {
	var names []string
	for _, piece := range p.Pieces {
		names = append(names, piece.Name)
	}
	return names
}

func (p Pattern) checkNames() error {
	if len(p.Pieces) == 0 {
		return fmt.Errorf("pattern: got no pieces, want at least one")
	}
	seen := map[string]bool{}
	for _, name := range p.names() {
		if name == "" || strings.Contains(name, "/") {
			return fmt.Errorf("piece: got the name %q, want one without a slash: an edge is called piece/edge", name)
		}
		if seen[name] {
			return fmt.Errorf("piece %s: got two of that name, want one: give copies by Count", name)
		}
		seen[name] = true
	}
	seams := map[string]bool{}
	for _, s := range p.Seams {
		if s.Name == "" || seams[s.Name] {
			return fmt.Errorf("seam: got the name %q twice or none, want a name of its own for each", s.Name)
		}
		seams[s.Name] = true
	}
	return nil
}

// edit is the pattern with one piece changed.
func (p Pattern) edit(name string, change func(Piece) (Piece, error)) (Pattern, error) {
	for i, piece := range p.Pieces {
		if piece.Name != name {
			continue
		}
		changed, err := change(piece.clone())
		if err == nil {
			err = changed.Check()
		}
		p.Pieces = slices.Clone(p.Pieces)
		p.Pieces[i] = changed
		return p, err
	}
	_, err := p.Piece(name)
	return p, err
}
