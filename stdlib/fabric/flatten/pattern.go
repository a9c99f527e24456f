package flatten

import (
	"fmt"

	"tautline/stdlib/fabric/pattern"
	"tautline/stdlib/fabric/surface"
	"tautline/stdlib/units"
)

// A Made is the pattern of a surface and how it was flattened.
type Made struct {
	Pattern pattern.Pattern
	Panels  []Flat       // in the order of the pattern's pieces
	Most    units.Number // greatest stretch of all panels
	Least   units.Number // greatest gathering, negative; 0 or more when all is stretched
}

// Pattern cuts a mesh along its seams, and where its parts meet, and lays each
// panel flat as Flatten does, with the limit of strain that it has. Pieces bear
// the names of the mesh's parts, edges and seams those of its seam lines, with
// numbers where a name comes more than once; open edges are called rim. Three
// panels and more along one line, as where a baffle is sewn in, make one inner
// seam. The ease is that of every seam.
//
// It is an error, naming the part, if a panel is no disc, strains more than the
// limit, or meets another one along a line of another length than the ease allows.
//
// Source: as Flatten.
func Pattern(mesh surface.Mesh, limit, ease units.Number) (Made, error) {
	k, panels, err := cut(mesh)
	if err != nil {
		return Made{}, fmt.Errorf("panels: %w", err)
	}
	var m Made
	meets := make([][]joined, len(k.chains))
	for _, p := range panels {
		f, err := Flatten(p.mesh, limit)
		if err != nil {
			return Made{}, err
		}
		m.Panels = append(m.Panels, f)
		if len(m.Panels) == 1 {
			m.Most, m.Least = f.Most, f.Least
		}
		m.Most, m.Least = max(m.Most, f.Most), min(m.Least, f.Least)
		piece := pattern.Piece{Name: p.name, Count: 1}
		for _, s := range p.sides {
			e := pattern.Edge{Name: s.name}
			for _, i := range s.points {
				e.X, e.Y = append(e.X, f.X[i]), append(e.Y, f.Y[i])
			}
			piece.Edges = append(piece.Edges, e)
			meets[s.chain] = append(meets[s.chain], joined{p.name + "/" + s.name, p.from[s.points[0]], p.from[s.points[1]]})
		}
		m.Pattern.Pieces = append(m.Pattern.Pieces, piece)
	}
	for i, list := range meets {
		if len(list) > 1 {
			m.Pattern.Seams = append(m.Pattern.Seams, seam(k.chains[i], list, ease))
		}
	}
	return m, m.Pattern.Check()
}

// Cut is the panels of a mesh as Pattern cuts them, in the order of their first
// triangles: to lay one of them flat with Flatten, or to look at its strain.
//
// A mesh that surface.Mesh.Check finds wrong is an error.
func Cut(mesh surface.Mesh) ([]surface.Mesh, error) {
	_, panels, err := cut(mesh)
	if err != nil {
		return nil, fmt.Errorf("panels: %w", err)
	}
	var all []surface.Mesh
	for _, p := range panels {
		all = append(all, p.mesh)
	}
	return all, nil
}

// A joined is an edge at a chain, and the points of the mesh that it begins with.
type joined struct {
	ref           string
	first, second int
}

func seam(name string, list []joined, ease float64) pattern.Seam {
	s := pattern.Seam{Name: name, Count: 1, Ease: ease, Inner: len(list) > 2}
	for _, j := range list {
		same := j.first == list[0].first && j.second == list[0].second
		s.Sides = append(s.Sides, pattern.Side{Edges: []string{j.ref}, Reversed: !same})
	}
	return s
}
