package throwing

import (
	"math"
	"slices"

	"tautline/stdlib/units"
)

// A tally gathers what of the flights the envelopes are made of.
type tally struct {
	x, y                            []float64
	radius, whole, wall, fall, drop []float64
}

func (t *tally) take(s *stage, f flight) {
	t.x, t.y = append(t.x, f.at[0]), append(t.y, f.at[1])
	far := level(f.at)
	t.radius = append(t.radius, far)
	t.whole = append(t.whole, far+float64(s.Stretch*f.height))
	t.wall = append(t.wall, f.wall)
	fast := length(f.speed)
	t.fall = append(t.fall, float64(fast*fast)/(2*units.Gn))
	t.drop = append(t.drop, f.top-f.at[2])
}

// envelopes makes the envelope of each share.
func (t *tally) envelopes(l *Landings) {
	n := float64(len(t.x))
	for _, list := range [][]float64{t.radius, t.whole, t.wall, t.fall, t.drop} {
		slices.Sort(list)
	}
	sorted := t.projections()
	for _, share := range l.Game.Shares {
		best := int(math.Ceil(share*n-1e-9)) - 1
		upper := len(t.x) - 1
		if rank, err := Rank(n, share, l.Game.Confidence); err == nil {
			upper = int(rank) - 1
		} else {
			l.Warnings = append(l.Warnings, err.Error()+": the upper bounds are the greatest drawn")
		}
		of := func(list []float64) Quantile { return Quantile{list[best], list[upper]} }
		e := Envelope{Share: share, Radius: of(t.radius), Whole: of(t.whole), Wall: of(t.wall), Fall: of(t.fall), Drop: of(t.drop)}
		e.X, e.Y = t.contour(sorted, best+1)
		l.Envelopes = append(l.Envelopes, e)
	}
}

// directions of the half-planes that bound a contour: half of them, the other half
// lie opposite.
const directions = 18

func heading(k int) (cos, sin float64) {
	sin, cos = math.Sincos(float64(k) * math.Pi / directions)
	return rounded(cos), rounded(sin)
}

// projections are the landings along each direction, sorted.
func (t *tally) projections() [directions][]float64 {
	var sorted [directions][]float64
	for k := range sorted {
		cos, sin := heading(k)
		list := make([]float64, len(t.x))
		for i, x := range t.x {
			list[i] = float64(x*cos) + float64(t.y[i]*sin)
		}
		slices.Sort(list)
		sorted[k] = list
	}
	return sorted
}

// contour is the outline that leaves out the same count of landings on each side,
// and as many as still leaves it holding so many.
func (t *tally) contour(sorted [directions][]float64, hold int) (xs, ys []units.Length) {
	n := len(t.x)
	holds := func(out int) int {
		inside := make([]bool, n)
		for i := range inside {
			inside[i] = true
		}
		for k, list := range sorted {
			cos, sin := heading(k)
			low, high := list[out], list[n-1-out]
			for i, x := range t.x {
				if v := float64(x*cos) + float64(t.y[i]*sin); v < low || v > high {
					inside[i] = false
				}
			}
		}
		count := 0
		for _, in := range inside {
			if in {
				count++
			}
		}
		return count
	}
	low, high := 0, min(n-hold, (n-1)/2) // none out holds all; one direction alone puts out no more than may be out
	for low < high {
		if middle := (low + high + 1) / 2; holds(middle) >= hold {
			low = middle
		} else {
			high = middle - 1
		}
	}
	reach := make([]float64, 2*directions)
	for k, list := range sorted {
		const touch = 1e-9 * units.M // or landings on one line would have none
		reach[k], reach[k+directions] = list[n-1-low]+touch, touch-list[low]
	}
	return outline(reach)
}

// outline is the polygon of the half-planes with these distances from the origin,
// evenly round: a square beyond all, cut by one after the other.
func outline(reach []float64) (xs, ys []units.Length) {
	far := 1.0
	for _, r := range reach {
		far = max(far, 4*math.Abs(r))
	}
	xs, ys = []float64{-far, far, far, -far}, []float64{-far, -far, far, far}
	for k, r := range reach {
		cos, sin := heading(k)
		var cutX, cutY []float64
		for i := range xs {
			j := (i + 1) % len(xs)
			a, b := float64(xs[i]*cos)+float64(ys[i]*sin)-r, float64(xs[j]*cos)+float64(ys[j]*sin)-r
			if a <= 0 {
				cutX, cutY = append(cutX, xs[i]), append(cutY, ys[i])
			}
			if (a < 0 && b > 0) || (a > 0 && b < 0) {
				f := a / (a - b)
				cutX, cutY = append(cutX, xs[i]+float64(f*(xs[j]-xs[i]))), append(cutY, ys[i]+float64(f*(ys[j]-ys[i])))
			}
		}
		xs, ys = cutX, cutY
	}
	return xs, ys
}

// pitch of the squares that landings are counted in.
const pitch = 100 * units.Mm

// squares counts the landings on squares of the plan, row by row.
func (t *tally) squares() []Square {
	counts := map[[2]int]int{}
	for i, x := range t.x {
		counts[[2]int{int(math.Floor(t.y[i] / pitch)), int(math.Floor(x / pitch))}]++
	}
	keys := make([][2]int, 0, len(counts))
	for k := range counts {
		keys = append(keys, k)
	}
	slices.SortFunc(keys, func(a, b [2]int) int {
		if a[0] != b[0] {
			return a[0] - b[0]
		}
		return a[1] - b[1]
	})
	var out []Square
	for _, k := range keys {
		out = append(out, Square{(float64(k[1]) + 0.5) * pitch, (float64(k[0]) + 0.5) * pitch, float64(counts[k])})
	}
	return out
}
