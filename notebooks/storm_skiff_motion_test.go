package notebooks

import (
	"fmt"
	"math"
	"math/cmplx"
	"os"
	"testing"

	"tautline/runner"
)

// within fails unless got is want within a share of it.
func within(t *testing.T, what string, got, want, share float64) {
	t.Helper()
	proved[got] = true
	if !(math.Abs(got-want) <= share*math.Abs(want)) {
		t.Errorf("%s: got %.9g, want %.9g within %g", what, got, want, share)
	}
}

// list is the list of numbers that a field of a name holds.
func list(t *testing.T, res *runner.Result, name string, field int) []float64 {
	t.Helper()
	v := res.Outcome.Values[name].Items[field]
	if len(v.Items) == 0 || len(v.Items) != v.Len {
		t.Fatalf("%s: kept %d of %d numbers", name, len(v.Items), v.Len)
	}
	var out []float64
	for _, item := range v.Items {
		out = append(out, float64(item.Number))
	}
	return out
}

type point [3]float64

// seat turns a point of the roll part into the world: by angles, not by matrices
// of the library.
func seat(p point, yaw, pitch, roll float64) point {
	sr, cr := math.Sincos(roll)
	p = point{p[0], cr*p[1] - sr*p[2], sr*p[1] + cr*p[2] + 0.12}
	return cradle(p, yaw, pitch)
}

func cradle(p point, yaw, pitch float64) point {
	sp, cp := math.Sincos(pitch)
	p = point{cp*p[0] + sp*p[2], p[1], cp*p[2] - sp*p[0] + 0.75}
	sy, cy := math.Sincos(yaw)
	return point{cy*p[0] - sy*p[1], sy*p[0] + cy*p[1], p[2]}
}

// mass is a particle of the roll part, the pitch part or the turntable.
type mass struct {
	part string
	kg   float64
	at   point
}

// body is six particles of the mass, centre and inertia of a rigid body.
func body(part string, kg float64, at point, x, y, z float64) []mass {
	var out []mass
	for i, square := range []float64{y + z - x, x + z - y, x + y - z} {
		a := math.Sqrt(square * 3 / (2 * kg))
		for _, side := range []float64{a, -a} {
			p := at
			p[i] += side
			out = append(out, mass{part, kg / 6, p})
		}
	}
	return out
}

// The motion of the storm skiff from its angles alone: places by trigonometry,
// accelerations by differences of them, bodies as particles.
func TestStormSkiffMotion(t *testing.T) {
	const (
		g, deg       = 9.80665, math.Pi / 180
		step         = 0.02
		xs, zs, zb   = 0.45, 0.75, 0.52
		heavy, small = 110.0, 20.0
		lean         = 0.08
		A            = 13 * deg
		lead, lever  = 0.010, 0.220
		eta          = 0.9
	)
	res := run(t, "storm-skiff-motion.md")
	near(t, "duration", number(t, res, "total"), 6+18+16+30+3*3)
	near(t, "in the storm", number(t, res, "wild"), 6+18+16+3*3+6)
	yaw, pitch, roll := list(t, res, "yaw", 1), list(t, res, "pitch", 1), list(t, res, "roll", 1)
	n := len(pitch)
	if n != 79/step+1 {
		t.Fatalf("got %d positions", n)
	}

	// Speeds, by differences; the storm is the last 30 s.
	rate := func(q []float64, i int) float64 { return (q[i+1] - q[i-1]) / (2 * step) }
	bend := func(q []float64, i int) float64 { return (q[i+1] - 2*q[i] + q[i-1]) / (step * step) }
	var fastest, sharpest float64
	for i := n - 30/step; i < n-1; i++ {
		fastest, sharpest = math.Max(fastest, math.Abs(rate(pitch, i))), math.Max(sharpest, math.Abs(bend(pitch, i)))
	}
	regular := 2 * math.Pi / 2.6
	near(t, "rate of the storm", number(t, res, "wStorm"), regular)
	near(t, "speed of the storm", number(t, res, "vStorm"), A*regular)
	near(t, "heart", number(t, res, "heart"), 0.87)
	near(t, "pair", number(t, res, "mPair"), 220)
	near(t, "riders over the axis", number(t, res, "hb"), 0.64)
	near(t, "riders about the axis", number(t, res, "Jriders"), 220*(0.04+0.64*0.64+xs*xs))
	near(t, "hull about the axis", number(t, res, "Jhull"), 57+85*0.32*0.32)
	near(t, "regular wave", number(t, res, "aStorm"), A*regular*regular)
	near(t, "thrown fore and aft", number(t, res, "aBack"), A*regular*regular*0.87)
	near(t, "thrown upward", number(t, res, "aOut"), A*regular*A*regular*0.87)
	near(t, "bow", number(t, res, "aBow"), A*regular*regular*xs)
	within(t, "pitch speed", number(t, res, "wPitch"), fastest, 0.005)
	within(t, "pitch acceleration", number(t, res, "aPitch"), sharpest, 0.02)

	// Every axis in every level, by differences of its positions. Between two of them, 20 ms
	// apart, an extreme of a motion with its acceleration and jerk is missed by some 1e-4. A
	// second difference cuts off a corner of the acceleration, at most half a step of the
	// jerk; a third is the mean of the jerk over 60 ms, less than its greatest by at most
	// what the jerk changes in half of that.
	for k, span := range [][2]float64{{0, 6}, {9, 27}, {30, 46}, {49, 79}} {
		for a, q := range [][]float64{yaw, pitch, roll} {
			first, last := int(math.Round(span[0]/step)), int(math.Round(span[1]/step))
			low, high, speed, turn, jerk, change := math.Inf(1), math.Inf(-1), 0.0, 0.0, 0.0, 0.0
			third := func(i int) float64 { return (q[i+2] - 3*q[i+1] + 3*q[i] - q[i-1]) / (step * step * step) }
			for i := first; i <= last; i++ {
				low, high = math.Min(low, q[i]), math.Max(high, q[i])
				if i > first && i < last {
					speed, turn = math.Max(speed, math.Abs(rate(q, i))), math.Max(turn, math.Abs(bend(q, i)))
				}
				if i > first && i+2 <= last {
					jerk = math.Max(jerk, math.Abs(third(i)))
				}
				if i > first && i+3 <= last {
					change = math.Max(change, math.Abs(third(i+1)-third(i))/step)
				}
			}
			sharp := 0.05 * jerk // where the jerk is held for longer than 60 ms
			if k == 3 {
				sharp = 0.03 * change
			}
			for f, c := range []struct{ want, off float64 }{{low, 2e-3 * math.Abs(low)}, {high, 2e-3 * math.Abs(high)}, {speed, 0.005 * speed}, {turn, jerk * step / 2}, {jerk, sharp}} {
				got := list(t, res, "ends", 2+f)[3*k+a]
				proved[got] = true
				if math.Abs(got-c.want) > c.off+1e-6 { // and what cancels in third differences
					t.Errorf("level %d, axis %d, column %d: got %.6g, want %.6g within %.2g", k+1, a, f+1, got, c.want, c.off)
				}
			}
		}
	}

	// Felt at the bow: acceleration of the place plus g, turned back into the skiff.
	moved := func(m mass, i int) point {
		switch m.part {
		case "roll":
			return seat(m.at, yaw[i], pitch[i], roll[i])
		case "pitch":
			return cradle(m.at, yaw[i], pitch[i])
		}
		return cradle(point{m.at[0], m.at[1], m.at[2] - 0.75}, yaw[i], 0)
	}
	acceleration := func(m mass, i int) (a point) {
		before, now, after := moved(m, max(i-1, 0)), moved(m, i), moved(m, min(i+1, n-1))
		for k := range 3 {
			a[k] = (after[k] - 2*now[k] + before[k]) / (step * step)
		}
		return a
	}
	felt := make([]point, n)
	for i := range n {
		heart := mass{"roll", 1, point{xs, 0, zs}}
		a := acceleration(heart, i)
		a[2] += g
		origin := moved(mass{"roll", 1, point{}}, i)
		for k := range 3 {
			var unit point
			unit[k] = 1
			e := moved(mass{"roll", 1, unit}, i)
			for c := range 3 {
				felt[i][k] += a[c] * (e[c] - origin[c])
			}
		}
	}
	side, low, high := 0.0, math.Inf(1), 0.0
	fy, fz := butterworth(felt, 1, step), butterworth(felt, 2, step)
	for i := range n {
		side, low, high = math.Max(side, math.Abs(fy[i])), math.Min(low, fz[i]), math.Max(high, fz[i])
	}
	fx := butterworth(felt, 0, step)
	var forward, backward float64
	for _, v := range fx {
		forward, backward = math.Max(forward, v), math.Max(backward, -v)
	}
	peaks := res.Outcome.Values["peaks"].Items
	within(t, "forward", float64(peaks[0].Number), forward, 0.01)
	within(t, "back", float64(peaks[1].Number), backward, 0.01)
	within(t, "sideways", number(t, res, "fSide"), side, 0.005)
	within(t, "lightest", number(t, res, "fLow"), low, 0.002)
	within(t, "lightest, as a direction", float64(peaks[4].Number), -low, 0.002)
	within(t, "pressed", number(t, res, "fPeak"), high, 0.002)

	// Sickness: the sum of the weighted lines of the spectrum, up to 2 Hz.
	mean, sum := 0.0, 0.0
	for _, f := range felt {
		mean += f[2] / float64(n)
	}
	for k := 1; float64(k)/(float64(n)*step) < 2; k++ {
		var c complex128
		for i, f := range felt {
			c += complex(f[2]-mean, 0) * cmplx.Exp(complex(0, -2*math.Pi*float64(k*i%n)/float64(n)))
		}
		w := sickness(float64(k)/(float64(n)*step)) * cmplx.Abs(c) / float64(n)
		sum += 2 * w * w
	}
	within(t, "may be sick", number(t, res, "ill"), math.Sqrt(sum*79)/3/100, 0.01)

	// Dose: the weighted lines put together again, their fourth powers summed.
	weighed := make([]float64, n)
	whole := make([]complex128, n) // the n-th roots of 1
	for i := range whole {
		whole[i] = cmplx.Exp(complex(0, 2*math.Pi*float64(i)/float64(n)))
	}
	for k := 1; float64(k)/(float64(n)*step) < 15; k++ {
		var c complex128
		for i, f := range felt {
			c += complex(f[2]-mean, 0) * cmplx.Conj(whole[k*i%n])
		}
		c *= upright(float64(k)/(float64(n)*step)) * complex(2/float64(n), 0)
		for i := range weighed {
			weighed[i] += real(c * whole[k*i%n])
		}
	}
	sum = 0
	for _, v := range weighed {
		sum += v * v * v * v * step
	}
	within(t, "dose", number(t, res, "dose", 0), math.Pow(sum, 0.25), 0.02)

	// At rest: weight times lever. At full tilt: the sum of weights over the axis.
	near(t, "held in pitch", number(t, res, "holdPitch"), -(heavy-small)*xs*g)
	near(t, "held in roll", number(t, res, "holdRoll"), heavy*lean*g)
	i := 2 * math.Pi * lever / lead
	near(t, "ratio", number(t, res, "i"), i)
	near(t, "backward", number(t, res, "back"), 2-1/eta)
	hold := (85*(0.2+0.12) + 2*heavy*(zb+0.12)) * g * math.Sin(A) / i
	near(t, "brake holds", number(t, res, "Mhold"), hold)
	near(t, "brake of the pitch motor", demand(t, res, "pitch motor's brake, holding the heavy pair"), 5.28)
	near(t, "brake of the roll motor", demand(t, res, "roll brake, holding"), 5.28)
	wPitch := number(t, res, "wPitch")
	near(t, "roll brake holds", number(t, res, "Mheel"), ((85*0.2+2*heavy*zb)*math.Sin(9*deg)+2*heavy*lean*math.Cos(9*deg))*g/i)
	inertia := 55 + 2 + 85*0.32*0.32 + 2*heavy*(0.04+0.64*0.64+xs*xs)
	near(t, "inertia about the pitch axis", number(t, res, "Jpitch"), inertia)
	uneven := ((heavy-small)*xs*math.Cos(A) + (85*0.32+(heavy+small)*(zb+0.12))*math.Sin(A)) * g / i
	near(t, "held with the bow down", number(t, res, "Mbow"), uneven)
	stopping := (3.7e-4+4e-4+inertia/(i*i))*wPitch*i/0.35 + uneven
	near(t, "brake stops", number(t, res, "halt", 0), stopping)
	near(t, "brake takes", number(t, res, "halt", 1), stopping*wPitch*i*0.35/2)
	near(t, "motor turns", number(t, res, "halt", 2), wPitch*i*0.35/2)
	near(t, "stops in", number(t, res, "stop", 0), 0.1+wPitch/(240*deg)+240.0/2400)
	a, j := 240*deg, 2400*deg
	near(t, "stop", number(t, res, "stopAngle"), wPitch*0.1+wPitch/2*(wPitch/a+a/j))

	// Torque of the pitch motor: moments of all particles about the pitch axis, for
	// each load of riders; that with the most heat counts.
	hull := append(body("roll", 85, point{0, 0, 0.2}, 14, 55, 60), body("pitch", 40, point{}, 2, 2, 3)...)
	rider := func(kg, x, y float64) []mass { return body("roll", kg, point{x, y, zb}, kg*0.04, kg*0.04, kg*0.02) }
	pair := append(append(append([]mass{}, hull...), rider(heavy, xs, lean)...), rider(heavy, -xs, lean)...)
	mixed := append(append(append([]mass{}, hull...), rider(heavy, xs, lean)...), rider(small, -xs, 0)...)
	var rms, peak, back, regained float64
	for _, load := range [][]mass{pair, mixed} {
		var squares, most, power, energy float64
		for i := range n {
			sin, cos := math.Sincos(yaw[i])
			torque := 0.0
			for _, m := range load {
				p, a := moved(m, i), acceleration(m, i)
				p[2] -= 0.75
				a[2] += g
				mx, my := m.kg*(p[1]*a[2]-p[2]*a[1]), m.kg*(p[2]*a[0]-p[0]*a[2])
				torque += my*cos - mx*sin
			}
			w, dw := 0.0, 0.0
			if i > 0 && i < n-1 {
				w, dw = rate(pitch, i), bend(pitch, i)
			}
			if math.Abs(w) > 1e-9 {
				torque += math.Copysign(15, w)
			} else {
				w = 0
			}
			motor := torque / eta
			if torque*w < 0 {
				motor = torque * (2 - 1/eta)
			} else if w == 0 {
				motor = torque
			}
			screw := 2 * math.Pi * lever / lead
			motor = motor/screw + (3.7e-4+4e-4)*dw*screw
			squares += motor * motor * step
			most = math.Max(most, math.Abs(motor))
			power, energy = math.Max(power, -motor*w*screw), energy+math.Max(-motor*w*screw, 0)*step
		}
		if squares > rms {
			rms, peak, back, regained = squares, most, power, energy
		}
	}
	within(t, "rms torque", number(t, res, "rmsPitch"), math.Sqrt(rms/79), 0.01)
	within(t, "greatest torque", number(t, res, "peakPitch"), peak, 0.02)
	within(t, "power back", number(t, res, "backPitch"), back, 0.03)
	within(t, "regained", number(t, res, "regained"), regained, 0.03)

	// All three drives, each with the hardest of its loads: torque by the work of all
	// particles, then what motor M2 of the table makes of it.
	base := body("yaw", 60, point{0, 0, 0.4}, 3, 3, 5)
	with := func(load []mass) []mass { return append(append([]mass{}, base...), load...) }
	children := append(append(append([]mass{}, hull...), rider(small, xs, 0)...), rider(small, -xs, 0)...)
	loads := [][]mass{with(pair), with(mixed), with(children)}
	axes := [3]axis{yaw, pitch, roll}
	for name, d := range map[string]motored{
		"forPitch": {axes: axes, axis: 1, loads: loads, ratio: 44 * math.Pi, eta: eta, train: 4e-4, friction: 15},
		"forRoll":  {axes: axes, axis: 2, loads: loads, ratio: 44 * math.Pi, eta: eta, train: 4e-4, friction: 15},
		"forYaw":   {axes: axes, axis: 0, loads: [][]mass{loads[0], loads[2]}, ratio: 40, eta: 0.92, train: 3e-4, friction: 25},
	} {
		for field, want := range d.work() {
			within(t, fmt.Sprintf("%s, field %d", name, field), number(t, res, name, 1, field), want, map[int]float64{7: 0.03, 8: 0.03, 10: 0.03, 5: 0.02, 12: 0.02}[field]+0.01)
		}
	}

	// On the ground: weight and inertia of all particles, every tenth of a second.
	all := append(body("yaw", 60, point{0, 0, 0.4}, 3, 3, 5), pair...)
	var down, tip float64
	for i := 0; i < n; i += 5 {
		var f, mx, my float64
		for _, m := range all {
			p, a := moved(m, i), acceleration(m, i)
			a[2] += g
			f += m.kg * a[2]
			mx += m.kg * (p[1]*a[2] - p[2]*a[1])
			my += m.kg * (p[2]*a[0] - p[0]*a[2])
		}
		down, tip = math.Max(down, f), math.Max(tip, math.Hypot(mx, my))
	}
	within(t, "down", number(t, res, "Fdown"), down, 0.005)
	within(t, "tipping", number(t, res, "Mtip"), tip, 0.01)

	// What the base's notebook reads is what this one gives.
	want, err := os.ReadFile("storm-skiff-loads.csv")
	if err != nil {
		t.Fatal(err)
	}
	for _, e := range res.Outcome.Entries {
		if e.ShopFile != nil && e.ShopFile.Name == "storm-skiff-loads.csv" {
			if e.ShopFile.Text != string(want) {
				t.Error("storm-skiff-loads.csv beside the notebook is not what it gives: write it anew with tautline shop")
			}
			allProved(t, res)
			return
		}
	}
	t.Error("the notebook gives no storm-skiff-loads.csv")
}

// motored is an axis with its drive, once more.
type motored struct {
	axes                        [3]axis
	axis                        int
	loads                       [][]mass
	ratio, eta, train, friction float64
}

// work is what motor M2 does on the axis, by the place of the field in the notebook's
// answer, with the load that heats it most.
func (d motored) work() map[int]float64 {
	const step, rpm = 0.02, math.Pi / 30
	q := d.axes[d.axis]
	last := func(w float64) float64 { // lasting torque: 4.8 N·m at rest, 3.84 at 3000 rpm
		if w <= 3000*rpm {
			return 4.8 - 0.96*w/(3000*rpm)
		}
		return 3.84 * 3000 * rpm / w
	}
	most := func(w float64) float64 { return 14.4 - (14.4-3.84)*math.Max(0, w-2400*rpm)/(2100*rpm) }
	var out map[int]float64
	for _, load := range d.loads {
		var squares, speeds, peak, top, gives, takes, given, regained, margin, ta, aa float64
		var warm []float64
		for i := range q {
			s := [3]swing{}
			for k := range s {
				p := d.axes[k]
				a, b, c := p[max(i-1, 0)], p[i], p[min(i+1, len(p)-1)]
				s[k] = swing{b, (c - a) / (2 * step), (c - 2*b + a) / (step * step)}
			}
			w, dw := s[d.axis][1], s[d.axis][2]
			if math.Abs(w) < 1e-9 {
				w = 0
			}
			need := skiff{bodies: load}.torque(s)[d.axis]
			ta, aa = ta+need*dw, aa+dw*dw
			if w != 0 {
				need += math.Copysign(d.friction, w)
			}
			motor := need / d.ratio
			if need*w > 0 {
				motor /= d.eta
			} else if need*w < 0 {
				motor *= 2 - 1/d.eta
			}
			motor += (3.7e-4 + d.train) * dw * d.ratio
			turn := w * d.ratio
			squares, speeds = squares+motor*motor*step, speeds+turn*turn*step
			peak, top, margin = math.Max(peak, math.Abs(motor)), math.Max(top, math.Abs(turn)), math.Max(margin, math.Abs(motor)/most(math.Abs(turn)))
			gives, takes = math.Max(gives, motor*turn), math.Max(takes, -motor*turn)
			given, regained = given+math.Max(motor*turn, 0)*step, regained+math.Max(-motor*turn, 0)*step
			warm = append(warm, math.Pow(motor/last(math.Abs(turn)), 2))
		}
		rms, mean := math.Sqrt(squares/79), math.Sqrt(speeds/79)
		if out != nil && rms/last(mean) < out[11] {
			continue
		}
		// Warmth after many rides in a row, 25 minutes its time.
		heat, hottest := 0.0, 0.0
		for range 150 {
			hottest = 0
			for _, p := range warm {
				heat += (p - heat) * step / 1500
				hottest = math.Max(hottest, heat)
			}
		}
		inertia := math.Abs(ta/aa) / (d.ratio * d.ratio) / (3.7e-4 + d.train)
		out = map[int]float64{3: rms, 4: mean, 5: peak, 6: top, 7: gives, 8: takes, 9: given, 10: regained, 11: rms / last(mean), 12: margin, 13: hottest, 14: inertia}
	}
	return out
}

// butterworth runs one component through a low pass of 5 Hz in one piece of
// fourth order, its poles carried over by the bilinear transform; it starts
// settled.
func butterworth(felt []point, component int, step float64) []float64 {
	b, a := []complex128{1}, []complex128{1}
	times := func(p []complex128, root complex128) []complex128 {
		out := make([]complex128, len(p)+1)
		for i, c := range p {
			out[i] += c
			out[i+1] -= c * root
		}
		return out
	}
	k := math.Tan(math.Pi * 5 * step)
	for m := range 4 {
		pole := complex(k, 0) * cmplx.Exp(complex(0, math.Pi*(0.5+float64(2*m+1)/8)))
		a, b = times(a, (1+pole)/(1-pole)), times(b, -1)
	}
	var top, bottom float64
	for i := range a {
		top, bottom = top+real(b[i]), bottom+real(a[i])
	}
	before := felt[0][component]
	out := make([]float64, len(felt))
	for i := range felt {
		for m := range a {
			x, y := before, before
			if i >= m {
				x, y = felt[i-m][component], out[i-m]
			}
			out[i] += real(b[m]) * bottom / top * x
			if m > 0 {
				out[i] -= real(a[m]) * y
			}
		}
	}
	return out
}

// sickness is the weighting Wf of ISO 2631-1:1997, Annex A, by its squares.
func sickness(f float64) float64 {
	square := func(f0, q float64) float64 { // |1 + p/(Q·w) + (p/w)²|²
		r := f / f0
		return (1-r*r)*(1-r*r) + r*r/(q*q)
	}
	low := math.Pow(f, 4) / (math.Pow(f, 4) + math.Pow(0.08, 4))
	high := 1 / (1 + math.Pow(f/0.63, 4))
	step := square(0.0625, 0.8) / square(0.1, 0.8) * math.Pow(0.0625/0.1, 4)
	return math.Sqrt(low * high * step / square(0.25, 0.86))
}

// upright is the weighting Wk of ISO 2631-1:1997, Annex A, with its phase.
func upright(f float64) complex128 {
	second := func(f0, q float64) complex128 { r := f / f0; return complex(1-r*r, r/q) }
	low := complex(-f*f/(0.4*0.4), 0) / second(0.4, math.Sqrt2/2)
	step := second(2.37, 0.91) / second(3.35, 0.91) * complex(2.37*2.37/(3.35*3.35), 0)
	return low * step * complex(1, f/12.5) / second(12.5, 0.63) / second(100, math.Sqrt2/2)
}
