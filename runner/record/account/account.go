// Package account tells, in words and for machines, what verifying records found.
package account

import (
	"fmt"
	"io"
	"path/filepath"
	"slices"
	"strings"
	"time"

	"tautline/runner/record"
	"tautline/runner/record/content"
)

// An Account is what was found of one path.
type Account struct {
	*record.Verified
	Path string // of the notebook, or of the one record
	One  bool   // record, and not a notebook with all of them
}

// Text says for people how things stand. A record may say anything: a terminal
// must not obey it.
func (v Account) Text() string {
	var b strings.Builder
	v.print(&b)
	return b.String()
}

func (v Account) print(w io.Writer) {
	name := filepath.ToSlash(v.Path)
	fmt.Fprintf(w, "%s\n", name)
	for _, e := range v.History.Entries {
		if e.Signed == nil {
			fmt.Fprintf(w, "  %04d  BROKEN\n", e.Number)
			continue
		}
		r, word := e.Signed.Record, "holds"
		if !e.Sound() {
			word = "DOES NOT HOLD"
		}
		fmt.Fprintf(w, "  %04d  revision %s, %s by %s, %s: %s\n", e.Number, r.Content.Notebook.Revision, r.Role, r.By, r.At.Format("2006-01-02 15:04 UTC"), word)
		if r.Reason != "" {
			fmt.Fprintf(w, "        signed although %s\n        reason: %s\n", strings.Join(r.Exceptions, "; "), r.Reason)
		}
	}
	if list := v.superseded(); len(list) > 0 {
		fmt.Fprintf(w, "  revision %s: examined, not run again; name a record of it to run the text that stands in it\n", strings.Join(list, ", "))
	}
	if d := v.Difference; d != nil {
		v.printMoves(w, d)
	}
	v.printSince(w)
	for _, f := range v.All() {
		fmt.Fprintf(w, "  error: %s\n         %s\n", filepath.ToSlash(f.What), f.Do)
	}
	fmt.Fprintf(w, "%s: %s\n", name, v.sentence())
}

// superseded are the revisions signed before the last one, when a notebook was
// verified: its run is compared with the last one only.
func (v Account) superseded() []string {
	var list []string
	for _, e := range v.History.Entries {
		if e.Signed != nil && !slices.Contains(list, e.Signed.Record.Content.Notebook.Revision) {
			list = append(list, e.Signed.Record.Content.Notebook.Revision)
		}
	}
	if v.One || len(list) == 0 {
		return nil
	}
	return list[:len(list)-1]
}

// printSince tells what the library changed, what moved results first.
func (v Account) printSince(w io.Writer) {
	const most = 10
	since := slices.Clone(v.Since)
	slices.SortStableFunc(since, func(a, b content.FunctionChange) int { return len(b.Told) - len(a.Told) })
	for i, f := range since {
		if i >= most && len(f.Told) == 0 {
			fmt.Fprintf(w, "  library: and %d more functions or what they rest on were changed: see them with --json\n", len(since)-i)
			return
		}
		fmt.Fprintf(w, "  library: %s\n", f.Say())
	}
}

// sentence is the verdict.
func (v Account) sentence() string {
	switch n := len(v.All()); {
	case len(v.History.Entries) == 0:
		return "not signed."
	case n == 1:
		return "does not hold: 1 error."
	case n > 1:
		return fmt.Sprintf("does not hold: %d errors.", n)
	case v.One:
		return "holds."
	}
	if open := v.History.Current().Open(); len(open) > 0 {
		return "holds; not yet " + strings.Join(open, ", not yet ") + "."
	}
	return "holds, signed by all."
}

// printMoves says what a run now gave otherwise than was signed.
func (v Account) printMoves(w io.Writer, d *content.Difference) {
	how := "to the last bit"
	if !d.Exact {
		how = "within 1e-9 of each"
	}
	if !d.Moved() {
		fmt.Fprintf(w, "  run again: all as signed, %s", how)
		if d.Close > 0 {
			fmt.Fprintf(w, "; %d differ in the last digits", d.Close)
		}
		fmt.Fprintln(w)
	}
	for _, t := range d.Tools {
		fmt.Fprintf(w, "  computed with another %s\n", t)
	}
	for _, f := range d.Files {
		fmt.Fprintf(w, "  data: %s\n", f)
	}
	const most = 20
	for i, m := range d.Moves {
		if i == most {
			fmt.Fprintf(w, "  and %d more: see them all with --json\n", len(d.Moves)-most)
			break
		}
		fmt.Fprintf(w, "  line %d: %s\n", m.Line, m.Say())
	}
}

// The JSON of verify.
type (
	jsonVerified struct {
		Path      string                   `json:"path"`
		Holds     bool                     `json:"holds"`
		Verdict   string                   `json:"verdict"`
		Records   []jsonRecord             `json:"records"`
		Open      []string                 `json:"open,omitempty"` // roles that have not signed
		Exact     *bool                    `json:"exact,omitempty"`
		Close     int                      `json:"close,omitempty"`
		Moves     []content.Move           `json:"moves,omitempty"`
		Data      []string                 `json:"data,omitempty"`
		Tools     []string                 `json:"tools,omitempty"`
		Functions []content.FunctionChange `json:"functions,omitempty"`
		Findings  []record.Finding         `json:"findings,omitempty"`
	}
	jsonRecord struct {
		File       string     `json:"file"`
		Holds      bool       `json:"holds"`
		Revision   string     `json:"revision,omitempty"`
		Role       string     `json:"role,omitempty"`
		By         string     `json:"by,omitempty"`
		Key        string     `json:"key,omitempty"`
		At         *time.Time `json:"at,omitempty"`
		Exceptions []string   `json:"exceptions,omitempty"`
		Reason     string     `json:"reason,omitempty"`
	}
)

// JSON is what accounts say for machines.
func JSON(all []Account) any {
	out := []jsonVerified{}
	for _, v := range all {
		j := jsonVerified{Path: filepath.ToSlash(v.Path), Holds: v.Holds(), Verdict: v.sentence(), Records: []jsonRecord{}, Functions: v.Since, Findings: v.All()}
		for _, e := range v.History.Entries {
			r := jsonRecord{File: filepath.ToSlash(e.Path), Holds: e.Sound()}
			if e.Signed != nil {
				s := e.Signed.Record
				r.Revision, r.Role, r.By, r.Key, r.At, r.Exceptions, r.Reason = s.Content.Notebook.Revision, s.Role, s.By, s.Key, &s.At, s.Exceptions, s.Reason
			}
			j.Records = append(j.Records, r)
		}
		if i := v.History.Current(); i != nil {
			j.Open = i.Open()
		}
		if d := v.Difference; d != nil {
			j.Exact, j.Close, j.Moves, j.Data, j.Tools = &d.Exact, d.Close, d.Moves, d.Files, d.Tools
		}
		out = append(out, j)
	}
	return out
}
