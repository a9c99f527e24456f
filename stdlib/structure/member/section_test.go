package member_test

import (
	"math"
	"testing"

	"tautline/stdlib/internal/proof"
	"tautline/stdlib/structure/member"
	"tautline/stdlib/structure/section"
)

// EN 1993-1-1:2005, Table 5.2, sheets 1 to 3: for tubes d/t against epsilon
// squared, for flat walls (b - 3t)/t against epsilon.
func TestClassInCompression(t *testing.T) {
	cold := section.ColdFormed
	for _, c := range []struct {
		s      section.Section
		fy     float64
		ratio  float64
		limits [3]float64
		class  float64
	}{
		{section.CHS(0.1143, 0.005, cold), 355, 22.86, [3]float64{33.099, 46.338, 59.577}, 1},
		{section.CHS(0.1143, 0.005, cold), 235, 22.86, [3]float64{50, 70, 90}, 1},
		{section.CHS(0.1143, 0.005, cold), 275, 22.86, [3]float64{42.727, 59.818, 76.909}, 1},
		{section.CHS(0.1683, 0.004, cold), 355, 42.075, [3]float64{33.099, 46.338, 59.577}, 2},
		{section.CHS(0.2191, 0.004, cold), 355, 54.775, [3]float64{33.099, 46.338, 59.577}, 3},
		{section.CHS(0.273, 0.004, cold), 355, 68.25, [3]float64{33.099, 46.338, 59.577}, 4},
		{section.SHS(0.1, 0.003, cold), 355, 30.333, [3]float64{26.849, 30.917, 34.172}, 2},
		{section.SHS(0.12, 0.003, cold), 355, 37.0, [3]float64{26.849, 30.917, 34.172}, 4},
		{section.SHS(0.15, 0.004, cold), 355, 34.5, [3]float64{26.849, 30.917, 34.172}, 4},
		{section.SHS(0.06, 0.004, cold), 235, 12, [3]float64{33, 38, 42}, 1},
	} {
		got := proof.Must(member.Classify(c.s, c.fy*mpa, 1000, 0, 0))(t)
		if got.Class != c.class {
			t.Errorf("%s in %g MPa: got class %g (%s %.2f of %.2f), want %g", c.s.Name, c.fy, got.Class, got.Part, got.Ratio, got.Limits, c.class)
		}
		proof.Near(t, c.s.Name+": ratio", got.Ratio, c.ratio, 1e-4)
		for i, limit := range c.limits {
			proof.Near(t, c.s.Name+": limit", got.Limits[i], limit, 1e-4)
		}
	}
}

// Bending lets a deep web be slenderer than compression does; the two meet when
// the whole web is pressed. Angles by sheet 3, outstands by sheet 2.
func TestClassInBending(t *testing.T) {
	deep := section.RHS(0.2, 0.1, 0.004, section.ColdFormed) // webs 47, flanges 22
	for _, c := range []struct {
		what       string
		n, my, mz  float64
		part       string
		limit      int
		wantLimit  float64
		wantsClass float64
	}{
		{"bent about y", 0, 10e3, 0, "level wall", 0, 33, 1},
		{"bent about z", 0, 0, 5e3, "upright wall", 0, 33, 4},
		{"pressed fully", deep.A * 235e6, 10e3, 0, "upright wall", 2, 42, 4},
		{"a little pressed", 0.1 * deep.A * 235e6, 10e3, 0, "", 0, 0, 1},
		{"pulled", -1000, 0, 0, "in tension", 0, 0, 1},
	} {
		got := proof.Must(member.Classify(deep, 235e6, c.n, c.my, c.mz))(t)
		if got.Class != c.wantsClass || c.part != "" && got.Part != c.part {
			t.Errorf("%s: got class %g by the %s (%.1f of %.1f), want %g by the %s", c.what, got.Class, got.Part, got.Ratio, got.Limits, c.wantsClass, c.part)
		}
		if c.wantLimit > 0 {
			proof.Near(t, c.what, got.Limits[c.limit], c.wantLimit, 1e-9)
		}
	}
	// IPE 200, S235: flange (100-5.6-24)/2/8.5 = 4.14, web 159/5.6 = 28.4.
	ipe := proof.Must(section.Standard("IPE 200"))(t)
	if got := proof.Must(member.Classify(ipe, 235e6, 1, 0, 0))(t); got.Class != 1 || got.Part != "web" {
		t.Errorf("IPE 200: got class %g by the %s, want 1 by the web", got.Class, got.Part)
	}
	// L 60x60x5, S355: 12 and 12 against 15·0.8136 = 12.2 and 11.5·0.8136 = 9.36.
	angle := proof.Must(section.Standard("L 60x60x5"))(t)
	if got := proof.Must(member.Classify(angle, 355e6, 1, 0, 0))(t); got.Class != 4 || got.Part != "both legs" {
		t.Errorf("L 60x60x5: got class %g by the %s, want 4 by both legs", got.Class, got.Part)
	}
	_, err := member.Classify(section.BuiltUp("two", section.Part{Section: ipe}), 235e6, 1, 0, 0)
	proof.Fails(t, "built-up", err, "want its parts classified one by one")
}

// Shear areas A·h/(b+h) and 2A/π and their plastic resistance; the loss for
// bending begins at half of it. By hand from 6.2.6(3) and 6.2.8(3).
func TestShear(t *testing.T) {
	first := member.Class{Class: 1}
	shs := section.SHS(0.06, 0.004, section.ColdFormed)
	r := proof.Must(member.ResistanceOf(shs, 235e6, first, 1))(t)
	proof.Near(t, "SHS 60x60x4", r.VZ, 57988, 1e-5)
	proof.Near(t, "RHS 100x50x4 along 100", proof.Must(member.ResistanceOf(section.RHS(0.1, 0.05, 0.004, section.ColdFormed), 235e6, first, 1))(t).VZ, 99026, 1e-5)
	proof.Near(t, "loss at 40 kN", member.ShearLoss(40e3, r.VZ), 0.144089, 1e-5)
	proof.Near(t, "loss at 28 kN", member.ShearLoss(28e3, r.VZ), 0, 1e-12)
	proof.Near(t, "beyond", member.ShearLoss(90e3, r.VZ), 1, 1e-12)
}

// SHS 100x100x8 cold, S355, 200 kN: n, a, share of the moment and exponent by
// hand from 6.2.9.1(5) and (6).
func TestAxialBending(t *testing.T) {
	s := section.SHS(0.1, 0.008, section.ColdFormed)
	proof.Near(t, "A", s.A*1e6, 2724.248, 1e-6)
	proof.Near(t, "Wpl", s.Wply*1e9, 91050.10, 1e-6)
	n := 200e3 / (s.A * 355e6)
	proof.Near(t, "n", n, 0.206802, 1e-5)
	y, z := member.AxialBending(s, n)
	proof.Near(t, "share about y", y, 0.999419, 1e-5)
	proof.Near(t, "share about z", z, 0.999419, 1e-5)
	proof.Near(t, "a", (1-(1-n)/0.999419)/0.5, 0.412682, 1e-4)
	proof.Near(t, "exponent", member.BiaxialExponent(n), 1.744296, 1e-5)
	proof.Near(t, "exponent at 0.5", member.BiaxialExponent(0.5), 2.313589, 1e-6)
	proof.Near(t, "exponent at 0.9", member.BiaxialExponent(0.9), 6, 1e-12)
	flat, _ := member.AxialBending(section.Flat(0.05, 0.01), 0.5)
	proof.Near(t, "flat bar, 1 - n²", flat, 0.75, 1e-12)
}

// The round tube's 1 - n^1.7 against the plastic theory of the thin ring,
// cos(πn/2), which it follows within 0.04 and, but for small n, below.
func TestRoundTubeInteraction(t *testing.T) {
	s := section.CHS(0.1143, 0.002, section.HotFinished)
	for n := 0.0; n <= 1; n += 0.05 {
		got, _ := member.AxialBending(s, n)
		if want := math.Cos(math.Pi / 2 * n); math.Abs(got-want) > 0.04 {
			t.Errorf("n = %.2f: got %.4f, plastic theory %.4f", n, got, want)
		}
	}
}

// Stress at the tip of an angle bent about a leg's axis, where y and z alone
// would be wrong: by bending about u and v apart.
func TestStressOfAngle(t *testing.T) {
	s := proof.Must(section.Standard("L 50x50x5"))(t)
	const moment = 100.0
	got := member.StressOf(s, 0, 0, 0, 0, moment, 0)
	sin, cos := math.Sincos(s.Alpha)
	worst := 0.0
	for _, l := range s.Outline() {
		for i := range l.Y {
			u, v := l.Y[i]*cos+l.Z[i]*sin, l.Z[i]*cos-l.Y[i]*sin
			// A moment about y is cos about u and -sin about v.
			worst = math.Max(worst, math.Abs(moment*cos*v/s.Iu+moment*sin*u/s.Iv))
		}
	}
	proof.Near(t, "worst stress", math.Abs(got.Direct), worst, 1e-9)
	if simple := moment / s.Wely; worst < 1.1*simple {
		t.Errorf("askew bending: got %g, want clearly more than M/W = %g", worst, simple)
	}
	tube := section.CHS(0.0603, 0.004, section.ColdFormed)
	both := member.StressOf(tube, 10e3, 3e3, 4e3, 50, 300, 400)
	proof.Near(t, "round tube, direct", both.Direct, 10e3/tube.A+500/tube.Wely, 2e-3) // its outline has chords
	proof.Near(t, "round tube, shear", both.Shear, 5e3/tube.Avy+50/tube.Wt, 1e-12)
	proof.Near(t, "von Mises", both.Combined, math.Sqrt(both.Direct*both.Direct+3*both.Shear*both.Shear), 1e-12)
}
