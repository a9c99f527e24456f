package balance

import "math"

// A Segment is a straight piece of cable.
type Segment struct {
	Corners   [2]int
	Length    float64 // without force
	Stiffness float64
	Force     float64 // constant, instead
	Density   float64 // force over length, instead
}

// Tension is the force in it, how it changes with length, and its energy.
func (e *Segment) Tension(length float64) (force, slope, energy float64) {
	if e.Density != 0 {
		return e.Density * length, e.Density, e.Density * length * length / 2
	}
	if e.Force > 0 {
		return e.Force, 0, e.Force * length
	}
	long := length - e.Length
	if long <= 0 {
		return 0, 0, 0
	}
	slope = e.Stiffness / e.Length
	return slope * long, slope, slope * long * long / 2
}

func (e *Segment) pull(x []Vec) (energy float64, at [2]Vec) {
	way := x[e.Corners[1]].Minus(x[e.Corners[0]])
	force, _, energy := e.Tension(way.Length())
	at[1] = way.Unit().Times(force)
	at[0] = at[1].Times(-1)
	return energy, at
}

// stiffen sets a 6 × 6 matrix, with damping added.
func (e *Segment) stiffen(x []Vec, damping float64, k []float64) {
	way := x[e.Corners[1]].Minus(x[e.Corners[0]])
	length := math.Max(way.Length(), 1e-12*e.Length)
	way = way.Unit()
	force, slope, _ := e.Tension(length)
	for r := range 3 {
		for c := range 3 {
			v := (slope - force/length) * way[r] * way[c]
			if r == c {
				v += force/length + damping/e.Length
			}
			k[6*r+c], k[6*(r+3)+c+3], k[6*r+c+3], k[6*(r+3)+c] = v, v, -v, -v
		}
	}
}
