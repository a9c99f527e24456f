package notebooks

import (
	"encoding/csv"
	"fmt"
	"math"
	"os"
	"strconv"
	"strings"
	"testing"

	"tautline/runner"
)

// hollow is a rectangular tube, cold-formed, up to 6 mm thick: EN 10219-2:2006,
// Annex B, with corner radii of two and one wall.
type hollow struct{ a, iy, iz, wy, wz, j, wt float64 }

func rectangular(h, b, t float64) hollow {
	var r hollow
	ro, ri := 2*t, t
	r.a = 2*t*(b+h-2*t) - (4-math.Pi)*(ro*ro-ri*ri)
	turned := func(h, b float64) (i, w float64) {
		part := func(r, depth float64) (a, y, i float64) {
			return (1 - math.Pi/4) * r * r, depth/2 - (10-3*math.Pi)/(12-3*math.Pi)*r, (1.0/3 - math.Pi/16 - 1/(3*(12-3*math.Pi))) * math.Pow(r, 4)
		}
		ag, hg, ig := part(ro, h)
		ax, hx, ix := part(ri, h-2*t)
		i = b*h*h*h/12 - (b-2*t)*math.Pow(h-2*t, 3)/12 - 4*(ig+ag*hg*hg) + 4*(ix+ax*hx*hx)
		w = b*h*h/4 - (b-2*t)*(h-2*t)*(h-2*t)/4 - 4*ag*hg + 4*ax*hx
		return i, w
	}
	r.iy, r.wy = turned(h, b)
	r.iz, r.wz = turned(b, h)
	rc := 1.5 * t
	round := 2*(b+h-2*t) - 2*rc*(4-math.Pi)
	inside := (b-t)*(h-t) - rc*rc*(4-math.Pi)
	k := 2 * inside * t / round
	r.j = t*t*t*round/3 + 2*k*inside
	r.wt = r.j / (t + k/t)
	return r
}

func tubular(d, t float64) hollow {
	in := d - 2*t
	i := math.Pi / 64 * (math.Pow(d, 4) - math.Pow(in, 4))
	w := (d*d*d - in*in*in) / 6
	return hollow{math.Pi / 4 * (d*d - in*in), i, i, w, w, 2 * i, 4 * i / d}
}

func (h hollow) rod(from, to int) rod {
	return rod{from: from, to: to, a: h.a, iy: h.iy, iz: h.iz, j: h.j, mass: 7850 * h.a}
}

// The base frame by hand: its nodes and members in the order of the notebook.
type handBase struct {
	*spaceFrame
	sections []hollow
	round    []bool
	lengths  []float64 // for buckling
}

const (
	nodeFoot = iota
	nodeProp
	nodeHead
	nodeAxle
	nodeFore
	nodeAft
)

// Stiffness of a rubber pad, in N/m.
const padDown, padAside = 1600e3, 400e3

// handJoints are the members whose first ends are the joints of the files, in
// their order.
var handJoints = []int{0, 5, 6, 9, 10, 11, 14, 15, 16, 19, 20, 21, 24}

func newHandBase() *handBase {
	b := &handBase{spaceFrame: &spaceFrame{pads: map[int]point{}, pull: 9.80665}}
	b.at = []point{{0, 0, 0.14}, {0, 0, 0.49}, {0, 0, 0.56}, {0, 0, 0.75}, {0.45, 0, 1.39}, {-0.45, 0, 1.39}}
	b.mass = []float64{0, 0, 60, 0, 62.5, 62.5}
	arm, post, brace, leg := rectangular(0.06, 0.06, 0.004), tubular(0.0889, 0.005), tubular(0.0424, 0.003), tubular(0.0603, 0.004)
	fork, cradle := rectangular(0.1, 0.1, 0.005), rectangular(0.1, 0.06, 0.004)
	add := func(from, to int, h hollow, round, hinged bool, length float64) {
		r := h.rod(from, to)
		r.hinged = hinged
		if l, _ := b.axesOf(r); length == 0 {
			length = l
		} else if length < 0 { // twice its own
			length = 2 * l
		}
		b.rods, b.sections = append(b.rods, r), append(b.sections, h)
		b.round, b.lengths = append(b.round, round), append(b.lengths, length)
	}
	for _, s := range [][2]float64{{1, 1}, {-1, 1}, {-1, -1}, {1, -1}} {
		b.at = append(b.at, point{s[0] * 0.425, s[1] * 0.425, 0.14}, point{s[0] * 0.85, s[1] * 0.85, 0.14}, point{s[0] * 0.85, s[1] * 0.85, 0})
		b.mass = append(b.mass, 60, 0, 0)
	}
	add(nodeFoot, nodeProp, post, true, false, 1.22)
	add(nodeProp, nodeHead, post, true, false, 1.22)
	add(nodeHead, nodeAxle, fork, false, false, 1.22)
	add(nodeAxle, nodeFore, cradle, false, false, -1)
	add(nodeAxle, nodeAft, cradle, false, false, -1)
	for i := range 4 {
		corner, end, pad, next := 6+3*i, 7+3*i, 8+3*i, 6+3*((i+1)%4)
		add(nodeFoot, corner, arm, false, false, 0)
		add(corner, end, arm, false, false, 0)
		add(end, pad, leg, true, false, -1)
		add(corner, next, arm, false, false, 0)
		add(corner, nodeProp, brace, true, true, 0)
		b.pads[pad] = point{padAside, padAside, padDown}
	}
	return b
}

// combination loads the frame: factors on own weight, riders fore and aft, and
// on heave, surge along x and along y as shares of what a full or empty seat weighs.
func (b *handBase) combination(own, fore, aft, heave, x, y float64, alone bool) *handBase {
	const g = 9.80665
	c := *b
	f := *b.spaceFrame
	c.spaceFrame = &f
	f.pull = own * g
	f.loads = make([]point, len(f.at))
	full, other := 110+62.5, 110+62.5
	if alone {
		other = 62.5
	}
	f.loads[nodeFore] = point{x * full * 0.5 * g, y * full * 0.5 * g, -fore*110*g - heave*full*0.4*g}
	f.loads[nodeAft] = point{x * other * 0.5 * g, y * other * 0.5 * g, -aft*110*g - heave*other*0.4*g}
	return &c
}

func (b *handBase) combinations() []*handBase {
	d := 1.5 * math.Sqrt(0.5)
	return []*handBase{
		b.combination(1.35, 1.5, 1.5, 0, 0, 0, false),
		b.combination(1.35, 1.5, 1.5, 1.5, 1.5, 0, false),
		b.combination(1.35, 1.5, 1.5, 1.5, 0, 1.5, false),
		b.combination(1.35, 1.5, 1.5, 1.5, d, d, false),
		b.combination(1.35, 1.5, 0, 1.5, 1.5, 0, true),
		b.combination(0.9, 1, 1, -1.5, 1.5, 0, false),
		b.combination(0.9, 1, 1, -1.5, 0, 1.5, false),
		b.combination(0.9, 1, 1, -1.5, d, d, false),
		b.combination(0.9, 1, 0, -1.5, 1.5, 0, true),
	}
}

// used is a member's utilisation in S235 by EN 1993-1-1:2005, class 1, cold-formed:
// 6.2.3 to 6.2.7 and 6.2.9.1 at 41 places, 6.3.1 and 6.3.3 with Annex B and
// moments that the frame's sway makes (Cm = 0.9).
func (b *handBase) used(i int, u []float64) (most float64) {
	const fy = 235e6
	r, h := b.rods[i], b.sections[i]
	var push, my, mz float64
	for k := range 41 {
		c := b.cut(r, u, float64(k)/40)
		n := math.Abs(c[0]) / (h.a * fy)
		push, my, mz = math.Max(push, -c[0]), math.Max(my, math.Abs(c[4])), math.Max(mz, math.Abs(c[5]))
		ry, rz := math.Abs(c[4])/(h.wy*fy), math.Abs(c[5])/(h.wz*fy)
		keepY, keepZ, power := 1.0, 1.0, 2.0
		if b.round[i] {
			keepY = math.Min(1, 1.04*(1-math.Pow(n, 1.7)))
			keepZ = keepY
		} else {
			sides := rectangularOf(h)
			keepY = math.Min(1, (1-n)/(1-0.5*math.Min(0.5, (h.a-2*sides[1]*sides[2])/h.a)))
			keepZ = math.Min(1, (1-n)/(1-0.5*math.Min(0.5, (h.a-2*sides[0]*sides[2])/h.a)))
			power = math.Min(6, 1.66/(1-1.13*n*n))
		}
		y, z := ry/keepY, rz/keepZ
		together := math.Pow(math.Pow(y, power)+math.Pow(z, power), 1/power)
		twist := math.Abs(c[3]) / (h.wt * fy / math.Sqrt(3))
		most = math.Max(most, math.Max(math.Max(n, together), twist))
	}
	if push == 0 {
		return most
	}
	chi := func(second float64) (lambda, chi float64) {
		lambda = math.Sqrt(h.a * fy / (math.Pi * math.Pi * steelE * second / (b.lengths[i] * b.lengths[i])))
		phi := 0.5 * (1 + 0.49*(lambda-0.2) + lambda*lambda)
		return lambda, math.Min(1, 1/(phi+math.Sqrt(phi*phi-lambda*lambda)))
	}
	ly, cy := chi(h.iy)
	lz, cz := chi(h.iz)
	ny, nz := push/(cy*h.a*fy), push/(cz*h.a*fy)
	k := func(l, n float64) float64 { return 0.9 * (1 + math.Min(l-0.2, 0.8)*n) }
	kyy, kzz := k(ly, ny), k(lz, nz)
	ry, rz := my/(h.wy*fy), mz/(h.wz*fy)
	return math.Max(most, math.Max(ny+kyy*ry+0.6*kzz*rz, nz+0.6*kyy*ry+kzz*rz))
}

// rectangularOf finds a tube's height, width and wall.
func rectangularOf(h hollow) [3]float64 {
	for _, s := range [][3]float64{{0.06, 0.06, 0.004}, {0.1, 0.1, 0.005}, {0.1, 0.06, 0.004}} {
		if rectangular(s[0], s[1], s[2]) == h {
			return s
		}
	}
	panic("no such tube")
}

// The sums of the base, worked again by hand from the givens in SI units.
func TestStormSkiffBase(t *testing.T) {
	const g = 9.80665
	res := run(t, "storm-skiff-base.md")
	b := newHandBase()
	own := 0.0
	for i, r := range b.rods {
		l, _ := b.axesOf(r)
		own += 7850 * b.sections[i].a * l
	}
	for _, m := range b.mass {
		own += m
	}
	load := 125 + 2*110.0
	H := 1.5 * load * 0.5 * g
	W := (0.9*own + 220) * g
	V := W - 1.5*load*0.4*g
	within(t, "sideways", number(t, res, "H"), H, 1e-12)
	within(t, "weight", number(t, res, "W"), W, 1e-12)
	within(t, "weight left", number(t, res, "V"), V, 1e-12)
	within(t, "on each pad", number(t, res, "stand"), V/4, 1e-12)
	within(t, "friction by hand", number(t, res, "scrape"), H/V, 1e-12)
	within(t, "overturning", number(t, res, "overturn"), H*1.39, 1e-12)
	within(t, "holding", number(t, res, "hold"), V*0.85, 1e-12)
	// One rider, 0.40 m from the line between the pads; the empty seat is 1.30 m from it.
	within(t, "overturning, one rider", number(t, res, "overturnOne"), 1.5*(110+62.5+62.5)*0.5*g*1.39, 1e-12)
	within(t, "by the frame", number(t, res, "stays"), 0.9*own*0.85*g, 1e-12)
	within(t, "by the rider", number(t, res, "sits"), 110*0.40*g, 1e-12)
	within(t, "taken away", number(t, res, "drops"), 1.5*0.4*(172.5*0.40+62.5*1.30)*g, 1e-12)
	within(t, "holding, one rider", number(t, res, "holdOne"), (0.9*own*0.85+110*0.40-1.5*0.4*(172.5*0.40+62.5*1.30))*g, 1e-12)

	// Pads and forces of every combination; both ways solve the same equations, of
	// which the condition leaves ten digits.
	const share = 1e-8
	forces := csvOf(t, shopFile(t, res, "storm-skiff-forces.csv"))
	row := 0
	groups := map[string][]int{"uMast": {0, 1}, "uFork": {2}, "uCradle": {3, 4}, "uInner": {5, 10, 15, 20}, "uOuter": {6, 11, 16, 21}, "uLeg": {7, 12, 17, 22}, "uTie": {8, 13, 18, 23}, "uBrace": {9, 14, 19, 24}}
	used := map[string]float64{}
	var press, grip, up float64
	for i, c := range b.combinations() {
		u, lifted := c.solve(t)
		up = math.Max(up, float64(len(lifted)))
		within(t, "lifted", number(t, res, "lifted", i), float64(len(lifted)), 0)
		var most, x, y, down float64
		for n := range c.pads {
			p := math.Max(0, -padDown*u[6*n+2])
			most, down = math.Max(most, p), down+p
			if p > 0 {
				x, y = x-padAside*u[6*n], y-padAside*u[6*n+1]
			}
		}
		press = math.Max(press, most)
		within(t, "pressure", number(t, res, "press", i), most, share)
		if got := number(t, res, "grip", i); math.Abs(got-math.Hypot(x, y)/down) > 0.6e-6 { // rounded to a millionth there
			t.Errorf("friction in combination %d: got %g, want %g", i, got, math.Hypot(x, y)/down)
		}
		grip = math.Max(grip, math.Hypot(x, y)/down)
		for name, members := range groups {
			for _, m := range members {
				used[name] = math.Max(used[name], c.used(m, u))
			}
		}
		for _, m := range handJoints {
			want := c.cut(c.rods[m], u, 0)
			for k, v := range want {
				got, err := strconv.ParseFloat(forces[1+row][2+k], 64)
				half := 0.0501 // of the last digit of a force
				if k > 2 {
					half = 0.00501 // and of a moment
				}
				if err != nil || math.Abs(got-v) > half {
					t.Errorf("%s, column %d: got %s, want %.3f", forces[1+row][:2], 2+k, forces[1+row][2+k], v)
				}
			}
			row++
		}
		if i == 1 {
			// Strings for beams: their error falls with the square of the pieces and is taken
			// off; what is left goes with the fourth power.
			four, eight := c.buckling(t, 4, u, lifted), c.buckling(t, 8, u, lifted)
			within(t, "buckling factor", number(t, res, "alphaCr"), eight+(eight-four)/3, 3e-4)
		}
	}
	if row+1 != len(forces) {
		t.Errorf("rows of storm-skiff-forces.csv: got %d, want %d", len(forces)-1, row)
	}
	within(t, "pads lifted at once", number(t, res, "liftMost"), up, 0)
	within(t, "greatest pressure", number(t, res, "pressMost"), press, share)
	within(t, "under the plate", number(t, res, "q"), press/0.04, share)
	within(t, "greatest friction", number(t, res, "gripMost"), grip, 1e-5)
	for name, want := range used {
		within(t, name, number(t, res, name), want, 1e-6)
	}
	works(t, res, 1e-12, map[string]float64{
		"moved": 110 + 62.5, "empty": 62.5, "cos45": 1 / math.Sqrt2, "load": load,
		// S235JRH of EN 10219-1 up to 16 mm, and EN 1993-1-1, 3.2.6
		"steel.Fy": 235e6, "steel.Fu": 360e6, "steel.E": 210e9, "steel.G": 81e9, "steel.Density": 7850, "steel.Expansion": 12e-6,
		"most of sideways force of the programme":          345 * 0.5 * g / 1.5,
		"most of moment of the programme at the head":      345 * 0.5 * g * 0.83 / 1.5,
		"least of least pressure of a pad during the ride": 0.5 * (own + 220) * g / 4,
		"least of lowest frequency over the rocking":       3 * 3 / 2.2,
		"most of spin against the slowest resonance":       0.8 * number(t, res, "slowest"), // worked with the frequencies
		"gives.Rounds": 1, "rest.Rounds": 1, // no pad lifts
	})
	works(t, res, 1e-9, map[string]float64{"gives.OutOfBalance": 0, "rest.OutOfBalance": 0})
	b.numbered(t, res)
	b.served(t, res)
	b.shaken(t, res)
	b.ridden(t, res, own)
}

// numbered looks at the numbers of nodes and members, which the report shows: as they
// were made, from 1, and here in the same order from 0.
func (b *handBase) numbered(t *testing.T, res *runner.Result) {
	t.Helper()
	want := map[string]float64{"foot": nodeFoot + 1, "prop": nodeProp + 1, "top": nodeHead + 1, "axle": nodeAxle + 1, "fore": nodeFore + 1, "aft": nodeAft + 1,
		"mastLow": 1, "mastTop": 2, "stem": 3, "foreArm": 4, "aftArm": 5}
	for i := range 4 {
		for name, n := range map[string]int{"corners": 7 + 3*i, "ends": 8 + 3*i, "pads": 9 + 3*i,
			"inner": 6 + 5*i, "outer": 7 + 5*i, "legs": 8 + 5*i, "ties": 9 + 5*i, "braces": 10 + 5*i} {
			want[fmt.Sprintf("%s[%d]", name, i)] = float64(n)
		}
	}
	for i, m := range handJoints {
		want[fmt.Sprintf("joints[%d]", i)] = float64(m + 1)
	}
	works(t, res, 0, want)
}

// served is the swing under loads as they come.
func (b *handBase) served(t *testing.T, res *runner.Result) {
	c := b.combination(1, 1, 1, 1, 1, 0, false)
	u, _ := c.solve(t)
	within(t, "swing", number(t, res, "swing"), u[6*nodeHead], 1e-8)
	within(t, "limit of it", number(t, res, "limit"), 0.42/150, 1e-12)
	// The pads alone: in shear, and pressed by the moment about the middle of the four.
	const g = 9.80665
	shift := 345 * 0.5 * g / (4 * padAside)
	tilt := 345 * 0.5 * g * 1.39 / (4 * padDown * 0.85 * 0.85) * 0.56
	within(t, "pads in shear", number(t, res, "shift"), shift, 1e-12)
	within(t, "pads pressed", number(t, res, "tilt"), tilt, 1e-12)
	within(t, "share of the pads", number(t, res, "rubber"), (shift+tilt)/u[6*nodeHead], 1e-8)
	if got := number(t, res, "rubber"); got < 0.5 {
		t.Errorf("share of the pads: got %g, the text says most", got)
	}
	// What the text says of the first pads, and of a fifth less of these.
	soft := c.on(250e3, 1200e3)
	u, _ = soft.solve(t)
	within(t, "swing on the first pads", u[6*nodeHead]/(0.42/150), 0.97, 5e-3) // to its last digit
	within(t, "frequency on the first pads", 3*3/2.2/b.on(250e3, 1200e3).loaded(t)[0], 0.99, 5e-3)
	// Thicker tubes hardly helped: the next mast of the standard, on the first pads.
	thick := *soft
	f := *soft.spaceFrame
	thick.spaceFrame, f.rods = &f, append([]rod{}, soft.rods...)
	for i := range 2 {
		r := tubular(0.1016, 0.005).rod(f.rods[i].from, f.rods[i].to)
		f.rods[i] = r
	}
	u, _ = thick.solve(t)
	if share := u[6*nodeHead] / (0.42 / 150); share < 0.95 {
		t.Errorf("a mast of 101.6 mm on the first pads: got %g of the limit, the text says that it hardly helps", share)
	}
}

// on is the frame on other pads.
func (b *handBase) on(aside, down float64) *handBase {
	c, f := *b, *b.spaceFrame
	c.spaceFrame = &f
	f.pads = map[int]point{}
	for n := range b.pads {
		f.pads[n] = point{aside, aside, down}
	}
	return &c
}

// loaded are the two lowest frequencies with both riders.
func (b *handBase) loaded(t *testing.T) []float64 {
	t.Helper()
	f := *b.spaceFrame
	f.mass = append([]float64{}, b.mass...)
	f.mass[nodeFore], f.mass[nodeAft] = 172.5, 172.5
	return f.frequencies(t, 4, 2)
}

// shaken is how the loaded frame swings.
func (b *handBase) shaken(t *testing.T, res *runner.Result) {
	want := b.loaded(t)
	// The members' own mass, a seventh of all, is gathered in lumps here.
	within(t, "lowest frequency", number(t, res, "f1"), want[0], 1e-3)
	within(t, "next frequency", number(t, res, "f2"), want[1], 1e-3)
	within(t, "slowest resonance", number(t, res, "slowest"), 2*math.Pi*want[0]/2, 1e-3)
	within(t, "rocking", number(t, res, "rock"), 3/2.2, 1e-12)
}

// ridden is what the programme brings.
func (b *handBase) ridden(t *testing.T, res *runner.Result, own float64) {
	const g = 9.80665
	rows := csvOf(t, read(t, "storm-skiff-loads.csv"))[1:]
	f := *b.spaceFrame
	f.pull = 0
	var unit [6][]float64
	shares := csvOf(t, shopFile(t, res, "storm-skiff-shares.csv"))
	row := 1
	for k := range 6 {
		f.loads, f.turns = make([]point, len(f.at)), make([]point, len(f.at))
		if k < 3 {
			f.loads[nodeHead][k] = 1
		} else {
			f.turns[nodeHead][k-3] = 1
		}
		u, err := f.standing()
		if err != nil {
			t.Fatal(err)
		}
		unit[k] = u
		for _, m := range handJoints {
			for i, want := range f.cut(f.rods[m], unit[k], 0) {
				if got, err := strconv.ParseFloat(shares[row][2+i], 64); err != nil || math.Abs(got-want) > 0.51e-6 {
					t.Errorf("share %v, column %d: got %g, want %.7f", shares[row][:2], 2+i, got, want)
				}
			}
			row++
		}
	}
	if row != len(shares) {
		t.Errorf("rows of storm-skiff-shares.csv: got %d, want %d", len(shares)-1, row-1)
	}
	still := (own - 60 - 125) * g / 4
	within(t, "under a pad, standing still", number(t, res, "quiet"), (own+220)*g/4, 1e-12)
	var sideways, topple float64
	least := math.Inf(1)
	for _, r := range rows {
		v := numbers(t, r)
		fx, fy, fz, mx, my := v[1], v[2], v[3], v[4]+0.56*v[2], v[5]-0.56*v[1]
		sideways, topple = math.Max(sideways, math.Hypot(fx, fy)), math.Max(topple, math.Hypot(mx, my))
		for n := range f.pads {
			p := still
			for k, load := range []float64{fx, fy, fz, mx, my} {
				p -= padDown * load * unit[k][6*n+2]
			}
			least = math.Min(least, p)
		}
	}
	within(t, "sideways of the programme", number(t, res, "sideways"), sideways, 1e-12)
	within(t, "its moment at the head", number(t, res, "topple"), topple, 1e-12)
	within(t, "least pressure", number(t, res, "least"), least, 1e-8)
	within(t, "fault", number(t, res, "fault"), 345*0.5*g, 1e-12)
	within(t, "moment of the fault", number(t, res, "fall"), 345*0.5*g*0.83, 1e-12)

	// What HF-211 reads is what this one gives.
	for _, name := range []string{"storm-skiff-shares.csv", "storm-skiff-forces.csv"} {
		if read(t, name) != shopFile(t, res, name) {
			t.Errorf("%s beside the notebook is not what it gives: write it anew with tautline shop", name)
		}
	}
}

func read(t *testing.T, name string) string {
	t.Helper()
	text, err := os.ReadFile(name)
	if err != nil {
		t.Fatal(err)
	}
	return string(text)
}

func shopFile(t *testing.T, res *runner.Result, name string) string {
	t.Helper()
	for _, e := range res.Outcome.Entries {
		if e.ShopFile != nil && e.ShopFile.Name == name {
			return e.ShopFile.Text
		}
	}
	t.Fatalf("the notebook gives no %s", name)
	return ""
}

func csvOf(t *testing.T, text string) [][]string {
	t.Helper()
	rows, err := csv.NewReader(strings.NewReader(text)).ReadAll()
	if err != nil || len(rows) < 2 {
		t.Fatal(fmt.Errorf("rows: got %d, %w", len(rows), err))
	}
	return rows
}

func numbers(t *testing.T, row []string) []float64 {
	t.Helper()
	out := make([]float64, len(row))
	for i, s := range row {
		v, err := strconv.ParseFloat(s, 64)
		if err != nil {
			t.Fatal(err)
		}
		out[i] = v
	}
	return out
}
