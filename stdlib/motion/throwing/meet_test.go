package throwing_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"tautline/stdlib/internal/proof"
	"tautline/stdlib/motion"
	"tautline/stdlib/motion/throwing"
	"tautline/stdlib/units"
)

// pushed is a still game from a height, with balls of 0.15 m, pushed off at 2 m/s.
func pushed(height float64) throwing.Game {
	g := game(0, height, false)
	g.Round = 0.15
	g.Riders.Least, g.Riders.Most = 2, 2
	g.Flights = 10_000
	return g
}

// flown is where a push of 2 m/s takes somebody from a height, by another generator:
// evenly over the upper half of a ball of directions.
func flown(rng *rand.Rand) (v [3]float64) {
	up := rng.Float64()
	sin, cos := math.Sincos(2 * math.Pi * rng.Float64())
	flat := 2 * math.Sqrt(1-up*up)
	return [3]float64{flat * cos, flat * sin, 2 * up}
}

// Another rider sits 0.6 m away, 0.9 m tall from 0.2 m below: how many of those
// pushed off come within two balls of him, in steps of 2 ms from another
// generator; and none of those who fly where he is not.
func TestMeetsSitter(t *testing.T) {
	g := pushed(1)
	g.Others = []throwing.Sitter{{At: motion.Point{X: 0.6, Z: 0.8}, Height: 0.9}}
	land := proof.Must(g.Throw())(t)
	rng := rand.New(rand.NewPCG(5, 6))
	const n = 10_000
	hits := 0.0
	for range n {
		v := flown(rng)
		for s := 0.0; ; s += 2e-3 {
			x, y, z := v[0]*s, v[1]*s, 1+v[2]*s-units.Gn*s*s/2
			if z < 0.15 {
				break
			}
			if math.Sqrt((x-0.6)*(x-0.6)+y*y+math.Pow(z-min(max(z, 0.8), 1.7), 2)) < 0.3-0.005 {
				hits++
				break
			}
		}
	}
	share := hits / n
	// Four times the scatter of two counts, and what is missed between two looks 20 ms
	// apart, 40 mm of a chord of the circle 0.3 m about him: 1 % of its width.
	if off := math.Abs(land.Met/land.Clear - share); off > 4*math.Sqrt(2*share*(1-share)/n)+0.01*share {
		t.Errorf("met: got %g, want %g", land.Met/land.Clear, share)
	}
	if !(land.MetSpeed > 2 && land.MetSpeed < math.Sqrt(4+2*units.Gn*0.85)) {
		t.Errorf("speed: got %g m/s, want between that of the push and that of the landing", land.MetSpeed)
	}
	if land.Slid != 0 {
		t.Errorf("slid: got %g, want none without an edge", land.Slid)
	}
	g.Others[0].At.X = 3
	if far := proof.Must(g.Throw())(t); far.Met != 0 {
		t.Errorf("met far away: got %g", far.Met)
	}
	g.Others[0].Height = -1
	_, err := g.Throw()
	proof.Fails(t, "height", err, "height of another rider: got -1, want 0 or more")
}

// On the way to the edge of a round hull of 1 m from its middle, another rider 0.6 m
// away is in the way of all who push within asin(0.3/0.6) of him: one in six.
func TestSlides(t *testing.T) {
	g := pushed(1)
	g.Edge = true
	for k := range 24 {
		sin, cos := math.Sincos(2 * math.Pi * float64(k) / 24)
		g.Base.Hull = append(g.Base.Hull, motion.Point{X: cos, Y: sin, Z: 1})
	}
	g.Others = []throwing.Sitter{{At: motion.Point{X: 0.6, Z: 1}, Height: 0.8}}
	land := proof.Must(g.Throw())(t)
	if all := land.Clear + land.Back; all != 10_000 || math.Abs(land.Slid/land.Clear-1.0/6) > 4*math.Sqrt(1.0/6*5/6/land.Clear) {
		t.Errorf("slid: got %g of %g, want one in six", land.Slid, land.Clear)
	}
}

// Two from one place within 0.3 s, by another generator and the quadratic of two who
// close in on a straight line.
func TestMeet(t *testing.T) {
	g := pushed(1.5)
	other := g
	other.Seed = 2
	other.Bed.X = 0.8
	m := proof.Must(g.Meet(other, false, 0.3, 0.5))(t)
	rng := rand.New(rand.NewPCG(8, 9))
	const n = 100_000
	air, down, either := 0.0, 0.0, 0.0
	fall := func(v [3]float64) float64 {
		return (v[2] + math.Sqrt(v[2]*v[2]+2*units.Gn*(1.5-0.15))) / units.Gn
	}
	for range n {
		u, v, later := flown(rng), flown(rng), 0.3*rng.Float64()
		// Seen at the moment the second leaves, from the first.
		d := [3]float64{0.8 - u[0]*later, -u[1] * later, -u[2]*later + units.Gn*later*later/2}
		w := [3]float64{v[0] - u[0], v[1] - u[1], v[2] - (u[2] - units.Gn*later)}
		end := min(fall(u)-later, fall(v))
		dw, ww := d[0]*w[0]+d[1]*w[1]+d[2]*w[2], w[0]*w[0]+w[1]*w[1]+w[2]*w[2]
		touched := false
		if end > 0 {
			s := min(max(-dw/ww, 0), end)
			touched = math.Sqrt(math.Pow(d[0]+w[0]*s, 2)+math.Pow(d[1]+w[1]*s, 2)+math.Pow(d[2]+w[2]*s, 2)) < 0.3
		}
		near := math.Hypot(0.8+v[0]*fall(v)-u[0]*fall(u), v[1]*fall(v)-u[1]*fall(u)) < 0.5
		if touched {
			air++
		}
		if near {
			down++
		}
		if touched || near {
			either++
		}
	}
	if m.Pairs != 10_000 {
		t.Errorf("pairs: got %g", m.Pairs)
	}
	for _, c := range []struct {
		what      string
		got, want float64
	}{{"in the air", m.Air, air}, {"down", m.Down, down}, {"either", m.Either, either}} {
		share := c.want / n
		if off := math.Abs(c.got/10_000 - share); off > 4*math.Sqrt(share*(1-share)*(1.0/n+1.0/10_000)) {
			t.Errorf("%s: got %g, want %g", c.what, c.got/10_000, share)
		}
	}
	proof.Near(t, "share", m.Share, m.Either/10_000, 1e-12)
	// So many drawn: the bound lies 1.645 deviations above, by the normal law.
	proof.Near(t, "bound", m.Upper, m.Share+1.645*math.Sqrt(m.Share*(1-m.Share)/10_000), 2e-3)
	g.Flights = 2000
	m = proof.Must(g.Meet(other, false, 0.3, 0.5))(t)
	if again := proof.Must(g.Meet(other, false, 0.3, 0.5))(t); again != m {
		t.Errorf("again: got %+v, want %+v", again, m)
	}
	// With drag that is next to none the same.
	g.Drag, g.Air, other.Drag, other.Air = 1e-6, 1.2, 1e-6, 1.2
	if thin := proof.Must(g.Meet(other, false, 0.3, 0.5))(t); math.Abs(thin.Air-m.Air) > 2 || math.Abs(thin.Down-m.Down) > 2 {
		t.Errorf("thin air: got %+v, want %+v", thin, m)
	}
}

// Dropped from two places a metre apart, turned about the middle or not, they come
// down so far apart and never touch; from one place at one moment they always do.
func TestMeetTurned(t *testing.T) {
	g := pushed(1.2)
	g.Riders.Least, g.Riders.Most = 1e-9, 1e-9
	g.Flights = 500
	g.Bed.X = -0.5
	away := g
	away.Bed.X = 0.5
	for _, c := range []struct {
		other      throwing.Game
		opposite   bool
		nearer     float64
		air, lands float64
	}{{away, false, 1.01, 0, 500}, {away, false, 0.99, 0, 0}, {g, true, 1.01, 0, 500}, {g, true, 0.99, 0, 0}, {g, false, 0, 500, 0}, {away, true, 0.1, 500, 500}} {
		m := proof.Must(g.Meet(c.other, c.opposite, 0, c.nearer))(t)
		if m.Air != c.air || m.Down != c.lands || m.Either != max(c.air, c.lands) {
			t.Errorf("at %g m, opposite %v, nearer than %g m: got %+v, want %g in the air, %g down", c.other.Bed.X, c.opposite, c.nearer, m, c.air, c.lands)
		}
	}
	g.Round = 0
	_, err := away.Meet(g, false, 0, 1)
	proof.Fails(t, "other", err, "meet: other game: round: got 0")
	_, err = away.Meet(away, false, -1, 1)
	proof.Fails(t, "within", err, "meet: time within which both leave: got -1")
}

// None of n: 1 - (1 - c)^(1/n); all but one: c^(1/n); others: scipy 1.10.1,
// beta.ppf(c, k+1, n-k).
func TestShareUpTo(t *testing.T) {
	for _, c := range []struct{ count, draws, confidence, want float64 }{
		{0, 1, 0.95, 0.95}, {0, 2995, 0.95, 1 - math.Pow(0.05, 1.0/2995)}, {9, 10, 0.9, math.Pow(0.9, 0.1)}, {5, 5, 0.9, 1},
		{2, 10, 0.95, 0.5069013010632024}, {37, 50_000, 0.95, 0.0009733960308244374}, {1234, 40_000, 0.99, 0.03292059651086638}, {400, 1000, 0.9, 0.42048704643361473},
	} {
		proof.Near(t, "share", proof.Must(throwing.ShareUpTo(c.count, c.draws, c.confidence))(t), c.want, 1e-9) // Lgamma of 50,000: 1e-15 of 5e5
	}
	_, err := throwing.ShareUpTo(3, 2, 0.9)
	proof.Fails(t, "count", err, "share: count: got 3, want 0 to 2")
	_, err = throwing.ShareUpTo(1, 2, 1)
	proof.Fails(t, "confidence", err, "share: confidence: got 1, want more than 0 and less than 1")
}
