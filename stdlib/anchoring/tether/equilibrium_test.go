package tether_test

import (
	"math"
	"testing"

	"tautline/stdlib/anchoring"
	"tautline/stdlib/anchoring/tether"
	"tautline/stdlib/anchoring/windload"
	"tautline/stdlib/internal/proof"
	"tautline/stdlib/units"
)

// plain are factors of 1, for cases that are published without factors.
func plain() anchoring.Factors { return anchoring.Factors{PermanentFavourable: 1, Wind: 1} }

// guyed is a stiff mast of 1 m on a foot that cannot slip, with guys from its top
// at bearings, all at one angle to the ground.
func guyed(angle, pretension, stiffness float64, bearings ...float64) tether.Set {
	s := tether.Set{Density: 1.25, Factors: plain(), Mass: 1, Feet: []tether.Foot{{Stiffness: 1e7 * stiffness, Friction: 100}}}
	for i, b := range bearings {
		s.Anchors = append(s.Anchors, tether.Anchor{Name: string(rune('A' + i)), Eye: anchoring.Point{Z: 1},
			Ground: anchoring.At(b*units.Deg, 1/math.Tan(angle*units.Deg), 0), Holding: 1e4, Stiffness: stiffness, Pretension: pretension})
	}
	return s
}

// at is a level force on the mast's top towards a bearing.
func at(force, towards float64) windload.Load {
	sin, cos := math.Sincos(towards * units.Deg)
	return windload.Load{East: force * sin, North: force * cos, AboutEast: -force * cos, AboutNorth: force * sin}
}

// Two opposing guys at 50° with a pretension of 600 N: both taut up to
// 2·T0·cos(50°), then the lee one is slack and the pretension no longer matters.
// Statics; values computed apart from this code.
func TestOpposingGuys(t *testing.T) {
	set := guyed(50, 600, 1e4, 270, 90)
	for _, c := range []struct{ force, windward, lee float64 }{
		{500, 988.931, 211.069}, {771.345, 1200, 0}, {800, 1244.579, 0}, {1500, 2333.586, 0},
	} {
		h := proof.Must(set.Under(at(c.force, 90)))(t)
		proof.Near(t, "windward guy", h.Tension[0], c.windward, 1e-6)
		if math.Abs(h.Tension[1]-c.lee) > 2e-3 { // the foot gives by 1e-7 of a guy's stretch
			t.Errorf("lee guy under %g N: got %.6g N, want %.6g N", c.force, h.Tension[1], c.lee)
		}
	}
}

// Three equal guys at 120° and 45° without pretension, on a load of 1000 N.
// Statics; values computed apart from this code.
func TestThreeGuys(t *testing.T) {
	set := guyed(45, 0, 1e4, 0, 120, 240)
	for _, c := range []struct {
		towards float64
		want    [3]float64
	}{
		{0, [3]float64{0, 1414.2136, 1414.2136}},
		{30, [3]float64{0, 816.4966, 1632.9932}},
		{60, [3]float64{0, 0, 1414.2136}}, // one guy alone
		{90, [3]float64{816.4966, 0, 1632.9932}},
	} {
		h := proof.Must(set.Under(at(1000, c.towards)))(t)
		for i, want := range c.want {
			if math.Abs(h.Tension[i]-want) > 2e-4 { // printed to four decimals
				t.Errorf("towards %g°, guy %d: got %.7g N, want %.7g N", c.towards, i, h.Tension[i], want)
			}
		}
	}
}

// A rigid bar on three ties at 0, 1 and 3 m, with stiffnesses 1:2:1, lifted by
// 10 kN: exact fractions from statics and Hooke's law.
func TestBarOnThreeTies(t *testing.T) {
	set := tether.Set{Density: 1.25, Factors: plain()}
	for i, x := range []float64{0, 1, 3} {
		set.Anchors = append(set.Anchors, tether.Anchor{Name: string(rune('A' + i)), Eye: anchoring.Point{X: x, Z: 1}, Ground: anchoring.Point{X: x},
			Holding: 1e4, Stiffness: []float64{1e6, 2e6, 1e6}[i]})
	}
	for _, c := range []struct {
		x    float64
		want [3]float64
	}{
		{1, [3]float64{60e3 / 19, 100e3 / 19, 30e3 / 19}},
		{2, [3]float64{10e3 / 19, 80e3 / 19, 100e3 / 19}},
		{0.25, [3]float64{7500, 2500, 0}}, // the third slack
	} {
		h := proof.Must(set.Under(windload.Load{Lift: 10e3, AboutNorth: -10e3 * c.x}))(t)
		for i, want := range c.want {
			if math.Abs(h.Tension[i]-want) > 1e-9*10e3 {
				t.Errorf("lifted at %g m, tie %d: got %.10g N, want %.10g N", c.x, i, h.Tension[i], want)
			}
		}
	}
	// Beyond the last tie nothing holds the other end down.
	if h := proof.Must(set.Under(windload.Load{Lift: 10e3, AboutNorth: -10e3 * 3.5}))(t); h.Stands || h.State != tether.StateTips || !math.IsInf(h.Utilisation, 1) || h.Tension != nil {
		t.Errorf("lifted beyond the last tie: got %+v, want lost, tipping", h)
	}
}

// Two straps of 50 and 150 N/mm side by side, the second with 5 mm to take up:
// it pulls from 250 N on. Exact.
func TestStrapWithSlack(t *testing.T) {
	set := tether.Set{Density: 1.25, Factors: plain(), Anchors: []tether.Anchor{
		{Name: "A", Eye: anchoring.Point{Z: 1}, Holding: 1e4, Stiffness: 50 * units.NPerMm},
		{Name: "B", Eye: anchoring.Point{Z: 1}, Holding: 1e4, Stiffness: 150 * units.NPerMm, Slack: 5 * units.Mm}}}
	for _, c := range []struct{ force, first, second, movement float64 }{
		{200, 200, 0, 0.004}, {250, 250, 0, 0.005}, {1000, 437.5, 562.5, 0.00875},
	} {
		h := proof.Must(set.Under(windload.Load{Lift: c.force}))(t)
		proof.Near(t, "first strap", h.Tension[0], c.first, 1e-9)
		proof.Near(t, "second strap", h.Tension[1]+1, c.second+1, 1e-9)
		proof.Near(t, "movement", h.Movement, c.movement, 1e-9)
	}
}

// Three feet and a weight of 4000 N, pushed at 1 m: the body tips over an edge,
// never over a point. Worked by hand from the distance of each edge.
func TestTippingOverAnEdge(t *testing.T) {
	set := tether.Set{Density: 1.25, Factors: plain(), Mass: 4000 / units.Gn}
	for _, p := range []anchoring.Point{{X: 1.2}, {X: -0.6, Y: 1.0392305}, {X: -0.6, Y: -1.0392305}} {
		set.Feet = append(set.Feet, tether.Foot{At: p, Stiffness: 1e7, Friction: 10})
	}
	critical := func(east, north float64) float64 {
		low, high := 0.0, 1e4
		for high-low > 1e-5 {
			middle := (low + high) / 2
			h := proof.Must(set.Under(windload.Load{East: middle * east, North: middle * north, AboutEast: -middle * north, AboutNorth: middle * east}))(t)
			switch {
			case h.Stands:
				low = middle
			case h.State != tether.StateTips:
				t.Fatalf("pushed by %g N: got state %q, want it to tip", middle, h.State)
			default:
				high = middle
			}
		}
		return low
	}
	least := math.Inf(1)
	for degrees := 0; degrees < 360; degrees += 5 {
		sin, cos := math.Sincos(float64(degrees) * math.Pi / 180)
		got := critical(cos, sin) // degrees from the first foot, anticlockwise
		if want, ok := map[int]float64{0: 4800, 90: 2771.281, 60: 2400, 180: 2400}[degrees]; ok {
			proof.Near(t, "critical force", got, want, 1e-6)
		}
		least = math.Min(least, got)
	}
	proof.Near(t, "least over all directions", least, 2400, 1e-6)
}

// A block 5 m wide, 3 m high, 4 m deep, 150 kg, in the play-inflatable wind with
// the factors of EN 1990: with friction of 0.4 it slides until its windward straps
// at 45° hold 2069.409 N in all; with 0.2, 2726.356 N. Without straps it tips,
// by the factors of EN 13814 too (1.46 and 1.05 of its righting moment). Worked by hand.
func TestBlockSlides(t *testing.T) {
	wind := anchoring.PlayInflatableWind()
	for _, c := range []struct{ mu, want float64 }{{0.4, 2069.409}, {0.2, 2726.356}} {
		set := tether.Set{Density: wind.Density, Factors: anchoring.EquilibriumFactors(), Mass: 150,
			Faces: windload.Box(5, 4, 3, 0, wind.Coefficient)}
		for _, p := range []anchoring.Point{{X: 2.5, Y: 2}, {X: -2.5, Y: 2}, {X: 2.5, Y: -2}, {X: -2.5, Y: -2}} {
			set.Feet = append(set.Feet, tether.Foot{At: p, Stiffness: 1e9, Friction: c.mu})
			ground := p
			ground.Z = -1 // a strap at the edge of the base, at 45° into the ground
			ground.Y += math.Copysign(1, p.Y)
			set.Anchors = append(set.Anchors, tether.Anchor{Name: string(rune('A' + len(set.Anchors))), Eye: p, Ground: ground, Holding: 1600, Stiffness: 1e5})
		}
		h := proof.Must(set.Solve(wind.Speed, 0))(t)
		if h.State != tether.StateSlid {
			t.Errorf("friction %g: got state %q, want %q", c.mu, h.State, tether.StateSlid)
		}
		proof.Near(t, "windward straps", h.Tension[0]+h.Tension[1], c.want, 1e-6)
		proof.Near(t, "lee straps", h.Tension[2]+h.Tension[3], 0, 1e-6)

		set.Anchors = nil
		for _, f := range []anchoring.Factors{anchoring.EquilibriumFactors(), anchoring.AmusementFactors()} {
			set.Factors = f
			if h := proof.Must(set.Solve(wind.Speed, 0))(t); h.State != tether.StateTips {
				t.Errorf("%s without straps: got state %q, want %q", f.Name, h.State, tether.StateTips)
			}
			if h := proof.Must(set.Solve(0.8*wind.Speed, 0))(t); h.State != tether.StateSlides { // 0.64 of 1.46 tips no more
				t.Errorf("%s without straps, less wind: got state %q, want %q", f.Name, h.State, tether.StateSlides)
			}
		}
	}
}
