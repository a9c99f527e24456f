package pattern

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"tautline/stdlib/internal/argument"
	"tautline/stdlib/units"
)

// Notch marks both sides of every seam at equal shares of its length, no further
// apart than the spacing, at least once in the middle. Marks that meet have one
// number; so do the same marks of copies, such as those of a lobe that is sewn in
// at the top and at the bottom.
//
// A spacing of 0 or less is an error.
func (p Pattern) Notch(spacing units.Length) (Pattern, error) {
	if err := argument.Positive("spacing", spacing); err != nil {
		return p, fmt.Errorf("notches: %w", err)
	}
	matches, err := p.Match()
	if err != nil {
		return p, fmt.Errorf("notches: %w", err)
	}
	p.Pieces = slices.Clone(p.Pieces)
	for i := range p.Pieces {
		p.Pieces[i].Notches = slices.Clone(p.Pieces[i].Notches)
	}
	classes := p.notchClasses()
	marks := make([]int, len(classes.seams)) // by the first seam of each class
	for i, m := range matches {
		root := classes.root(i)
		marks[root] = max(marks[root], int(math.Ceil(m.Longest/spacing))-1, 1)
	}
	first := make([]float64, len(marks))
	next := 1.0
	for i, n := range marks {
		first[i] = next
		if classes.tangled[i] {
			n = min(n, 1)
		}
		next += float64(n)
	}
	done := map[string]bool{}
	for i, s := range p.Seams {
		root := classes.root(i)
		for _, side := range s.Sides {
			key := fmt.Sprint(side.Edges)
			if done[key] {
				continue
			}
			done[key] = true
			number := func(k int) float64 {
				switch {
				case classes.tangled[root]:
					return first[root]
				case classes.against(i) != side.Reversed:
					k = marks[root] - 1 - k
				}
				return first[root] + float64(k)
			}
			p.notchSide(side, marks[root], number)
		}
	}
	return p, nil
}

// notchSide puts n marks along a side of a seam that matched.
func (p Pattern) notchSide(side Side, n int, number func(k int) float64) {
	edges, _ := p.edges(side)
	total := 0.0
	for _, e := range edges {
		total += e.Length()
	}
	for k := range n {
		at := total * float64(k+1) / float64(n+1)
		i := 0
		for ; at > edges[i].Length() && i < len(edges)-1; i++ {
			at -= edges[i].Length()
		}
		name, _, _ := strings.Cut(side.Edges[i], "/")
		piece := &p.Pieces[slices.Index(p.names(), name)]
		piece.Notches = append(piece.Notches, Notch{Edge: edges[i].Name, At: at, Number: number(k)})
	}
}

// notchClasses gathers the seams that share a side, since that side carries one
// set of marks for all of them.
type notchClasses struct {
	seams   []int  // the seam that each one is gathered to
	flipped []bool // and whether it runs against that one
	tangled []bool // a class that meets itself the other way round: its marks have no order
}

func (p Pattern) notchClasses() notchClasses {
	c := notchClasses{make([]int, len(p.Seams)), make([]bool, len(p.Seams)), make([]bool, len(p.Seams))}
	type owner struct {
		seam     int
		reversed bool
	}
	owners := map[string]owner{}
	for i, s := range p.Seams {
		c.seams[i] = i
		for _, side := range s.Sides {
			key := fmt.Sprint(side.Edges)
			o, ok := owners[key]
			if !ok {
				owners[key] = owner{i, side.Reversed}
				continue
			}
			c.join(i, o.seam, side.Reversed != o.reversed)
		}
	}
	for i := range c.seams {
		if c.tangled[i] {
			c.tangled[c.root(i)] = true
		}
	}
	return c
}

func (c notchClasses) root(i int) int {
	for c.seams[i] != i {
		i = c.seams[i]
	}
	return i
}

// against reports whether a seam runs against the first of its class.
func (c notchClasses) against(i int) bool {
	against := false
	for c.seams[i] != i {
		against = against != c.flipped[i]
		i = c.seams[i]
	}
	return against
}

func (c notchClasses) join(i, j int, against bool) {
	a, b := c.root(i), c.root(j)
	turned := c.against(i) != c.against(j) != against
	if a == b {
		c.tangled[a] = c.tangled[a] || turned
		return
	}
	low, high := min(a, b), max(a, b)
	c.seams[high], c.flipped[high] = low, turned
	c.tangled[low] = c.tangled[low] || c.tangled[high]
}
