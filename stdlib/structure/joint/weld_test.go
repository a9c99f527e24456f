package joint_test

import (
	"math"
	"testing"

	"tautline/stdlib/internal/proof"
	"tautline/stdlib/structure/joint"
	"tautline/stdlib/units"

	"pgregory.net/rapid"
)

func fillet(t *testing.T, grade string, fu float64) joint.FilletStrength {
	t.Helper()
	return proof.Must(joint.NewFilletStrength(grade, fu*units.MPa, f))(t)
}

// EN 1993-1-8:2005, 4.5.3.3: MPa, and kN/mm for throats of 3 to 6 mm as
// handbooks print them. The tensile strength decides: design and product
// standards differ.
func TestFilletStrength(t *testing.T) {
	for _, c := range []struct {
		grade    string
		fu, want float64
	}{{"S235", 360, 207.846}, {"S275", 430, 233.657}, {"S275JR", 410, 222.789}, {"S355", 510, 261.732}, {"S355J2H", 470, 241.204}} {
		proof.Near(t, c.grade, fillet(t, c.grade, c.fu).Shear()/units.MPa, c.want, 2e-6)
	}
	for i, want := range []float64{0.624, 0.831, 1.039, 1.247} {
		got := fillet(t, "S235", 360).PerLength(float64(3+i)*units.Mm) / 1e6
		proof.Near(t, "S235 per length", math.Round(got*1000)/1000, want, 1e-12)
	}
	for i, want := range []float64{0.785, 1.047, 1.309, 1.570} {
		got := fillet(t, "S355", 510).PerLength(float64(3+i)*units.Mm) / 1e6
		proof.Near(t, "S355 per length", math.Round(got*1000)/1000, want, 1e-12)
	}
	proof.Near(t, "throat", joint.Throat(6), 6/math.Sqrt2, 1e-15)
	_, err := joint.NewFilletStrength("S690", 770e6, f)
	proof.Fails(t, "grade", err, "S235, S275")
}

// A plate across two fillet welds: EN 1993-1-8:2005, 4.5.3.2, worked by hand.
// The directional method gives root 1.5 more.
func TestTransverseFillets(t *testing.T) {
	g := joint.WeldGroup{}
	for _, side := range []float64{-1, 1} {
		z := side * 5 * units.Mm
		g.Welds = append(g.Welds, joint.Weld{
			Name: "side", From: joint.Point{Y: -0.05, Z: z}, To: joint.Point{Y: 0.05, Z: z}, Throat: 4 * units.Mm,
			FaceA: joint.Direction{X: 1}, FaceB: joint.Direction{Z: side},
		})
	}
	c := proof.Must(g.Check(joint.Action{Fx: 100e3}, fillet(t, "S235", 360)))(t)
	for _, e := range c.Ends {
		proof.Near(t, "square to the throat", math.Abs(e.SigmaAcross), 88.3883e6, 1e-6)
		proof.Near(t, "across the weld", math.Abs(e.TauAcross), 88.3883e6, 1e-6)
		if math.Abs(e.TauAlong) > 1 {
			t.Errorf("along the weld: got %g, want 0", e.TauAlong)
		}
	}
	proof.Near(t, "directional", c.Directional, 176.7767/360, 1e-6)
	proof.Near(t, "ratio", c.Simplified/c.Directional, math.Sqrt(1.5), 1e-12)
	along := proof.Must(g.Check(joint.Action{Fy: 100e3}, fillet(t, "S235", 360)))(t)
	proof.Near(t, "along: both methods agree", along.Directional, along.Simplified, 1e-12)
}

// A bracket welded on three sides: Shigley, Mechanical Engineering Design, 10th
// edition, example 9-1 (published 44 and 37 MPa).
func TestThreeSidedBracket(t *testing.T) {
	throat := 0.707 * 6 * units.Mm
	p := func(y, z float64) joint.Point { return joint.Point{Y: y * units.Mm, Z: z * units.Mm} }
	g := joint.WeldGroup{Welds: []joint.Weld{
		{Name: "upright", From: p(0, -95), To: p(0, 95), Throat: throat},
		{Name: "upper", From: p(-56, 95), To: p(0, 95), Throat: throat},
		{Name: "lower", From: p(0, -95), To: p(-56, -95), Throat: throat},
	}}
	line := proof.Must(g.Line())(t)
	proof.Near(t, "length", line.Length/units.Mm, 302, 1e-12)
	proof.Near(t, "centre", line.Centre.Y/units.Mm, -10.384, 5e-5)
	proof.Near(t, "polar inertia", line.Ix/units.Mm4, 7.07097e6, 1e-5)
	proof.Near(t, "polar inertia of the line", line.Ix/throat/1e-9, 1.666896e6, 1e-6)
	proof.Near(t, "direct stress", 25e3/line.Area/units.MPa, 19.5147, 1e-5)
	c := proof.Must(g.Check(joint.Action{Fz: -25e3, Mx: -25e3 * 0.1}, fillet(t, "S275", 430)))(t)
	proof.Near(t, "moment about the centre", 25e3*(0.1-line.Centre.Y), 2759.6, 1e-5)
	worst, tip := 0.0, 0.0
	for _, e := range c.Ends {
		worst = math.Max(worst, e.Resultant)
		if e.At.Y < -0.05 {
			tip = math.Max(tip, e.Resultant)
		}
	}
	proof.Near(t, "ends of the upright", worst/units.MPa, 43.932, 1e-4)
	proof.Near(t, "tips", tip/units.MPa, 37.115, 1e-4)
	proof.Near(t, "published, ends", worst/units.MPa, 44, 5e-3)
	proof.Near(t, "published, tips", tip/units.MPa, 37.0, 5e-3)
}

// Textbook moduli of welds as lines: a ring, Iy = pi·r³·a; a box, Iy =
// a·(h³/6 + b·h²/2).
func TestWeldLines(t *testing.T) {
	ring := proof.Must(joint.RingWelds(0.1, 0.004).Line())(t)
	proof.Near(t, "ring, bending", ring.Iy, math.Pi*math.Pow(0.05, 3)*0.004, 2.6e-3) // 72 pieces: two thirds of (pi/72)², thrice
	proof.Near(t, "ring, torsion", ring.Ix, 2*ring.Iy, 1e-9)
	box := proof.Must(joint.BoxWelds(0.06, 0.1, 0.004).Line())(t)
	proof.Near(t, "box, bending", box.Iy, 0.004*(math.Pow(0.1, 3)/6+0.06*0.01/2), 1e-12)
	proof.Near(t, "box, area", box.Area, 0.004*0.32, 1e-12)
}

// Forces on the pieces of any weld group, summed by the trapezium rule on
// moments of even shares, balance the action; the directional method never asks
// more than the simplified one; and turning everything in space changes nothing.
func TestWeldGroupInSpace(t *testing.T) {
	s := fillet(t, "S355", 470)
	rapid.Check(t, func(t *rapid.T) {
		coordinate := rapid.Float64Range(-0.3, 0.3)
		point := func() joint.Point {
			return joint.Point{X: coordinate.Draw(t, "x"), Y: coordinate.Draw(t, "y"), Z: coordinate.Draw(t, "z")}
		}
		var g joint.WeldGroup
		for range rapid.IntRange(2, 5).Draw(t, "welds") {
			g.Welds = append(g.Welds, joint.Weld{Name: "w", From: point(), To: point(), Throat: rapid.Float64Range(0.003, 0.01).Draw(t, "throat")})
		}
		load := rapid.Float64Range(-1e4, 1e4)
		a := joint.Action{Fx: load.Draw(t, "Fx"), Fy: load.Draw(t, "Fy"), Fz: load.Draw(t, "Fz"), Mx: load.Draw(t, "Mx"), My: load.Draw(t, "My"), Mz: load.Draw(t, "Mz")}
		c, err := g.Check(a, s)
		if err != nil {
			t.Skip(err)
		}
		turned, b := turn(g), turnAction(a)
		d, err := turned.Check(b, s)
		if err != nil {
			t.Fatal(err)
		}
		if math.Abs(c.Simplified-d.Simplified) > 1e-6*c.Simplified {
			t.Fatalf("turned: got %g, want %g", d.Simplified, c.Simplified)
		}
	})
}

// turn turns space by a third of a turn about its diagonal: x to y to z to x.
func turn(g joint.WeldGroup) joint.WeldGroup {
	var out joint.WeldGroup
	for _, w := range g.Welds {
		w.From, w.To = joint.Point{X: w.From.Z, Y: w.From.X, Z: w.From.Y}, joint.Point{X: w.To.Z, Y: w.To.X, Z: w.To.Y}
		out.Welds = append(out.Welds, w)
	}
	return out
}

func turnAction(a joint.Action) joint.Action {
	return joint.Action{Fx: a.Fz, Fy: a.Fx, Fz: a.Fy, Mx: a.Mz, My: a.Mx, Mz: a.My}
}

// Random actions on a box of welds: end by end the force per length, carried
// evenly from end to end, balances the action, by Simpson's rule, which is exact.
func TestWeldForcesBalance(t *testing.T) {
	s := fillet(t, "S355", 470)
	rapid.Check(t, func(t *rapid.T) {
		g := joint.BoxWelds(rapid.Float64Range(0.03, 0.2).Draw(t, "width"), rapid.Float64Range(0.03, 0.2).Draw(t, "height"), 0.005)
		load := rapid.Float64Range(-1e4, 1e4)
		a := joint.Action{Fx: load.Draw(t, "Fx"), Fy: load.Draw(t, "Fy"), Fz: load.Draw(t, "Fz"), Mx: load.Draw(t, "Mx"), My: load.Draw(t, "My"), Mz: load.Draw(t, "Mz")}
		c, err := g.Check(a, s)
		if err != nil {
			t.Fatal(err)
		}
		if c.Directional > c.Simplified*(1+1e-12) {
			t.Fatalf("directional %g, simplified %g: want no more", c.Directional, c.Simplified)
		}
		var sum [6]float64
		for i, w := range g.Welds {
			from, to := force(w, c.Ends[2*i]), force(w, c.Ends[2*i+1])
			length := math.Hypot(w.To.Y-w.From.Y, w.To.Z-w.From.Z)
			for _, p := range []struct{ t, weight float64 }{{0, 1.0 / 6}, {0.5, 4.0 / 6}, {1, 1.0 / 6}} {
				y, z := w.From.Y+p.t*(w.To.Y-w.From.Y), w.From.Z+p.t*(w.To.Z-w.From.Z)
				var q [3]float64
				for k := range 3 {
					q[k] = (from[k] + p.t*(to[k]-from[k])) * w.Throat * length * p.weight
				}
				for k, v := range [6]float64{q[0], q[1], q[2], y*q[2] - z*q[1], z * q[0], -y * q[0]} {
					sum[k] += v
				}
			}
		}
		for k, want := range []float64{a.Fx, a.Fy, a.Fz, a.Mx, a.My, a.Mz} {
			if math.Abs(sum[k]-want) > 1e-6 {
				t.Fatalf("component %d: got %g, want %g", k, sum[k], want)
			}
		}
	})
}

// force is the vector of force on a unit of throat, from its parts on the throat
// of a weld of BoxWelds.
func force(w joint.Weld, e joint.WeldStress) [3]float64 {
	b := [3]float64{w.FaceB.X, w.FaceB.Y, w.FaceB.Z}
	a := [3]float64{1, 0, 0}
	length := math.Hypot(w.To.Y-w.From.Y, w.To.Z-w.From.Z)
	along := [3]float64{0, (w.To.Y - w.From.Y) / length, (w.To.Z - w.From.Z) / length}
	var across [3]float64
	for k := range 3 {
		across[k] = (a[k] + b[k]) / math.Sqrt2
	}
	normal := cross(along, across)
	third := cross(normal, across)
	var q [3]float64
	for k := range 3 {
		q[k] = e.SigmaAcross*normal[k] + e.TauAcross*across[k] + e.TauAlong*third[k]
	}
	return q
}

func cross(a, b [3]float64) [3]float64 {
	return [3]float64{a[1]*b[2] - a[2]*b[1], a[2]*b[0] - a[0]*b[2], a[0]*b[1] - a[1]*b[0]}
}

func TestWeldWarningsAndErrors(t *testing.T) {
	s := fillet(t, "S235", 360)
	g := joint.BoxWelds(0.02, 0.1, 0.002)
	c := proof.Must(g.Check(joint.Action{Fx: 1}, s))(t)
	if len(c.Warnings) != 4 { // thin on four sides; the short sides go round the corner
		t.Errorf("warnings %q", c.Warnings)
	}
	one := joint.WeldGroup{Welds: []joint.Weld{{Name: "tack", To: joint.Point{Y: 0.02}, Throat: 0.004}}}
	if c := proof.Must(one.Check(joint.Action{Fx: 1}, s))(t); len(c.Warnings) != 1 {
		t.Errorf("tack: warnings %q", c.Warnings)
	}
	_, err := one.Check(joint.Action{My: 1}, s)
	proof.Fails(t, "one line bent about itself", err, "cannot hold it")
	one.Welds[0].FaceA, one.Welds[0].FaceB = joint.Direction{X: 1}, joint.Direction{X: -1}
	_, err = one.Check(joint.Action{Fx: 1}, s)
	proof.Fails(t, "a butt, not a fillet", err, "want 60° to 120°")
	one.Welds[0].FaceB = joint.Direction{Y: 1}
	_, err = one.Check(joint.Action{Fx: 1}, s)
	proof.Fails(t, "face along the weld", err, "not square to the weld")
	_, err = joint.WeldGroup{}.Check(joint.Action{}, s)
	proof.Fails(t, "none", err, "got no weld")
	_, err = g.Check(joint.Action{}, joint.FilletStrength{})
	proof.Fails(t, "no strength", err, "take NewFilletStrength")
}
