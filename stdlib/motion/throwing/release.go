package throwing

import (
	"fmt"
	"math"

	"tautline/stdlib/internal/vector"
	"tautline/stdlib/motion"
	"tautline/stdlib/units"
)

// A stage is a game worked out once for all its flights.
type stage struct {
	Game
	ride   motion.Ride
	from   float64 // of the moments drawn
	until  float64
	poses  []pose     // from then on, tick by tick
	needed []float64  // of the hands, over weight, at each tick until the last moment drawn
	most   []float64  // of each stretch of needed
	rim    float64    // height of the hull's highest edge in the roll part
	reach  float64    // of the hull from the yaw axis, at most
	states []freePath // room for the flight that is followed
}

const (
	tick    = 5 * units.Ms
	stretch = 16          // ticks of which the greatest need is known
	longest = 4 * units.S // of a flight that is followed past the hull
)

// A pose is where the roll part is: rows of its rotation, and its origin.
type pose struct {
	turn [3]vector.Vector
	at   vector.Vector
}

func newStage(g Game) (*stage, error) {
	ride, err := g.Programme.Ride(g.Base)
	if err != nil {
		return nil, err
	}
	s := &stage{Game: g, ride: ride, from: g.From, until: g.Until}
	if s.until == 0 {
		s.until = ride.Duration
	}
	if !(s.from <= s.until && s.until <= ride.Duration*(1+1e-12)) {
		return nil, fmt.Errorf("moments: got %g s to %g s, want them in order and within the ride of %g s", s.from, s.until, ride.Duration)
	}
	if ticks := (s.until - s.from) / tick; ticks > 1e6 {
		return nil, fmt.Errorf("moments: got %g s of them, want at most %g s", s.until-s.from, 1e6*tick)
	}
	s.rim = math.Inf(-1)
	for _, p := range g.Base.Hull {
		s.rim = max(s.rim, p.Z)
		far := vector.Vector{p.X, p.Y, math.Max(math.Abs(p.Z), math.Abs(p.Z-g.HullDepth))}
		s.reach = max(s.reach, far.Length())
	}
	p, r := g.Base.PitchAxis, g.Base.RollAxis
	s.reach += vector.Vector{p.X, p.Y}.Length() + vector.Vector{r.X, r.Y, r.Z}.Length() + g.Round
	s.work()
	return s, nil
}

// work fills the tables of poses and of what the hands need.
func (s *stage) work() {
	seated := s.Base
	seated.Seats = []motion.Seat{{Name: "middle", At: s.middle((s.Riders.Short + s.Riders.Tall) / 2)}}
	for k := 0; ; k++ {
		t := s.from + float64(float64(k)*tick)
		if t > s.until+longest {
			break
		}
		state := s.ride.At(t)
		if len(s.Base.Hull) > 2 || len(s.Others) > 0 {
			m, o := state.Rotation(), s.Base.Point(state, motion.Point{}).At
			s.poses = append(s.poses, pose{[3]vector.Vector{{m.XX, m.XY, m.XZ}, {m.YX, m.YY, m.YZ}, {m.ZX, m.ZY, m.ZZ}}, vector.Vector{o.X, o.Y, o.Z}})
		}
		if t > s.until || s.Riders.Strong == 0 {
			continue
		}
		f := seated.Felt(state, 0)
		side := max(0, math.Hypot(f.X, f.Y)-s.Friction*max(0, f.Z))
		need := math.Hypot(side, max(0, -f.Z)) / units.Gn
		s.needed = append(s.needed, need)
		if k%stretch == 0 {
			s.most = append(s.most, need)
		}
		s.most[k/stretch] = max(s.most[k/stretch], need)
	}
}

// middle is the middle of mass of a body of a height, in the roll part.
func (s *stage) middle(height float64) motion.Point {
	return motion.Point{X: s.Place.X, Y: s.Place.Y, Z: s.Place.Z + s.Middle*height}
}

// draws are random numbers that a seed sets, by the generator splitmix64.
type draws uint64

// next is a number from 0 to 1.
func (d *draws) next() float64 {
	*d += 0x9e3779b97f4a7c15
	z := uint64(*d)
	z = (z ^ z>>30) * 0xbf58476d1ce4e5b9
	z = (z ^ z>>27) * 0x94d049bb133111eb
	return float64((z^z>>31)>>11) / (1 << 53)
}

func (d *draws) between(low, high float64) float64 { return low + float64(d.next()*(high-low)) }

// A rider is who is drawn, and how he holds on and pushes off.
type rider struct{ height, mass, grip, hold, push, up, round float64 }

func (s *stage) rider(d *draws) rider {
	r := s.Riders
	n := rider{height: d.between(r.Short, r.Tall)}
	n.mass = float64(d.between(r.Slight, r.Stout)*n.height) * n.height
	n.grip, n.hold = d.between(r.Weak, r.Strong), d.between(r.Brief, r.Long)
	n.push, n.up, n.round = d.between(r.Least, r.Most), d.next(), d.next()
	return n
}

// release draws a rider and how he leaves. It reports false for one who holds on.
func (s *stage) release(d *draws) (flight, bool) {
	moment := d.between(s.from, s.until)
	r := s.rider(d)
	if s.Riders.Strong > 0 {
		var off bool
		if moment, off = s.opens(moment, r.grip, r.hold); !off {
			return flight{}, false
		}
	}
	return s.leave(r, moment), true
}

// leave is a rider's flight from a moment on.
func (s *stage) leave(r rider, moment float64) flight {
	f := flight{start: moment, height: r.height, mass: r.mass}
	sin, cos := math.Sincos(2 * math.Pi * r.round)
	from := s.middle(f.height)
	if s.Edge {
		from = s.edge(cos, sin)
		f.slid = s.passes(from)
		from.Z += s.Middle * f.height
	}
	state := s.ride.At(moment)
	path := s.Base.Point(state, from)
	level := r.push * math.Sqrt(1-float64(r.up*r.up))
	own := turned(vector.Vector{level * cos, level * sin, r.push * r.up}, state)
	f.at = vector.Vector{rounded(path.At.X), rounded(path.At.Y), rounded(path.At.Z)}
	f.speed = vector.Vector{rounded(path.Velocity.X + own[0]), rounded(path.Velocity.Y + own[1]), rounded(path.Velocity.Z + own[2])}
	return f
}

// passes reports whether the way from the place to an edge leads through another
// rider.
func (s *stage) passes(edge motion.Point) bool {
	for _, o := range s.Others {
		way := vector.Vector{edge.X - s.Place.X, edge.Y - s.Place.Y}
		if length(between(vector.Vector{o.At.X - s.Place.X, o.At.Y - s.Place.Y}, way)) < 2*s.Round {
			return true
		}
	}
	return false
}

// turned is a vector of the roll part in the world.
func turned(v vector.Vector, state motion.State) vector.Vector {
	for i, angle := range [3]float64{state.Roll.Position, state.Pitch.Position, state.Yaw.Position} {
		sin, cos := math.Sincos(angle)
		j, k := (i+1)%3, (i+2)%3
		v[j], v[k] = float64(cos*v[j])-float64(sin*v[k]), float64(sin*v[j])+float64(cos*v[k])
	}
	return v
}

// edge is where the way from the place in a direction leaves the hull, on its edge.
func (s *stage) edge(cos, sin float64) motion.Point {
	far, at := -1.0, s.Place
	hull := s.Base.Hull
	for i, a := range hull {
		b := hull[(i+1)%len(hull)]
		ex, ey, px, py := b.X-a.X, b.Y-a.Y, s.Place.X-a.X, s.Place.Y-a.Y
		over := ex*sin - ey*cos
		if over == 0 {
			continue
		}
		share, way := (px*sin-py*cos)/over, (px*ey-py*ex)/over
		if share >= 0 && share <= 1 && way > far {
			far, at = way, motion.Point{X: a.X + share*ex, Y: a.Y + share*ey, Z: a.Z + share*(b.Z-a.Z)}
		}
	}
	return at
}

// opens is when hands open that from a moment on have a grip and hold a time.
func (s *stage) opens(moment, grip, hold float64) (float64, bool) {
	lasting := int(math.Ceil(hold/tick - 1e-9))
	first := int(math.Ceil((moment - s.from) / tick))
	since := -1
	for k := first; k < len(s.needed); k++ {
		if since < 0 && k%stretch == 0 && s.most[k/stretch] < grip {
			k += stretch - 1
			continue
		}
		if s.needed[k] < grip {
			since = -1
			continue
		}
		if since < 0 {
			since = k
		}
		if k-since >= lasting {
			return s.from + float64(float64(k)*tick), true
		}
	}
	return 0, false
}

// rounded is v to 1e-9, so that it is the same on every system.
func rounded(v float64) float64 { return math.Round(v*1e9) / 1e9 }
