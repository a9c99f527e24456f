package throwing

import (
	"math"

	"tautline/stdlib/internal/vector"
	"tautline/stdlib/motion"
	"tautline/stdlib/units"
)

// A flight is a rider on his way from a moment of the ride to the bed.
type flight struct {
	start        float64
	height, mass float64       // of the body
	at, speed    vector.Vector // of its middle: where it leaves, from the ground under the yaw axis; then where it lands, from the bed's middle
	top          float64       // highest point of it
	wall         float64       // distance from the bed's middle where it comes down to the wall's top
	hull, post   float64       // speed with which it met them; 0 if it did not
	met          float64       // speed with which it met another rider in his seat; 0 if it did not
	slid         bool          // the way to the edge led through one
	outside      bool          // it has been clear of the hull's outline
	back         bool          // it came down on its own hull
	over, off    bool
}

const look = 20 * units.Ms // between two looks at what the body may meet

// fly follows a flight to its end.
func (s *stage) fly(f *flight) {
	path := s.path(f)
	f.top = path.top()
	lands := path.down(s.Bed.Crown + s.Round)
	near := s.nearest(f.start, f.at)
	f.outside = !s.Edge
	apart := s.fromOthers(f.start, f.at)
	for k := 1; ; k++ {
		t := float64(float64(k) * look)
		if t >= lands {
			break
		}
		if s.meets(f, t, path, near); f.back {
			return
		}
		s.touches(f, t, path, apart)
	}
	crossing, _ := path.after(path.down(s.Bed.Crown + s.Bed.Wall + s.Round))
	middle := vector.Vector{s.Bed.X, s.Bed.Y}
	f.wall = level(crossing.Plus(middle)) + s.Round
	f.at, f.speed = path.after(lands)
	f.at = f.at.Plus(middle)
	f.off = level(f.at) > s.Bed.Inner
	f.over = f.wall > s.Bed.Inner
}

// meets notes what the ball about the middle touches a time after it left. near is
// how near the middle was to the hull then.
func (s *stage) meets(f *flight, t float64, path path, near float64) {
	at := path.glance(t)
	far := level(at)
	if s.PostRadius > 0 && f.post == 0 {
		if length(vector.Vector{max(0, far-s.PostRadius), 0, max(0, at[2]-s.PostHeight)}) < s.Round {
			_, speed := path.after(t)
			f.post = length(speed)
		}
	}
	if f.hull > 0 || far > s.reach || len(s.poses) == 0 {
		return
	}
	p := s.inHull(f.start+t, at)
	if f.outside && p[2]-s.rim >= s.Round { // over it
		return
	}
	aside, up, inside := s.fromHull(p)
	f.outside = f.outside || aside >= s.Round
	if length(vector.Vector{aside, up}) < min(s.Round, near)-5*units.Mm {
		if inside {
			f.back = true
			return
		}
		if !f.outside {
			return
		}
		_, speed := path.after(t)
		v := s.Base.Point(s.ride.At(f.start+t), motion.Point{X: p[0], Y: p[1], Z: p[2]}).Velocity
		f.hull = max(length(speed.Minus(vector.Vector{v.X, v.Y, v.Z})), 1e-9)
	}
}

// touches notes whether the ball about the middle meets another rider in his seat a
// time after it left: a body as thick, from the seat upward. apart is how near they
// were then.
func (s *stage) touches(f *flight, t float64, path path, apart []vector.Vector) {
	if f.met > 0 || len(apart) == 0 {
		return
	}
	at := path.glance(t)
	for i, d := range s.fromOthers(f.start+t, at) {
		if length(d) >= min(2*s.Round, length(apart[i]))-5*units.Mm {
			continue
		}
		_, speed := path.after(t)
		p := s.inHull(f.start+t, at).Minus(d)
		v := s.Base.Point(s.ride.At(f.start+t), motion.Point{X: p[0], Y: p[1], Z: p[2]}).Velocity
		f.met = max(length(speed.Minus(vector.Vector{v.X, v.Y, v.Z})), 1e-9)
		return
	}
}

// fromOthers is the way from the nearest of each of the other riders to a place, in
// the roll part.
func (s *stage) fromOthers(t float64, at vector.Vector) []vector.Vector {
	if len(s.Others) == 0 {
		return nil
	}
	p := s.inHull(t, at)
	var ways []vector.Vector
	for _, o := range s.Others {
		ways = append(ways, between(p.Minus(vector.Vector{o.At.X, o.At.Y, o.At.Z}), vector.Vector{0, 0, o.Height}))
	}
	return ways
}

// between is the way to a point from the nearest of a line from the origin to an end.
func between(p, end vector.Vector) vector.Vector {
	along := 0.0
	if long := float64(end[0]*end[0]) + float64(end[1]*end[1]) + float64(end[2]*end[2]); long > 0 {
		along = min(1, max(0, (float64(p[0]*end[0])+float64(p[1]*end[1])+float64(p[2]*end[2]))/long))
	}
	return vector.Vector{p[0] - float64(along*end[0]), p[1] - float64(along*end[1]), p[2] - float64(along*end[2])}
}

// nearest is how near a place is to the hull at a time of the ride.
func (s *stage) nearest(t float64, at vector.Vector) float64 {
	if len(s.poses) == 0 {
		return 0
	}
	aside, up, _ := s.fromHull(s.inHull(t, at))
	return length(vector.Vector{aside, up})
}

// inHull turns a place in the world into the roll part, as that stands at the
// nearest tick.
func (s *stage) inHull(t float64, at vector.Vector) vector.Vector {
	k := min(max(int((t-s.from)/tick+0.5), 0), len(s.poses)-1)
	p := &s.poses[k]
	d := at.Minus(p.at)
	var in vector.Vector
	for j := range in {
		in[j] = float64(p.turn[0][j]*d[0]) + float64(p.turn[1][j]*d[1]) + float64(p.turn[2][j]*d[2])
	}
	return in
}

// fromHull is how far aside of the hull's outline and how far above or below the
// hull a place lies, and whether it lies over the outline. The hull is a prism below
// its highest edge.
func (s *stage) fromHull(p vector.Vector) (aside, up float64, inside bool) {
	up = max(0, p[2]-s.rim, s.rim-s.HullDepth-p[2])
	hull := s.Base.Hull
	least := math.Inf(1)
	for i, a := range hull {
		b := hull[(i+1)%len(hull)]
		ex, ey, px, py := b.X-a.X, b.Y-a.Y, p[0]-a.X, p[1]-a.Y
		if (a.Y > p[1]) != (b.Y > p[1]) && px < py/ey*ex {
			inside = !inside
		}
		along := 0.0
		if long := float64(ex*ex) + float64(ey*ey); long > 0 {
			along = min(1, max(0, (float64(px*ex)+float64(py*ey))/long))
		}
		dx, dy := px-float64(along*ex), py-float64(along*ey)
		least = min(least, float64(dx*dx)+float64(dy*dy))
	}
	if inside {
		return 0, up, true
	}
	return math.Sqrt(least), up, false
}

// A path is a flight through the air.
type path interface {
	glance(t float64) vector.Vector // where it is, to 1e-6 m
	after(t float64) (at, speed vector.Vector)
	top() float64
	down(level float64) float64 // when it comes down to a level; 0 if it starts below and does not rise to it
}

func (s *stage) path(f *flight) path {
	free := freePath{f.at, f.speed}
	if s.Drag == 0 {
		return free
	}
	p := &dragPath{drag: s.Air * s.Drag / (2 * f.mass), states: append(s.states[:0], free)}
	p.fall(s.Bed.Crown + s.Round)
	s.states = p.states
	return p
}

// freePath is a parabola.
type freePath struct{ at, speed vector.Vector }

func (p freePath) after(t float64) (at, speed vector.Vector) {
	for i := range at {
		at[i], speed[i] = p.at[i]+float64(p.speed[i]*t), p.speed[i]
	}
	at[2] -= float64(units.Gn * t / 2 * t)
	speed[2] -= float64(units.Gn * t)
	return at, speed
}

func (p freePath) glance(t float64) vector.Vector {
	at, _ := p.after(t)
	return at
}

func (p freePath) top() float64 {
	up := max(0, p.speed[2])
	return p.at[2] + float64(up*up)/(2*units.Gn)
}

func (p freePath) down(level float64) float64 {
	square := float64(p.speed[2]*p.speed[2]) + float64(2*units.Gn*(p.at[2]-level))
	if square < 0 {
		return 0
	}
	return max(0, (p.speed[2]+math.Sqrt(square))/units.Gn)
}

// dragPath is a flight that the air slows, by steps.
type dragPath struct {
	drag   float64    // retardation over squared speed
	states []freePath // at each step
	peak   float64    // height of the highest point
}

// step of the integration: drag changes the speed by some thousandths in it.
const step = 60 * units.Ms

// most steps of a flight: half a minute.
const most = 500

// fall takes steps until the body is on its way down below a level.
func (p *dragPath) fall(level float64) {
	p.peak = p.states[0].at[2]
	for range most {
		last := p.states[len(p.states)-1]
		next := p.next(last, step)
		if last.speed[2] > 0 && next.speed[2] <= 0 {
			h := last.speed[2] / units.Gn
			for range rounds {
				h += p.next(last, h).speed[2] / units.Gn
			}
			p.peak = p.next(last, h).at[2]
		}
		if p.states = append(p.states, next); next.speed[2] <= 0 && next.at[2] < level {
			return
		}
	}
}

// rounds of Newton's method from where the body would be without drag: each divides
// what is left by a hundred or more.
const rounds = 2

// next is the state after a time, by one step of Runge and Kutta's fourth order.
func (p *dragPath) next(s freePath, h float64) freePath {
	slope := func(s freePath) freePath {
		k := -float64(p.drag * length(s.speed))
		return freePath{s.speed, vector.Vector{k * s.speed[0], k * s.speed[1], float64(k*s.speed[2]) - units.Gn}}
	}
	along := func(d freePath, h float64) freePath {
		out := s
		for i := range 3 {
			out.at[i] += float64(h * d.at[i])
			out.speed[i] += float64(h * d.speed[i])
		}
		return out
	}
	a := slope(s)
	b := slope(along(a, h/2))
	c := slope(along(b, h/2))
	d := slope(along(c, h))
	for i := range 3 {
		a.at[i] = (a.at[i] + 2*(b.at[i]+c.at[i]) + d.at[i]) / 6
		a.speed[i] = (a.speed[i] + 2*(b.speed[i]+c.speed[i]) + d.speed[i]) / 6
	}
	return along(a, h)
}

func (p *dragPath) after(t float64) (at, speed vector.Vector) {
	k := min(int(t/step+1e-9), len(p.states)-1)
	s := p.states[k]
	if h := t - float64(float64(k)*step); h > 1e-9*step {
		s = p.next(s, h)
	}
	return s.at, s.speed
}

// glance is by the cubic that meets place and speed at both ends of a step.
func (p *dragPath) glance(t float64) vector.Vector {
	k := min(int(t/step), len(p.states)-2)
	a, b := &p.states[k], &p.states[k+1]
	u := (t - float64(float64(k)*step)) / step
	v := 1 - u
	end, start := float64(u*u)*(3-float64(2*u)), float64(u*u*v)*step
	var at vector.Vector
	for i := range at {
		at[i] = a.at[i] + float64(end*(b.at[i]-a.at[i])) + float64(float64(v*v*u)*step*a.speed[i]) - float64(start*b.speed[i])
	}
	return at
}

func (p *dragPath) top() float64 { return p.peak }

func (p *dragPath) down(level float64) float64 {
	if p.peak < level {
		return 0
	}
	for i := len(p.states) - 2; i >= 0; i-- {
		from := p.states[i]
		if from.at[2] < level && from.speed[2] <= 0 {
			continue
		}
		h := from.down(level)
		for range rounds {
			s := p.next(from, h)
			h += (s.at[2] - level) / -s.speed[2]
		}
		return float64(float64(i)*step) + h
	}
	return 0
}

// length is the size of a vector, to the last bit the same on every system.
func length(v vector.Vector) float64 {
	return math.Sqrt(float64(v[0]*v[0]) + float64(v[1]*v[1]) + float64(v[2]*v[2]))
}

// level is its size seen from above.
func level(v vector.Vector) float64 { return length(vector.Vector{v[0], v[1], 0}) }
