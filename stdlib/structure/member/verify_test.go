package member_test

import (
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"tautline/stdlib/internal/proof"
	"tautline/stdlib/structure/frame"
	"tautline/stdlib/structure/member"
	"tautline/stdlib/structure/section"
)

// line is a member under end forces that do not change along it but for moments
// from first to last.
func line(length, n, vz, t, myFirst, myLast, mzFirst, mzLast float64) frame.Forces {
	f := frame.Forces{Length: length}
	for k := range 11 {
		x := float64(k) / 10
		f.Stations = append(f.Stations, frame.Station{At: x * length, N: n, VZ: vz, T: t,
			MY: myFirst + x*(myLast-myFirst), MZ: mzFirst + x*(mzLast-mzFirst)})
	}
	return f
}

func item(t *testing.T, v member.Verification, clause, what string) float64 {
	t.Helper()
	for _, it := range v.Items {
		if it.Clause == clause && strings.Contains(it.What, what) {
			return it.Utilisation
		}
	}
	t.Errorf("%s: got no item %s %q among %+v", v.Name, clause, what, v.Items)
	return math.NaN()
}

// RHS 100x50x4 cold, S355, 3 m, under 40 kN, 6 kN·m about y and 1 kN·m about z,
// even along it: worked by hand from 6.3.1.2, 6.3.3 and Table B.1, with the
// slendernesses and reductions of the strut in TestStruts.
func TestTubeUnderCompressionAndBending(t *testing.T) {
	s := section.RHS(0.1, 0.05, 0.004, section.ColdFormed)
	m := member.Member{Section: s, Material: steel(355), LengthY: 3, LengthZ: 3}
	v := proof.Must(m.Verify(line(3, -40e3, 0, 0, 6e3, 6e3, 1e3, 1e3)))(t)

	const ly, lz, chiY, chiZ = 1.1216726, 1.9376778, 0.4728446, 0.2071053
	nrk := 10.9480e-4 * 355e6
	ny, nz := 40e3/(chiY*nrk), 40e3/(chiZ*nrk)
	kyy := math.Min(1+(ly-0.2)*ny, 1+0.8*ny)
	kzz := math.Min(1+(lz-0.2)*nz, 1+0.8*nz)
	my, mz := 6e3/(34.0988e-6*355e6), 1e3/(20.9289e-6*355e6)
	// Lateral slenderness √(Wpl·fy/Mcr) = 0.35 with Mcr = π/L·√(EIz·GIt): below 0.4.
	mcr := math.Pi / 3 * math.Sqrt(210e9*44.9492e-8*81e9*112.9939e-8)
	if lt := math.Sqrt(34.0988e-6 * 355e6 / mcr); lt > 0.4 || v.ChiLT != 1 {
		t.Errorf("lateral slenderness %.3f, chi %g: want less than 0.4 and 1", lt, v.ChiLT)
	}
	proof.Near(t, "buckling about y", item(t, v, "6.3.1.1(1)", "about y"), ny, 1e-5)
	proof.Near(t, "buckling about z", item(t, v, "6.3.1.1(1)", "about z"), nz, 1e-5)
	proof.Near(t, "(6.61)", item(t, v, "6.3.3(4), (6.61)", ""), ny+kyy*my+0.6*kzz*mz, 1e-5)
	proof.Near(t, "(6.62)", item(t, v, "6.3.3(4), (6.62)", ""), nz+0.6*kyy*my+kzz*mz, 1e-5)
	if want := "EN 1993-1-1:2005, 6.3.3(4)"; !strings.HasPrefix(v.Clause, want) {
		t.Errorf("governed by %s, want %s", v.Clause, want)
	}
	proof.Near(t, "utilisation", v.Utilisation, math.Max(nz+0.6*kyy*my+kzz*mz, ny+kyy*my+0.6*kzz*mz), 1e-5)
}

// IPE 200, S235, 3 m, under 60 kN and 15 kN·m at one end, nothing at the other:
// worked from 6.3.2.2, 6.3.3 and Table B.2 with the printed properties.
func TestBeamUnderCompressionAndBending(t *testing.T) {
	s := proof.Must(section.Standard("IPE 200"))(t)
	m := member.Member{Section: s, Material: steel(235), LengthY: 3, LengthZ: 3}
	v := proof.Must(m.Verify(line(3, -60e3, 5e3, 0, 15e3, 0, 0, 0)))(t)

	area, fy := s.A, 235e6
	lambda := func(i float64) float64 { return math.Sqrt(area * fy / (math.Pi * math.Pi * 210e9 * i / 9)) }
	chi := func(alpha, l float64) float64 {
		phi := 0.5 * (1 + alpha*(l-0.2) + l*l)
		return 1 / (phi + math.Sqrt(phi*phi-l*l))
	}
	ly, lz := lambda(s.Iy), lambda(s.Iz)
	chiY, chiZ := chi(0.21, ly), chi(0.34, lz)
	mcr := math.Pi / 3 * math.Sqrt(210e9*s.Iz*81e9*s.It*(1+math.Pi*math.Pi*210e9*s.Iw/(81e9*s.It*9)))
	chiLT := chi(0.21, math.Sqrt(s.Wply*fy/mcr))
	ny, nz := 60e3/(chiY*area*fy), 60e3/(chiZ*area*fy)
	const cm = 0.6
	kyy := math.Min(cm*(1+(ly-0.2)*ny), cm*(1+0.8*ny))
	kzy := math.Max(1-0.1*lz*nz/(cm-0.25), 1-0.1*nz/(cm-0.25))
	my := 15e3 / (chiLT * s.Wply * fy)
	proof.Near(t, "chi lateral", v.ChiLT, chiLT, 1e-12)
	proof.Near(t, "lateral", item(t, v, "6.3.2.1(1)", ""), my, 1e-12)
	proof.Near(t, "(6.61)", item(t, v, "6.3.3(4), (6.61)", ""), ny+kyy*my, 1e-12)
	proof.Near(t, "(6.62)", item(t, v, "6.3.3(4), (6.62)", ""), nz+kzy*my, 1e-12)
	// Makers' tables print chi of IPE 200 in S235 over 3 m about z: slenderness
	// 1.428 (93.9·0.2236/14.7).
	proof.Near(t, "slenderness about z", lz, 300/2.24/93.9, 3e-3)
}

// Sections: pure bending, shear above half, torsion that takes shear away,
// biaxial bending; each by hand for SHS 60x60x4, S235.
func TestSectionChecks(t *testing.T) {
	s := section.SHS(0.06, 0.004, section.ColdFormed)
	m := member.Member{Section: s, Material: steel(235), LengthY: 1, LengthZ: 1}
	mpl := 17.6429e-6 * 235e6
	v := proof.Must(m.Verify(line(1, 0, 0, 0, 2e3, 2e3, 0, 0)))(t)
	proof.Near(t, "bending", v.Utilisation, 2e3/mpl, 1e-5)

	v = proof.Must(m.Verify(line(1, 0, 40e3, 0, 2e3, 2e3, 0, 0)))(t)
	proof.Near(t, "shear", item(t, v, "6.2.6(1), 6.2.7(9)", ""), 40/57.988, 1e-4)
	proof.Near(t, "bending with shear", item(t, v, "6.2.9.1(6)", ""), 2e3/mpl/(1-0.144089), 1e-4)

	v = proof.Must(m.Verify(line(1, 0, 20e3, 1e3, 0, 0, 0, 0)))(t)
	share := 1e3 / (21.9732e-6 * 235e6 / math.Sqrt(3))
	proof.Near(t, "torsion", item(t, v, "6.2.7(1)", ""), share, 1e-5)
	proof.Near(t, "shear under torsion", item(t, v, "6.2.6(1), 6.2.7(9)", ""), 20/57.988/(1-share), 1e-4)

	v = proof.Must(m.Verify(line(1, 0, 0, 0, 2e3, 2e3, 1e3, 1e3)))(t)
	y, z := 2e3/mpl, 1e3/mpl
	proof.Near(t, "biaxial", item(t, v, "6.2.9.1(6)", ""), math.Pow(math.Pow(y, 1.66)+math.Pow(z, 1.66), 1/1.66), 1e-5)

	v = proof.Must(m.Verify(line(1, 100e3, 0, 0, 0, 0, 0, 0)))(t)
	proof.Near(t, "tension", v.Utilisation, 100e3/(8.5480e-4*235e6), 1e-5)
	if v.Clause != "EN 1993-1-1:2005, 6.2.3(1)" {
		t.Errorf("tension: governed by %s", v.Clause)
	}
}

// EN 1993-1-1:2005, Table B.3.
func TestEquivalentMoment(t *testing.T) {
	for _, c := range []struct{ first, middle, last, want float64 }{
		{1, 1, 1, 1}, {1, 0.5, 0, 0.6}, {1, 0, -1, 0.4}, {1, 0.25, -0.5, 0.4}, // no load between: 0.6 + 0.4·psi
		{-1, 0.9, -1, 0.82},                        // 0.1 + 0.8·0.9
		{-1, -0.9, 0, 0.92},                        // 0.2 + 0.8·0.9
		{-1, 0.8, 0.5, 0.1*1.5 + 0.8*0.8},          // psi = -0.5
		{-0.5, 1, -0.5, 0.925},                     // 0.95 - 0.05·0.5
		{0, 1, 0, 0.95},                            // on two supports
		{0.5, 1, 0.2, 0.975},                       // 0.95 + 0.05·0.5
		{-0.5, 1, 0.25, 0.95 - 0.05*0.5*(1-2*0.5)}, // psi = -0.5
		{0, 0, 0, 1},
	} {
		proof.Near(t, "Cm", member.EquivalentMoment(c.first, c.middle, c.last), c.want, 1e-12)
		proof.Near(t, "Cm, the other way round", member.EquivalentMoment(c.last, c.middle, c.first), c.want, 1e-12)
		proof.Near(t, "Cm, signs turned", member.EquivalentMoment(-c.first, -c.middle, -c.last), c.want, 1e-12)
	}
}

// Table B.2 joins without a step at a slenderness of 0.4 only up to the term that
// it drops there; Table B.1 is capped at 0.8 and 1.4.
func TestInteractions(t *testing.T) {
	tube := section.SHS(0.06, 0.004, section.ColdFormed)
	k := member.Interactions(tube, true, member.AxialShare{Lambda: 3, Share: 0.5}, member.AxialShare{Lambda: 0.7, Share: 0.4}, 0.9, 0.8, 0.9)
	proof.Near(t, "kyy capped", k.YY, 0.9*(1+0.8*0.5), 1e-12)
	proof.Near(t, "kzz", k.ZZ, 0.8*(1+0.5*0.4), 1e-12)
	proof.Near(t, "kyz", k.YZ, 0.6*k.ZZ, 1e-12)
	proof.Near(t, "kzy", k.ZY, 0.6*k.YY, 1e-12)
	k = member.Interactions(tube, false, member.AxialShare{Lambda: 0.7, Share: 0.5}, member.AxialShare{Lambda: 3, Share: 0.4}, 0.9, 0.8, 0.9)
	proof.Near(t, "elastic kyy", k.YY, 0.9*(1+0.6*0.7*0.5), 1e-12)
	proof.Near(t, "elastic kzz capped", k.ZZ, 0.8*(1+0.6*0.4), 1e-12)
	proof.Near(t, "elastic kyz", k.YZ, k.ZZ, 1e-12)
	proof.Near(t, "elastic kzy", k.ZY, 0.8*k.YY, 1e-12)
	ipe := section.ISection(0.2, 0.1, 0.0056, 0.0085, 0.012, section.Rolled)
	k = member.Interactions(ipe, true, member.AxialShare{}, member.AxialShare{Lambda: 2, Share: 0.5}, 1, 1, 0.75)
	proof.Near(t, "kzz of an I capped", k.ZZ, 1+1.4*0.5, 1e-12)
	proof.Near(t, "kzy of an I", k.ZY, 1-0.1*0.5/0.5, 1e-12)
	k = member.Interactions(ipe, true, member.AxialShare{}, member.AxialShare{Lambda: 0.3, Share: 0.5}, 1, 1, 0.75)
	proof.Near(t, "kzy of a stout I", k.ZY, 0.9, 1e-12)
}

// More load is never less utilisation; a member in tension is never worse than
// the same in compression, but for an angle, whose two sides differ.
func TestUtilisationGrows(t *testing.T) {
	sections := []section.Section{
		section.SHS(0.06, 0.004, section.ColdFormed), section.RHS(0.1, 0.05, 0.004, section.HotFinished), section.CHS(0.0603, 0.004, section.ColdFormed),
		section.Flat(0.05, 0.02), section.RoundBar(0.03), section.Channel(0.1, 0.055, 0.0045, 0.0075, 0.01), section.Angle(0.05, 0.05, 0.006, 0.007, 0.0035),
	}
	rapid.Check(t, func(rt *rapid.T) {
		m := member.Member{Section: rapid.SampledFrom(sections).Draw(rt, "section"), Material: steel(235)}
		m.LengthY, m.LengthZ = rapid.Float64Range(0.3, 5).Draw(rt, "ly"), rapid.Float64Range(0.3, 5).Draw(rt, "lz")
		draw := func(what string, most float64) float64 { return rapid.Float64Range(-most, most).Draw(rt, what) }
		v := [7]float64{draw("n", 60e3), draw("v", 5e3), draw("t", 100), draw("my", 800), draw("my2", 800), draw("mz", 300), draw("mz2", 300)}
		at := func(c float64) member.Verification {
			got, err := m.Verify(line(2, c*v[0], c*v[1], c*v[2], c*v[3], c*v[4], c*v[5], c*v[6]))
			if err != nil {
				rt.Fatal(err)
			}
			return got
		}
		one, more := at(1), at(1.3)
		if more.Utilisation < one.Utilisation*(1-1e-12) {
			rt.Errorf("%s: utilisation %g falls to %g at 1.3 of the load", m.Section.Name, one.Utilisation, more.Utilisation)
		}
		if m.Section.Shape == section.AngleShape {
			return
		}
		v[0] = math.Abs(v[0])
		pulled := at(1)
		v[0] = -v[0]
		if pressed := at(1); pressed.Utilisation < pulled.Utilisation*(1-1e-12) {
			rt.Errorf("%s: pressed %g is better than pulled %g", m.Section.Name, pressed.Utilisation, pulled.Utilisation)
		}
	})
}

func TestMemberFaults(t *testing.T) {
	tube := section.SHS(0.06, 0.004, section.ColdFormed)
	good := member.Member{Name: "strut", Section: tube, Material: steel(235), LengthY: 1, LengthZ: 1}
	for _, c := range []struct {
		spoil func(m *member.Member)
		words string
	}{
		{func(m *member.Member) { m.LengthY = 0 }, "strut: LengthY: got 0, want more than 0"},
		{func(m *member.Member) { m.Material.Fy = math.NaN() }, "strut: fy: got NaN"},
		{func(m *member.Member) { m.Material.Fu = m.Material.Fy }, "3.2.2(1)"},
		{func(m *member.Member) { m.Section = section.Section{} }, "area of its section: got 0"},
		{func(m *member.Member) { m.Section = section.SHS(0.15, 0.003, section.ColdFormed) }, "class 4: width over thickness of the upright wall is 47.0, over the limit 42.0"},
		{func(m *member.Member) { m.Section = section.ISection(0.6, 0.1, 0.004, 0.01, 0, section.Welded) }, "class 4"},
	} {
		m := good
		c.spoil(&m)
		_, err := m.Verify(line(1, -1e3, 0, 0, 0, 0, 0, 0))
		proof.Fails(t, c.words, err, c.words)
	}
	_, err := good.Verify(frame.Forces{})
	proof.Fails(t, "no stations", err, "got 0 stations")
}

// A frame's members all at once: the worst of two combinations, and the table's
// numbers.
func TestSurvey(t *testing.T) {
	f := frame.New()
	a, b := f.Node(0, 0, 0), f.Node(2, 0, 0)
	m := f.Member(a, b, section.SHS(0.06, 0.004, section.ColdFormed), steel(235))
	f.NameMember(m, "arm")
	f.Fix(a)
	q := frame.NewCase("tip")
	q.Node(b, frame.Load{FZ: -1000})
	results := proof.Must(f.SolveAll(frame.Combine("light", q.Times(0.5)), frame.Combine("heavy", q.Times(1.5))))(t)
	list := proof.Must(member.Survey(member.All(f), results...))(t)
	worst := member.Governing(list)
	proof.Near(t, "1.5·2 kN·m over 17.6429 cm³·235 MPa", worst.Utilisation, 3e3/(17.6429e-6*235e6), 1e-5)
	if worst.Name != "arm" || worst.Combination != "heavy" {
		t.Errorf("got %s in %s, want arm in heavy", worst.Name, worst.Combination)
	}
	proof.Near(t, "utilisations", member.Utilisations(list)[0], worst.Utilisation, 0)
	limit := member.DeflectionLimits()[2]
	proof.Near(t, "cantilever's allowance", limit.Allowed(2), 2.0/150, 1e-12)
}
