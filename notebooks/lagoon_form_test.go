package notebooks

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"gonum.org/v1/gonum/optimize"

	"tautline/runner"
	"tautline/stdlib/fabric/form"
	"tautline/stdlib/fabric/surface"
)

// The numbers of the step's form. The form on the fine mesh is read from the report's
// values and its forces are worked again, by triangles of the test's own whose
// wrinkles are searched for direction by direction: nothing may be out of balance
// and no other form may have less energy. So for the forms on the coarse mesh. Another
// method that minimises that energy from flat comes to the same form. The rest is
// worked by hand.
func TestLagoonForm(t *testing.T) {
	const (
		a, H, p = 0.45, 0.30, 2600.0
		EA      = 60e3
	)
	res := run(t, "lagoon-form.md")
	near(t, "side", number(t, res, "side"), 3*a)
	near(t, "patch", number(t, res, "patch"), a/3)

	// The bed: N = p·sqrt(s² + h²)/2 and T = p·s, and half a per cent for arcs of
	// sixteen straight pieces and the greatest of all triangles.
	lobe, baffle := p*math.Hypot(0.55, 0.75)/2, p*0.55
	within(t, "lobe found", number(t, res, "inSkin"), lobe, 5e-3)
	within(t, "baffle found", number(t, res, "inBaffle"), baffle, 5e-3)
	within(t, "lobe off by", number(t, res, "offSkin"), math.Abs(number(t, res, "inSkin")/lobe-1), 1e-9)
	within(t, "baffle off by", number(t, res, "offBaffle"), math.Abs(number(t, res, "inBaffle")/baffle-1), 1e-9)

	s := readStep(t, res)
	s.prove(t)
	T, rise := s.pull(), s.rise()
	within(t, "pull of a tuft", number(t, res, "T"), T, 1e-9)
	near(t, "by hand", number(t, res, "byHand"), p*a*a)
	within(t, "more", number(t, res, "more"), T/(p*a*a)-1, 1e-7)
	level := T / EA * H / 2
	within(t, "level", number(t, res, "level"), level, 1e-9)
	plan, broad := 0.0, 0.0
	for _, c := range s.corners {
		b, d := sub(s.at[c[1]], s.at[c[0]]), sub(s.at[c[2]], s.at[c[0]])
		plan += cross(b, d)[2] / 2
	}
	for _, x := range s.at {
		broad = max(broad, 2*x[0])
	}
	within(t, "whole", number(t, res, "whole"), p*plan, 1e-6) // of the balance
	within(t, "share", number(t, res, "share"), T/(p*plan), 1e-6)
	near(t, "broad", number(t, res, "broad"), broad)
	if left := number(t, res, "left"); !(left >= 0 && left <= 1e-8) {
		t.Errorf("left: got %g, want what the search ends at, 1e-8", left)
	}

	stepNumbers(t, res, s, rise, level)
	seams(t, res)
	formGivens(t, res)
	s.moved(t, res)
	// The search ends when 1e-8 of the pulls is left over, here some 1 kN: 1e-5 N. And
	// cloth that does not stretch, of 40 MN/m under some 1.2 kN/m, leaves its arcs by
	// less than a ten-thousandth of a metre.
	for name, most := range map[string]float64{
		"lobes.Residual": 1e-5, "lobes.Balance": 1e-8, "lobes.Moved": 1e-4, "lobes.Rise": 1e-4, "lobes.Sag": 1e-4, "blown.Residual": 1e-5, "blown.Balance": 1e-8,
	} {
		if got := named(t, res, name); !(got >= 0 && got <= most) {
			t.Errorf("%s: got %g, want from 0 to %g", name, got, most)
		}
	}
}

// formGivens are the numbers that the step begins with.
func formGivens(t *testing.T, res *runner.Result) {
	t.Helper()
	for name, want := range map[string]float64{"a": 0.45, "H": 0.30, "p": 2600, "strap": 60e3, "thread": 95, "stitch": 0.005, "webbing": 6000} {
		near(t, name, named(t, res, name), want)
	}
	works(t, res, 1e-12, map[string]float64{"most of height of the step": 0.6 * math.Hypot(0.55, 0.75), "most of hollow at a tuft": 0.45 / 4})
	tentFactors(t, res)
}

// moved works again how far the points of the step came from where they were cut, and
// how far it reaches.
func (s step) moved(t *testing.T, res *runner.Result) {
	t.Helper()
	far, rise, sag, reach := 0.0, 0.0, 0.0, [3]float64{}
	for i, x := range s.at {
		way := sub(x, s.cut[i])
		far, rise, sag = max(far, length(way)), max(rise, way[2]), max(sag, -way[2])
		for d := range reach {
			reach[d] = max(reach[d], x[d])
		}
	}
	near(t, "farthest moved", named(t, res, "blown.Moved"), far)
	near(t, "highest risen", named(t, res, "blown.Rise"), rise)
	near(t, "deepest sunk", named(t, res, "blown.Sag"), sag)
	for d, name := range []string{"far.X", "far.Y", "far.Z"} {
		near(t, name, named(t, res, name), reach[d])
	}
}

// prove fails unless nothing is out of balance and no form near by has less energy.
func (s step) prove(t *testing.T) {
	t.Helper()
	energy, force := s.evaluate(s.at)
	for i, f := range force {
		for d := range 3 {
			if s.free(i, d) && math.Abs(f[d]) > 1e-4 { // of pulls of some 500 N
				t.Fatalf("point %d is out of balance by %g N along axis %d", i, f[d], d)
			}
		}
	}
	r := rand.New(rand.NewPCG(1, 2))
	for range 10 {
		other := make([][3]float64, len(s.at))
		kx, ky, size := r.Float64()*20, r.Float64()*20, 1e-4+1e-3*r.Float64()
		for i, x := range s.at {
			for d := range 3 {
				if other[i][d] = x[d]; s.free(i, d) {
					other[i][d] += size * (math.Sin(kx*x[0]+ky*x[1]+float64(d)) + 0.1*r.NormFloat64())
				}
			}
		}
		if e, _ := s.evaluate(other); e < energy {
			t.Errorf("another form has %g J, the one found %g J", e, energy)
		}
	}
}

// stepNumbers are those that rest on coarser meshes, and sums over triangles.
func stepNumbers(t *testing.T, res *runner.Result, s step, rise, level float64) {
	const a, H = 0.45, 0.30
	// A search ends with 1e-8 of the pulls out of balance, which soft folds make some 1e-6
	// of the form.
	rough := newStep(t, a, H, 12)
	rough.find(t)
	rough.prove(t)
	within(t, "rise on the coarse mesh", number(t, res, "rough"), rough.rise(), 1e-5)
	within(t, "pull on the coarse mesh", number(t, res, "Trough"), rough.pull(), 1e-5)
	bulge := 2*rise - number(t, res, "rough")
	near(t, "bulge", number(t, res, "bulge"), bulge)
	within(t, "to come", number(t, res, "toCome"), bulge/rise-1, 1e-9)
	within(t, "tuft off by", number(t, res, "offTuft"), math.Abs(number(t, res, "Trough")/s.pull()-1), 1e-6)
	within(t, "hollow", number(t, res, "hollow"), bulge-level, 1e-9)
	near(t, "tall", number(t, res, "tall"), H+2*bulge)
	small := newStep(t, a, H, 6)
	small.find(t)
	settled := newStep(t, a, H, 6)
	settled.settle(t)
	within(t, "rise by another method", small.rise(), settled.rise(), 1e-5) // forces to 1e-4 N of 500 N
	within(t, "pull by another method", small.pull(), settled.pull(), 1e-5)
	within(t, "small", number(t, res, "small"), settled.rise(), 1e-5)
	for k, pitch := range []float64{0.35, 0.40, 0.45, 0.50, 0.55} {
		near(t, "pitch", number(t, res, "pitches", k), pitch)
		other := newStep(t, pitch, H, 6)
		other.find(t)
		other.prove(t)
		within(t, "bulge at a pitch", number(t, res, "bulges", k), bulge/small.rise()*other.rise(), 1e-5)
		within(t, "pull at a pitch", number(t, res, "pulls", k), other.pull(), 1e-5)
	}

	most, deck, loose := 0.0, 0.0, 0.0
	for i, c := range s.corners {
		high, wrinkled := s.state(i)
		var mid [3]float64
		for _, k := range c {
			for d := range 3 {
				mid[d] += s.cut[k][d] / 3
			}
		}
		if max(math.Abs(mid[0]-a/2), math.Abs(mid[1]-a/2)) > a/6 {
			most = max(most, high)
		}
		if s.part[i] == "deck panel" {
			area := length(cross(sub(s.at[c[1]], s.at[c[0]]), sub(s.at[c[2]], s.at[c[0]]))) / 2
			deck += area
			if wrinkled {
				loose += area
			}
		}
	}
	within(t, "cloth beyond the patch", number(t, res, "Nmost"), most, 1e-6)
	within(t, "deck", number(t, res, "deck"), deck, 1e-9)
	within(t, "loose", number(t, res, "loose"), loose, 1e-9)
	within(t, "wrinkled", number(t, res, "wrinkled"), loose/deck, 1e-9)
}

// seams are the strengths: thread over stitch less a fifth, by the factors of HF-110.
func seams(t *testing.T, res *runner.Result) {
	const factors = 1.3 * 1.4 * 1.2 * 1.7 * 1.2 / 0.9
	near(t, "factors", number(t, res, "g"), factors)
	near(t, "strap", number(t, res, "Tstrap"), 6000/factors)
	near(t, "seam round a patch", number(t, res, "Tpatch"), 95/0.005*0.8*4*0.15/factors)
	near(t, "long seams", number(t, res, "Nlong"), 2*95/0.005*0.8/factors)
}

// A step is a quarter of the upper half of the tufted step: triangles of cloth, 390
// and 160 kN/m stiff, and one strap whose parts hold the points of a patch.
type step struct {
	cut, at [][3]float64
	corners [][3]int
	part    []string
	strap   [][2]int // from the middle of the height to the deck
}

// readStep reads the form from the values of the report.
func readStep(t *testing.T, res *runner.Result) step {
	t.Helper()
	var s step
	points := func(name string, fields ...int) (out [][3]float64) {
		v := res.Outcome.Values[name]
		for _, i := range fields {
			v = v.Items[i]
		}
		if v.Len == 0 || v.Len != len(v.Items) {
			t.Fatalf("%s: got %d points of %d", name, len(v.Items), v.Len)
		}
		for _, p := range v.Items {
			out = append(out, [3]float64{float64(p.Items[0].Number), float64(p.Items[1].Number), float64(p.Items[2].Number)})
		}
		return out
	}
	s.cut, s.at = points("cut", 0), points("blown", 8, 0)
	mesh := res.Outcome.Values["cut"]
	for _, tr := range mesh.Items[1].Items {
		n := func(k int) int { return int(tr.Items[k].Number) }
		s.corners = append(s.corners, [3]int{n(0), n(1), n(2)})
		s.part = append(s.part, mesh.Items[2].Items[n(3)].Text)
	}
	s.findStrap(0.45)
	if len(s.strap) != 9*9 || len(s.corners) != 2*(36*36+2*36*8) {
		t.Fatalf("got %d triangles and %d points in the patch", len(s.corners), len(s.strap))
	}
	return s
}

// newStep lays the mesh of the notebook, flat.
func newStep(t *testing.T, a, H float64, n int) step {
	t.Helper()
	panel := func(name string, width, length float64, across, along int) surface.Mesh {
		m, err := surface.Panel{Width: width, Length: length, Across: across, Along: along}.Mesh()
		if err != nil {
			t.Fatal(err)
		}
		return m.Named(name)
	}
	w, h, side := 1.5*a, H/2, 3*n/2
	m := surface.Joined(1e-3, panel("deck", w, w, side, side).Moved(0, 0, h),
		panel("end", h, w, n/3, side).TurnedY(math.Pi/2).Moved(w, 0, h), panel("side", w, h, side, n/3).TurnedX(-math.Pi/2).Moved(0, w, h))
	var s step
	for _, p := range m.Points {
		s.cut = append(s.cut, [3]float64{p.X, p.Y, p.Z})
	}
	for _, x := range s.cut {
		if x[2] > h-1e-9 && max(math.Abs(x[0]-a/2), math.Abs(x[1]-a/2)) < a/6+1e-9 {
			s.cut = append(s.cut, [3]float64{x[0], x[1], 0})
		}
	}
	s.at = append([][3]float64(nil), s.cut...)
	for _, tr := range m.Triangles {
		s.corners = append(s.corners, [3]int{tr.A, tr.B, tr.C})
		s.part = append(s.part, m.Parts[tr.Part])
	}
	s.findStrap(a)
	return s
}

// findStrap pairs the points under the patch with those of the deck above.
func (s *step) findStrap(a float64) {
	for i, x := range s.cut {
		if x[2] > 1e-9 || max(math.Abs(x[0]-a/2), math.Abs(x[1]-a/2)) > a/6+1e-9 {
			continue
		}
		for k, y := range s.cut {
			if y[2] > 1e-9 && math.Abs(x[0]-y[0])+math.Abs(x[1]-y[1]) < 1e-9 {
				s.strap = append(s.strap, [2]int{i, k})
			}
		}
	}
}

// free reports whether a point moves along an axis: on the planes of symmetry it
// does not move across.
func (s step) free(i, axis int) bool { return math.Abs(s.cut[i][axis]) > 1e-9 }

// pull is that of the strap, 60 kN stiff.
func (s step) pull() (sum float64) {
	for _, k := range s.strap {
		before := length(sub(s.cut[k[1]], s.cut[k[0]]))
		sum += 60e3 / float64(len(s.strap)) * max(0, length(sub(s.at[k[1]], s.at[k[0]]))/before-1)
	}
	return sum
}

func (s step) rise() (most float64) {
	for i, x := range s.at {
		most = max(most, x[2]-s.cut[i][2])
	}
	return most
}

// gradient is the stretched warp and weft of triangle i in space, what makes them of
// its two sides, and its area as cut.
func (s step) gradient(i int, at [][3]float64) (f [2][3]float64, inverse [2][2]float64, area float64) {
	c := s.corners[i]
	b, d := sub(s.cut[c[1]], s.cut[c[0]]), sub(s.cut[c[2]], s.cut[c[0]])
	normal := cross(b, d)
	warp := [3]float64{1, 0, 0}
	if s.part[i] == "end panel" {
		warp = [3]float64{0, 1, 0}
	}
	weft := cross(normal, warp)
	size := length(normal)
	bu, bv, du, dv := dot(b, warp), dot(b, weft)/size, dot(d, warp), dot(d, weft)/size
	det := bu*dv - bv*du
	inverse = [2][2]float64{{dv / det, -bv / det}, {-du / det, bu / det}}
	b, d = sub(at[c[1]], at[c[0]]), sub(at[c[2]], at[c[0]])
	for k, share := range inverse {
		f[k] = sum(scale(b, share[0]), scale(d, share[1]))
	}
	return f, inverse, det / 2
}

// relaxed is the line force of strains and their energy, with the wrinkle, in
// whatever direction, that leaves the least energy.
func relaxed(e [3]float64) (s [3]float64, energy float64, wrinkled bool) {
	const share = 1 - 0.25*0.25*160/390
	law := func(e [3]float64) [3]float64 {
		return [3]float64{(390e3*e[0] + 0.25*160e3*e[1]) / share, (160e3*e[1] + 0.25*160e3*e[0]) / share, 18e3 * e[2]}
	}
	s = law(e)
	if low := (s[0]+s[1])/2 - math.Hypot((s[0]-s[1])/2, s[2]); low >= 0 {
		return s, dot(s, e) / 2, false
	}
	gain := func(angle float64) (gained, depth float64, n [3]float64) {
		sin, cos := math.Sincos(angle)
		n = [3]float64{cos * cos, sin * sin, 2 * sin * cos}
		if push := dot(n, s); push < 0 {
			stiff := dot(n, law(n))
			return push * push / stiff, -push / stiff, n
		}
		return 0, 0, n
	}
	// Seen from the direction of the greatest push, which may be a narrow one.
	angle := math.Atan2(2*s[2], s[0]-s[1])/2 + math.Pi/2
	best, _, _ := gain(angle)
	for k := range 36 {
		if g, _, _ := gain(math.Pi * float64(k) / 36); g > best {
			best, angle = g, math.Pi*float64(k)/36
		}
	}
	// The gain is greatest where its slope turns.
	low, high := angle-math.Pi/36, angle+math.Pi/36
	for range 40 {
		middle := (low + high) / 2
		sin, cos := math.Sincos(middle)
		turn := [3]float64{-2 * sin * cos, 2 * sin * cos, 2 * (cos*cos - sin*sin)}
		_, depth, n := gain(middle)
		rising := depth == 0 && middle < angle || depth > 0 && dot(turn, s)+depth*dot(turn, law(n)) < 0
		if rising {
			low = middle
		} else {
			high = middle
		}
	}
	_, depth, n := gain((low + high) / 2)
	e = [3]float64{e[0] + depth*n[0], e[1] + depth*n[1], e[2] + depth*n[2]}
	r := law(e)
	if r[0]+r[1] <= 0 {
		return [3]float64{}, 0, true
	}
	return r, dot(r, e) / 2, true
}

func strains(f [2][3]float64) [3]float64 {
	return [3]float64{(dot(f[0], f[0]) - 1) / 2, (dot(f[1], f[1]) - 1) / 2, dot(f[0], f[1])}
}

// evaluate is the energy of cloth and straps less the work of the pressure, which is
// pressure times volume, and its slope at each point.
func (s step) evaluate(at [][3]float64) (energy float64, slope [][3]float64) {
	const p = 2600.0
	slope = make([][3]float64, len(at))
	add := func(i int, f [3]float64) { slope[i] = sum(slope[i], f) }
	for i, c := range s.corners {
		f, inverse, area := s.gradient(i, at)
		n, w, _ := relaxed(strains(f))
		energy += w * area
		onWarp, onWeft := sum(scale(f[0], n[0]), scale(f[1], n[2])), sum(scale(f[0], n[2]), scale(f[1], n[1]))
		onB := scale(sum(scale(onWarp, inverse[0][0]), scale(onWeft, inverse[1][0])), area)
		onD := scale(sum(scale(onWarp, inverse[0][1]), scale(onWeft, inverse[1][1])), area)
		add(c[1], onB)
		add(c[2], onD)
		add(c[0], scale(sum(onB, onD), -1))
		x, y, z := at[c[0]], at[c[1]], at[c[2]]
		energy -= p * dot(x, cross(y, z)) / 6
		add(c[0], scale(cross(y, z), -p/6))
		add(c[1], scale(cross(z, x), -p/6))
		add(c[2], scale(cross(x, y), -p/6))
	}
	for _, k := range s.strap {
		before := length(sub(s.cut[k[1]], s.cut[k[0]]))
		way, stiffness := sub(at[k[1]], at[k[0]]), 60e3/float64(len(s.strap))/before
		if long := length(way) - before; long > 0 {
			energy += stiffness * long * long / 2
			f := scale(way, stiffness*long/length(way))
			add(k[1], f)
			add(k[0], scale(f, -1))
		}
	}
	return energy, slope
}

// find takes the form that the library finds; prove says whether it is one.
func (s *step) find(t *testing.T) {
	t.Helper()
	m := form.Membrane{Pressures: []form.Pressure{{Gauge: 2600}}}
	cloth := form.Fabric{Warp: 390e3, Weft: 160e3, Poisson: 0.25, Shear: 18e3}
	end := cloth
	end.Parts, end.Along = []string{"end panel"}, form.Direction{Y: 1}
	m.Fabrics = []form.Fabric{end, cloth}
	m.Mesh.Parts = []string{"deck panel", "end panel", "side panel"}
	hold := [3]form.Support{{FreeY: true, FreeZ: true}, {FreeX: true, FreeZ: true}, {FreeX: true, FreeY: true}}
	for i, x := range s.cut {
		m.Mesh.Points = append(m.Mesh.Points, surface.Point{X: x[0], Y: x[1], Z: x[2]})
		for d := range hold {
			if !s.free(i, d) {
				hold[d].Points = append(hold[d].Points, i)
			}
		}
	}
	for i, c := range s.corners {
		m.Mesh.Triangles = append(m.Mesh.Triangles, surface.Triangle{A: c[0], B: c[1], C: c[2], Part: slices.Index(m.Mesh.Parts, s.part[i])})
	}
	for _, k := range s.strap {
		m.Cables = append(m.Cables, form.Cable{Points: k[:], Stiffness: 60e3 / float64(len(s.strap))})
	}
	m.Supports = hold[:]
	e, err := m.Equilibrium()
	if err != nil {
		t.Fatal(err)
	}
	for i, p := range e.Mesh.Points {
		s.at[i] = [3]float64{p.X, p.Y, p.Z}
	}
}

// settle moves the free points from flat to the least energy, by gonum's L-BFGS.
func (s *step) settle(t *testing.T) {
	t.Helper()
	type place struct{ i, axis int }
	var free []place
	var start []float64
	for i := range s.cut {
		for d := range 3 {
			if s.free(i, d) {
				free, start = append(free, place{i, d}), append(start, s.cut[i][d])
			}
		}
	}
	put := func(x []float64) [][3]float64 {
		at := append([][3]float64(nil), s.cut...)
		for k, f := range free {
			at[f.i][f.axis] = x[k]
		}
		return at
	}
	var last []float64 // both are asked for at each place
	var energy float64
	var slope [][3]float64
	look := func(x []float64) {
		if !slices.Equal(x, last) {
			last = slices.Clone(x)
			energy, slope = s.evaluate(put(x))
		}
	}
	problem := optimize.Problem{
		Func: func(x []float64) float64 { look(x); return energy },
		Grad: func(g, x []float64) {
			look(x)
			for k, f := range free {
				g[k] = slope[f.i][f.axis]
			}
		},
	}
	res, err := optimize.Minimize(problem, start, &optimize.Settings{GradientThreshold: 1e-4}, &optimize.LBFGS{Store: 30})
	if err != nil || res.Status != optimize.GradientThreshold {
		t.Fatalf("L-BFGS: %v, %v", res.Status, err)
	}
	s.at = put(res.X)
}

// state is the greatest line force on the cloth as it stands, and whether it is
// wrinkled by more than a ten-thousandth of that.
func (s step) state(i int) (high float64, wrinkled bool) {
	f, _, _ := s.gradient(i, s.at)
	n, _, _ := relaxed(strains(f))
	// Line forces as they stand: a frame along the warp and square to it.
	a := length(f[0])
	along := scale(f[0], 1/a)
	b := dot(f[1], along)
	c := length(sub(f[1], scale(along, b)))
	grown := a * c
	xx := (a*a*n[0] + 2*a*b*n[2] + b*b*n[1]) / grown
	xy := c * (a*n[2] + b*n[1]) / grown
	yy := c * c * n[1] / grown
	high = (xx+yy)/2 + math.Hypot((xx-yy)/2, xy)
	const share = 1 - 0.25*0.25*160/390
	e := strains(f)
	whole := [3]float64{(390e3*e[0] + 0.25*160e3*e[1]) / share, (160e3*e[1] + 0.25*160e3*e[0]) / share, 18e3 * e[2]}
	mean, half := (whole[0]+whole[1])/2, math.Hypot((whole[0]-whole[1])/2, whole[2])
	return high, mean-half < -1e-4*(mean+half)
}

func sub(a, b [3]float64) [3]float64 { return [3]float64{a[0] - b[0], a[1] - b[1], a[2] - b[2]} }
func sum(a, b [3]float64) [3]float64 { return [3]float64{a[0] + b[0], a[1] + b[1], a[2] + b[2]} }
func dot(a, b [3]float64) float64    { return a[0]*b[0] + a[1]*b[1] + a[2]*b[2] }
func length(a [3]float64) float64    { return math.Sqrt(dot(a, a)) }
func scale(a [3]float64, s float64) [3]float64 {
	return [3]float64{a[0] * s, a[1] * s, a[2] * s}
}
func cross(a, b [3]float64) [3]float64 {
	return [3]float64{a[1]*b[2] - a[2]*b[1], a[2]*b[0] - a[0]*b[2], a[0]*b[1] - a[1]*b[0]}
}
