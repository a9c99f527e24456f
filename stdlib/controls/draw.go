package controls

import (
	"strings"

	"tautline/stdlib/quantity"
	"tautline/stdlib/sheet"
	"tautline/stdlib/units"
)

// Sizes of the block drawing, in lengths that mean nothing: wide enough for its
// words on a phone.
const (
	wide    = 20 * units.M  // of a subsystem
	tall    = 1.2 * units.M // of a part
	between = 0.4 * units.M // from channel to channel
	header  = 2.6 * units.M // of a subsystem, for its name and what it reaches
	gap     = 1 * units.M   // from subsystem to subsystem, for the arrow
	inset   = 0.5 * units.M // of the parts
	apart   = 0.8 * units.M // from part to part
)

// Draw draws the safety function as blocks from what notices, at the top, to what
// acts: in each subsystem one row of parts for each channel.
//
// What Function.Assess refuses is an error.
func (f Function) Draw(d *sheet.Drawing) error {
	reached, err := f.Assess()
	if err != nil {
		return err
	}
	d.Schematic()
	y := 0.0
	for i, s := range f.Parts {
		if i > 0 {
			d.Arrow("", wide/2, y, wide/2, y-gap)
			y -= gap
		}
		y = s.draw(d, reached.Parts[i], y)
	}
	return nil
}

// draw draws the subsystem below a height and returns where it ends.
func (s Subsystem) draw(d *sheet.Drawing, a Assessment, top float64) float64 {
	rows := [][]Part{s.One}
	if len(s.Two) > 0 {
		rows = append(rows, s.Two)
	}
	if len(s.One) == 0 {
		rows = nil
	}
	bottom := top - header - float64(len(rows))*(tall+between)
	d.Outline([]float64{0, wide, wide, 0}, []float64{top, top, bottom, bottom})
	d.Text(s.Name, wide/2, top-0.8)
	d.Text(a.words(), wide/2, top-1.9)
	for k, parts := range rows {
		y := top - header - float64(k)*(tall+between)
		middle := y - tall/2
		w := (wide - 2*inset + apart) / float64(len(parts))
		for i, p := range parts {
			left := inset + w*float64(i)
			right := left + w - apart
			d.Thin([]float64{left, right, right, left, left}, []float64{y, y, y - tall, y - tall, y})
			d.Text(p.Name, (left+right)/2, middle)
			if i > 0 {
				d.Thin([]float64{left - apart, left}, []float64{middle, middle})
			}
		}
	}
	return bottom
}

// words say what the subsystem reaches.
func (a Assessment) words() string {
	var out []string
	if a.Category != "" {
		out = append(out, "category "+a.Category)
	}
	rate := quantity.Format(a.Rate, quantity.Unit{Symbol: "1/h", Factor: units.PerH}, 2)
	return strings.Join(append(out, rate+"/h", "level "+a.Level), ", ") // one line of a label
}
