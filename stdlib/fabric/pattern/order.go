package pattern

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"tautline/stdlib/units"
)

// A Step is one seam in the order of sewing.
type Step struct {
	Number units.Number
	Seam   string
	Sides  []string // what is joined: edges in a row
	Length units.Length
	Count  units.Number
	How    string // how the seam lies when it is sewn
}

// How a seam lies when it is sewn.
const (
	flat    = "flat, joins parts that are still apart"
	round   = "round, joins two edges of one part"
	through = "last of its body: sewn with the bed inside out, then turned through %s"
)

// turnThrough is the least way round an opening through which a body can be
// turned: an arm and a bundle of fabric.
//
// Source: common practice, no source.
const turnThrough = 0.6 // m

// SewingOrder is an order in which every seam can still be reached: inner seams
// while their body is open, then those between copies of one piece in the
// pattern's order, then the others from the shortest to the longest, which closes
// the body.
//
// A body that closes must have something to turn it right side out through: an
// edge that no seam joins, or an opening at least 0.6 m round. It is an error
// without, naming the body's last seam, and where nothing but inner seams holds a
// body together.
//
// Source: common practice, no source.
func (p Pattern) SewingOrder() ([]Step, error) {
	matches, err := p.Match()
	if err != nil {
		return nil, fmt.Errorf("order of sewing: %w", err)
	}
	bodies := p.bodies()
	type entry struct {
		seam int
		body int
		rank int
	}
	var list []entry
	for i, s := range p.Seams {
		e := entry{seam: i, body: bodies.root(p.pieceOf(s)), rank: 2}
		switch {
		case s.Inner:
			e.rank = 0
		case p.ofOnePiece(s):
			e.rank = 1
		}
		list = append(list, e)
	}
	slices.SortStableFunc(list, func(a, b entry) int {
		order := cmp.Or(a.body-b.body, a.rank-b.rank)
		if order == 0 && a.rank == 2 {
			order = cmp.Compare(p.run(a.seam, matches), p.run(b.seam, matches))
		}
		return order
	})
	joined := newGroups(len(p.Pieces))
	var steps []Step
	for k, e := range list {
		s := p.Seams[e.seam]
		step := Step{Number: float64(k + 1), Seam: s.Name, Sides: matches[e.seam].Sides, Length: matches[e.seam].Longest, Count: s.Count, How: round}
		if joined.joinAll(p.piecesOf(s)) {
			step.How = flat
		}
		if k == len(list)-1 || list[k+1].body != e.body {
			gap, err := p.lastGap(e.body, bodies, s)
			if err != nil {
				return nil, fmt.Errorf("order of sewing: %w", err)
			}
			if gap != "" {
				step.How = fmt.Sprintf(through, gap)
			}
		}
		steps = append(steps, step)
	}
	return steps, nil
}

// run is the length of all copies of a seam, sewn in a row.
func (p Pattern) run(seam int, matches []Match) float64 {
	return matches[seam].Longest * p.Seams[seam].Count
}

// lastGap names what a body is turned through after its last seam.
func (p Pattern) lastGap(body int, bodies groups, last Seam) (string, error) {
	if last.Inner {
		return "", fmt.Errorf("seam %s: lies inside, but its body has no outer seam that could stay open for it: want one", last.Name)
	}
	widest, name := 0.0, ""
	for i, piece := range p.Pieces {
		if bodies.root(i) != body {
			continue
		}
		for _, e := range slices.Concat(piece.Edges, piece.Openings) {
			if p.sewn(piece.Name+"/"+e.Name) >= piece.Count || p.inside(piece) {
				continue
			}
			if length := e.Length(); length > widest {
				widest, name = length, piece.Name+"/"+e.Name
			}
		}
	}
	if widest < turnThrough {
		have := "no opening"
		if name != "" {
			have = fmt.Sprintf("only %s, %.0f mm round", name, widest*1e3)
		}
		return "", fmt.Errorf("seam %s: closes the body with %s to turn it through, want one of at least %.0f mm round: plan a zip or a blower tube there",
			last.Name, have, turnThrough*1e3)
	}
	return name, nil
}

// sewn is how many copies of an edge seams join.
func (p Pattern) sewn(ref string) float64 {
	copies := 0.0
	for _, s := range p.Seams {
		for _, side := range s.Sides {
			if slices.Contains(side.Edges, ref) {
				copies += s.Count
			}
		}
	}
	return copies
}

// inside reports whether only inner seams hold the piece, as a baffle: its free
// edges open nothing.
func (p Pattern) inside(piece Piece) bool {
	held := false
	for _, s := range p.Seams {
		for _, side := range s.Sides {
			for _, ref := range side.Edges {
				if _, ok := refersTo(ref, piece.Name); ok {
					held = true
					if !s.Inner {
						return false
					}
				}
			}
		}
	}
	return held
}

func (p Pattern) ofOnePiece(s Seam) bool {
	list := p.piecesOf(s)
	return !slices.ContainsFunc(list, func(i int) bool { return i != list[0] })
}

// piecesOf are the indices of the pieces that a seam joins.
func (p Pattern) piecesOf(s Seam) []int {
	var list []int
	for _, side := range s.Sides {
		for _, ref := range side.Edges {
			name, _, _ := strings.Cut(ref, "/")
			list = append(list, slices.IndexFunc(p.Pieces, func(q Piece) bool { return q.Name == name }))
		}
	}
	return list
}

func (p Pattern) pieceOf(s Seam) int { return p.piecesOf(s)[0] }

// bodies groups the pieces that seams hold together.
func (p Pattern) bodies() groups {
	g := newGroups(len(p.Pieces))
	for _, s := range p.Seams {
		g.joinAll(p.piecesOf(s))
	}
	return g
}

// groups says which of several things are joined.
type groups []int

func newGroups(n int) groups {
	g := make(groups, n)
	for i := range g {
		g[i] = i
	}
	return g
}

func (g groups) root(i int) int {
	for g[i] != i {
		i = g[i]
	}
	return i
}

// joinAll joins the things, and reports whether any two were apart.
func (g groups) joinAll(list []int) bool {
	apart := false
	for _, i := range list[1:] {
		a, b := g.root(list[0]), g.root(i)
		if a != b {
			g[max(a, b)] = min(a, b)
			apart = true
		}
	}
	return apart
}
