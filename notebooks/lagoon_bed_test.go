package notebooks

import (
	"math"
	"testing"
)

// The numbers of the bed, worked again by hand from the givens in SI units.
func TestLagoonBed(t *testing.T) {
	const (
		R, r, s, H = 2.60, 0.35, 0.55, 0.75 // m
		pMax       = 2600.0                 // Pa, shut-off of the fan
		g          = 9.80665
	)
	res := run(t, "lagoon-bed.md")

	// Operating point by false position on the fan's straight piece from 1080 to
	// 1440 m³/h: an own solution of fan = leak, not the library's.
	bays := math.Ceil(2 * (R - r) / s)
	seams := 2*(bays+1)*2*(R-r)*math.Pi/4 + 2*2*2*math.Pi*R
	leak := func(p float64) float64 {
		return 0.61*20e-4*math.Sqrt(2*p/1.2) + 0.014*seams/10*math.Pow(p/1000, 0.65)
	}
	fan := func(q float64) float64 { return 2150 + (q*3600-1080)/360*(1720-2150) }
	lo, hi := 1720.0, 2150.0
	for range 200 {
		mid := (lo + hi) / 2
		if fan(leak(mid)) > mid {
			lo = mid
		} else {
			hi = mid
		}
	}
	if got := number(t, res, "p"); math.Abs(got-lo) > 1e-6 {
		t.Errorf("operating pressure: got %.9g Pa, want %.9g", got, lo)
	}

	// Torus: membrane theory, Roark's Formulas for Stress and Strain, ch. 13.
	near(t, "inner equator", number(t, res, "Nring"), pMax*r*(2*R-r)/(2*(R-r)))
	near(t, "outer equator", number(t, res, "Nouter"), pMax*r*(2*R+r)/(2*(R+r)))
	near(t, "along the ring", number(t, res, "Nalong"), pMax*r/2)

	// Mattress: twice the line force is pressure times crown height.
	lobe := math.Hypot(H/2, s/2)
	near(t, "lobe", number(t, res, "Nlobe"), pMax*lobe)
	near(t, "baffle", number(t, res, "Nbaffle"), pMax*s)
	near(t, "rise", number(t, res, "rise"), lobe-H/2)
	near(t, "arc", number(t, res, "arc"), 2*lobe*math.Asin(s/2/lobe))
	near(t, "cut", number(t, res, "cut"), 2*lobe*math.Asin(s/2/lobe)/1.008)

	// Seams: rows of thread over pitch, less the loss, over five.
	near(t, "long seam", number(t, res, "Nlong"), 2*95*(1-0.2)/0.005/5)
	near(t, "baffle seam", number(t, res, "Ninner"), 95*(1-0.2)/0.005/5)

	// Wind: 0.5·1.24·11.1²·1.5 = 114.5853 N/m² on the face, EN 14960-1 Annex A.
	F := 114.5853 * 2 * (R + r) * 2 * 2 * r
	near(t, "wind force", number(t, res, "F"), F)
	near(t, "anchors a side", number(t, res, "n"), math.Ceil(1.5*F/1600))

	// Ballast under a strap at 40° with friction 0.4: slides before it lifts.
	sin, cos := math.Sincos(40 * math.Pi / 180)
	near(t, "ballast needed", number(t, res, "mNeed"), 1600*(cos/0.4+sin)/g)
	near(t, "163 kg slides at", number(t, res, "Tslip"), 0.4*163*g/(cos+0.4*sin))
	near(t, "163 kg lifts at", number(t, res, "Tlift"), 163*g/sin)
}
