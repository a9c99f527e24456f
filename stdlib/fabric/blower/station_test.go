package blower_test

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"tautline/stdlib/fabric/blower"
	"tautline/stdlib/internal/proof"
	"tautline/stdlib/sheet"
	"tautline/stdlib/units"
)

var wheel = blower.Orifice{Discharge: 0.61, Area: 0.015, Density: 1.2} // the way back through an invented blower

// Closed forms. Two equal parabolic fans: Q = √(p₀/(K+p₀/(2·Q₀)²)). One runs and
// the other stands open: both holes together leak, so that K is that of their
// joint area. With a flap the second is as if it were not there.
func TestSettle(t *testing.T) {
	fan := blower.ParabolicFan(2500, 0.6)
	both := proof.Must(blower.Settle([]blower.Station{{Fan: fan, Flap: true}, {Fan: fan, Flap: true}}, leak))(t)
	proof.Near(t, "two, pressure", both.Pressure, 2164.4241, 1e-7)
	proof.Near(t, "two, flow of each", both.Flow[0], 0.21982478, 1e-7)
	proof.Near(t, "two, leakage", both.Leakage, 0.43964955, 1e-7)

	flapped := proof.Must(blower.Settle([]blower.Station{{Fan: fan, Flap: true}, {Fan: fan, Stopped: true, Flap: true}}, leak))(t)
	proof.Near(t, "one behind a flap, pressure", flapped.Pressure, 1543.0511, 1e-7)
	proof.Near(t, "one behind a flap, flow back", flapped.Flow[1], 0, 0)

	open := proof.Must(blower.Settle([]blower.Station{{Fan: fan, Flap: true}, {Fan: fan, Stopped: true, Passage: wheel}}, leak))(t)
	area := 0.61*0.012 + 0.61*0.015
	k := 1.2 / (2 * area * area)
	q := math.Sqrt(2500 / (k + 2500/(0.6*0.6)))
	proof.Near(t, "one stands open, pressure", open.Pressure, k*q*q, 1e-12)
	proof.Near(t, "one stands open, flow of the other", open.Flow[0], q, 1e-12)
	proof.Near(t, "one stands open, flow back", open.Flow[1], -q*0.015/0.027, 1e-12)
	if len(open.Warnings) != 1 || len(flapped.Warnings) != 0 {
		t.Errorf("warnings %q and %q, want one and none", open.Warnings, flapped.Warnings)
	}

	// A weak fan is pushed back by a strong one: straight fans, so that the
	// balance 0.8·(1-p/3000) = 0.00732·√(2p/1.2) + 0.00915·√(2(p-1000)/1.2) is
	// solved by halving apart from this code.
	strong, weak := blower.LinearFan(3000, 0.8), blower.LinearFan(1000, 0.3)
	low, high := 1000.0, 3000.0
	for range 100 {
		p := (low + high) / 2
		if 0.8*(1-p/3000) > 0.00732*math.Sqrt(2*p/1.2)+0.00915*math.Sqrt(2*(p-1000)/1.2) {
			low = p
		} else {
			high = p
		}
	}
	pushed := proof.Must(blower.Settle([]blower.Station{{Fan: strong, Flap: true}, {Fan: weak, Passage: wheel}}, leak))(t)
	proof.Near(t, "weak fan pushed back, pressure", pushed.Pressure, low, 1e-12)
}

func TestSettleRefuses(t *testing.T) {
	fan := blower.ParabolicFan(2500, 0.6)
	for _, c := range []struct {
		what     string
		stations []blower.Station
		leak     blower.Leak
		want     string
	}{
		{"none", nil, leak, "running blowers: got 0 of 0"},
		{"all stopped", []blower.Station{{Stopped: true, Flap: true}}, leak, "running blowers: got 0 of 1"},
		{"hump", []blower.Station{{Fan: fan, Flap: true}, {Flap: true, Fan: blower.Fan{
			Flow: []units.VolumeFlow{0, 0.2, 0.6}, Pressure: []units.Pressure{2000, 2300, 0}}}}, leak,
			"blower 2: fan pressure: got 2300 after 2000 Pa at 0.2 m³/s, want a falling curve"},
		{"no shut-off", []blower.Station{{Flap: true, Fan: blower.Fan{
			Flow: []units.VolumeFlow{0.1, 0.6}, Pressure: []units.Pressure{2000, 0}}}}, leak, "fan flow: got a first point at 0.1 m³/s"},
		{"short curve", []blower.Station{{Flap: true, Fan: blower.Fan{
			Flow: []units.VolumeFlow{0, 0.1}, Pressure: []units.Pressure{2000, 1900}}}}, leak, "extend the curves"},
		{"no passage", []blower.Station{{Fan: fan}}, leak, "blower 1: passage: discharge coefficient"},
		{"no table", []blower.Station{{Flap: true}}, leak, "blower 1: fan curve: got 0 flows"},
		{"bad leak", []blower.Station{{Fan: fan, Flap: true}}, blower.Leak{Cloth: []blower.ClothLeak{{Speed: -1}}}, "permeability of the cloth: got -1"},
	} {
		_, err := blower.Settle(c.stations, c.leak)
		proof.Fails(t, c.what, err, c.want)
	}
}

// At the settled pressure what the blowers give is what leaks; a flap never
// makes it lower, and a blower that fails never makes it higher.
func TestSettleProperties(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var stations []blower.Station
		for range rapid.IntRange(1, 4).Draw(t, "blowers") {
			p0, q0 := rapid.Float64Range(800, 3000).Draw(t, "shut-off"), rapid.Float64Range(0.1, 1).Draw(t, "free delivery")
			s := blower.Station{Fan: blower.LinearFan(p0, q0), Flap: rapid.Bool().Draw(t, "flap"), Passage: wheel}
			if rapid.Bool().Draw(t, "parabola") {
				s.Fan = blower.ParabolicFan(p0, q0)
			}
			stations = append(stations, s)
		}
		settle := func() blower.Settled {
			s, err := blower.Settle(stations, leak)
			if err != nil {
				t.Fatal(err)
			}
			return s
		}
		all := settle()
		sum := 0.0
		for _, q := range all.Flow {
			sum += q
		}
		if math.Abs(sum-all.Leakage) > 1e-7*all.Leakage {
			t.Errorf("blowers give %g, %g leak", sum, all.Leakage)
		}
		last := len(stations) - 1
		stations[last].Flap = true
		if flapped := settle(); flapped.Pressure < all.Pressure*(1-1e-12) {
			t.Errorf("with a flap %g Pa, without %g Pa", flapped.Pressure, all.Pressure)
		}
		if last > 0 {
			stations[last].Flap, stations[last].Stopped = false, true
			if failed := settle(); failed.Pressure > all.Pressure*(1+1e-12) {
				t.Errorf("one failed: %g Pa, all running: %g Pa", failed.Pressure, all.Pressure)
			}
		}
	})
}

// A measured trial piece and a permeability, scaled by hand.
func TestLeakBySize(t *testing.T) {
	s := blower.SeamLeak{Flow: 0.014, At: 1000, Exponent: 0.65}.Over(120, 10)
	proof.Near(t, "120 m of a trial of 10 m", s.FlowAt(1000), 0.168, 1e-12)
	c := blower.ClothLeak{Speed: 0.5 * units.Mm / units.S, At: 100, Exponent: 1, Area: 80}
	proof.Near(t, "cloth", c.FlowAt(1500), 0.5e-3*80*15, 1e-12)
	both := blower.Leak{Seams: []blower.SeamLeak{s}, Cloth: []blower.ClothLeak{c}}
	proof.Near(t, "both", both.FlowAt(1000), 0.168+0.4, 1e-12)
	proof.Panics(t, "blower: SeamLeak.Over: length of the trial piece: got 0", func() { s.Over(1, 0) })
}

// The curves on the figure are those of the calculation.
func TestDraw(t *testing.T) {
	s := &sheet.Sheet{}
	figure := s.NewFigure("", "flow", "pressure")
	fan := blower.ParabolicFan(2500, 0.6)
	fan.Draw(figure, "fan")
	table.Draw(figure, "table")
	leak.Draw(figure, "leak", 2500)
	for i, q := range figure.Curves[0].X {
		proof.Near(t, "parabola", float64(figure.Curves[0].Y[i]), 2500*(1-float64(q*q)/0.36), 1e-9)
	}
	if len(figure.Curves[1].X) != len(table.Flow) {
		t.Errorf("table: got %d points, want its own %d", len(figure.Curves[1].X), len(table.Flow))
	}
	for i, q := range figure.Curves[2].X {
		proof.Near(t, "leak", float64(q), leak.FlowAt(float64(figure.Curves[2].Y[i])), 1e-12)
	}
	falling := s.NewFigure("", "time", "pressure")
	loss.Draw(falling, "power loss")
	c := falling.Curves[0]
	proof.Near(t, "first", float64(c.Y[0]), loss.Pressure, 1e-12)
	proof.Near(t, "last", float64(c.Y[len(c.Y)-1]), loss.Weight, 1e-12)
	for i := 1; i < len(c.X); i++ {
		if !(c.X[i] > c.X[i-1] && c.Y[i] < c.Y[i-1]) {
			t.Errorf("point %d does not fall", i)
		}
	}
}
