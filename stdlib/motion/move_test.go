package motion_test

import (
	"math"
	"testing"

	"tautline/stdlib/internal/proof"
	"tautline/stdlib/motion"

	"pgregory.net/rapid"
)

// Rest to rest, all regimes. Third row: L. Biagiotti and C. Melchiorri,
// Trajectory Planning for Automatic Machines and Robots, 2008, Example 3.13; the
// others by the same formulas, worked apart from this code.
func TestRestToRest(t *testing.T) {
	for _, c := range []struct{ h, v, a, j, Ta, Tv, peak, top, T float64 }{
		{10, 5, 10, 30, 0.833333, 1.166667, 5, 10, 2.833333},
		{10, 10, 10, 30, 1.180460, 0, 8.471271, 10, 2.360921},
		{10, 10, 20, 30, 1.100642, 0, 9.085603, 16.509636, 2.201285},
		{2, 1, 10, 5, 0.894427, 1.105573, 1, 2.236068, 2.894427},
		{0.4, 1, 10, 5, 0.683990, 0, 0.584804, 1.709976, 1.367981},
		{0.5, 2, 4, 20, 0.467423, 0, 1.069694, 4, 0.934847},
		{0.35, 1, 4, 40, 0.35, 0, 1, 4, 0.7},
		{0.05, 1, 4, 40, 0.170998, 0, 0.292402, 3.419952, 0.341995},
		{90 * deg, 60 * deg, 120 * deg, 600 * deg, 0.7, 0.8, 60 * deg, 120 * deg, 2.2},
		{10 * deg, 60 * deg, 120 * deg, 600 * deg, 0.405505, 0, 24.660606 * deg, 120 * deg, 0.811010},
		{5 * deg, 60 * deg, 120 * deg, 600 * deg, 0.321830, 0, 15.536163 * deg, 96.548938 * deg, 0.643660},
	} {
		for _, sign := range []float64{1, -1} {
			m := proof.Must(motion.NewMove(sign*c.h, 0, 0, motion.Limits{Speed: c.v, Acceleration: c.a, Jerk: c.j}))(t)
			printed := func(what string, got, want float64) { // six decimals
				t.Helper()
				if math.Abs(got-want) > 5.1e-7 {
					t.Errorf("%s: got %.9g, want %.9g", what, got, want)
				}
			}
			printed("start", m.Start, c.Ta)
			printed("end", m.End, c.Ta)
			printed("cruise", m.Cruise, c.Tv)
			printed("peak", m.Peak, sign*c.peak)
			printed("acceleration", m.Acceleration, c.top)
			printed("duration", m.Duration, c.T)
			proof.Near(t, "distance", m.At(m.Duration).Position, sign*c.h, 1e-12)
		}
	}
}

// Biagiotti and Melchiorri, Examples 3.9 and 3.10: four printed decimals.
func TestStartSpeed(t *testing.T) {
	m := proof.Must(motion.NewMove(10, 1, 0, motion.Limits{Speed: 5, Acceleration: 10, Jerk: 30}))(t)
	proof.Near(t, "start", m.Start, 0.7333, 1e-4)
	proof.Near(t, "cruise", m.Cruise, 1.1433, 1e-4)
	proof.Near(t, "end", m.End, 0.8333, 1e-4)
	proof.Near(t, "duration", m.Duration, 2.7100, 1e-4)
	if !m.SpeedReached || !m.AccelerationReached {
		t.Errorf("limits reached: got %+v", m)
	}
	m = proof.Must(motion.NewMove(10, 1, 0, motion.Limits{Speed: 10, Acceleration: 10, Jerk: 30}))(t)
	proof.Near(t, "start", m.Start, 1.0747, 1e-4)
	proof.Near(t, "cruise", m.Cruise, 0, 0)
	proof.Near(t, "end", m.End, 1.1747, 1e-4)
	proof.Near(t, "peak", m.Peak, 8.4136, 1e-5)
	proof.Near(t, "duration", m.Duration, 2.2494, 1e-4)
}

// The first move of the table above, integrated by hand at seven times.
func TestSamples(t *testing.T) {
	m := proof.Must(motion.NewMove(10, 0, 0, motion.Limits{Speed: 5, Acceleration: 10, Jerk: 30}))(t)
	for _, c := range []struct{ t, q, v, a float64 }{
		{0.2, 0.04, 0.6, 6}, {0.4, 0.3185185, 2.3333333, 10}, {0.7, 1.4285185, 4.7333333, 4},
		{1.0, 2.9166667, 5, 0}, {1.4166667, 5, 5, 0}, {2.2, 8.8766667, 4.4, -6}, {2.6, 9.9364815, 0.8166667, -7},
	} {
		s := m.At(c.t)
		proof.Near(t, "position", s.Position, c.q, 1e-6)
		proof.Near(t, "speed", s.Speed, c.v, 1e-6)
		proof.Near(t, "acceleration", s.Acceleration, c.a, 1e-6)
	}
}

// Stops: with a delay and next to no jerk limit; and jerk-limited on both sides
// of a²/j.
func TestStop(t *testing.T) {
	s := proof.Must(motion.NewStop(1.5, 0.12, motion.Limits{Speed: 2, Acceleration: 3.75, Jerk: 1e9}))(t)
	proof.Near(t, "angle", s.Angle, 27.50197*deg, 1e-6)
	proof.Near(t, "time", s.Time, 0.520, 1e-6)
	l := motion.Limits{Speed: 2, Acceleration: 3.75, Jerk: 20}
	s = proof.Must(motion.NewStop(1.5, 0, l))(t)
	proof.Near(t, "time", s.Time, 0.5875, 1e-12)
	proof.Near(t, "angle", s.Angle, 0.440625, 1e-12)
	s = proof.Must(motion.NewStop(0.3, 0, l))(t)
	proof.Near(t, "time", s.Time, 0.244949, 2e-6)
	proof.Near(t, "angle", s.Angle, 0.0367423, 2e-6)
	_, err := motion.NewStop(-1, 0, l)
	proof.Fails(t, "speed", err, "stop: speed: got -1")
}

func drawMove(t *rapid.T) (h, v0, v1 float64, l motion.Limits) {
	l = motion.Limits{Speed: rapid.Float64Range(0.2, 3).Draw(t, "v"), Acceleration: rapid.Float64Range(0.2, 10).Draw(t, "a"), Jerk: rapid.Float64Range(1, 50).Draw(t, "j")}
	share := rapid.Float64Range(-1, 1)
	return rapid.Float64Range(-3, 3).Draw(t, "h"), l.Speed * share.Draw(t, "v0"), l.Speed * share.Draw(t, "v1"), l
}

// Whatever the distance and speeds: it arrives, nothing jumps, no limit is
// passed, and the mirrored and the reversed move are as long.
func TestMoves(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		h, v0, v1, l := drawMove(t)
		m, err := motion.NewMove(h, v0, v1, l)
		if err != nil {
			t.Fatal(err)
		}
		end := m.At(m.Duration)
		close(t, "distance", end.Position, h, 1e-9)
		close(t, "end speed", end.Speed, v1, 1e-9)
		close(t, "end acceleration", end.Acceleration, 0, 1e-6)
		close(t, "start speed", m.At(0).Speed, v0, 1e-12)
		const n = 400
		step := m.Duration / n
		for i := range n {
			a, b := m.At(float64(i)*step), m.At(float64(i+1)*step)
			if math.Abs(a.Speed) > l.Speed*(1+1e-9) || math.Abs(a.Acceleration) > l.Acceleration*(1+1e-9) || math.Abs(a.Jerk) > l.Jerk*(1+1e-12) {
				t.Fatalf("at %g of %d: got %+v, beyond %+v", float64(i), n, a, l)
			}
			close(t, "acceleration between steps", b.Acceleration, a.Acceleration, l.Jerk*step*(1+1e-9)+1e-6)
			close(t, "position between steps", b.Position, a.Position+step*(a.Speed+b.Speed)/2, l.Jerk*step*step*step+1e-12)
		}
		mirror, _ := motion.NewMove(-h, -v0, -v1, l)
		close(t, "mirrored", mirror.Duration, m.Duration, 1e-9)
		reverse, _ := motion.NewMove(h, v1, v0, l)
		close(t, "reversed", reverse.Duration, m.Duration, 1e-6)
	})
}

// No move found another way is faster: any two speeds on the way, with a cruise
// that makes up the distance, take at least as long.
func TestNothingIsFaster(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		h, v0, v1, l := drawMove(t)
		m, err := motion.NewMove(h, v0, v1, l)
		if err != nil {
			t.Fatal(err)
		}
		change := func(from, to, a float64) (duration, distance float64) {
			d := math.Abs(to - from)
			duration = 2 * math.Sqrt(d/l.Jerk)
			if d*l.Jerk >= a*a {
				duration = d/a + a/l.Jerk
			}
			return duration, duration * (from + to) / 2
		}
		u := rapid.Float64Range(-l.Speed, l.Speed).Draw(t, "u")
		w := rapid.Float64Range(-l.Speed, l.Speed).Draw(t, "w")
		a := l.Acceleration * rapid.Float64Range(0.3, 1).Draw(t, "share of a")
		t1, d1 := change(v0, u, a)
		t2, d2 := change(u, w, l.Acceleration)
		t3, d3 := change(w, v1, l.Acceleration)
		for _, cruise := range []float64{u, w} {
			if rest := (h - d1 - d2 - d3) / cruise; rest >= 0 && t1+t2+t3+rest < m.Duration*(1-1e-9) {
				t.Fatalf("by way of %g and %g: %g s, the fastest is said to be %g s", u, w, t1+t2+t3+rest, m.Duration)
			}
		}
	})
}

func TestBadMove(t *testing.T) {
	l := motion.Limits{Speed: 1, Acceleration: 1, Jerk: 1}
	_, err := motion.NewMove(math.Inf(1), 0, 0, l)
	proof.Fails(t, "distance", err, "move: distance: got +Inf")
	_, err = motion.NewMove(1, 2, 0, l)
	proof.Fails(t, "start", err, "start speed: got 2, want -1 to 1")
	_, err = motion.NewMove(1, 0, 0, motion.Limits{Speed: 1, Acceleration: 1})
	proof.Fails(t, "limits", err, "jerk limit: got 0")
	m := proof.Must(motion.NewMove(0, 0, 0, l))(t)
	if m.Duration != 0 || m.At(5) != (motion.AxisState{}) {
		t.Errorf("no way to go: got %+v", m)
	}
	proof.Panics(t, "time: got NaN", func() { m.At(math.NaN()) })
}
