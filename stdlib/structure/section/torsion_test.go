package section_test

import (
	"math"
	"testing"

	"tautline/stdlib/internal/proof"
	"tautline/stdlib/structure/section"
)

// Timoshenko and Goodier, Theory of Elasticity, torsion of rectangular bars, the
// printed table of k1 and k2.
func TestRectangleTorsion(t *testing.T) {
	for _, c := range []struct{ ratio, k1, k2 float64 }{
		{1, 0.1406, 0.2082}, {1.2, 0.1661, 0.2189}, {1.5, 0.1958, 0.2310}, {2, 0.2287, 0.2459}, {2.5, 0.2494, 0.2576},
		{3, 0.2633, 0.2672}, {4, 0.2808, 0.2817}, {5, 0.2913, 0.2915}, {10, 0.3123, 0.3123},
	} {
		s := section.Flat(c.ratio, 1)
		if k1, k2 := s.It/c.ratio, s.Wt/c.ratio; math.Abs(k1-c.k1) > 0.5e-4 || math.Abs(k2-c.k2) > 0.5e-4 {
			t.Errorf("ratio %g: got %.5f, %.5f, want %.4f, %.4f", c.ratio, k1, k2, c.k1, c.k2)
		}
	}
}

// A tube slit along its length keeps 1/359 of its torsion constant; both by the
// formulas of Saint-Venant, worked by hand.
func TestSlitTube(t *testing.T) {
	tube := section.CHS(0.1143, 0.005, section.HotFinished)
	slit := section.OpenTorsion(2*math.Pi*0.05465, 0.005)
	proof.Near(t, "slit", slit*1e12, 14307.3, 1e-4)
	proof.Near(t, "ratio", tube.It/slit, 359.14, 1e-4)
}

// 1 kN·m in SHS 60x60x4: Bredt on the middle line of 56x56 against the torsion
// modulus of EN 10219-2, Annex B; by hand.
func TestTubeTorsion(t *testing.T) {
	proof.Near(t, "Bredt", section.BredtStress(1000, 0.056*0.056, 0.004)/1e6, 39.8597, 1e-5)
	tube := section.SHS(0.060, 0.004, section.ColdFormed)
	proof.Near(t, "EN 10219-2", 1000/tube.Wt/1e6, 45.5100, 1e-5)
}

// Prandtl's membrane over the outline, relaxed on a grid: an independent way to
// the torsion constant, twice the volume under the membrane. The edge lies
// somewhere between two points of the grid, an error that goes with its step:
// two grids extrapolate it away but for some 1 %. The formulas claim as much and
// leave out an angle's rounded toes, which cost it 2 %.
func TestTorsionByMembrane(t *testing.T) {
	if testing.Short() {
		t.Skip("relaxation takes a second")
	}
	for _, s := range []section.Section{
		section.Flat(0.03, 0.01),
		section.Angle(0.05, 0.05, 0.005, 0.007, 0.0035),
		section.Angle(0.06, 0.04, 0.006, 0.006, 0.003),
		section.Channel(0.08, 0.05, 0.005, 0.007, 0.010),
		section.ISection(0.08, 0.046, 0.0038, 0.0052, 0.005, section.Rolled),
	} {
		coarse, fine := membrane(s.Outline(), s.Wall/20), membrane(s.Outline(), s.Wall/40)
		proof.Near(t, s.Name+": torsion constant", s.It, 2*fine-coarse, 0.03)
	}
}

// membrane solves ∇²φ = -2 with φ = 0 at the edge by over-relaxation and gives
// 2·∫φ.
func membrane(loops []section.Loop, step float64) float64 {
	low, high, left, right := math.Inf(1), math.Inf(-1), math.Inf(1), math.Inf(-1)
	for _, l := range loops {
		for i := range l.Y {
			left, right = math.Min(left, l.Y[i]), math.Max(right, l.Y[i])
			low, high = math.Min(low, l.Z[i]), math.Max(high, l.Z[i])
		}
	}
	ny, nz := int((right-left)/step)+4, int((high-low)/step)+4
	inside := make([]bool, ny*nz)
	var cells []int
	for j := range nz {
		for i := range ny {
			if within(loops, left+(float64(i)-1.03)*step, low+(float64(j)-1.03)*step) {
				inside[j*ny+i] = true
				cells = append(cells, j*ny+i)
			}
		}
	}
	phi := make([]float64, ny*nz)
	for range 4000 {
		most := 0.0
		for _, c := range cells {
			change := (phi[c-1]+phi[c+1]+phi[c-ny]+phi[c+ny]+2*step*step)/4 - phi[c]
			phi[c] += 1.94 * change
			most = math.Max(most, math.Abs(change))
		}
		if most < 1e-6*step*step {
			break
		}
	}
	sum := 0.0
	for _, c := range cells {
		sum += phi[c]
	}
	return 2 * sum * step * step
}

func within(loops []section.Loop, y, z float64) bool {
	in := false
	for _, l := range loops {
		for i := range l.Y {
			j := (i + 1) % len(l.Y)
			if (l.Z[i] > z) != (l.Z[j] > z) && y < l.Y[i]+(z-l.Z[i])/(l.Z[j]-l.Z[i])*(l.Y[j]-l.Y[i]) {
				in = !in
			}
		}
	}
	return in
}
