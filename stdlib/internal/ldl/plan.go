package ldl

import "slices"

// A Plan is the order of elimination: fronts, each a dense matrix in which some
// unknowns, its pivots, are eliminated at once and leave an update to the rest
// of its unknowns for its parent.
type Plan struct {
	n      int
	fronts []front // children before parents
}

type front struct {
	pivots   []int32
	rows     []int32 // unknowns that the pivots reach, in the order of elimination
	children []int
}

// Analyse plans the elimination of a matrix by least degree: the unknown that
// meets the fewest others goes first. Unknowns that meet the same others, as
// those of one node do, are taken as one.
//
// Source: George and Liu, The evolution of the minimum degree ordering algorithm,
// SIAM Review 31(1), 1989; approximate degrees: Amestoy, Davis and Duff, SIAM
// Journal on Matrix Analysis 17(4), 1996; fronts: Duff and Reid, ACM Transactions
// on Mathematical Software 9(3), 1983.
func Analyse(m *Matrix) *Plan {
	groups := m.groups()
	g := newQuotient(m, groups)
	order := make([]int, 0, len(groups)) // of groups, as eliminated
	place := make([]int, len(groups))
	for range groups {
		i := g.least()
		place[i] = len(order)
		order = append(order, i)
		g.eliminate(i)
	}
	return newPlan(m.Len(), groups, order, place, g.reach)
}

// groups are the unknowns that share one set of neighbours, themselves included.
func (m *Matrix) groups() [][]int32 {
	first := map[uint64][]int{} // groups by the hash of their pattern
	var groups [][]int32
	for i := range m.Len() {
		row := m.col[m.start[i]:m.start[i+1]]
		hash := uint64(14695981039346656037)
		for _, j := range row {
			hash = (hash ^ uint64(j)) * 1099511628211
		}
		found := false
		for _, k := range first[hash] {
			other := int(groups[k][0])
			if slices.Equal(row, m.col[m.start[other]:m.start[other+1]]) {
				groups[k] = append(groups[k], int32(i))
				found = true
				break
			}
		}
		if !found {
			first[hash] = append(first[hash], len(groups))
			groups = append(groups, []int32{int32(i)})
		}
	}
	return groups
}

// A quotient graph holds what is left to eliminate: a variable meets variables
// directly and, through elements made by elimination, all of theirs.
type quotient struct {
	weight   []int   // unknowns in a variable
	vars     [][]int // variables met directly
	elements [][]int // elements met
	reach    [][]int // variables of an element, named by the variable that made it
	degree   []int
	done     []bool
	absorbed []bool
	mark     []int
	stamp    int
	outside  []int // scratch: weight of an element outside the new one
	seen     []int
	queue    buckets
}

func newQuotient(m *Matrix, groups [][]int32) *quotient {
	n := len(groups)
	of := make([]int, m.Len())
	for k, g := range groups {
		for _, i := range g {
			of[i] = k
		}
	}
	g := &quotient{weight: make([]int, n), vars: make([][]int, n), elements: make([][]int, n), reach: make([][]int, n), degree: make([]int, n),
		done: make([]bool, n), absorbed: make([]bool, n), mark: make([]int, n), outside: make([]int, n), seen: make([]int, n)}
	for k, group := range groups {
		g.weight[k] = len(group)
	}
	for k, group := range groups {
		g.stamp++
		g.mark[k] = g.stamp
		i := group[0]
		for _, j := range m.col[m.start[i]:m.start[i+1]] {
			if other := of[j]; g.mark[other] != g.stamp {
				g.mark[other] = g.stamp
				g.vars[k] = append(g.vars[k], other)
				g.degree[k] += g.weight[other]
			}
		}
	}
	g.queue = newBuckets(m.Len())
	for k := range n {
		g.queue.add(k, g.degree[k])
	}
	return g
}

// least takes the variable of least degree.
func (g *quotient) least() int {
	for {
		i, degree := g.queue.take()
		if !g.done[i] && g.degree[i] == degree {
			return i
		}
	}
}

// eliminate turns variable i into an element.
func (g *quotient) eliminate(i int) {
	g.done[i] = true
	g.stamp++
	now := g.stamp
	g.mark[i] = now
	var reach []int
	add := func(list []int) {
		for _, j := range list {
			if g.mark[j] != now && !g.done[j] {
				g.mark[j] = now
				reach = append(reach, j)
			}
		}
	}
	add(g.vars[i])
	for _, e := range g.elements[i] {
		add(g.reach[e])
		g.absorbed[e] = true
	}
	g.reach[i] = reach
	weight := 0
	for _, j := range reach {
		weight += g.weight[j]
		g.vars[j] = slices.DeleteFunc(g.vars[j], func(k int) bool { return g.mark[k] == now || g.done[k] })
		g.elements[j] = slices.DeleteFunc(g.elements[j], func(e int) bool { return g.absorbed[e] })
	}
	// The part of every other element outside the new one.
	for _, j := range reach {
		for _, e := range g.elements[j] {
			if g.seen[e] != now {
				g.seen[e] = now
				g.outside[e] = 0
				for _, k := range g.reach[e] {
					if !g.done[k] {
						g.outside[e] += g.weight[k]
					}
				}
			}
			g.outside[e] -= g.weight[j]
		}
	}
	for _, j := range reach {
		degree := weight - g.weight[j]
		for _, k := range g.vars[j] {
			degree += g.weight[k]
		}
		for _, e := range g.elements[j] {
			degree += g.outside[e]
		}
		g.elements[j] = append(g.elements[j], i)
		g.degree[j] = degree
		g.queue.add(j, degree)
	}
	g.vars[i], g.elements[i] = nil, nil
}

// buckets is a queue by degree; what is no longer true stays in it.
type buckets struct {
	lists [][]int
	low   int
}

func newBuckets(n int) buckets { return buckets{lists: make([][]int, n+1)} }

func (b *buckets) add(i, degree int) {
	degree = min(degree, len(b.lists)-1)
	b.lists[degree] = append(b.lists[degree], i)
	b.low = min(b.low, degree)
}

func (b *buckets) take() (i, degree int) {
	for len(b.lists[b.low]) == 0 {
		b.low++
	}
	list := b.lists[b.low]
	b.lists[b.low] = list[:len(list)-1]
	return list[len(list)-1], b.low
}

// newPlan makes fronts of the eliminated groups. A group joins its parent's
// front where that costs no, or few, zeros.
func newPlan(n int, groups [][]int32, order, place []int, reach [][]int) *Plan {
	count := len(order)
	parent := make([]int, count) // all by place
	rows := make([]int, count)   // unknowns reached
	own := make([]int, count)    // unknowns eliminated
	for p, i := range order {
		parent[p] = -1
		own[p] = len(groups[i])
		for _, j := range reach[i] {
			rows[p] += len(groups[j])
			if q := place[j]; parent[p] < 0 || q < parent[p] {
				parent[p] = q
			}
		}
	}
	into := make([]int, count) // the front that a place belongs to, named by its last place
	size := slices.Clone(own)  // unknowns of the front so far
	for p := range into {
		into[p] = p
	}
	for p := range order {
		q := parent[p]
		if q < 0 {
			continue
		}
		zeros := own[q] + rows[q] - rows[p] // rows that the child gains
		if zeros == 0 || size[p] < 24 && zeros*size[p] < 128 && p+1 == q {
			into[p] = q
			size[q] += size[p]
		}
	}
	for p := count - 1; p >= 0; p-- {
		into[p] = into[into[p]]
	}
	plan := &Plan{n: n}
	number := make([]int, count)
	pivots := make([][]int32, count)
	for p, i := range order {
		pivots[into[p]] = append(pivots[into[p]], groups[i]...)
	}
	for p, i := range order {
		if into[p] != p {
			continue
		}
		f := front{pivots: pivots[p]}
		reached := slices.Clone(reach[i])
		slices.SortFunc(reached, func(a, b int) int { return place[a] - place[b] })
		for _, j := range reached {
			f.rows = append(f.rows, groups[j]...)
		}
		number[p] = len(plan.fronts)
		plan.fronts = append(plan.fronts, f)
	}
	for p := range order {
		if into[p] == p && parent[p] >= 0 {
			up := number[into[parent[p]]]
			plan.fronts[up].children = append(plan.fronts[up].children, number[p])
		}
	}
	return plan
}
