package fabric_test

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"tautline/stdlib/fabric"
	"tautline/stdlib/internal/proof"
	"tautline/stdlib/sheet"
)

// A mattress cut to a length takes the pitch whose arc is that long; the case of
// pitch 0.5 m, height 1 m worked from the equilibrium of a cut, backwards.
func TestMattressOfCut(t *testing.T) {
	m := proof.Must(fabric.MattressOfCut(0.5183738, 1, 1500))(t)
	proof.Near(t, "pitch", m.Pitch, 0.5, 1e-6)
	proof.Near(t, "line force", m.LineForce(), 838.5255, 1e-6)
	_, err := fabric.MattressOfCut(0, 1, 1500)
	proof.Fails(t, "no cut", err, "cut length: got 0, want more than 0")

	rapid.Check(t, func(t *rapid.T) {
		m := fabric.Mattress{
			Pitch:  rapid.Float64Range(0.05, 2).Draw(t, "pitch"),
			Height: rapid.Float64Range(0.05, 2).Draw(t, "height"),
		}
		back, err := fabric.MattressOfCut(m.ArcLength(), m.Height, 0)
		if err != nil || math.Abs(back.Pitch-m.Pitch) > 1e-12*m.Pitch {
			t.Errorf("pitch: got %.15g, %v, want %.15g", back.Pitch, err, m.Pitch)
		}
	})
}

// Geometry of a circle, forwards and backwards.
func TestLobeOfCut(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		chord := rapid.Float64Range(0.05, 2).Draw(t, "chord")
		lobe := fabric.Lobe{Chord: chord, Radius: chord / 2 / math.Sin(rapid.Float64Range(1e-3, math.Pi/2).Draw(t, "half angle"))}
		cut, err := lobe.ArcLength()
		if err != nil {
			t.Fatal(err)
		}
		back, err := fabric.LobeOfCut(chord, cut, 0)
		// A flat arc is longer than its chord by a part in a million only, so
		// that many digits of the radius are lost.
		if err != nil || math.Abs(back.Radius-lobe.Radius) > 1e-8*lobe.Radius {
			t.Errorf("radius: got %.15g, %v, want %.15g", back.Radius, err, lobe.Radius)
		}
	})
	proof.Near(t, "half a circle", proof.Must(fabric.LobeOfCut(1, math.Pi/2, 0))(t).Radius, 0.5, 1e-12)
	for _, cut := range []float64{0.99, 1, 1.6} {
		_, err := fabric.LobeOfCut(1, cut, 1000)
		proof.Fails(t, "cut", err, "want more than the chord 1 m and at most half a circle over it")
	}
}

// Equilibrium, worked by hand: pitches of 0.4 and 0.7 m at 1500 Pa; then the
// left bay at 2500 Pa, so that the baffle between carries (2500·0.4 + 1500·0.7)/2
// = 1025 N/m upward and (2500 - 1500)·0.8/2 = 400 N/m sideways.
func TestRow(t *testing.T) {
	row := fabric.Row{Height: 0.8, Bays: []fabric.Bay{{Pitch: 0.4, Pressure: 1500}, {Pitch: 0.7, Pressure: 1500}}}
	f := proof.Must(row.Forces())(t)
	proof.Near(t, "baffle between", f.Baffle[1].Force, 825, 1e-12)
	proof.Near(t, "baffle between, side", f.Baffle[1].Side, 0, 0)
	proof.Near(t, "baffle between, cut", f.Baffle[1].Cut, 0.8, 0)
	proof.Near(t, "first baffle", f.Baffle[0].Force, 300, 1e-12)
	proof.Near(t, "last baffle", f.Baffle[2].Force, 525, 1e-12)
	proof.Near(t, "lobe", f.Lobe[0], 1500*math.Hypot(0.4, 0.2), 1e-12)
	proof.Near(t, "end", f.End[0], 600, 1e-12)

	row.Bays[0].Pressure = 2500
	f = proof.Must(row.Forces())(t)
	proof.Near(t, "baffle, upward", f.Baffle[1].Upward, 1025, 1e-12)
	proof.Near(t, "baffle, side", f.Baffle[1].Side, 400, 1e-12)
	proof.Near(t, "baffle", f.Baffle[1].Force, math.Sqrt(1025*1025+400*400), 1e-12)

	for _, c := range []struct {
		row  fabric.Row
		want string
	}{
		{fabric.Row{Height: 0.8}, "bays: got none"},
		{fabric.Row{Height: 0, Bays: row.Bays}, "height: got 0"},
		{fabric.Row{Height: 0.8, Bays: []fabric.Bay{{Pitch: 0.4}, {Pitch: -0.7}}}, "pitch of bay 2: got -0.7"},
		{fabric.Row{Height: 0.8, Bays: []fabric.Bay{{Pitch: 0.4, Pressure: -3}}}, "pressure of bay 1: got -3"},
	} {
		_, err := c.row.Forces()
		proof.Fails(t, "row", err, c.want)
	}
	proof.Panics(t, "fabric: Row.Draw: bays: got none", func() { fabric.Row{Height: 0.8}.Draw(sheet.NewDrawing("")) })
}

// Whatever the pitches and pressures, every edge of a baffle is in balance: both
// lobes and the baffle, each along its own tangent, add up to nothing. A cut
// through any crown balances the pressure on it, and a bulged baffle is an arc
// under the difference of the pressures.
func TestRowBalances(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		row := fabric.Row{Height: rapid.Float64Range(0.2, 2).Draw(t, "height")}
		for range rapid.IntRange(1, 6).Draw(t, "bays") {
			row.Bays = append(row.Bays, fabric.Bay{
				Pitch:    rapid.Float64Range(0.1, 2).Draw(t, "pitch"),
				Pressure: rapid.Float64Range(100, 5000).Draw(t, "pressure"),
			})
		}
		f, err := row.Forces()
		if err != nil {
			t.Fatal(err)
		}
		for i := 1; i < len(row.Bays); i++ {
			left, right, s := row.Bays[i-1], row.Bays[i], f.Baffle[i]
			// At the top edge the left lobe comes down to the right, with half of
			// its pitch over half the height as slope; and so the right lobe.
			a, b := math.Atan2(left.Pitch, row.Height), math.Atan2(right.Pitch, row.Height)
			up := f.Lobe[i-1]*math.Sin(a) + f.Lobe[i]*math.Sin(b)
			side := f.Lobe[i-1]*math.Cos(a) - f.Lobe[i]*math.Cos(b)
			if math.Abs(up-s.Upward) > 1e-9*s.Force || math.Abs(math.Abs(side)-s.Side) > 1e-9*s.Force {
				t.Errorf("edge %d: lobes pull %g up and %g aside, baffle %+v", i, up, side, s)
			}
			if s.Bulge > 0 {
				radius := (row.Height*row.Height/4 + s.Bulge*s.Bulge) / (2 * s.Bulge)
				if got, want := s.Force/radius, math.Abs(left.Pressure-right.Pressure); math.Abs(got-want) > 1e-7*want {
					t.Errorf("baffle %d: force over radius is %g, want the difference of the pressures %g", i, got, want)
				}
				if got := 2 * radius * math.Asin(row.Height/2/radius); math.Abs(got-s.Cut) > 1e-7*s.Cut {
					t.Errorf("baffle %d: cut %g, want the arc %g", i, s.Cut, got)
				}
			}
		}
	})
}

// The drawn skin has the section that the theory says: bays and two half circles
// at the ends.
func TestRowDrawing(t *testing.T) {
	s := &sheet.Sheet{}
	d := s.NewDrawing("section")
	m := fabric.Mattress{Pitch: 0.5, Height: 1, Pressure: 1500}
	m.Row(4).Draw(d)
	var skin sheet.Shape
	baffles, dimensions := 0, 0
	for _, shape := range d.Shapes {
		switch shape.Kind {
		case sheet.ShapeOutline:
			skin = shape
		case sheet.ShapeLine:
			baffles++
		case sheet.ShapeDimension:
			dimensions++
		}
	}
	area := 0.0
	for i := range skin.X {
		j := (i + 1) % len(skin.X)
		area += float64(skin.X[j]*skin.Y[i]-skin.X[i]*skin.Y[j]) / 2
	}
	// Chords of the arcs cut a share of about 6e-4 off the half circles.
	proof.Near(t, "section", area, 4*0.5397798+math.Pi/4, 1e-3)
	if baffles != 5 || dimensions != 3 {
		t.Errorf("got %d baffles and %d dimensions, want 5 and 3", baffles, dimensions)
	}

	d = s.NewDrawing("pressures")
	fabric.Row{Height: 1, Bays: []fabric.Bay{{0.5, 2000}, {0.5, 1000}, {0.5, 3000}}}.Draw(d)
	var bulges []float64
	for _, shape := range d.Shapes {
		if shape.Kind == sheet.ShapeLine {
			bulges = append(bulges, float64(shape.X[len(shape.X)/2]-shape.X[0]))
		}
	}
	if len(bulges) != 4 || bulges[0] != 0 || !(bulges[1] > 0) || !(bulges[2] < 0) || bulges[3] != 0 {
		t.Errorf("bulges %v, want none, to the right, to the left, none", bulges)
	}
}
