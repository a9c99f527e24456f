package sheet

import (
	"fmt"

	"tautline/stdlib/units"
)

// A Rose is a polar diagram over the direction of the compass: north is up,
// angles turn clockwise from it, and a value is a distance from the middle.
// Every value has one dimension.
//
//	r := sheet.NewRose("Wind that the anchors bear, by direction")
//	r.Curve("all anchors set", from, speeds)
//	r.Limit("limit of operation", 12*units.MPerS)
type Rose struct {
	Title  string
	Curves []RoseCurve
	Limits []RoseLimit
	Alias  Alias `json:",omitempty"` // dimension of the values, where the library draws

	sheet *Sheet
	index int
}

type (
	// RoseCurve is a line through values by direction. Not for cells.
	RoseCurve struct {
		Site   int
		Name   string
		Angles []Float
		Values []Float
	}
	// RoseLimit is a named circle. Not for cells.
	RoseLimit struct {
		Site int
		Name string
		At   Float
	}
)

// NewRose puts an empty rose on the sheet.
func NewRose(title string) *Rose { return own.NewRose(title) }

// NewRose is the function NewRose on this sheet. Not for cells.
func (s *Sheet) NewRose(title string) *Rose {
	r := &Rose{Title: title, sheet: s}
	r.index = s.put(Entry{Rose: r}, len(title))
	return r
}

// Values says what a function of the library draws, as an alias of package units
// such as "Speed". The report finds the dimension of what a cell draws by itself.
// Not for cells.
func (r *Rose) Values(alias string) {
	r.grow(len(alias))
	r.Alias = Alias(alias)
}

// Curve draws a line through values[i] at angles[i], clockwise from north. It
// closes when the way from the last point on to the first is no longer than the
// longest between two neighbours. It panics when the lengths differ, an angle is
// not finite, or a value is not finite or below 0.
func (r *Rose) Curve(name string, angles []units.Angle, values []units.Any) {
	if len(angles) != len(values) {
		panic(fmt.Errorf("sheet: Rose.Curve %q: got %d angles and %d values, want the same count", name, len(angles), len(values)))
	}
	for i, a := range angles {
		if a-a != 0 {
			panic(fmt.Errorf("sheet: Rose.Curve %q: angle %d: got %g, want a finite angle", name, i+1, a))
		}
		r.distance(fmt.Sprintf("Curve %q: value %d", name, i+1), values[i])
	}
	room("Rose.Curve", len(r.Curves))
	r.grow(16*len(angles) + len(name))
	r.Curves = append(r.Curves, RoseCurve{r.sheet.site(), name, floats(angles), floats(values)})
}

// Limit draws a named circle at a value. It panics when the value is not finite
// or below 0.
func (r *Rose) Limit(name string, value units.Any) {
	r.distance(fmt.Sprintf("Limit %q", name), value)
	room("Rose.Limit", len(r.Limits))
	r.grow(32 + len(name))
	r.Limits = append(r.Limits, RoseLimit{r.sheet.site(), name, Float(value)})
}

// distance panics unless v can be a distance from the middle.
func (r *Rose) distance(what string, v float64) {
	if !(v >= 0 && v <= 1e150) {
		panic(fmt.Errorf("sheet: Rose.%s: got %g, want a finite value, at least 0", what, v))
	}
}

func (r *Rose) grow(size int) {
	r.sheet.grow(size)
	r.sheet.touch(r.index)
}
