package quantity

import (
	"math"
	"testing"
)

func TestChoose(t *testing.T) {
	for _, c := range []struct {
		alias  string
		v      float64
		si, us string
	}{
		{"Number", 0.6, "", ""},
		{"Angle", 0.5, "°", "°"},
		{"Length", 0, "mm", "in"},
		{"Length", 0.3, "mm", "in"},
		{"Length", -0.999, "mm", "in"},
		{"Length", 1, "m", "in"},
		{"Length", 6, "m", "ft"},
		{"Area", 1.2e-3, "mm²", "in²"},
		{"Area", 36, "m²", "ft²"},
		{"Volume", 5e-5, "cm³", "in³"},
		{"Volume", 0.02, "L", "in³"},
		{"Volume", 0.5, "m³", "ft³"},
		{"SecondMoment", 2e-6, "cm⁴", "in⁴"},
		{"Mass", 0.05, "g", "oz"},
		{"Mass", 75, "kg", "lb"},
		{"Time", 0.02, "ms", "ms"},
		{"Time", 0.35, "s", "s"},
		{"Time", 180, "min", "min"},
		{"Time", 10800, "h", "h"},
		{"Time", 30 * 8760 * 3600, "yr", "yr"},
		{"Frequency", 2e-7 / 3600, "1/h", "1/h"}, // dangerous failures
		{"Speed", 12, "m/s", "mph"},
		{"Acceleration", 9.8, "m/s²", "ft/s²"},
		{"AngularSpeed", 0.05, "°/s", "°/s"},
		{"AngularSpeed", 2, "rpm", "rpm"},
		{"VolumeFlow", 0.3, "m³/h", "cfm"},
		{"Force", 450, "N", "lbf"},
		{"Force", 4500, "kN", "lbf"},
		{"ForcePerLength", 540, "N/m", "lbf/in"},
		{"ForcePerLength", 37e3, "kN/m", "lbf/in"},
		{"Pressure", 250, "Pa", "inH₂O"},
		{"Pressure", 1800, "kPa", "inH₂O"},
		{"Pressure", 20e3, "kPa", "psi"},
		{"Pressure", 355e6, "MPa", "ksi"},
		{"Pressure", 210e9, "GPa", "ksi"},
		{"Moment", 85, "N·m", "lbf·ft"},
		{"Moment", -2500, "kN·m", "lbf·ft"},
		{"Power", 60, "W", "W"},
		{"Power", 1500, "kW", "hp"},
		{"MassPerArea", 0.65, "g/m²", "oz/yd²"},
		{"MassPerArea", 25, "kg/m²", "lb/ft²"},
		{"RotationalStiffness", 50, "N·m/rad", "lbf·ft/rad"},
		{"Temperature", 293.15, "K", "K"},
		{"Frequency", 4, "1/s", "1/s"},
	} {
		for _, s := range []struct {
			sys  System
			want string
		}{{SI, c.si}, {0, c.si}, {US, c.us}} {
			if got := Choose(of(c.alias), c.v, s.sys).Symbol; got != s.want {
				t.Errorf("Choose(%s, %g, %s): got %s, want %s", c.alias, c.v, s.sys, got, s.want)
			}
		}
	}
}

func TestChooseAs(t *testing.T) {
	for _, c := range []struct {
		alias  string
		v      float64
		si, us string
	}{
		{"Temperature", 293.15, "20\u00a0°C", "68\u00a0°F"},
		{"TemperatureDifference", 30, "30\u00a0K", "54\u00a0Δ°F"},
		{"Energy", 1.3558179483314004e3, "1.356\u00a0kJ", "1000\u00a0ft·lbf"},
		{"Moment", 1.3558179483314004e3, "1.356\u00a0kN·m", "1000\u00a0lbf·ft"},
		{"Frequency", 4.2, "4.2\u00a0Hz", "4.2\u00a0Hz"},
		{"SectionModulus", 2.5e-3, "2500\u00a0cm³", "152.6\u00a0in³"},
	} {
		for sys, want := range map[System]string{SI: c.si, US: c.us} {
			u, ok := ChooseAs(c.alias, c.v, sys)
			if got := Text(c.v, u, 0); !ok || got != want {
				t.Errorf("ChooseAs(%s, %g, %s): got %s, want %s", c.alias, c.v, sys, got, want)
			}
		}
	}
	if u, ok := ChooseAs("Any", 1, SI); ok {
		t.Errorf(`ChooseAs("Any"): got %v, want none`, u)
	}
}

func TestChooseComposed(t *testing.T) {
	for _, c := range []struct {
		d    Dimension
		want string
	}{
		{of("Mass").Mul(of("Volume")), "kg·m³"},
		{of("Mass").Mul(of("Volume")).Mul(of("Angle")), "kg·m³"},
		{of("Length").Mul(of("Angle")), "mm"},
		{of("Angle").Pow(Int(2)), ""},
		{of("Moment").Mul(of("Angle")), "N·m"},
	} {
		if got := Choose(c.d, 0.1, SI); got.Symbol != c.want || !got.Dimension.Equal(c.d) {
			t.Errorf("Choose(%s): got %q of %s, want %q", c.d, got.Symbol, got.Dimension, c.want)
		}
	}
}

func TestChooseFor(t *testing.T) {
	vs := []float64{80, -2500, math.NaN(), math.Inf(1)}
	if got := ChooseFor(of("Pressure"), vs, SI).Symbol; got != "kPa" {
		t.Errorf("ChooseFor(%v): got %s, want kPa", vs, got)
	}
	if got := ChooseFor(of("Pressure"), nil, SI).Symbol; got != "Pa" {
		t.Errorf("ChooseFor(nil): got %s, want Pa", got)
	}
}

// TestStep checks that noise does not move a value off its step.
func TestStep(t *testing.T) {
	for v, want := range map[float64]string{
		999: "Pa", 1000: "kPa", 999.9999999999999: "kPa", math.NaN(): "Pa", math.Inf(-1): "GPa",
	} {
		if got := Choose(of("Pressure"), v, SI).Symbol; got != want {
			t.Errorf("Choose(pressure, %v): got %s, want %s", v, got, want)
		}
	}
}

// TestKinds checks that each kind's steps rise from 0, measure its dimension
// and are at home in their system.
func TestKinds(t *testing.T) {
	for i := range kinds {
		k := &kinds[i]
		for sys, rungs := range map[System][]rung{SI: ladders[k][0], US: ladders[k][1]} {
			last := -1.0
			for _, r := range rungs {
				if r.from <= last || last < 0 && r.from != 0 {
					t.Errorf("%s: %s from %g after %g", k.name, r.unit.Symbol, r.from, last)
				}
				last = r.from
				if !r.unit.Dimension.Equal(k.dimension) {
					t.Errorf("%s: %s measures %s", k.name, r.unit.Symbol, r.unit.Dimension)
				}
				if r.unit.Systems&sys == 0 {
					t.Errorf("%s: %s is not at home in %s", k.name, r.unit.Symbol, sys)
				}
			}
		}
	}
}
