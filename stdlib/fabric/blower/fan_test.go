package blower_test

import (
	"testing"

	"pgregory.net/rapid"

	"tautline/stdlib/fabric/blower"
	"tautline/stdlib/internal/proof"
	"tautline/stdlib/units"
)

// Orifice formula and leakage power law, ASTM E779; values computed apart from
// this code.
func TestLeak(t *testing.T) {
	q := blower.Orifice{Discharge: 0.61, Area: 0.001, Density: 1.2}.FlowAt(1000)
	proof.Near(t, "orifice", q, 0.02490315, 1e-5)
	proof.Near(t, "orifice in m³/h", q/units.M3PerH, 89.6513, 1e-5)
	proof.Near(t, "orifice in cfm", q/units.Cfm, 52.7668, 1e-5)

	seams := blower.SeamLeak{Flow: 0.2, At: 50, Exponent: 0.65}
	proof.Near(t, "seams at 1 kPa", seams.FlowAt(1000), 1.4018434, 1e-6)
	proof.Near(t, "seams at 2 kPa", seams.FlowAt(2000), 2.1997280, 1e-6)

	both := blower.Leak{
		Openings: []blower.Orifice{{Discharge: 0.61, Area: 0.001, Density: 1.2}},
		Seams:    []blower.SeamLeak{seams},
	}
	proof.Near(t, "both", both.FlowAt(1000), 0.02490315+1.4018434, 1e-6)
	proof.Panics(t, "pressure: got -5", func() { both.FlowAt(-5) })
}

// Fan laws, ASHRAE; values worked by hand, the density change to the five
// digits of its density.
func TestFanLaws(t *testing.T) {
	d := blower.Duty{Flow: 0.8, Pressure: 1800, Power: 1100}
	for _, c := range []struct {
		speed, diameter, density float64
		want                     blower.Duty
		tol                      float64
	}{
		{60.0 / 50, 1, 1, blower.Duty{Flow: 0.960, Pressure: 2592.0, Power: 1900.8}, 1e-6},
		{1, 1.1, 1, blower.Duty{Flow: 1.0648, Pressure: 2178.0, Power: 1771.561}, 1e-6},
		{1, 1, 0.955927 / 1.2, blower.Duty{Flow: 0.80, Pressure: 1433.89, Power: 876.27}, 1e-5},
	} {
		got := d.Scaled(c.speed, c.diameter, c.density)
		proof.Near(t, "flow", got.Flow, c.want.Flow, c.tol)
		proof.Near(t, "pressure", got.Pressure, c.want.Pressure, c.tol)
		proof.Near(t, "power", got.Power, c.want.Power, c.tol)
		curve := blower.ParabolicFan(1800, 0.8).Scaled(c.speed, c.diameter, c.density)
		proof.Near(t, "curve's flow", curve.Flow[1], c.want.Flow, c.tol)
		proof.Near(t, "curve's pressure", curve.Pressure[0], c.want.Pressure, c.tol)
	}
}

var (
	leak = blower.Leak{Openings: []blower.Orifice{{Discharge: 0.61, Area: 0.012, Density: 1.2}}}
	// An invented fan.
	table = blower.Fan{
		Flow:     []units.VolumeFlow{0, 0.1, 0.2, 0.3, 0.4, 0.5, 0.6},
		Pressure: []units.Pressure{2500, 2480, 2380, 2150, 1750, 1100, 0},
	}
)

// Closed form for the parabola, Q = √(p₀/(K+p₀/Q₀²)), and the quadratic for the
// straight and piecewise straight curves, computed apart from this code.
func TestOperatingPoint(t *testing.T) {
	for _, c := range []struct {
		what           string
		fan            blower.Fan
		flow, pressure float64
		tol            float64
	}{
		{"parabola", blower.ParabolicFan(2500, 0.6), 0.37121508, 1543.0511, 1e-7},
		{"two parabolas", blower.ParabolicFan(2500, 0.6).Parallel(2), 0.43964955, 2164.4241, 1e-7},
		{"straight", blower.LinearFan(2500, 0.6), 0.32176355, 1159.3185, 1e-7},
		{"table", table, 0.39677815, 1762.887, 1e-6},
	} {
		op, err := blower.OperatingPoint(c.fan, leak)
		if err != nil {
			t.Errorf("%s: %v", c.what, err)
			continue
		}
		proof.Near(t, c.what+", flow", op.Flow, c.flow, c.tol)
		proof.Near(t, c.what+", pressure", op.Pressure, c.pressure, c.tol)
		if len(op.Warnings) > 0 {
			t.Errorf("%s: warnings %q", c.what, op.Warnings)
		}
		proof.Near(t, c.what+", back on the curve", proof.Must(c.fan.FlowAt(op.Pressure))(t), op.Flow, 1e-9)
		proof.Near(t, c.what+", back on the curve", proof.Must(c.fan.PressureAt(op.Flow))(t), op.Pressure, 1e-9)
	}

	op := proof.Must(blower.OperatingPoint(blower.ParabolicFan(2500, 0.6), leak))(t)
	proof.Near(t, "air power", op.AirPower(), 572.804, 1e-6)
	proof.Near(t, "shaft power", op.ShaftPower(0.45), 1272.897, 1e-6)
	proof.Near(t, "temperature rise", op.TemperatureRise(1.2, 0.45), 2.84046, 2e-6)

	sealed := proof.Must(blower.OperatingPoint(table, blower.Leak{}))(t)
	proof.Near(t, "sealed bed, flow", sealed.Flow, 0, 1e-12)
	proof.Near(t, "sealed bed, pressure", sealed.Pressure, 2500, 1e-12)
}

func TestNoOperatingPoint(t *testing.T) {
	short := blower.Fan{Flow: []units.VolumeFlow{0.1, 0.2}, Pressure: []units.Pressure{2480, 2380}}
	_, err := blower.OperatingPoint(short, leak)
	proof.Fails(t, "leak beyond the curve", err, "extend the fan's curve")
	_, err = blower.OperatingPoint(short, blower.Leak{})
	proof.Fails(t, "leak before the curve", err, "down to shut-off")
	_, err = blower.OperatingPoint(blower.Fan{Flow: []units.VolumeFlow{0, 1}}, leak)
	proof.Fails(t, "uneven table", err, "got 2 flows and 0 pressures")
	_, err = blower.OperatingPoint(blower.Fan{Flow: []units.VolumeFlow{1, 0}, Pressure: []units.Pressure{0, 9}}, leak)
	proof.Fails(t, "falling flows", err, "want rising flows")

	humped := blower.Fan{Flow: []units.VolumeFlow{0, 0.2, 0.6}, Pressure: []units.Pressure{2000, 2300, 0}}
	if op := proof.Must(blower.OperatingPoint(humped, leak))(t); len(op.Warnings) != 1 {
		t.Errorf("humped fan: warnings %q, want one", op.Warnings)
	}
}

// A bed's pressure falls as it leaks more, rises with a second fan, and at its
// operating point the fan gives just what leaks.
func TestOperatingPointProperties(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p0 := rapid.Float64Range(500, 5000).Draw(t, "shut-off pressure")
		q0 := rapid.Float64Range(0.1, 2).Draw(t, "free delivery")
		fan := blower.LinearFan(p0, q0)
		switch rapid.IntRange(0, 2).Draw(t, "kind") {
		case 1:
			fan = blower.ParabolicFan(p0, q0)
		case 2:
			fan = table
		}
		leak := blower.Leak{
			Openings: []blower.Orifice{{Discharge: 0.61, Density: 1.2, Area: rapid.Float64Range(1e-4, 0.05).Draw(t, "opening")}},
			Seams: []blower.SeamLeak{{At: 50, Exponent: rapid.Float64Range(0.5, 1).Draw(t, "exponent"),
				Flow: rapid.Float64Range(0, 0.1).Draw(t, "seam leak")}},
		}
		settle := func(fan blower.Fan, leak blower.Leak) blower.Point {
			op, err := blower.OperatingPoint(fan, leak)
			if err != nil {
				t.Fatal(err)
			}
			return op
		}
		op := settle(fan, leak)
		if lost := leak.FlowAt(op.Pressure); !(lost-op.Flow < 1e-9*lost && op.Flow-lost < 1e-9*lost) {
			t.Errorf("fan gives %g, leak takes %g", op.Flow, lost)
		}
		if two := settle(fan.Parallel(2), leak); !(two.Pressure > op.Pressure) {
			t.Errorf("second fan: %g Pa after %g Pa", two.Pressure, op.Pressure)
		}
		leak.Openings = append(leak.Openings, blower.Orifice{Discharge: 0.61, Density: 1.2, Area: 0.001})
		if more := settle(fan, leak); !(more.Pressure < op.Pressure) {
			t.Errorf("more leak: %g Pa after %g Pa", more.Pressure, op.Pressure)
		}
	})
}
