package record

import (
	"errors"
	"fmt"
	"path/filepath"
	"strings"
	"time"

	"golang.org/x/crypto/ssh"

	"tautline/runner/record/content"
	"tautline/runner/record/shelf"
	"tautline/runner/record/signature"
)

// A Request is what a person wants to sign.
type Request struct {
	Notebook string // its path
	Role     string
	Who      string // the person; "" for whom the list names with the key
	Key      ssh.Signer
	Trust    *signature.Trust
	Reason   string // why it is signed although something fails; "" when nothing does
	Now      time.Time
	Content  *content.Content // of a run from nothing, just now
}

// Sign examines whether a person may sign and writes the record. It returns the
// record as it was read back from the disk.
func Sign(q Request) (*Signed, error) { return sign(q, shelf.Of(q.Notebook)) }

func sign(q Request, folder shelf.Shelf) (*Signed, error) {
	now := q.Now.UTC().Truncate(time.Second)
	who, err := q.person(now)
	if err != nil {
		return nil, err
	}
	h, err := Examine(folder, q.Notebook, q.Trust, now)
	if err != nil {
		return nil, err
	}
	if err := h.appendable(now); err != nil {
		return nil, err
	}
	r := &Record{Format: Format, Version: Version, Number: 1, Role: q.Role, By: who, Key: signature.Fingerprint(q.Key.PublicKey()),
		At: now, Reason: strings.TrimSpace(q.Reason), Content: *q.Content}
	if n := len(h.Entries); n > 0 {
		last := h.Entries[n-1].Signed
		r.Number, r.Follows = last.Record.Number+1, last.Digest
	}
	if r.Exceptions = Exceptions(q.Content); len(r.Exceptions) > 0 && r.Reason == "" {
		return nil, &hinted{"not signed: " + strings.Join(r.Exceptions, "; "), "mend the notebook; or write why it may be signed all the same, with --reason, which the record keeps"}
	} else if len(r.Exceptions) == 0 && r.Reason != "" {
		return nil, &hinted{"not signed: a reason is given, but there is nothing that it would excuse", "leave --reason out"}
	}
	if q.Role == Prepared {
		err = h.preparable(q.Content)
	} else {
		err = h.confirmable(r, q.Key.PublicKey())
	}
	if err != nil {
		return nil, err
	}
	text, err := r.seal(q.Key)
	if err != nil {
		return nil, err
	}
	if err := folder.Add(r.Number, text); err != nil {
		return nil, err
	}
	return Open(folder.File(r.Number))
}

// person is who signs: whom the list of allowed signers names with the key.
func (q *Request) person(now time.Time) (string, error) {
	if !strings.Contains(strings.Join(Roles(), " "), q.Role) || q.Role == "" {
		return "", fmt.Errorf("role: got %q, want one of %s", q.Role, strings.Join(Roles(), ", "))
	}
	key := q.Key.PublicKey()
	line := strings.TrimSpace(string(ssh.MarshalAuthorizedKey(key)))
	names, err := q.Trust.Names(key, Namespace, now)
	if err != nil {
		return "", &hinted{fmt.Sprintf("you cannot sign with the key %s: %v", signature.Fingerprint(key), err),
			"let who keeps the list of allowed signers add the line: NAME " + line}
	}
	if q.Who != "" {
		return q.Who, q.Trust.Allows(q.Who, key, Namespace, now)
	}
	if plain := signature.Plain(names); len(plain) == 1 && len(names) == 1 {
		return plain[0], nil
	}
	return "", &hinted{fmt.Sprintf("who are you? the key %s is of %s", signature.Fingerprint(key), strings.Join(names, ", ")), "say it with --as NAME"}
}

// appendable returns why no record can follow those that there are, if so.
func (h *History) appendable(now time.Time) error {
	findings := h.Findings
	for _, e := range h.Entries {
		for _, f := range e.Findings {
			if f.Kind == BrokenFile || f.Kind == BrokenChain {
				f.What = fmt.Sprintf("%04d%s: %s", e.Number, shelf.Extension, strings.TrimPrefix(f.What, e.Path+": "))
				findings = append(findings, f)
			}
		}
	}
	if len(findings) > 0 {
		return &hinted{"not signed: the records before do not hold: " + findings[0].What, findings[0].Do + ", then look with tautline verify"}
	}
	if n := len(h.Entries); n > 0 {
		if last := h.Entries[n-1].Signed.Record; now.Before(last.At) {
			return &hinted{fmt.Sprintf("not signed: the clock says %s, but %s is of %s", say(now), last.Label(), say(last.At)), "set the clock of this machine; if it is right, that of the other machine was ahead: wait, or see what tautline verify says"}
		}
	}
	return nil
}

// Exceptions lists what a content must not have to be signed without a reason.
func Exceptions(c *content.Content) []string {
	var list []string
	for i := range c.Checks {
		if k := &c.Checks[i]; !k.Holds {
			list = append(list, fmt.Sprintf("line %d: check fails: %s: %s", k.Line, k.What, strings.TrimPrefix(k.Say(), "fails, ")))
		} else if k.Dimension == content.Unknown {
			list = append(list, fmt.Sprintf("line %d: dimension of a check unknown: %s", k.Line, k.What))
		}
	}
	for _, t := range c.Trials {
		if t.Outside {
			list = append(list, fmt.Sprintf("line %d: measured outside what was predicted: %s: %s", t.Line, t.What, t.Reading))
		}
	}
	if len(c.Checks) == 0 {
		list = append(list, "nothing was checked")
	}
	for _, n := range c.Names {
		for _, v := range n.Values {
			if v.Dimension == content.Unknown {
				list = append(list, fmt.Sprintf("line %d: dimension unknown: %s", n.Line, v.Path))
			}
		}
	}
	return list
}

// preparable returns why a content cannot be prepared, if so.
func (h *History) preparable(c *content.Content) error {
	revision := c.Notebook.Revision
	if revision == "" {
		return &hinted{"revision: got none, want a mark", "write revision: A into the title block"}
	}
	current := h.Current()
	if current == nil {
		return nil
	}
	same := sameInputs(c, current.Content())
	first := current.Entries[0]
	if same && first.Sound() && revision == current.Revision && !content.Compare(current.Content(), c).Moved() {
		return &hinted{fmt.Sprintf("revision %s: it is prepared already: %s", revision, first.Signed.Record.Label()), "let it be checked; or change the notebook and its revision mark first"}
	}
	for _, issue := range h.Issues {
		if issue.Revision == revision && len(issue.Open()) == 0 {
			return &hinted{fmt.Sprintf("revision %s: it was signed by all already, and the notebook, its data or its numbers are others now", revision),
				"give it the next revision mark in the title block"}
		}
	}
	return nil
}

// confirmable returns why a record cannot confirm what was prepared, if so, and
// fills in what it confirms.
func (h *History) confirmable(r *Record, key ssh.PublicKey) error {
	issue := h.Current()
	if issue == nil {
		return &hinted{r.Role + ": nothing was prepared yet", "let who made the notebook sign it first, with --role prepared"}
	}
	if !sameInputs(&r.Content, issue.Content()) {
		return &hinted{fmt.Sprintf("%s: the notebook or a file beside it was changed since %s", r.Role, issue.Entries[0].Signed.Record.Label()),
			"let it be prepared again, or take back what was changed (tautline verify shows it)"}
	}
	if err := issue.accepts(r, key.Marshal()); err != nil {
		return &hinted{err.Error(), "see with tautline verify how things stand"}
	}
	if e := issue.Entry(r.Role); e != nil && e.Sound() {
		return &hinted{fmt.Sprintf("%s: it is already: %s", r.Role, e.Signed.Record.Label()), "nothing is left to sign in this role"}
	}
	if d := content.Compare(issue.Content(), &r.Content); d.Moved() {
		return &hinted{fmt.Sprintf("%s: the numbers are not those of %s: %s", r.Role, issue.Entries[0].Signed.Record.Label(), d.Moves[0].Say()),
			"let it be prepared again with this tautline (tautline verify shows all that moved)"}
	}
	r.Confirms = issue.links(r.Role)
	return nil
}

// Hint is what an error says to do; "" when it says nothing.
func Hint(err error) string {
	var h interface{ Hint() string }
	if errors.As(err, &h) {
		return h.Hint()
	}
	return ""
}

// NotebookOf is the path of the notebook whose record a file is.
func NotebookOf(path string) string { return shelf.Shelf{Path: filepath.Dir(path)}.Notebook() }
