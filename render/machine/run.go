// Package machine writes results for other programs: JSON, and JUnit XML.
package machine

import (
	"encoding/json"
	"io"

	"tautline/render/report"
	"tautline/render/terminal"
	"tautline/runner/document"
	"tautline/runner/outcome"
	"tautline/stdlib/sheet"
)

// The JSON of a run: numbers in SI base units, a number that is not finite as a
// text.
type (
	jsonNotebook struct {
		Notebook string                 `json:"notebook"`
		Verdict  string                 `json:"verdict"`
		Holds    bool                   `json:"holds"`
		Digest   string                 `json:"digest,omitempty"`
		Checks   []jsonCheck            `json:"checks"`
		Values   map[string]sheet.Value `json:"values,omitempty"`
		Findings []jsonFinding          `json:"findings,omitempty"`
	}
	jsonCheck struct {
		Line        int         `json:"line"`
		What        string      `json:"what"`
		Rule        string      `json:"rule"`
		Holds       bool        `json:"holds"`
		Utilisation sheet.Float `json:"utilisation"`
		Demand      string      `json:"demand,omitempty"`
		Capacity    []string    `json:"capacity,omitempty"`
		Source      string      `json:"source,omitempty"`
	}
	jsonFinding struct {
		Severity string `json:"severity"`
		Line     int    `json:"line"`
		Column   int    `json:"column"`
		Message  string `json:"message"`
		Hint     string `json:"hint,omitempty"`
	}
)

// A Notebook is one that was checked.
type Notebook struct {
	File     string
	Source   []byte
	Report   *report.Report   // nil when it could not be made
	Outcome  *outcome.Outcome // nil when it was not run
	Findings []document.Diagnostic
}

// JSON prints notebooks as JSON.
func JSON(w io.Writer, all []Notebook) error {
	out := []jsonNotebook{}
	for _, c := range all {
		n := jsonNotebook{Notebook: c.File, Verdict: "not run", Checks: []jsonCheck{}}
		if c.Report != nil {
			n.Verdict, n.Digest = c.Report.Verdict.Whole(), c.Report.Identity.Digest
			n.Holds = c.Report.Verdict.Kind == report.AllHold && c.Report.Verdict.Good()
			for _, k := range c.Report.Checks {
				n.Checks = append(n.Checks, jsonOf(k))
			}
		}
		if c.Outcome != nil {
			n.Values = c.Outcome.Values
		}
		for _, d := range c.Findings {
			n.Findings = append(n.Findings, jsonFinding{d.Severity.String(), d.Range.Start.Line, d.Range.Start.Column, d.Message, d.Hint})
		}
		out = append(out, n)
	}
	return Print(w, out)
}

// Print prints a value for machines, and for people who look at it.
func Print(w io.Writer, v any) error {
	enc := json.NewEncoder(w)
	enc.SetIndent("", "  ")
	enc.SetEscapeHTML(false)
	return enc.Encode(v)
}

func jsonOf(c *report.Check) jsonCheck {
	out := jsonCheck{Line: c.Line, What: c.What, Rule: c.Rule, Holds: c.Holds, Utilisation: sheet.Float(c.Utilisation), Source: c.Source.Text}
	if len(c.Capacity) > 0 {
		out.Demand = terminal.Say(c.Demand)
	}
	for _, q := range c.Capacity {
		out.Capacity = append(out.Capacity, terminal.Say(q))
	}
	return out
}
