package polygon

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

func near(t interface {
	Helper()
	Errorf(string, ...any)
}, what string, got, want, tol float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tol) {
		t.Errorf("%s: got %.10g, want %.10g within %.1g", what, got, want, tol)
	}
}

func all(n int, v float64) []float64 {
	list := make([]float64, n)
	for i := range list {
		list[i] = v
	}
	return list
}

var (
	square = Loop{{0, 0}, {2, 0}, {2, 2}, {0, 2}}
	ell    = Loop{{0, 0}, {3, 0}, {3, 1}, {1, 1}, {1, 3}, {0, 3}}
)

func TestMeasures(t *testing.T) {
	near(t, "area", ell.Area(), 5, 1e-15)
	near(t, "length", ell.Length(), 12, 1e-15)
	for _, c := range []struct {
		at     Point
		inside bool
	}{{Point{0.5, 2.5}, true}, {Point{2, 2}, false}, {Point{2.9, 0.5}, true}, {Point{-1, 1}, false}} {
		if got := ell.Contains(c.at); got != c.inside {
			t.Errorf("contains %v: got %v, want %v", c.at, got, c.inside)
		}
	}
	near(t, "distance", ell.Distance(Point{2, 2}), 1, 1e-15)
	// In the elbow of the L there is room for more than its legs have.
	if in := ell.Inner(); !ell.Contains(in) || ell.distance(in) < 0.5 {
		t.Errorf("inner point: got %v, %g from the sides, want 0.5 and more", in, ell.distance(in))
	}
	if got := (Loop{{0, 0}, {2, 2}, {2, 0}, {0, 2}}).SelfCrossings(); len(got) != 1 || got[0] != (Crossing{0, 2, Point{1, 1}}) {
		t.Errorf("bow tie: got %v, want segments 0 and 2 crossing at (1, 1)", got)
	}
	if got := (Loop{{0, 0}, {2, 0}, {1, 0}, {1, 1}}).SelfCrossings(); len(got) == 0 {
		t.Error("an outline that runs back over itself: got no crossing, want one")
	}
	if got := ell.SelfCrossings(); len(got) != 0 {
		t.Errorf("simple outline: got crossings %v", got)
	}
}

// Areas worked by hand: a strip along every side, and at each corner a square
// (mitred) or a quarter of a circle (rounded); an inner corner loses a square.
func TestOffsetByHand(t *testing.T) {
	const d = 0.25
	for _, c := range []struct {
		what  string
		loop  Loop
		width []float64
		style Corner
		area  float64
		tol   float64
	}{
		{"square out", square, all(4, d), Mitred, 2.5 * 2.5, 1e-14},
		{"square in", square, all(4, -d), Mitred, 1.5 * 1.5, 1e-14},
		{"L out", ell, all(6, d), Mitred, 5 + 12*d + 4*d*d, 1e-14},
		{"L in", ell, all(6, -d), Mitred, 5 - 12*d + 4*d*d, 1e-14},
		// A circle of sides of 5° has sin(5°)/5° of its area: 0.13 % less.
		{"square rounded", square, all(4, d), Rounded, 4 + 8*d + math.Pi*d*d, 0.0014 * math.Pi * d * d},
		{"one wide side", square, []float64{d, 0.5, d, d}, Mitred, 2.75 * 2.5, 1e-14},
		{"one side without", square, []float64{0, d, d, d}, Mitred, 2.5 * 2.25, 1e-14},
		// An inner corner 0.1 deep and as wide is swallowed by the width: the
		// moved sides of the square remain, less nothing.
		{"nick", Loop{{0, 0}, {2, 0}, {2, 0.95}, {1.9, 1}, {2, 1.05}, {2, 2}, {0, 2}}, all(7, 0.5), Rounded, 0, 0},
	} {
		got := c.loop.Offset(c.width, c.style)
		if len(got) != 1 {
			t.Errorf("%s: got %d loops, want 1", c.what, len(got))
			continue
		}
		if c.area > 0 {
			near(t, c.what, got[0].Area(), c.area, c.tol)
		}
		if x := got[0].SelfCrossings(); len(x) > 0 {
			t.Errorf("%s: crosses itself at %v", c.what, x)
		}
	}
	if got := square.Offset(all(4, -1.1), Mitred); len(got) != 0 {
		t.Errorf("square moved in by more than its half: got %v, want nothing", got)
	}
	dumbbell := Loop{{0, 0}, {1, 0}, {1, 0.45}, {2, 0.45}, {2, 0}, {3, 0}, {3, 1}, {2, 1}, {2, 0.55}, {1, 0.55}, {1, 1}, {0, 1}}
	if got := dumbbell.Offset(all(12, -0.1), Mitred); len(got) != 2 {
		t.Errorf("dumb-bell whose neck closes: got %d loops, want 2", len(got))
	} else {
		near(t, "one half of the dumb-bell", got[0].Area(), 0.8*0.8, 1e-12)
	}
	slit := Loop{{0, 0}, {3, 0}, {3, 1}, {1, 1}, {1, 1.1}, {3, 1.1}, {3, 2}, {0, 2}}
	if got := slit.Offset(all(8, 0.2), Mitred); len(got) == 0 {
		t.Error("slit: got nothing")
	} else {
		near(t, "slit filled", got[0].Area(), 3.4*2.4, 1e-12)
	}
}

// star draws a random outline that its centre sees all of.
func star(t *rapid.T) Loop {
	n := rapid.IntRange(3, 40).Draw(t, "corners")
	loop := make(Loop, n)
	for i := range loop {
		a := 2 * math.Pi * (float64(i) + 0.4*rapid.Float64Range(-1, 1).Draw(t, "turn")) / float64(n)
		r := rapid.Float64Range(0.3, 1).Draw(t, "radius")
		loop[i] = Point{r * math.Cos(a), r * math.Sin(a)}
	}
	return loop
}

// distance of a point from the outline, by projection on each segment.
func (l Loop) distance(p Point) float64 {
	least := math.Inf(1)
	for i := range l {
		a, b := l.segment(i)
		ab := b.sub(a)
		s := min(1, max(0, p.sub(a).dot(ab)/ab.dot(ab)))
		least = min(least, p.Distance(a.toward(b, s)))
	}
	return least
}

// Every point of a rounded offset stands off by the width: no less than the
// chord of a 5° arc allows, cos 2.5°, and no more than the point that a corner of
// less than 5° keeps, 1/cos 2.5°. And every point is inside or outside the offset
// as its distance from the outline says.
func TestOffsetStandsOff(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		loop := star(t)
		if loop.Area() <= 0 || len(loop.SelfCrossings()) > 0 {
			t.Skip("not a simple outline")
		}
		d := rapid.Float64Range(0.01, 0.4).Draw(t, "width")
		loops := loop.Offset(all(len(loop), d), Rounded)
		if len(loops) == 0 {
			t.Fatal("nothing left")
		}
		for _, o := range loops {
			for i := range o {
				a, b := o.segment(i)
				for _, s := range []float64{0, 0.3, 0.5, 0.8} {
					got := loop.distance(a.toward(b, s))
					if got < d*math.Cos(roundStep/2)-1e-6 || got > d/math.Cos(roundStep/2)+1e-9 {
						t.Fatalf("point %v of the offset: stands off %g, want %g", a.toward(b, s), got, d)
					}
				}
			}
		}
		for range 50 {
			p := Point{rapid.Float64Range(-1.5, 1.5).Draw(t, "x"), rapid.Float64Range(-1.5, 1.5).Draw(t, "y")}
			off := loop.distance(p)
			if math.Abs(off-d) < 1e-3*d+1e-6 {
				continue
			}
			turns := 0
			for _, o := range loops {
				turns += o.Winding(p)
			}
			want := loop.Contains(p) || off < d
			if (turns > 0) != want {
				t.Fatalf("point %v, %g from the outline: inside the offset by %g is %v, want %v", p, off, d, turns > 0, want)
			}
		}
	})
}

// Moved in, a point is inside when it was inside and further off than the width.
func TestOffsetInwards(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		loop := star(t)
		if loop.Area() <= 0 || len(loop.SelfCrossings()) > 0 {
			t.Skip("not a simple outline")
		}
		d := rapid.Float64Range(0.01, 0.3).Draw(t, "width")
		loops := loop.Offset(all(len(loop), -d), Rounded)
		for range 50 {
			p := Point{rapid.Float64Range(-1, 1).Draw(t, "x"), rapid.Float64Range(-1, 1).Draw(t, "y")}
			off := loop.distance(p)
			if math.Abs(off-d) < 1e-3*d+1e-6 {
				continue
			}
			turns := 0
			for _, o := range loops {
				turns += o.Winding(p)
			}
			if want := loop.Contains(p) && off > d; (turns > 0) != want {
				t.Fatalf("point %v, %g from the outline: inside the loop moved in by %g is %v, want %v", p, off, d, turns > 0, want)
			}
		}
	})
}
