package shaft_test

import (
	"math"
	"testing"

	"tautline/stdlib/internal/proof"
	"tautline/stdlib/structure/shaft"
	"tautline/stdlib/units"
)

// Mechanics of materials, worked apart from this code.
func TestStatic(t *testing.T) {
	r := shaft.Round{Diameter: 0.040}
	sigma, tau := r.BendingStress(400), r.TorsionStress(300)
	proof.Near(t, "bending", sigma, 63.66198e6, 1e-7)
	proof.Near(t, "torsion", tau, 23.87324e6, 1e-6)
	proof.Near(t, "von Mises", shaft.VonMises(sigma, tau), 75.91207e6, 1e-7)
	proof.Near(t, "Tresca", shaft.Tresca(sigma, tau), 79.57747e6, 1e-7)
	proof.Near(t, "equivalent moment", shaft.EquivalentMoment(400, 300), 476.9696, 1e-7)
	proof.Near(t, "diameter", shaft.DiameterFor(400, 300, 100e6), 36.48914e-3, 1e-6)
	proof.Near(t, "twist", r.Twist(300, 1, 80769.23e6)/units.Deg, 0.846756, 1e-6)
	proof.Near(t, "hollow", shaft.Round{Diameter: 0.060, Bore: 0.050}.TorsionStress(300), 13.66218e6, 1e-6)
	// The shaft of that diameter is stressed as allowed.
	d := shaft.Round{Diameter: shaft.DiameterFor(400, 300, 100e6)}
	proof.Near(t, "round trip", shaft.VonMises(d.BendingStress(400), d.TorsionStress(300)), 100e6, 1e-12)
	proof.Panics(t, "want 0 or more and less than the diameter", func() { shaft.Round{Diameter: 0.02, Bore: 0.02}.Modulus() })
}

// Keys and keyways, worked apart from this code.
func TestKey(t *testing.T) {
	proof.Near(t, "force", shaft.KeyForce(300, 0.040), 15e3, 1e-12)
	proof.Near(t, "shear", shaft.KeyShear(300, 0.040, 0.012, 0.040), 31.25e6, 1e-12)
	proof.Near(t, "bearing", shaft.KeyBearing(300, 0.040, 0.008, 0.040), 93.75e6, 1e-12)
	proof.Near(t, "keyway", shaft.KeywayFactor(0.040, 0.012, 0.005), 0.8025, 1e-12)
}

// Shigley, Mechanical Engineering Design, 10th edition, example 7-1: published
// safeties 1.62, 1.87, 1.88, 1.56 and 4.48, from factors rounded on the way.
func TestFatigueSafety(t *testing.T) {
	const ksi, in = units.Ksi, units.In
	ka := proof.Must(shaft.SurfaceFactor("machined", 105*ksi))(t)
	kb := shaft.DiameterFactor(1.1 * in)
	ke := proof.Must(shaft.ReliabilityFactor(0.99))(t)
	proof.Near(t, "surface", ka, 0.7866, 2e-3) // the metric constants differ in the third digit
	proof.Near(t, "size", kb, 0.8702, 5e-4)
	se := ka * kb * ke * shaft.EnduranceLimit(105*ksi)
	proof.Near(t, "endurance", se/ksi, 29.25, 2e-3)
	kf, kfs := shaft.NotchFactor(1.68, 0.85), shaft.NotchFactor(1.42, 0.92)
	proof.Near(t, "Kf", kf, 1.578, 1e-9)
	proof.Near(t, "Kfs", kfs, 1.3864, 1e-9)
	s := shaft.Fatigue{
		Section: shaft.Round{Diameter: 1.1 * in}, Bending: 1260 * units.LbfIn, MeanTorque: 1100 * units.LbfIn,
		Kf: kf, Kfs: kfs, Endurance: 29.25 * ksi, Tensile: 105 * ksi, Yield: 82 * ksi,
	}
	r := proof.Must(s.Safety())(t)
	for _, c := range []struct {
		what                   string
		got, worked, published float64
	}{
		{"Goodman", r.Goodman, 1.622, 1.62}, {"Gerber", r.Gerber, 1.861, 1.87}, {"elliptic", r.Elliptic, 1.871, 1.88},
		{"Soderberg", r.Soderberg, 1.554, 1.56}, {"yield", r.Yield, 4.489, 4.48},
	} {
		proof.Near(t, c.what+", worked", c.got, c.worked, 5e-4)
		proof.Near(t, c.what+", published", c.got, c.published, 6e-3)
	}
	// The charts of the example: kt 1.68, kts 1.42 at D/d 1.5, r/d 0.1, and q 0.85.
	proof.Near(t, "shoulder in bending", shaft.ShoulderBending(1.65*in, 1.1*in, 0.11*in), 1.68, 0.02)
	proof.Near(t, "shoulder in torsion", shaft.ShoulderTorsion(1.65*in, 1.1*in, 0.11*in), 1.42, 0.04)
	proof.Near(t, "sensitivity", shaft.NotchSensitivity(105*ksi, 0.11*in), 0.85, 0.01)

	// Steady load alone, and alternating alone, by hand.
	steady := shaft.Fatigue{Section: shaft.Round{Diameter: 0.04}, MeanTorque: 300, Kf: 1, Kfs: 1, Endurance: 2e8, Tensile: 6e8, Yield: 4e8}
	q := proof.Must(steady.Safety())(t)
	proof.Near(t, "steady", q.Gerber, 6e8/(math.Sqrt(3)*23.873241e6), 1e-7)
	proof.Near(t, "steady", q.Goodman, q.Gerber, 1e-12)
	proof.Near(t, "steady, yield", q.Soderberg, q.Yield, 1e-12)
	steady.MeanTorque = 0
	_, err := steady.Safety()
	proof.Fails(t, "nothing", err, "got no load")
	steady.Kf = 0
	_, err = steady.Safety()
	proof.Fails(t, "Kf", err, "Kf: got 0")
	_, err = shaft.SurfaceFactor("rusty", 5e8)
	proof.Fails(t, "finish", err, "ground, machined")
	_, err = shaft.ReliabilityFactor(0.97)
	proof.Fails(t, "reliability", err, "0.95")
}

// A shoulder grows sharper with a smaller fillet and a larger step, without a
// jump between the lines of the table.
func TestShoulders(t *testing.T) {
	for _, kt := range []func(D, d, r float64) float64{shaft.ShoulderBending, shaft.ShoulderTorsion} {
		last := 100.0
		for r := 0.02; r <= 0.3; r += 0.01 {
			k := kt(1.5, 1, r)
			if k > last || k < 1 {
				t.Errorf("radius %g: %g after %g", r, k, last)
			}
			last = k
		}
		for ratio := 1.1; ratio < 7; ratio += 0.01 {
			if d := math.Abs(kt(ratio+1e-6, 1, 0.1) - kt(ratio, 1, 0.1)); d > 1e-5 {
				t.Errorf("ratio %g: jumps by %g", ratio, d)
			}
		}
	}
}
