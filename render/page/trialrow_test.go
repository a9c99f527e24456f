package page

import (
	"strings"
	"testing"
	"time"

	"tautline/render/report"
	"tautline/render/sample"
	"tautline/runner/trial"
)

// Every reading stays in the table, the last first, and no text of a reading is
// taken for the page's own.
func TestTrialRows(t *testing.T) {
	planned := report.NewTrial("bed <floor>", 0.512, 0.02, sample.Unit("mm"))
	r := &report.Report{Trials: []*report.Trial{planned}}
	for _, number := range []string{"540", "515"} {
		r.Measure([]trial.Reading{{Trial: planned.What, Number: number, Unit: planned.Unit(), Who: "the fitter", When: time.Date(2026, 5, 4, 9, 30, 0, 0, time.UTC)}})
	}
	planned.Readings[1].Note = `<script>`
	rows := string(trialRows(r.Trials[0]))
	for _, want := range []string{"bed &lt;floor&gt;</a>", "512\u00a0mm ± 20\u00a0mm", "before that", "OUTSIDE", "&lt;script&gt;", "the fitter; 2026-05-04 09:30"} {
		if !strings.Contains(rows, want) {
			t.Errorf("the rows lack %q:\n%s", want, rows)
		}
	}
	if strings.Index(rows, "515") > strings.Index(rows, "540") {
		t.Error("the last reading is not the first row")
	}
	var w rowWriter
	w.trial(r.Trials[0])
	if line := w.String(); !strings.Contains(line, "measured 515\u00a0mm") || !strings.Contains(line, "within") {
		t.Errorf("the line at its place: %s", line)
	}
}
