package fabric_test

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"tautline/stdlib/fabric"
	"tautline/stdlib/internal/proof"
)

// Paulsen 1994, Mladenov and Oprea 2003; values recomputed apart from this code, the
// volume also by double quadrature, to ten digits.
func TestDiscs(t *testing.T) {
	one := fabric.Discs{Cut: 1}
	proof.Near(t, "radius", one.Radius(), 0.7627597635, 1e-9/10)
	proof.Near(t, "thickness", one.Thickness(), 0.9138931621, 1e-9/10)
	proof.Near(t, "volume", one.Volume(), 1.2185242161, 1e-9/10)
	proof.Near(t, "surface", one.Surface(), 5.7421600884, 1e-9/10)
	proof.Near(t, "surface over fabric", one.Surface()/(2*math.Pi), 0.9138931621, 1e-9/10)
	proof.Near(t, "constants", one.Radius()*math.Gamma(0.25)*math.Gamma(0.25)/(4*math.Sqrt(2*math.Pi)), 1, 1e-12)

	d := fabric.Discs{Cut: 1.5, Pressure: 1000}
	proof.Near(t, "radius", d.Radius(), 1.1441396, 1e-7)
	proof.Near(t, "thickness", d.Thickness(), 1.3708397, 1e-7)
	proof.Near(t, "volume", d.Volume(), 4.1125192, 1e-7)
	r := d.Radius()
	proof.Near(t, "gather at the rim", d.Cut/r, 1.3110288, 1e-7)
	for _, c := range []struct{ u, height, arc float64 }{
		{0.25, 0.5938574, 0.1907646}, {0.5, 0.5568281, 0.3838279}, {0.75, 0.4471124, 0.5931128}, {0.9, 0.3029587, 0.7525965}, {1, 0, 1},
	} {
		at := proof.Must(d.At(c.u * r))(t)
		if math.Abs(at.Height/r-c.height) > 2e-7 || math.Abs(at.Arc/d.Cut-c.arc) > 2e-7 {
			t.Errorf("at %g of the radius: height %.7f and arc %.7f, want %.7f and %.7f", c.u, at.Height/r, at.Arc/d.Cut, c.height, c.arc)
		}
	}
	proof.Near(t, "near the axis", proof.Must(d.At(1e-9))(t).Height, d.Thickness()/2, 1e-12)
	proof.Near(t, "line force at the rim", proof.Must(d.At(r))(t).LineForce, 572.0698, 1e-6/10)
	proof.Near(t, "half way", proof.Must(d.At(r/2))(t).LineForce, 1144.1396, 1e-6/10)
	for _, c := range []struct {
		distance float64
		words    string
	}{{0, "distance: got 0 m, want more than 0, where the line force is endless"}, {1.2, "distance: got 1.2 m"}, {math.NaN(), "distance: got NaN m"}} {
		_, err := d.At(c.distance)
		proof.Fails(t, "place", err, c.words)
	}
	_, err := fabric.Discs{Cut: 1, Pressure: -1}.At(0.1)
	proof.Fails(t, "suction", err, "discs: pressure: got -1")
	proof.Panics(t, "fabric: Discs.Volume: radius of a piece: got 0", func() { fabric.Discs{}.Volume() })
}

// The meridian carries the pressure with its curvature, as the hoop force is 0
// (Laplace), and its cut through the axis balances the pressure on the section:
// both from three near points and from slopes alone.
func TestDiscsCarryThePressure(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d := fabric.Discs{Cut: rapid.Float64Range(0.2, 5).Draw(t, "radius"), Pressure: rapid.Float64Range(100, 5000).Draw(t, "pressure")}
		at := d.Radius() * rapid.Float64Range(0.1, 0.9).Draw(t, "distance")
		h := 1e-3 * d.Radius()
		var z [3]float64
		for k := range z {
			p, err := d.At(at + float64(k-1)*h)
			if err != nil {
				t.Fatal(err)
			}
			z[k] = p.Height
		}
		slope, bend := (z[2]-z[0])/(2*h), (z[2]-2*z[1]+z[0])/(h*h)
		p, _ := d.At(at)
		curvature := -bend / math.Pow(1+slope*slope, 1.5)
		if got := p.LineForce * curvature; math.Abs(got-d.Pressure) > 1e-3*d.Pressure { // of the differences, 1e-6·(1/0.1)²
			t.Errorf("line force times curvature: got %g, want the pressure %g", got, d.Pressure)
		}
	})
}
