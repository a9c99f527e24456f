package record

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"slices"

	"time"

	"tautline/runner/record/content"
	"tautline/runner/record/shelf"
	"tautline/runner/record/signature"
)

// A Verified is what verifying the records of one notebook came to.
type Verified struct {
	History    *History
	Difference *content.Difference      // of a run now from what was signed last; nil when nothing was run
	Since      []content.FunctionChange // functions of the library that can give other results than when it was signed
	Findings   []Finding                // about the notebook as it is now
}

// Holds reports whether nothing is wrong.
func (v *Verified) Holds() bool { return len(v.All()) == 0 }

// All lists every finding, those about single records with their names.
func (v *Verified) All() []Finding {
	all := slices.Clone(v.History.Findings)
	for _, e := range v.History.Entries {
		for _, f := range e.Findings {
			if f.Kind != BrokenFile {
				f.What = e.Path + ": " + f.What
			}
			all = append(all, f)
		}
	}
	return append(all, v.Findings...)
}

// Verify examines the records of a notebook, then compares what was signed last
// with the files that there are and with a run of now. rerun runs the notebook;
// without it nothing is run.
func Verify(notebook string, trust *signature.Trust, now time.Time, rerun func(file string) (*content.Content, error)) (*Verified, error) {
	h, err := Examine(shelf.Of(notebook), notebook, trust, now)
	if err != nil {
		return nil, err
	}
	v := &Verified{History: h}
	issue := h.Current()
	switch {
	case len(h.Entries) == 0:
		v.find(Unsigned, "let it be signed: tautline sign "+notebook+" --role prepared", "%s: there is no record: it is a draft", notebook)
		return v, nil
	case issue == nil:
		return v, nil // nothing that could be read: the findings say so
	}
	signed := issue.Content()
	v.Since = content.Since(signed)
	v.inputs(notebook, signed)
	if rerun == nil || slices.ContainsFunc(v.Findings, func(f Finding) bool { return f.Kind == NotRun }) {
		return v, nil
	}
	again, err := rerun(notebook)
	if err != nil {
		v.find(NotRun, "see with tautline check what it needs; what was signed stands in the record", "%s: it cannot be run now: %v", notebook, err)
		return v, nil
	}
	v.compare(signed, again)
	return v, nil
}

func (v *Verified) find(kind FindingKind, do, format string, args ...any) {
	v.Findings = append(v.Findings, Finding{kind, fmt.Sprintf(format, args...), do})
}

// inputs compares the notebook and the files beside it with what was signed.
func (v *Verified) inputs(notebook string, signed *content.Content) {
	text, err := os.ReadFile(notebook)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		v.find(NotRun, "restore it from version control; its text stands in the record too", "%s: the notebook is gone", notebook)
		return
	case err != nil:
		v.find(NotRun, "see that you may read it", "%s: %v", notebook, err)
		return
	case content.Digest(text) != signed.Notebook.Digest:
		line := 1
		if lines := content.DifferentLines(signed.Notebook.Text, string(text)); len(lines) > 0 {
			line = lines[0].Number
		}
		v.find(ChangedFile, "let it be signed anew under the next revision mark, or take the change back", "%s:%d: the notebook was changed since revision %s was signed: it is a draft", notebook, line, signed.Notebook.Revision)
	}
	for _, f := range signed.Files {
		path := filepath.Join(filepath.Dir(notebook), f.Name)
		text, err := os.ReadFile(path)
		if err != nil {
			v.find(ChangedFile, "restore it from version control", "%s: it was signed with the notebook and cannot be read: %v", path, errors.Unwrap(err))
		} else if content.Digest(text) != f.Digest {
			v.find(ChangedFile, "let the notebook be signed anew, or take the change back", "%s: it was changed since the notebook was signed", path)
		}
	}
}

// compare compares what was signed with a run of now.
func (v *Verified) compare(signed, again *content.Content) {
	v.Difference = content.Compare(signed, again)
	if n := len(v.Difference.Moves); n > 0 {
		v.find(MovedNumbers, "look whether the changes are right; then let the notebook be signed anew, under the next revision mark once all have signed", "%d %s other than signed", n, map[bool]string{true: "thing is", false: "things are"}[n == 1])
	}
}

// VerifyOne examines one record and compares it with a run of the text that stands
// in it, with the files that there are now: that of a superseded revision too.
func VerifyOne(path string, trust *signature.Trust, now time.Time, rerun func(file, text string) (*content.Content, error)) (*Verified, error) {
	notebook := NotebookOf(path)
	h, err := Examine(shelf.Of(notebook), notebook, trust, now)
	if err != nil {
		return nil, err
	}
	v := &Verified{History: h}
	i := slices.IndexFunc(h.Entries, func(e *Entry) bool { return filepath.Base(e.Path) == filepath.Base(path) })
	if i < 0 {
		return nil, fmt.Errorf("%s: there is no such record", path)
	}
	h.Entries, h.Findings, h.Issues = h.Entries[i:i+1], nil, nil
	s := h.Entries[0].Signed
	if s == nil {
		return v, nil
	}
	signed := &s.Record.Content
	v.Since = content.Since(signed)
	again, err := rerun(notebook, signed.Notebook.Text)
	if err != nil {
		v.find(NotRun, "the numbers in the record stand as they were signed; see whether the files beside the notebook are still those", "%s: its text cannot be run now: %v", path, err)
		return v, nil
	}
	v.compare(signed, again)
	return v, nil
}

// Notebooks lists the notebooks in a folder and below that have records, in order.
func Notebooks(folder string) ([]string, error) {
	var found []string
	err := filepath.WalkDir(folder, func(path string, e fs.DirEntry, err error) error {
		if err != nil {
			return err
		}
		if e.IsDir() && path != folder && e.Name()[0] == '.' {
			return filepath.SkipDir
		}
		if e.IsDir() && shelf.Is(path) {
			found = append(found, shelf.Shelf{Path: path}.Notebook())
			return filepath.SkipDir
		}
		return nil
	})
	slices.Sort(found)
	return found, err
}
