package blower_test

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"tautline/stdlib/fabric/blower"
	"tautline/stdlib/internal/ode"
	"tautline/stdlib/internal/proof"
	"tautline/stdlib/units"
)

var loss = blower.PowerLoss{
	Leak:   blower.Leak{Openings: []blower.Orifice{{Discharge: 1, Area: 0.01, Density: 1.2}}},
	Volume: 50, Pressure: 1000, Weight: blower.WeightPressure(0.65), Ambient: 101325, Exponent: 1,
}

// Closed forms, computed apart from this code: the root of the pressure falls
// evenly, 0.708057 s from 1000 to 500 Pa through 0.01 m²; without any exchange of
// heat 1.4 times faster; then 1534 s to sink flat under 0.65 kg/m², or 511 s
// through a zip of 0.05 m² with a coefficient of 0.6.
func TestPowerLoss(t *testing.T) {
	proof.Near(t, "half", proof.Must(loss.PressureTime(500))(t), 0.708057, 1e-6)
	proof.Near(t, "no time", proof.Must(loss.PressureTime(1000))(t), 0, 1e-15)
	all := 2.417458 * (1 - math.Sqrt(loss.Weight/1000))
	proof.Near(t, "all but the weight", proof.Must(loss.PressureTime(loss.Weight))(t), all, 1e-6)
	fast := loss
	fast.Exponent = 1.4
	proof.Near(t, "adiabatic", proof.Must(fast.PressureTime(fast.Weight))(t), 1.726756*(1-math.Sqrt(loss.Weight/1000)), 1e-6)
	proof.Near(t, "sinking", proof.Must(loss.SinkTime())(t), 1534.01, 1e-5)
	zipped := loss
	zipped.Leak = blower.Leak{Openings: []blower.Orifice{{Discharge: 0.6, Area: 0.05, Density: 1.2}}}
	proof.Near(t, "sinking through a zip", proof.Must(zipped.SinkTime())(t), 511.34, 1e-5)

	_, err := loss.PressureTime(1)
	proof.Fails(t, "less than the weight", err, "pressure to fall to: got 1, want 6.37")
	_, err = loss.PressureTime(1200)
	proof.Fails(t, "more than it has", err, "pressure to fall to: got 1200")
	tight := loss
	tight.Leak = blower.Leak{}
	_, err = tight.SinkTime()
	proof.Fails(t, "tight", err, "leak: got none")
	limp := loss
	limp.Pressure = 3
	_, err = limp.SinkTime()
	proof.Fails(t, "limp", err, "pressure: got 3, want more than 6.37")
}

// Equilibrium of a rider, worked by hand: patch m·g/p; 85 kg on 0.83357 m² keep
// 1000 Pa.
func TestStandingPatch(t *testing.T) {
	for _, c := range []struct{ mass, pressure, area float64 }{
		{25, 1000, 0.24517}, {65, 1200, 0.53119}, {85, 1500, 0.55571}, {85, 1000, 0.83357},
	} {
		proof.Near(t, "patch", blower.StandingPatch(c.mass, c.pressure), c.area, 1e-4/4)
	}
	proof.Near(t, "its diameter", 2*math.Sqrt(blower.StandingPatch(85, 1000)/math.Pi), 1.0302, 1e-4)
}

// Worked by hand: 80 kg on 0.8 m² keep 980.665 Pa; through 0.01 m² at that
// pressure 0.01·√(2·980.665/1.2) m³/s leave, from below two riders 2·0.8·0.5 m³.
func TestGrounding(t *testing.T) {
	l := loss
	l.Pressure = 1500
	g := proof.Must(l.Grounding(blower.Riders{Count: 2, Mass: 80, Patch: 0.8, Sink: 0.5}))(t)
	proof.Near(t, "pressure", g.Pressure, 980.665, 1e-12)
	soft := 50 * math.Sqrt(2*1.2) / (0.01 * 101325) * (math.Sqrt(1500) - math.Sqrt(980.665))
	down := 2 * 0.8 * 0.5 / (0.01 * math.Sqrt(2*980.665/1.2))
	proof.Near(t, "soft", g.Soft, soft, 1e-9)
	proof.Near(t, "down", g.Down, down, 1e-12)
	proof.Near(t, "time", g.Time, soft+down, 1e-9)

	_, err := l.Grounding(blower.Riders{Count: 1, Mass: 130, Patch: 0.8, Sink: 0.5})
	proof.Fails(t, "heavy rider", err, "bed pressure: got 1500 Pa, want more than 1594 Pa: it does not carry 130 kg on 0.8 m²")
	_, err = l.Grounding(blower.Riders{Mass: 80, Patch: 0.8, Sink: 0.5})
	proof.Fails(t, "no rider", err, "riders: got 0, want 1 to 1000")
}

// The time by Gauss's rule is that of the differential equation of the gas,
// dp/dt = -n·(pa/V)·Q(p), integrated step by step.
func TestPressureTimeByIntegration(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		l := blower.PowerLoss{
			Leak: blower.Leak{
				Openings: []blower.Orifice{{Discharge: 0.61, Density: 1.2, Area: rapid.Float64Range(0, 0.05).Draw(t, "opening")}},
				Seams:    []blower.SeamLeak{{Flow: rapid.Float64Range(0.01, 0.5).Draw(t, "seams"), At: 1000, Exponent: rapid.Float64Range(0.5, 1).Draw(t, "exponent")}},
			},
			Volume:   rapid.Float64Range(1, 100).Draw(t, "volume"),
			Pressure: rapid.Float64Range(800, 5000).Draw(t, "pressure"),
			Weight:   rapid.Float64Range(3, 20).Draw(t, "weight"),
			Ambient:  rapid.Float64Range(80e3, 103e3).Draw(t, "ambient"),
			Exponent: rapid.Float64Range(1, 1.4).Draw(t, "polytropic exponent"),
		}
		want, err := l.PressureTime(l.Weight)
		if err != nil {
			t.Fatal(err)
		}
		run, err := ode.System{
			Derivative: func(_ float64, y, dydt []float64) {
				dydt[0] = -l.Exponent * l.Ambient / l.Volume * l.Leak.FlowAt(math.Max(0, y[0]))
			},
			Events: []func(float64, []float64) float64{func(_ float64, y []float64) float64 { return y[0] - l.Weight }},
			Scale:  []float64{1e-3}, Tolerance: 1e-10,
		}.Run(0, []float64{l.Pressure}, 2*want)
		if err != nil {
			t.Fatal(err)
		}
		if got, _ := run.Last(); run.Event != 0 || math.Abs(got-want) > 1e-7*want {
			t.Errorf("integrated %g s, by Gauss's rule %g s", got, want)
		}
	})
}

// A hotter and higher site: thinner air blows less pressure and leaks faster.
// Worked by hand with the ideal gas law: 1500 m and 35 °C have 0.955927 kg/m³.
func TestSite(t *testing.T) {
	rho := blower.AirDensity(blower.StandardPressure(1500*units.M), 35+units.ZeroCelsius)
	fan := blower.ParabolicFan(2500, 0.6).Scaled(1, 1, rho/1.2)
	thin := blower.Leak{Openings: []blower.Orifice{{Discharge: 0.61, Area: 0.012, Density: rho}}}
	op := proof.Must(blower.OperatingPoint(fan, thin))(t)
	// Fan and orifice both scale with the density, so the flow stays and the
	// pressure goes with it.
	proof.Near(t, "flow", op.Flow, 0.37121508, 1e-7)
	proof.Near(t, "pressure", op.Pressure, 1543.0511*0.955927/1.2, 1e-5)
}

// Stoecker and Jones, Refrigeration and Air Conditioning, fans and ducts: a fan
// of 2.4 m³/s, 340 Pa and 1.8 kW at 20 °C takes 1.685 kW at 40 °C (printed
// answer, to its four digits).
func TestPublishedFan(t *testing.T) {
	d := blower.Duty{Flow: 2.4, Pressure: 340, Power: 1800}.Scaled(1, 1, 293.15/313.15)
	proof.Near(t, "flow", d.Flow, 2.4, 0)
	proof.Near(t, "pressure", d.Pressure, 318.3, 1e-3)
	proof.Near(t, "power", d.Power, 1685, 1e-3)
}
