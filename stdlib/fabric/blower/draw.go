package blower

import (
	"math"

	"tautline/stdlib/internal/argument"
	"tautline/stdlib/sheet"
	"tautline/stdlib/units"
)

// Draw draws the fan's curve on a figure of pressure over flow.
//
// It panics if the curve is none.
func (f Fan) Draw(figure *sheet.Figure, name string) {
	argument.Demand("blower: Fan.Draw", f.check())
	if !f.Parabolic {
		figure.Curve(name, f.Flow, f.Pressure)
		return
	}
	var flows, pressures []float64
	for k := range 41 {
		q, p := f.at(0, float64(k)/40)
		flows, pressures = append(flows, q), append(pressures, p)
	}
	figure.Curve(name, flows, pressures)
}

// Draw draws the leak on a figure of pressure over flow, up to a gauge pressure.
//
// It panics if the pressure is not more than 0 or a part of the leak is out of
// its range.
func (l Leak) Draw(figure *sheet.Figure, name string, highest units.Pressure) {
	argument.Demand("blower: Leak.Draw", argument.Positive("highest pressure", highest))
	var flows, pressures []float64
	for k := range 41 {
		p := highest * float64(k) / 40
		flows, pressures = append(flows, l.FlowAt(p)), append(pressures, p)
	}
	figure.Curve(name, flows, pressures)
}

// Draw draws how the pressure falls on a figure of pressure over time, until
// only the fabric's weight is left.
//
// It panics where PressureTime gives an error.
func (l PowerLoss) Draw(figure *sheet.Figure, name string) {
	argument.Demand("blower: PowerLoss.Draw", l.check())
	var times, pressures []float64
	for k := range 41 {
		// Even steps of the root of the pressure, which falls nearly evenly.
		root := math.Sqrt(l.Pressure) + (math.Sqrt(l.Weight)-math.Sqrt(l.Pressure))*float64(k)/40
		p := math.Max(l.Weight, root*root)
		t, err := l.PressureTime(math.Min(p, l.Pressure))
		argument.Demand("blower: PowerLoss.Draw", err)
		times, pressures = append(times, t), append(pressures, p)
	}
	figure.Curve(name, times, pressures)
}
