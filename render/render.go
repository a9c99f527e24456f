// Package render turns a run notebook into what people read: a self-contained
// HTML report that reads like an engineer's hand calculation.
//
//	rep := render.Assemble(plan, out, findings, identity) // what it says
//	err := render.HTML(w, rep)                            // how it looks
//
// Package report is what a report says: words, formatted quantities and MathML,
// which know nothing of how they were computed. Package assembly makes it of a
// plan and an outcome, package page writes it. The same report gives the same
// bytes.
package render

import (
	"io"

	"tautline/render/assembly"
	"tautline/render/page"
	"tautline/render/report"
	"tautline/runner/check"
	"tautline/runner/document"
	"tautline/runner/outcome"
)

// Assemble makes the report of a plan and its outcome. findings are what
// parsing and checking found; out may be nil when the plan was not run, as when
// it has errors.
func Assemble(plan *check.Plan, out *outcome.Outcome, findings []document.Diagnostic, id report.Identity) *report.Report {
	return assembly.Assemble(plan, out, findings, id)
}

// HTML writes r as one file that needs nothing else: no network, no script. The
// same report gives the same bytes. Nothing is written when it fails.
func HTML(w io.Writer, r *report.Report) error { return page.HTML(w, r) }
