package notebooks

import (
	"fmt"
	"math"
	"testing"
)

// swing is an axis at a time: position, speed, acceleration.
type swing [3]float64

// axis is one axis's positions every 20 ms, as the notebook on motion gives them.
type axis []float64

// at lays a parabola of third order through the four positions next to a time.
func (q axis) at(t float64) swing {
	const step = 0.02
	i := min(max(int(t/step)-1, 0), len(q)-4)
	x := t/step - float64(i)
	var s swing
	for k := range 4 {
		// The polynomial that is 1 at k and 0 at the others, with two derivatives.
		v, d, e := 1.0, 0.0, 0.0
		for m := range 4 {
			if m == k {
				continue
			}
			f, g := (x-float64(m))/float64(k-m), 1/float64(k-m)
			v, d, e = v*f, d*f+v*g, e*f+2*d*g
		}
		s[0], s[1], s[2] = s[0]+q[i+k]*v, s[1]+q[i+k]*d/step, s[2]+q[i+k]*e/(step*step)
	}
	return s
}

// skiff is what the stop is worked with, once more.
type skiff struct {
	axes     [3]axis // yaw, pitch, roll
	bodies   []mass
	rotor    [3]float64
	friction [3]float64
	brake    [3]float64
}

const tick = 1e-3 // s

// place is where a particle is, at angles.
func place(m mass, q [3]float64) point {
	switch m.part {
	case "roll":
		return seat(m.at, q[0], q[1], q[2])
	case "pitch":
		return cradle(m.at, q[0], q[1])
	}
	return cradle(point{m.at[0], m.at[1], m.at[2] - 0.75}, q[0], 0)
}

// moving is the acceleration of a particle, by differences along a short way that
// speeds and accelerations make.
func moving(m mass, s [3]swing) (a point) {
	const h = 1e-4
	var before, now, after [3]float64
	for k := range s {
		now[k] = s[k][0]
		after[k] = s[k][0] + h*s[k][1] + h*h*s[k][2]/2
		before[k] = s[k][0] - h*s[k][1] + h*h*s[k][2]/2
	}
	b, n, f := place(m, before), place(m, now), place(m, after)
	for c := range a {
		a[c] = (f[c] - 2*n[c] + b[c]) / (h * h)
	}
	return a
}

// felt is the specific force at a seat in the skiff's own directions.
func felt(x float64, s [3]swing) (f point) {
	a := moving(mass{"roll", 1, point{x, 0, 0.75}}, s)
	a[2] += 9.80665
	q := [3]float64{s[0][0], s[1][0], s[2][0]}
	origin := place(mass{"roll", 1, point{}}, q)
	for k := range f {
		var unit point
		unit[k] = 1
		e := place(mass{"roll", 1, unit}, q)
		for c := range a {
			f[k] += a[c] * (e[c] - origin[c])
		}
	}
	return f
}

// slowed goes on by a tick at a jerk of one size, whichever sign brings speed and
// acceleration to nothing, within a limit of acceleration: in short steps, since it
// decides anew in each.
func slowed(s swing, most, jerk float64) swing {
	const parts = 40
	const d = tick / parts
	for range parts {
		left := s[1] + s[2]*math.Abs(s[2])/(2*jerk)
		if math.Abs(left) < 2*jerk*d*d && math.Abs(s[2]) < 2*jerk*d {
			s[1], s[2] = 0, 0
			continue
		}
		a := s[2] + math.Max(-jerk*d, math.Min(jerk*d, -math.Copysign(most, left)-s[2]))
		v := s[1] + (s[2]+a)/2*d
		s = swing{s[0] + (s[1]+v)/2*d, v, a}
	}
	return s
}

// halted is what came of a stop.
type halted struct {
	gone              [3]float64 // farthest, with its sign
	rest              [3]float64
	forward, back     float64
	side, press, lift float64
	struck            float64 // speed of the pitch axis at 20°
	travel            float64
	jerk, jolt        float64 // of felt, after the command
	last              [2]point
}

func (h *halted) take(t float64, first, s [3]swing) {
	for k := range s {
		if d := s[k][0] - first[k][0]; math.Abs(d) > math.Abs(h.gone[k]) {
			h.gone[k] = d
		}
		if math.Abs(s[k][1]) > 1e-6 {
			h.rest[k] = t
		}
	}
	for i, x := range []float64{0.45, -0.45} {
		f := felt(x, s)
		change := math.Sqrt((f[0]-h.last[i][0])*(f[0]-h.last[i][0]) + (f[1]-h.last[i][1])*(f[1]-h.last[i][1]) + (f[2]-h.last[i][2])*(f[2]-h.last[i][2]))
		if t > 0.22 { // after the command
			h.jolt = math.Max(h.jolt, change)
		}
		h.last[i] = f
		h.forward, h.back, h.side = math.Max(h.forward, f[0]), math.Max(h.back, -f[0]), math.Max(h.side, math.Abs(f[1]))
		h.press, h.lift = math.Max(h.press, f[2]), math.Min(h.lift, f[2])
	}
}

// end is how far the farthest of hull and seats went.
func (h *halted) end(first, s [3]swing) {
	for _, p := range []point{{1.5, 0, 0.35}, {0.7, 0.5, 0.3}, {-1.1, 0.5, 0.3}, {-1.1, -0.5, 0.3}, {0.7, -0.5, 0.3}, {0.45, 0, 0.75}, {-0.45, 0, 0.75}} {
		m := mass{"roll", 1, p}
		a, b := place(m, [3]float64{first[0][0], first[1][0], first[2][0]}), place(m, [3]float64{s[0][0], s[1][0], s[2][0]})
		h.travel = math.Max(h.travel, math.Sqrt((a[0]-b[0])*(a[0]-b[0])+(a[1]-b[1])*(a[1]-b[1])+(a[2]-b[2])*(a[2]-b[2])))
	}
}

func (k skiff) at(t float64) [3]swing {
	return [3]swing{k.axes[0].at(t), k.axes[1].at(t), k.axes[2].at(t)}
}

// byDrives is a stop of category 1, from the pull at a moment.
func (k skiff) byDrives(moment, command float64, most, jerk [3]float64) halted {
	h := halted{lift: math.Inf(1)}
	first := k.at(moment)
	s := first
	for i := 0; ; i++ {
		t := float64(i) * tick
		h.take(t, first, s)
		still := t > command
		for a := range s {
			still = still && s[a][1] == 0
		}
		if still || t > 3 {
			h.end(first, s)
			h.jerk = h.jolt / tick
			return h
		}
		if t+tick < command {
			s = k.at(moment + t + tick)
			continue
		}
		for a := range s {
			s[a] = slowed(s[a], most[a], jerk[a])
		}
	}
}

// torque is what the axes need so that all particles have the accelerations of a
// state: weight and inertia times the way each particle goes for each axis.
func (k skiff) torque(s [3]swing) (need [3]float64) {
	const h = 1e-5
	for _, m := range k.bodies {
		a := moving(m, s)
		a[2] += 9.80665
		for x := range need {
			q := [3]float64{s[0][0], s[1][0], s[2][0]}
			q[x] += h
			f := place(m, q)
			q[x] -= 2 * h
			b := place(m, q)
			for c := range a {
				need[x] += m.kg * a[c] * (f[c] - b[c]) / (2 * h)
			}
		}
	}
	return need
}

// byBrakes is a stop without power from a time on, by dry friction that grows:
// 40 ms until the brakes bite, 30 ms until they are there.
func (k skiff) byBrakes(moment, off float64, first [3]swing, s [3]swing, h halted) halted {
	for i := 0; i < 3000; i++ {
		t := off + float64(i)*tick
		var held [3]bool
		var full [3]float64
		resting := t > off+0.07
		for x := range s {
			full[x] = k.friction[x] + k.brake[x]*math.Max(0, math.Min(1, (t-off-0.04)/0.03))
			held[x] = s[x][1] == 0
			s[x][2] = 0
		}
		// Accelerations from torques: the rows of inertia one unit at a time, axes
		// that are held left out until they slip.
		for try := range 3 {
			bias := k.torque(s0(s))
			var row [3][4]float64
			for x := range s {
				if held[x] {
					row[x][x] = 1
					continue
				}
				one := s0(s)
				one[x][2] = 1
				need := k.torque(one)
				for y := range s {
					if !held[y] {
						row[y][x] = need[y] - bias[y]
					}
				}
				row[x][x] += k.rotor[x]
				way := s[x][1]
				if way == 0 {
					way = -bias[x]
				}
				row[x][3] = -bias[x] - math.Copysign(full[x], way)
			}
			a := solve3(row)
			for x := range s {
				s[x][2] = a[x]
			}
			slipped := false
			need := k.torque(s)
			for x := range s {
				if held[x] && math.Abs(need[x]) > full[x] && try < 2 {
					held[x], slipped = false, true
				}
				resting = resting && held[x]
			}
			if !slipped {
				break
			}
		}
		h.take(t, first, s)
		if resting {
			break
		}
		for x := range s {
			if held[x] {
				continue
			}
			v := s[x][1] + s[x][2]*tick
			if s[x][1]*v < 0 {
				v = 0
			}
			s[x][0] += (s[x][1] + v) / 2 * tick
			s[x][1] = v
			if x > 0 && math.Abs(s[x][0]) > 20*math.Pi/180 && v != 0 {
				h.struck = math.Max(h.struck, math.Abs(v))
				h.end(first, s)
				return h
			}
		}
	}
	h.end(first, s)
	return h
}

// s0 is a state without accelerations.
func s0(s [3]swing) [3]swing {
	for k := range s {
		s[k][2] = 0
	}
	return s
}

// solve3 is Cramer's rule.
func solve3(r [3][4]float64) (x [3]float64) {
	det := func(c int) float64 {
		m := [3][3]float64{}
		for i := range 3 {
			for j := range 3 {
				m[i][j] = r[i][j]
				if j == c {
					m[i][j] = r[i][3]
				}
			}
		}
		return m[0][0]*(m[1][1]*m[2][2]-m[1][2]*m[2][1]) - m[0][1]*(m[1][0]*m[2][2]-m[1][2]*m[2][0]) + m[0][2]*(m[1][0]*m[2][1]-m[1][1]*m[2][0])
	}
	d := det(-1)
	for c := range x {
		x[c] = det(c) / d
	}
	return x
}

// cut is a stop of category 0, from the pull at a moment.
func (k skiff) cut(moment, command float64) halted {
	h := halted{lift: math.Inf(1)}
	first := k.at(moment)
	for t := 0.0; t < command; t += tick {
		h.take(t, first, k.at(moment+t))
	}
	s := k.at(moment + command)
	for a := range s {
		if math.Abs(s[a][1]) < 1e-9 {
			s[a][1] = 0
		}
	}
	return k.byBrakes(moment, command, first, s, h)
}

// runsAway is a pitch drive that does its most for some time, one way or the other,
// until the power is cut; the other axes go on meanwhile.
func (k skiff) runsAway(moment, off, way float64) halted {
	const deg = math.Pi / 180
	h := halted{lift: math.Inf(1)}
	first := k.at(moment)
	s := first
	for t := 0.0; t < off; t += tick {
		h.take(t, first, s)
		to := way * 4500 * math.Pi / 30 / (44 * math.Pi)
		p := s[1]
		p[1] -= to
		p = slowed(p, 14.4*0.9*44*math.Pi/(91.785+7.7e-4*44*math.Pi*44*math.Pi), 30000*deg)
		p[1] += to
		p[0] += to * tick
		s = k.at(moment + t + tick)
		s[1] = p
		if math.Abs(p[0]) > 20*deg {
			h.struck = math.Abs(p[1])
			return h
		}
	}
	return k.byBrakes(moment, off, first, s, h)
}

// The stop of the storm skiff once more: from the angles of the notebook on motion,
// with particles for bodies, step by step.
func TestStormSkiffStop(t *testing.T) {
	const (
		g, deg       = 9.80665, math.Pi / 180
		xs, zb       = 0.45, 0.52
		heavy, small = 110.0, 20.0
		i            = 44 * math.Pi // 2·π·220/10
		year         = 8760 * 3600.0
	)
	res := run(t, "storm-skiff-stop.md")
	is := func(name string, want float64) { t.Helper(); near(t, name, number(t, res, name), want) }
	is("hb", 0.64)
	hull := 57 + 85*0.32*0.32
	each := 0.04 + 0.64*0.64 + xs*xs
	is("Jhull", hull)
	is("perKg", each)
	is("Jmixed", hull+130*each)
	is("Jsmall", hull+40*each)
	notice, control := math.Sqrt(0.24/g)+0.015, 0.035
	is("tCord", math.Sqrt(0.24/g))
	is("notice", notice)
	is("control", control)
	is("i", i)
	screw := 7.7e-4 * i * i
	table := 6.7e-4 * 1600
	is("JRotor", screw)
	is("JYaw", table)
	is("Mturn", 5.28*40+150)
	bow := 90*g*xs*math.Cos(13*deg) + (85*0.32+130*0.64)*g*math.Sin(13*deg)
	is("Mbow", bow)
	is("Mheel", (85*0.2+220*zb)*g*math.Sin(9*deg)+220*g*0.08*math.Cos(9*deg))
	level := 68 + 220*(0.02+xs*xs+0.08*0.08)
	is("Jpair", level)
	is("MstopTurn", (level/40+table/40)*160*deg)
	is("MstopTilt", (bow+(hull+130*each)*240*deg)/i*(2-1/0.9)+screw*240*deg/i)
	is("aTilt", 240*deg)
	is("jTilt", 2400*deg)
	is("vRun", 4500*math.Pi/30/i)
	run := 14.4 * 0.9 * i / (hull + 40*each + screw)
	is("aRun", run)
	is("tTrip", 50*deg/run)
	is("Jfull", hull+220*each+screw)

	// Distances and levels: ISO 13855:2010 and ISO 13849-1:2015 by hand.
	whole := number(t, res, "whole")
	is("tFall", math.Sqrt(1.8/g))
	is("tMoves", whole-math.Sqrt(1.8/g))
	is("tGate", whole-math.Sqrt(0.24/g))
	is("Sgate", 1.6*(whole-math.Sqrt(0.24/g))+0.85)
	is("Smat", 1.6*(whole-math.Sqrt(0.24/g))+1.2)
	is("nYear", 120*8*3600/90.0)
	is("TPlug", 400e3/3840*year)
	is("TBrake", 500e3/3840*year)
	is("renew", 500e3/38400*year)
	is("points", 15+20+15+25+5)
	// Two contacts of more than 100 years count 100; each axis 100 and 90.8 years,
	// 95 for both, the row of 62 years; coverage about 91 %, medium.
	is("hourly", (4.29e-8+5e-9+3*8.84e-8)/3600)
	is("aloneRate", 1/(100*year))

	// Category 1 at every worst moment, and every quarter of a second.
	mot := runMotion(t)
	body5 := func(kgBow, yBow, kgStern float64) []mass {
		rider := func(kg, x, y float64) []mass { return body("roll", kg, point{x, y, zb}, kg*0.04, kg*0.04, kg*0.02) }
		all := append(body("yaw", 60, point{0, 0, 0.4}, 3, 3, 5), body("pitch", 40, point{}, 2, 2, 3)...)
		all = append(all, body("roll", 85, point{0, 0, 0.2}, 14, 55, 60)...)
		return append(append(all, rider(kgBow, xs, yBow)...), rider(kgStern, -xs, 0)...)
	}
	k := skiff{
		axes: mot, bodies: body5(heavy, 0.08, small), rotor: [3]float64{table, screw, screw}, friction: [3]float64{25, 15, 15},
		brake: [3]float64{5.28*40 + 150, 16 * i, 8 * i},
	}
	command := notice + control
	most, jerk := [3]float64{160 * deg, 240 * deg, 240 * deg}, [3]float64{1000 * deg, 2400 * deg, 2400 * deg}
	gentle := func(moment float64) halted { return k.byDrives(moment, command, most, jerk) }
	field := func(name string, f int) []float64 { return list(t, res, name, f) }
	angle, rest, value, when := field("one", 5), field("one", 6), field("one", 8), field("one", 10)
	const coarse = 0.02 // cubics through positions 20 ms apart, steps of 1 ms
	for n, moment := range field("one", 2) {
		h := gentle(moment)
		within(t, "goes on", angle[n], math.Abs(h.gone[n%3]), coarse)
		within(t, "rests", rest[n], h.rest[n%3], coarse)
	}
	is("goesOn", math.Max(angle[1], angle[4]))
	is("rollsOn", math.Max(angle[2], angle[5]))
	is("turnsOn", math.Max(angle[0], angle[3]))
	felts := func(h halted) [6]float64 { return [6]float64{h.forward, h.back, h.side, h.press, h.lift, 0} }
	for n := range 5 {
		within(t, "felt", value[n], felts(gentle(when[n]))[n], coarse)
	}
	is("lightest", value[4])
	within(t, "jerk", number(t, res, "jerk"), gentle(number(t, res, "one", 14)).jerk, 0.03)
	w := gentle(number(t, res, "one", 16))
	within(t, "all at rest", whole, math.Max(w.rest[0], math.Max(w.rest[1], w.rest[2])), coarse)
	within(t, "travel", number(t, res, "travel"), gentle(number(t, res, "one", 18)).travel, coarse)
	for moment := 0.0; moment < 78; moment += 0.25 {
		h := gentle(moment)
		for a := range 3 {
			if math.Abs(h.gone[a]) > (1+coarse)*math.Max(angle[a], angle[a+3]) || h.rest[a] > (1+coarse)*whole {
				t.Errorf("at %g s axis %d goes on by %g rad for %g s, more than was found", moment, a, h.gone[a], h.rest[a])
			}
		}
		if h.side > value[2]*(1+coarse) || h.lift < value[4]*(1-coarse) || h.travel > number(t, res, "travel")*(1+coarse) {
			t.Errorf("at %g s a seat feels more than was found: %+v", moment, h)
		}
	}

	// Category 0, at its worst moments.
	h := k.cut(field("zero", 2)[1], command)
	within(t, "pitch without power", field("zero", 5)[1], h.gone[1], coarse)
	h = k.cut(number(t, res, "zero", 16), command)
	within(t, "by brakes", number(t, res, "byBrakes"), math.Max(h.rest[0], math.Max(h.rest[1], h.rest[2])), coarse)
	within(t, "sideways", field("zero", 8)[2], k.cut(field("zero", 10)[2], command).side, 0.03)
	light := k
	light.bodies = body5(small, 0, small)
	within(t, "jolt", number(t, res, "jolted"), light.cut(field("zeroSmall", 10)[5], command).jolt, 0.06) // and what a brake adds in a step

	within(t, "jolt of the uneven pair", field("zero", 8)[5], k.cut(field("zero", 10)[5], command).jolt, 0.06)

	const brokenLift = 8 // its place in the answer
	// Broken parts, at all moments that the search named.
	moments := append(append(append([]float64{}, field("one", 2)...), when...), number(t, res, "one", 14), number(t, res, "one", 16), number(t, res, "one", 18))
	worst := func(of func(moment float64) float64) (most float64) {
		for _, m := range moments {
			most = math.Max(most, of(m))
		}
		return most
	}
	share := func(pitch, yaw float64) skiff {
		c := k
		c.brake[1], c.brake[0] = c.brake[1]*pitch, c.brake[0]*yaw
		return c
	}
	pitch, turn := field("broken", 4), field("broken", 3)
	within(t, "mains lost", pitch[4], worst(func(m float64) float64 { return math.Abs(k.cut(m, 0).gone[1]) }), coarse)
	half := share(0.5, 1)
	within(t, "half a brake", pitch[5], worst(func(m float64) float64 { return math.Abs(half.cut(m, 0).gone[1]) }), coarse)
	motor := share(1, 5.28*40/(5.28*40+150))
	within(t, "no band", turn[7], worst(func(m float64) float64 { return math.Abs(motor.cut(m, 0).gone[0]) }), coarse)
	// The rows of the fault table that the drives and the brakes decide, column by column:
	// all at rest, pitch, turntable, lightest.
	light1 := func(of func(m float64) halted) float64 {
		return -worst(func(m float64) float64 { return 20 - of(m).lift }) + 20
	}
	halfRoll := k
	halfRoll.brake[2] /= 2
	for row, of := range map[int]func(m float64) halted{
		0: gentle,
		1: func(m float64) halted { return k.byDrives(m, command+1.2, most, jerk) },
		2: gentle,
		3: gentle,
		4: func(m float64) halted { return k.cut(m, 0) },
		5: func(m float64) halted { return half.cut(m, 0) },
		6: func(m float64) halted { return halfRoll.cut(m, 0) },
		7: func(m float64) halted { return motor.cut(m, 0) },
	} {
		rests := worst(func(m float64) float64 { h := of(m); return math.Max(h.rest[0], math.Max(h.rest[1], h.rest[2])) })
		name := func(column string) string { return fmt.Sprintf("fault table, row %d, %s", row+1, column) }
		within(t, name("at rest"), field("broken", 2)[row], rests, coarse)
		within(t, name("pitch"), pitch[row], worst(func(m float64) float64 { return math.Abs(of(m).gone[1]) }), coarse)
		within(t, name("turntable"), turn[row], worst(func(m float64) float64 { return math.Abs(of(m).gone[0]) }), coarse)
		lightest, limit := field("broken", brokenLift)[row], light1(of)
		proved[lightest] = true
		if math.Abs(lightest-limit) > coarse*9.81 { // a share of g: the least of a swing about g
			t.Errorf("%s: got %.6g, want %.6g", name("lightest"), lightest, limit)
		}
	}
	// Category 0, what is felt, at the moments named.
	for n := range 5 {
		for name, c := range map[string]skiff{"zero": k, "zeroSmall": light} {
			got, want := field(name, 8)[n], felts(c.cut(field(name, 10)[n], command))[n]
			proved[got] = true
			if math.Abs(got-want) > 0.03*math.Max(math.Abs(want), 9.81) {
				t.Errorf("%s, felt %d: got %.6g, want %.6g", name, n, got, want)
			}
		}
	}
	k.pulled(t, res, gentle)
	k.failures(t, res, moments, command, most, jerk)
	near(t, "longest stop by the drives", demand(t, res, "longest stop by the drives, without the cord and the control"), whole-notice-control)
	near(t, "half of the pitch brake", demand(t, res, "half of the pitch brake holds the uneven pair"), 8*i)
	near(t, "half of the roll brake", demand(t, res, "half of the roll brake holds a pair that leans out"), 4*i)
	column(t, res, "What each stage reaches", "dangerous failures", 4.29e-8/3600, 5e-9/3600, 8.84e-8/3600, 8.84e-8/3600, 8.84e-8/3600)
	column(t, res, "Measures against one cause for both channels", "points", 15, 20, 15, 5, 5, 5, 25, 10) // ISO 13849-1:2015, table F.1 (from memory)
	column(t, res, "Measures against one cause for both channels", "counted", 15, 20, 15, 0, 0, 5, 25, 0)
	end := worst(func(m float64) float64 {
		return math.Max(k.runsAway(m, 50*deg/run+control, 1).struck, k.runsAway(m, 50*deg/run+control, -1).struck)
	})
	v := number(t, res, "vEnd")
	within(t, "runaway meets the end", v, end, 0.03)
	is("Ebuffer", (hull+220*each+screw)*v*v/2)
	is("Mstopper", (hull+220*each+screw)*v*v/2/0.06*0.4)
	allProved(t, res)
}

// runMotion is the positions of the axes from the notebook on motion.
func runMotion(t *testing.T) [3]axis {
	res := run(t, "storm-skiff-motion.md")
	return [3]axis{list(t, res, "yaw", 1), list(t, res, "pitch", 1), list(t, res, "roll", 1)}
}
