package main

import (
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"time"
	"unicode"

	"github.com/spf13/cobra"

	"tautline/runner/engine"
	"tautline/runner/record"
	"tautline/runner/record/shelf"
)

func verifyCommand() *cobra.Command {
	var trust string
	var asJSON bool
	var limits engine.Limits
	cmd := &cobra.Command{
		Use:   "verify NOTEBOOK|RECORD|FOLDER...",
		Short: "verify signatures and records, run the notebook again and compare every number",
		Long: `verify examines the records of a notebook: each signature, whose key it is, that
none is missing or was exchanged, that the roles signed in order, and that the
notebook and the files beside it are those that were signed. Then it runs the
notebook from nothing and compares every number with the signed one: to the last
bit when the same program on the same platform signed, else within 1e-9 of the
number. What moved is told with the cause: the library, the data or the notebook.

A RECORD is compared with a run of the text that stands in it, which may be long
superseded. In a FOLDER every notebook that has records is verified.

Exit code: 0 when all holds, 1 when something does not or a notebook named has no
record, 2 for wrong use or what cannot be read.`,
		Example: "  tautline verify notebooks\n  tautline verify --json notebooks/lagoon-bed.md",
		Args: func(_ *cobra.Command, args []string) error {
			if len(args) == 0 {
				return errors.New("verify: name a record, a notebook or a folder, such as tautline verify notebooks")
			}
			return nil
		},
		RunE: func(cmd *cobra.Command, paths []string) error {
			s := newSession(cmd, limits)
			all := []verified{}
			for _, path := range paths {
				some, err := s.verify(path, trust)
				if err != nil {
					return err
				}
				all = append(all, some...)
			}
			for _, v := range all {
				s.fails = s.fails || !v.Holds()
				if !asJSON {
					fmt.Fprint(s.out, v.text())
				}
			}
			if asJSON {
				if err := writeVerified(s.out, all); err != nil {
					return err
				}
			}
			return s.end()
		},
	}
	cmd.Flags().StringVar(&trust, "trust", "", "`FILE` with the allowed signers, instead of "+record.TrustName+" beside the notebook or above")
	cmd.Flags().BoolVar(&asJSON, "json", false, "print the results as JSON")
	limitFlags(cmd, &limits)
	return cmd
}

// verified is the outcome for one path.
type verified struct {
	*record.Verified
	path string // of the notebook, or of the one record
	one  bool
}

// verify verifies a notebook, one record or all notebooks of a folder.
func (s *session) verify(path, trust string) ([]verified, error) {
	info, err := os.Stat(path)
	if err != nil && !errors.Is(err, os.ErrNotExist) {
		return nil, err
	}
	switch {
	case err == nil && info.IsDir() && shelf.Is(path):
		v, err := s.verifyNotebook(record.NotebookOf(filepath.Join(path, "x")), trust)
		return []verified{v}, err
	case err == nil && info.IsDir():
		notebooks, err := record.Notebooks(path)
		if err == nil && len(notebooks) == 0 {
			err = fmt.Errorf("%s: no notebook in it has a record", path)
		}
		var all []verified
		for _, n := range notebooks {
			v, vErr := s.verifyNotebook(n, trust)
			if vErr != nil {
				return nil, vErr
			}
			all = append(all, v)
		}
		return all, err
	case strings.HasSuffix(path, ".record"):
		notebook := record.NotebookOf(path)
		_, t, err := trustFor(notebook, trust)
		if err != nil {
			return nil, err
		}
		v, err := record.VerifyOne(path, t, time.Now(), func(file, text string) (*record.Content, error) { return s.rerun(file, []byte(text)) })
		return []verified{{v, path, true}}, err
	case err != nil && !hasRecords(path):
		return nil, fmt.Errorf("%s: there is no such file", path)
	}
	v, err := s.verifyNotebook(path, trust)
	return []verified{v}, err
}

// hasRecords reports whether there are records of a notebook, which may be gone.
func hasRecords(notebook string) bool {
	info, err := os.Stat(shelf.Of(notebook).Path)
	return err == nil && info.IsDir()
}

func (s *session) verifyNotebook(notebook, trust string) (verified, error) {
	_, t, err := trustFor(notebook, trust)
	if err != nil {
		return verified{}, err
	}
	v, err := record.Verify(notebook, t, time.Now(), func(file string) (*record.Content, error) { return s.rerun(file, nil) })
	return verified{v, notebook, false}, err
}

// text says for people how things stand. A record may say anything, and a terminal
// must not obey it.
func (v verified) text() string {
	var b strings.Builder
	v.print(&b)
	return inert(b.String())
}

// inert is text of which a terminal shows every character.
func inert(text string) string {
	return strings.Map(func(r rune) rune {
		if r != '\n' && unicode.In(r, unicode.Cc, unicode.Cf, unicode.Zl, unicode.Zp) {
			return unicode.ReplacementChar
		}
		return r
	}, text)
}

func (v verified) print(w io.Writer) {
	name := filepath.ToSlash(v.path)
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
	if d := v.Difference; d != nil {
		v.printMoves(w, d)
	}
	v.printSince(w)
	for _, f := range v.All() {
		fmt.Fprintf(w, "  error: %s\n         %s\n", filepath.ToSlash(f.What), f.Do)
	}
	fmt.Fprintf(w, "%s: %s\n", name, v.sentence())
}

// printSince tells what the library changed, what moved results first.
func (v verified) printSince(w io.Writer) {
	const most = 10
	since := slices.Clone(v.Since)
	slices.SortStableFunc(since, func(a, b record.FunctionChange) int { return len(b.Told) - len(a.Told) })
	for i, f := range since {
		if i >= most && len(f.Told) == 0 {
			fmt.Fprintf(w, "  library: and %d more functions or what they rest on were changed: see them with --json\n", len(since)-i)
			return
		}
		fmt.Fprintf(w, "  library: %s\n", f.Say())
	}
}

// sentence is the verdict.
func (v verified) sentence() string {
	switch n := len(v.All()); {
	case len(v.History.Entries) == 0:
		return "not signed."
	case n == 1:
		return "does not hold: 1 error."
	case n > 1:
		return fmt.Sprintf("does not hold: %d errors.", n)
	case v.one:
		return "holds."
	}
	if open := v.History.Current().Open(); len(open) > 0 {
		return "holds; not yet " + strings.Join(open, ", not yet ") + "."
	}
	return "holds, signed by all."
}

// printMoves says what a run now gave otherwise than was signed.
func (v verified) printMoves(w io.Writer, d *record.Difference) {
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
		Path      string                  `json:"path"`
		Holds     bool                    `json:"holds"`
		Verdict   string                  `json:"verdict"`
		Records   []jsonRecord            `json:"records"`
		Open      []string                `json:"open,omitempty"` // roles that have not signed
		Exact     *bool                   `json:"exact,omitempty"`
		Close     int                     `json:"close,omitempty"`
		Moves     []record.Move           `json:"moves,omitempty"`
		Data      []string                `json:"data,omitempty"`
		Tools     []string                `json:"tools,omitempty"`
		Functions []record.FunctionChange `json:"functions,omitempty"`
		Findings  []record.Finding        `json:"findings,omitempty"`
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

func writeVerified(w io.Writer, all []verified) error {
	out := []jsonVerified{}
	for _, v := range all {
		j := jsonVerified{Path: filepath.ToSlash(v.path), Holds: v.Holds(), Verdict: v.sentence(), Records: []jsonRecord{}, Functions: v.Since, Findings: v.All()}
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
	return printJSON(w, out)
}
