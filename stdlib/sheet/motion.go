package sheet

import (
	"fmt"
	"math"
	"strings"

	"tautline/stdlib/units"
)

// A Motion is drawings that follow one another in equal steps of time, over and
// over: how something moves. A reader can stop it; one who asked his system for
// less motion has to start it; on paper stand four of the drawings.
//
//	m := sheet.NewMotion("The skiff in a storm", 100*units.Ms)
//	for k := range 40 {
//		base.Draw(m.Frame(), ride.At(45*units.S+float64(k)*m.Pace()), "storm", 0)
//	}
//
// All frames are drawn to one scale, in one place, and played as quick as they
// follow one another.
type Motion struct {
	Title  string
	Step   Float // of time, from frame to frame
	Frames []*Drawing

	sheet *Sheet
	index int
}

// steps are those that a motion can have: the page's stylesheet knows each.
var steps = []units.Time{20 * units.Ms, 50 * units.Ms, 100 * units.Ms, 200 * units.Ms, 500 * units.Ms}

// MaxFrames is how many frames a motion takes: a report holds each as a drawing.
// Not for cells.
const MaxFrames = 60

// NewMotion puts a motion without frames on the sheet. The step is 20, 50, 100, 200
// or 500 ms; another panics.
func NewMotion(title string, step units.Time) *Motion { return own.NewMotion(title, step) }

// NewMotion is the function NewMotion on this sheet. Not for cells.
func (s *Sheet) NewMotion(title string, step units.Time) *Motion {
	var all []string
	known := false
	for _, v := range steps {
		known = known || math.Abs(step-v) < 1e-9
		all = append(all, fmt.Sprintf("%.0f ms", v/units.Ms))
	}
	if !known {
		panic(fmt.Errorf("sheet: NewMotion %q: step: got %g ms, want %s", title, step/units.Ms, strings.Join(all, ", ")))
	}
	m := &Motion{Title: title, Step: Float(step), sheet: s}
	m.index = s.put(Entry{Motion: m}, len(title))
	return m
}

// Frame is a drawing for the next step of time, empty. A motion takes 60; more
// panics.
func (m *Motion) Frame() *Drawing {
	if len(m.Frames) == MaxFrames {
		panic(fmt.Errorf("sheet: Motion.Frame: more than %d frames: show one wave, or lengthen the step", MaxFrames))
	}
	d := &Drawing{sheet: m.sheet, index: m.index}
	d.grow(32)
	m.Frames = append(m.Frames, d)
	return d
}

// Pace is the time from frame to frame.
func (m *Motion) Pace() units.Time { return float64(m.Step) }
