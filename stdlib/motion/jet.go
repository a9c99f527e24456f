package motion

import "math"

// A jet is a number that changes with time: its value and its first three
// derivatives. Sums and products of jets follow the rule of Leibniz, so what is
// made of them carries its exact derivatives along.
type jet [4]float64

func (a jet) plus(b jet) jet {
	for i := range a {
		a[i] += b[i]
	}
	return a
}

func (a jet) minus(b jet) jet {
	for i := range a {
		a[i] -= b[i]
	}
	return a
}

func (a jet) times(b jet) jet {
	return jet{
		a[0] * b[0],
		a[1]*b[0] + a[0]*b[1],
		a[2]*b[0] + 2*a[1]*b[1] + a[0]*b[2],
		a[3]*b[0] + 3*a[2]*b[1] + 3*a[1]*b[2] + a[0]*b[3],
	}
}

// sincos is the sine and the cosine of an angle.
func (a jet) sincos() (s, c jet) {
	s[0], c[0] = math.Sincos(a[0])
	s[1], c[1] = c[0]*a[1], -s[0]*a[1]
	s[2], c[2] = c[1]*a[1]+c[0]*a[2], -s[1]*a[1]-s[0]*a[2]
	s[3] = c[2]*a[1] + 2*c[1]*a[2] + c[0]*a[3]
	c[3] = -s[2]*a[1] - 2*s[1]*a[2] - s[0]*a[3]
	return s, c
}

// derivative is the rate of change, of which the last order is lost.
func (a jet) derivative() jet { return jet{a[1], a[2], a[3]} }

// A vector has components along x, y and z.
type vector [3]jet

func fixed(p Point) vector { return vector{{p.X}, {p.Y}, {p.Z}} }

func (v vector) plus(w vector) vector {
	for i := range v {
		v[i] = v[i].plus(w[i])
	}
	return v
}

func (v vector) derivative() vector {
	return vector{v[0].derivative(), v[1].derivative(), v[2].derivative()}
}

// order gives the components of one derivative.
func (v vector) order(n int) [3]float64 { return [3]float64{v[0][n], v[1][n], v[2][n]} }

// A turn is a rotation about one coordinate axis.
type turn struct {
	sin, cos jet
	axis     int // 0 is x
}

func newTurn(axis int, angle jet) turn {
	s, c := angle.sincos()
	return turn{s, c, axis}
}

// out carries a vector from the turned frame to the one that it turns in.
func (t turn) out(v vector) vector {
	i, j := (t.axis+1)%3, (t.axis+2)%3
	v[i], v[j] = t.cos.times(v[i]).minus(t.sin.times(v[j])), t.sin.times(v[i]).plus(t.cos.times(v[j]))
	return v
}

// in carries a vector into the turned frame.
func (t turn) in(v vector) vector {
	i, j := (t.axis+1)%3, (t.axis+2)%3
	v[i], v[j] = t.cos.times(v[i]).plus(t.sin.times(v[j])), t.cos.times(v[j]).minus(t.sin.times(v[i]))
	return v
}

func cross(a, b [3]float64) [3]float64 {
	return [3]float64{a[1]*b[2] - a[2]*b[1], a[2]*b[0] - a[0]*b[2], a[0]*b[1] - a[1]*b[0]}
}

func dot(a, b [3]float64) float64 { return a[0]*b[0] + a[1]*b[1] + a[2]*b[2] }
