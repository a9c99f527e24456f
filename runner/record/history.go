package record

import (
	"errors"
	"fmt"
	"path/filepath"
	"slices"
	"strings"
	"time"

	"tautline/runner/record/content"
	"tautline/runner/record/shelf"
	"tautline/runner/record/signature"
)

// A History is all records of one notebook, read and examined without running
// anything.
type History struct {
	Shelf    shelf.Shelf
	Notebook string // its path
	Entries  []*Entry
	Findings []Finding // about the folder as a whole
	Issues   []*Issue
}

// An Entry is one record of a history.
type Entry struct {
	Number   int
	Path     string
	Signed   *Signed // nil when the file is no record
	Findings []Finding
}

// Sound reports whether nothing is wrong with a record.
func (e *Entry) Sound() bool { return e.Signed != nil && len(e.Findings) == 0 }

// A Finding is something that is wrong.
type Finding struct {
	Kind FindingKind `json:"kind"`
	What string      `json:"what"`
	Do   string      `json:"do"`
}

// FindingKind says of what kind a finding is.
type FindingKind string

// The kinds of findings.
const (
	BrokenFile   FindingKind = "broken"   // a file is not what was signed
	BrokenChain  FindingKind = "chain"    // a record is missing or was exchanged
	WrongClock   FindingKind = "clock"    // a time that cannot be
	NoTrust      FindingKind = "trust"    // the key is not that of the person
	WrongOrder   FindingKind = "roles"    // who signed what, and after whom
	ChangedFile  FindingKind = "file"     // the notebook or a file beside it is another
	MovedNumbers FindingKind = "numbers"  // a re-run gives other results
	NotRun       FindingKind = "run"      // the notebook cannot be run
	Unsigned     FindingKind = "unsigned" // there is no record
)

// An Issue is one preparation of a notebook and the signatures that confirm it.
type Issue struct {
	Revision string
	Entries  []*Entry // the prepared record first
}

// Entry returns the record of a role, the last one; nil when nobody signed it.
func (i *Issue) Entry(role string) *Entry {
	for _, e := range slices.Backward(i.Entries) {
		if e.Signed.Record.Role == role {
			return e
		}
	}
	return nil
}

// Content is what was signed.
func (i *Issue) Content() *content.Content { return &i.Entries[0].Signed.Record.Content }

// Open lists the roles that must sign and have not soundly done so.
func (i *Issue) Open() []string {
	var open []string
	for _, role := range i.Content().Notebook.Roles {
		if e := i.Entry(role); e == nil || !e.Sound() {
			open = append(open, role)
		}
	}
	return open
}

// Current is the issue that counts: the last one; nil when there is none.
func (h *History) Current() *Issue {
	if len(h.Issues) == 0 {
		return nil
	}
	return h.Issues[len(h.Issues)-1]
}

// skew is by how much the clocks of two machines may differ.
const skew = 5 * time.Minute

// Examine reads the records of a folder: each signature, whose key it is, that
// none is missing, and that the roles signed in order. trust may be nil when
// there is no list of allowed signers.
func Examine(f shelf.Shelf, notebook string, trust *signature.Trust, now time.Time) (*History, error) {
	return ExamineWith(Open, f, notebook, trust, now)
}

// ExamineWith is Examine with another way to open records, such as that of a Kept.
func ExamineWith(open func(path string) (*Signed, error), f shelf.Shelf, notebook string, trust *signature.Trust, now time.Time) (*History, error) {
	h := &History{Shelf: f, Notebook: notebook}
	numbers, others, err := f.Numbers()
	if err != nil {
		return nil, err
	}
	for _, name := range others {
		h.Findings = append(h.Findings, Finding{BrokenFile, fmt.Sprintf("%s: this is no record", filepath.Join(f.Path, name)),
			"move it elsewhere: the folder holds files such as 0001" + shelf.Extension + " alone"})
	}
	next := 1
	for _, n := range numbers {
		for ; next < n; next++ {
			h.Findings = append(h.Findings, Finding{BrokenChain, fmt.Sprintf("%s: this record is missing", f.File(next)), "restore it from version control"})
		}
		next = n + 1
		h.read(n, open, trust, now)
	}
	h.order()
	return h, nil
}

// read reads one record and examines it after those before it.
func (h *History) read(number int, open func(path string) (*Signed, error), trust *signature.Trust, now time.Time) {
	e := &Entry{Number: number, Path: h.Shelf.File(number)}
	h.Entries = append(h.Entries, e)
	s, err := open(e.Path)
	if err != nil {
		do := "restore it from version control"
		var b interface{ Hint() string }
		if errors.As(err, &b) {
			do = b.Hint()
		}
		e.find(BrokenFile, do, "%v", err)
		return
	}
	e.Signed = s
	r := s.Record
	if r.Number != number {
		e.find(BrokenChain, "give each record its own name again", "it is number %d by its text: the file was renamed", r.Number)
	}
	if want := filepath.Base(h.Notebook); r.Content.Notebook.File != want {
		e.find(BrokenChain, "put the record back into its own folder; if the notebook was renamed, give it its old name, or sign it anew", "it is of the notebook %s, not of %s", r.Content.Notebook.File, want)
	}
	h.follows(e)
	if r.At.After(now.Add(skew)) {
		e.find(WrongClock, "set the clock of this machine; if it is right, that of the signer was wrong: sign again", "it was signed at %s, and now it is %s", say(r.At), say(now))
	}
	if trust == nil {
		e.find(NoTrust, "make a file "+TrustName+" beside the notebooks, with a line NAME KEY for each person", "there is no list of allowed signers, so nobody says whose key %s is", r.Key)
	} else if err := trust.Allows(r.By, s.Key, Namespace, r.At); err != nil {
		do := "see the list of allowed signers; if what stands there is right, the record counts no more: sign again"
		if signature.IsUnknownKey(err) {
			do = "if the key was retired, put its line back with valid-before=\"the day\"; if it was lost or stolen, the record counts no more: sign again"
		}
		e.find(NoTrust, do, "the signature is whole, but not by a key that %s may sign with: %s: %v", r.By, r.Key, err)
	}
}

// follows examines that a record follows the one before it.
func (h *History) follows(e *Entry) {
	r := e.Signed.Record
	if e.Number == 1 {
		if r.Follows != "" {
			e.find(BrokenChain, "restore the records before it from version control", "it follows another record, and there is none before it")
		}
		return
	}
	if len(h.Entries) < 2 || h.Entries[len(h.Entries)-2].Number != e.Number-1 {
		return // the one before is missing, which is told already
	}
	before := h.Entries[len(h.Entries)-2].Signed
	if before == nil {
		return
	}
	if r.Follows != before.Digest {
		e.find(BrokenChain, "restore both from version control", "it follows another record than %s: one of the two was exchanged", filepath.Base(before.Path))
	}
	if r.At.Before(before.Record.At) {
		e.find(WrongClock, "sign again on a machine whose clock is right", "it was signed at %s, before the record that it follows (%s)", say(r.At), say(before.Record.At))
	}
}

func (e *Entry) find(kind FindingKind, do, format string, args ...any) {
	e.Findings = append(e.Findings, Finding{kind, fmt.Sprintf(format, args...), do})
}

func say(t time.Time) string { return t.UTC().Format("2006-01-02 15:04:05 UTC") }

// order groups the records into issues and examines who signed after whom.
func (h *History) order() {
	for _, e := range h.Entries {
		if e.Signed == nil {
			continue
		}
		r := e.Signed.Record
		if r.Role == Prepared {
			h.Issues = append(h.Issues, &Issue{r.Content.Notebook.Revision, []*Entry{e}})
			continue
		}
		issue := h.Current()
		if issue == nil {
			e.find(WrongOrder, "restore the prepared record from version control", "it is %s, and nothing was prepared before it", r.Role)
			continue
		}
		if err := issue.accepts(r, e.Signed.Key.Marshal()); err != nil {
			e.find(WrongOrder, "let it be signed again, in order and by another person", "%v", err)
		}
		want := issue.links(r.Role)
		if !slices.Equal(want, r.Confirms) {
			e.find(WrongOrder, "let it be signed again", "it confirms other records than those before it")
		}
		if !sameInputs(&r.Content, issue.Content()) {
			e.find(WrongOrder, "let it be signed again", "it is of another notebook text or other data than was prepared")
		}
		issue.Entries = append(issue.Entries, e)
	}
}

// accepts returns why a role cannot be signed by this person with this key, if so.
func (i *Issue) accepts(r *Record, key []byte) error {
	roles := i.Content().Notebook.Roles
	if !slices.Contains(roles, r.Role) {
		return fmt.Errorf("role: got %s, want one of %s, as the title block of the prepared notebook says", r.Role, strings.Join(roles, ", "))
	}
	for _, role := range roles[:slices.Index(roles, r.Role)] {
		if e := i.Entry(role); e == nil {
			return fmt.Errorf("%s: got nobody who %s it, want that first", r.Role, role)
		} else if !e.Sound() {
			return fmt.Errorf("%s: %s, on which it rests, does not hold", r.Role, e.Signed.Record.Label())
		}
	}
	second := roles[1] // the first role that another person must have
	first := i.Entry(Prepared)
	if r.Role == second && (first.Signed.Record.By == r.By || string(first.Signed.Key.Marshal()) == string(key)) {
		return fmt.Errorf("%s: got %s, who prepared it: want another person, with a key of their own", r.Role, r.By)
	}
	return nil
}

// links are the records that one of a role rests on.
func (i *Issue) links(role string) []Link {
	var links []Link
	roles := i.Content().Notebook.Roles
	for _, before := range roles[:max(0, slices.Index(roles, role))] {
		if e := i.Entry(before); e != nil {
			links = append(links, Link{e.Number, before, e.Signed.Digest})
		}
	}
	return links
}

// sameInputs reports whether two contents are of the same text and files.
func sameInputs(a, b *content.Content) bool {
	return a.Notebook.Digest == b.Notebook.Digest && slices.Equal(a.Files, b.Files)
}

// Torn reports whether a record is missing, or a file is none.
func (h *History) Torn() bool { return h.appendable(time.Unix(1<<40, 0)) != nil }
