// Package standing says in a report how its notebook stands by its records. It is
// where the renderer, which knows nothing of keys, meets the records, which know
// nothing of pages.
package standing

import (
	"fmt"
	"path/filepath"
	"slices"
	"strings"
	"time"

	"tautline/render/report"
	"tautline/runner"
	"tautline/runner/record"
	"tautline/runner/record/content"
	"tautline/runner/record/shelf"
)

// Of says how a notebook stands by its records, for the report of a run of
// it. It is nil when nobody signed it. tool is what ran it, open opens a record.
func Of(res *runner.Result, tool content.Tool, open func(path string) (*record.Signed, error)) *report.Standing {
	folder := shelf.Of(res.File)
	if !Kept(res.File) {
		return nil
	}
	_, trust, err := Trust(res.File, "")
	if err != nil {
		return &report.Standing{Draft: true, State: "Draft, the list of allowed signers cannot be read"}
	}
	h, err := record.ExamineWith(open, folder, res.File, trust, time.Now())
	if err != nil {
		return &report.Standing{Draft: true, State: "Draft, its records cannot be read"}
	}
	if len(h.Entries) == 0 {
		return nil
	}
	s := &report.Standing{Draft: true, Revisions: revisions(h)}
	s.State = "Draft, its records do not hold: see tautline verify"
	issue := h.Current()
	if issue == nil || h.Torn() {
		return s
	}
	if since := sinceSigned(res, tool, issue.Content()); since != "" {
		s.State = fmt.Sprintf("Draft, %s since revision %s was signed", since, issue.Revision)
		return s
	}
	for _, e := range issue.Entries {
		if e.Sound() {
			s.Signed = append(s.Signed, signatureOf(e))
		}
	}
	s.State, s.Draft = state(issue)
	return s
}

// state is that of an issue whose notebook is as it was signed.
func state(issue *record.Issue) (text string, draft bool) {
	open := issue.Open()
	roles := issue.Content().Notebook.Roles
	signed := slices.DeleteFunc(slices.Clone(roles), func(r string) bool { return slices.Contains(open, r) })
	switch {
	case slices.ContainsFunc(issue.Entries, func(e *record.Entry) bool { return !e.Sound() }):
		return "Draft, a signature does not hold: see tautline verify", true
	case len(open) > 0:
		return "Draft: " + strings.Join(signed, ", ") + "; not yet " + strings.Join(open, ", not yet "), true
	}
	last := roles[len(roles)-1]
	text = strings.ToUpper(last[:1]) + last[1:]
	if slices.ContainsFunc(issue.Entries, func(e *record.Entry) bool { return e.Signed.Record.Reason != "" }) {
		text += ", with exceptions"
	}
	return text, false
}

// sinceSigned says what is another than was signed; "" when nothing is.
func sinceSigned(res *runner.Result, tool content.Tool, signed *content.Content) string {
	if content.Digest(res.Source) != signed.Notebook.Digest {
		return "changed"
	}
	if !res.Ran() {
		return "not run to its end"
	}
	now, err := content.Of(res, tool)
	if err != nil {
		return "not compared"
	}
	if !slices.Equal(now.Files, signed.Files) {
		return "its data or readings changed"
	}
	if content.Compare(signed, now).Moved() {
		return "its numbers moved"
	}
	return ""
}

func signatureOf(e *record.Entry) report.Signature {
	r := e.Signed.Record
	s := report.Signature{Role: r.Role, By: r.By, On: r.At.Format(time.DateOnly)}
	if len(e.Findings) > 0 {
		s.Flaw = "does not hold"
	}
	return s
}

// revisions is the history of the records.
func revisions(h *record.History) []*report.Revision {
	var list []*report.Revision
	for _, issue := range h.Issues {
		r := &report.Revision{Mark: issue.Revision}
		for _, e := range issue.Entries {
			r.Signatures = append(r.Signatures, signatureOf(e))
			if rec := e.Signed.Record; rec.Reason != "" {
				r.Remarks = append(r.Remarks, fmt.Sprintf("%s although %s: %s", rec.Role, strings.Join(rec.Exceptions, "; "), rec.Reason))
			}
		}
		if issue != h.Current() {
			r.Remarks = append(r.Remarks, "superseded")
		}
		list = append(list, r)
	}
	for _, e := range h.Entries {
		if e.Signed == nil {
			list = append(list, &report.Revision{Mark: "?", Remarks: []string{filepath.Base(e.Path) + " cannot be read: see tautline verify"}})
		}
	}
	return list
}
