package standing

import (
	"fmt"
	"os"
	"time"

	"tautline/render/report"
	"tautline/runner"
	"tautline/runner/record"
	"tautline/runner/record/content"
	"tautline/runner/record/shelf"
	"tautline/runner/record/signature"
)

// Since lists by anchor what a report shows otherwise than what was signed last,
// as that has it, and names the record. open opens a record.
func Since(res *runner.Result, tool content.Tool, report *report.Report, open func(path string) (*record.Signed, error)) (label string, was map[string]string) {
	last := Last(res.File, open)
	if last == nil || !res.Ran() {
		return "", nil
	}
	now, err := content.Of(res, tool)
	if err != nil {
		return "", nil
	}
	was = map[string]string{}
	moves := content.Compare(&last.Content, now).Moves
	for i := range moves {
		switch m := &moves[i]; m.Kind {
		case content.MovedValue:
			if m.Was != "" {
				was["line."+m.What] = content.Say(m.Was, m.Dimension, m.Alias)
			}
		case content.MovedCheck:
			for _, c := range report.Checks {
				if c.What == m.What && c.Line == m.Line {
					was[c.ID] = m.Was
				}
			}
		}
	}
	return fmt.Sprintf("record %04d", last.Number), was
}

// Last is what was signed last of a notebook; nil when there is nothing, or
// nothing that can be believed: verify says why.
func Last(notebook string, open func(path string) (*record.Signed, error)) *record.Record {
	folder := shelf.Of(notebook)
	if !Kept(notebook) {
		return nil
	}
	_, trust, err := Trust(notebook, "")
	if err != nil {
		return nil
	}
	h, err := record.ExamineWith(open, folder, notebook, trust, time.Now())
	if err != nil || h.Current() == nil || h.Torn() {
		return nil
	}
	var last *record.Record
	for _, e := range h.Current().Entries {
		if e.Signed != nil && (trust == nil || e.Sound()) {
			last = e.Signed.Record
		}
	}
	return last
}

// Trust reads the list of allowed signers for a notebook: that in a file, or
// else the one found beside the notebook or above. It is nil when there is none.
func Trust(notebook, file string) (string, *signature.Trust, error) {
	if file == "" {
		if file = record.FindTrust(notebook); file == "" {
			return "", nil, nil
		}
	}
	t, err := record.ReadTrust(file)
	if hint := record.Hint(err); hint != "" {
		err = fmt.Errorf("%w\nhint: %s", err, hint)
	}
	return file, t, err
}

// Kept reports whether there are records of a notebook, which may be gone.
func Kept(notebook string) bool {
	info, err := os.Stat(shelf.Of(notebook).Path)
	return err == nil && info.IsDir()
}
