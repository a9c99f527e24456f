package record

import (
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"tautline/runner/record/content"
	"tautline/runner/record/shelf"
)

// A record, its signature, the notebook or its data with any one bit changed is
// found out, and the message says what to do.
func TestEveryBit(t *testing.T) {
	s := newShop(t, "nina")
	s.sign("nina", Prepared)
	text, err := os.ReadFile(s.file(1))
	if err != nil {
		t.Fatal(err)
	}
	for i := range 8 * len(text) {
		text[i/8] ^= 1 << (i % 8)
		_, err := Parse(text)
		if err == nil {
			t.Errorf("bit %d of byte %d of the record: got nil, want an error", i%8, i/8)
		} else if Hint(err) == "" {
			t.Errorf("bit %d of byte %d of the record: %v, and no word of what to do", i%8, i/8, err)
		}
		text[i/8] ^= 1 << (i % 8)
	}
	t.Logf("%d bits of the record", 8*len(text))
	for _, cut := range []int{0, 1, len(text) / 2, len(text) - 1} {
		if _, err := Parse(text[:cut]); err == nil || Hint(err) == "" {
			t.Errorf("the first %d bytes of the record: got %v", cut, err)
		}
	}
	if _, err := Parse(append(text[:len(text):len(text)], '\n')); err == nil {
		t.Error("a record with a line after it: got nil, want an error")
	}

	for _, file := range []string{"small.md", "data.csv"} {
		path := filepath.Join(s.folder, file)
		text, err := os.ReadFile(path)
		if err != nil {
			t.Fatal(err)
		}
		for i := range 8 * len(text) {
			text[i/8] ^= 1 << (i % 8)
			s.write(file, string(text))
			v, err := Verify(s.notebook, s.trust(), s.now, nil)
			if err != nil || len(v.Findings) != 1 || v.Findings[0].Kind != ChangedFile || v.Findings[0].Do == "" || !strings.Contains(v.Findings[0].What, file) {
				t.Errorf("bit %d of byte %d of %s: got %+v, %v", i%8, i/8, file, v.Findings, err)
			}
			text[i/8] ^= 1 << (i % 8)
		}
		s.write(file, string(text))
		t.Logf("%d bits of %s", 8*len(text), file)
	}
	s.finds("", "")

	// The same through the file system, for some bits.
	for i := 5; i < 8*len(text); i += 1009 {
		text[i/8] ^= 1 << (i % 8)
		s.replace(1, text)
		s.finds(BrokenFile, "restore")
		text[i/8] ^= 1 << (i % 8)
	}
	s.replace(1, text)
	s.finds("", "")
}

// replace writes over the file of a record, which no signing does.
func (s *shop) replace(number int, text []byte) {
	s.t.Helper()
	os.Remove(s.file(number))
	if err := os.WriteFile(s.file(number), text, 0o666); err != nil {
		s.t.Fatal(err)
	}
}

// Records that are missing, exchanged, renamed or of another notebook are found
// out, and nothing is signed on top of them.
func TestChain(t *testing.T) {
	two := func(t *testing.T) *shop {
		s := newShop(t, "nina", "otto")
		s.sign("nina", Prepared)
		s.sign("otto", Checked)
		s.sign("nina", Approved)
		s.finds("", "")
		return s
	}
	for _, c := range []struct {
		name string
		harm func(s *shop) error
		want string
	}{
		{"missing", func(s *shop) error { return os.Remove(s.file(2)) }, "0002.record: this record is missing"},
		{"the first missing", func(s *shop) error { return os.Remove(s.file(1)) }, "0001.record: this record is missing"},
		{"renamed", func(s *shop) error { return os.Rename(s.file(3), s.file(4)) }, "0003.record: this record is missing"},
		{"exchanged", func(s *shop) error {
			other := two(t)
			text, err := os.ReadFile(other.file(2))
			s.replace(2, text)
			return err
		}, "the signature is whole, but not by a key that otto may sign with"},
		{"one in place of another", func(s *shop) error {
			text, err := os.ReadFile(s.file(2))
			s.replace(3, text)
			return err
		}, "it is number 2 by its text: the file was renamed"},
		{"of another notebook", func(s *shop) error {
			return os.Rename(shelf.Of(s.notebook).Path, filepath.Join(s.folder, "records", "other"))
		}, "it is of the notebook small.md, not of other.md"},
		{"Windows lines", func(s *shop) error {
			text, err := os.ReadFile(s.file(3))
			s.replace(3, []byte(strings.ReplaceAll(string(text), "\n", "\r\n")))
			return err
		}, "keep *.record as it is, with a line *.record -text in .gitattributes"},
		{"another file", func(s *shop) error {
			return os.WriteFile(filepath.Join(shelf.Of(s.notebook).Path, "note.txt"), nil, 0o666)
		}, "this is no record"},
		{"a link", func(s *shop) error { return os.Symlink(s.file(3), s.file(4)) }, "0004.record: this is no record"},
	} {
		t.Run(c.name, func(t *testing.T) {
			s := two(t)
			if err := c.harm(s); err != nil {
				t.Fatal(err)
			}
			if c.name == "of another notebook" {
				s.notebook = filepath.Join(s.folder, "other.md")
				s.write("other.md", small)
			}
			var said []string
			for _, f := range s.verify().All() {
				said = append(said, f.What)
				if f.Do == "" {
					t.Errorf("%s: no word of what to do", f.What)
				}
			}
			if all := strings.Join(said, "\n"); !strings.Contains(all, c.want) {
				t.Errorf("got\n%s\nwant %q", all, c.want)
			}
			if c.name != "exchanged" { // there the chain tells it too, below
				s.refused(s.request("nina", Prepared), "not signed: the records before do not hold")
			}
		})
	}
}

// A clock that is wrong is told: no record is older than the one before it, or of
// the time to come.
func TestClock(t *testing.T) {
	s := newShop(t, "nina", "otto")
	s.sign("nina", Prepared)
	s.now = s.now.Add(-48 * time.Hour)
	s.refused(s.request("otto", Checked), "set the clock of this machine")
	s.now = s.now.Add(49 * time.Hour)
	s.sign("otto", Checked)

	early, err := Verify(s.notebook, s.trust(), s.now.Add(-30*time.Minute), nil)
	if err != nil || len(early.All()) != 1 || early.All()[0].Kind != WrongClock || !strings.Contains(early.All()[0].Do, "set the clock") {
		t.Errorf("seen from before: got %+v, %v", early.All(), err)
	}
	if soon, err := Verify(s.notebook, s.trust(), s.now.Add(-time.Minute), nil); err != nil || !soon.Holds() {
		t.Errorf("a clock a minute behind: got %+v, %v, want nothing", soon.All(), err)
	}

	// A record made elsewhere that is older than the one it follows.
	text, err := os.ReadFile(s.file(2))
	if err != nil {
		t.Fatal(err)
	}
	signed, err := Parse(text)
	if err != nil {
		t.Fatal(err)
	}
	signed.Record.At = signed.Record.At.Add(-72 * time.Hour)
	if text, err = signed.Record.seal(s.keys["otto"]); err != nil {
		t.Fatal(err)
	}
	s.replace(2, text)
	s.finds(WrongClock, "before the record that it follows")
}

// A key that is taken out of the list later makes its records count no more, and
// the message says how to retire a key. The notebook can be signed anew.
func TestKeyRemoved(t *testing.T) {
	s := newShop(t, "nina", "otto")
	s.sign("nina", Prepared)
	s.sign("otto", Checked)
	list := s.list
	s.list = strings.Join(strings.SplitAfter(list, "\n")[1:], "") // nina is gone
	v := s.verify()
	if v.Holds() || !strings.Contains(v.All()[0].What, "not by a key that nina may sign with") || !strings.Contains(v.All()[0].Do, `put its line back with valid-before="the day"`) {
		t.Errorf("got %+v", v.All())
	}
	s.refused(s.request("otto", Approved), "does not hold")
	s.refused(s.request("nina", Prepared), "you cannot sign with the key")
	q := s.request("otto", Prepared)
	if _, err := Sign(q); err != nil {
		t.Errorf("prepared anew: %v", err)
	}

	// Retired on a later day it still counts for what it signed.
	retired := strings.Replace(list, "nina ", `nina valid-before="20260601Z" `, 1)
	s.list = retired
	s.finds("", "")
	s.now = time.Date(2026, 7, 1, 0, 0, 0, 0, time.UTC)
	s.refused(s.request("nina", Checked), "the key was valid up to 2026-06-01")
	// Valid from later on only, it does not.
	s.list = strings.Replace(list, "nina ", `nina valid-after="20260601Z" `, 1)
	if s.verify().Holds() {
		t.Error("a key that was not yet valid: got nothing, want it found")
	}
	// For another purpose, it does not.
	s.list = strings.Replace(list, "nina ", `nina namespaces="git" `, 1)
	if s.verify().Holds() {
		t.Error("a key for git alone: got nothing, want it found")
	}
	// Without any list nobody is trusted.
	v, err := Verify(s.notebook, nil, s.now, nil)
	if err != nil || v.Holds() || !strings.Contains(v.All()[0].Do, "make a file allowed_signers") {
		t.Errorf("without a list: got %+v, %v", v.All(), err)
	}
}

// Records that were sealed with a real key but break the rules are found out: who
// has a key could write what sign would not.
func TestForged(t *testing.T) {
	for _, c := range []struct {
		name  string
		forge func(r *Record)
		want  string
	}{
		{"checked by who prepared it", func(r *Record) { r.By = "nina" }, "want another person"},
		{"approved unchecked", func(r *Record) { r.Role, r.Confirms[0].Role = Approved, Prepared }, "got nobody who checked it"},
		{"confirms another", func(r *Record) { r.Confirms[0].Digest = content.Digest(nil) }, "it confirms other records"},
		{"confirms nothing", func(r *Record) { r.Confirms = nil }, "it confirms other records"},
		{"follows another", func(r *Record) { r.Follows = content.Digest(nil) }, "it follows another record"},
		{"other data", func(r *Record) { r.Content.Files[0].Digest = content.Digest(nil) }, "another notebook text or other data"},
		{"another number", func(r *Record) { r.Number = 7 }, "it is number 7 by its text"},
	} {
		t.Run(c.name, func(t *testing.T) {
			s := newShop(t, "nina", "otto")
			s.list = strings.Replace(s.list, "otto ", "otto,nina ", 1)
			q := s.request("nina", Prepared)
			q.Who = "nina"
			if _, err := Sign(q); err != nil {
				t.Fatal(err)
			}
			q = s.request("otto", Checked)
			q.Who = "otto"
			signed, err := Sign(q)
			if err != nil {
				t.Fatal(err)
			}
			c.forge(signed.Record)
			text, err := signed.Record.seal(s.keys["otto"])
			if err != nil {
				t.Fatal(err)
			}
			s.replace(2, text)
			all := s.verify().All()
			if len(all) == 0 || !strings.Contains(all[0].What, c.want) {
				t.Errorf("got %+v, want %q", all, c.want)
			}
		})
	}
	// What no reader takes is not even sealed.
	s := newShop(t, "nina")
	signed := s.sign("nina", Prepared)
	for name, forge := range map[string]func(r *Record){
		"role":       func(r *Record) { r.Role = "drawn" },
		"nobody":     func(r *Record) { r.By = "" },
		"no reason":  func(r *Record) { r.Exceptions = []string{"a check fails"} },
		"text":       func(r *Record) { r.Content.Notebook.Text += "x" },
		"roles":      func(r *Record) { r.Content.Notebook.Roles = []string{Checked} },
		"no roles":   func(r *Record) { r.Content.Notebook.Roles = nil },
		"local time": func(r *Record) { r.At = r.At.In(time.FixedZone("x", 3600)) },
		"version":    func(r *Record) { r.Version = 2 },
		"format":     func(r *Record) { r.Format = "x" },
		"key":        func(r *Record) { r.Key = "SHA256:x" },
	} {
		r := *signed.Record
		forge(&r)
		if text, err := r.seal(s.keys["nina"]); err == nil {
			t.Errorf("%s: got %.40q, want an error", name, text)
		}
	}
}
