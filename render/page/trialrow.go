package page

import (
	"html/template"
	"slices"
	"strings"

	"tautline/render/report"
)

// trial writes a trial at its place in the working.
func (w *rowWriter) trial(t *report.Trial) {
	state := t.State()
	w.open(" check trial "+map[report.TrialState]string{report.TrialWithin: "holds", report.TrialOutside: "fails", report.TrialOpen: "open"}[state], t.ID, t.Line)
	w.put(`<span class="symbol label">Trial</span><span class="chain"><span class="what">`)
	w.text(t.What)
	w.put(`</span> <span class="compare">`)
	w.text(t.Foretold())
	if last := t.Last(); last != nil {
		w.text("; measured " + last.Reading.String())
	}
	w.put(`</span> <span class="result">`)
	w.state(state)
	w.put(`</span></span>`)
	if t.Instrument != "" {
		w.put(`<span class="margin"><span class="reason">measured with `)
		w.text(t.Instrument)
		w.put(`</span></span>`)
	}
	w.put("</div>\n")
}

// state writes how a trial stands.
func (w *rowWriter) state(s report.TrialState) {
	w.put(`<span class="word">`)
	if s == report.TrialOutside {
		w.put(triangle)
	}
	w.text(s.Word())
	w.put(`</span>`)
}

// trialRows are a trial in the table of trials: a row for each reading, the last
// first, or one to write in.
func trialRows(t *report.Trial) template.HTML {
	var w rowWriter
	readings := slices.Clone(t.Readings)
	slices.Reverse(readings)
	if len(readings) == 0 {
		readings = append(readings, nil)
	}
	for i, m := range readings {
		class, head := "holds", `<a href="#`+template.HTMLEscapeString(t.ID)+`">`+template.HTMLEscapeString(t.What)+`</a>`
		if i > 0 {
			class, head = "earlier", `<span class="vh">`+template.HTMLEscapeString(t.What)+`, </span>before that`
		}
		if m == nil {
			class = "open"
		} else if !m.Within && i == 0 {
			class = "fails"
		}
		w.put(`<tr role="row" class="`, class, `"><th role="rowheader" scope="row">`, head, `</th><td role="cell" class="num demand">`)
		if i == 0 {
			w.text(t.Foretold())
		}
		w.cell("num measured")
		if m == nil {
			w.cell("use")
			w.state(report.TrialOpen)
			w.cell("source")
			w.text(t.Instrument)
			w.put("</td></tr>\n")
			continue
		}
		w.text(m.Reading.String())
		w.cell("use")
		w.put(`<span class="percent">`)
		w.text(m.Off.String())
		w.put(`</span> `)
		w.state(map[bool]report.TrialState{true: report.TrialWithin, false: report.TrialOutside}[m.Within])
		w.cell("source")
		w.text(strings.Join(slices.DeleteFunc([]string{m.Instrument, m.By, m.When, m.Note}, func(s string) bool { return s == "" }), "; "))
		w.put("</td></tr>\n")
	}
	return template.HTML(w.String())
}
