package slung_test

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"tautline/stdlib/fabric/slung"
	"tautline/stdlib/internal/proof"
	"tautline/stdlib/sheet"
)

// Catenaries of span 10 m and 5 N/m: level, uneven, and so steep that the lowest
// point lies outside the span and the lower support is pulled up. Closed form
// sqrt(L² - h²) = 2·a·sinh(S/(2·a)), solved to twelve digits with scipy's brentq.
func TestCatenary(t *testing.T) {
	for _, c := range []struct {
		rise, length                                   float64
		pull, low, left, right, leftUp, rightUp, sagIn float64
	}{
		{0, 12, 23.4770762, 5, 38.0942660, 38.0942660, 30, 30, 2.92343798},
		{3, 12, 25.9600474, 3.67389426, 32.7349641, 47.7349641, 19.9412590, 40.0587410, 1.35498333},
		{8, 13.2, 46.0035750, -1.46507817, 46.5880386, 86.5880386, -7.35638704, 73.35638704, 0},
	} {
		h, err := slung.Catenary{Span: 10, Rise: c.rise, Length: c.length, Weight: 5}.Form()
		if err != nil {
			t.Fatal(err)
		}
		proof.Near(t, "pull", h.Pull, c.pull, 1e-8)
		proof.Near(t, "lowest", h.Low, c.low, 1e-8)
		proof.Near(t, "left", h.Left, c.left, 1e-8)
		proof.Near(t, "right", h.Right, c.right, 1e-8)
		proof.Near(t, "left up", h.LeftUp, c.leftUp, 1e-8)
		proof.Near(t, "right up", h.RightUp, c.rightUp, 1e-8)
		proof.Near(t, "sag", h.Sag, c.sagIn, 1e-8)
		proof.Near(t, "difference of tensions", h.Right-h.Left, 5*c.rise, 1e-9)
	}
}

// A parabola of span 10 m, sag 1.2 m under 5 N per level metre: H = w·S²/(8·f),
// T = H·sqrt(1 + (4·f/S)²), and the exact arc, which the series of two terms
// misses by a thousandth.
func TestParabola(t *testing.T) {
	h, err := slung.Parabola{Span: 10, Sag: 1.2, Load: 5}.Form()
	if err != nil {
		t.Fatal(err)
	}
	proof.Near(t, "pull", h.Pull, 52.0833333333, 1e-10)
	proof.Near(t, "greatest", h.Left, 57.7726026, 1e-8)
	proof.Near(t, "greatest", h.Right, 57.7726026, 1e-8)
	proof.Near(t, "arc", h.Length, 10.37171277, 1e-9)
	proof.Near(t, "sag", h.Sag, 1.2, 1e-12)
	proof.Near(t, "lowest", h.Low, 5, 1e-12)
}

// Statics of any cable: the supports carry the whole load and its moment, and the
// mirrored cable hangs mirrored. A taut catenary is a parabola of its weight.
func TestHungCables(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		span := rapid.Float64Range(0.5, 50).Draw(rt, "span")
		rise := span * rapid.Float64Range(-3, 3).Draw(rt, "rise over span")
		slack := math.Pow(10, rapid.Float64Range(-4, 0.5).Draw(rt, "slack"))
		length := math.Hypot(span, rise) * (1 + slack)
		h, err := slung.Catenary{Span: span, Rise: rise, Length: length, Weight: 2}.Form()
		if err != nil {
			rt.Fatal(err)
		}
		close := func(what string, got, want, size float64) {
			rt.Helper()
			if math.Abs(got-want) > 1e-8*size {
				rt.Fatalf("%s: got %.12g, want %.12g", what, got, want)
			}
		}
		close("supports", h.LeftUp+h.RightUp, 2*length, h.Left+h.Right)
		close("left", math.Hypot(h.Pull, h.LeftUp), h.Left, h.Left)
		close("right", math.Hypot(h.Pull, h.RightUp), h.Right, h.Right)
		close("tensions", h.Right-h.Left, 2*rise, h.Left+h.Right)
		m, err := slung.Catenary{Span: span, Rise: -rise, Length: length, Weight: 2}.Form()
		if err != nil {
			rt.Fatal(err)
		}
		close("mirrored", m.Left, h.Right, h.Right)
		close("mirrored", m.Sag, h.Sag, length)
		close("mirrored", m.Low, span-h.Low, span+math.Abs(h.Low))

		p, err := slung.Parabola{Span: span, Rise: rise, Sag: span * slack, Load: 3}.Form()
		if err != nil {
			rt.Fatal(err)
		}
		close("load", p.LeftUp+p.RightUp, 3*span, p.Left+p.Right)
		close("moment about the left end", p.RightUp*span, 3*span*span/2+p.Pull*rise, (p.Left+p.Right)*math.Hypot(span, rise))
		if !(p.Length > math.Hypot(span, rise)) {
			rt.Fatalf("arc %g, shorter than the straight way", p.Length)
		}
	})
	taut, err := slung.Catenary{Span: 10, Length: 10.0001, Weight: 5}.Form()
	if err != nil {
		t.Fatal(err)
	}
	flat, _ := slung.Parabola{Span: 10, Sag: taut.Sag, Load: 5}.Form()
	proof.Near(t, "taut: pull", taut.Pull, flat.Pull, 1e-5) // they differ by (sag/span)²
	proof.Near(t, "taut: length", taut.Length, flat.Length, 1e-9)
}

// An edge cable, the arc that package form's search finds too: a chord
// of 1 m with a sag of 0.8 - sqrt(0.39) m has a radius of 0.8 m and pulls 800 N
// under 1000 N/m.
func TestEdgeCableClosed(t *testing.T) {
	c := slung.EdgeCable{Chord: 1, Sag: 0.8 - math.Sqrt(0.39), Pull: 1000}
	proof.Near(t, "radius", c.Radius(), 0.8, 1e-14)
	proof.Near(t, "force", c.Force(), 800, 1e-14)
	proof.Near(t, "length", c.Length(), 1.6*math.Asin(1/1.6), 1e-14)
}

func TestFormulas(t *testing.T) {
	cables := [][]any{{slung.EdgeCable{Chord: 2, Sag: 0.3, Pull: 700}}, {slung.EdgeCable{Chord: 1, Sag: 0.5, Pull: 40}}}
	proof.Formulas(t, []proof.Call{
		proof.Of("EdgeCable.Radius", slung.EdgeCable.Radius, cables),
		proof.Of("EdgeCable.Force", slung.EdgeCable.Force, cables),
		proof.Of("EdgeCable.Length", slung.EdgeCable.Length, cables),
	})
}

func TestHungErrors(t *testing.T) {
	for words, c := range map[string]slung.Catenary{
		"catenary: length: got 4.9 m, want more than the straight way between the supports, 5 m": {Span: 4, Rise: 3, Length: 4.9, Weight: 1},
		"catenary: span: got 0, want more than 0":                                                {Length: 1, Weight: 1},
		"catenary: rise: got NaN, want a finite number":                                          {Span: 1, Rise: math.NaN(), Length: 1, Weight: 1},
		"catenary: weight: got -1, want more than 0":                                             {Span: 1, Length: 2, Weight: -1},
	} {
		_, err := c.Form()
		proof.Fails(t, "form", err, words)
	}
	_, err := slung.Parabola{Span: 1, Load: 1}.Form()
	proof.Fails(t, "form", err, "parabola: sag: got 0, want more than 0")
	var s sheet.Sheet
	d := s.NewDrawing("cables")
	proof.Panics(t, "slung: Catenary.Draw: length: got 1 m", func() { slung.Catenary{Span: 1, Length: 1, Weight: 1}.Draw(d, "rope") })
	proof.Panics(t, "slung: Parabola.Draw: load: got 0", func() { slung.Parabola{Span: 1, Sag: 1}.Draw(d, "rope") })
	proof.Panics(t, "slung: EdgeCable.Force: sag: got 0.6 m, want at most half the chord 1 m", func() { slung.EdgeCable{Chord: 1, Sag: 0.6}.Force() })
}

// Drawn, a cable begins and ends at its supports and is lowest at its sag.
func TestDrawCables(t *testing.T) {
	var s sheet.Sheet
	d := s.NewDrawing("cables")
	slung.Catenary{Span: 10, Rise: 3, Length: 12, Weight: 5}.Draw(d, "rope")
	slung.Parabola{Span: 10, Rise: -2, Sag: 1, Load: 1}.Draw(d, "chain")
	for i, want := range []float64{3, -2} {
		xs, ys := d.Shapes[i].X, d.Shapes[i].Y
		last := len(xs) - 1
		proof.Near(t, "begin", float64(ys[0]), 0, 1e-14)
		proof.Near(t, "end", float64(ys[last]), want, 1e-12)
		proof.Near(t, "span", float64(xs[last]), 10, 1e-14)
	}
}
