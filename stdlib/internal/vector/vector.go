// Package vector is arithmetic with points and directions in space.
package vector

import (
	"fmt"
	"math"
	"strings"
)

// A Vector is x, y and z.
type Vector [3]float64

// Plus is the sum.
func (a Vector) Plus(b Vector) Vector { return Vector{a[0] + b[0], a[1] + b[1], a[2] + b[2]} }

// Minus is the way from b to a.
func (a Vector) Minus(b Vector) Vector { return Vector{a[0] - b[0], a[1] - b[1], a[2] - b[2]} }

// Times is the vector s times as long.
func (a Vector) Times(s float64) Vector { return Vector{a[0] * s, a[1] * s, a[2] * s} }

// Dot is the scalar product.
func (a Vector) Dot(b Vector) float64 { return a[0]*b[0] + a[1]*b[1] + a[2]*b[2] }

// Length is the vector's size.
func (a Vector) Length() float64 { return math.Sqrt(a.Dot(a)) }

// Toward is the point a share of the way from a to b.
func (a Vector) Toward(b Vector, share float64) Vector { return a.Plus(b.Minus(a).Times(share)) }

// Cross is the vector product.
func (a Vector) Cross(b Vector) Vector {
	return Vector{a[1]*b[2] - a[2]*b[1], a[2]*b[0] - a[0]*b[2], a[0]*b[1] - a[1]*b[0]}
}

// Unit is the vector's direction, 0 for a vector of no length.
func (a Vector) Unit() Vector {
	if l := a.Length(); l > 0 {
		return a.Times(1 / l)
	}
	return Vector{}
}

// Words writes a direction: "z", or "(0.71, 0, 0.71)".
func (a Vector) Words() string {
	most := math.Max(math.Abs(a[0]), math.Max(math.Abs(a[1]), math.Abs(a[2])))
	for i, name := range [3]string{"x", "y", "z"} {
		if math.Abs(a[i]) == most && math.Abs(a[(i+1)%3]) < 1e-6*most && math.Abs(a[(i+2)%3]) < 1e-6*most {
			return name
		}
	}
	var parts []string
	for _, c := range a.Unit() {
		parts = append(parts, fmt.Sprintf("%.2g", math.Round(c*100)/100+0))
	}
	return "(" + strings.Join(parts, ", ") + ")"
}
