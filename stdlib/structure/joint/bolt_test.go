package joint_test

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"tautline/stdlib/internal/proof"
	"tautline/stdlib/structure/joint"
	"tautline/stdlib/units"

	"pgregory.net/rapid"
)

var f = joint.RecommendedFactors()

func bolt(t *testing.T, size, grade string) joint.Bolt {
	t.Helper()
	return proof.Must(joint.NewBolt(size, grade))(t)
}

// EN 1993-1-8:2005, Table 3.4, with M2 = 1.25, as in the capacity tables of
// steel handbooks: kN to a hundredth.
func TestBoltTable(t *testing.T) {
	type row struct {
		size, grade            string
		thread, shank, tension float64
	}
	for _, r := range []row{
		{"M12", "4.6", 16.19, 0, 24.28}, {"M16", "4.6", 30.14, 0, 45.22}, {"M20", "4.6", 47.04, 0, 70.56}, {"M24", "4.6", 67.78, 0, 101.66},
		{"M12", "8.8", 32.37, 43.43, 48.56}, {"M16", "8.8", 60.29, 77.21, 90.43}, {"M20", "8.8", 94.08, 120.64, 141.12}, {"M24", "8.8", 135.55, 173.72, 203.33},
		{"M12", "10.9", 33.72, 54.29, 60.70}, {"M16", "10.9", 62.80, 96.51, 113.04}, {"M20", "10.9", 98.00, 150.80, 176.40}, {"M24", "10.9", 141.20, 217.15, 254.16},
	} {
		b := bolt(t, r.size, r.grade)
		near := func(what string, got, want float64) {
			if want != 0 && math.Abs(got/units.KN-want) > 0.0051 {
				t.Errorf("%s %s: got %.4f kN, want %.2f kN", b.Name, what, got/units.KN, want)
			}
		}
		near("shear through the thread", b.ThreadShear(f), r.thread)
		near("shear through the shank", b.ShankShear(f), r.shank)
		near("tension", b.Tension(f), r.tension)
	}
	sunk := bolt(t, "M16", "8.8")
	full := sunk.Tension(f)
	sunk.Countersunk = true
	proof.Near(t, "countersunk head", sunk.Tension(f)/full, 0.63/0.9, 1e-12) // Table 3.4, k2
}

// ISO 898-1: the stress area is that of the mean of pitch and root diameter,
// pi/4·(d - 0.9382·P)², rounded to three figures.
func TestStressAreas(t *testing.T) {
	pitches := map[string]float64{"M6": 1, "M8": 1.25, "M10": 1.5, "M12": 1.75, "M14": 2, "M16": 2, "M18": 2.5, "M20": 2.5, "M22": 2.5, "M24": 3, "M27": 3, "M30": 3.5, "M36": 4}
	for size, p := range pitches {
		b := bolt(t, size, "8.8")
		d := b.Diameter / units.Mm
		proof.Near(t, size, b.Stressed/units.Mm2, math.Pi/4*math.Pow(d-0.9382*p, 2), 5e-3) // half a unit in three figures
		if s := fmt.Sprintf("M%g", d); s != size {
			t.Errorf("%s: diameter %s", size, s)
		}
	}
	_, err := joint.NewBolt("M13", "8.8")
	proof.Fails(t, "size", err, "M12, M14")
	_, err = joint.NewBolt("M12", "12.9")
	proof.Fails(t, "grade", err, "8.8, 10.9")
}

// Shear and tension together, and preload: EN 1993-1-8, Table 3.4 and 3.6.1,
// worked apart from this code.
func TestBoltUse(t *testing.T) {
	m16 := bolt(t, "M16", "8.8")
	proof.Near(t, "shear and tension", joint.ShearAndTension(30e3, m16.ThreadShear(f), 50e3, m16.Tension(f)), 0.892541, 1e-6)
	proof.Near(t, "tension alone governs", joint.ShearAndTension(0, 1, 3, 4), 0.75, 1e-15)
	proof.Near(t, "preload M16", m16.Preload(), 87920, 1e-9)
	proof.Near(t, "preload M20", bolt(t, "M20", "10.9").Preload(), 171500, 1e-9)
	proof.Near(t, "slip", joint.SlipResistance(1, 1, 0.5, m16.Preload(), 0, f.M3), 35168, 1e-9)
	proof.Near(t, "torque", joint.TighteningTorque(0.2, m16.Diameter, m16.Preload()), 281.344, 1e-9)
	// 3.9.2: at full decompression nothing is left.
	proof.Near(t, "decompressed", joint.SlipResistance(1, 2, 0.5, 80e3, 100e3, f.M3), 0, 1e-9)
	// Published punching: M20 head of dm = 30.8 mm on S275 (fu 410), 10 mm: 0.6·pi·dm·t·fu/1.25.
	m20 := bolt(t, "M20", "8.8")
	m20.Head = 30.8 * units.Mm
	proof.Near(t, "punching", m20.PunchingShear(10*units.Mm, 410*units.MPa, f), 0.6*math.Pi*30.8*10*410/1.25, 1e-12)
	proof.Near(t, "block tearing", joint.BlockTearing(430e6, 275e6, 300e-6, 800e-6, f), 103200+127017.06, 1e-7)
}

// EN 1993-1-8:2005, Table 3.4, bearing.
func TestBearing(t *testing.T) {
	const mm, mpa = units.Mm, units.MPa
	for _, c := range []struct {
		what        string
		size, grade string
		ply         joint.Ply
		alpha, k1   float64
		want        float64
	}{
		{"end bolt", "M16", "8.8", joint.Ply{Hole: 18 * mm, Thickness: 8 * mm, Fu: 430 * mpa, End: 30 * mm, Edge: 25 * mm}, 0.555556, 2.188889, 53545.1},
		{"inner bolt", "M16", "8.8", joint.Ply{Hole: 18 * mm, Thickness: 8 * mm, Fu: 430 * mpa, Pitch: 50 * mm, Edge: 25 * mm}, 0.675926, 2.188889, 65146.5},
		{"all caps", "M16", "8.8", joint.Ply{Hole: 18 * mm, Thickness: 8 * mm, Fu: 360 * mpa, End: 60 * mm, Pitch: 70 * mm, Edge: 40 * mm}, 1, 2.5, 92160},
		{"soft bolt, end", "M20", "4.6", joint.Ply{Hole: 22 * mm, Thickness: 10 * mm, Fu: 430 * mpa, End: 40 * mm, Edge: 30 * mm}, 0.606061, 2.118182, 88321.8},
		{"soft bolt, inner", "M20", "4.6", joint.Ply{Hole: 22 * mm, Thickness: 10 * mm, Fu: 430 * mpa, Pitch: 60 * mm, Edge: 30 * mm}, 0.659091, 2.118182, 96049.9},
	} {
		b := proof.Must(bolt(t, c.size, c.grade).Bearing(c.ply, f))(t)
		proof.Near(t, c.what+", alphaB", b.AlphaB, c.alpha, 1e-6)
		proof.Near(t, c.what+", k1", b.K1, c.k1, 1e-6)
		proof.Near(t, c.what, b.Resistance, c.want, 1e-5)
		if len(b.Warnings) > 0 {
			t.Errorf("%s: warnings %q", c.what, b.Warnings)
		}
	}
	m16 := bolt(t, "M16", "8.8")
	ply := joint.Ply{Hole: 18 * mm, Thickness: 8 * mm, Fu: 360 * mpa, End: 60 * mm, Edge: 40 * mm, Single: true}
	proof.Near(t, "single lap", proof.Must(m16.Bearing(ply, f))(t).Resistance, 1.5*360*16*8/1.25, 1e-12) // 3.6.1(10)
	ply.Single, ply.Oversize = false, true
	proof.Near(t, "oversize hole", proof.Must(m16.Bearing(ply, f))(t).Resistance, 0.8*92160, 1e-12)
	ply.Slotted = true
	proof.Near(t, "slot", proof.Must(m16.Bearing(ply, f))(t).Resistance, 0.6*92160, 1e-12)
	ply.End = 20 * mm
	if w := proof.Must(m16.Bearing(ply, f))(t).Warnings; len(w) != 1 || !strings.Contains(w[0], "end distance e1 is 20 mm, less than the least 21.6 mm") {
		t.Errorf("short end: warnings %q", w)
	}
	ply.Edge = 10 * mm
	_, err := m16.Bearing(ply, f)
	proof.Fails(t, "no edge left", err, "nothing is left to bear on")
	_, err = m16.Bearing(joint.Ply{Hole: 18 * mm, Thickness: 8 * mm, Fu: 360 * mpa, Edge: 40 * mm}, f)
	proof.Fails(t, "no end", err, "want at least one")
	_, err = m16.Bearing(joint.Ply{Hole: 15 * mm, Thickness: 8 * mm, Fu: 360 * mpa, End: 40 * mm, Edge: 40 * mm}, f)
	proof.Fails(t, "hole", err, "want larger than the bolt")
}

// A bracket with four bolts, worked apart from this code: elastic bolt group,
// polar inertia 24 400 mm².
func TestBoltGroupInPlane(t *testing.T) {
	g := joint.BoltGroup{Y: []units.Length{0.05, 0.05, -0.05, -0.05}, Z: []units.Length{0.06, -0.06, 0.06, -0.06}}
	a := joint.Action{Fz: -20e3, Mx: -20e3 * 0.2} // down, at 200 mm to the right
	forces := proof.Must(g.Forces(a))(t)
	worst := proof.Must(g.Worst(a, 60e3, 90e3))(t)
	if worst.Bolt != 1 && worst.Bolt != 2 {
		t.Errorf("worst bolt: got %g, want one on the right", worst.Bolt)
	}
	right := forces[0]
	proof.Near(t, "across", math.Abs(right.ShearY), 9836.07, 1e-6)
	proof.Near(t, "down", -right.ShearZ, 13196.72, 1e-6)
	proof.Near(t, "resultant", worst.Shear, 16459.09, 1e-6)
}

// Whatever the group and the action, the bolts' forces balance the action, and
// an action along another axis changes nothing else.
func TestBoltGroupBalances(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(3, 8).Draw(t, "bolts")
		coordinate := rapid.Float64Range(-0.5, 0.5)
		var g joint.BoltGroup
		for range n {
			g.Y = append(g.Y, coordinate.Draw(t, "y"))
			g.Z = append(g.Z, coordinate.Draw(t, "z"))
		}
		g.Y, g.Z = append(g.Y, 0, 0.3), append(g.Z, 0.3, 0) // never all on one line for long
		load := rapid.Float64Range(-1e4, 1e4)
		a := joint.Action{Fx: load.Draw(t, "Fx"), Fy: load.Draw(t, "Fy"), Fz: load.Draw(t, "Fz"), Mx: load.Draw(t, "Mx"), My: load.Draw(t, "My"), Mz: load.Draw(t, "Mz")}
		forces, err := g.Forces(a)
		if err != nil {
			t.Skip(err)
		}
		var s joint.Action
		for i, b := range forces {
			y, z := g.Y[i], g.Z[i]
			s.Fx += b.Tension
			s.Fy += b.ShearY
			s.Fz += b.ShearZ
			s.Mx += y*b.ShearZ - z*b.ShearY
			s.My += z * b.Tension
			s.Mz -= y * b.Tension
		}
		for _, d := range []float64{s.Fx - a.Fx, s.Fy - a.Fy, s.Fz - a.Fz, s.Mx - a.Mx, s.My - a.My, s.Mz - a.Mz} {
			if math.Abs(d) > 1e-6 { // ten digits of the greatest load
				t.Fatalf("forces %+v do not balance %+v: %+v", forces, a, s)
			}
		}
	})
}

func TestBoltGroupRefuses(t *testing.T) {
	row := joint.BoltGroup{Y: []units.Length{-0.1, 0, 0.1}, Z: []units.Length{0, 0, 0}}
	_, err := row.Forces(joint.Action{My: 100})
	proof.Fails(t, "row bent about itself", err, "cannot hold it")
	if _, err := row.Forces(joint.Action{Mz: 100, Mx: 50, Fx: 10}); err != nil {
		t.Errorf("row bent the other way: %v", err)
	}
	_, err = joint.BoltGroup{Y: []units.Length{0}}.Forces(joint.Action{})
	proof.Fails(t, "lists", err, "equally many")
	_, err = row.Forces(joint.Action{Fx: math.NaN()})
	proof.Fails(t, "not a number", err, "force Fx")
}

// EN 1993-1-8, Table 6.2: bolts 2 × M16 8.8, plate 12 mm of fy 275 MPa, m 35,
// e 40, worked by hand.
func TestTStub(t *testing.T) {
	const mm = units.Mm
	s := joint.TStub{Bolt: bolt(t, "M16", "8.8"), Bolts: 2, Thickness: 12 * mm, Fy: 275e6, Reach: 35 * mm, Edge: 40 * mm}
	s.Length = joint.RowLength(s.Reach, s.Edge) // min(219.911, 190)
	proof.Near(t, "length", s.Length, 0.190, 1e-12)
	r := proof.Must(s.Resistance(f))(t)
	mpl := 190 * 144 * 275.0 / 4 / 1e3 // N·m
	proof.Near(t, "mode 1", r.Plate, 4*mpl/0.035, 1e-12)
	proof.Near(t, "mode 2", r.Mixed, (2*mpl+0.040*180864)/0.075, 1e-12)
	proof.Near(t, "mode 3", r.Bolts, 2*90432, 1e-12)
	if r.Mode != 2 {
		t.Errorf("mode: got %g, want 2", r.Mode)
	}
	proof.Near(t, "prying", r.Resistance+r.Prying, r.Bolts, 1e-12)
	s.Thickness = 6 * mm
	thin := proof.Must(s.Resistance(f))(t)
	if thin.Mode != 1 {
		t.Errorf("thin plate: mode %g, want 1", thin.Mode)
	}
	// Each half of the flange in balance: its bolt line yields too.
	proof.Near(t, "prying of a thin plate", thin.Prying/2*0.040, mpl/4, 1e-12)
	s.Thickness = 40 * mm
	if thick := proof.Must(s.Resistance(f))(t); thick.Mode != 3 || thick.Prying != 0 {
		t.Errorf("thick plate: mode %g, prying %g, want 3 and none", thick.Mode, thick.Prying)
	}
	s.Fy = 0
	_, err := s.Resistance(f)
	proof.Fails(t, "no strength", err, "yield strength fy")
}
