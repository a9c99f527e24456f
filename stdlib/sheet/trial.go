package sheet

import (
	"fmt"
	"math"
	"strings"

	"tautline/stdlib/units"
)

// A Prediction is what a trial is to show. Not for cells.
type Prediction struct {
	What             string
	Value, Tolerance Float
	Instrument       string
}

// Trial names what is to be measured on the built ride, what the calculation
// predicts, by how much a reading may differ from that, up or down, and what it
// is measured with. The report keeps a place for the readings, which `tautline
// trial` asks for. A reading outside the tolerance says that the ride is not the
// one that was calculated.
//
//	sheet.Trial("pressure of the bed", p, 0.1*units.KPa, "water column, 1 mm divisions")
//
// what names the trial, on one line, and no other of the notebook; the
// instrument may be empty. It panics when it is not so, when a number is not
// finite, and when the tolerance is not above 0.
//
// Dimension: the same for predicted and tolerance.
func Trial(what string, predicted, tolerance units.Same, instrument string) {
	own.Trial(what, predicted, tolerance, instrument)
}

// Trial is the function Trial on this sheet. Not for cells.
func (s *Sheet) Trial(what string, predicted, tolerance units.Same, instrument string) {
	what, instrument = strings.TrimSpace(what), strings.TrimSpace(instrument)
	switch {
	case what == "" || strings.ContainsAny(what, "\r\n"):
		panic(fmt.Errorf("sheet: Trial: name: got %q, want what is measured, on one line", what))
	case math.IsNaN(predicted) || math.IsInf(predicted, 0):
		panic(fmt.Errorf("sheet: Trial %q: predicted: got %g, want a finite number", what, predicted))
	case !(tolerance > 0) || math.IsInf(tolerance, 0):
		panic(fmt.Errorf("sheet: Trial %q: tolerance: got %g, want a finite number above 0, without a sign", what, tolerance))
	case s.trials[what]:
		panic(fmt.Errorf("sheet: Trial: name: got %q again, want a name of its own for each trial", what))
	}
	if s.trials == nil {
		s.trials = map[string]bool{}
	}
	s.trials[what] = true
	s.put(Entry{Trial: &Prediction{what, Float(predicted), Float(tolerance), instrument}}, len(what)+len(instrument)+32)
}
