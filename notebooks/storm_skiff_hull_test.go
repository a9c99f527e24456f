package notebooks

import (
	"math"
	"testing"

	"gonum.org/v1/gonum/mat"
)

// A sheetOf is a layer by hand: thickness, moduli, strengths, weight of its glass, of
// its resin, and of all.
type sheetOf struct {
	t, e, nu, g, xt, xc, s float64
	glass, resin, mass     float64
}

// laid is a reinforcement of dry weight w (kg/m²) with a share psi of glass, as
// ISO 12215-5:2008, Annex A, gives its thickness (densities 2560 and 1200 kg/m³).
func laid(w, psi, e, nu, g, xt, s float64) sheetOf {
	return sheetOf{w / 3.072e3 * (2.56/psi - 1.36), e, nu, g, xt, (150*psi + 72) * 1e6, s, w, w * (1 - psi) / psi, w / psi}
}

func matOf(w float64) sheetOf { // ISO 12215-5:2008, Annex C, as the library has it
	e := (38000*0.3 - 5000) * 1e6
	return laid(w, 0.3, e, 0.33, e/2/1.33, (200*0.3+25)*1e6, (80*0.3+38)*1e6)
}

func wovenOf(w float64) sheetOf {
	// Shear by Halpin and Tsai of E-glass (73 GPa, 0.2) in polyester (3 GPa, 0.35).
	vf := 0.48 / 2560 / (0.48/2560 + 0.52/1200)
	fibre, resin := 73e9/2.4, 3e9/2.7
	eta := (fibre - resin) / (fibre + resin)
	return laid(w, 0.48, (30000*0.48-500)*1e6, 0.15, resin*(1+eta*vf)/(1-eta*vf), (400*0.48-10)*1e6, (80*0.48+38)*1e6)
}

// A stack is plies from the mould up.
type stack []sheetOf

var (
	gelOf   = sheetOf{0.0005, 3e9, 0.35, 3e9 / 2.7, 55e6, 100e6, 45e6, 0, 0.6, 0.6}
	boardOf = sheetOf{0.009, 6e9, 0.1, 6e9 / 2.2, 25e6, 25e6, 6e6, 0, 0, 5.4}
	hullOf  = stack{gelOf, matOf(0.3), matOf(0.45), matOf(0.45), matOf(0.45), matOf(0.45)}
	soleOf  = stack{gelOf, matOf(0.3), matOf(0.45), matOf(0.45), boardOf, matOf(0.45), wovenOf(0.6), matOf(0.45)}
)

func (l stack) sum(of func(s sheetOf) float64) (v float64) {
	for _, s := range l {
		v += of(s)
	}
	return v
}

func (l stack) thickness() float64 { return l.sum(func(s sheetOf) float64 { return s.t }) }
func (l stack) weight() float64    { return l.sum(func(s sheetOf) float64 { return s.mass }) }

// stiffness is the matrix of N and M by strain and curvature, x, y and shear, with z
// up from the middle.
func (l stack) stiffness() *mat.Dense {
	k := mat.NewDense(6, 6, nil)
	z := -l.thickness() / 2
	for _, s := range l {
		q := [3][3]float64{{s.e / (1 - s.nu*s.nu), s.nu * s.e / (1 - s.nu*s.nu), 0}, {s.nu * s.e / (1 - s.nu*s.nu), s.e / (1 - s.nu*s.nu), 0}, {0, 0, s.g}}
		up := z + s.t
		for i := range 3 {
			for j := range 3 {
				for p := range 2 {
					for r := range 2 {
						n := float64(1 + p + r)
						at := k.At(3*p+i, 3*r+j)
						k.Set(3*p+i, 3*r+j, at+q[i][j]*(math.Pow(up, n)-math.Pow(z, n))/n)
					}
				}
			}
		}
		z = up
	}
	return k
}

func inverse(k mat.Matrix) *mat.Dense {
	var out mat.Dense
	if err := out.Inverse(k); err != nil {
		panic(err)
	}
	return &out
}

// safety is how many times forces and moments may grow before a ply breaks, by Tsai
// and Wu with half the coupling of a sphere of stresses.
func (l stack) safety(load [6]float64) float64 {
	var strain mat.VecDense
	strain.MulVec(inverse(l.stiffness()), mat.NewVecDense(6, load[:]))
	least := math.Inf(1)
	z := -l.thickness() / 2
	for _, s := range l {
		for _, at := range []float64{z, z + s.t} {
			ex, ey, exy := strain.AtVec(0)+at*strain.AtVec(3), strain.AtVec(1)+at*strain.AtVec(4), strain.AtVec(2)+at*strain.AtVec(5)
			c := s.e / (1 - s.nu*s.nu)
			sx, sy, t := c*(ex+s.nu*ey), c*(ey+s.nu*ex), s.g*exy
			h := 1 / (s.xt * s.xc)
			square := h*(sx*sx+sy*sy-sx*sy) + t*t/(s.s*s.s)
			linear := (1/s.xt - 1/s.xc) * (sx + sy)
			least = math.Min(least, (-linear+math.Sqrt(linear*linear+4*square))/(2*square))
		}
		z += s.t
	}
	return least
}

// plate is the middle of a simply held rectangle a by b, hollow along b with a radius
// (0 when flat), under a force on a rectangle u by v in its middle: deflection there,
// and the least safety there and at a corner, where it twists. Navier; the shell by
// Donnell.
func (l stack) plate(a, b, radius, force, u, v float64) (w, safety float64) {
	k := l.stiffness()
	bend := inverse(inverse(k).Slice(3, 6, 3, 6)) // of a laminate that is free to stretch
	give := inverse(k.Slice(0, 3, 0, 3))
	curve := 0.0
	if radius != 0 {
		curve = 1 / radius
	}
	var mx, my, nx, ny, mxy, nxy float64
	const waves = 239
	for m := 1; m <= waves; m += 2 {
		for n := 1; n <= waves; n += 2 {
			x, y := float64(m)*math.Pi/a, float64(n)*math.Pi/b
			q := 4 * force / (a * b) * math.Sin(x*u/2) / (x * u / 2) * math.Sin(y*v/2) / (y * v / 2)
			plane := give.At(1, 1)*math.Pow(x, 4) + (2*give.At(0, 1)+give.At(2, 2))*x*x*y*y + give.At(0, 0)*math.Pow(y, 4)
			stiff := bend.At(0, 0)*math.Pow(x, 4) + 2*(bend.At(0, 1)+2*bend.At(2, 2))*x*x*y*y + bend.At(1, 1)*math.Pow(y, 4)
			amp := q / (stiff + math.Pow(curve*x*x, 2)/plane)
			w += amp
			mx += (bend.At(0, 0)*x*x + bend.At(0, 1)*y*y) * amp
			my += (bend.At(0, 1)*x*x + bend.At(1, 1)*y*y) * amp
			// The load has each wave's sign in the middle, so that these all add up there.
			stress := curve * x * x / plane * amp
			nx, ny = nx-y*y*stress, ny-x*x*stress
			middle := math.Sin(float64(m)*math.Pi/2) * math.Sin(float64(n)*math.Pi/2)
			mxy += 2 * bend.At(2, 2) * x * y * amp * middle
			nxy -= x * y * stress * middle
		}
	}
	return w, math.Min(l.safety([6]float64{nx, ny, 0, -mx, -my, 0}), l.safety([6]float64{0, 0, nxy, 0, 0, mxy}))
}

// The skiff by hand, in SI units.
func TestStormSkiffHull(t *testing.T) {
	const g = 9.80665
	res := run(t, "storm-skiff-hull.md")
	// On paper: mat 450 with 0.3 of glass is 1.0508 mm, 1.5 kg/m²; mat 300 two thirds of
	// it; woven 600 with 0.48 is 0.7760 mm, 1.25 kg/m².
	within(t, "hull", number(t, res, "tHull"), (0.5+0.70052+4*1.05078)*1e-3, 1e-5)
	within(t, "sole", number(t, res, "tSole"), (0.5+0.70052+4*1.05078+9+0.77604)*1e-3, 1e-5)
	within(t, "weight of the hull", number(t, res, "wHull"), 0.6+1+4*1.5, 1e-9)
	within(t, "weight of the sole", number(t, res, "wSole"), 0.6+1+4*1.5+5.4+1.25, 1e-9)
	within(t, "weight by plies", number(t, res, "wSole"), soleOf.weight(), 1e-9)
	within(t, "shell", number(t, res, "shell"), 3*7.6+1.4*14.25, 1e-9)
	resin := 3*(0.6+0.7+4*1.05) + 1.4*(0.6+0.7+4*1.05+0.65)
	within(t, "resin", number(t, res, "resin"), resin, 1e-9)
	within(t, "glass", number(t, res, "dry"), 3*(0.3+4*0.45)+1.4*(0.3+4*0.45+0.6), 1e-9)
	within(t, "resin bought", number(t, res, "bought"), 1.15*resin, 1e-9)

	pulled := inverse(soleOf.stiffness())
	thick := soleOf.thickness()
	within(t, "pulled", number(t, res, "Ex"), 1/(thick*pulled.At(0, 0)), 1e-9)
	within(t, "bent", number(t, res, "bends"), 12/(math.Pow(thick, 3)*pulled.At(3, 3)), 1e-9)
	within(t, "moment that breaks", number(t, res, "mBreak"), 100*soleOf.safety([6]float64{3: 100}), 1e-9)
	within(t, "pull that breaks", number(t, res, "nBreak"), 1e4*hullOf.safety([6]float64{1e4}), 1e-9)

	// Panels: the series here has three times the waves; its moments, of the order
	// of one over the waves cubed under a load with an edge, differ less than that.
	const share = 5e-3
	for _, p := range []struct {
		gives, safety                        string
		of                                   stack
		a, b, radius, force, along, acrossIt float64
	}{
		{"gives", "spare", soleOf, 0.4, 0.32, 0, 1.5 * 110 * g, 0.06, 0.06},
		{"sinks", "spareSeat", soleOf, 0.42, 0.48, 0, 1.4 * 110 * g, 0.2, 0.3},
		{"bulges", "spareBilge", hullOf, 0.4, 0.32, -0.6, 110 * g, 0.08, 0.08},
	} {
		w, safety := p.of.plate(p.a, p.b, p.radius, p.force, p.along, p.acrossIt)
		within(t, p.gives, number(t, res, p.gives), w, 1e-4)
		within(t, p.safety, number(t, res, p.safety), safety, share)
	}
	// What the text says of a sole of glass alone: a twentieth of its span, and the
	// board makes it fifteen times as stiff.
	thin := stack{gelOf, matOf(0.3), matOf(0.45), matOf(0.45), matOf(0.45), wovenOf(0.6), matOf(0.45)}
	w, _ := thin.plate(0.4, 0.32, 0, 1.5*110*g, 0.06, 0.06)
	within(t, "glass alone", w, 0.32/20, 0.06) // a figure in words
	within(t, "with the board", w/number(t, res, "gives"), 15, 0.05)

	aside := 1.5 * (220 + 85) * 0.5 * g
	upper := aside * 0.37
	within(t, "aside", number(t, res, "aside"), aside, 1e-12)
	within(t, "upper", number(t, res, "upper"), upper, 1e-12)
	within(t, "tug", number(t, res, "tug"), upper-0.4*305*g/4, 1e-12)
	within(t, "bolt held", check(t, res, "bolt pulled out of the sole"), math.Pi*0.08*thick*20e6/4, 1e-12)
	within(t, "bolt crushed", number(t, res, "crushed"), 0.012*thick*100e6, 1e-12)

	// Plies: glass of 2560 kg/m³ and resin of 1200 kg/m³ by ISO 12215-5; a coat of half
	// a millimetre; fifteen mats in the thickness of ten.
	mat300 := 0.3/2560 + 0.7/1200
	works(t, res, 1e-12, map[string]float64{
		"glass.FibreDensity": 2560, "glass.ResinDensity": 1200, "glass.FibreE": 73e9, "glass.ResinE": 3e9, "glass.FibreNu": 0.2, "glass.ResinNu": 0.35,
		"coat.Thickness": 0.0005, "coat.Angle": 0, "coat.Glass": 0, "coat.Resin": 0.0005 * 1200, "coat.Core": 0,
		"m300.Thickness": mat300, "m300.Angle": 0, "m300.Glass": 0.3, "m300.Resin": 0.7, "m300.Core": 0,
		"m450.Thickness": 1.5 * mat300, "m450.Angle": 0, "m450.Glass": 0.45, "m450.Resin": 1.05, "m450.Core": 0,
		"w600.Thickness": 0.6/2560 + 0.65/1200, "w600.Angle": 0, "w600.Glass": 0.6, "w600.Resin": 0.65, "w600.Core": 0,
		"board.Thickness": 0.009, "board.Angle": 0, "board.Glass": 0, "board.Resin": 0, "board.Core": 5.4,
		"strip.Number": 5, "plain.Number": 2, "hullMass": 85, "light": 0.4 * 305 * g, "grabbed.Pull": 0, "punched.Pull": math.Pi * 0.08 * thick * 20e6,
		"firmly": 0.0032, "most of seat gives": 0.0042, "demand of weight of the skiff": 3*7.6 + 1.4*14.25 + 34,
		"demand of bolt along the sole": aside / 4, "most of bolt along the sole": 0.012 * thick * 100e6 / 4,
	})
	works(t, res, 1e-9, map[string]float64{
		"strip.Safety": soleOf.safety([6]float64{3: 100}), "plain.Safety": hullOf.safety([6]float64{1e4}),
		// The faces of the plies that break first, from the middle: the board's lower one,
		// over coat and three mats, and that of the first mat, over the coat.
		"strip.Z": 0.0005 + 4*mat300 - thick/2, "plain.Z": 0.0005 - hullOf.thickness()/2,
	})
	for i, hours := range []float64{1, 2, 12, 12, 24, 0, 168} { // common practice
		within(t, "wait", number(t, res, "wait", i), hours*3600, 0)
	}
	within(t, "days", number(t, res, "days"), 2, 0) // six plies of glass, three a day
	within(t, "waiting", number(t, res, "waits"), (1+2+12+12+24+168)*3600, 0)
	for i, want := range []float64{0, 4.4 * 0.3, (12 + 5.6) * 0.45, 1.4 * 0.6} {
		got := number(t, res, "weights", i)
		if math.Abs(got-want) > 1e-9 {
			t.Errorf("glass of ply %d: got %g, want %g", i, got, want)
		}
	}
	for i, want := range []float64{4.4 * 0.6, 4.4 * 0.7, (12 + 5.6) * 1.05, 1.4 * 0.65} {
		within(t, "resin of a ply", number(t, res, "wets", i), 1.15*want, 1e-9)
	}
	// The stock is what the stacks weigh.
	var stock float64
	for i := range 4 {
		stock += number(t, res, "wets", i)
	}
	within(t, "stock of resin", stock, number(t, res, "bought"), 1e-9)
}
