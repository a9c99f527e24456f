package record

import (
	"time"

	"tautline/runner/record/signature"
)

// Last is the record of a notebook that was signed last in its current issue, nil
// when there is none. Only a record whose signature holds counts; whose key it is
// does when there is a list of allowed signers.
func Last(notebook string, trust *signature.Trust) (*Record, error) {
	h, err := Examine(FolderOf(notebook), notebook, trust, time.Now())
	if err != nil {
		return nil, err
	}
	issue := h.Current()
	if issue == nil {
		return nil, nil
	}
	for i := len(issue.Entries) - 1; i >= 0; i-- {
		if e := issue.Entries[i]; e.Signed != nil && (trust == nil || e.Sound()) {
			return e.Signed.Record, nil
		}
	}
	return nil, nil
}
