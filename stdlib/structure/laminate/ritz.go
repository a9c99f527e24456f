package laminate

import (
	"fmt"

	"gonum.org/v1/gonum/integrate/quad"
	"gonum.org/v1/gonum/mat"
)

// shapes is how many polynomials each way a clamped panel has.
const shapes = 23

// gauss is how many points integrate products of them over a side: enough to be
// exact for polynomials of up to degree 63.
const gauss = 32

// clamped is the panel whose edges are held and kept from turning: the deflection
// is a sum of products (1-u²)²·P(u)·(1-v²)²·P(v) of Legendre polynomials, u and v
// from -1 to 1, with the least energy.
func (p Panel) clamped(load PanelLoad, b [6]float64, xs, ys []float64) ([]spot, error) {
	// Integrals over a side of products of derivatives.
	places, weights := make([]float64, gauss), make([]float64, gauss)
	quad.Legendre{}.FixedLocations(places, weights, -1, 1)
	var side [3][3][shapes][shapes]float64
	for k, u := range places {
		f := clampedShapes(u)
		for d := range 3 {
			for e := range 3 {
				for i := range shapes {
					for j := range shapes {
						side[d][e][i][j] += weights[k] * f[d][i] * f[e][j]
					}
				}
			}
		}
	}
	const n = shapes * shapes
	gx, gy := 2/p.Length, 2/p.Width // du/dx, dv/dy
	area := p.Length * p.Width / 4
	stiff := mat.NewSymDense(n, nil)
	force := mat.NewVecDense(n, nil)
	overX, overY := p.overLoad(load)
	for i := range n {
		ix, iy := i/shapes, i%shapes
		force.SetVec(i, area*load.Pressure*wholeSide(ix)*wholeSide(iy)+load.Force*overX[ix]*overY[iy])
		for j := i; j < n; j++ {
			jx, jy := j/shapes, j%shapes
			// The curvatures of both shapes: along x, along y, twice the twist.
			product := func(a, c int) float64 {
				dx, dy := [3]int{2, 0, 1}, [3]int{0, 2, 1}
				scale := [3]float64{gx * gx, gy * gy, 2 * gx * gy}
				return scale[a] * scale[c] * side[dx[a]][dx[c]][ix][jx] * side[dy[a]][dy[c]][iy][jy]
			}
			v := b[0]*product(0, 0) + b[3]*product(1, 1) + b[5]*product(2, 2) + b[1]*(product(0, 1)+product(1, 0)) +
				b[2]*(product(0, 2)+product(2, 0)) + b[4]*(product(1, 2)+product(2, 1))
			stiff.SetSym(i, j, area*v)
		}
	}
	var c mat.Cholesky
	if !c.Factorize(stiff) {
		return nil, fmt.Errorf("clamped: the stiffness is not that of a body that resists: check the plies' moduli")
	}
	var w mat.VecDense
	if err := c.SolveVecTo(&w, force); err != nil {
		return nil, fmt.Errorf("clamped: %w", err)
	}
	var field []spot
	for _, x := range xs {
		fx := clampedShapes(gx*x - 1)
		for _, y := range ys {
			fy := clampedShapes(gy*y - 1)
			var v, kx, ky, kxy float64
			for i := range n {
				a, ix, iy := w.AtVec(i), i/shapes, i%shapes
				v += a * fx[0][ix] * fy[0][iy]
				kx -= a * gx * gx * fx[2][ix] * fy[0][iy]
				ky -= a * gy * gy * fx[0][ix] * fy[2][iy]
				kxy -= 2 * a * gx * gy * fx[1][ix] * fy[1][iy]
			}
			field = append(field, spot{x, y, v, Load{
				Mx: -(b[0]*kx + b[1]*ky + b[2]*kxy), My: -(b[1]*kx + b[3]*ky + b[4]*kxy), Mxy: -(b[2]*kx + b[4]*ky + b[5]*kxy),
			}})
		}
	}
	return field, nil
}

// overLoad is the mean of each shape over the loaded rectangle, along x and y.
func (p Panel) overLoad(l PanelLoad) (x, y [shapes]float64) {
	if l.Force == 0 {
		return x, y
	}
	mean := func(at, size, side float64) (m [shapes]float64) {
		places, weights := make([]float64, gauss), make([]float64, gauss)
		quad.Legendre{}.FixedLocations(places, weights, -1, 1)
		for k, t := range places {
			f := clampedShapes(2*(at+t*size/2)/side - 1)
			for i := range m {
				m[i] += weights[k] / 2 * f[0][i]
			}
		}
		return m
	}
	return mean(l.X, l.AlongX, p.Length), mean(l.Y, l.AlongY, p.Width)
}

// wholeSide is the integral of a shape over its side: (1-u²)² is a sum of the
// Legendre polynomials 0, 2 and 4.
func wholeSide(i int) float64 {
	switch i {
	case 0:
		return 16.0 / 15
	case 2:
		return -32.0 / 105
	case 4:
		return 16.0 / 315
	}
	return 0
}

// clampedShapes are the shapes at u, their first and their second derivatives.
func clampedShapes(u float64) (f [3][shapes]float64) {
	h := 1 - u*u
	edge := [3]float64{h * h, -4 * u * h, 12*u*u - 4}
	p := [3]float64{1, 0, 0}
	last := [3]float64{}
	for i := range shapes {
		f[0][i] = edge[0] * p[0]
		f[1][i] = edge[1]*p[0] + edge[0]*p[1]
		f[2][i] = edge[2]*p[0] + 2*edge[1]*p[1] + edge[0]*p[2]
		k := float64(i + 1)
		a, c := (2*k-1)/k, (k-1)/k
		next := [3]float64{a*u*p[0] - c*last[0], a*(p[0]+u*p[1]) - c*last[1], a*(2*p[1]+u*p[2]) - c*last[2]}
		last, p = p, next
	}
	return f
}
