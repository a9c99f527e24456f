package notebooks

import (
	"math"
	"testing"

	"tautline/runner"
)

// A body on air over a mat, worked again: fixed steps of Runge and Kutta's
// classic method, and pressure from the volume and the air left.
type fallingBody struct {
	mass, area, round   float64 // kg, m², m
	depth, volume, p    float64 // m, m³, Pa
	vent                float64 // m², times the discharge coefficient
	strain, stress      []float64
	mat                 float64 // m
	deepest, felt, time float64
	pressure, end       float64
	times, feels        []float64
}

const (
	testGravity = 9.80665
	testAmbient = 101325.0
)

func (b *fallingBody) state(y [3]float64) (force, absolute, air float64) {
	x := math.Max(0, y[0])
	area, pushed := b.area, 0.0
	in := math.Min(x, b.depth)
	if in < b.round {
		pushed = b.area * in * in / 2 / b.round
	} else {
		pushed = b.area * (in - b.round/2)
	}
	if x < b.round {
		area *= x / b.round
	}
	air = b.volume - pushed
	absolute = (testAmbient + b.p) * math.Pow(y[2]*b.volume/air, 1.4)
	carry := absolute - testAmbient
	if e := (x - b.depth) / b.mat; b.mat > 0 && e > 0 {
		for i := 1; i < len(b.strain); i++ {
			if e <= b.strain[i] {
				carry = math.Max(carry, b.stress[i-1]+(b.stress[i]-b.stress[i-1])*(e-b.strain[i-1])/(b.strain[i]-b.strain[i-1]))
				break
			}
		}
	}
	return carry * area, absolute, air
}

func (b *fallingBody) rate(y [3]float64) [3]float64 {
	force, absolute, air := b.state(y)
	whole := 1.2 * (testAmbient + b.p) / testAmbient * b.volume // kg of air before
	out := 0.0
	if absolute > testAmbient {
		out = b.vent * math.Sqrt(2*y[2]*whole/air*(absolute-testAmbient)) / whole
	}
	return [3]float64{y[1], testGravity - force/b.mass, -out}
}

// drop follows the body down to its deepest point or to the ground.
func (b *fallingBody) drop(speed, ground float64) {
	b.follow(speed, func(y [3]float64) bool { return y[1] > 0 && y[0] < ground })
}

// bounce follows the body down and up until it leaves the bed, and is only for a bed
// without mats, which give back less than they take.
func (b *fallingBody) bounce(speed float64) {
	b.follow(speed, func(y [3]float64) bool { return y[1] > 0 || y[0] > 0 })
}

func (b *fallingBody) follow(speed float64, on func(y [3]float64) bool) {
	const h = 1e-5
	y := [3]float64{0, speed, 1}
	step := func(y [3]float64, k [3]float64, share float64) [3]float64 {
		for i := range y {
			y[i] += share * h * k[i]
		}
		return y
	}
	for b.time = 0; on(y); b.time += h {
		force, absolute, _ := b.state(y)
		b.times, b.feels = append(b.times, b.time), append(b.feels, force/b.mass/testGravity)
		b.felt, b.pressure = math.Max(b.felt, force/b.mass/testGravity), math.Max(b.pressure, absolute-testAmbient)
		b.deepest, b.end = y[0], y[1]
		k1 := b.rate(y)
		k2 := b.rate(step(y, k1, 0.5))
		k3 := b.rate(step(y, k2, 0.5))
		k4 := b.rate(step(y, k3, 1))
		for i := range y {
			y[i] += h / 6 * (k1[i] + 2*k2[i] + 2*k3[i] + k4[i])
		}
	}
}

// worstWindow is the head injury criterion over all windows of whole milliseconds.
func (b *fallingBody) worstWindow() (best float64) {
	sum := make([]float64, len(b.times))
	for i := 1; i < len(sum); i++ {
		sum[i] = sum[i-1] + (b.times[i]-b.times[i-1])*(b.feels[i]+b.feels[i-1])/2
	}
	for i := 0; i < len(sum); i += 100 {
		for j := i + 100; j < len(sum); j += 100 {
			long := b.times[j] - b.times[i]
			best = math.Max(best, math.Pow((sum[j]-sum[i])/long, 2.5)*long)
		}
	}
	return best
}

// The numbers of the landing, worked again in SI units.
func TestLagoonLanding(t *testing.T) {
	const (
		h, u    = 1.30, 2.0 // m, m/s
		s, H    = 0.55, 0.75
		p       = 1500.0
		inner   = 2.25
		opening = 0.61 * 0.07 // m²
	)
	res := run(t, "lagoon-landing.md")

	// Flight without drag.
	near(t, "speed", number(t, res, "vIn"), math.Sqrt(u*u+2*testGravity*h))
	near(t, "fall", number(t, res, "hIn"), h+u*u/2/testGravity)
	near(t, "reach", number(t, res, "reach"), u*math.Sqrt(u*u+2*testGravity*h)/testGravity)
	// No angle carries farther: the flight itself at each tenth of a degree.
	most := 0.0
	for k := range 900 {
		sin, cos := math.Sincos(float64(k) / 10 * math.Pi / 180)
		flight := (u*sin + math.Sqrt(u*u*sin*sin+2*testGravity*h)) / testGravity
		most = math.Max(most, u*cos*flight)
	}
	within(t, "farthest of all angles", number(t, res, "reach"), most, 1e-5)

	// Mattress: crowns and section of one bay, as in the notebook on the bed.
	D := math.Hypot(H, s)
	alpha := math.Atan(s / H)
	V := (s*H/2 + D*D/2*alpha) / s * math.Pi * inner * inner
	near(t, "depth", number(t, res, "D"), D)
	near(t, "volume", number(t, res, "V"), V)

	v := math.Sqrt(u*u + 2*testGravity*h)
	heavy := fallingBody{mass: 100, area: 0.75, round: 0.1, depth: D, volume: V, p: p, vent: 20e-4}
	heavy.drop(v, D)
	// Steps of 1e-5 s end up to v·1e-5 before the deepest point, where the speed is
	// nearly 0: the depth is good to 1e-6, the greatest force to the same.
	within(t, "deepest", number(t, res, "deep", 0), heavy.deepest, 1e-5)
	within(t, "felt", number(t, res, "deep", 3), heavy.felt, 1e-5)
	within(t, "pressure", number(t, res, "deep", 2), heavy.pressure, 1e-5)
	within(t, "left", number(t, res, "left"), D-heavy.deepest, 1e-4)

	light := fallingBody{mass: 25, area: 0.40, round: 0.08, depth: D, volume: V, p: p, vent: 20e-4}
	light.drop(v, D)
	within(t, "lightest feels", number(t, res, "hard", 3), light.felt, 1e-5)
	within(t, "at most", number(t, res, "felt"), math.Max(heavy.felt, light.felt), 1e-5)

	// The whole bounce: how hard for the head, at windows to the millisecond, which
	// miss the best by its curvature, 1e-4; and how high it throws back.
	up := fallingBody{mass: 100, area: 0.75, round: 0.1, depth: D, volume: V, p: p, vent: 20e-4}
	up.bounce(v)
	within(t, "thrown back", number(t, res, "back"), up.end*up.end/2/testGravity, 1e-4)
	within(t, "head, 100 kg", number(t, res, "hicDeep", 0), up.worstWindow(), 2e-4)
	small := fallingBody{mass: 25, area: 0.40, round: 0.08, depth: D, volume: V, p: p, vent: 20e-4}
	small.bounce(v)
	within(t, "head, 25 kg", number(t, res, "hic", 0), small.worstWindow(), 2e-4)
	within(t, "head", number(t, res, "HIC"), math.Max(up.worstWindow(), small.worstWindow()), 2e-4)

	// The depth that was solved for: there the heaviest stops with 15 % left.
	need := number(t, res, "need")
	asked := fallingBody{mass: 100, area: 0.75, round: 0.1, depth: need, volume: V * need / D, p: p, vent: 20e-4}
	asked.drop(v, need)
	within(t, "needed depth", asked.deepest, 0.85*need, 1e-5)

	// After the power cut, on the mats and on the bare ground.
	late := fallingBody{mass: 100, area: 0.75, round: 0.1, depth: D, volume: V, p: 100, vent: opening, mat: 0.30,
		strain: []float64{0, 0.10, 0.30, 0.50, 0.65, 0.75}, stress: []float64{0, 5e3, 8e3, 14e3, 30e3, 70e3}}
	late.drop(v, D+0.75*0.30)
	within(t, "deepest on the mats", number(t, res, "late", 0), late.deepest, 1e-5)
	within(t, "felt on the mats", number(t, res, "late", 3), late.felt, 1e-4)
	within(t, "way left", number(t, res, "margin"), D+0.75*0.30-late.deepest, 1e-3)
	bare := fallingBody{mass: 100, area: 0.75, round: 0.1, depth: D, volume: V, p: 100, vent: opening}
	bare.drop(v, D)
	within(t, "speed at the ground", number(t, res, "vGround"), bare.end, 1e-4)
	within(t, "as a fall", number(t, res, "hGround"), bare.end*bare.end/2/testGravity, 2e-4)

	// Head injury criterion on the mats: all windows of the descent, by the
	// millisecond, cannot beat it, and the best of them comes close. The library
	// also sees the way up, so that it finds a little more.
	best := late.worstWindow()
	if got := number(t, res, "hicLate", 0); got < best || got > 2*best {
		t.Errorf("head injury criterion: got %g, want from %g, that of the way down, to its double", got, best)
	}
	works(t, res, 1e-12, map[string]float64{
		"demand of rider's reach": 0.85 + u*math.Sqrt(u*u+2*testGravity*h)/testGravity + 0.60, "most of rider's reach": inner + 0.70,
		"least of air left below the heaviest rider": 0.15 * D,
	})
	landingCourse(t, res, D, map[string]*fallingBody{"deep": &heavy, "hard": &light, "late": &late, "worst": &bare},
		map[string]*fallingBody{"hicDeep": &up, "hic": &small, "hicLate": &late})
	for name, want := range map[string]float64{
		"h": h, "u": u, "inner": inner, "bow": 0.85, "rider": 0.60, "p": p,
		"limit.HIC": 1000, "limit.Felt": 200, // EN 1177:2018
		"deep.Rebound": -up.end, "hard.Rebound": -small.end, // upward
	} {
		within(t, name, named(t, res, name), want, 1e-4)
	}
}

// landingCourse works the moments of each fall again: when it is deepest, when most is
// felt, what the mats take, and the head injury criterion over the window found.
func landingCourse(t *testing.T, res *runner.Result, D float64, falls, heads map[string]*fallingBody) {
	t.Helper()
	for name, b := range falls {
		within(t, name+", time", named(t, res, name+".Time"), b.time, 2e-4) // a step or two of 1e-5 s
		// With mats or on bare ground the pressure rises by 36 kPa/s until the body is
		// there and no longer: a step of 1e-5 s on either side is 0.7 Pa of 3070 Pa.
		within(t, name+", pressure", named(t, res, name+".Pressure"), b.pressure, 2.4e-4)
		within(t, name+", felt", named(t, res, name+".Felt"), b.felt, 1e-4)
		if at := int(named(t, res, name+".FeltTime") / 1e-5); at >= len(b.feels)+2 || b.feels[min(at, len(b.feels)-1)] < b.felt*(1-1e-3) {
			t.Errorf("%s: most is felt at %g s: there it is %g by hand, at most %g", name, named(t, res, name+".FeltTime"), b.feels[min(at, len(b.feels)-1)], b.felt)
		}
		pressed, left, drop := math.Max(0, b.deepest-D), 0.0, 0.0
		if name == "worst" { // on bare ground
			pressed, left, drop = 0, b.end, b.end*b.end/2/testGravity
		}
		within(t, name+", depth", named(t, res, name+".Depth"), b.deepest, 1e-4)
		within(t, name+", mats", named(t, res, name+".Foam"), pressed, 1e-3)
		within(t, name+", speed left", named(t, res, name+".Speed"), left, 1e-4)
		within(t, name+", fall on the ground", named(t, res, name+".HardDrop"), drop, 2e-4)
	}
	for _, name := range []string{"late", "worst"} { // stopped, by mats or ground: not thrown back
		near(t, name+", thrown back", named(t, res, name+".Rebound"), 0)
	}
	for name, b := range heads {
		got := named(t, res, name+".HIC")
		within(t, name+" over its window", b.over(named(t, res, name+".Begin"), named(t, res, name+".End")), got, 1e-3) // ends of the window by steps of 1e-5 s
	}
}

// over is the head injury criterion over one window.
func (b *fallingBody) over(begin, end float64) float64 {
	sum := 0.0
	for i := 1; i < len(b.times); i++ {
		if b.times[i] > begin && b.times[i] <= end {
			sum += (b.times[i] - b.times[i-1]) * (b.feels[i] + b.feels[i-1]) / 2
		}
	}
	return math.Pow(sum/(end-begin), 2.5) * (end - begin)
}
