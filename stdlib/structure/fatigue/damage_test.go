package fatigue_test

import (
	"fmt"
	"math"
	"testing"

	"tautline/stdlib/internal/proof"
	"tautline/stdlib/sheet"
	"tautline/stdlib/structure/fatigue"
	"tautline/stdlib/structure/joint"
	"tautline/stdlib/structure/section"
	"tautline/stdlib/units"

	"pgregory.net/rapid"
)

var one = fatigue.Factors{Load: 1, Strength: 1}

func category(c float64) fatigue.Detail {
	return fatigue.Detail{Name: "test", Category: c * units.MPa, Welded: true}
}

// EN 1993-1-9:2005, Figure 7.1, as a table: five digits, and infinite below the
// cut-off.
func TestCurves(t *testing.T) {
	inf := math.Inf(1)
	for _, c := range []struct{ cat, constant, cutOff, at100, at60, at40, at30 float64 }{
		{36, 26.53, 14.57, 9.3312e4, 4.3200e5, 1.4580e6, 3.4560e6},
		{50, 36.84, 20.24, 2.5000e5, 1.1574e6, 3.9062e6, 1.3963e7},
		{71, 52.31, 28.73, 7.1582e5, 3.3140e6, 1.9131e7, 8.0616e7},
		{80, 58.94, 32.38, 1.0240e6, 4.7407e6, 3.4745e7, inf},
		{90, 66.31, 36.42, 1.4580e6, 8.2450e6, 6.2611e7, inf},
		{100, 73.68, 40.47, 2.0000e6, 1.3963e7, inf, inf},
		{125, 92.10, 50.59, 3.9062e6, 4.2612e7, inf, inf},
	} {
		d := category(c.cat)
		proof.Near(t, "constant limit", d.ConstantLimit()/units.MPa, c.constant, 0.005/c.constant)
		proof.Near(t, "cut-off", d.CutOff()/units.MPa, c.cutOff, 0.005/c.cutOff)
		for s, want := range map[float64]float64{100: c.at100, 60: c.at60, 40: c.at40, 30: c.at30} {
			l := d.Life(s*units.MPa, fatigue.Variable, one)
			if math.IsInf(want, 1) {
				if !l.Unlimited {
					t.Errorf("category %g at %g MPa: got %g cycles, want no end", c.cat, s, l.Cycles)
				}
				continue
			}
			proof.Near(t, "life", l.Cycles, want, 5e-5)
		}
		// Alike cycles below the constant limit go on for ever.
		if !d.Life(0.99*d.ConstantLimit(), fatigue.Constant, one).Unlimited || d.Life(0.99*d.ConstantLimit(), fatigue.Variable, one).Unlimited {
			t.Errorf("category %g: constant and variable amplitude are not told apart", c.cat)
		}
	}
}

// EN 1993-1-9:2005, 7.1(2), shear.
func TestShearCurve(t *testing.T) {
	d := category(80)
	d.Shear = true
	proof.Near(t, "cut-off", d.CutOff()/units.MPa, 36.584, 1.4e-5) // as many digits as printed
	proof.Near(t, "life", d.Life(60*units.MPa, fatigue.Variable, one).Cycles, 8.42798e6, 1e-6)
	if !d.Life(36*units.MPa, fatigue.Constant, one).Unlimited {
		t.Error("below the cut-off: want no end")
	}
	d.Category = 100 * units.MPa
	proof.Near(t, "life", d.Life(60*units.MPa, fatigue.Constant, one).Cycles, 2.57202e7, 2e-6)
}

var blocks = []fatigue.Cycle{
	{Range: 120 * units.MPa, Count: 1e4}, {Range: 80 * units.MPa, Count: 1e5}, {Range: 50 * units.MPa, Count: 1e6},
	{Range: 40 * units.MPa, Count: 2e6}, {Range: 25 * units.MPa, Count: 1e7},
}

// Five blocks on category 71, worked apart from this code by EN 1993-1-9.
func TestMiner(t *testing.T) {
	d := category(71)
	for i, want := range []float64{414248.84, 1398089.84, 6268712.88, 19130593.5} {
		proof.Near(t, "life", d.Life(blocks[i].Range, fatigue.Variable, one).Cycles, want, 1e-8)
	}
	r := proof.Must(d.Damage(blocks, one))(t)
	proof.Near(t, "damage", r.Sum, 0.3597332, 1e-6)
	if r.Harmless != 1e7 || r.Counted != 3.11e6 || r.Worst != 50*units.MPa {
		t.Errorf("got %+v", r)
	}
	safe := fatigue.Factors{Load: 1, Strength: 1.35}
	proof.Near(t, "damage with factors", proof.Must(d.Damage(blocks, safe))(t).Sum, 1.3285017, 1e-6)
	proof.Near(t, "25 MPa with factors", d.Life(25*units.MPa, fatigue.Variable, safe).Cycles, 44736243.6, 1e-8)
	proof.Near(t, "equivalent range", fatigue.EquivalentRange(blocks, 3, 2e6)/units.MPa, 62.04653, 1e-6)
	proof.Near(t, "thick plate", fatigue.SizeFactor(0.040), 0.910282, 1e-6)
	proof.Near(t, "thin plate", fatigue.SizeFactor(0.025), 1, 0)
	proof.Near(t, "thick bolt", fatigue.BoltSizeFactor(0.036), 0.955443, 1e-6)
	proof.Near(t, "thin bolt", fatigue.BoltSizeFactor(0.030), 1, 0)
	// Not welded: the compressed part counts 0.6.
	d.Welded = false
	pushed := []fatigue.Cycle{{Range: 130 * units.MPa, Mean: 15 * units.MPa, Count: 1}}
	proof.Near(t, "not welded", proof.Must(d.Damage(pushed, one))(t).Greatest, 110*units.MPa, 1e-12)
}

// The history of ASTM E1049 in steps of 20 MPa on category 71.
func TestChain(t *testing.T) {
	var stress []float64
	for _, v := range history {
		stress = append(stress, v*20*units.MPa)
	}
	r := proof.Must(category(71).Damage(proof.Must(fatigue.Rainflow(stress))(t), one))(t)
	proof.Near(t, "damage of one block", r.Sum, 1.222650e-5, 1e-6)
	proof.Near(t, "blocks to 1", 1/r.Sum, 81789.5, 1e-6)
}

// The curve is one piece, never gets easier, and a factor on load is worth as
// much as one on strength.
func TestCurveIsOnePiece(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d := category(rapid.Float64Range(30, 160).Draw(t, "category"))
		d.Shear = rapid.Bool().Draw(t, "shear")
		g := rapid.Float64Range(1, 1.5).Draw(t, "factor")
		s := d.CutOff() * rapid.Float64Range(1.001, 6).Draw(t, "range over cut-off")
		life := func(s float64, f fatigue.Factors) float64 { return d.Life(s, fatigue.Variable, f).Cycles }
		if life(s*1.0001, one) > life(s, one) {
			t.Fatalf("at %g a greater range lasts longer", s)
		}
		if jump := life(s, one) / life(s*(1+1e-9), one); jump > 1+1e-8 {
			t.Fatalf("at %g the curve jumps by %g", s, jump)
		}
		a, b := life(s, fatigue.Factors{Load: g, Strength: 1}), life(s, fatigue.Factors{Load: 1, Strength: g})
		if math.Abs(a-b) > 1e-9*a {
			t.Fatalf("factor on load %g cycles, on strength %g", a, b)
		}
	})
}

func TestFactorsAndSeasons(t *testing.T) {
	for _, c := range []struct {
		method, consequence string
		want                float64
	}{{"damage tolerant", "low", 1}, {"damage tolerant", "high", 1.15}, {"safe life", "low", 1.15}, {"safe life", "high", 1.35}} { // EN 1993-1-9, Table 3.1
		f := proof.Must(fatigue.RecommendedFactors(c.method, c.consequence))(t)
		proof.Near(t, c.method+" "+c.consequence, f.Strength, c.want, 0)
		proof.Near(t, "load", f.Load, 1, 0)
	}
	_, err := fatigue.RecommendedFactors("hope", "high")
	proof.Fails(t, "method", err, `got "hope"`)
	_, err = fatigue.RecommendedFactors("safe life", "dire")
	proof.Fails(t, "consequence", err, `got "dire"`)
	s := fatigue.Season{EventsPerHour: 20, HoursPerDay: 8, Days: 60}
	proof.Near(t, "events", s.Events(), 9600, 0)
	proof.Near(t, "seasons", s.Life(1e-5).Seasons, 1/(1e-5*9600), 1e-14)
	if !s.Life(0).Unlimited {
		t.Error("no damage: want no end")
	}
}

func TestDetails(t *testing.T) {
	d := proof.Must(fatigue.NewDetail("8.5-3"))(t)
	proof.Near(t, "root of a fillet weld", d.Category, 36e6, 0)
	if !d.Welded || d.Shear {
		t.Errorf("root: %+v", d)
	}
	_, err := fatigue.NewDetail("8.5-99")
	proof.Fails(t, "detail", err, "8.5-3 (fillet")
	_, err = fatigue.NewDetail("7.1-1")
	proof.Fails(t, "table", err, "8.1, 8.2, 8.3")
	// Every category is one of the standard's curves, Figures 7.1 and 7.2.
	curves := map[float64]bool{160: true, 140: true, 125: true, 112: true, 100: true, 90: true, 80: true, 71: true, 63: true, 56: true, 50: true, 45: true, 40: true, 36: true}
	seen := map[string]bool{}
	for _, d := range fatigue.Details() {
		if !curves[d.Category/units.MPa] || d.Shear && d.Category != 80e6 && d.Category != 100e6 {
			t.Errorf("%s: category %g", d.Name, d.Category)
		}
		if seen[d.Source] {
			t.Errorf("%s: listed twice", d.Source)
		}
		seen[d.Source] = true
	}
}

// A post on its plate rocks both ways: range and life by hand, and the weld that
// is named.
func TestAssess(t *testing.T) {
	l := fatigue.Loads{}
	for i := range 41 {
		l.Time = append(l.Time, float64(i)*0.1)
		l.My = append(l.My, 500*math.Sin(float64(i)*math.Pi/10)) // two whole turns
		l.Fx = append(l.Fx, -2e3)
	}
	toe := proof.Must(fatigue.NewDetail("8.5-1"))(t)
	hole := proof.Must(fatigue.NewDetail("8.1-12"))(t)
	spots := []fatigue.Spot{
		{Name: "hole in the post", Detail: hole, Ax: 8e-4, Wy: 14.5e-6},
		{Name: "post on its plate", Detail: toe, Ax: 8e-4, Wy: 14.5e-6},
		{Name: "post on its plate", Detail: toe, Ax: 8e-4, Wy: -14.5e-6},
	}
	f := proof.Must(fatigue.RecommendedFactors("safe life", "high"))(t)
	a := proof.Must(fatigue.Assess(spots, l, f))(t)
	if a.Governing != "post on its plate" || len(a.Places) != 2 {
		t.Fatalf("got %+v", a)
	}
	stress := 1000 / 14.5e-6 // range of ±500 N·m
	proof.Near(t, "range", a.Places[1].Greatest, stress, 1e-9)
	proof.Near(t, "damage", a.Damage, 2*math.Pow(stress*1.35/80e6, 3)/2e6, 1e-9)
	// The hole: pushed by 2.5 MPa, its compression counts 0.6.
	peak, push := 500/14.5e-6, 2e3/8e-4
	proof.Near(t, "range at the hole", a.Places[0].Greatest, peak-push+0.6*(peak+push), 1e-9)

	_, err := fatigue.Assess(nil, l, f)
	proof.Fails(t, "no spots", err, "got no spots")
	l.Fz = []float64{1}
	_, err = fatigue.Assess(spots, l, f)
	proof.Fails(t, "lists", err, "Fz: got 1 values for 41 times")
	l.Fz = nil
	l.My[3] = math.NaN()
	_, err = fatigue.Assess(spots, l, f)
	proof.Fails(t, "not a number", err, "time 0.3 s")
	l.Time[3] = 0
	_, err = fatigue.Assess(spots, l, f)
	proof.Fails(t, "times", err, "want rising times")
}

// Two fillet welds across a plate that is pulled: root stress F/A on category 36,
// as EN 1993-1-9, 5(6) has it, within the 3.5 % that six directions cost.
func TestWeldSpots(t *testing.T) {
	g := joint.BoxWelds(0.06, 0.06, 0.004)
	spots := proof.Must(fatigue.WeldSpots(g))(t)
	if len(spots) != 4*2*7 {
		t.Fatalf("got %d spots, want 56", len(spots))
	}
	f := proof.Must(fatigue.RecommendedFactors("damage tolerant", "low"))(t)
	pull := fatigue.Loads{Time: []float64{0, 1}, Fx: []float64{0, 40e3}}
	a := proof.Must(fatigue.Assess(spots, pull, f))(t)
	stress := 40e3 / (4 * 0.06 * 0.004)
	if r := a.Places[0].Greatest / stress; r < 1 || r > 1.0353 {
		t.Errorf("root range: got %g of F/A, want 1 to 1.0353", r)
	}
	// The cycles of the worst spot do the damage that is reported.
	worst := a.Places[0]
	again := proof.Must(worst.Worst.Detail.Damage(worst.Cycles, f))(t)
	proof.Near(t, "damage of the worst spot", again.Sum, math.Max(worst.Normal, worst.Shear), 0)
	// Twisted: shear along the welds does it all.
	twist := fatigue.Loads{Time: []float64{0, 1}, Mx: []float64{0, 2e3}}
	a = proof.Must(fatigue.Assess(spots, twist, f))(t)
	if a.Places[0].Shear == 0 {
		t.Errorf("twist: got no damage by shear: %+v", a.Places[0])
	}
	// Bent about y, the welds at top and bottom govern.
	bend := fatigue.Loads{Time: []float64{0, 1}, My: []float64{0, 1e3}, Fz: []float64{0, 1e3}}
	a = proof.Must(fatigue.Assess(spots, bend, f))(t)
	if a.Governing == "" || a.Damage <= 0 {
		t.Errorf("bent: %+v", a)
	}
	g.Welds[1].FaceA, g.Welds[1].FaceB = joint.Direction{}, joint.Direction{}
	_, err := fatigue.WeldSpots(g)
	proof.Fails(t, "faces", err, `"top side": got no faces`)
}

// Round a tube the stress is F/A + M/W·cos of the angle from where the moment pulls; a
// rectangle's corners add both bendings up.
func TestSectionSpots(t *testing.T) {
	tube := section.CHS(0.0889, 0.005, section.ColdFormed)
	pull := fatigue.Loads{Time: []float64{0, 1}, Fx: []float64{0, 5e3}, My: []float64{0, 300}, Mz: []float64{0, 400}}
	spots := proof.Must(fatigue.SectionSpots("toe", category(40), tube))(t)
	most, least := math.Inf(-1), math.Inf(1)
	for _, s := range spots {
		v := proof.Must(s.Stress(pull))(t)[1]
		most, least = math.Max(most, v), math.Min(least, v)
	}
	a, w := math.Pi*(0.0889*0.0889-0.0789*0.0789)/4, math.Pi*(math.Pow(0.0889, 4)-math.Pow(0.0789, 4))/32/0.0889
	cos := math.Cos(math.Atan2(3, 4) - 30*units.Deg) // the moment of 500 N·m pulls at 36.9° from an axis, the nearest spot is at 30°
	proof.Near(t, "most", most, 5e3/a+500/w*math.Max(cos, math.Cos(math.Atan2(3, 4)-45*units.Deg)), 1e-9)
	proof.Near(t, "least", least, 5e3/a-500/w*math.Max(cos, math.Cos(math.Atan2(3, 4)-45*units.Deg)), 1e-9)

	flat := section.Flat(0.05, 0.01)
	corners := proof.Must(fatigue.SectionSpots("toe", category(40), flat))(t)
	most = 0
	for _, s := range corners {
		most = math.Max(most, proof.Must(s.Stress(pull))(t)[1])
	}
	proof.Near(t, "corner", most, 5e3/5e-4+300/(0.01*0.05*0.05/6)+400/(0.05*0.01*0.01/6), 1e-9)
	// The signs are those of a frame's forces: My above 0 stretches +z, Mz above 0 -y.
	if s := corners[0]; s.Wy <= 0 || s.Wz >= 0 {
		t.Errorf("corner at +y and +z: Wy %g and Wz %g, want above and below 0", s.Wy, s.Wz)
	}
	_, err := fatigue.SectionSpots("toe", category(40), section.Angle(0.05, 0.05, 0.005, 0.007, 0.0035))
	proof.Fails(t, "angle", err, `shape: got "angle"`)
}

// A post of 2 m with a force at its top: what comes to its foot is known by statics.
func TestLoadsThrough(t *testing.T) {
	top := fatigue.Loads{Time: []float64{0, 1, 2}, Fx: []float64{100, -50, 20}, Fz: []float64{-800, -900, -700}, My: []float64{5, 6, 7}}
	s := fatigue.Shares{
		Fx: joint.Action{Fy: 1, Mz: 2}, // the post's own x is upright, its y is along global x
		Fz: joint.Action{Fx: 1},
		My: joint.Action{Mz: -1},
	}
	foot := proof.Must(top.Through(s))(t)
	for i := range top.Time {
		proof.Near(t, "push", foot.Fx[i], top.Fz[i], 0)
		proof.Near(t, "shear", foot.Fy[i], top.Fx[i], 0)
		proof.Near(t, "moment", foot.Mz[i], 2*top.Fx[i]-top.My[i], 1e-15)
	}
	// Another point changes moments alone, and there and back is where it was.
	moved := proof.Must(top.About(0.3, -0.2, 2))(t)
	proof.Near(t, "about x", moved.Mx[0], 0-(-0.2*-800-2*0), 1e-15)
	proof.Near(t, "about y", moved.My[0], 5-(2*100-0.3*-800), 1e-15)
	proof.Near(t, "about z", moved.Mz[0], 0-(0.3*0- -0.2*100), 1e-15)
	back := proof.Must(moved.About(-0.3, 0.2, -2))(t)
	for i := range top.Time {
		proof.Near(t, "there and back", back.My[i], top.My[i], 1e-12)
	}
	before := proof.Must(top.Preceded(joint.Action{Fz: -100, Mx: 3}))(t)
	if len(before.Time) != 4 || before.Time[0] != -1 || before.Fz[0] != -100 || before.Fz[1] != -800 || before.Mx[0] != 3 || before.Mx[3] != 0 || before.Fx[0] != 0 || len(before.Fy) != 0 {
		t.Errorf("preceded: %+v", before)
	}
	_, err := fatigue.Loads{Time: []float64{0, 1}, Fx: []float64{1}}.Through(s)
	proof.Fails(t, "lists", err, "Fx: got 1 values for 2 times")
}

func TestPictures(t *testing.T) {
	var s sheet.Sheet
	d := category(71)
	life := s.NewFigure("life", "cycles", "range")
	d.DrawLife(life, blocks, 1, one)
	if len(life.Curves) != 2 || len(life.Limits) != 1 {
		t.Fatalf("got %d curves, %d limits", len(life.Curves), len(life.Limits))
	}
	// The curve passes through the category at two million cycles, by interpolation.
	c := life.Curves[0]
	for i := range c.X {
		if i > 0 && float64(c.X[i-1]) <= 2e6 && 2e6 < float64(c.X[i]) {
			if low, high := float64(c.Y[i]), float64(c.Y[i-1]); low > 71e6 || high < 71e6 {
				t.Errorf("at two million cycles: %g to %g Pa, want 71 MPa between", low, high)
			}
		}
	}
	last := life.Curves[1]
	proof.Near(t, "all cycles", float64(last.X[len(last.X)-1]), 1e4+1e5+1e6+2e6+1e7, 1e-12)
	if !life.XPowers || !life.YPowers {
		t.Error("axes of the life: want powers of ten")
	}
	for i := 0; i+1 < len(last.X)-1; i += 2 { // two corners to each bar, of the height of its range
		if last.Y[i] != last.Y[i+1] || last.X[i] >= last.X[i+1] {
			t.Errorf("bar %d: got (%g, %g) to (%g, %g)", i/2, last.X[i], last.Y[i], last.X[i+1], last.Y[i+1])
		}
	}
	bars := s.NewFigure("damage", "range", "share")
	if err := d.DrawDamage(bars, blocks, 5*units.MPa, one); err != nil {
		t.Fatal(err)
	}
	sum := 0.0
	for i := 1; i < len(bars.Curves[0].Y); i += 4 {
		sum += float64(bars.Curves[0].Y[i])
	}
	proof.Near(t, "shares", sum, 1, 1e-12)
}

func TestFormulaLines(t *testing.T) {
	a := func(args ...any) [][]any { return [][]any{args} }
	proof.Formulas(t, []proof.Call{
		proof.Of("Season.Events", fatigue.Season.Events, a(fatigue.Season{EventsPerHour: 20, HoursPerDay: 8, Days: 60})),
	})
}

// One event of a frame that rocks, and its life.
func Example() {
	toe, _ := fatigue.NewDetail("8.5-1")
	post := fatigue.Spot{Name: "post on its plate", Detail: toe, Wy: 14.5 * units.Cm3}
	loads := fatigue.Loads{Time: []units.Time{0, 1, 2, 3}, My: []units.Moment{0, 500 * units.Nm, 0, -500 * units.Nm}}
	f, _ := fatigue.RecommendedFactors("safe life", "high")
	r, err := fatigue.Assess([]fatigue.Spot{post}, loads, f)
	if err != nil {
		fmt.Println(err)
		return
	}
	year := fatigue.Season{EventsPerHour: 20, HoursPerDay: 8, Days: 60}
	fmt.Printf("%s: %.0f seasons\n", r.Governing, year.Life(r.Damage).Seasons)
	// Output: post on its plate: 132 seasons
}
