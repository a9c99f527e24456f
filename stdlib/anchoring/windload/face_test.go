package windload_test

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"tautline/stdlib/anchoring"
	"tautline/stdlib/anchoring/windload"
	"tautline/stdlib/internal/proof"
	"tautline/stdlib/units"
)

// EN 14960-1:2019, Annex A: 114.5853 N on each square metre of a side, worked by
// hand for a box of 4.5 m by 6.0 m, 3.5 m high, each side in the wind.
func TestBoxSides(t *testing.T) {
	wind := anchoring.PlayInflatableWind()
	box := windload.Box(4.5, 6, 3.5, 0, wind.Coefficient)
	for i, want := range []float64{1804.72, 2406.29, 1804.72, 2406.29} {
		from := float64(i) * math.Pi / 2
		l := proof.Must(windload.On(box, wind.Pressure(), from))(t)
		proof.Near(t, "push on a side", l.Push(), want, 3e-6) // printed to a hundredth
		proof.Near(t, "tipping over the lee edge", l.Tipping(anchoring.At(from+math.Pi, []float64{3, 2.25}[i%2], 0), from+math.Pi), want*1.75, 3e-6)
		if l.Lift != 0 {
			t.Errorf("lift: got %g N, want none", l.Lift)
		}
	}
}

// A box shows the wind w·|cos| + d·|sin| of width, a ring its diameter, a lone
// wall the same from both sides, a net its threads.
func TestProjection(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		w, d, h := rapid.Float64Range(0.5, 10).Draw(t, "width"), rapid.Float64Range(0.5, 10).Draw(t, "depth"), rapid.Float64Range(0.5, 5).Draw(t, "height")
		facing, from := rapid.Float64Range(-7, 7).Draw(t, "facing"), rapid.Float64Range(-7, 7).Draw(t, "from")
		push := func(faces []windload.Face) float64 {
			l, err := windload.On(faces, 100, from)
			if err != nil {
				t.Fatal(err)
			}
			return l.Push()
		}
		sin, cos := math.Sincos(from - facing)
		width := w*math.Abs(cos) + d*math.Abs(sin)
		within := func(what string, got, low, high float64) {
			if got < low-1e-9 || got > high+1e-9 { // N: 1e-13 of the greatest force
				t.Errorf("%s: got %.12g, want %.12g to %.12g", what, got, low, high)
			}
		}
		within("box", push(windload.Box(w, d, h, facing, 1.5)), 150*width*h, 150*width*h)
		within("ring", push(windload.Ring(w, 0.2, 0.2+h, 1.5)), 150*2*w*h, 150*2*w*h*1.001)
		within("inside of a ring", push(windload.InnerRing(w, 0.2, 0.2+h, 1.5)), 150*2*w*h, 150*2*w*h*1.001)
		wall := windload.Wall("net", anchoring.At(facing, 0, 0), anchoring.At(facing, w, 0), h, 1.2, 0.3)
		within("net", push([]windload.Face{wall}), 100*1.2*0.3*w*h*math.Abs(sin), 100*1.2*0.3*w*h*math.Abs(sin))
	})
}

// No face shelters another: whatever stands in front, the push only grows. The
// site turned with the wind gives the answer turned. A load moved by a way has
// the moments of the moved force.
func TestLoadProperties(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		q, from := rapid.Float64Range(1, 500).Draw(t, "pressure"), rapid.Float64Range(0, 6.3).Draw(t, "from")
		on := func(from float64, faces ...windload.Face) windload.Load {
			l, err := windload.On(faces, q, from)
			if err != nil {
				t.Fatal(err)
			}
			return l
		}
		number := rapid.IntRange(1, 8).Draw(t, "faces")
		var faces, turned, moved []windload.Face
		turn := rapid.Float64Range(0, 6.3).Draw(t, "turn")
		way := anchoring.Point{X: 3, Y: -2, Z: 1}
		for range number {
			bearing, distance := rapid.Float64Range(0, 6.3).Draw(t, "bearing"), rapid.Float64Range(0, 5).Draw(t, "distance")
			f := windload.Face{At: anchoring.At(bearing, distance, rapid.Float64Range(0, 4).Draw(t, "height")),
				Area: rapid.Float64Range(0, 20).Draw(t, "area"), Facing: rapid.Float64Range(0, 6.3).Draw(t, "facing"),
				Tilt: rapid.Float64Range(-1.5, 1.5).Draw(t, "tilt"), Coefficient: rapid.Float64Range(0, 2).Draw(t, "coefficient"),
				Solidity: rapid.Float64Range(0.1, 1).Draw(t, "solidity"), Open: rapid.Bool().Draw(t, "open")}
			before := on(from, faces...).Push()
			faces = append(faces, f)
			if after := on(from, faces...).Push(); after < before*(1-1e-12) {
				t.Errorf("a face took %g N off the push of %g N", before-after, before)
			}
			f.Suction = rapid.Float64Range(-1, 1).Draw(t, "suction")
			faces[len(faces)-1] = f
			f.At, f.Facing = anchoring.At(bearing+turn, distance, f.At.Z), f.Facing+turn
			turned = append(turned, f)
			faces[len(faces)-1].Suction = 0
		}
		for i := range faces {
			faces[i].Suction = turned[i].Suction
		}
		moved = windload.Moved(faces, way)
		a, b, c := on(from, faces...), on(from+turn, turned...), on(from, moved...)
		size := 10 * q * 20 * 3 * float64(number) // larger than any force or moment here
		close := func(what string, got, want float64) {
			if math.Abs(got-want) > 1e-12*size {
				t.Errorf("%s: got %.12g, want %.12g", what, got, want)
			}
		}
		close("push, turned", b.Push(), a.Push())
		close("lift, turned", b.Lift, a.Lift)
		close("tipping, turned", b.Tipping(anchoring.Point{}, from+turn+1), a.Tipping(anchoring.Point{}, from+1))
		close("turning, turned", b.AboutUp, a.AboutUp)
		close("tipping, moved", c.Tipping(way, 2), a.Tipping(anchoring.Point{}, 2))
		close("turning, moved", c.AboutUp, a.AboutUp+way.X*a.North-way.Y*a.East)
	})
}

// A roof lifts with its suction whatever the wind's direction, and tips a stage
// by its lever: worked by hand.
func TestRoof(t *testing.T) {
	roof := windload.Face{Name: "roof", At: anchoring.Point{X: 2, Z: 3}, Area: 12, Tilt: 90 * units.Deg, Suction: 0.8, Solidity: 1}
	for _, from := range windload.Bearings(7) {
		l := proof.Must(windload.On([]windload.Face{roof}, 100, from))(t)
		proof.Near(t, "lift", l.Lift, 960, 1e-12)
		proof.Near(t, "push", l.Push(), 0, 1e-9)
		proof.Near(t, "tipping to the west", l.Tipping(anchoring.Point{}, 270*units.Deg), 960*2, 1e-12)
	}
}

func TestAround(t *testing.T) {
	// A box of 2 m by 1 m shows the most, its diagonal, to a wind 26.57° off its front.
	s := proof.Must(windload.Around(windload.Box(2, 1, 1, 0, 1.5), 100, 360))(t)
	proof.Near(t, "greatest push", s.Greatest, 150*math.Sqrt(5), 1e-4) // in steps of a degree
	proof.Near(t, "from", s.Worst, 27*units.Deg, 1e-12)
	proof.Near(t, "moment", s.Moment[0], 150*2*0.5, 1e-12)
	if len(s.From) != 360 || len(s.Warnings) != 0 {
		t.Errorf("got %d bearings, warnings %q", len(s.From), s.Warnings)
	}
	_, err := windload.Around(nil, 100, 0)
	proof.Fails(t, "no bearing", err, "number of bearings: got 0, want 1 or more")
}

func TestFaceErrors(t *testing.T) {
	thin := windload.Box(1, 1, 1, 0, 0.8)
	l := proof.Must(windload.On(thin, 100, 0))(t)
	if len(l.Warnings) != 4 {
		t.Errorf("coefficient below 1: warnings %q, want one for each face", l.Warnings)
	}
	_, err := windload.On([]windload.Face{{Name: "sail", Area: 1, Coefficient: 1}}, 100, 0)
	proof.Fails(t, "no solidity", err, `face "sail": solidity (1 for a solid face): got 0, want more than 0`)
	_, err = windload.On(thin, math.NaN(), 0)
	proof.Fails(t, "no pressure", err, "velocity pressure: got NaN")
	_, err = windload.CoefficientOf("kite")
	proof.Fails(t, "no such shape", err, `got shape "kite", want one of: play inflatable, side,`)
	proof.Near(t, "play inflatable", proof.Must(windload.CoefficientOf("play inflatable, side"))(t).Value, anchoring.PlayInflatableWind().Coefficient, 0)
	proof.Panics(t, "windload: Wall: length: got 0", func() { windload.Wall("", anchoring.Point{}, anchoring.Point{}, 1, 1, 1) })
}
