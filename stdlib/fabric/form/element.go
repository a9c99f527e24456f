package form

import "math"

// A patch is a triangle of fabric with constant strain and the pressure behind it.
//
// Source: Green's strain of a triangle with straight sides and the pressure's
// part in the stiffness as in Bonet and Wood, Nonlinear Continuum Mechanics for
// Finite Element Analysis, chapters 7 to 9; the shares of area and normal of a
// film derived here.
type patch struct {
	corners  [3]int
	law      law
	film     float64
	pressure float64
	area     float64       // as cut
	slope    [3][2]float64 // of each corner's share, along warp and weft as cut
}

// cut lays the triangle flat as it is cut.
func (e *patch) cut(a, b, c, warp vec, f Fabric) {
	normal := b.Minus(a).Cross(c.Minus(a)).Unit()
	weft := normal.Cross(warp)
	u, v := 1/(1+f.WarpCut), 1/(1+f.WeftCut)
	bx, by := b.Minus(a).Dot(warp)*u, b.Minus(a).Dot(weft)*v
	cx, cy := c.Minus(a).Dot(warp)*u, c.Minus(a).Dot(weft)*v
	det := bx*cy - by*cx
	e.area = det / 2
	e.slope[1] = [2]float64{cy / det, -cx / det}
	e.slope[2] = [2]float64{-by / det, bx / det}
	e.slope[0] = [2]float64{-e.slope[1][0] - e.slope[2][0], -e.slope[1][1] - e.slope[2][1]}
}

// stretch is where the unit lengths of warp and weft lie in space.
func (e *patch) stretch(x []vec) (warp, weft vec) {
	for i, p := range e.corners {
		warp = warp.Plus(x[p].Times(e.slope[i][0]))
		weft = weft.Plus(x[p].Times(e.slope[i][1]))
	}
	return warp, weft
}

// strain is Green's strain of the stretched warp and weft.
func strain(warp, weft vec) flow {
	return flow{(warp.Dot(warp) - 1) / 2, (weft.Dot(weft) - 1) / 2, warp.Dot(weft)}
}

// push is the force of the pressure at each corner, the same at all three.
func (e *patch) push(x []vec) vec {
	a, b, c := x[e.corners[0]], x[e.corners[1]], x[e.corners[2]]
	return b.Minus(a).Cross(c.Minus(a)).Times(e.pressure / 6)
}

// pull is the fabric's energy and its slope at the corners, which is the force
// that it takes to hold them.
func (e *patch) pull(x []vec) (energy float64, at [3]vec) {
	if e.film > 0 {
		return e.pullFilm(x)
	}
	if e.area == 0 { // a face of a net
		return 0, at
	}
	warp, weft := e.stretch(x)
	s, _, density, _ := e.law.respond(strain(warp, weft))
	for i, g := range e.slope {
		at[i] = warp.Times(e.area * (s[0]*g[0] + s[2]*g[1])).Plus(weft.Times(e.area * (s[2]*g[0] + s[1]*g[1])))
	}
	return density * e.area, at
}

// stiffen adds the stiffness of fabric and pressure to a 9 × 9 matrix.
func (e *patch) stiffen(x []vec, k []float64) {
	if e.film > 0 {
		e.stiffenFilm(x, k)
	} else if e.area > 0 {
		warp, weft := e.stretch(x)
		s, tangent, _, _ := e.law.respond(strain(warp, weft))
		var strains, forces [9]flow // of a unit of movement of each corner in x, y, z
		for i, g := range e.slope {
			for d := range 3 {
				b := flow{g[0] * warp[d], g[1] * weft[d], g[0]*weft[d] + g[1]*warp[d]}
				strains[3*i+d] = b
				forces[3*i+d] = flow{tangent[0].dot(b), tangent[1].dot(b), tangent[2].dot(b)}
			}
		}
		for r := range 9 {
			for c := range 9 {
				k[9*r+c] += e.area * strains[r].dot(forces[c])
			}
		}
		for i, g := range e.slope {
			for j, h := range e.slope {
				v := e.area * (s[0]*g[0]*h[0] + s[1]*g[1]*h[1] + s[2]*(g[0]*h[1]+g[1]*h[0]))
				for d := range 3 {
					k[9*(3*i+d)+3*j+d] += v
				}
			}
		}
	}
	if e.pressure != 0 {
		for i := range 3 {
			for j := range 3 {
				addCross(k, i, j, e.side(x, i).Minus(e.side(x, j)), e.pressure/12)
			}
		}
	}
}

// side is the side opposite corner i, counter-clockwise.
func (e *patch) side(x []vec, i int) vec {
	return x[e.corners[(i+2)%3]].Minus(x[e.corners[(i+1)%3]])
}

// addCross adds share times a × to the block of corners i and j.
func addCross(k []float64, i, j int, a vec, share float64) {
	r, c := 3*i, 3*j
	k[9*r+c+1] -= share * a[2]
	k[9*r+c+2] += share * a[1]
	k[9*(r+1)+c] += share * a[2]
	k[9*(r+1)+c+2] -= share * a[0]
	k[9*(r+2)+c] -= share * a[1]
	k[9*(r+2)+c+1] += share * a[0]
}

func (e *patch) pullFilm(x []vec) (energy float64, at [3]vec) {
	n := e.side(x, 0).Cross(e.side(x, 1))
	area := n.Length() / 2
	n = n.Unit()
	for i := range at {
		at[i] = n.Cross(e.side(x, i)).Times(e.film / 2)
	}
	return e.film * area, at
}

func (e *patch) stiffenFilm(x []vec, k []float64) {
	n := e.side(x, 0).Cross(e.side(x, 1))
	doubled := n.Length()
	n = n.Unit()
	for j := range 3 {
		for d := range 3 {
			var unit vec
			unit[d] = 1
			dn := e.side(x, j).Cross(unit)
			dn = dn.Minus(n.Times(n.Dot(dn))).Times(1 / doubled)
			for i := range 3 {
				v := dn.Cross(e.side(x, i))
				switch (j - i + 3) % 3 {
				case 1:
					v = v.Minus(n.Cross(unit))
				case 2:
					v = v.Plus(n.Cross(unit))
				}
				for r := range 3 {
					k[9*(3*i+r)+3*j+d] += e.film / 2 * v[r]
				}
			}
		}
	}
}

// smooth adds the stiffness of a skin of some tension on some bedding, which
// spreads a movement evenly: what the search is damped with.
func (e *patch) smooth(tension, bedding float64, k []float64) {
	for i, g := range e.slope {
		for j, h := range e.slope {
			v := tension * e.area * (g[0]*h[0] + g[1]*h[1])
			if i == j {
				v += bedding * e.area / 3
			}
			for d := range 3 {
				k[9*(3*i+d)+3*j+d] += v
			}
		}
	}
}

// A segment is a straight piece of cable.
type segment struct {
	corners   [2]int
	length    float64 // without force
	stiffness float64
	force     float64 // constant, instead
	density   float64 // force over length, instead
}

// tension is the force in it, how it changes with length, and its energy.
func (e *segment) tension(length float64) (force, slope, energy float64) {
	if e.density != 0 {
		return e.density * length, e.density, e.density * length * length / 2
	}
	if e.force > 0 {
		return e.force, 0, e.force * length
	}
	long := length - e.length
	if long <= 0 {
		return 0, 0, 0
	}
	slope = e.stiffness / e.length
	return slope * long, slope, slope * long * long / 2
}

func (e *segment) pull(x []vec) (energy float64, at [2]vec) {
	way := x[e.corners[1]].Minus(x[e.corners[0]])
	force, _, energy := e.tension(way.Length())
	at[1] = way.Unit().Times(force)
	at[0] = at[1].Times(-1)
	return energy, at
}

// stiffen sets a 6 × 6 matrix, with damping added.
func (e *segment) stiffen(x []vec, damping float64, k []float64) {
	way := x[e.corners[1]].Minus(x[e.corners[0]])
	length := math.Max(way.Length(), 1e-12*e.length)
	way = way.Unit()
	force, slope, _ := e.tension(length)
	for r := range 3 {
		for c := range 3 {
			v := (slope - force/length) * way[r] * way[c]
			if r == c {
				v += force/length + damping/e.length
			}
			k[6*r+c], k[6*(r+3)+c+3], k[6*r+c+3], k[6*(r+3)+c] = v, v, -v, -v
		}
	}
}
