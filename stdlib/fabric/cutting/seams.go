package cutting

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"tautline/stdlib/fabric/pattern"
	"tautline/stdlib/units"
)

// seams maps which edge is sewn to which, in the order of sewing.
func seams(p pattern.Pattern) (list, error) {
	l := list{
		title:  "Seams to sew, in this order",
		before: []string{"Each seam joins edges of the pieces as marked, mark to the mark of the same number. Inner seams cannot be reached again once their body is closed."},
		heads:  []string{"step", "seam", "joins", "length mm", "times", "longest less shortest mm", "eased in %", "marks", "how"},
	}
	if err := p.Check(); err != nil {
		return l, err
	}
	steps, err := p.SewingOrder()
	if err != nil {
		return l, err
	}
	matches, err := p.Match()
	if err != nil {
		return l, err
	}
	for _, s := range steps {
		m := matches[slices.IndexFunc(matches, func(m pattern.Match) bool { return m.Seam == s.Seam })]
		var sides []string
		for i, side := range m.Sides {
			sides = append(sides, fmt.Sprintf("%s (%s)", side, millimetres(m.Lengths[i])))
		}
		l.rows = append(l.rows, []string{
			fmt.Sprintf("%g", s.Number), s.Seam, strings.Join(sides, " with "), millimetres(s.Length), fmt.Sprintf("%g", s.Count),
			millimetres(m.Difference), fmt.Sprintf("%.2f", m.Share*100), marks(p, m), s.How,
		})
	}
	return l, nil
}

// marks are the numbers of the notches on a seam's first side.
func marks(p pattern.Pattern, m pattern.Match) string {
	var numbers []string
	for _, ref := range strings.Split(m.Sides[0], " + ") {
		name, edge, _ := strings.Cut(ref, "/")
		piece, err := p.Piece(name)
		if err != nil {
			continue
		}
		for _, n := range piece.Notches {
			if n.Edge == edge {
				numbers = append(numbers, fmt.Sprintf("%g", n.Number))
			}
		}
	}
	return strings.Join(numbers, " ")
}

// SeamsCSV is the map of seams in the order of sewing, one a row, comma separated
// (RFC 4180).
//
// A pattern that cannot be sewn is an error.
func SeamsCSV(p pattern.Pattern) (string, error) {
	l, err := seams(p)
	if err != nil {
		return "", err
	}
	return l.csv(), nil
}

// SeamsHTML is the map of seams in the order of sewing as a page that prints.
//
// A pattern that cannot be sewn is an error.
func SeamsHTML(p pattern.Pattern) (string, error) {
	l, err := seams(p)
	if err != nil {
		return "", err
	}
	return l.html(), nil
}

func millimetres(v units.Length) string { return fmt.Sprintf("%.1f", v/units.Mm) }

func degrees(v units.Angle) float64 { return math.Round(v/units.Deg*10) / 10 }
