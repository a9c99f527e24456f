package record

import (
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"tautline/runner/record/content"
	"tautline/runner/record/shelf"
)

// A notebook is prepared, checked and approved, then changed and signed under the
// next revision; what is superseded stays.
func TestSign(t *testing.T) {
	s := newShop(t, "nina", "otto")
	s.finds(Unsigned, "it is a draft")
	s.refused(s.request("otto", Checked), "nothing was prepared yet")
	s.sign("nina", Prepared)
	s.finds("", "")
	s.refused(s.request("nina", Prepared), "it is prepared already")
	s.refused(s.request("nina", Checked), "nina, who prepared it")
	s.refused(s.request("otto", Approved), "nobody who checked it")
	s.sign("otto", Checked)
	s.refused(s.request("otto", Checked), "it is already")
	s.sign("nina", Approved)
	v := s.verify()
	if !v.Holds() || len(v.History.Current().Open()) != 0 || !v.Difference.Exact || v.Difference.Moved() {
		t.Errorf("signed by all: got %+v, %+v", v.All(), v.Difference)
	}

	s.change("1.5*units", "1.6*units")
	v = s.verify()
	if len(v.Findings) != 2 || v.Findings[0].Kind != ChangedFile || !strings.Contains(v.Findings[0].What, "small.md:12: the notebook was changed") || v.Findings[1].Kind != MovedNumbers {
		t.Errorf("changed: got %+v", v.Findings)
	}
	s.refused(s.request("nina", Prepared), "give it the next revision mark")
	s.refused(s.request("otto", Checked), "was changed since")
	s.change("revision: A", "revision: B")
	s.sign("nina", Prepared)
	s.finds("", "")
	s.sign("otto", Checked)
	s.sign("otto", Approved)
	v = s.verify()
	if !v.Holds() || len(v.History.Issues) != 2 || v.History.Issues[0].Revision != "A" || v.History.Current().Revision != "B" || len(v.History.Entries) != 6 {
		t.Errorf("revision B: got %+v", v.All())
	}

	// The superseded revision can still be looked at.
	one, err := VerifyOne(s.file(1), s.trust(), s.now, func(file, text string) (*content.Content, error) {
		if err := os.WriteFile(filepath.Join(s.folder, "old.md"), []byte(text), 0o666); err != nil {
			return nil, err
		}
		return s.run(filepath.Join(s.folder, "old.md"))
	})
	if err != nil || !one.Holds() {
		t.Errorf("revision A: got %+v, %v", one.All(), err)
	}
}

// A notebook may need fewer signatures. Who confirms first is never who prepared.
func TestRoles(t *testing.T) {
	s := newShop(t, "nina", "otto")
	s.change("revision: A", "revision: A\nsignatures: [prepared, approved]")
	s.sign("nina", Prepared)
	s.refused(s.request("otto", Checked), "want one of prepared, approved")
	s.refused(s.request("nina", Approved), "nina, who prepared it")
	s.sign("otto", Approved)
	if open := s.verify().History.Current().Open(); len(open) > 0 {
		t.Errorf("Open: got %v, want none", open)
	}
	s.finds("", "")

	// One person with two names is still one person.
	s = newShop(t, "nina", "otto")
	s.list = strings.ReplaceAll(s.list, "nina ", "nina,nora ")
	q := s.request("nina", Prepared)
	s.refused(q, "say it with --as NAME")
	q.Who = "nina"
	if _, err := Sign(q); err != nil {
		t.Fatal(err)
	}
	q = s.request("nina", Checked)
	q.Who = "nora"
	s.refused(q, "want another person, with a key of their own")
	// One person with two keys, too.
	s = newShop(t, "nina", "otto")
	s.sign("nina", Prepared)
	s.list = strings.ReplaceAll(s.list, "otto ", "nina ")
	s.refused(s.request("otto", Checked), "want another person")
	q = s.request("otto", Checked)
	q.Who = "otto"
	s.refused(q, "it is of nina there, not of otto")
	q.Role = "drawn"
	s.refused(q, `role: got "drawn"`)
}

// What fails is signed only with a reason, which the record keeps.
func TestExceptions(t *testing.T) {
	for _, c := range []struct{ name, old, new, want string }{
		{"a check fails", "2*units.KN", "0.2*units.KN", "check fails: seam: 262.5 %, 525 N/m at most 200 N/m"},
		{"nothing is checked", "sheet.AtMost(\"seam\", N, 2*units.KN/units.M, \"invented\")\n", "_ = N\n", "nothing was checked"},
		{"a dimension is unknown", "N := ", "free, err := strconv.ParseFloat(\"2.5\", 64)\n_ = err\nN := ", "dimension unknown: free"},
	} {
		t.Run(c.name, func(t *testing.T) {
			s := newShop(t, "nina", "otto")
			s.change(c.old, c.new)
			s.refused(s.request("nina", Prepared), c.want)
			q := s.request("nina", Prepared)
			q.Reason = "to be mended on the second day"
			signed, err := Sign(q)
			if err != nil {
				t.Fatal(err)
			}
			if r := signed.Record; r.Reason != q.Reason || len(r.Exceptions) == 0 || !strings.Contains(strings.Join(r.Exceptions, "; "), c.want) {
				t.Errorf("got %q, %q", r.Exceptions, r.Reason)
			}
			s.finds("", "")
			s.refused(s.request("otto", Checked), c.want) // each needs a reason of their own
		})
	}
	s := newShop(t, "nina")
	q := s.request("nina", Prepared)
	q.Reason = "just so"
	s.refused(q, "nothing that it would excuse")
	s.change("revision: A", "project: x")
	s.refused(s.request("nina", Prepared), "revision: got none")
}

// ssh-keygen alone verifies a record, as FORMAT.md says.
func TestKeygen(t *testing.T) {
	keygen, err := exec.LookPath("ssh-keygen")
	if err != nil {
		if os.Getenv("TAUTLINE_BROWSER") == "required" {
			t.Fatal("ssh-keygen is not installed: apt-get install openssh-client")
		}
		t.Skip("ssh-keygen is not installed")
	}
	s := newShop(t, "nina@example.org")
	s.write(TrustName, s.list)
	record := s.sign("nina@example.org", Prepared).Path
	verify := func(text string) error {
		cmd := exec.Command(keygen, "-Y", "verify", "-f", filepath.Join(s.folder, TrustName), "-I", "nina@example.org", "-n", Namespace, "-s", record)
		cmd.Stdin = strings.NewReader(text)
		return cmd.Run()
	}
	file, err := os.ReadFile(record)
	if err != nil {
		t.Fatal(err)
	}
	lines := strings.Split(strings.TrimSuffix(string(file), "\n"), "\n")
	document := lines[len(lines)-1]
	if err := verify(document); err != nil {
		t.Errorf("ssh-keygen does not verify the record: %v", err)
	}
	if verify(strings.Replace(document, "525", "526", 1)) == nil {
		t.Error("ssh-keygen verifies another number")
	}
}

// A record of an older version opens, and says what changed in the library since.
func TestOldRecord(t *testing.T) {
	const folder = "testdata/version1"
	notebook := filepath.Join(folder, "small.md")
	if *update {
		s := newShop(t, "nina", "otto")
		q := s.request("nina", Prepared)
		q.Content.Tool = content.Tool{Program: "tautline 0.0.9", Go: "Go 1.25.0", Platform: "linux/arm64", Library: "0123456789abcdef",
			Functions: map[string]string{"fabric.HoopTension": "0123456789abcdef", "fabric.Forgotten": "0123456789abcdef"}}
		signed, err := Sign(q)
		if err != nil {
			t.Fatal(err)
		}
		text, err := os.ReadFile(signed.Path)
		if err != nil {
			t.Fatal(err)
		}
		into := shelf.Of(notebook).File(1)
		os.Remove(into)
		for path, text := range map[string]string{into: string(text), notebook: small, filepath.Join(folder, "data.csv"): data, filepath.Join(folder, TrustName): s.list} {
			if err := os.MkdirAll(filepath.Dir(path), 0o777); err != nil {
				t.Fatal(err)
			}
			if err := os.WriteFile(path, []byte(text), 0o666); err != nil {
				t.Fatal(err)
			}
		}
	}
	trust, err := ReadTrust(FindTrust(notebook))
	if err != nil {
		t.Fatal(err)
	}
	v, err := Verify(notebook, trust, time.Date(2030, 1, 1, 0, 0, 0, 0, time.UTC), func(file string) (*content.Content, error) {
		s := &shop{t: t}
		return s.run(file)
	})
	if err != nil {
		t.Fatal(err)
	}
	if !v.Holds() || v.Difference.Exact {
		t.Errorf("got %+v, %+v", v.All(), v.Difference)
	}
	var said []string
	for _, f := range v.Since {
		said = append(said, f.Say())
	}
	got := strings.Join(said, "\n")
	if want := "fabric.Forgotten is no more\nfabric.HoopTension or what it rests on was changed; the list of changes names no other results"; got != want {
		t.Errorf("since: got\n%s\nwant\n%s", got, want)
	}
}

// A kept record is opened anew when its file looks otherwise.
func TestKept(t *testing.T) {
	s := newShop(t, "nina")
	signed := s.sign("nina", Prepared)
	var k Kept
	first, err := k.Open(signed.Path)
	if err != nil {
		t.Fatal(err)
	}
	if again, err := k.Open(signed.Path); again != first || err != nil {
		t.Errorf("the same file: got another record, %v", err)
	}
	s.replace(1, []byte("no record"))
	if _, err := k.Open(signed.Path); err == nil {
		t.Error("a file that is none any more: got nil, want an error")
	}
	os.Remove(signed.Path)
	if _, err := k.Open(signed.Path); err == nil {
		t.Error("no file: got nil, want an error")
	}
}
