package joint_test

import (
	"math"
	"testing"

	"tautline/stdlib/internal/proof"
	"tautline/stdlib/structure/joint"
	"tautline/stdlib/units"

	"pgregory.net/rapid"
)

// EN 1993-1-8:2005, 3.13: a pivot pin of 24 mm, grade 8.8, in S355, worked apart
// from this code.
func TestPin(t *testing.T) {
	p := joint.PinJoint{Diameter: 0.024, PinFy: 640e6, PinFu: 800e6, PlateFy: 355e6, Middle: 0.020, Outer: 0.010, Gap: 0.002, Hole: 0.024}
	r := proof.Must(p.Carry(60e3, f))(t)
	proof.Near(t, "moment", r.Moment, 360, 1e-12)
	proof.Near(t, "moment that it may carry", r.MomentMax, 1302.881, 1e-6)
	proof.Near(t, "bending", r.Moment/r.MomentMax, 0.27631, 1e-5)
	proof.Near(t, "shear that it may carry", r.ShearMax, 173717.5, 1e-6)
	proof.Near(t, "shear", r.Shear/r.ShearMax, 0.172694, 1e-5)
	proof.Near(t, "both", r.Combined, 0.106171, 1e-5)
	proof.Near(t, "middle plate", r.MiddleBearing, 255600, 1e-12)
	proof.Near(t, "outer plate", r.OuterBearing, 127800, 1e-12)
	proof.Near(t, "middle plate in service", r.MiddleService, 102240, 1e-12)
	proof.Near(t, "moment in service", r.MomentService, 694.870, 1e-6)
	if r.Contact != 0 {
		t.Errorf("contact of a fitted pin: got %g, want 0", r.Contact)
	}
	proof.Near(t, "eye ahead", joint.EyeAhead(60e3, 0.020, 355e6, 0.025, f)/units.Mm, 20.8920, 1e-5)
	proof.Near(t, "eye beside", joint.EyeBeside(60e3, 0.020, 355e6, 0.025, f)/units.Mm, 12.5587, 1e-5)
	// The standard's 0.591 is Hertz' contact of a pin in a hole: sqrt(p'·E/(2·pi·(1-nu²))·(1/r-1/R)·...).
	p.Hole = 0.0245
	hertz := math.Sqrt(60e3 / 0.020 * 210e9 / (2 * math.Pi * (1 - 0.3*0.3)) * (2/0.024 - 2/0.0245))
	proof.Near(t, "contact", proof.Must(p.Carry(60e3, f))(t).Contact, hertz, 0.011) // the standard has d² for d·d0
	p.Hole = 0.02
	_, err := p.Carry(1, f)
	proof.Fails(t, "hole", err, "want the pin's diameter or a little more")
}

// A footing of 0.6 by 0.8 m under 6 kN: textbook kern formulas.
func TestFooting(t *testing.T) {
	g := joint.Footing{Y: 0.6, Z: 0.8}
	for _, c := range []struct{ e, high, low, share float64 }{{0, 12500, 12500, 1}, {0.1, 21875, 3125, 1}, {0.8 / 6, 25000, 0, 1}} {
		r := proof.Must(g.Press(6e3, 0, c.e))(t)
		proof.Near(t, "highest", r.Highest, c.high, 1e-9)
		if math.Abs(r.Lowest-c.low) > 1e-5 {
			t.Errorf("lowest: got %g, want %g", r.Lowest, c.low)
		}
		proof.Near(t, "in contact", r.Share, c.share, 1e-6)
	}
	// Beyond the kern: a triangle of 3·(L/2 - e), twice the mean at its edge.
	r := proof.Must(g.Press(6e3, 0, 0.25))(t)
	proof.Near(t, "triangle", r.Share, 3*0.15/0.8, 1e-9)
	proof.Near(t, "its edge", r.Highest, 2*6e3/(0.6*0.45), 1e-9)
	if len(r.Warnings) != 1 {
		t.Errorf("lifted footing: warnings %q", r.Warnings)
	}
	// On the diagonal, far out: a triangle in the corner, its resultant at a
	// quarter of the legs from them, its volume a third of height times area.
	r = proof.Must(joint.Footing{Y: 1, Z: 1}.Press(1, 0.4, 0.4))(t)
	proof.Near(t, "corner, share", r.Share, 0.4*0.4/2, 1e-7)
	proof.Near(t, "corner, highest", r.Highest, 3/(0.4*0.4/2), 1e-7)
	_, err := g.Press(1, 0.3, 0)
	proof.Fails(t, "tips", err, "it tips")
}

// Farther out means more pressure on less area, and a quarter turn changes
// nothing, wherever the load stands.
func TestFootingAnywhere(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		u, v := rapid.Float64Range(-0.45, 0.45).Draw(t, "u"), rapid.Float64Range(-0.45, 0.45).Draw(t, "v")
		c, err := joint.Footing{Y: 1, Z: 1}.Press(1, u, v)
		if err != nil {
			t.Fatal(err)
		}
		d, err := joint.Footing{Y: 1, Z: 1}.Press(1, u*1.02, v*1.02)
		if err != nil {
			t.Fatal(err)
		}
		if d.Highest < c.Highest*(1-1e-9) || d.Share > c.Share*(1+1e-9) {
			t.Fatalf("farther out: %+v after %+v, want more pressure on less area", d, c)
		}
		mirrored, err := joint.Footing{Y: 1, Z: 1}.Press(1, -v, u)
		if err != nil {
			t.Fatal(err)
		}
		if math.Abs(mirrored.Highest-c.Highest) > 1e-7*c.Highest {
			t.Fatalf("a quarter turn: got %g, want %g", mirrored.Highest, c.Highest)
		}
	})
}

func TestBasePlate(t *testing.T) {
	b := joint.BasePlate{Y: 0.3, Z: 0.3, Thickness: 0.012, Fy: 235e6, PostY: 0.1, PostZ: 0.1}
	// 9 kN and 270 N·m are 30 mm off the middle: 100 kPa·(1 ± 6·30/300).
	r := proof.Must(b.Stand(joint.Action{Fx: -9e3, My: 270, Fy: 300, Fz: 400}))(t)
	proof.Near(t, "contact", r.Contact, 160e3, 1e-9)
	proof.Near(t, "bending", r.Bending, 3*160e3*0.01/0.000144, 1e-9)
	proof.Near(t, "sliding", r.Sliding, 500, 1e-12)
	proof.Near(t, "the other way", proof.Must(b.Stand(joint.Action{Fx: -9e3, Mz: -270}))(t).Contact, 160e3, 1e-9)
	_, err := b.Stand(joint.Action{Fx: 10})
	proof.Fails(t, "lifted", err, "the post lifts its plate")
	_, err = b.Stand(joint.Action{Fx: -1e3, My: 200})
	proof.Fails(t, "tipped", err, "it tips")
	b.Thickness = 0.002
	if w := proof.Must(b.Stand(joint.Action{Fx: -90e3}))(t).Warnings; len(w) != 1 {
		t.Errorf("thin plate: warnings %q", w)
	}
	// EN 1993-1-8, equation 6.5: the strip of that width yields under the bearing strength.
	c := joint.BearingWidth(0.02, 235e6, 8e6, f)
	proof.Near(t, "bearing width", 8e6*c*c/2, 235e6*0.02*0.02/6, 1e-12)
}

// Every answer of a held-down plate is in balance, and without need of the bolts
// it is that of the strip alone.
func TestHoldDown(t *testing.T) {
	h := joint.HoldDown{Width: 0.3, Length: 0.4, Arm: 0.15, Bearing: 8e6}
	easy := proof.Must(h.Carry(24e3, 1e3))(t)
	if easy.Tension != 0 {
		t.Errorf("no need of bolts: got %g N", easy.Tension)
	}
	proof.Near(t, "strip", easy.Depth, 24e3/(8e6*0.3), 1e-12)
	rapid.Check(t, func(t *rapid.T) {
		push, moment := rapid.Float64Range(-2e4, 5e4).Draw(t, "push"), rapid.Float64Range(4e3, 4e4).Draw(t, "moment")
		r, err := h.Carry(push, moment)
		if err != nil {
			t.Fatal(err)
		}
		if math.Abs(r.Press-r.Tension-push) > 1e-6 {
			t.Fatalf("%+v: forces do not balance %g", r, push)
		}
		if r.Tension < 0 {
			t.Fatalf("%+v: bolts push", r)
		}
		if m := r.Tension*h.Arm + r.Press*(h.Length/2-r.Depth/2); r.Tension > 0 && math.Abs(m-moment) > 1e-6 {
			t.Fatalf("%+v: moment %g, want %g", r, m, moment)
		}
	})
	_, err := h.Carry(0, 1e6)
	proof.Fails(t, "crushed", err, "the block is crushed")
	_, err = h.Carry(-50e3, 100)
	proof.Fails(t, "lifted", err, "put a row on each side")
}
