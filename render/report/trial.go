package report

import (
	"fmt"
	"slices"
	"strings"

	"tautline/runner/document"
	"tautline/runner/trial"
	"tautline/stdlib/quantity"
)

// A Trial is what is to be measured on the built ride, and what was.
type Trial struct {
	ID         string // anchor of its place
	What       string
	Predicted  Quantity
	Tolerance  Quantity
	Instrument string // to measure with; may be empty
	Line       int    // in the notebook
	Readings   []*Measured

	value, tolerance float64 // in SI base units
	unit             quantity.Unit
}

// NewTrial is a trial of what is predicted to be value, give or take a tolerance,
// both in SI base units and shown in unit.
func NewTrial(what string, value, tolerance float64, unit quantity.Unit) *Trial {
	return &Trial{What: what, Predicted: In(value, unit), Tolerance: Difference(tolerance, unit),
		value: value, tolerance: tolerance, unit: unit}
}

// Unit is the unit that the trial is shown in.
func (t *Trial) Unit() quantity.Unit { return t.unit }

// Measured is one reading of a trial.
type Measured struct {
	Reading    Quantity // in the trial's unit
	Off        Quantity // from what was predicted, with its sign
	Within     bool
	By, When   string
	Instrument string
	Note       string
}

// TrialState is how a trial stands.
type TrialState string

// The states of a trial: its last reading decides.
const (
	TrialOpen    TrialState = "open"
	TrialWithin  TrialState = "within"
	TrialOutside TrialState = "outside"
)

// State is how the trial stands.
func (t *Trial) State() TrialState {
	switch last := t.Last(); {
	case last == nil:
		return TrialOpen
	case last.Within:
		return TrialWithin
	}
	return TrialOutside
}

// Last is the last reading; nil when there is none.
func (t *Trial) Last() *Measured {
	if len(t.Readings) == 0 {
		return nil
	}
	return t.Readings[len(t.Readings)-1]
}

// Measure enters what was measured. A reading that belongs to no trial, or is of
// another dimension than what it should show, becomes a finding.
func (r *Report) Measure(readings []trial.Reading) {
	for _, m := range readings {
		i := slices.IndexFunc(r.Trials, func(t *Trial) bool { return t.What == m.Trial })
		if i < 0 {
			r.doubt(fmt.Sprintf("reading of %q: the notebook has no trial of that name", m.Trial), "name the trial as it was when it was measured, or measure anew")
			continue
		}
		t := r.Trials[i]
		if !t.unit.Dimension.Equal(m.Unit.Dimension) {
			r.doubt(fmt.Sprintf("reading of %q: got %s %s, want a %s", m.Trial, m.Number, m.Unit.Symbol, t.unit.Dimension.Name()), "measure anew: a reading is not judged against what it is not")
			continue
		}
		t.Readings = append(t.Readings, t.Judge(m))
	}
	r.Verdict.Trials = TrialCount{}
	for _, t := range r.Trials {
		switch t.State() {
		case TrialOpen:
			r.Verdict.Trials.Open++
		case TrialWithin:
			r.Verdict.Trials.Within++
		case TrialOutside:
			r.Verdict.Trials.Outside++
		}
	}
}

func (r *Report) doubt(message, hint string) {
	r.Findings = append(r.Findings, document.Diagnostic{Severity: document.Warning, File: r.File, Message: message, Hint: hint})
}

// Judge compares a reading of the trial's dimension with what was predicted.
func (t *Trial) Judge(m trial.Reading) *Measured {
	off := m.Value() - t.value
	unit := differenceUnit(t.unit)
	const digits = 2 // of a difference: more would come from rounding
	out := &Measured{Reading: asRead(m, t.unit), Off: Quantity{quantity.Format(off, unit, digits), unit.Symbol}, By: m.Who, When: m.When.Format("2006-01-02 15:04"), Instrument: m.Instrument, Note: m.Note,
		Within: m.Within(t.value, t.tolerance)}
	if off > 0 {
		out.Off.Number = "+" + out.Off.Number
	}
	return out
}

// asRead is a reading as it was written where the unit is the trial's, else
// converted.
func asRead(m trial.Reading, u quantity.Unit) Quantity {
	if m.Unit.Symbol == u.Symbol {
		return Quantity{strings.ReplaceAll(m.Number, "-", "\u2212"), u.Symbol}
	}
	return In(m.Value(), u)
}

// TrialCount says how many trials stand how.
type TrialCount struct{ Open, Within, Outside int }

// Sentence is the trials in words; empty when there is none.
func (c TrialCount) Sentence() string {
	all := c.Open + c.Within + c.Outside
	switch {
	case all == 0:
		return ""
	case c.Outside > 0:
		return fmt.Sprintf("Measured on the built ride, %d of %d %s outside what was predicted.", c.Outside, all, IsAre(c.Outside))
	case c.Within == 0:
		return fmt.Sprintf("%d %s %s still to be made on the built ride.", all, Plural(all, "trial"), IsAre(all))
	case c.Open > 0:
		return fmt.Sprintf("%d of %d trials made on the built ride, all as predicted.", c.Within, all)
	case all == 1:
		return "The one trial on the built ride is as predicted."
	}
	return fmt.Sprintf("All %d trials on the built ride are as predicted.", all)
}

// Word is the verdict on the reading.
func (m *Measured) Word() string {
	if m.Within {
		return TrialWithin.Word()
	}
	return TrialOutside.Word()
}

// Word is the state for the reader.
func (s TrialState) Word() string {
	switch s {
	case TrialWithin:
		return "within"
	case TrialOutside:
		return "OUTSIDE"
	}
	return "to be measured"
}

// Foretold is what was predicted, with its tolerance.
func (t *Trial) Foretold() string { return t.Predicted.String() + " ± " + t.Tolerance.String() }

// Standing is the state and the last reading, in plain letters.
func (t *Trial) Standing() string {
	if last := t.Last(); last != nil {
		return last.Reading.String() + ", " + t.State().Word()
	}
	return t.State().Word()
}
