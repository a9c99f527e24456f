package laminate

import "math"

// waves is how many half waves each way the series of a supported panel has.
const waves = 79

// navier is the panel on supports that hold its edges but let them turn and move
// in its plane: a double sine series. Each term of the load meets the plate's
// stiffness in bending and, where the panel is curved, that of its middle surface.
func (p Panel) navier(load PanelLoad, s Stiffness, b [6]float64, xs, ys []float64) ([]spot, error) {
	give, err := s.membrane()
	if err != nil {
		return nil, err
	}
	var kx, ky float64
	if p.RadiusX != 0 {
		kx = 1 / p.RadiusX
	}
	if p.RadiusY != 0 {
		ky = 1 / p.RadiusY
	}
	// Sines and cosines of each wave at each place, in sums of their own along y
	// first, so that the work grows with waves·waves·places and no faster.
	sinX, cosX := table(xs, p.Length)
	sinY, cosY := table(ys, p.Width)
	const kinds = 7 // deflection, Mx, My, Mxy, Nx, Ny, Nxy
	sums := make([][kinds]float64, waves*len(ys))
	for m := 1; m <= waves; m++ {
		alpha := float64(m) * math.Pi / p.Length
		row := sums[(m-1)*len(ys) : m*len(ys)]
		for n := 1; n <= waves; n++ {
			beta := float64(n) * math.Pi / p.Width
			a2, b2 := alpha*alpha, beta*beta
			bend := b[0]*a2*a2 + 2*(b[1]+2*b[5])*a2*b2 + b[3]*b2*b2
			curve := kx*b2 + ky*a2
			plane := give[3]*a2*a2 + (2*give[1]+give[5])*a2*b2 + give[0]*b2*b2
			w := p.term(load, m, n) / (bend + curve*curve/plane)
			phi := curve / plane * w
			terms := [kinds]float64{w, (b[0]*a2 + b[1]*b2) * w, (b[1]*a2 + b[3]*b2) * w, -2 * b[5] * alpha * beta * w, -b2 * phi, -a2 * phi, -alpha * beta * phi}
			for j := range ys {
				for k, v := range terms {
					if k == 3 || k == 6 {
						row[j][k] += v * cosY[n-1][j]
					} else {
						row[j][k] += v * sinY[n-1][j]
					}
				}
			}
		}
	}
	var field []spot
	for i, x := range xs {
		for j, y := range ys {
			var v [kinds]float64
			for m := range waves {
				for k := range v {
					if k == 3 || k == 6 {
						v[k] += sums[m*len(ys)+j][k] * cosX[m][i]
					} else {
						v[k] += sums[m*len(ys)+j][k] * sinX[m][i]
					}
				}
			}
			field = append(field, spot{x, y, v[0], Load{Nx: v[4], Ny: v[5], Nxy: v[6], Mx: -v[1], My: -v[2], Mxy: -v[3]}})
		}
	}
	return field, nil
}

// table is the sine and cosine of every wave at every place along a side.
func table(places []float64, side float64) (sin, cos [][]float64) {
	sin, cos = make([][]float64, waves), make([][]float64, waves)
	for m := range waves {
		for _, x := range places {
			s, c := math.Sincos(float64(m+1) * math.Pi * x / side)
			sin[m], cos[m] = append(sin[m], s), append(cos[m], c)
		}
	}
	return sin, cos
}

// term is the load's share in a wave of the series.
func (p Panel) term(l PanelLoad, m, n int) float64 {
	fm, fn := float64(m)*math.Pi, float64(n)*math.Pi
	q := 0.0
	if m%2 == 1 && n%2 == 1 {
		q = 16 * l.Pressure / (fm * fn)
	}
	if l.Force == 0 {
		return q
	}
	along := math.Sin(fm*l.X/p.Length) * sinc(fm*l.AlongX/(2*p.Length))
	across := math.Sin(fn*l.Y/p.Width) * sinc(fn*l.AlongY/(2*p.Width))
	return q + 4*l.Force/(p.Length*p.Width)*along*across
}

func sinc(x float64) float64 {
	if x == 0 {
		return 1
	}
	return math.Sin(x) / x
}
