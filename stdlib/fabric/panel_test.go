package fabric_test

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"tautline/stdlib/fabric"
	"tautline/stdlib/internal/proof"
)

// Equilibrium of an arc that its own line force stretches; values computed apart
// from this code.
func TestClampedStrip(t *testing.T) {
	arch := proof.Must(fabric.ClampedStrip{Width: 1, Stiffness: 300e3, Pressure: 1000}.Blown())(t)
	proof.Near(t, "half angle", arch.HalfAngle, 0.21561047, 1e-6/10)
	proof.Near(t, "radius", arch.Radius, 2.3370623, 1e-6/10)
	proof.Near(t, "line force", arch.LineForce, 2337.062, 1e-6/2)
	proof.Near(t, "rise", arch.Rise, 0.05411241, 1e-6/2)
	// For small strain the half angle is the cube root of 3·p·b/Et.
	proof.Near(t, "small strain", arch.HalfAngle, math.Cbrt(3*1000/300e3), 1e-3)
	soft := proof.Must(fabric.ClampedStrip{Width: 1, Stiffness: 1e12, Pressure: 1e-3}.Blown())(t)
	proof.Near(t, "hardly any strain", soft.HalfAngle, math.Cbrt(3e-15), 1e-9)

	_, err := fabric.ClampedStrip{Width: 1, Stiffness: 100, Pressure: 1000}.Blown()
	proof.Fails(t, "rubber", err, "stiffness: got 100 N/m, want more than 159")
	_, err = fabric.ClampedStrip{Width: 1, Stiffness: 300e3, Pressure: -1}.Blown()
	proof.Fails(t, "suction", err, "clamped strip: pressure: got -1")
	limp := proof.Must(fabric.ClampedStrip{Width: 1, Stiffness: 10e3, Pressure: 1000}.Blown())(t)
	if len(limp.Warnings) != 1 {
		t.Errorf("strain of %g: warnings %q, want one", limp.Strain, limp.Warnings)
	}
}

// The arc is as long as the strip with its strain, whatever the load.
func TestClampedStripKeepsItsLength(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := fabric.ClampedStrip{
			Width:     rapid.Float64Range(0.1, 5).Draw(t, "width"),
			Stiffness: rapid.Float64Range(50e3, 1e6).Draw(t, "stiffness"),
			Pressure:  rapid.Float64Range(1, 20e3).Draw(t, "pressure"),
		}
		arch, err := s.Blown()
		if err != nil {
			t.Fatal(err)
		}
		if got, want := 2*arch.Radius*arch.HalfAngle, s.Width*(1+arch.Strain); math.Abs(got-want) > 1e-12*want {
			t.Errorf("arc: got %.15g, want %.15g", got, want)
		}
		if got, want := arch.Radius*(1-math.Cos(arch.HalfAngle)), arch.Rise; math.Abs(got-want) > 1e-9*want {
			t.Errorf("rise: got %.12g, want %.12g", want, got)
		}
	})
}

// Hencky 1915 as corrected by Chien and Alekseev: constants of the round
// membrane by Poisson's ratio, computed apart from this code with thirty digits;
// the first coefficients for 0.2, 0.3 and 0.4 (1.6827, 1.7244, 1.7769) are
// printed in Fichter, NASA TP-3658. The 0.662, 0.423 and 0.328 often quoted for
// 0.25 are the uncorrected ones.
func TestHenckyConstants(t *testing.T) {
	for _, c := range []struct{ nu, b0, rise, centre, edge, volume float64 }{
		{0, 1.6204131, 0.71831924, 0.4051033, 0.2893720, 0.5277186},
		{0.1, 1.6487362, 0.69890176, 0.4121841, 0.3017803, 0.5257264},
		{0.2, 1.6827324, 0.67743533, 0.4206831, 0.3161093, 0.5236183},
		{0.25, 1.7024477, 0.66579130, 0.4256119, 0.3241708, 0.5225164},
		{0.3, 1.7244041, 0.65344334, 0.4311010, 0.3329568, 0.5213801},
		{0.4, 1.7768706, 0.62625508, 0.4442177, 0.3532327, 0.5189951},
		{0.5, 1.8453107, 0.59487903, 0.4613277, 0.3784121, 0.5164426},
	} {
		// With a radius and a stiffness of 1 the load is the pressure.
		const q = 1e-6
		dish := proof.Must(fabric.Drum{Radius: 1, Stiffness: 1, Poisson: c.nu, Pressure: q}.Shallow())(t)
		rise, force := math.Cbrt(q), math.Pow(q, 2.0/3)
		proof.Near(t, "rise", dish.Rise/rise, c.rise, 1e-7)
		proof.Near(t, "first coefficient", 4*dish.Centre/force, c.b0, 1e-7)
		proof.Near(t, "centre", dish.Centre/force, c.centre, 2e-7)
		proof.Near(t, "edge", dish.Edge/force, c.edge, 2e-7)
		proof.Near(t, "volume", dish.Volume/(math.Pi*dish.Rise), c.volume, 2e-7)
	}
}

// The same theory with units, and how it scales.
func TestDrumShallow(t *testing.T) {
	drum := fabric.Drum{Radius: 1, Stiffness: 300e3, Poisson: 0.3, Pressure: 1000}
	dish := proof.Must(drum.Shallow())(t)
	proof.Near(t, "rise", dish.Rise, 0.0976115, 1e-5/10)
	proof.Near(t, "centre", dish.Centre, 2885.93, 1e-5/2)
	proof.Near(t, "edge", dish.Edge, 2228.92, 1e-5/2)
	proof.Near(t, "volume", dish.Volume, 0.159884, 1e-5/2)
	drum.Pressure *= 8
	eight := proof.Must(drum.Shallow())(t)
	proof.Near(t, "eightfold pressure, rise", eight.Rise, 2*dish.Rise, 1e-14)
	proof.Near(t, "eightfold pressure, centre", eight.Centre, 4*dish.Centre, 1e-14)
	proof.Near(t, "eightfold pressure, edge", eight.Edge, 4*dish.Edge, 1e-14)

	drum.Poisson = 0.6
	_, err := drum.Shallow()
	proof.Fails(t, "Poisson's ratio", err, "Poisson's ratio: got 0.6, want 0 to 0.5")
}

// Gas pressure, which stays square to the fabric: formulation after Fichter, NASA
// TP-3658; values from a collocation solver apart from this code. Against
// Hencky's upright load the centre carries more and the edge less.
func TestDrumBlown(t *testing.T) {
	for _, c := range []struct{ nu, q, rise, centre, edge, hencky float64 }{
		{0.3, 0.001, 0.06530835, 0.004337483, 0.003306749, 0.06534433},
		{0.3, 0.01, 0.14042155, 0.02058060, 0.01496227, 0.14078010},
		{0.3, 0.1, 0.29972285, 0.10520576, 0.06109046, 0.30330153},
		{0, 0.01, 0.15461708, 0.01934137, 0.01290539, 0},
	} {
		drum := fabric.Drum{Radius: 2, Stiffness: 100e3, Poisson: c.nu, Pressure: c.q * 50e3}
		dish := proof.Must(drum.Blown())(t)
		proof.Near(t, "rise", dish.Rise/2, c.rise, 2e-5/20)
		proof.Near(t, "centre", dish.Centre/100e3, c.centre, 2e-5/20)
		proof.Near(t, "edge", dish.Edge/100e3, c.edge, 2e-5/20)
		shallow := proof.Must(drum.Shallow())(t)
		if c.hencky > 0 {
			proof.Near(t, "shallow rise", shallow.Rise/2, c.hencky, 1e-6/10)
		}
		if !(dish.Centre > shallow.Centre && dish.Edge < shallow.Edge) {
			t.Errorf("against the upright load: centre %g to %g, edge %g to %g; want more and less", dish.Centre, shallow.Centre, dish.Edge, shallow.Edge)
		}
	}
	_, err := fabric.Drum{Radius: 2, Stiffness: 100e3, Poisson: 0.3, Pressure: 1e6}.Blown()
	proof.Fails(t, "burst", err, "pressure: got 1e+06 Pa, want at most 50000 Pa")
	deep := proof.Must(fabric.Drum{Radius: 2, Stiffness: 100e3, Poisson: 0.3, Pressure: 5000}.Shallow())(t)
	if len(deep.Warnings) != 2 {
		t.Errorf("deep dish: warnings %q, want two", deep.Warnings)
	}
}

// Both theories meet where the dish is flat, and any dish is as stiff as its
// scaling says: rise by the cube root of the pressure, force by its square.
func TestDrumProperties(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		drum := fabric.Drum{
			Radius:    rapid.Float64Range(0.1, 3).Draw(t, "radius"),
			Stiffness: rapid.Float64Range(50e3, 1e6).Draw(t, "stiffness"),
			Poisson:   rapid.Float64Range(0, 0.5).Draw(t, "Poisson's ratio"),
			Pressure:  rapid.Float64Range(0.001, 0.1).Draw(t, "pressure"),
		}
		blown, err := drum.Blown()
		shallow, err2 := drum.Shallow()
		if err != nil || err2 != nil {
			t.Fatal(err, err2)
		}
		for _, c := range [][2]float64{{blown.Rise, shallow.Rise}, {blown.Centre, shallow.Centre}, {blown.Edge, shallow.Edge}, {blown.Volume, shallow.Volume}} {
			if math.Abs(c[0]-c[1]) > 1e-3*c[1] {
				t.Errorf("blown %g, shallow %g", c[0], c[1])
			}
		}
	})
}
