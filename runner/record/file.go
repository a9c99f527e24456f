package record

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"slices"
	"strings"
	"time"

	"golang.org/x/crypto/ssh"

	"tautline/runner/document"
	"tautline/runner/record/canonical"
	"tautline/runner/record/content"
	"tautline/runner/record/signature"
)

// A Signed is a record as its file has it.
type Signed struct {
	Record *Record
	Path   string
	Digest string        // SHA-256 of the file
	Key    ssh.PublicKey // that signed it
}

// maxFile is the largest file of a record in bytes.
const maxFile = 64 << 20

// Open reads the record in a file and verifies its signature: that the key named
// in it signed this very text. Whose key that is it does not ask.
func Open(path string) (*Signed, error) {
	f, err := os.Open(path)
	if errors.Is(err, fs.ErrNotExist) {
		return nil, fmt.Errorf("%s: there is no such file", path)
	} else if err != nil {
		return nil, err
	}
	defer f.Close()
	text, err := io.ReadAll(io.LimitReader(f, maxFile+1))
	if err != nil {
		return nil, err
	}
	s, err := Parse(text)
	if err != nil {
		return nil, fmt.Errorf("%s: %w", path, err)
	}
	s.Path = path
	return s, nil
}

// Parse reads the text of a record's file: the armored signature, then the
// document in one line.
func Parse(text []byte) (*Signed, error) {
	if len(text) > maxFile {
		return nil, fmt.Errorf("size of the record: got more than %d bytes", maxFile)
	}
	armored, rest, ok := signature.Cut(string(text))
	document, end := strings.CutSuffix(rest, "\n")
	if !ok || !end || strings.ContainsAny(document, "\r\n") {
		return nil, layoutError(text)
	}
	key, err := signature.Verify(armored, Namespace, []byte(document))
	if err != nil {
		return nil, &broken{err.Error()}
	}
	r, err := decode([]byte(document))
	if err != nil {
		return nil, err
	}
	if print := signature.Fingerprint(key); r.Key != print {
		return nil, &broken{fmt.Sprintf("key of the record: got the signature of %s, want that of %s, which the record names", print, r.Key)}
	}
	return &Signed{Record: r, Digest: content.Digest(text), Key: key}, nil
}

// broken says that a file is not what was signed.
type broken struct{ message string }

func (b *broken) Error() string { return b.message }

// Hint says what to do about a record that is broken.
func (*broken) Hint() string {
	return "restore the file from version control; if it never was whole, let it be signed again"
}

// hinted is an error that says what to do.
type hinted struct{ message, hint string }

func (h *hinted) Error() string { return h.message }

// Hint says what to do.
func (h *hinted) Hint() string { return h.hint }

func layoutError(text []byte) error {
	if bytes.Contains(text, []byte("\r\n")) {
		return &broken{"layout of the record: its line ends were changed to those of Windows: keep *.record as it is, with a line *.record -text in .gitattributes"}
	}
	return &broken{"layout of the record: want an armored signature, then the document in one line"}
}

// decode reads the document of a record.
func decode(document []byte) (*Record, error) {
	r := &Record{}
	if err := json.Unmarshal(document, r); err != nil {
		var head struct { // of a version that is laid out otherwise
			Format  string `json:"format"`
			Version int    `json:"version"`
		}
		if json.Unmarshal(document, &head); head.Format != Format || head.Version <= Version {
			return nil, &broken{"document of the record: " + err.Error()}
		}
		r.Format, r.Version = head.Format, head.Version
	}
	switch {
	case r.Format != Format:
		return nil, fmt.Errorf("format of the record: got %q, want %q", r.Format, Format)
	case r.Version > Version:
		return nil, fmt.Errorf("version of the record: got %d, want at most %d: a newer tautline wrote it, so use that one or a later", r.Version, Version)
	case r.Version < 1:
		return nil, fmt.Errorf("version of the record: got %d, want 1 to %d", r.Version, Version)
	}
	same, err := canonical.Transform(document)
	if err != nil || !bytes.Equal(same, document) {
		return nil, &broken{"document of the record: it is not in canonical form (RFC 8785)"}
	}
	return r, r.valid()
}

// valid checks what every record says.
func (r *Record) valid() error {
	n := &r.Content.Notebook
	switch {
	case r.Number < 1:
		return fmt.Errorf("number of the record: got %d, want 1 or more", r.Number)
	case !slices.Contains(Roles(), r.Role):
		return fmt.Errorf("role of the record: got %q, want one of %s", r.Role, strings.Join(Roles(), ", "))
	case !slices.Equal(n.Roles, document.TitleBlock{Signatures: n.Roles}.Roles()) || n.Roles[0] != Prepared:
		return fmt.Errorf("roles of the record: got %q, want %s and the roles after it, in order", n.Roles, Prepared)
	case r.By == "":
		return errors.New("person of the record: got none")
	case !r.At.Equal(r.At.Truncate(time.Second)) || r.At.Location() != time.UTC || r.At.IsZero():
		return fmt.Errorf("time of the record: got %v, want whole seconds in UTC", r.At)
	case len(r.Exceptions) > 0 && strings.TrimSpace(r.Reason) == "":
		return errors.New("reason of the record: got none, though something failed when it was signed")
	case content.Digest([]byte(n.Text)) != n.Digest:
		return fmt.Errorf("notebook of the record: its text has the digest %.12s…, want %.12s…, as the record says", content.Digest([]byte(n.Text)), n.Digest)
	}
	return nil
}

// seal writes the file of a record: its signature and its document.
func (r *Record) seal(key ssh.Signer) ([]byte, error) {
	if err := r.valid(); err != nil {
		return nil, err
	}
	document, err := canonical.Marshal(r)
	if err != nil {
		return nil, err
	}
	armored, err := signature.Sign(key, Namespace, document)
	if err != nil {
		return nil, err
	}
	text := append(append([]byte(armored), document...), '\n')
	if _, err := Parse(text); err != nil {
		return nil, fmt.Errorf("internal error: the record cannot be read back: %w", err)
	}
	return text, nil
}
