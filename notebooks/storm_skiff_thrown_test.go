package notebooks

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"tautline/runner"
)

// thrower throws riders of the storm skiff by another way than the library: the
// angles at 50 places a second, velocities and accelerations by their differences,
// riders from another generator, flights in steps of 2 ms.
type thrower struct {
	yaw, pitch, roll []float64
	xs               float64 // of the seat
	need             []float64
	rng              *rand.Rand
}

const (
	throwStep = 0.02
	seatOver  = 0.28
	stormFrom = 49.0
	stormTo   = 79.0
	bodyBall  = 0.15
)

var gunwale = []point{{1.5, 0, 0.35}, {0.7, 0.5, 0.3}, {-1.1, 0.5, 0.3}, {-1.1, -0.5, 0.3}, {0.7, -0.5, 0.3}}

// angles are those at a time, the places joined by straight lines; after the ride
// the skiff rests.
func (w *thrower) angles(t float64) (yaw, pitch, roll float64) {
	i := min(int(t/throwStep), len(w.yaw)-2)
	f := math.Min(t/throwStep-float64(i), 1)
	at := func(q []float64) float64 { return q[i] + f*(q[i+1]-q[i]) }
	return at(w.yaw), at(w.pitch), at(w.roll)
}

// world is a place of the roll part at one of the 50 places a second, or between.
func (w *thrower) world(t float64, p point) point {
	yaw, pitch, roll := w.angles(t)
	return seat(p, yaw, pitch, roll)
}

func (w *thrower) velocity(t float64, p point) (v point) {
	before, after := w.world(t-throwStep, p), w.world(math.Min(t+throwStep, stormTo), p)
	for k := range v {
		v[k] = (after[k] - before[k]) / (math.Min(t+throwStep, stormTo) - t + throwStep)
	}
	return v
}

// back turns a place in the world into the roll part.
func (w *thrower) back(t float64, p point) point {
	yaw, pitch, roll := w.angles(t)
	s, c := math.Sincos(yaw)
	p = point{c*p[0] + s*p[1], c*p[1] - s*p[0], p[2] - 0.75}
	s, c = math.Sincos(pitch)
	p = point{c*p[0] - s*p[2], p[1], s*p[0] + c*p[2] - 0.12}
	s, c = math.Sincos(roll)
	return point{p[0], c*p[1] + s*p[2], c*p[2] - s*p[1]}
}

// felt works out what the hands of a middling rider need, over his weight.
func (w *thrower) felt() {
	p := point{w.xs, 0, seatOver + 0.14*(1.10+1.95)/2}
	for i := int(stormFrom / throwStep); i < len(w.yaw); i++ {
		at := func(k int) point {
			k = min(k, len(w.yaw)-1)
			return seat(p, w.yaw[k], w.pitch[k], w.roll[k])
		}
		a, b, c := at(i-1), at(i), at(i+1)
		var f, g point
		for k := range f {
			f[k] = (a[k] - 2*b[k] + c[k]) / (throwStep * throwStep)
		}
		f[2] += testGravity
		origin := seat(point{}, w.yaw[i], w.pitch[i], w.roll[i])
		for k := range 3 {
			var unit point
			unit[k] = 1
			e := seat(unit, w.yaw[i], w.pitch[i], w.roll[i])
			for m := range 3 {
				g[k] += f[m] * (e[m] - origin[m])
			}
		}
		side := math.Max(0, math.Hypot(g[0], g[1])-0.2*math.Max(0, g[2]))
		w.need = append(w.need, math.Hypot(side, math.Max(0, -g[2]))/testGravity)
	}
}

// opens is when the hands open, seen 200 times a second.
func (w *thrower) opens(moment, grip, hold float64) (float64, bool) {
	const tick = 0.005
	since := -1.0
	for t := math.Ceil(moment/tick) * tick; t <= stormTo; t += tick {
		x := (t - stormFrom) / throwStep
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

// overGunwale reports whether a place of the roll part lies over the hull: on the
// inner side of every edge.
func overGunwale(p point) bool {
	for i, a := range gunwale {
		b := gunwale[(i+1)%len(gunwale)]
		if (b[0]-a[0])*(p[1]-a[1])-(b[1]-a[1])*(p[0]-a[0]) < 0 { // the list runs anticlockwise
			return false
		}
	}
	return true
}

// A landed is where a rider came down and how.
type landed struct{ middle, whole, wall, fall float64 }

// throw draws one rider. He holds on, sinks back into the skiff, or lands.
func (w *thrower) throw(holdsOn bool, least, most, crown, wall float64) (out landed, what string) {
	between := func(a, b float64) float64 { return a + (b-a)*w.rng.Float64() }
	t, height := between(stormFrom, stormTo), between(1.10, 1.95)
	if holdsOn {
		var off bool
		if t, off = w.opens(t, between(0.05, 0.35), between(0.1, 0.4)); !off {
			return out, "held"
		}
	}
	push, up := between(least, most), w.rng.Float64()
	sin, cos := math.Sincos(between(0, 2*math.Pi))
	// Outward until the gunwale, by halving.
	low, high := 0.0, 3.0
	for range 50 {
		if m := (low + high) / 2; overGunwale(point{w.xs + m*cos, m * sin}) {
			low = m
		} else {
			high = m
		}
	}
	e := point{w.xs + low*cos, low * sin, 0.30}
	if e[0] > 0.7 { // rises to the bow
		e[2] = 0.30 + 0.05*(e[0]-0.7)/0.8
	}
	start := e
	start[2] += 0.14 * height
	at, v := w.world(t, start), w.velocity(t, start)
	level := push * math.Sqrt(1-up*up)
	tip, tail := w.world(t, point{level * cos, level * sin, push * up}), w.world(t, point{})
	for k := range v {
		v[k] += tip[k] - tail[k]
	}
	at0, v0 := at, v
	rim := 0.35
	for s := 0.0; ; s += 0.002 {
		here := point{at0[0] + v0[0]*s, at0[1] + v0[1]*s, at0[2] + v0[2]*s - testGravity*s*s/2}
		v[2] = v0[2] - testGravity*s
		if v[2] <= 0 && here[2] > crown+wall+bodyBall {
			out.wall = math.Hypot(here[0], here[1]) + bodyBall
		}
		if here[2] < crown+bodyBall {
			out.middle = math.Hypot(here[0], here[1])
			out.whole = out.middle + 0.55*height
			out.fall = (v0[0]*v0[0]+v0[1]*v0[1]+v0[2]*v0[2])/2/testGravity + at0[2] - crown - bodyBall
			if out.wall == 0 {
				out.wall = math.Hypot(at0[0], at0[1]) + bodyBall
			}
			return out, "flew"
		}
		if p := w.back(math.Min(t+s, stormTo), here); overGunwale(p) && p[2]-rim < bodyBall-0.005 && p[2]-rim < start[2]-rim-0.005 && p[2] > rim-0.25-bodyBall {
			return out, "back"
		}
	}
}

// A share counted in two samples of these sizes differs by less than this, but
// about once in ten thousand times.
func scatter(q float64, n, m float64) float64 { return 4 * math.Sqrt(q*(1-q)*(1/n+1/m)) }

func TestStormSkiffThrown(t *testing.T) {
	const g = testGravity
	res := run(t, "storm-skiff-thrown.md")
	near(t, "lightest", number(t, res, "mLeast"), 15*1.10*1.10)
	near(t, "heaviest", number(t, res, "mMost"), 29*1.95*1.95)
	crown := math.Hypot(0.75, 0.55) // top and bottom lobe of a bay are arcs of one circle about its middle
	near(t, "crown", number(t, res, "crown"), crown)
	wall := 4*0.35 - crown
	near(t, "wall", number(t, res, "wall"), wall)
	near(t, "flights needed", number(t, res, "need"), math.Ceil(math.Log(0.05)/math.Log(0.999)))
	near(t, "ring", number(t, res, "onRing"), 2.95)
	near(t, "fall of HF-113", number(t, res, "hIn"), 1.3+4/2/g)

	w := &thrower{yaw: list(t, res, "yaw", 1), pitch: list(t, res, "pitch", 1), roll: list(t, res, "roll", 1), rng: rand.New(rand.NewPCG(7, 11))}
	cases := []struct {
		name        string
		xs          float64
		holdsOn     bool
		least, most float64
		drawn       float64 // in the notebook
	}{
		{"bow", 0.45, true, 0.3, 2, 100_000}, {"stern", -0.45, true, 0.3, 2, 40_000},
		{"nobody holds on", 0.45, false, 0.3, 2, 20_000}, {"jumping", 0.45, true, 2, 2.5, 40_000},
	}
	for i, c := range cases {
		w.xs, w.need = c.xs, nil
		w.felt()
		const n = 40_000
		counts := map[string]float64{}
		var middle, whole, over, fall []float64
		for range n {
			l, what := w.throw(c.holdsOn, c.least, c.most, crown, wall)
			if counts[what]++; what == "flew" {
				middle, whole, over, fall = append(middle, l.middle), append(whole, l.whole), append(over, l.wall), append(fall, l.fall)
			}
		}
		for what, name := range map[string]string{"held": "held", "back": "back", "flew": "fly"} {
			got, want := item(t, res, name, i), counts[what]/n
			if off := math.Abs(got - want); off > scatter(math.Max(want, 1e-3), n, c.drawn)+0.003 { // 0.003: hull and needs seen in coarser steps
				t.Errorf("%s, %s: got %.4f, want %.4f", c.name, what, got, want)
			}
		}
		// The bound of 99.9 % is the order statistic that the binomial law gives: between
		// these quantiles of the other sample.
		flown := item(t, res, "fly", i) * c.drawn
		bounds(t, c.name+", middles", item(t, res, "middles", i), middle, flown)
		bounds(t, c.name+", whole", item(t, res, "wholes", i), whole, flown)
		bounds(t, c.name+", walls", item(t, res, "walls", i), over, flown)
		bounds(t, c.name+", fall", item(t, res, "falls", i), fall, flown)
	}
	near(t, "beyond the ring", number(t, res, "short"), item(t, res, "wholes", 0)-2.95)
	near(t, "beyond the inner side", number(t, res, "jumped"), item(t, res, "middles", 3)-2.25)
	near(t, "flown", number(t, res, "flown"), item(t, res, "fly", 0)*100_000)
	near(t, "share that flies", number(t, res, "thrown"), item(t, res, "fly", 0))
	if hits := number(t, res, "met"); hits > 10 {
		t.Errorf("strikes: got %g", hits)
	}
	near(t, "as a fall", number(t, res, "asFall"), math.Pow(number(t, res, "strike"), 2)/2/g)

	// The heaviest who jumps, by the other integration.
	V := lobedVolume(0.55, 0.75) * math.Pi * 2.25 * 2.25
	heavy := fallingBody{mass: 29 * 1.95 * 1.95, area: 0.75, round: 0.1, depth: crown, volume: V, p: 1500, vent: 20e-4}
	heavy.drop(math.Sqrt(2*g*number(t, res, "hard")), crown)
	within(t, "air left", number(t, res, "left"), crown-heavy.deepest, 1e-4)
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
	slices.Sort(other)
	n := float64(len(other))
	beyond := flights*0.001 - 1.645*math.Sqrt(flights*0.001) // of the flights, left beyond the bound
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
