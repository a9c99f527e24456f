package notebooks

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"tautline/runner"
)

// An act is what a member does to a joint: Fx, Fy, Fz, Mx, My, Mz.
type act [6]float64

// jointActs reads the actions on all joints of a kind from the file of the base.
func jointActs(t *testing.T, kind string) (list []act) {
	for _, r := range csvOf(t, read(t, "storm-skiff-forces.csv"))[1:] {
		if strings.HasPrefix(r[1], kind) {
			list = append(list, act(numbers(t, r[2:])))
		}
	}
	if len(list) == 0 {
		t.Fatalf("no actions on %s", kind)
	}
	return list
}

// A seam is a fillet weld of 4 or 5 mm throat as a row of short pieces, each with
// the normals of the two faces that it joins.
type seam struct {
	at, faceA, faceB, along point
	area                    float64
}

// line is a straight seam in fine pieces.
func line(from, to, faceA, faceB point, throat float64) (list []seam) {
	const n = 200
	d := minus(to, from)
	l := size(d)
	for k := range n {
		s := (float64(k) + 0.5) / n
		at := point{from[0] + s*d[0], from[1] + s*d[1], from[2] + s*d[2]}
		list = append(list, seam{at, faceA, faceB, times(d, 1/l), l / n * throat})
	}
	return list
}

func circle(radius, throat float64) (list []seam) {
	const n = 720
	for k := range n {
		sin, cos := math.Sincos(2 * math.Pi * (float64(k) + 0.5) / n)
		list = append(list, seam{point{0, radius * cos, radius * sin}, point{1, 0, 0}, point{0, cos, sin}, point{0, -sin, cos}, 2 * math.Pi * radius / n * throat})
	}
	return list
}

func boxSeams(half, throat float64) (list []seam) {
	for _, side := range []point{{0, 1, 0}, {0, 0, 1}, {0, -1, 0}, {0, 0, -1}} {
		run := across(point{1, 0, 0}, side)
		from := point{0, half * (side[1] - run[1]), half * (side[2] - run[2])}
		to := point{0, half * (side[1] + run[1]), half * (side[2] + run[2])}
		list = append(list, line(from, to, point{1, 0, 0}, side, throat)...)
	}
	return list
}

// stresses are those in the throats under an action: rigid parts, even springs; the
// centre and the inertia by adding up pieces, for groups that are symmetrical in y
// and z.
func stresses(seams []seam, a act) (list [][3]float64) {
	var area float64
	var c, second point
	for _, s := range seams {
		area += s.area
		for k := range 3 {
			c[k] += s.area * s.at[k]
		}
	}
	c = times(c, 1/area)
	for _, s := range seams {
		d := minus(s.at, c)
		for k := range 3 {
			second[k] += s.area * (along(d, d) - d[k]*d[k])
		}
	}
	force := point{a[0], a[1], a[2]}
	moment := minus(point{a[3], a[4], a[5]}, across(c, force))
	turn := point{moment[0] / second[0], moment[1] / second[1], moment[2] / second[2]}
	for _, s := range seams {
		q := across(turn, minus(s.at, c))
		for k := range 3 {
			q[k] += force[k] / area
		}
		// The throat lies at 45° to both faces.
		half := times(point{s.faceA[0] + s.faceB[0], s.faceA[1] + s.faceB[1], s.faceA[2] + s.faceB[2]}, math.Sqrt(0.5))
		list = append(list, [3]float64{along(q, across(s.along, half)), along(q, half), along(q, s.along)})
	}
	return list
}

// weldUsed is the utilisation by the directional method, EN 1993-1-8:2005, 4.5.3.2,
// of S235 with fu = 360 MPa.
func weldUsed(seams []seam, acts []act) (most float64) {
	for _, a := range acts {
		for _, s := range stresses(seams, a) {
			most = math.Max(most, math.Max(math.Sqrt(s[0]*s[0]+3*(s[1]*s[1]+s[2]*s[2]))/(360e6/(0.8*1.25)), math.Abs(s[0])/(0.9*360e6/1.25)))
		}
	}
	return most
}

func cheekSeams() (list []seam) {
	for _, y := range []float64{1, -1} {
		for _, z := range []float64{1, -1} {
			list = append(list, line(point{-0.12, 0.03 * y, 0.025 * z}, point{-0.01, 0.03 * y, 0.025 * z}, point{0, y, 0}, point{0, 0, z}, 0.004)...)
		}
	}
	return list
}

// Welds, bolts, pins and feet of the base by hand, in SI units.
func TestStormSkiffJoints(t *testing.T) {
	res := run(t, "storm-skiff-joints.md")
	// Pieces end half a piece short of a weld's end: a four-hundredth of its length.
	within(t, "weld of the mast", number(t, res, "uRound"), weldUsed(circle(0.04445, 0.005), jointActs(t, "mast foot")), 2e-3)
	within(t, "welds of the arms", number(t, res, "uBox"), weldUsed(boxSeams(0.03, 0.004), jointActs(t, "hub")), 5e-3)
	within(t, "welds of the cheeks", number(t, res, "uCheek"), weldUsed(cheekSeams(), jointActs(t, "pins")), 5e-3)

	// Four bolts M12 8.8 at 60 mm: EN 1993-1-8:2005, Table 3.4.
	shearMax, pullMax := 0.85*0.6*800e6*84.3e-6/1.25, 0.9*800e6*84.3e-6/1.25
	var used, pull, push float64
	for _, a := range jointActs(t, "mast foot") {
		for _, y := range []float64{0.06, -0.06} {
			for _, z := range []float64{0.06, -0.06} {
				n := a[0]/4 + (a[4]*z-a[5]*y)/(4*0.0036)
				v := math.Hypot(a[1]/4-a[3]*z/(8*0.0036), a[2]/4+a[3]*y/(8*0.0036))
				pull, push = math.Max(pull, n), math.Max(push, v)
				used = math.Max(used, math.Max(v/shearMax+math.Max(n, 0)/(1.4*pullMax), n/pullMax))
			}
		}
	}
	within(t, "bolt in shear", number(t, res, "vBolt"), shearMax, 1e-12)
	within(t, "bolt in tension", number(t, res, "tBolt"), pullMax, 1e-12)
	within(t, "bolts of the flange", number(t, res, "uBolt"), used, 1e-9)
	within(t, "pull on a bolt", number(t, res, "pullBolt"), pull, 1e-9)
	within(t, "push on a bolt", number(t, res, "pushBolt"), push, 1e-9)
	m := 0.06*math.Sqrt2 - 0.04445 - 0.8*0.005*math.Sqrt2
	within(t, "bolt to mast", number(t, res, "reachBolt"), m, 1e-12)
	plastic, n := 0.08*0.015*0.015/4*235e6, math.Min(0.02*math.Sqrt2, 1.25*m)
	if mixed := (2*plastic + n*pullMax) / (m + n); mixed < pullMax || 4*plastic/m < pullMax {
		t.Errorf("flange: want the bolt to break first: %g, %g, %g", 4*plastic/m, mixed, pullMax)
	}
	within(t, "flange", check(t, res, "flange bent by a bolt"), pullMax, 1e-12)
	// k1: 2.8·20/14 - 1.7 = 2.3 at the edge; alpha: 20/(3·14) = 0.476 at the end.
	within(t, "bearing", check(t, res, "bolt on its hole"), 2.3*20.0/42*360e6*0.012*0.015/1.25, 1e-12)
	within(t, "torque", number(t, res, "tighten"), 0.2*0.012*0.5*0.7*800e6*84.3e-6, 1e-12)

	works(t, res, 1e-12, map[string]float64{
		"factors.M0": 1, "factors.M2": 1.25, "factors.M3": 1.25, "factors.M3Ser": 1.1, "factors.M5": 1, "factors.M6Ser": 1, // EN 1993-1-8, Table 2.1
		"filler.BetaW": 0.8, "filler.Fu": 360e6, "filler.M2": 1.25, // Table 4.1, S235
		"borne.AlphaB": 20.0 / 42, "borne.K1": 2.3, "borne.Resistance": 2.3 * 20.0 / 42 * 360e6 * 0.012 * 0.015 / 1.25,
		"prying.Plate": 4 * plastic / m, "prying.Mixed": (2*plastic + n*pullMax) / (m + n), "prying.Bolts": pullMax, "prying.Resistance": pullMax,
		"prying.Mode": 3, "prying.Prying": 0, "side": 0.03, "lean": math.Atan2(350, 601),
		"most of material beside the hole": (0.052 - 0.0205) / 2,
		"stood.Contact":                    4500 / 0.04, "stood.Share": 1, "stood.Press": 4500, "stood.Sliding": 0.55 * 4500,
		"stood.Bending": 3 * 4500 / 0.04 * math.Pow((0.2-0.0603)/2, 2) / 1e-4,
	})
	for name, of := range map[string]struct {
		kind  string
		seams []seam
	}{"boxWorst": {"hub", boxSeams(0.03, 0.004)}, "cheekWorst": {"pins", cheekSeams()}} {
		var directional, simplified float64
		for _, a := range jointActs(t, of.kind) {
			if used := weldUsed(of.seams, []act{a}); used > directional {
				directional, simplified = used, 0
				for _, s := range stresses(of.seams, a) { // 4.5.3.3: their sum, whichever way it points
					simplified = math.Max(simplified, size(point(s))/(360e6/(math.Sqrt(3)*0.8*1.25)))
				}
			}
		}
		works(t, res, 5e-3, map[string]float64{name + ".Directional": directional, name + ".Simplified": simplified}) // pieces, as above
	}

	pinsByHand(t, res)
	within(t, "foot", check(t, res, "pressure under a foot"), 300e3, 0)
	// The frame's worst pad: the load of the notebook is no less.
	var most float64
	base := run(t, "storm-skiff-base.md")
	for i := range 9 {
		most = math.Max(most, number(t, base, "press", i))
		if grip := number(t, base, "grip", i); grip > number(t, res, "slid") {
			t.Errorf("share along the ground: got %g, that of HF-210 is %g", number(t, res, "slid"), grip)
		}
	}
	if got := number(t, res, "pressed"); got < most || got > 1.01*most {
		t.Errorf("load on the worst pad: got %g N, want that of HF-210, %g N, or a little more", got, most)
	}
	within(t, "plate of a foot", demand(t, res, "plate of a foot, bent"), 3*4500/0.04*math.Pow((0.2-0.0603)/2, 2)/1e-4, 1e-12)
	within(t, "pressure under a foot", demand(t, res, "pressure under a foot"), 4500/0.04, 1e-12)
}

// pinsByHand is EN 1993-1-8:2005, 3.13.
func pinsByHand(t *testing.T, res *runner.Result) {
	pull := 0.0
	for _, a := range jointActs(t, "pins") {
		pull = math.Max(pull, math.Hypot(math.Abs(a[2])/2+math.Abs(a[4])/0.12, a[0]/2))
	}
	push := 0.0
	for _, a := range jointActs(t, "brace") {
		push = math.Max(push, math.Abs(a[0]))
	}
	within(t, "pull on a pin", number(t, res, "pull"), pull, 1e-12)
	within(t, "push of a brace", number(t, res, "push"), push, 1e-12)
	for _, p := range []struct {
		force, d, b, a     float64
		combined, bent, on string
	}{{pull, 0.02, 0.02, 0.008, "pin, bending and shear", "pin bent, in service", "tongue on the pin, in service"}, {push, 0.016, 0.012, 0.006, "pin of a brace, bending and shear", "pin of a brace bent, in service", "lug on the pin of a brace, in service"}} {
		moment := p.force * (p.b + 4*0.001 + 2*p.a) / 8
		w := math.Pi * math.Pow(p.d, 3) / 32
		shear := p.force / 2 / (0.6 * math.Pi * p.d * p.d / 4 * 800e6 / 1.25)
		within(t, p.combined, demand(t, res, p.combined), math.Pow(moment/(1.5*w*640e6), 2)+shear*shear, 1e-9)
		within(t, p.bent, demand(t, res, p.bent), moment, 1e-12)
		within(t, p.bent, check(t, res, p.bent), 0.8*w*640e6, 1e-12)
		within(t, p.on, check(t, res, p.on), 0.6*p.b*p.d*235e6, 1e-12)
	}
	within(t, "cheek", check(t, res, "cheek on the pin, in service"), 0.6*0.008*0.02*235e6, 1e-12)
	within(t, "cheek pressed", demand(t, res, "cheek on the pin, in service"), pull/2, 1e-12)
	within(t, "contact borne", check(t, res, "contact of pin and tongue"), 2.5*235e6, 1e-12)
	within(t, "contact", demand(t, res, "contact of pin and tongue"), 0.591*math.Sqrt(210e9*pull*0.0005/(0.02*0.02*0.02)), 1e-12)
	within(t, "beside", number(t, res, "beside"), pull/(2*0.02*235e6)+0.0205/3, 1e-12)
	within(t, "ahead", number(t, res, "ahead"), pull/(2*0.02*235e6)+2*0.0205/3, 1e-12)
	within(t, "collar pushed", number(t, res, "upward"), 4*push*350/math.Hypot(350, 601), 1e-12)
	within(t, "collar", number(t, res, "collar"), 2*math.Pi*0.0889*0.004*360e6/(math.Sqrt(3)*0.8*1.25), 1e-12)
}

// demand and check are what a check of a report compares.
func demand(t *testing.T, res *runner.Result, what string) float64 {
	t.Helper()
	return named(t, res, "demand of "+what)
}

func check(t *testing.T, res *runner.Result, what string) float64 {
	t.Helper()
	return named(t, res, "most of "+what)
}

// texts are those of a list, or of a struct's fields.
func texts(t *testing.T, res *runner.Result, name string) (list []string) {
	t.Helper()
	for _, v := range res.Outcome.Values[name].Items {
		list = append(list, v.Text)
	}
	if len(list) == 0 {
		t.Fatalf("%s: got no texts", name)
	}
	return list
}

// aloft is the load history at the head of the mast, the empty skiff before it.
func aloft(t *testing.T) (list []act) {
	list = append(list, act{0, 0, -(60 + 125) * 9.80665})
	for _, r := range csvOf(t, read(t, "storm-skiff-loads.csv"))[1:] {
		v := numbers(t, r)
		list = append(list, act{v[1], v[2], v[3], v[4] + 0.56*v[2], v[5] - 0.56*v[1], v[6]})
	}
	return list
}

// come is the history at a joint.
func come(t *testing.T, joint string) []act {
	var shares []act
	for _, r := range csvOf(t, read(t, "storm-skiff-shares.csv"))[1:] {
		if r[1] == joint {
			shares = append(shares, act(numbers(t, r[2:])))
		}
	}
	if len(shares) != 6 {
		t.Fatalf("shares of %s: got %d, want 6", joint, len(shares))
	}
	var list []act
	for _, load := range aloft(t) {
		var a act
		for k, s := range shares {
			for p := range a {
				a[p] += load[k] * s[p]
			}
		}
		list = append(list, a)
	}
	return list
}

// ranges counts the cycles of a history that recurs, by taking out the smallest
// range again and again: what is left when no inner one is there is the greatest.
func ranges(history []float64) (list []float64) {
	at := 0
	for i, v := range history {
		if v > history[at] {
			at = i
		}
	}
	ring := append(append([]float64{}, history[at:]...), history[:at]...)
	ring = append(ring, ring[0])
	var turns []float64
	for _, v := range ring {
		n := len(turns)
		switch {
		case n > 0 && v == turns[n-1]:
		case n > 1 && (v > turns[n-1]) == (turns[n-1] > turns[n-2]):
			turns[n-1] = v
		default:
			turns = append(turns, v)
		}
	}
	for len(turns) > 3 {
		least, where := math.Inf(1), 0
		for i := 1; i+2 < len(turns); i++ { // a range between two greater ones
			if d := math.Abs(turns[i+1] - turns[i]); d < least {
				least, where = d, i
			}
		}
		list = append(list, least)
		turns = slices.Delete(turns, where, where+2)
	}
	if len(turns) == 3 {
		list = append(list, math.Abs(turns[1]-turns[0]))
	}
	return list
}

// miner is what ranges do to a detail with 1.35 on its strength: EN 1993-1-9:2005, 7.1.
func miner(list []float64, category float64) (sum float64) {
	c := category / 1.35
	constant := c * math.Pow(0.4, 1.0/3)
	for _, s := range list {
		switch {
		case s >= constant:
			sum += math.Pow(s/c, 3) / 2e6
		case s >= constant*math.Pow(0.05, 0.2):
			sum += math.Pow(s/constant, 5) / 5e6
		}
	}
	return sum
}

// Fatigue of every weld by hand: histories by the shares, ranges by taking out the
// smallest first, damage by the curves.
func TestStormSkiffJointsLast(t *testing.T) {
	res := run(t, "storm-skiff-joints.md")
	post, arm := tubular(0.0889, 0.005), rectangular(0.06, 0.06, 0.004)
	toe := func(joint string, h hollow, half, category float64, corners []point) (worst []float64) {
		for _, c := range corners {
			var stress []float64
			for _, a := range come(t, joint) {
				stress = append(stress, a[0]/h.a+half*(a[4]*c[2]/h.iy-a[5]*c[1]/h.iz))
			}
			if r := ranges(stress); worst == nil || miner(r, category) > miner(worst, category) || miner(worst, category) == 0 && slices.Max(r) > slices.Max(worst) {
				worst = r
			}
		}
		return worst
	}
	root := func(joint string, seams []seam, every int) (worst float64) {
		var one [6][][3]float64
		for k := range one {
			a := act{}
			a[k] = 1
			one[k] = stresses(seams, a)
		}
		history := come(t, joint)
		for i := 0; i < len(seams); i += every {
			for dir := range 6 {
				sin, cos := math.Sincos(math.Pi * float64(dir) / 6)
				low, high := math.Inf(1), math.Inf(-1)
				for _, a := range history {
					v := 0.0
					for k := range a {
						v += a[k] * (cos*one[k][i][0] + sin*one[k][i][1]) / math.Cos(math.Pi/12)
					}
					low, high = math.Min(low, v), math.Max(high, v)
				}
				worst = math.Max(worst, high-low)
			}
		}
		return worst
	}
	corners := []point{{0, 1, 1}, {0, 1, -1}, {0, -1, 1}, {0, -1, -1}}
	var round []point
	for k := range 24 {
		sin, cos := math.Sincos(float64(k) * math.Pi / 12)
		round = append(round, point{0, -sin, cos})
	}
	type place struct {
		name     string
		category float64
		ranges   []float64
	}
	places := []place{{"mast foot, toe", 40e6, toe("mast foot", post, 0.04445, 40e6, round)}}
	for _, s := range []string{"fore left", "aft left", "aft right", "fore right"} {
		places = append(places, place{"hub, " + s + ", toe", 36e6, toe("hub, "+s, arm, 0.03, 36e6, corners)},
			place{"cheeks, " + s, 56e6, toe("pins, "+s, arm, 0.03, 56e6, corners)})
	}
	titles := texts(t, res, "titles")
	most, governs := 0.0, ""
	for _, p := range places {
		i := slices.Index(titles, p.name)
		if i < 0 {
			t.Errorf("%s: not in the table", p.name)
			continue
		}
		d := miner(p.ranges, p.category)
		within(t, "greatest range, "+p.name, number(t, res, "widest", i), slices.Max(p.ranges), 1e-8)
		within(t, "damage, "+p.name, number(t, res, "damages", i), d*1e6, 1e-6)
		if d > most {
			most, governs = d, p.name
		}
	}
	// Roots: no range of them does damage, the cut-off of 36 MPa being 10.8 MPa.
	roots := map[string]float64{"mast foot, root": root("mast foot", circle(0.04445, 0.005), 10)}
	for _, s := range []string{"fore left", "aft left", "aft right", "fore right"} {
		roots["hub, "+s+", root"] = root("hub, "+s, boxSeams(0.03, 0.004), 1)
	}
	for name, want := range roots {
		i := slices.Index(titles, name)
		within(t, "greatest range, "+name, number(t, res, "widest", i), want, 1e-2) // pieces end before the corners
		within(t, "damage, "+name, number(t, res, "damages", i), 0, 0)
	}
	works(t, res, 1e-6, map[string]float64{
		"governs.Damage": most, "governs.Normal": most, "governs.Shear": 0, "atMast.Damage": 0,
		"governs.Greatest":  slices.Max(places[slices.IndexFunc(places, func(p place) bool { return p.name == governs })].ranges),
		"toeRound.Category": 40e6, "toeBox.Category": 36e6, "lapEnd.Category": 56e6, // EN 1993-1-9, Tables 8.4 and 8.6, from memory
		"safe.Load": 1, "safe.Strength": 1.35, // Table 3.1
	})
	historiesByHand(t, res)
	if got := texts(t, res, "governs")[0]; got != governs {
		t.Errorf("governing place: got %q, want %q", got, governs)
	}
	within(t, "rides of a season", number(t, res, "rides"), 9600, 0)
	within(t, "damage of the life", number(t, res, "worn"), most*96000, 1e-6)
	within(t, "seasons", number(t, res, "lasts", 0), 1/(most*9600), 1e-6)
}

// historiesByHand are the loads of a ride at the ground, at the head and at the mast's
// foot, before which the skiff is empty for a second.
func historiesByHand(t *testing.T, res *runner.Result) {
	t.Helper()
	rows := csvOf(t, read(t, "storm-skiff-loads.csv"))[1:]
	above, foot := aloft(t), come(t, "mast foot")
	for i := range 100 { // the program keeps no more of them where a report shows them
		time, ground := -1.0, act{2: -185 * 9.80665}
		if i > 0 {
			v := numbers(t, rows[i-1])
			time, ground = v[0], act(v[1:])
		}
		for name, a := range map[string]act{"whole": ground, "aloft": above[i], "mastLoads": foot[i]} {
			for k, part := range []string{"Fx", "Fy", "Fz", "Mx", "My", "Mz"} {
				got := named(t, res, fmt.Sprintf("%s.%s[%d]", name, part, i))
				if math.Abs(got-a[k]) > 1e-9*4000 { // of the greatest load, in N
					t.Errorf("%s.%s[%d]: got %g, want %g", name, part, i, got, a[k])
				}
			}
			within(t, name+".Time", named(t, res, fmt.Sprintf("%s.Time[%d]", name, i)), time, 1e-12)
		}
	}
}

// The slewing ring, the pinion's shaft and their bearings by hand.
func TestStormSkiffTurntable(t *testing.T) {
	const g = 9.80665
	res := run(t, "storm-skiff-joints.md")
	// Down, sideways and tipping at the head, with both riders and with one, heavy and
	// light; on 36 balls on a circle of 240 mm at 45°, 12 bolts on one of 280 mm.
	half := math.Sqrt(0.5)
	var ball, bolt float64
	for i, c := range []struct{ down, side, tip float64 }{
		{1.35*185 + 1.5*(220+0.4*345), 1.5 * 0.5 * 345, 1.5 * 0.5 * 345 * 0.83},
		{1.35*185 + 1.5*(110+0.4*235), 1.5 * 0.5 * 235, 1.5*0.5*235*0.83 + 1.5*1.4*110*0.45},
		{0.9*185 + 220 - 1.5*0.4*345, 1.5 * 0.5 * 345, 1.5 * 0.5 * 345 * 0.83},
		{0.9*185 + 110 - 1.5*0.4*235, 1.5 * 0.5 * 235, 1.5*0.5*235*0.83 + (1-0.6)*110*0.45},
	} {
		within(t, "down", number(t, res, "downs", i), c.down*g, 1e-12)
		within(t, "sideways", number(t, res, "thrown", i), c.side*g, 1e-12)
		within(t, "tipping", number(t, res, "tipped", i), c.tip*g, 1e-12)
		onBall, onBolt := g*(c.down/36+4*c.tip/(0.24*36)+2*c.side/36)/half, g*(4*c.tip/(0.28*12)-c.down/12)
		within(t, "ball", number(t, res, "balls", i), onBall, 1e-12)
		within(t, "bolt", number(t, res, "pulls", i), onBolt, 1e-12)
		if (onBall > ball) != (i < 2) || (onBolt > bolt) != (i < 2) { // greater than both, heavy, and none after it
			t.Errorf("case %d: the text says that one alone, heavy, governs balls and bolts", i)
		}
		ball, bolt = math.Max(ball, onBall), math.Max(bolt, onBolt)
	}
	within(t, "ball", demand(t, res, "ball of the slewing ring"), ball, 1e-12)
	within(t, "ring bolt", demand(t, res, "bolt of the slewing ring"), bolt, 1e-12)
	works(t, res, 1e-12, map[string]float64{"ball": ball, "pulled": bolt, "lever": 0.83})
	within(t, "ring bolt bears", check(t, res, "bolt of the slewing ring"), 0.9*800e6*36.6e-6/1.25, 1e-12)

	// Duty: each tenth of a second of the whirlpool and the storm, by the angle turned.
	var cube, twist, angle, most float64
	rows := csvOf(t, read(t, "storm-skiff-loads.csv"))[1:]
	for _, r := range rows {
		most = math.Max(most, math.Abs(numbers(t, r)[6]))
	}
	above := aloft(t)
	var loads, torques, speeds []float64
	for i, r := range rows {
		v := numbers(t, r)
		speed := 0.0
		switch at := v[0]; {
		case at >= 30 && at <= 46:
			speed = 75
		case at >= 49:
			speed = 4 * 25 / 6.1
		}
		a := above[i+1]
		p := 0.75*math.Hypot(v[1], v[2]) - v[3] + 2*math.Hypot(a[3], a[4])/0.24
		turn := speed * math.Pi / 180 * 0.1
		if speed > 0 {
			loads, torques, speeds = append(loads, p), append(torques, math.Abs(v[6])/most), append(speeds, speed*math.Pi/180)
		}
		cube, angle, twist = cube+p*p*p*turn, angle+turn, twist+math.Pow(math.Abs(v[6])/most, 3)*turn
	}
	P := math.Cbrt(cube / angle)
	spun := angle / (2 * math.Pi)
	within(t, "load of the ring", number(t, res, "P"), P, 1e-9)
	within(t, "turns in a ride", number(t, res, "spun"), spun, 1e-9)
	within(t, "life of the ring", number(t, res, "ringSeasons"), 0.25*1e6*math.Pow(15e3/P, 3)/(spun*9600), 1e-9)

	// The shaft: virtual work with the moments of a force, and of a couple, at the pinion.
	force := most / 0.15
	total := force / math.Cos(20*math.Pi/180)
	within(t, "tangential", number(t, res, "tangential"), force, 1e-12)
	within(t, "radial", number(t, res, "radial"), force*math.Tan(20*math.Pi/180), 1e-12)
	const left, right, gear = 0.015, 0.070, 0.102
	moment := func(x, f float64) float64 { // of a force at the pinion
		switch {
		case x < left || x > gear:
			return 0
		case x < right:
			return f * (gear - right) / (right - left) * (x - left)
		}
		return f * (gear - x)
	}
	couple := func(x float64) float64 { // of a couple of 1 at the pinion
		switch {
		case x < left || x > gear:
			return 0
		case x < right:
			return (x - left) / (right - left)
		}
		return 1
	}
	var dips, tilts float64
	const n = 120000
	for k := range n {
		x := 0.12 * (float64(k) + 0.5) / n
		d := 0.025
		if x > 0.025 && x < 0.08 {
			d = 0.03
		}
		per := 0.12 / n / (206e9 * math.Pi * math.Pow(d, 4) / 64)
		dips += moment(x, total) * moment(x, 1) * per
		tilts += moment(x, total) * couple(x) * per
	}
	within(t, "pinion gives way", number(t, res, "dipped"), dips, 1e-6)
	within(t, "pinion tilts", number(t, res, "tilted"), tilts, 1e-6)
	bend, torque := total*(gear-0.08), force*0.03
	within(t, "moment at the shoulder", number(t, res, "atShoulder"), bend, 1e-9)
	within(t, "torque", number(t, res, "turned"), torque, 1e-12)

	// Teeth: Lewis with Y of 20 teeth (Shigley, Table 14-2), Barth, Hertz.
	kv := 1 + 0.03*5*75*math.Pi/180/6.1
	within(t, "tooth bent", number(t, res, "rooted"), kv*force/(0.03*0.003*0.322), 1e-9)
	slope := 20 * math.Pi / 180
	joined := 206e9 / (2 * (1 - 0.09))
	r1, r2 := 0.03*math.Sin(slope), 0.15*math.Sin(slope) // of the flanks at the pitch point
	within(t, "tooth pressed", number(t, res, "flanks"), math.Sqrt(kv*total*joined*(1/r1+1/r2)/(math.Pi*0.03)), 1e-9)

	// Shigley, Mechanical Engineering Design, chapters 6 and 7; Norton's fits to Peterson.
	root := math.Sqrt(2 / 25.4)
	ksi := 650 / 6.894757293168
	q := 1 / (1 + (0.246-3.08e-3*ksi+1.51e-5*ksi*ksi-2.67e-8*ksi*ksi*ksi)/root)
	kf := 1 + q*(0.97098*math.Pow(2.0/25, -0.21796)-1)
	kfs := 0.83425 * math.Pow(2.0/25, -0.21649)
	endures := 0.5 * 650e6 * 4.51 * math.Pow(650, -0.265) * math.Pow(25/7.62, -0.107) * 0.753
	within(t, "Kf", number(t, res, "Kf"), kf, 1e-6)
	within(t, "Kfs", number(t, res, "Kfs"), kfs, 1e-9)
	within(t, "endurance", number(t, res, "endures"), endures, 1e-9)
	w := math.Pi * math.Pow(0.025, 3) / 32
	within(t, "shoulder", demand(t, res, "shaft at its shoulder, for ever"), endures/math.Hypot(kf*bend/w, math.Sqrt(3)*kfs*torque/(2*w)), 1e-6)
	atKey := total * (gear - 0.088) // 28 mm long, 14 mm to either side of the middle
	within(t, "moment at the keyway", number(t, res, "atKey"), atKey, 1e-9)
	within(t, "keyway", demand(t, res, "shaft at its keyway, for ever"), endures/math.Hypot(2.14*atKey/w, math.Sqrt(3)*3*torque/(2*w)), 1e-6)
	within(t, "key, shear", number(t, res, "keyShear"), 2*torque/(0.025*0.008*0.028), 1e-12)
	within(t, "key, side", number(t, res, "keySide"), 2*torque/(0.025*0.0035*0.028), 1e-12)
	R := total * (gear - left) / (right - left)
	for i := range 100 {
		works(t, res, 1e-9, map[string]float64{
			fmt.Sprintf("duty.Load[%d]", i): loads[i], fmt.Sprintf("duty.Speed[%d]", i): speeds[i], fmt.Sprintf("duty.Time[%d]", i): 0.1,
			fmt.Sprintf("spins.Load[%d]", i): R * torques[i], fmt.Sprintf("spins.Speed[%d]", i): 5 * speeds[i], fmt.Sprintf("spins.Time[%d]", i): 0.1,
		})
	}
	near, far := (gear-right)/(right-left), (gear-left)/(right-left) // shares of the bearings
	shouldered, milled := math.Hypot(kf*bend/w, math.Sqrt(3)*kfs*torque/(2*w)), math.Hypot(2.14*atKey/w, math.Sqrt(3)*3*torque/(2*w))
	// No mean stress: all four rules are the endurance over the stress.
	for name, stress := range map[string]float64{"lasting": shouldered, "keyed": milled} {
		works(t, res, 1e-6, map[string]float64{name + ".Goodman": endures / stress, name + ".Gerber": endures / stress,
			name + ".Elliptic": endures / stress, name + ".Soderberg": endures / stress, name + ".Yield": 430e6 / stress})
	}
	works(t, res, 1e-9, map[string]float64{
		"keyEnd": 0.088, "twist": most, "lewis": 0.322, "meeting": joined, "pitched": 0.03 * 5 * 75 * math.Pi / 180, "uneven": kv,
		"rough": 4.51 * math.Pow(650, -0.265), "small": math.Pow(25/7.62, -0.107), "trust": 0.753, // Shigley, Tables 6-2, 6-5 and equation 6-20
		"sure": 0.25, "turns": 1e6 * math.Pow(15e3/P, 3), "runs": 1e6 * math.Pow(6e3*55/(total*87)/math.Cbrt(twist/angle), 3), // ISO 281, Table 12
		"bent.LeftY": force * near, "bent.LeftZ": -force * math.Tan(slope) * near, "bent.RightY": -force * far, "bent.RightZ": force * math.Tan(slope) * far,
		"bent.Left": total * near, "bent.Right": total * far, "bent.Greatest": total * (gear - right),
	})
	Pr := R * math.Cbrt(twist/angle)
	within(t, "load of the bearing", number(t, res, "Pr"), Pr, 1e-9)
	within(t, "life of the bearing", number(t, res, "bearingSeasons"), 0.25*1e6*math.Pow(6e3/Pr, 3)/(5*spun*9600), 1e-9)
}
