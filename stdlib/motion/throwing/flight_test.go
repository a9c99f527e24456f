package throwing

import (
	"math"
	"testing"

	"tautline/stdlib/internal/polygon"
	"tautline/stdlib/internal/proof"
	"tautline/stdlib/internal/vector"
	"tautline/stdlib/motion"
	"tautline/stdlib/units"
)

// floating is a stage with a hull 2 m by 1 m, its edge 1 m up, on a post, that heaves
// by a pitch axis far away: 0.1·sin(2π·t/2 s) rad at 3 m is 0.94 m/s at most.
func floating(t *testing.T, heaves bool) *stage {
	wide := motion.Axis{Low: -1, High: 1, Limits: motion.Limits{Speed: 4, Acceleration: 10, Jerk: 100}}
	level := motion.Level{Name: "one", Duration: 20 * units.S}
	if heaves {
		level.Pitch = motion.Wave{Amplitude: 0.1, Period: 2 * units.S}
	}
	g := Game{
		Base: motion.Base{Name: "raft", Yaw: wide, Pitch: wide, Roll: wide, PitchAxis: motion.Point{X: -3, Z: 1}, RollAxis: motion.Point{X: 3},
			Hull: []motion.Point{{X: 1, Y: -0.5}, {X: 1, Y: 0.5}, {X: -1, Y: 0.5}, {X: -1, Y: -0.5}}},
		Programme: motion.Programme{Levels: []motion.Level{level}},
		Riders:    Riders{Short: 1, Tall: 1, Slight: 70, Stout: 70},
		Round:     0.15, HullDepth: 0.3, Bed: Bed{Inner: 5}, PostRadius: 0.2, PostHeight: 0.6,
		Flights: 1, Confidence: 0.95,
	}
	return proof.Must(newStage(g))(t)
}

func thrown(s *stage, start float64, at, speed vector.Vector) flight {
	f := flight{start: start, mass: 70, at: at, speed: speed}
	s.fly(&f)
	return f
}

// Hits that the plane geometry of the flight tells: the ball is 0.15 m in radius.
func TestHits(t *testing.T) {
	s := floating(t, false)
	for _, c := range []struct {
		what       string
		at, speed  vector.Vector
		back       bool
		hull, post bool
	}{
		{"up and down again", vector.Vector{0, 0, 1.5}, vector.Vector{0, 0, 1}, true, false, false},
		{"leaps over the edge", vector.Vector{0, 0, 1.5}, vector.Vector{0, 4, 0}, false, false, false},    // over the edge 0.42 m up
		{"falls short of the edge", vector.Vector{0, 0, 1.5}, vector.Vector{1, 0, 0}, true, false, false}, // 4.9 m below it after 1 s
		{"falls beside", vector.Vector{0, 0.9, 1.5}, vector.Vector{0, 0, 0}, false, false, false},         // 0.4 m beside
		{"grazes the side", vector.Vector{0, 0.9, 1.5}, vector.Vector{0, -0.9, 0}, false, true, false},    // 0.29 m nearer at the edge
		{"flies under onto the post", vector.Vector{2, 0, 0.5}, vector.Vector{-8, 0, 0.9}, false, false, true},
	} {
		f := thrown(s, 1, c.at, c.speed)
		if f.back != c.back || f.hull > 0 != c.hull || f.post > 0 != c.post {
			t.Errorf("%s: got back %v, hull %g, post %g m/s", c.what, f.back, f.hull, f.post)
		}
	}
	f := thrown(s, 1, vector.Vector{2, 0, 0.5}, vector.Vector{-8, 0, 0.9})
	// It meets the post 0.35 m before its axis, after 1.65/8 s, seen within 20 ms.
	late := 1.65 / 8
	slow, fast := math.Hypot(8, 0.9-units.Gn*late), math.Hypot(8, 0.9-units.Gn*(late+0.02))
	if !(min(slow, fast) <= f.post && f.post <= max(slow, fast)) {
		t.Errorf("speed at the post: got %g, want %g to %g", f.post, slow, fast)
	}
}

// A raft that comes up strikes who hangs beside its edge over it: at the speed of
// both, the raft's by its angle alone.
func TestHullComesUp(t *testing.T) {
	s := floating(t, true)
	state := func(at float64) motion.AxisState { return s.ride.At(at).Pitch }
	start := 0.0
	for k := range 400 { // when the raft is lowest, some way into the ride: pitch is greatest
		if at := 6 + float64(k)*tick; state(at).Position > state(start).Position {
			start = at
		}
	}
	drop := 0.4
	f := thrown(s, start, vector.Vector{0, 0.6, 1 - 3*math.Sin(0.1) + drop}, vector.Vector{})
	if f.hull == 0 {
		t.Fatal("got no hit")
	}
	// Where the ball, 0.1 m outside the edge, comes within 0.15 m of it.
	gap := math.Sqrt(0.15*0.15 - 0.1*0.1)
	var want float64
	for at := 0.0; ; at += 1e-5 {
		edge := 1 - 3*math.Sin(state(start+at).Position)
		if body := 1 - 3*math.Sin(0.1) + drop - units.Gn*at*at/2; body-edge < gap {
			rise := -3 * math.Cos(state(start+at).Position) * state(start+at).Speed
			want = units.Gn*at + rise
			break
		}
	}
	proof.Near(t, "speed", f.hull, want, 0.1) // a look every 20 ms
}

// Drag changes a flight as little as it should between two steps: the cubic against
// the steps themselves, and the steps against finer ones.
func TestDragPath(t *testing.T) {
	p := &dragPath{drag: 0.012, states: []freePath{{vector.Vector{0, 0, 1.5}, vector.Vector{3, 0, 2}}}}
	p.fall(0)
	// scipy 1.10.1, solve_ivp by DOP853 at rtol 1e-12.
	proof.Near(t, "time", p.down(0), 0.7953780148953977, 1e-7)
	at, speed := p.after(p.down(0))
	proof.Near(t, "distance", at[0], 2.3469584988295162, 1e-7)
	proof.Near(t, "speed", length(speed), 6.3965185718733135, 1e-7)
	proof.Near(t, "top", p.top(), 1.70282997, 1e-7)
	for k := range 70 {
		tt := 0.011 * float64(k)
		at, _ := p.after(tt)
		if off := length(at.Minus(p.glance(tt))); off > 1e-6 {
			t.Errorf("after %g s: got %g m off", tt, off)
		}
	}
	proof.Near(t, "up to a level", (&dragPath{drag: 0.012, states: p.states, peak: p.peak}).down(3), 0, 1e-12)
}

// The contour of a normal scatter holds its share, none that leaves out one more
// on each side does, and it is nearly the circle of radius sqrt(-2·ln(1-share)).
func TestContour(t *testing.T) {
	var x tally
	d := draws(7)
	for range 50_000 {
		r, a := math.Sqrt(-2*math.Log(1-d.next())), 2*math.Pi*d.next()
		x.x, x.y = append(x.x, r*math.Cos(a)), append(x.y, r*math.Sin(a))
	}
	sorted := x.projections()
	for _, share := range []float64{0.9, 0.99} {
		hold := int(share * 50_000)
		xs, ys := x.contour(sorted, hold)
		var loop, wider polygon.Loop
		for i := range xs {
			loop = append(loop, polygon.Point{X: xs[i], Y: ys[i]})
			wider = append(wider, polygon.Point{X: xs[i] * (1 + 1e-9), Y: ys[i] * (1 + 1e-9)})
		}
		inside := 0
		for i := range x.x {
			if wider.Contains(polygon.Point{X: x.x[i], Y: x.y[i]}) {
				inside++
			}
		}
		if inside < hold || inside > hold+60 { // the next has one more out on each of 36 sides
			t.Errorf("%g: got %d inside, want %d or few more", share, inside, hold)
		}
		// Same area as the circle: a polygon of 36 sides about it holds as much.
		radius := math.Sqrt(loop.Area() / math.Pi)
		proof.Near(t, "radius", radius, math.Sqrt(-2*math.Log(1-share)), 0.01) // scatter of the quantile of 50 000 draws, three times over
	}
}

// Hands open once a need greater than the grip has lasted, tick by tick.
func TestOpens(t *testing.T) {
	s := &stage{from: 1}
	for k := range 100 {
		need := 0.1
		if k >= 40 && k < 44 || k >= 60 && k < 90 {
			need = 0.5
		}
		s.needed = append(s.needed, need)
		if k%stretch == 0 {
			s.most = append(s.most, need)
		}
		s.most[k/stretch] = max(s.most[k/stretch], need)
	}
	for _, c := range []struct {
		moment, grip, hold, want float64 // want: ticks after 1 s, -1 for never
	}{
		{1, 0.3, 0, 40}, {1, 0.3, 3 * tick, 43}, {1, 0.3, 4 * tick, 64}, {1, 0.6, 0, -1}, {1.21, 0.3, 0, 42}, {1.23, 0.3, 0, 60},
		{1, 0.05, 0, 0}, {1.1, 0.3, 31 * tick, -1}, {1.499, 0.3, 0, -1},
	} {
		at, off := s.opens(c.moment, c.grip, c.hold)
		if got := math.Round((at - 1) / tick); off != (c.want >= 0) || off && got != c.want {
			t.Errorf("%+v: got %g ticks, %v", c, got, off)
		}
	}
}
