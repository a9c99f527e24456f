package signature

import (
	"crypto"
	"crypto/ecdsa"
	"crypto/ed25519"
	"crypto/elliptic"
	"crypto/rand"
	"crypto/rsa"
	"encoding/pem"
	"errors"
	"net"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"golang.org/x/crypto/ssh"
	"golang.org/x/crypto/ssh/agent"
)

const namespace = "example-record"

// makeKeys makes throw-away keys of each kind that signs.
func makeKeys(t testing.TB) map[string]crypto.Signer {
	t.Helper()
	_, ed, err1 := ed25519.GenerateKey(rand.Reader)
	ec, err2 := ecdsa.GenerateKey(elliptic.P256(), rand.Reader)
	ec384, err3 := ecdsa.GenerateKey(elliptic.P384(), rand.Reader)
	big, err4 := rsa.GenerateKey(rand.Reader, 2048)
	if err := errors.Join(err1, err2, err3, err4); err != nil {
		t.Fatal(err)
	}
	return map[string]crypto.Signer{"ed25519": ed, "ecdsa": ec, "ecdsa-384": ec384, "rsa": big}
}

func signer(t testing.TB, key crypto.Signer) ssh.Signer {
	t.Helper()
	s, err := ssh.NewSignerFromSigner(key)
	if err != nil {
		t.Fatal(err)
	}
	return s
}

// write writes a file into the folder and returns its path.
func write(t testing.TB, folder, name, text string) string {
	t.Helper()
	path := filepath.Join(folder, name)
	if err := os.WriteFile(path, []byte(text), 0o600); err != nil {
		t.Fatal(err)
	}
	return path
}

func public(s ssh.Signer) string {
	return strings.TrimSpace(string(ssh.MarshalAuthorizedKey(s.PublicKey())))
}

// keygen runs ssh-keygen, which is another program by other people.
func keygen(t *testing.T, stdin string, args ...string) (string, error) {
	t.Helper()
	cmd := exec.Command("ssh-keygen", args...)
	cmd.Stdin = strings.NewReader(stdin)
	out, err := cmd.CombinedOutput()
	if errors.Is(err, exec.ErrNotFound) {
		if os.Getenv("TAUTLINE_BROWSER") == "required" {
			t.Fatal("ssh-keygen is not installed: apt-get install openssh-client")
		}
		t.Skip("ssh-keygen is not installed")
	}
	return string(out), err
}

// What we sign ssh-keygen verifies, and what it signs we verify, with each kind
// of key.
func TestAgainstKeygen(t *testing.T) {
	const text = "a text\nwith 9.81 in it"
	for name, key := range makeKeys(t) {
		t.Run(name, func(t *testing.T) {
			folder := t.TempDir()
			s := signer(t, key)
			list := write(t, folder, "allowed_signers", "# the list\n\nnina@example.org,n* namespaces=\""+namespace+",other\" "+public(s)+" a comment\n")

			ours, err := Sign(s, namespace, []byte(text))
			if err != nil {
				t.Fatal(err)
			}
			verify := []string{"-Y", "verify", "-f", list, "-I", "nina@example.org", "-n", namespace, "-s", write(t, folder, "ours.sig", ours)}
			if out, err := keygen(t, text, verify...); err != nil {
				t.Errorf("ssh-keygen does not verify ours: %v\n%s", err, out)
			}
			if out, err := keygen(t, text+".", verify...); err == nil {
				t.Errorf("ssh-keygen verifies ours with another text: %s", out)
			}
			// What follows the signature in its file does not matter to it.
			write(t, folder, "ours.sig", ours+"{\"a\":1}\n")
			if out, err := keygen(t, text, verify...); err != nil {
				t.Errorf("ssh-keygen does not verify ours with a line after it: %v\n%s", err, out)
			}

			block, err := ssh.MarshalPrivateKey(key, "")
			if err != nil {
				t.Fatal(err)
			}
			file := write(t, folder, "key", string(pem.EncodeToMemory(block)))
			write(t, folder, "text", text)
			if out, err := keygen(t, "", "-Y", "sign", "-f", file, "-n", namespace, filepath.Join(folder, "text")); err != nil {
				t.Fatalf("ssh-keygen does not sign: %v\n%s", err, out)
			}
			theirs, err := os.ReadFile(filepath.Join(folder, "text.sig"))
			if err != nil {
				t.Fatal(err)
			}
			got, err := Verify(string(theirs), namespace, []byte(text))
			if err != nil {
				t.Fatalf("Verify of ssh-keygen's signature: %v\n%s", err, theirs)
			}
			if Fingerprint(got) != Fingerprint(s.PublicKey()) {
				t.Errorf("Verify: got the key %s, want %s", Fingerprint(got), Fingerprint(s.PublicKey()))
			}
			listText, _ := os.ReadFile(list)
			trust, err := ParseTrust("allowed_signers", listText)
			if err != nil {
				t.Fatal(err)
			}
			for _, who := range []string{"nina@example.org", "nora"} {
				if err := trust.Allows(who, got, namespace, time.Now()); err != nil {
					t.Errorf("Allows(%s): %v", who, err)
				}
			}
			if err := trust.Allows("otto", got, namespace, time.Now()); err == nil {
				t.Error("Allows(otto): got nil, want an error")
			}
		})
	}
}

// A signature of another text, namespace or key, or with any one bit of it
// changed, does not verify.
func TestEveryBit(t *testing.T) {
	text := []byte("text")
	s := signer(t, makeKeys(t)["ed25519"])
	armored, err := Sign(s, namespace, text)
	if err != nil {
		t.Fatal(err)
	}
	if _, err := Verify(armored, "other", text); err == nil {
		t.Error("another namespace: got nil, want an error")
	}
	for i := range 8 * len(armored) {
		b := []byte(armored)
		b[i/8] ^= 1 << (i % 8)
		if _, err := Verify(string(b), namespace, text); err == nil {
			t.Errorf("bit %d of byte %d (%q): got nil, want an error", i%8, i/8, armored[i/8])
		}
	}
	for _, bad := range []string{"", beginning, ending, beginning + ending, beginning + "U1NIU0lH\n" + ending, armored + "x", "x" + armored,
		strings.ReplaceAll(armored, "\n", "\r\n"), strings.Replace(armored, "\n", "\n\n", 1)} {
		if _, err := Verify(bad, namespace, text); err == nil {
			t.Errorf("Verify(%.30q): got nil, want an error", bad)
		}
	}
}

// old is a key of a type that is given up.
type old struct{ ssh.PublicKey }

func (old) Type() string { return "ssh-dss" }

// Keys that are too weak neither sign nor count.
func TestWeak(t *testing.T) {
	if err := known(old{}); err == nil || !strings.Contains(err.Error(), "type of key: got ssh-dss") {
		t.Errorf("a DSA key: got %v, want an error", err)
	}
	if modern("ssh-rsa") == nil {
		t.Error("RSA over SHA-1: got nil, want an error")
	}
}

// The file allowed_signers: its options, what is refused, and where.
func TestTrust(t *testing.T) {
	s := signer(t, makeKeys(t)["ed25519"])
	key := public(s)
	at := func(text string) time.Time {
		when, err := time.Parse(time.RFC3339, text)
		if err != nil {
			t.Fatal(err)
		}
		return when
	}
	when := at("2026-06-01T12:00:00Z")
	for _, c := range []struct{ line, want string }{
		{"nina " + key, ""},
		{"  nina\t" + key + "  comment", ""},
		{"\"nina\" " + key, ""},
		{"otto,nina " + key, ""},
		{"* " + key, ""},
		{"n?na " + key, ""},
		{"nina namespaces=\"x," + namespace + "\" " + key, ""},
		{"nina namespaces=\"example-*\" " + key, ""},
		{"nina valid-after=20260601,valid-before=20260602 " + key, ""},
		{"nina valid-after=\"202606011200Z\" " + key, ""},
		{"nina valid-before=20260601120000Z " + key, ""},
		{"*,!nina " + key, "it is of *, !nina there, not of nina"},
		{"otto " + key, "it is of otto there, not of nina"},
		{"ninax " + key, "not of nina"},
		{"nina namespaces=\"file,git\" " + key, "its namespaces are file,git, not example-record"},
		{"nina valid-after=20260602Z " + key, "valid from 2026-06-02T00:00:00Z on, not yet at 2026-06-01T12:00:00Z"},
		{"nina valid-before=20260601Z " + key, "valid up to 2026-06-01T00:00:00Z, no more at 2026-06-01T12:00:00Z"},
		{"# nina " + key, "it is nobody's in the list"},
		{"nina", "list:1: got \"nina\" alone"},
		{"nina " + key[:30], "list:1: got no public key"},
		{"nina cert-authority " + key, "list:1: got cert-authority"},
		{"nina cert-authority,namespaces=\"a\" " + key, "list:1: got cert-authority"},
		{"nina touch=no " + key, `list:1: got the option "touch=no"`},
		{"nina valid-before=tomorrow " + key, `list:1: got the time "tomorrow"`},
		{"nina namespaces=\"a " + key, "list:1: got an open quote"},
		{"nina namespaces=a valid-after=20260601 " + key, "one word of options"},
	} {
		trust, err := ParseTrust("list", []byte(c.line+"\n"))
		if err == nil {
			err = trust.Allows("nina", s.PublicKey(), namespace, when)
		}
		if c.want == "" && err != nil || c.want != "" && (err == nil || !strings.Contains(err.Error(), c.want)) {
			t.Errorf("%.50s: got %v, want %q", c.line, err, c.want)
		}
	}
	// A key in two lines: the old one is out of date, the new one serves.
	trust, err := ParseTrust("list", []byte("nina valid-before=20250101 "+key+"\nnina "+key+"\n"))
	if err != nil {
		t.Fatal(err)
	}
	if err := trust.Allows("nina", s.PublicKey(), namespace, when); err != nil {
		t.Error(err)
	}
	if got := Plain([]string{"b", "a*", "a", "b", "!c"}); strings.Join(got, " ") != "a b" {
		t.Errorf("Plain: got %q, want a b", got)
	}
}

// A key comes from a file, with a passphrase or without, or from the agent, by
// the list or by its public key.
func TestKeys(t *testing.T) {
	folder := t.TempDir()
	key := makeKeys(t)["ed25519"]
	s := signer(t, key)
	never := func(string) ([]byte, error) { t.Error("asked for a passphrase"); return nil, errors.New("no") }
	with := func(pass string) func(string) ([]byte, error) {
		return func(string) ([]byte, error) { return []byte(pass), nil }
	}
	block, _ := ssh.MarshalPrivateKey(key, "")
	plain := write(t, folder, "plain", string(pem.EncodeToMemory(block)))
	block, _ = ssh.MarshalPrivateKeyWithPassphrase(key, "", []byte("open sesame"))
	locked := write(t, folder, "locked", string(pem.EncodeToMemory(block)))
	pub := write(t, folder, "key.pub", public(s)+" nina\n")
	same := func(got ssh.Signer, done func(), err error) {
		t.Helper()
		if err != nil {
			t.Error(err)
			return
		}
		defer done()
		if _, err := Sign(got, namespace, []byte("text")); err != nil || Fingerprint(got.PublicKey()) != Fingerprint(s.PublicKey()) {
			t.Errorf("got another key, or one that does not sign: %v", err)
		}
	}
	same(FromFile(plain, never))
	same(FromFile(locked, with("open sesame")))
	if _, _, err := FromFile(locked, with("wrong")); err == nil || !strings.Contains(err.Error(), "passphrase") && !strings.Contains(err.Error(), "decryption") {
		t.Errorf("a wrong passphrase: got %v", err)
	}
	t.Setenv("SSH_AUTH_SOCK", "")
	trust, err := ParseTrust("list", []byte("nina "+public(s)))
	if err != nil {
		t.Fatal(err)
	}
	if _, _, err := FromAgent(trust); err == nil || !strings.Contains(err.Error(), "no ssh agent") {
		t.Errorf("no agent: got %v", err)
	}
	if _, _, err := FromFile(write(t, folder, "none", "no key"), never); err == nil {
		t.Error("a file without a key: got nil, want an error")
	}

	ring := agent.NewKeyring()
	serve(t, ring)
	if _, _, err := FromAgent(trust); err == nil || !strings.Contains(err.Error(), "none of them in the list") {
		t.Errorf("an empty agent: got %v", err)
	}
	for _, k := range makeKeys(t) {
		if err := ring.Add(agent.AddedKey{PrivateKey: pointer(k)}); err != nil {
			t.Fatal(err)
		}
	}
	if _, _, err := FromFile(pub, never); err == nil || !strings.Contains(err.Error(), "ssh-add") {
		t.Errorf("a key that the agent does not hold: got %v", err)
	}
	if err := ring.Add(agent.AddedKey{PrivateKey: pointer(key)}); err != nil {
		t.Fatal(err)
	}
	same(FromAgent(trust))
	same(FromFile(pub, never))
	// RSA through an agent signs over SHA-512.
	rsaKey := makeKeys(t)["rsa"]
	if err := ring.Add(agent.AddedKey{PrivateKey: rsaKey}); err != nil {
		t.Fatal(err)
	}
	got, done, err := FromFile(write(t, folder, "rsa.pub", public(signer(t, rsaKey))), never)
	if err != nil {
		t.Fatal(err)
	}
	defer done()
	if _, err := Sign(got, namespace, []byte("text")); err != nil {
		t.Errorf("RSA by an agent: %v", err)
	}
}

// pointer is a key as an agent takes it.
func pointer(k crypto.Signer) any {
	if ed, ok := k.(ed25519.PrivateKey); ok {
		return &ed
	}
	return k
}

// serve puts an agent at SSH_AUTH_SOCK.
func serve(t *testing.T, ring agent.Agent) {
	t.Helper()
	folder, err := os.MkdirTemp("", "a") // short: a socket's path is limited
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { os.RemoveAll(folder) })
	socket := filepath.Join(folder, "s")
	l, err := net.Listen("unix", socket)
	if err != nil {
		t.Skip(err)
	}
	t.Cleanup(func() { l.Close() })
	go func() {
		for {
			conn, err := l.Accept()
			if err != nil {
				return
			}
			go agent.ServeAgent(ring, conn)
		}
	}()
	t.Setenv("SSH_AUTH_SOCK", socket)
}

// Cut takes the signature off the head of a text.
func TestCut(t *testing.T) {
	const s = beginning + "x\n" + ending
	if a, rest, ok := Cut(s + "rest"); a != s || rest != "rest" || !ok {
		t.Errorf("Cut: got %q, %q, %v", a, rest, ok)
	}
	for _, bad := range []string{"", "rest", " " + s, beginning + "rest"} {
		if _, _, ok := Cut(bad); ok {
			t.Errorf("Cut(%q): got a signature, want none", bad)
		}
	}
}

// Whatever stands in a signature or a list is read or refused.
func FuzzRead(f *testing.F) {
	s := signer(f, ed25519.NewKeyFromSeed(make([]byte, ed25519.SeedSize))) // the same in every worker
	armored, err := Sign(s, namespace, []byte("text"))
	if err != nil {
		f.Fatal(err)
	}
	f.Add(armored)
	f.Add("nina,o* namespaces=\"a,b\",valid-after=20260101Z " + public(s) + "\n")
	f.Fuzz(func(t *testing.T, text string) {
		if _, err := Verify(text, namespace, []byte("text")); err == nil && text != armored {
			t.Errorf("Verify(%q): got nil, want an error", text)
		}
		if trust, err := ParseTrust("list", []byte(text)); err == nil {
			trust.Allows("nina", s.PublicKey(), namespace, time.Now())
		}
	})
}
