package fabric_test

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"tautline/stdlib/fabric"
	"tautline/stdlib/internal/proof"
	"tautline/stdlib/units"
)

// Comer and Levy, AIAA Journal 1(7), 1963; values from the relation between
// moment and wrinkled angle, computed apart from this code to seven digits.
func TestTubeBending(t *testing.T) {
	tube := fabric.Tube{Radius: 0.3, Pressure: 2000}
	proof.Near(t, "wrinkling moment", tube.WrinklingMoment(), 84.8230, 1e-6)
	proof.Near(t, "collapse moment", tube.CollapseMoment(), 169.6460, 1e-6)
	for _, c := range []struct{ degrees, moment, most float64 }{
		{0, 84.82300, 600},
		{45, 102.08673, 0},
		{90, 133.23966, 942.478},
		{135, 159.53147, 0},
		{170, 169.13009, 0},
	} {
		b, err := tube.Bend(c.moment)
		if err != nil {
			t.Fatal(err)
		}
		// The moment's rounding is 3e-8 of it; at 170° it moves the angle by
		// about as much again.
		if c.degrees > 0 {
			proof.Near(t, "wrinkled half angle", b.HalfAngle, c.degrees*units.Deg, 1e-6)
		}
		if c.most > 0 {
			proof.Near(t, "greatest force along", b.Most, c.most, 1e-6)
		}
		if wrinkled := c.degrees > 0; b.Wrinkled != wrinkled || (len(b.Warnings) > 0) != wrinkled {
			t.Errorf("%g N·m: wrinkled %v with warnings %q, want wrinkled %v", c.moment, b.Wrinkled, b.Warnings, wrinkled)
		}
	}
	for _, moment := range []float64{169.6461, -169.6461, 1e4} {
		_, err := tube.Bend(moment)
		proof.Fails(t, "collapsed tube", err, "the tube folds")
	}
	_, err := tube.Bend(math.NaN())
	proof.Fails(t, "no moment", err, "moment")
	b, err := fabric.Tube{Radius: 0.3}.Bend(0)
	if err != nil || b.Most != 0 {
		t.Errorf("limp unloaded tube: got %v, %v", b, err)
	}
}

// Free-standing wall posts 2 m high in the design wind of the play-inflatable
// method, 0.5·1.24·11.1² Pa with a force coefficient of 1.5: the wrinkling
// theory of Comer and Levy with statics of a cantilever.
func TestWallPostInWind(t *testing.T) {
	for _, c := range []struct {
		radius, pressure            float64
		moment, wrinkling, collapse float64
		state                       string
	}{
		{0.3, 1000, 137.502, 42.4115, 84.823, "collapsed"},
		{0.5, 1000, 229.171, 196.350, 392.699, "wrinkled"},
		{0.6, 1000, 275.005, 339.292, 678.584, "taut"},
		{0.5, 2000, 229.171, 392.699, 785.398, "taut"},
	} {
		post := fabric.Tube{Radius: c.radius, Pressure: c.pressure}
		moment := fabric.WallMoment(1.5*76.3902*2*c.radius, 2)
		proof.Near(t, "moment", moment, c.moment, 1e-5)
		proof.Near(t, "wrinkling moment", post.WrinklingMoment(), c.wrinkling, 1e-5)
		proof.Near(t, "collapse moment", post.CollapseMoment(), c.collapse, 1e-5)
		b, err := post.Bend(moment)
		switch {
		case c.state == "collapsed":
			proof.Fails(t, "post", err, "the tube folds")
		case err != nil:
			t.Error(err)
		case b.Wrinkled != (c.state == "wrinkled"):
			t.Errorf("post of %g m at %g Pa: got %+v, want %s", c.radius, c.pressure, b, c.state)
		case b.Wrinkled:
			proof.Near(t, "wrinkled half angle", b.HalfAngle, 39.946*units.Deg, 1e-5)
			proof.Near(t, "greatest force along", b.Most, 551.465, 1e-5)
		}
	}
}

// The force along a bent tube, summed over its section, balances the pressure on
// its ends and the moment, whatever the state; so the integral over the section
// checks the half angle and the force found.
func TestBentTubeBalances(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		tube := fabric.Tube{
			Radius:   rapid.Float64Range(0.05, 1).Draw(t, "radius"),
			Pressure: rapid.Float64Range(500, 50e3).Draw(t, "pressure"),
		}
		moment := tube.CollapseMoment() * rapid.Float64Range(0.01, 0.999).Draw(t, "share of collapse")
		b, err := tube.Bend(moment)
		if err != nil {
			t.Fatal(err)
		}
		const steps = 20000
		pull, turn := 0.0, 0.0
		for i := range steps {
			angle := math.Pi * (float64(i) + 0.5) / steps // from the short side
			n := b.Most + (b.Least-b.Most)*(1+math.Cos(angle))/2
			if b.Wrinkled {
				n = math.Max(0, b.Most*(math.Cos(b.HalfAngle)-math.Cos(angle))/(1+math.Cos(b.HalfAngle)))
			}
			arc := 2 * tube.Radius * math.Pi / steps
			pull += n * arc
			turn -= n * arc * tube.Radius * math.Cos(angle)
		}
		end := math.Pi * tube.Radius * tube.Radius * tube.Pressure
		if math.Abs(pull-end) > 1e-4*end {
			t.Errorf("pull: got %g, want the end force %g", pull, end)
		}
		if math.Abs(turn-moment) > 1e-4*moment {
			t.Errorf("moment: got %g, want %g", turn, moment)
		}
	})
}

// Equilibrium, worked by hand: a fabric that may carry 4440 N/m at 2.5 kPa.
func TestLargestRadius(t *testing.T) {
	proof.Near(t, "largest tube", fabric.LargestTube(4440, 2500), 1.776, 1e-9)
	proof.Near(t, "largest sphere", fabric.LargestSphere(4440, 2500), 3.552, 1e-9)
}
