package laminate_test

import (
	"math"
	"testing"

	"tautline/stdlib/internal/proof"
	"tautline/stdlib/sheet"
	"tautline/stdlib/structure/laminate"
	"tautline/stdlib/units"

	"pgregory.net/rapid"
)

// glassEpoxy is Kaw, Mechanics of Composite Materials, 2nd edition, Table 2.1.
var glassEpoxy = laminate.Lamina{E1: 38.6e9, E2: 8.27e9, Nu12: 0.26, G12: 4.14e9, Xt: 1062e6, Xc: 610e6, Yt: 31e6, Yc: 118e6, S: 72e6}

func stack(lamina laminate.Lamina, thickness float64, degrees ...float64) laminate.Laminate {
	var l laminate.Laminate
	for _, a := range degrees {
		l.Plies = append(l.Plies, laminate.Ply{Name: "ply", Lamina: lamina, Thickness: thickness, Angle: a * units.Deg})
	}
	return l
}

// Classical laminate theory on glass/epoxy of 0.25 mm plies, worked apart from
// this code: A in 1e6 N/m, B in N, D in N·m, moduli in GPa.
func TestStiffness(t *testing.T) {
	type row struct{ got, want float64 }
	near := func(name string, rows map[string]row) {
		for what, r := range rows {
			proof.Near(t, name+", "+what, r.got, r.want, 1e-5)
		}
	}
	s := proof.Must(stack(glassEpoxy, 0.25e-3, 0, 90, 90, 0).Stiffness())(t)
	near("[0/90]s", map[string]row{
		"A11": {s.A11 / 1e6, 23.7794}, "A22": {s.A22 / 1e6, 23.7794}, "A12": {s.A12 / 1e6, 2.18180}, "A66": {s.A66 / 1e6, 4.14},
		"D11": {s.D11, 2.94336}, "D22": {s.D22, 1.01988}, "D12": {s.D12, 0.181817}, "D66": {s.D66, 0.345},
		"Ex": {s.Ex / 1e9, 23.57922}, "Ey": {s.Ey / 1e9, 23.57922}, "Gxy": {s.Gxy / 1e9, 4.14}, "nuxy": {s.Nuxy, 0.0917517}, "Ex in bending": {s.BendEx / 1e9, 34.93134},
	})
	if s.B11 != 0 || s.B22 != 0 || len(s.Warnings) != 0 {
		t.Errorf("symmetrical: B11 %g, warnings %q", s.B11, s.Warnings)
	}
	s = proof.Must(stack(glassEpoxy, 0.25e-3, 45, -45, -45, 45).Stiffness())(t)
	near("[45/-45]s", map[string]row{
		"A11": {s.A11 / 1e6, 17.1206}, "A12": {s.A12 / 1e6, 8.8406}, "A66": {s.A66 / 1e6, 10.7988},
		"D11": {s.D11, 1.42672}, "D12": {s.D12, 0.73672}, "D16": {s.D16, 0.48087}, "D26": {s.D26, 0.48087}, "D66": {s.D66, 0.89990},
		"Ex": {s.Ex / 1e9, 12.55556}, "Gxy": {s.Gxy / 1e9, 10.79880}, "nuxy": {s.Nuxy, 0.5163721},
	})
	s = proof.Must(stack(glassEpoxy, 0.25e-3, 0, 90).Stiffness())(t)
	near("[0/90]", map[string]row{"B11": {s.B11, -961.742}, "B22": {s.B22, 961.742}, "Ex": {s.Ex / 1e9, 16.11100}})
	if math.Abs(s.B12) > 1e-9 || math.Abs(s.B66) > 1e-9 || len(s.Warnings) != 1 {
		t.Errorf("[0/90]: B12 %g, B66 %g, warnings %q", s.B12, s.B66, s.Warnings)
	}
	s = proof.Must(stack(glassEpoxy, 0.25e-3, 0, 45, -45, 90, 90, -45, 45, 0).Stiffness())(t)
	near("quasi-isotropic", map[string]row{
		"A11": {s.A11 / 1e6, 40.9}, "A22": {s.A22 / 1e6, 40.9}, "A66": {s.A66 / 1e6, 14.9388}, "A66 of the others": {s.A66, (s.A11 - s.A12) / 2},
		"Ex": {s.Ex / 1e9, 18.96475}, "Gxy": {s.Gxy / 1e9, 7.46940}, "nuxy": {s.Nuxy, 0.2694963},
	})
	s = proof.Must(stack(laminate.Isotropic(70e9, 0.33, 0), 0.5e-3, 0, 30, 77, -12).Stiffness())(t)
	proof.Near(t, "isotropic, A11", s.A11, 1.571091909e8, 1e-9)
	proof.Near(t, "isotropic, D11", s.D11, 52.369730, 1e-8)
	proof.Near(t, "isotropic, Ex", s.Ex, 70e9, 1e-10)
	if math.Abs(s.B11) > 1e-6 {
		t.Errorf("isotropic: B11 %g", s.B11)
	}
}

// A laminate turned as a whole has the same invariants, and its strain energy is
// the same whichever axes it is loaded in.
func TestTurnedWhole(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var angles []float64
		for range rapid.IntRange(1, 6).Draw(t, "plies") {
			angles = append(angles, rapid.Float64Range(-90, 90).Draw(t, "angle"))
		}
		by := rapid.Float64Range(-90, 90).Draw(t, "turn")
		var turned []float64
		for _, a := range angles {
			turned = append(turned, a+by)
		}
		s, err := stack(glassEpoxy, 1e-3, angles...).Stiffness()
		r, err2 := stack(glassEpoxy, 1e-3, turned...).Stiffness()
		if err != nil || err2 != nil {
			t.Fatal(err, err2)
		}
		for _, c := range []struct{ a, b float64 }{
			{s.A11 + s.A22 + 2*s.A12, r.A11 + r.A22 + 2*r.A12}, {s.A66 - s.A12, r.A66 - r.A12},
			{s.D11 + s.D22 + 2*s.D12, r.D11 + r.D22 + 2*r.D12}, {s.D66 - s.D12, r.D66 - r.D12},
		} {
			if math.Abs(c.a-c.b) > 1e-9*math.Abs(c.a) {
				t.Fatalf("invariant %g, turned %g", c.a, c.b)
			}
		}
	})
}

// Kaw, Mechanics of Composite Materials, 2nd edition, examples 2.17 to 2.19: a
// graphite/epoxy lamina at 60°; published 16.33, 10.94, 16.06 and 22.39 MPa.
func TestCriteria(t *testing.T) {
	l := laminate.Lamina{E1: 181e9, E2: 10.3e9, Nu12: 0.28, G12: 7.17e9, Xt: 1500e6, Xc: 1500e6, Yt: 40e6, Yc: 246e6, S: 68e6}
	local := laminate.PlaneStress{X: 2e6, Y: -3e6, Shear: 4e6}.Local(60 * units.Deg)
	proof.Near(t, "along", local.X/1e6, 1.714102, 1e-6)
	proof.Near(t, "across", local.Y/1e6, -2.714102, 1e-6)
	proof.Near(t, "shear", local.Shear/1e6, -4.165064, 1e-6)
	for _, c := range []struct {
		criterion       laminate.Criterion
		want, published float64
	}{
		{laminate.MaxStress, 16.3263, 16.33}, {laminate.TsaiHill, 10.9376, 10.94}, {laminate.ModifiedTsaiHill, 16.0607, 16.06},
		{laminate.TsaiWu, 22.3887, 22.39}, {laminate.TsaiWuHoffman, 22.4894, 22.49},
	} {
		got := proof.Must(l.Strength(local, c.criterion))(t)
		proof.Near(t, string(c.criterion), got, c.want, 1e-5)
		proof.Near(t, string(c.criterion)+", published", got, c.published, 5e-4)
	}
	// One stress at a time, all agree; Tsai–Wu in compression too.
	for _, c := range []laminate.Criterion{laminate.MaxStress, laminate.ModifiedTsaiHill, laminate.TsaiWu, laminate.TsaiWuHoffman} {
		for _, one := range []struct {
			stress laminate.PlaneStress
			want   float64
		}{{laminate.PlaneStress{X: 1e6}, 1500}, {laminate.PlaneStress{Y: 1e6}, 40}, {laminate.PlaneStress{Y: -1e6}, 246}, {laminate.PlaneStress{Shear: -1e6}, 68}} {
			proof.Near(t, string(c), proof.Must(l.Strength(one.stress, c))(t), one.want, 1e-12)
		}
	}
	_, err := l.Strength(local, "luck")
	proof.Fails(t, "criterion", err, `got "luck"`)
	_, err = l.Strength(laminate.PlaneStress{}, laminate.TsaiWu)
	proof.Fails(t, "no stress", err, "got none")
	l.Yt = 0
	_, err = l.Strength(local, laminate.TsaiWu)
	proof.Fails(t, "no strength", err, "strength Yt")
}

// In every laminate the plies' stresses add to the load, and the first ply to
// break does so just at the safety that was given.
func TestStressesBalance(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var angles []float64
		for range rapid.IntRange(1, 6).Draw(t, "plies") {
			angles = append(angles, rapid.Float64Range(-90, 90).Draw(t, "angle"))
		}
		l := stack(glassEpoxy, 0.5e-3, angles...)
		n, m := rapid.Float64Range(-1e5, 1e5), rapid.Float64Range(-100, 100)
		load := laminate.Load{Nx: n.Draw(t, "Nx"), Ny: n.Draw(t, "Ny"), Nxy: n.Draw(t, "Nxy"), Mx: m.Draw(t, "Mx"), My: m.Draw(t, "My"), Mxy: m.Draw(t, "Mxy")}
		if load == (laminate.Load{}) {
			t.Skip()
		}
		stresses, err := l.Stresses(load)
		if err != nil {
			t.Fatal(err)
		}
		var sum [6]float64
		for i := range l.Plies {
			low, high := stresses[2*i], stresses[2*i+1]
			a := l.Plies[i].Angle
			from := laminate.PlaneStress{X: low.Along, Y: low.Across, Shear: low.Shear}.Local(-a)
			to := laminate.PlaneStress{X: high.Along, Y: high.Across, Shear: high.Shear}.Local(-a)
			for k, s := range [3][2]float64{{from.X, to.X}, {from.Y, to.Y}, {from.Shear, to.Shear}} {
				h := high.Z - low.Z
				sum[k] += h * (s[0] + s[1]) / 2
				sum[3+k] += h * (low.Z*(2*s[0]+s[1]) + high.Z*(s[0]+2*s[1])) / 6
			}
		}
		for k, want := range [6]float64{load.Nx, load.Ny, load.Nxy, load.Mx, load.My, load.Mxy} {
			if math.Abs(sum[k]-want) > 1e-6*(1+math.Abs(want)) {
				t.Fatalf("component %d: got %g, want %g", k, sum[k], want)
			}
		}
		f, err := l.FirstPly(load, laminate.TsaiWu)
		if err != nil {
			t.Fatal(err)
		}
		k := f.Safety
		again, err := l.FirstPly(laminate.Load{Nx: k * load.Nx, Ny: k * load.Ny, Nxy: k * load.Nxy, Mx: k * load.Mx, My: k * load.My, Mxy: k * load.Mxy}, laminate.TsaiWu)
		if err != nil || math.Abs(again.Safety-1) > 1e-9 {
			t.Fatalf("at %g times the load: safety %g, %v", k, again.Safety, err)
		}
	})
}

// ISO 12215-5's thickness of a ply, t[mm] = (w/3.072)·(2.56/psi - 1.36), and the
// masses that belong to it.
func TestPlies(t *testing.T) {
	c := laminate.GlassPolyester()
	for _, r := range []struct{ w, psi, want float64 }{
		{0.450, 0.30, 1.050781}, {0.300, 0.30, 0.700521}, {0.600, 0.30, 1.401042}, {0.450, 0.25, 1.300781}, {0.450, 0.35, 0.872210}, {0.800, 0.48, 1.034722},
	} {
		got := c.Thickness(r.w, r.psi) / units.Mm
		proof.Near(t, "thickness", got, r.want, 1e-6)
		proof.Near(t, "the standard's form", got, r.w/3.072*(2.56/r.psi-1.36), 1e-12)
	}
	p := laminate.NewPly("mat 450", laminate.MatByFraction(0.3), 0.450, 0.3, c)
	proof.Near(t, "resin", p.Resin, 1.050, 1e-12)
	proof.Near(t, "laminate", laminate.Laminate{Plies: []laminate.Ply{p}}.Mass(), 1.5, 1e-12)
	proof.Near(t, "density", c.Density(0.3), 1427.51, 1e-6)
	proof.Near(t, "density of the ply", p.Lamina.Density*p.Thickness, 1.5, 1e-12)
	proof.Near(t, "volume fraction", c.VolumeFraction(0.3), 0.167286, 3e-6)
	two := laminate.Laminate{Plies: []laminate.Ply{laminate.NewCoat("gel coat", laminate.GelCoat(), 0.5e-3), p}}
	proof.Near(t, "gel coat", two.Resin(), 1.05+0.6, 1e-12)
	proof.Near(t, "glass", two.Glass(), 0.45, 1e-12)
	// ISO 12215-5 (from memory): mat of 0.3: 85, 117 and 62 MPa, 6.4 GPa.
	mat := laminate.MatByFraction(0.3)
	for what, r := range map[string][2]float64{"tension": {mat.Xt, 85e6}, "compression": {mat.Xc, 117e6}, "shear": {mat.S, 62e6}, "modulus": {mat.E1, 6.4e9}} {
		proof.Near(t, what, r[0], r[1], 1e-9)
	}
	if len(mat.Warnings) == 0 {
		t.Error("mat: numbers of low confidence carry no warning")
	}
}

// The rules of mixture lie between the bounds of Voigt and Reuss, and random and
// crossed fibres are the means over directions of parallel ones.
func TestMixtures(t *testing.T) {
	c := laminate.GlassPolyester()
	for _, psi := range []float64{0.25, 0.4, 0.6} {
		u, vf := c.Unidirectional(psi), c.VolumeFraction(psi)
		voigt, reuss := vf*c.FibreE+(1-vf)*c.ResinE, 1/(vf/c.FibreE+(1-vf)/c.ResinE)
		proof.Near(t, "along", u.E1, voigt, 1e-12)
		if u.E2 < reuss || u.E2 > voigt {
			t.Errorf("across: %g, want %g to %g", u.E2, reuss, voigt)
		}
		// Plies all round the circle: 3/8 and 5/8 are an approximation that stands a
		// little above their mean.
		var all []float64
		for i := range 180 {
			all = append(all, float64(i))
		}
		s := proof.Must(stack(u, 1e-4, all...).Stiffness())(t)
		flat := (s.A11*s.A22 - s.A12*s.A12) / (s.A22 * s.Thickness) // not free to warp, as plies in order of angle would
		if ratio := c.RandomMat(psi).E1 / flat; ratio < 1 || ratio > 1.15 {
			t.Errorf("random over the mean of directions: %.3f, want 1 to 1.15", ratio)
		}
		cross := proof.Must(stack(u, 1e-4, 0, 90, 90, 0).Stiffness())(t)
		w := c.Woven(psi, 0.5)
		proof.Near(t, "woven", w.E1, cross.Ex, 1e-10)
		proof.Near(t, "woven, ratio", w.Nu12, cross.Nuxy, 1e-10)
	}
	// The known quarter by which hand-laid mat falls short of the mean of directions.
	if ratio := laminate.MatByFraction(0.3).E1 / c.RandomMat(0.3).E1; ratio < 0.6 || ratio > 0.9 {
		t.Errorf("hand-laid mat over theory: %.2f", ratio)
	}
}

func TestLaminateRefuses(t *testing.T) {
	_, err := laminate.Laminate{}.Stiffness()
	proof.Fails(t, "no plies", err, "got no plies")
	bad := stack(glassEpoxy, 1e-3, 0, 90)
	bad.Plies[1].Lamina.Nu12 = 3
	_, err = bad.Stiffness()
	proof.Fails(t, "ratio", err, `ply 2, "ply": ratio Nu12`)
	bad.Plies[1].Lamina = laminate.Lamina{}
	_, err = bad.FirstPly(laminate.Load{Nx: 1}, laminate.TsaiWu)
	proof.Fails(t, "no moduli", err, "modulus E1")
	_, err = stack(glassEpoxy, 1e-3, 0).FirstPly(laminate.Load{}, laminate.TsaiWu)
	proof.Fails(t, "no load", err, "got no load")
	_, err = stack(glassEpoxy, 1e-3, 0).Stresses(laminate.Load{Mx: math.Inf(1)})
	proof.Fails(t, "load", err, "load: got +Inf")
	proof.Panics(t, "glass fraction", func() { laminate.GlassPolyester().Thickness(0.45, 1) })
}

// Allen's sandwich strip of 25 mm core: worked apart from this code.
func TestSandwich(t *testing.T) {
	s := laminate.SandwichBeam{Width: 0.3, Face: 2e-3, FaceE: 12e9, Core: 25e-3, CoreE: 30e6, CoreG: 15e6}
	proof.Near(t, "rigidity", s.Rigidity(), 2640.919, 1e-6)
	proof.Near(t, "bending", s.BendingDeflection(800, 0.6)/units.Mm, 1.363162, 1e-6)
	proof.Near(t, "shear", s.ShearDeflection(800, 0.6)/units.Mm, 0.914495, 1e-6)
	proof.Near(t, "faces balance", s.FaceStress(120)*0.3*2e-3*27e-3, 120, 1e-12)
	proof.Near(t, "core", s.CoreShear(400), 400/(0.3*0.027), 1e-12)
	proof.Near(t, "wrinkling", s.Wrinkling()/1e6, 0.5*math.Cbrt(12000*30*15), 1e-12)
}

func TestInsertsAndCure(t *testing.T) {
	r := proof.Must(laminate.Insert{Fixing: laminate.Backed, Plate: 0.05, Thickness: 0.005, Shear: 40e6}.Resistance())(t)
	proof.Near(t, "backed", r.Pull, math.Pi*0.05*0.005*40e6, 1e-12)
	for _, f := range []laminate.Fixing{laminate.BigHead, laminate.Potted} {
		if r := proof.Must(laminate.Insert{Fixing: f, Plate: 0.05, Thickness: 0.005, Shear: 40e6}.Resistance())(t); r.Covered || r.Pull != 0 || r.Why == "" {
			t.Errorf("%s: got %+v, want not covered", f, r)
		}
	}
	_, err := laminate.Insert{Fixing: "glue", Plate: 1, Thickness: 1, Shear: 1}.Resistance()
	proof.Fails(t, "fixing", err, `got "glue"`)
	proof.Near(t, "sessions", laminate.Sessions(7, 3), 3, 0)
	overnight := false
	for _, s := range laminate.HandLayUp() {
		overnight = overnight || s.Sign == "hard and cold; left overnight"
		if s.Source != "common practice, no source" {
			t.Errorf("%s: source %q", s.What, s.Source)
		}
	}
	if !overnight || laminate.CureTime(laminate.HandLayUp()) < 48*units.H {
		t.Error("the steps do not say that mats are left overnight")
	}
}

func TestDrawSection(t *testing.T) {
	c := laminate.GlassPolyester()
	mat := laminate.NewPly("mat 450", laminate.MatByFraction(0.3), 0.450, 0.3, c)
	l := laminate.Laminate{Plies: []laminate.Ply{laminate.NewCoat("gel coat", laminate.GelCoat(), 0.5e-3), mat, mat.Turned(45 * units.Deg)}}
	var s sheet.Sheet
	d := s.NewDrawing("section")
	l.Draw(d)
	top := 0.0
	areas := 0
	for _, shape := range d.Shapes {
		if shape.Kind == sheet.ShapeArea {
			areas++
			top = math.Max(top, float64(shape.Y[2]))
		}
	}
	if areas != 3 {
		t.Errorf("got %d plies, want 3", areas)
	}
	proof.Near(t, "top", top, l.Thickness(), 1e-12)
}

func TestFormulaLines(t *testing.T) {
	a := func(args ...any) [][]any { return [][]any{args} }
	c := laminate.GlassPolyester()
	s := laminate.SandwichBeam{Width: 0.3, Face: 2e-3, FaceE: 12e9, Core: 25e-3, CoreE: 30e6, CoreG: 15e6}
	proof.Formulas(t, []proof.Call{
		proof.Of("Constituents.Thickness", laminate.Constituents.Thickness, a(c, 0.45, 0.3)),
		proof.Of("Constituents.ResinMass", laminate.Constituents.ResinMass, a(c, 0.45, 0.3)),
		proof.Of("Constituents.VolumeFraction", laminate.Constituents.VolumeFraction, a(c, 0.3)),
		proof.Of("Constituents.Density", laminate.Constituents.Density, a(c, 0.3)),
		proof.Of("SandwichBeam.Rigidity", laminate.SandwichBeam.Rigidity, a(s)),
		proof.Of("SandwichBeam.ShearDeflection", laminate.SandwichBeam.ShearDeflection, a(s, 800.0, 0.6)),
		proof.Of("SandwichBeam.FaceStress", laminate.SandwichBeam.FaceStress, a(s, 120.0)),
		proof.Of("SandwichBeam.CoreShear", laminate.SandwichBeam.CoreShear, a(s, 400.0)),
		proof.Of("SandwichBeam.Wrinkling", laminate.SandwichBeam.Wrinkling, a(s)),
		proof.Of("HoleBearing", laminate.HoleBearing, a(0.008, 0.005, 1e8)),
		proof.Of("Sessions", laminate.Sessions, a(7.0, 3.0)),
	})
}

// A board of 9 mm and 600 kg/m³ between skins weighs 5.4 kg/m² and is neither glass
// nor resin; three times as thick as both skins it leaves the middle to them: the
// stiffness in bending is that of the skins at their distance, and its own.
func TestCore(t *testing.T) {
	board := laminate.NewCore("board", laminate.Isotropic(6e9, 0, 600), 0.009)
	face := laminate.NewCoat("face", laminate.Isotropic(12e9, 0, 1500), 0.0015)
	l := laminate.Laminate{Plies: []laminate.Ply{face, board, face}}
	proof.Near(t, "mass", l.Mass(), 5.4+2*2.25, 1e-12)
	proof.Near(t, "resin", l.Resin(), 2*2.25, 1e-12)
	s := proof.Must(l.Stiffness())(t)
	proof.Near(t, "D11", s.D11, 6e9*math.Pow(0.009, 3)/12+12e9*(math.Pow(0.012, 3)-math.Pow(0.009, 3))/12, 1e-12)
}
