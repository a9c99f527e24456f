package record

import (
	"crypto"
	"crypto/ed25519"
	"crypto/rand"
	"flag"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"golang.org/x/crypto/ssh"

	"tautline/runner"
	"tautline/runner/engine"
	"tautline/runner/record/content"
	"tautline/runner/record/shelf"
	"tautline/runner/record/signature"
)

var update = flag.Bool("update", false, "write the records in testdata anew")

func TestMain(m *testing.M) {
	engine.Main()
	Child()
	os.Exit(m.Run())
}

// small is a notebook that reads a data file.
const small = `---
title: Small
number: S-1
revision: A
---

A pressure.

` + "```go" + `
d := sheet.ReadData("data.csv")
rs := d.Column("r", units.Mm)
p := sheet.Given(1.5*units.KPa, 1*units.KPa, 2*units.KPa) // of the fan
N := fabric.HoopTension(p, rs[1])
sheet.AtMost("seam", N, 2*units.KN/units.M, "invented")
` + "```" + `
`

const data = "r\n300\n350\n"

// A shop is a folder with a notebook and people who sign.
type shop struct {
	t        testing.TB
	folder   string
	notebook string
	keys     map[string]ssh.Signer
	private  map[string]crypto.Signer
	list     string
	now      time.Time
}

func newShop(t testing.TB, people ...string) *shop {
	t.Helper()
	s := &shop{t: t, folder: t.TempDir(), keys: map[string]ssh.Signer{}, private: map[string]crypto.Signer{}, now: time.Date(2026, 5, 4, 10, 0, 0, 0, time.UTC)}
	s.notebook = filepath.Join(s.folder, "small.md")
	s.write("small.md", small)
	s.write("data.csv", data)
	for _, who := range people {
		_, key, err := ed25519.GenerateKey(rand.Reader)
		if err != nil {
			t.Fatal(err)
		}
		signer, err := ssh.NewSignerFromKey(key)
		if err != nil {
			t.Fatal(err)
		}
		s.keys[who], s.private[who] = signer, key
		s.list += who + " " + string(ssh.MarshalAuthorizedKey(signer.PublicKey()))
	}
	return s
}

func (s *shop) write(name, text string) {
	s.t.Helper()
	if err := os.WriteFile(filepath.Join(s.folder, name), []byte(text), 0o666); err != nil {
		s.t.Fatal(err)
	}
}

// change replaces a part of the notebook.
func (s *shop) change(old, new string) {
	s.t.Helper()
	text, err := os.ReadFile(s.notebook)
	if err != nil || !strings.Contains(string(text), old) {
		s.t.Fatalf("no %q in the notebook: %v", old, err)
	}
	s.write("small.md", strings.Replace(string(text), old, new, 1))
}

func (s *shop) trust() *signature.Trust {
	s.t.Helper()
	trust, err := parseTrust(s.list)
	if err != nil {
		s.t.Fatal(err)
	}
	return trust
}

// parseTrust reads the text of a list.
func parseTrust(text string) (*signature.Trust, error) {
	return signature.ParseTrust("allowed_signers", []byte(text))
}

// here is what computes in a test.
var here = content.Tool{Program: "tautline test", Go: "Go", Platform: "here", Library: "library"}

// run runs a notebook and gathers what came of it.
func (s *shop) run(file string) (*content.Content, error) { return gather(s.t, runner.Check(file)) }

func gather(t testing.TB, res *runner.Result) (*content.Content, error) {
	worker := engine.Start(engine.Limits{})
	defer worker.Close()
	res.Run(t.Context(), worker)
	for _, d := range res.Diagnostics() {
		t.Logf("%s", d.Message)
	}
	return content.Of(res, here)
}

func (s *shop) content() *content.Content {
	s.t.Helper()
	c, err := s.run(s.notebook)
	if err != nil {
		s.t.Fatal(err)
	}
	return c
}

// request is that of a person to sign, a minute after what was before.
func (s *shop) request(who, role string) Request {
	s.now = s.now.Add(time.Minute)
	return Request{Notebook: s.notebook, Role: role, Key: s.keys[who], Trust: s.trust(), Now: s.now, Content: s.content()}
}

// sign signs, which must go well.
func (s *shop) sign(who, role string) *Signed {
	s.t.Helper()
	signed, err := Sign(s.request(who, role))
	if err != nil {
		s.t.Fatalf("%s %s: %v", who, role, err)
	}
	return signed
}

// refused wants a signing to be refused with words.
func (s *shop) refused(q Request, want string) {
	s.t.Helper()
	signed, err := Sign(q)
	if err == nil {
		s.t.Fatalf("%s: got %s, want a refusal with %q", q.Role, signed.Record.Label(), want)
	}
	if !strings.Contains(err.Error()+" "+Hint(err), want) {
		s.t.Errorf("%s: got %q, hint %q, want %q", q.Role, err, Hint(err), want)
	}
}

func (s *shop) verify() *Verified {
	s.t.Helper()
	v, err := Verify(s.notebook, s.trust(), s.now.Add(time.Minute), s.run)
	if err != nil {
		s.t.Fatal(err)
	}
	return v
}

// finds wants verify to find one thing of a kind, with words in it, and nothing
// else; "" for nothing at all.
func (s *shop) finds(kind FindingKind, want string) {
	s.t.Helper()
	all := s.verify().All()
	if want == "" && len(all) == 0 || want != "" && len(all) == 1 && all[0].Kind == kind && strings.Contains(all[0].What+" "+all[0].Do, want) {
		return
	}
	s.t.Errorf("verify: got %+v, want %s with %q", all, kind, want)
}

// file is the path of a record.
func (s *shop) file(number int) string { return shelf.Of(s.notebook).File(number) }

func fingerprint(s *shop, who string) string { return signature.Fingerprint(s.keys[who].PublicKey()) }
