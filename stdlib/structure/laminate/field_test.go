package laminate

import (
	"math"
	"testing"
)

// The series of a supported shallow shell meets its differential equations, taken
// by finite differences on a grid of its own values: balance across,
// Mx,xx + 2·Mxy,xy + My,yy + kx·Nx + ky·Ny + q = 0, and in the plane,
// Nx,x + Nxy,y = 0 and Nxy,x + Ny,y = 0. The load is one smooth wave, so that the
// differences are exact to their order.
func TestShellEquations(t *testing.T) {
	woven := GlassPolyester().Woven(0.5, 0.65)
	skin := Laminate{Plies: []Ply{{Name: "woven", Lamina: woven, Thickness: 3e-3}}}
	p := Panel{Length: 0.6, Width: 0.4, RadiusX: 1.5, RadiusY: -0.9, Skin: skin}
	s, err := skin.Stiffness()
	if err != nil {
		t.Fatal(err)
	}
	const step, q = 2e-3, 1000.0
	for _, at := range [][2]float64{{0.3, 0.2}, {0.2, 0.12}, {0.42, 0.3}} {
		var xs, ys []float64
		for i := -1; i <= 1; i++ {
			xs, ys = append(xs, at[0]+float64(i)*step), append(ys, at[1]+float64(i)*step)
		}
		field, err := p.navier(PanelLoad{Pressure: q}, s, s.bending(), xs, ys)
		if err != nil {
			t.Fatal(err)
		}
		v := func(i, j int) Load { return field[3*(i+1)+j+1].load }
		second := func(f func(i, j int) float64) (xx, yy, xy float64) {
			return (f(1, 0) - 2*f(0, 0) + f(-1, 0)) / (step * step), (f(0, 1) - 2*f(0, 0) + f(0, -1)) / (step * step),
				(f(1, 1) - f(1, -1) - f(-1, 1) + f(-1, -1)) / (4 * step * step)
		}
		mxx, _, _ := second(func(i, j int) float64 { return -v(i, j).Mx })
		_, myy, _ := second(func(i, j int) float64 { return -v(i, j).My })
		_, _, mxy := second(func(i, j int) float64 { return -v(i, j).Mxy })
		across := mxx + 2*mxy + myy + v(0, 0).Nx/p.RadiusX + v(0, 0).Ny/p.RadiusY + q
		if math.Abs(across) > 0.02*q {
			t.Errorf("at %v: balance across leaves %g of %g Pa", at, across, q)
		}
		alongX := v(1, 0).Nx - v(-1, 0).Nx + v(0, 1).Nxy - v(0, -1).Nxy
		alongY := v(0, 1).Ny - v(0, -1).Ny + v(1, 0).Nxy - v(-1, 0).Nxy
		size := math.Abs(v(0, 0).Nx) + math.Abs(v(0, 0).Ny)
		if math.Max(math.Abs(alongX), math.Abs(alongY)) > 1e-4*size {
			t.Errorf("at %v: balance in the plane leaves %g and %g of %g N/m", at, alongX, alongY, size)
		}
		// The strains of the forces fit the deflection: ex,yy + ey,xx - g,xy =
		// -(kx·w,yy + ky·w,xx).
		give, err := s.membrane()
		if err != nil {
			t.Fatal(err)
		}
		_, exyy, _ := second(func(i, j int) float64 { return give[0]*v(i, j).Nx + give[1]*v(i, j).Ny })
		eyxx, _, _ := second(func(i, j int) float64 { return give[1]*v(i, j).Nx + give[3]*v(i, j).Ny })
		_, _, gxy := second(func(i, j int) float64 { return give[5] * v(i, j).Nxy })
		wxx, wyy, _ := second(func(i, j int) float64 { return field[3*(i+1)+j+1].deflection })
		fit := exyy + eyxx - gxy + wyy/p.RadiusX + wxx/p.RadiusY
		if math.Abs(fit) > 0.02*(math.Abs(wyy/p.RadiusX)+math.Abs(wxx/p.RadiusY)) {
			t.Errorf("at %v: strains do not fit the deflection by %g", at, fit)
		}
	}
}
