package motion

import (
	"math"
	"sort"
)

// A Track is the motion of one axis over time, piece by piece.
type Track struct {
	pieces []piece
	starts []float64 // of the pieces
	end    float64
}

// A piece is a polynomial of the time since its start and a sine wave:
// c[0] + c[1]·t + … + c[5]·t⁵ + amplitude·sin(rate·t + phase).
type piece struct {
	duration               float64
	c                      [6]float64
	amplitude, rate, phase float64
}

func (p piece) at(t float64) AxisState {
	c := p.c
	s := AxisState{
		Position:     c[0] + t*(c[1]+t*(c[2]+t*(c[3]+t*(c[4]+t*c[5])))),
		Speed:        c[1] + t*(2*c[2]+t*(3*c[3]+t*(4*c[4]+t*5*c[5]))),
		Acceleration: 2*c[2] + t*(6*c[3]+t*(12*c[4]+t*20*c[5])),
		Jerk:         6*c[3] + t*(24*c[4]+t*60*c[5]),
	}
	if p.amplitude != 0 {
		sin, cos := math.Sincos(p.rate*t + p.phase)
		s.Position += p.amplitude * sin
		s.Speed += p.amplitude * p.rate * cos
		s.Acceleration -= p.amplitude * p.rate * p.rate * sin
		s.Jerk -= p.amplitude * p.rate * p.rate * p.rate * cos
	}
	return s
}

// last is the state at the end of the track.
func (k *Track) last() AxisState {
	if len(k.pieces) == 0 {
		return AxisState{}
	}
	p := k.pieces[len(k.pieces)-1]
	return p.at(p.duration)
}

// add appends a piece that takes time.
func (k *Track) add(p piece) {
	if p.duration <= 0 {
		return
	}
	k.pieces = append(k.pieces, p)
	k.starts = append(k.starts, k.end)
	k.end += p.duration
}

// at is the state at a time; outside the track the speed at its end goes on.
func (k *Track) at(t float64) AxisState {
	if len(k.pieces) == 0 {
		return AxisState{}
	}
	i := max(sort.SearchFloat64s(k.starts, t), 1) - 1
	if i+1 < len(k.starts) && k.starts[i+1] == t {
		i++
	}
	p, local := k.pieces[i], t-k.starts[i]
	if local >= 0 && local <= p.duration {
		return p.at(local)
	}
	edge := p.at(min(max(local, 0), p.duration))
	return AxisState{Position: edge.Position + edge.Speed*(local-min(max(local, 0), p.duration)), Speed: edge.Speed}
}

// hold stays where the axis is.
func (k *Track) hold(duration float64) {
	k.add(piece{duration: duration, c: [6]float64{k.last().Position}})
}

// keepSpeed goes on at a speed.
func (k *Track) keepSpeed(speed, duration float64) {
	k.add(piece{duration: duration, c: [6]float64{k.last().Position, speed}})
}

// changeSpeed goes from one speed to another in the shortest time.
func (k *Track) changeSpeed(from, to float64, l Limits) {
	d := to - from
	sign := math.Copysign(1, d)
	ramp := math.Min(l.Acceleration/l.Jerk, math.Sqrt(math.Abs(d)/l.Jerk))
	flat := changeTime(d, l) - 2*ramp
	if flat < 1e-12*ramp { // rounding
		flat = 0
	}
	p0, a := k.last().Position, sign*l.Jerk*ramp
	v1 := from + a*ramp/2
	k.add(piece{duration: ramp, c: [6]float64{p0, from, 0, sign * l.Jerk / 6}})
	if flat > 0 {
		k.add(piece{duration: flat, c: [6]float64{k.last().Position, v1, a / 2}})
	}
	if ramp > 0 {
		k.add(piece{duration: ramp, c: [6]float64{k.last().Position, v1 + a*flat, a / 2, -sign * l.Jerk / 6}})
	}
}

// follow appends the pieces of another track, from where this one ends.
func (k *Track) follow(other Track) {
	p0 := k.last().Position
	for _, p := range other.pieces {
		p.c[0] += p0
		k.add(p)
	}
}

// blend goes to a state in a time by the polynomial of fifth degree that meets
// position, speed and acceleration at both ends.
func (k *Track) blend(to AxisState, duration float64) {
	from, T := k.last(), duration
	h := to.Position - from.Position - T*(from.Speed+T*from.Acceleration/2)
	v := to.Speed - from.Speed - T*from.Acceleration
	a := to.Acceleration - from.Acceleration
	k.add(piece{duration: T, c: [6]float64{
		from.Position, from.Speed, from.Acceleration / 2,
		(10*h - 4*T*v + T*T*a/2) / (T * T * T),
		(-15*h + 7*T*v - T*T*a) / (T * T * T * T),
		(6*h - 3*T*v + T*T*a/2) / (T * T * T * T * T),
	}})
}
