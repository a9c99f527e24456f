package notebooks

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"tautline/runner"
)

// thrower throws riders by another way than the library: the angles at 50 places a
// second, velocities and accelerations by their differences, riders from another
// generator, flights in steps of 2 ms.
type thrower struct {
	yaw, pitch, roll []float64
	from, to         float64 // moments drawn, s
	pitchAxis        float64 // height over the ground
	rollAxis         float64 // over the pitch axis
	hull             []point // edge, anticlockwise
	hullDepth        float64
	post             point   // radius and height of the base about the yaw axis; none without a radius
	place            point   // of the seat or the feet
	middle           float64 // over it, of the height
	short, tall      float64
	holdsOn          bool
	least, most      float64 // push
	aside            float64 // of the base, along x
	crown, wall      float64
	need             []float64
	rng              *rand.Rand
}

const (
	throwStep = 0.02
	bodyBall  = 0.15
)

func (w *thrower) end() float64 { return float64(len(w.pitch)-1) * throwStep }

// angles are those at a time, the places joined by straight lines; after the ride
// the base rests.
func (w *thrower) angles(t float64) (yaw, pitch, roll float64) {
	i := min(int(t/throwStep), len(w.pitch)-2)
	f := math.Min(t/throwStep-float64(i), 1)
	at := func(q []float64) float64 {
		if q == nil {
			return 0
		}
		return q[i] + f*(q[i+1]-q[i])
	}
	return at(w.yaw), at(w.pitch), at(w.roll)
}

// world is a place of the roll part at a time, turned by angles.
func (w *thrower) world(t float64, p point) point {
	yaw, pitch, roll := w.angles(t)
	s, c := math.Sincos(roll)
	p = point{p[0], c*p[1] - s*p[2], s*p[1] + c*p[2] + w.rollAxis}
	s, c = math.Sincos(pitch)
	p = point{c*p[0] + s*p[2], p[1], c*p[2] - s*p[0] + w.pitchAxis}
	s, c = math.Sincos(yaw)
	return point{c*p[0] - s*p[1], s*p[0] + c*p[1], p[2]}
}

func (w *thrower) velocity(t float64, p point) (v point) {
	first, last := math.Max(t-throwStep, 0), math.Min(t+throwStep, w.end())
	before, after := w.world(first, p), w.world(last, p)
	for k := range v {
		v[k] = (after[k] - before[k]) / (last - first)
	}
	return v
}

// back turns a place in the world into the roll part.
func (w *thrower) back(t float64, p point) point {
	yaw, pitch, roll := w.angles(t)
	s, c := math.Sincos(yaw)
	p = point{c*p[0] + s*p[1], c*p[1] - s*p[0], p[2] - w.pitchAxis}
	s, c = math.Sincos(pitch)
	p = point{c*p[0] - s*p[2], p[1], s*p[0] + c*p[2] - w.rollAxis}
	s, c = math.Sincos(roll)
	return point{p[0], c*p[1] + s*p[2], c*p[2] - s*p[1]}
}

// felt works out what the hands of a middling rider need, over his weight, at each
// place from the first moment on, where friction holds so much.
func (w *thrower) felt(friction float64) {
	p := w.place
	p[2] += w.middle * (w.short + w.tall) / 2
	w.need = nil
	for i := int(math.Round(w.from / throwStep)); i < len(w.pitch); i++ {
		g := w.feltAt(float64(i)*throwStep, p)
		side := math.Max(0, math.Hypot(g[0], g[1])-friction*math.Max(0, g[2]))
		w.need = append(w.need, math.Hypot(side, math.Max(0, -g[2]))/testGravity)
	}
}

// feltAt is what is felt at a place of the roll part, in its axes, at one of the 50
// times a second.
func (w *thrower) feltAt(t float64, p point) (g point) {
	a, b, c := w.world(math.Max(t-throwStep, 0), p), w.world(t, p), w.world(math.Min(t+throwStep, w.end()), p)
	var f point
	for k := range f {
		f[k] = (a[k] - 2*b[k] + c[k]) / (throwStep * throwStep)
	}
	f[2] += testGravity
	origin := w.world(t, point{})
	for k := range 3 {
		var unit point
		unit[k] = 1
		e := w.world(t, unit)
		for m := range 3 {
			g[k] += f[m] * (e[m] - origin[m])
		}
	}
	return g
}

// opens is when the hands open, seen 200 times a second.
func (w *thrower) opens(moment, grip, hold float64) (float64, bool) {
	const tick = 0.005
	since := -1.0
	for t := math.Ceil(moment/tick) * tick; t <= w.to; t += tick {
		x := (t - w.from) / throwStep
		i := min(int(x), len(w.need)-2)
		if w.need[i]+(x-float64(i))*(w.need[i+1]-w.need[i]) < grip {
			since = -1
			continue
		}
		if since < 0 {
			since = t
		}
		if t-since >= hold-1e-9 {
			return t, true
		}
	}
	return 0, false
}

// over reports whether a place of the roll part lies over the hull: on the inner
// side of every edge.
func (w *thrower) over(p point) bool {
	for i, a := range w.hull {
		b := w.hull[(i+1)%len(w.hull)]
		if (b[0]-a[0])*(p[1]-a[1])-(b[1]-a[1])*(p[0]-a[0]) < 0 {
			return false
		}
	}
	return true
}

// rise is the height of the edge at a place on it: between its ends, by the shorter
// way to each.
func (w *thrower) rise(p point) float64 {
	best, z := math.Inf(1), 0.0
	for i, a := range w.hull {
		b := w.hull[(i+1)%len(w.hull)]
		toA, toB, ab := math.Hypot(p[0]-a[0], p[1]-a[1]), math.Hypot(p[0]-b[0], p[1]-b[1]), math.Hypot(b[0]-a[0], b[1]-a[1])
		if off := toA + toB - ab; off < best {
			best, z = off, a[2]+(b[2]-a[2])*toA/ab
		}
	}
	return z
}

// A landed is where a rider came down and how, and when, whence and how fast he left.
type landed struct {
	x, y, middle, whole, wall, fall float64
	left, lasts                     float64
	at, v                           point
	met                             bool    // the hull from outside, or the base
	strike                          float64 // speed between body and hull where they met
}

// throw draws one rider. He holds on, sinks back onto what threw him, or lands.
func (w *thrower) throw() (out landed, what string) {
	between := func(a, b float64) float64 { return a + (b-a)*w.rng.Float64() }
	t, height := between(w.from, w.to), between(w.short, w.tall)
	if w.holdsOn {
		var off bool
		if t, off = w.opens(t, between(0.05, 0.35), between(0.1, 0.4)); !off {
			return out, "held"
		}
	}
	push, up := between(w.least, w.most), w.rng.Float64()
	sin, cos := math.Sincos(between(0, 2*math.Pi))
	low, high := 0.0, 5.0 // outward until the edge, by halving
	for range 50 {
		if m := (low + high) / 2; w.over(point{w.place[0] + m*cos, w.place[1] + m*sin}) {
			low = m
		} else {
			high = m
		}
	}
	start := point{w.place[0] + low*cos, w.place[1] + low*sin}
	start[2] = w.rise(start) + w.middle*height
	at, v := w.world(t, start), w.velocity(t, start)
	level := push * math.Sqrt(1-up*up)
	tip, tail := w.world(t, point{level * cos, level * sin, push * up}), w.world(t, point{})
	for k := range v {
		v[k] += tip[k] - tail[k]
	}
	out.left, out.at, out.v = t, at, v
	rim := math.Inf(-1)
	for _, p := range w.hull {
		rim = math.Max(rim, p[2])
	}
	distance := func(p point) float64 { return math.Hypot(p[0]+w.aside, p[1]) }
	outside := false // once clear of the edge that he went over
	for s := 0.0; ; s += 0.002 {
		here := point{at[0] + v[0]*s, at[1] + v[1]*s, at[2] + v[2]*s - testGravity*s*s/2}
		if v[2] < testGravity*s && here[2] > w.crown+w.wall+bodyBall {
			out.wall = distance(here) + bodyBall
		}
		if here[2] < w.crown+bodyBall {
			out.lasts = s
			out.x, out.y = here[0]+w.aside, here[1]
			out.middle = distance(here)
			out.whole = out.middle + 0.55*height
			out.fall = (v[0]*v[0]+v[1]*v[1]+v[2]*v[2])/2/testGravity + at[2] - w.crown - bodyBall
			if out.wall == 0 {
				out.wall = distance(at) + bodyBall
			}
			return out, "flew"
		}
		p := w.back(math.Min(t+s, w.end()), here)
		if p[2]-rim < math.Min(bodyBall, start[2]-rim)-0.005 && p[2] > rim-w.hullDepth-bodyBall && w.over(p) {
			return out, "back"
		}
		far := math.Hypot(here[0], here[1])
		if w.post[0] > 0 && math.Hypot(math.Max(0, far-w.post[0]), math.Max(0, here[2]-w.post[1])) < bodyBall {
			out.met = true
		}
		if far > 2 || out.strike > 0 || w.post[0] == 0 { // no corner of a hull with a base is 2 m out
			continue
		}
		aside := w.beside(p)
		outside = outside || aside >= bodyBall
		up := math.Max(0, math.Max(p[2]-rim, rim-w.hullDepth-p[2]))
		if outside && math.Hypot(aside, up) < math.Min(bodyBall, start[2]-rim)-0.005 {
			u := w.velocity(math.Min(t+s, w.end()), p)
			out.met, out.strike = true, size(point{v[0] - u[0], v[1] - u[1], v[2] - testGravity*s - u[2]})
		}
	}
}

// beside is how far a place of the roll part lies outside the hull's outline: by the
// triangle that it makes with each edge.
func (w *thrower) beside(p point) float64 {
	if w.over(p) {
		return 0
	}
	least := math.Inf(1)
	for i, a := range w.hull {
		b := w.hull[(i+1)%len(w.hull)]
		toA, toB, ab := math.Hypot(p[0]-a[0], p[1]-a[1]), math.Hypot(p[0]-b[0], p[1]-b[1]), math.Hypot(b[0]-a[0], b[1]-a[1])
		switch {
		case toA*toA > toB*toB+ab*ab: // beyond b
			least = math.Min(least, toB)
		case toB*toB > toA*toA+ab*ab:
			least = math.Min(least, toA)
		default: // twice the area over the edge
			least = math.Min(least, math.Abs((b[0]-a[0])*(p[1]-a[1])-(b[1]-a[1])*(p[0]-a[0]))/ab)
		}
	}
	return least
}

// A share counted in two samples of these sizes differs by less than this, but
// about once in ten thousand times.
func scatter(q float64, n, m float64) float64 { return 4 * math.Sqrt(q*(1-q)*(1/n+1/m)) }

// share fails unless a count among so many lies within the scatter of a share found in
// another sample; a count of 5 is in it where nearly none is.
func share(t *testing.T, what string, count, among, want, n float64) {
	t.Helper()
	proved[count] = true
	if off := math.Abs(count/among - want); off > scatter(math.Max(want, 5/n), n, among)+0.003*want {
		t.Errorf("%s: got %g of %g, want a share of %g", what, count, among, want)
	}
}

// lobedVolume is the air of a mattress over its plan: baffles H apart from lobe to
// lobe, s from baffle to baffle, lobes that are arcs of one circle.
func lobedVolume(s, H float64) float64 {
	D := math.Hypot(H, s)
	return (s*H/2 + D*D/2*math.Atan(s/H)) / s
}

// item is one number of a list.
func item(t *testing.T, res *runner.Result, name string, i int) float64 {
	t.Helper()
	items := res.Outcome.Values[name].Items
	if i >= len(items) {
		t.Fatalf("%s: got %d numbers", name, len(items))
	}
	return float64(items[i].Number)
}

// bounds fails unless a bound of 99.9 % with 95 % confidence, found from so many
// flights, lies where another sample says: above its share of 0.9985 and below what
// one in some thousand flights passes.
func bounds(t *testing.T, what string, got float64, other []float64, flights float64) {
	t.Helper()
	boundsAll(t, what, got, other, flights, 0.001)
}

// boundsAll is the same for a bound that a share of the flights passes.
func boundsAll(t *testing.T, what string, got float64, other []float64, flights, past float64) {
	t.Helper()
	proved[got] = true
	slices.Sort(other)
	n := float64(len(other))
	beyond := flights*past - 1.645*math.Sqrt(flights*past) // of the flights, left beyond the bound
	share := 1 - math.Max(beyond, 0.5)/flights
	low := other[int(math.Max(0, (share-scatter(share, n, flights))*n))]
	high := other[len(other)-1] * 1.05
	if top := (share + scatter(share, n, flights)) * n; top < n-1 {
		high = other[int(top)]
	}
	if !(low <= got && got <= high) {
		t.Errorf("%s: got %.4f, want %.4f to %.4f", what, got, low, high)
	}
}
