package crew

import (
	"fmt"
	"slices"

	"tautline/stdlib/sheet"
	"tautline/stdlib/units"
)

// Measures of the chart, in its own width: rows are as low as numbers on a phone
// let them be.
const (
	rowHigh = 0.048
	barHigh = 0.031
	margin  = 0.03 // for the numbers
)

// Draw draws the schedule as bars over time, one below the other, in the looks of
// who does them; each row has the number of its step. It takes a drawing of its
// own.
//
// Source: the schedule.
func (s Schedule) Draw(d *sheet.Drawing) {
	d.Schematic()
	if len(s.Begin) == 0 || s.Total <= 0 {
		return
	}
	low := -rowHigh * float64(len(s.Begin))
	step := tick(s.Total)
	for i := 0; ; i++ {
		t := float64(i) * step
		if t > s.Total*(1+1e-9) {
			break
		}
		d.Thin([]units.Length{t / s.Total, t / s.Total}, []units.Length{0, low})
		d.Text(fmt.Sprintf("%.0f", t/units.Min), t/s.Total, low-0.6*rowHigh)
	}
	who := slices.Clone(s.Who)
	slices.Sort(who)
	for _, w := range slices.Compact(who) { // the legend in the order of names
		for i := range s.Begin {
			if s.Who[i] != w {
				continue
			}
			left, right := s.Begin[i]/s.Total, s.End[i]/s.Total
			top := -rowHigh*float64(i) - (rowHigh-barHigh)/2
			d.Area(w, []units.Length{left, right, right, left}, []units.Length{top, top, top - barHigh, top - barHigh})
		}
	}
	for i := range s.Begin {
		y := -rowHigh * (float64(i) + 0.5)
		d.Text(fmt.Sprintf("%.0f", s.Number[i]), -margin, y)
	}
	d.Text("minutes", 0.5, low-1.5*rowHigh)
}

// tick is the time between two upright lines: some five to nine of them.
func tick(total units.Time) units.Time {
	for _, m := range []float64{1, 2, 5, 10, 15, 30, 60} {
		if total <= 9*m*units.Min {
			return m * units.Min
		}
	}
	return 120 * units.Min
}
