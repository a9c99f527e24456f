package nest

import (
	"cmp"
	"math"
	"math/rand/v2"
	"slices"
)

// A place is where a part lies: which way, at which strip, how far along.
type place struct {
	part, way, column int
	x                 float64
}

// A layout is a place for every part and the length that they need.
type layout struct {
	places []place
	length float64
	waste  float64 // area before the pieces that nothing can reach any more
}

func (l layout) better(other layout) bool {
	if l.length != other.length {
		return l.length < other.length
	}
	return l.waste < other.waste
}

// search tries orders of the parts. It begins with the longest first and the
// largest first and then exchanges parts of the best order so far.
func search(columns int, parts []part, tries int, seed uint64) layout {
	order := make([]int, len(parts))
	for i := range order {
		order[i] = i
	}
	byArea := slices.Clone(order)
	slices.SortStableFunc(byArea, func(a, b int) int { return cmp.Compare(parts[b].outline.Area(), parts[a].outline.Area()) })
	slices.SortStableFunc(order, func(a, b int) int { return cmp.Compare(parts[b].ways[0].length, parts[a].ways[0].length) })
	best := lay(columns, parts, order)
	if tries > 1 {
		if l := lay(columns, parts, byArea); l.better(best) {
			order, best = byArea, l
		}
	}
	random := rand.New(rand.NewPCG(seed, 0))
	for range tries - 2 {
		next := exchange(slices.Clone(order), random)
		if l := lay(columns, parts, next); !best.better(l) {
			order, best = next, l
		}
	}
	return best
}

// exchange swaps two parts or moves one.
func exchange(order []int, random *rand.Rand) []int {
	i, j := random.IntN(len(order)), random.IntN(len(order))
	if random.IntN(2) == 0 {
		order[i], order[j] = order[j], order[i]
		return order
	}
	part := order[i]
	return slices.Insert(slices.Delete(order, i, i+1), j, part)
}

// lay puts the parts down in their order, each where its far end stays nearest
// to the roll's beginning, then where it leaves the least unused before it.
func lay(columns int, parts []part, order []int) layout {
	front := make([]float64, columns)
	var l layout
	for _, i := range order {
		var best place
		bestEnd, bestWaste := math.Inf(1), math.Inf(1)
		for w, way := range parts[i].ways {
			for c := 0; c+len(way.low) <= columns; c++ {
				x, waste := way.push(front[c:c+len(way.low)], bestEnd-way.length)
				end := x + way.length
				if end < bestEnd-1e-9 || end < bestEnd+1e-9 && waste < bestWaste-1e-12 {
					best, bestEnd, bestWaste = place{i, w, c, x}, end, waste
				}
			}
		}
		way := parts[i].ways[best.way]
		for k, high := range way.high {
			front[best.column+k] = best.x + high
		}
		l.places = append(l.places, best)
		l.length = max(l.length, bestEnd)
		l.waste += bestWaste
	}
	return l
}

// push moves the part up to the front: how far along it comes to lie, and the
// area between. Further along than most it does not matter where.
func (w way) push(front []float64, most float64) (x, waste float64) {
	x = 0
	for k, low := range w.low {
		if d := front[k] - low; d > x {
			if x = d; x > most+1e-9 {
				return x, math.Inf(1)
			}
		}
	}
	for k, low := range w.low {
		waste += x + low - front[k]
	}
	return x, waste * column
}
