package frame

import (
	"fmt"
	"math"

	"tautline/stdlib/internal/vector"
	"tautline/stdlib/units"
)

// A Displacement is how a point moves along, and turns about, the axes.
type Displacement struct {
	X, Y, Z    units.Length
	RX, RY, RZ units.Angle
}

// A Reaction is what a support gives to the frame, in global axes.
type Reaction struct {
	Node       Node
	FX, FY, FZ units.Force
	MX, MY, MZ units.Moment
	Press      units.Force  // along the support's own z: of a pad, its pressure on the ground
	Slide      units.Force  // across the support's own z
	Friction   units.Number // Slide over Press: what the ground has to give; 0 without pressure
	Lifted     bool
}

// A Station is a place along a member with what happens there. Forces are along
// the member's own axes, displacements along global ones.
type Station struct {
	At         units.Length // from the first end
	N, VY, VZ  units.Force
	T, MY, MZ  units.Moment
	DX, DY, DZ units.Length
}

// Forces are the internal forces of a member: one station after the other, two
// at a point load, before and behind it.
type Forces struct {
	Member   Member
	Length   units.Length
	Stations []Station
}

// A Result is what a combination of loads does to a frame.
type Result struct {
	Name          string
	Displacements []Displacement // of node n at n-1
	Reactions     []Reaction     // of the supports in the order of their making
	Members       []Forces       // of member m at m-1
	SecondOrder   bool
	Rounds        int // solutions until pads and second order stood still
	// OutOfBalance is the greatest force left over at any free node, over the
	// greatest force of any member's end: rounding, if all is well. Moments are
	// counted over the frame's reach.
	OutOfBalance units.Number
	Warnings     []string
}

// Displacement is how a node moves, in global axes.
//
// It panics if there is no such node.
//
// Source: as Frame.Solve, whose result this is.
func (r Result) Displacement(n Node) Displacement {
	if n < 1 || int(n) > len(r.Displacements) {
		panic(fmt.Sprintf("frame: Result.Displacement: node: got %d, want 1 to %d", n, len(r.Displacements)))
	}
	return r.Displacements[n-1]
}

// Reaction is what the support of a node gives to the frame.
//
// It panics if the node has no support.
//
// Source: as Frame.Solve, whose result this is.
func (r Result) Reaction(n Node) Reaction {
	for _, s := range r.Reactions {
		if s.Node == n {
			return s
		}
	}
	panic(fmt.Sprintf("frame: Result.Reaction: node: got %d, want one with a support", n))
}

// Member is the internal forces of a member.
//
// It panics if there is no such member.
//
// Source: as Frame.Solve, whose result this is.
func (r Result) Member(m Member) Forces {
	if m < 1 || int(m) > len(r.Members) {
		panic(fmt.Sprintf("frame: Result.Member: member: got %d, want 1 to %d", m, len(r.Members)))
	}
	return r.Members[m-1]
}

// Lifted are the nodes whose pads have lifted off.
func (r Result) Lifted() []Node {
	var list []Node
	for _, s := range r.Reactions {
		if s.Lifted {
			list = append(list, s.Node)
		}
	}
	return list
}

// First and Last are the ends of a member.
//
// Source: as Frame.Solve, whose result this is.
func (f Forces) First() Station { return f.Stations[0] }

// Last is the station at the second end.
//
// Source: as Frame.Solve, whose result this is.
func (f Forces) Last() Station { return f.Stations[len(f.Stations)-1] }

// At is the station at a distance from the first end, between two stations
// interpolated linearly.
//
// The distance lies from 0 to the length; outside it panics.
//
// Source: as Frame.Solve, whose result this is.
func (f Forces) At(x units.Length) Station {
	if !(x >= 0 && x <= f.Length*(1+1e-9)) {
		panic(fmt.Sprintf("frame: Forces.At: distance: got %g, want 0 to %g", x, f.Length))
	}
	for i := 1; i < len(f.Stations); i++ {
		a, b := f.Stations[i-1], f.Stations[i]
		if x > b.At || b.At == a.At {
			continue
		}
		s := (x - a.At) / (b.At - a.At)
		mix := func(p, q float64) float64 { return p + s*(q-p) }
		return Station{x, mix(a.N, b.N), mix(a.VY, b.VY), mix(a.VZ, b.VZ), mix(a.T, b.T), mix(a.MY, b.MY), mix(a.MZ, b.MZ),
			mix(a.DX, b.DX), mix(a.DY, b.DY), mix(a.DZ, b.DZ)}
	}
	return f.Last()
}

// Most is the greatest size of each internal force and displacement along the
// member, wherever it occurs; At is where the greatest bending moment is.
//
// Source: as Frame.Solve, whose result this is.
func (f Forces) Most() Station {
	var most Station
	bending := -1.0
	for _, s := range f.Stations {
		for _, p := range [][2]*float64{{&most.N, &s.N}, {&most.VY, &s.VY}, {&most.VZ, &s.VZ}, {&most.T, &s.T}, {&most.MY, &s.MY},
			{&most.MZ, &s.MZ}, {&most.DX, &s.DX}, {&most.DY, &s.DY}, {&most.DZ, &s.DZ}} {
			*p[0] = math.Max(*p[0], math.Abs(*p[1]))
		}
		if b := math.Hypot(s.MY, s.MZ); b > bending {
			bending, most.At = b, s.At
		}
	}
	return most
}

// Sag is the greatest distance of the deflected member from the straight line
// between its deflected ends.
//
// Source: geometry.
func (f Forces) Sag() units.Length {
	a, b := f.First(), f.Last()
	most := 0.0
	for _, s := range f.Stations {
		x := s.At / f.Length
		d := vector.Vector{s.DX, s.DY, s.DZ}.Minus(vector.Vector{a.DX, a.DY, a.DZ}.Times(1 - x)).Minus(vector.Vector{b.DX, b.DY, b.DZ}.Times(x))
		most = math.Max(most, d.Length())
	}
	return most
}
