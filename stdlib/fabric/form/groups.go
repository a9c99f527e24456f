package form

// groups are the points that hang together.
type groups struct{ up []int }

func newGroups(points int) groups {
	g := groups{make([]int, points)}
	for p := range g.up {
		g.up[p] = p
	}
	return g
}

// of is the point that stands for the group of p.
func (g groups) of(p int) int {
	for g.up[p] != p {
		g.up[p] = g.up[g.up[p]]
		p = g.up[p]
	}
	return p
}

func (g groups) join(a, b int) {
	if a, b = g.of(a), g.of(b); a != b {
		g.up[max(a, b)] = min(a, b)
	}
}
