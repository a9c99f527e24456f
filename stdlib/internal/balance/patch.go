package balance

// A Patch is a triangle of fabric with constant strain and the pressure behind it.
//
// Source: Green's strain of a triangle with straight sides and the pressure's
// part in the stiffness as in Bonet and Wood, Nonlinear Continuum Mechanics for
// Finite Element Analysis, chapters 7 to 9; the shares of area and normal of a
// film derived here.
type Patch struct {
	Corners  [3]int
	Law      Law           // of the fabric
	Film     float64       // tension of a film instead
	Pressure float64       // behind it
	Area     float64       // as cut
	slope    [3][2]float64 // of each corner's share, along warp and weft as cut
}

// Cut lays the triangle flat as it is cut, warp and weft shorter by a share.
func (e *Patch) Cut(a, b, c, warp Vec, warpCut, weftCut float64) {
	normal := b.Minus(a).Cross(c.Minus(a)).Unit()
	weft := normal.Cross(warp)
	u, v := 1/(1+warpCut), 1/(1+weftCut)
	bx, by := b.Minus(a).Dot(warp)*u, b.Minus(a).Dot(weft)*v
	cx, cy := c.Minus(a).Dot(warp)*u, c.Minus(a).Dot(weft)*v
	det := bx*cy - by*cx
	e.Area = det / 2
	e.slope[1] = [2]float64{cy / det, -cx / det}
	e.slope[2] = [2]float64{-by / det, bx / det}
	e.slope[0] = [2]float64{-e.slope[1][0] - e.slope[2][0], -e.slope[1][1] - e.slope[2][1]}
}

// Stretch is where the unit lengths of warp and weft lie in space.
func (e *Patch) Stretch(x []Vec) (warp, weft Vec) {
	for i, p := range e.Corners {
		warp = warp.Plus(x[p].Times(e.slope[i][0]))
		weft = weft.Plus(x[p].Times(e.slope[i][1]))
	}
	return warp, weft
}

// Strain is Green's strain of the stretched warp and weft.
func Strain(warp, weft Vec) Flow {
	return Flow{(warp.Dot(warp) - 1) / 2, (weft.Dot(weft) - 1) / 2, warp.Dot(weft)}
}

// Push is the force of the pressure at each corner, the same at all three.
func (e *Patch) Push(x []Vec) Vec {
	a, b, c := x[e.Corners[0]], x[e.Corners[1]], x[e.Corners[2]]
	return b.Minus(a).Cross(c.Minus(a)).Times(e.Pressure / 6)
}

// pull is the fabric's energy and its slope at the corners, which is the force
// that it takes to hold them.
func (e *Patch) pull(x []Vec) (energy float64, at [3]Vec) {
	if e.Film > 0 {
		return e.pullFilm(x)
	}
	if e.Area == 0 { // a face of a net
		return 0, at
	}
	warp, weft := e.Stretch(x)
	s, _, density := e.Law.Respond(Strain(warp, weft))
	for i, g := range e.slope {
		at[i] = warp.Times(e.Area * (s[0]*g[0] + s[2]*g[1])).Plus(weft.Times(e.Area * (s[2]*g[0] + s[1]*g[1])))
	}
	return density * e.Area, at
}

// stiffen adds the stiffness of fabric and pressure to a 9 × 9 matrix.
func (e *Patch) stiffen(x []Vec, k []float64) {
	if e.Film > 0 {
		e.stiffenFilm(x, k)
	} else if e.Area > 0 {
		warp, weft := e.Stretch(x)
		s, tangent, _ := e.Law.Respond(Strain(warp, weft))
		var strains, forces [9]Flow // of a unit of movement of each corner in x, y, z
		for i, g := range e.slope {
			for d := range 3 {
				b := Flow{g[0] * warp[d], g[1] * weft[d], g[0]*weft[d] + g[1]*warp[d]}
				strains[3*i+d] = b
				forces[3*i+d] = Flow{tangent[0].dot(b), tangent[1].dot(b), tangent[2].dot(b)}
			}
		}
		for r := range 9 {
			for c := range 9 {
				k[9*r+c] += e.Area * strains[r].dot(forces[c])
			}
		}
		for i, g := range e.slope {
			for j, h := range e.slope {
				v := e.Area * (s[0]*g[0]*h[0] + s[1]*g[1]*h[1] + s[2]*(g[0]*h[1]+g[1]*h[0]))
				for d := range 3 {
					k[9*(3*i+d)+3*j+d] += v
				}
			}
		}
	}
	if e.Pressure != 0 {
		for i := range 3 {
			for j := range 3 {
				addCross(k, i, j, e.side(x, i).Minus(e.side(x, j)), e.Pressure/12)
			}
		}
	}
}

// side is the side opposite corner i, counter-clockwise.
func (e *Patch) side(x []Vec, i int) Vec {
	return x[e.Corners[(i+2)%3]].Minus(x[e.Corners[(i+1)%3]])
}

// addCross adds share times a × to the block of corners i and j.
func addCross(k []float64, i, j int, a Vec, share float64) {
	r, c := 3*i, 3*j
	k[9*r+c+1] -= share * a[2]
	k[9*r+c+2] += share * a[1]
	k[9*(r+1)+c] += share * a[2]
	k[9*(r+1)+c+2] -= share * a[0]
	k[9*(r+2)+c] -= share * a[1]
	k[9*(r+2)+c+1] += share * a[0]
}

func (e *Patch) pullFilm(x []Vec) (energy float64, at [3]Vec) {
	n := e.side(x, 0).Cross(e.side(x, 1))
	area := n.Length() / 2
	n = n.Unit()
	for i := range at {
		at[i] = n.Cross(e.side(x, i)).Times(e.Film / 2)
	}
	return e.Film * area, at
}

func (e *Patch) stiffenFilm(x []Vec, k []float64) {
	n := e.side(x, 0).Cross(e.side(x, 1))
	doubled := n.Length()
	n = n.Unit()
	for j := range 3 {
		for d := range 3 {
			var unit Vec
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
					k[9*(3*i+r)+3*j+d] += e.Film / 2 * v[r]
				}
			}
		}
	}
}

// smooth adds the stiffness of a skin of some tension on some bedding, which
// spreads a movement evenly: what the search is damped with.
func (e *Patch) smooth(tension, bedding float64, k []float64) {
	for i, g := range e.slope {
		for j, h := range e.slope {
			v := tension * e.Area * (g[0]*h[0] + g[1]*h[1])
			if i == j {
				v += bedding * e.Area / 3
			}
			for d := range 3 {
				k[9*(3*i+d)+3*j+d] += v
			}
		}
	}
}
