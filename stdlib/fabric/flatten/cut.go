package flatten

import (
	"fmt"
	"slices"

	"tautline/stdlib/fabric/surface"
)

// A panel is one piece of a mesh between its seam lines.
type panel struct {
	name  string
	mesh  surface.Mesh // only the panel; a slit has its points twice
	from  []int        // the point of the whole mesh that each of its points was
	sides []side       // round it, the cloth to the left
}

// A side runs along one chain.
type side struct {
	chain  int
	name   string
	points []int // of the panel
}

// A cutter cuts a cloth along its labelled edges: those of seams, those where
// parts meet, and the open ones.
type cutter struct {
	cloth
	labels map[[2]int]string
	order  [][2]int // of the labelled edges
	nodes  map[int]bool
	chains []string // names
	chain  map[[2]int]int
}

const openRim = "rim"

// cut divides a mesh into panels.
func cut(mesh surface.Mesh) (*cutter, []panel, error) {
	c, err := newCloth(mesh)
	if err != nil {
		return nil, nil, err
	}
	k := &cutter{cloth: c, labels: map[[2]int]string{}, nodes: map[int]bool{}, chain: map[[2]int]int{}}
	if err := k.label(); err != nil {
		return nil, nil, err
	}
	k.findChains()
	panels, err := k.panels()
	return k, panels, err
}

// label names the edges to cut along.
func (k *cutter) label() error {
	add := func(e [2]int, name string) {
		if _, ok := k.labels[e]; !ok {
			k.labels[e] = name
			k.order = append(k.order, e)
		}
	}
	for _, s := range k.mesh.Seams {
		for i := 1; i < len(s.Points); i++ {
			e := link(s.Points[i-1], s.Points[i])
			if len(k.edges[e]) == 0 {
				return fmt.Errorf("seam %q: from point %d to point %d: no triangle has that edge", s.Name, s.Points[i-1], s.Points[i])
			}
			add(e, s.Name)
		}
	}
	for i, t := range k.mesh.Triangles {
		v := corners(t)
		for n := range v {
			a, b := v[n], v[(n+1)%3]
			e := link(a, b)
			if _, ok := k.labels[e]; ok {
				continue
			}
			around := k.edges[e]
			switch other := around[0] + around[len(around)-1] - i; {
			case len(around) > 2:
				return fmt.Errorf("part %q, edge from point %d to point %d: got %d triangles and no seam, want one or two, or a seam along it", k.mesh.Parts[t.Part], a, b, len(around))
			case len(around) == 1:
				add(e, openRim)
			case k.mesh.Triangles[other].Part != t.Part:
				add(e, k.mesh.Parts[t.Part]+" to "+k.mesh.Parts[k.mesh.Triangles[other].Part])
			case runs(k.mesh.Triangles[other], a, b):
				return fmt.Errorf("part %q, triangles %d and %d face opposite ways at the edge from point %d to point %d: turn one part over with Flipped",
					k.mesh.Parts[t.Part], min(i, other), max(i, other), a, b)
			}
		}
	}
	return nil
}

// findChains joins labelled edges of one name between the points where others
// meet them. A closed one begins at its first point.
func (k *cutter) findChains() {
	at := map[int][][2]int{}
	for _, e := range k.order {
		at[e[0]], at[e[1]] = append(at[e[0]], e), append(at[e[1]], e)
	}
	for p, list := range at {
		if len(list) != 2 || k.labels[list[0]] != k.labels[list[1]] {
			k.nodes[p] = true
		}
	}
	var labels []string
	walk := func(from int, e [2]int) {
		for done := false; !done; {
			if _, done = k.chain[e]; done {
				return
			}
			k.chain[e] = len(labels) - 1
			from = e[0] + e[1] - from
			if k.nodes[from] {
				return
			}
			next := at[from][0]
			if next == e {
				next = at[from][1]
			}
			e = next
		}
	}
	for _, closed := range []bool{false, true} {
		for _, e := range k.order {
			if _, ok := k.chain[e]; ok || !closed && !k.nodes[e[0]] && !k.nodes[e[1]] {
				continue
			}
			start := e[0]
			if closed || !k.nodes[start] && k.nodes[e[1]] {
				start = e[1]
			}
			k.nodes[start] = true
			labels = append(labels, k.labels[e])
			walk(start, e)
		}
	}
	k.chains = numbered(labels)
}

// numbered makes names that come more than once differ by a number.
func numbered(names []string) []string {
	count, seen := map[string]int{}, map[string]int{}
	for _, n := range names {
		count[n]++
	}
	out := make([]string, len(names))
	for i, n := range names {
		out[i] = n
		if count[n] > 1 {
			seen[n]++
			out[i] = fmt.Sprintf("%s %d", n, seen[n])
		}
	}
	return out
}

// panels are the triangles that hang together over edges without a label.
func (k *cutter) panels() ([]panel, error) {
	n := len(k.mesh.Triangles)
	group, corner := newSets(n), newSets(3*n)
	place := func(t, point int) int { return 3*t + slices.Index(cornerList(k.mesh.Triangles[t]), point) }
	for i, t := range k.mesh.Triangles {
		v := corners(t)
		for m := range v {
			a, b := v[m], v[(m+1)%3]
			if _, ok := k.labels[link(a, b)]; ok {
				continue
			}
			for _, o := range k.edges[link(a, b)] {
				group.join(i, o)
				corner.join(place(i, a), place(o, a))
				corner.join(place(i, b), place(o, b))
			}
		}
	}
	var panels []panel
	index := map[int]int{}
	point := map[int]int{} // by corner set, within its panel
	for i, t := range k.mesh.Triangles {
		g := group.root(i)
		at, ok := index[g]
		if !ok {
			at = len(panels)
			index[g] = at
			panels = append(panels, panel{name: k.mesh.Parts[t.Part], mesh: surface.Mesh{Parts: []string{k.mesh.Parts[t.Part]}}})
		}
		p := &panels[at]
		var local [3]int
		for m, global := range corners(t) {
			set := corner.root(3*i + m)
			if _, ok := point[set]; !ok {
				point[set] = len(p.from)
				p.from = append(p.from, global)
				p.mesh.Points = append(p.mesh.Points, k.mesh.Points[global])
			}
			local[m] = point[set]
		}
		p.mesh.Triangles = append(p.mesh.Triangles, surface.Triangle{A: local[0], B: local[1], C: local[2]})
	}
	names := make([]string, len(panels))
	for i := range panels {
		names[i] = panels[i].name
	}
	for i, name := range numbered(names) {
		panels[i].name, panels[i].mesh.Parts[0] = name, name
		if err := k.findSides(&panels[i]); err != nil {
			return nil, err
		}
	}
	return panels, nil
}

func cornerList(t surface.Triangle) []int { return []int{t.A, t.B, t.C} }

// findSides divides the panel's rim at the nodes.
func (k *cutter) findSides(p *panel) error {
	c, err := newCloth(p.mesh)
	if err != nil {
		return err
	}
	rims, err := c.rims()
	if err != nil {
		return err
	}
	if len(rims) != 1 {
		return fmt.Errorf("panel %q: got %d open loops, want one: add a seam line that cuts it open", p.name, len(rims))
	}
	rim := rims[0]
	start := slices.IndexFunc(rim, func(i int) bool { return k.nodes[p.from[i]] })
	if start < 0 {
		return fmt.Errorf("panel %q: its rim has no beginning", p.name)
	}
	rim = slices.Concat(rim[start:], rim[:start], rim[start:start+1])
	used := map[string]bool{}
	for i := 1; i < len(rim); i++ {
		if k.nodes[p.from[rim[i-1]]] {
			chain := k.chain[link(p.from[rim[i-1]], p.from[rim[i]])]
			name := k.chains[chain]
			if used[name] {
				name += ", other side"
			}
			used[name] = true
			p.sides = append(p.sides, side{chain: chain, name: name, points: []int{rim[i-1]}})
		}
		last := &p.sides[len(p.sides)-1]
		last.points = append(last.points, rim[i])
	}
	return nil
}

// sets joins numbers to sets, each known by its least.
type sets []int

func newSets(n int) sets {
	s := make(sets, n)
	for i := range s {
		s[i] = i
	}
	return s
}

func (s sets) root(i int) int {
	for s[i] != i {
		s[i] = s[s[i]]
		i = s[i]
	}
	return i
}

func (s sets) join(i, j int) {
	a, b := s.root(i), s.root(j)
	s[max(a, b)] = min(a, b)
}
