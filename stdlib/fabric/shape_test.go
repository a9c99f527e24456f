package fabric_test

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"tautline/stdlib/fabric"
	"tautline/stdlib/internal/proof"
	"tautline/stdlib/units"
)

// Roark ch. 13 and Flügge give the torus formula; the values were computed from
// it apart from this code, to seven digits.
func TestTorus(t *testing.T) {
	ring := fabric.Torus{Radius: 1.5, Tube: 0.4, Pressure: 2500}
	for _, c := range []struct{ degrees, hoop float64 }{
		{90, 894.7368}, {30, 941.1765}, {0, 1000}, {-30, 1076.9231}, {-90, 1181.8182},
	} {
		proof.Near(t, "hoop force", proof.Must(ring.Hoop(c.degrees*units.Deg))(t), c.hoop, 1e-6)
		proof.Near(t, "force along", proof.Must(ring.Along())(t), 500, 1e-6)
	}
	proof.Near(t, "inner equator", proof.Must(ring.InnerEquator())(t), 1181.8182, 1e-6)
	proof.Near(t, "outer equator", proof.Must(ring.OuterEquator())(t), 894.7368, 1e-6)
	proof.Near(t, "crown", proof.Must(ring.Crown())(t), 1000, 1e-6)
	proof.Near(t, "volume", proof.Must(ring.Volume())(t), 4.73741011, 1e-7)
	proof.Near(t, "surface", proof.Must(ring.Surface())(t), 23.68705056, 1e-7)
}

func TestTorusLimits(t *testing.T) {
	for angle := -90.0; angle <= 90; angle += 15 {
		sphere := fabric.Torus{Radius: 0, Tube: 0.4, Pressure: 2500}
		proof.Near(t, "sphere", proof.Must(sphere.Hoop(angle*units.Deg))(t), 500, 1e-12)
		straight := fabric.Torus{Radius: 1e6, Tube: 0.4, Pressure: 2500}
		proof.Near(t, "straight tube", proof.Must(straight.Hoop(angle*units.Deg))(t), 1000, 1e-6)
	}
	tight := fabric.Torus{Radius: 1.5, Tube: 1.4, Pressure: 2500}
	proof.Near(t, "tight ring", proof.Must(tight.InnerEquator())(t), 28000, 1e-9)

	for _, r := range []float64{1.5, 1.6} {
		_, err := fabric.Torus{Radius: 1.5, Tube: r, Pressure: 2500}.Hoop(0)
		proof.Fails(t, "self-touching ring", err, "touches itself")
	}
	_, err := fabric.Torus{Radius: 1.5, Tube: 0.4, Pressure: -1}.Along()
	proof.Fails(t, "negative pressure", err, "pressure: got -1, want 0 or more")
	_, err = fabric.Torus{Radius: 1.5, Tube: 0.4}.Hoop(math.Inf(1))
	proof.Fails(t, "infinite angle", err, "angle")
}

// Flügge; Timoshenko and Woinowsky-Krieger: ellipsoidal heads.
func TestEllipsoid(t *testing.T) {
	for _, c := range []struct {
		a, b                   float64
		pole, meridian, hoop   float64
		wrinkles, compressions bool
	}{
		{2, 1, 2000, 1000, -2000, true, true},
		{1, 2, 250, 500, 875, false, false},
		{1.2, 1, 720, 600, 336, false, false},
		{2, math.Sqrt2, 1414.213562373095, 1000, 0, false, false},
	} {
		e := fabric.Ellipsoid{Radius: c.a, HalfHeight: c.b, Pressure: 1000}
		pole, equator := e.At(0), e.At(90*units.Deg)
		proof.Near(t, "pole, meridian", pole.Meridian, c.pole, 1e-9)
		proof.Near(t, "pole, hoop", pole.Hoop, c.pole, 1e-9)
		proof.Near(t, "equator, meridian", equator.Meridian, c.meridian, 1e-9)
		proof.Near(t, "equator, hoop", equator.Hoop, c.hoop, 1e-6)
		if c.b != math.Sqrt2 && e.Wrinkles() != c.wrinkles {
			t.Errorf("ellipsoid %g by %g: wrinkles %v, want %v", c.a, c.b, e.Wrinkles(), c.wrinkles)
		}
		if got := len(equator.Warnings) > 0; got != c.compressions {
			t.Errorf("ellipsoid %g by %g: warnings %q", c.a, c.b, equator.Warnings)
		}
	}
}

// Roark ch. 13, cone.
func TestCone(t *testing.T) {
	c := fabric.Cone{HalfAngle: 30 * units.Deg, Pressure: 1500}
	proof.Near(t, "hoop", c.Hoop(0.8), 1385.641, 1e-6)
	proof.Near(t, "meridian", c.Meridian(0.8), 692.820, 1e-6)
	proof.Panics(t, "fabric: Cone.Hoop: half angle", func() { fabric.Cone{HalfAngle: 90 * units.Deg}.Hoop(1) })
}

// Equilibrium of a cut through the crowns of free bays: values computed apart
// from this code.
func TestMattress(t *testing.T) {
	m := fabric.Mattress{Pitch: 0.5, Height: 1, Pressure: 1500}
	for _, c := range []struct {
		what      string
		got, want float64
	}{
		{"lobe radius", m.LobeRadius(), 0.5590170},
		{"lobe angle", m.LobeAngle(), 26.565051 * units.Deg},
		{"line force", m.LineForce(), 838.5255},
		{"baffle force", m.BaffleForce(), 750},
		{"arc length", m.ArcLength(), 0.5183738},
		{"sagitta", m.Sagitta(), 0.0590170},
		{"crown height", m.CrownHeight(), 1.1180340},
		{"bay section", m.BaySection(), 0.5397798},
		{"fullness", m.Fullness(), 1.0367476},
	} {
		proof.Near(t, c.what, c.got, c.want, 1e-6)
	}
	proof.Panics(t, "fabric: Mattress.ArcLength: pitch: got -0.5, want more than 0", func() {
		fabric.Mattress{Pitch: -0.5, Height: 1}.ArcLength()
	})
}

// Equilibrium 2·p·R·sin α = p·s: a baffle's force does not depend on the radius
// of its lobes.
func TestBaffleForce(t *testing.T) {
	for _, c := range []struct{ radius, line float64 }{{0.26, 390}, {0.5, 750}, {2, 3000}} {
		l := fabric.Lobe{Chord: 0.5, Radius: c.radius, Pressure: 1500}
		proof.Near(t, "line force", proof.Must(l.LineForce())(t), c.line, 1e-9)
		proof.Near(t, "baffle force from the lobes",
			2*proof.Must(l.LineForce())(t)*math.Sin(proof.Must(l.HalfAngle())(t)), fabric.BaffleForce(1500, 0.5, 0.5), 1e-9)
	}
	proof.Near(t, "equal bays", fabric.BaffleForce(1500, 0.5, 0.5), 750, 1e-9)
	proof.Near(t, "unequal bays", fabric.BaffleForce(1500, 0.4, 0.7), 825, 1e-9)

	_, err := fabric.Lobe{Chord: 0.5, Radius: 0.24}.HalfAngle()
	proof.Fails(t, "short radius", err, "does not reach both edges")
}

// Equilibrium of tributary areas and of the edge of a web between two lobes.
func TestTuftsAndDoubleLobe(t *testing.T) {
	tufts := fabric.Tufts{Along: 0.6, Across: 0.5, Pressure: 1500}
	proof.Near(t, "tie", tufts.TieForce(), 450, 1e-12)
	proof.Near(t, "tie of the last row", tufts.EdgeTieForce(0.5), 450, 1e-12)
	proof.Near(t, "tie of the last row, edge at the row", tufts.EdgeTieForce(0), 225, 1e-12)
	proof.Panics(t, "fabric: Tufts.EdgeTieForce: distance to the edge: got -0.1", func() { tufts.EdgeTieForce(-0.1) })

	d := fabric.DoubleLobe{Large: 0.6, Small: 0.4, Web: 0.6, Pressure: 2000}
	proof.Near(t, "centre distance", proof.Must(d.CentreDistance())(t), 0.7841904, 1e-6)
	proof.Near(t, "large lobe", proof.Must(d.LargeForce())(t), 1200, 1e-6)
	proof.Near(t, "small lobe", proof.Must(d.SmallForce())(t), 800, 1e-6)
	proof.Near(t, "web", proof.Must(d.WebForce())(t), 1568.3807, 1e-6)
	d.Shallow = true
	proof.Near(t, "web with a shallow lobe", proof.Must(d.WebForce())(t), 510.080, 1e-6)

	_, err := fabric.DoubleLobe{Large: 0.6, Small: 0.29, Web: 0.6, Pressure: 2000}.WebForce()
	proof.Fails(t, "small lobe", err, "does not reach both edges")
	_, err = fabric.DoubleLobe{Large: 0.4, Small: 0.6, Web: 0.6, Pressure: 2000}.WebForce()
	proof.Fails(t, "swapped lobes", err, "give the larger lobe as Large")
}

// Equilibrium of an open dome: the pressure on the ground area.
func TestOpenDome(t *testing.T) {
	d := fabric.OpenDome{Radius: 3, Pressure: 300}
	proof.Near(t, "rim force", d.RimForce(), 450, 1e-6)
	proof.Near(t, "uplift", d.Uplift(), 8482.300, 1e-6)
	proof.Near(t, "rim force all round", d.RimForce()*2*math.Pi*3, d.Uplift(), 1e-12)
	// With a floor, the pressure on it cancels the uplift to nothing.
	if net := d.Uplift() - d.Pressure*math.Pi*d.Radius*d.Radius; math.Abs(net) > 1e-9*d.Uplift() {
		t.Errorf("closed dome is lifted by %g N, want 0", net)
	}
}

// On every shape the line forces over the radii of curvature add up to the
// pressure (Laplace).
func TestLineForcesCarryThePressure(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := rapid.Float64Range(100, 20e3).Draw(t, "pressure")
		r := rapid.Float64Range(0.05, 5).Draw(t, "radius")
		angle := rapid.Float64Range(-math.Pi/2, math.Pi/2).Draw(t, "angle")
		carried := func(shape string, n1, r1, n2, r2 float64) {
			if got := n1/r1 + n2/r2; math.Abs(got-p) > 1e-9*p {
				t.Errorf("%s: N1/R1 + N2/R2 = %.12g, want the pressure %.12g", shape, got, p)
			}
		}

		ring := fabric.Torus{Radius: r * rapid.Float64Range(1.05, 20).Draw(t, "R/r"), Tube: r, Pressure: p}
		hoop, err := ring.Hoop(angle)
		along, err2 := ring.Along()
		if err != nil || err2 != nil {
			t.Fatal(err, err2)
		}
		n2 := along * math.Sin(angle) / (ring.Radius + r*math.Sin(angle))
		carried("torus", hoop, r, n2, 1)

		e := fabric.Ellipsoid{Radius: r, HalfHeight: r * rapid.Float64Range(0.2, 5).Draw(t, "b/a"), Pressure: p}
		s := e.At(angle)
		carried("ellipsoid", s.Meridian, s.MeridianRadius, s.Hoop, s.HoopRadius)

		c := fabric.Cone{HalfAngle: math.Abs(angle) * 0.95, Pressure: p}
		carried("cone", c.Hoop(r), r/math.Cos(c.HalfAngle), c.Meridian(r), math.Inf(1))

		n := fabric.Sphere{Radius: r, Pressure: p}.Tension()
		carried("sphere", n, r, n, r)
		tube := fabric.Tube{Radius: r, Pressure: p}
		carried("tube", tube.Hoop(), r, tube.Along(), math.Inf(1))

		m := fabric.Mattress{Pitch: r, Height: 2 * r, Pressure: p}
		carried("mattress", m.LineForce(), m.LobeRadius(), 0, 1)
		if got, want := 2*m.LineForce(), p*m.CrownHeight(); math.Abs(got-want) > 1e-9*want {
			t.Errorf("mattress: crowns pull with %.12g, want %.12g", got, want)
		}
		l := fabric.Lobe{Chord: r, Radius: r, Pressure: p}
		line, err := l.LineForce()
		if err != nil {
			t.Fatal(err)
		}
		carried("lobe", line, l.Radius, 0, 1)
		arch, err := fabric.ClampedStrip{Width: r, Stiffness: 50 * p * r, Pressure: p}.Blown()
		if err != nil {
			t.Fatal(err)
		}
		carried("clamped strip", arch.LineForce, arch.Radius, 0, 1)
	})
}
