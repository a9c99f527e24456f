package notebooks

import (
	"fmt"
	"math"
	"testing"

	"tautline/runner"
)

// failure is a stop with a drive that does not do what it should; an axis of -1 is
// none.
type failure struct {
	command, off float64 // when the outputs change, and when the power goes
	brakes       bool    // category 0: no drive slows anything
	dead         int     // its drive gives no torque
	runs         int     // its drive does its most,
	way          float64 // this way round
}

// breaks follows a failure from a moment to rest, axis by axis: as the ride goes, as
// a drive slows or runs away, loose under weight, friction and brake, held by them,
// or at the end of its travel, where it stays.
func (k skiff) breaks(moment float64, f failure, most, jerk [3]float64, run float64) halted {
	const deg = math.Pi / 180
	h := halted{lift: math.Inf(1)}
	first := k.at(moment)
	s := first
	var stuck [3]bool
	for i := 0; i < 3000; i++ {
		t := float64(i) * tick
		var loose [3]bool
		for x := range s {
			loose[x] = !stuck[x] && (x == f.dead || t >= f.off-tick/2)
			if loose[x] && math.Abs(s[x][1]) < 1e-9 {
				s[x][1] = 0
			}
		}
		resting := k.push(&s, loose, stuck, t-f.off)
		h.take(t, first, s)
		if resting && t > f.off+0.07 {
			break
		}
		ride := k.at(moment + t + tick)
		for x := range s {
			switch {
			case stuck[x]:
				continue
			case loose[x]:
				v := s[x][1] + s[x][2]*tick
				if s[x][1]*v < 0 {
					v = 0
				}
				s[x][0], s[x][1] = s[x][0]+(s[x][1]+v)/2*tick, v
			case x == f.runs:
				to := f.way * 4500 * math.Pi / 30 / (44 * math.Pi)
				s[x][1] -= to
				s[x] = slowed(s[x], run, 30000*deg)
				s[x][1] += to
				s[x][0] += to * tick
			case t+tick < f.command || f.brakes:
				s[x] = ride[x]
			default:
				s[x] = slowed(s[x], most[x], jerk[x])
			}
			if x > 0 && math.Abs(s[x][0]) > 20*deg {
				h.struck, stuck[x] = math.Max(h.struck, math.Abs(s[x][1])), true
				s[x] = swing{math.Copysign(20*deg, s[x][0]), 0, 0}
			}
		}
	}
	return h
}

// push gives the loose axes the accelerations that weight, friction and brake make,
// since is the time without power, and reports whether nothing moves.
func (k skiff) push(s *[3]swing, loose, stuck [3]bool, since float64) bool {
	if loose == [3]bool{} {
		return stuck == [3]bool{true, true, true}
	}
	var held [3]bool
	var full [3]float64
	for x := range s {
		full[x] = k.friction[x] + k.brake[x]*math.Max(0, math.Min(1, (since-0.04)/0.03))
		if loose[x] {
			held[x] = s[x][1] == 0
			s[x][2] = 0
		}
	}
	still := *s // with the accelerations that drives give
	for try := range 3 {
		*s = still
		bias := k.torque(s0(*s))
		var row [3][4]float64
		for x := range s {
			if !loose[x] || held[x] {
				row[x][x], row[x][3] = 1, s[x][2]
				continue
			}
			way := s[x][1]
			if way == 0 {
				way = -bias[x]
			}
			row[x][3] = -bias[x] - math.Copysign(full[x], way)
		}
		for x := range s {
			one := s0(*s)
			one[x][2] = 1
			need := k.torque(one)
			for y := range s {
				if loose[y] && !held[y] {
					row[y][x] = need[y] - bias[y]
				}
			}
			if loose[x] && !held[x] {
				row[x][x] += k.rotor[x]
			}
		}
		for x, a := range solve3(row) {
			s[x][2] = a
		}
		slipped := false
		need := k.torque(*s)
		for x := range s {
			if held[x] && math.Abs(need[x]) > full[x] && try < 2 {
				held[x], slipped = false, true
			}
		}
		if !slipped {
			break
		}
	}
	for x := range s {
		if !held[x] && !stuck[x] {
			return false
		}
	}
	return true
}

// failures compares the rows of both fault tables in which a drive fails or an axis
// has no brake, at all moments that the search named. Angles and times are within what
// cubics through positions 20 ms apart and steps of 1 ms leave; the lightest within as
// much of g, as the least of a swing about g.
func (k skiff) failures(t *testing.T, res *runner.Result, moments []float64, command float64, most, jerk [3]float64) {
	t.Helper()
	const coarse, deg, none = 0.02, math.Pi / 180, -1
	hull, each := 57+85*0.32*0.32, 0.04+0.64*0.64+0.45*0.45
	run := 14.4 * 0.9 * 44 * math.Pi / (hull + 40*each + 7.7e-4*44*math.Pi*44*math.Pi) // with two children
	free := k
	free.brake[1] = 0
	late := command + 0.7 // patience
	trip := 50*deg/run + 0.035
	for _, c := range []struct {
		name string
		row  int
		k    skiff
		f    failure
	}{
		{"broken", 8, free, failure{0, 0, true, none, none, 0}},
		{"broken", 9, k, failure{command, late, false, 0, none, 0}},
		{"broken", 10, k, failure{command, late, false, 1, none, 0}},
		{"broken", 11, k, failure{command, late, false, none, 1, 1}},
		{"quick", 0, k, failure{0.035, 0.035, true, 1, none, 0}},
		{"quick", 1, k, failure{trip, trip, true, none, 1, 1}},
		{"quick", 2, k, failure{trip, trip, true, none, 2, 1}},
	} {
		var rests, lift float64
		var gone [3]float64
		lift = math.Inf(1)
		for _, m := range moments {
			for _, c.f.way = range []float64{1, -1} {
				if c.f.runs == none && c.f.way < 0 {
					continue
				}
				h := c.k.breaks(m, c.f, most, jerk, run)
				rests, lift = math.Max(rests, math.Max(h.rest[0], math.Max(h.rest[1], h.rest[2]))), math.Min(lift, h.lift)
				for x := range gone {
					gone[x] = math.Max(gone[x], math.Abs(h.gone[x]))
				}
			}
		}
		of := func(field int) float64 { return list(t, res, c.name, field)[c.row] }
		what := fmt.Sprintf("%s, row %d, ", c.name, c.row+1)
		within(t, what+"at rest", of(2), rests, coarse)
		within(t, what+"turntable", of(3), gone[0], coarse)
		within(t, what+"pitch", of(4), gone[1], coarse)
		within(t, what+"roll", of(5), gone[2], coarse)
		proved[of(8)] = true
		if math.Abs(of(8)-lift) > coarse*testGravity {
			t.Errorf("%slightest: got %.6g, want %.6g", what, of(8), lift)
		}
	}
	near(t, "sinks", number(t, res, "sinks"), list(t, res, "quick", 4)[0])
}

// pulled compares when the stops that go farthest are pulled: the same stop pulled
// 20 ms sooner or later, the step of the search, goes no farther, but for what cubics
// through positions 20 ms apart leave.
func (k skiff) pulled(t *testing.T, res *runner.Result, stop func(moment float64) halted) {
	t.Helper()
	for n, moment := range list(t, res, "one", 2) {
		proved[moment] = true
		way := 1 - 2*float64(n/3)
		goes := way * stop(moment).gone[n%3]
		for _, other := range []float64{moment - 0.1, moment - 0.02, moment + 0.02, moment + 0.1} {
			if far := way * stop(other).gone[n%3]; far > goes*1.002 {
				t.Errorf("axis %d pulled at %g s goes on by %.6g, at %g s by %.6g", n%3, moment, goes, other, far)
			}
		}
	}
}
