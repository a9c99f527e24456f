package record

import (
	"crypto/ed25519"
	"encoding/json"
	"errors"
	"flag"
	"fmt"
	"io/fs"
	"maps"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"runtime"
	"slices"
	"strconv"
	"strings"
	"sync"
	"syscall"
	"testing"
	"time"

	"golang.org/x/crypto/ssh"

	"tautline/runner/record/content"
	"tautline/runner/record/shelf"
)

var tries = flag.Int("tries", 60, "how often a signing is killed")

// A job is what a child process is to sign. At Step it is killed, as with kill -9,
// before that step of writing; in the middle of it when the step writes bytes.
type job struct {
	Notebook string
	Key      []byte
	List     string
	Now      time.Time
	Content  *content.Content
	Step     int
	User     int // whom it becomes before; 0 for nobody else
}

const childVariable = "TAUTLINE_RECORD_CHILD"

// Child signs in a child process of a test and ends it.
func Child() {
	path := os.Getenv(childVariable)
	if path == "" {
		return
	}
	err := func() error {
		var j job
		text, err := os.ReadFile(path)
		if err == nil {
			err = json.Unmarshal(text, &j)
		}
		if err != nil {
			return err
		}
		key, err := ssh.NewSignerFromKey(ed25519.PrivateKey(j.Key))
		if err != nil {
			return err
		}
		trust, err := parseTrust(j.List)
		if err != nil {
			return err
		}
		if err := become(j.User); err != nil {
			return err
		}
		folder := shelf.Of(j.Notebook)
		folder.Disk = &failingDisk{fail: func(step int) error {
			if step == j.Step {
				die()
			}
			return nil
		}}
		_, err = sign(Request{Notebook: j.Notebook, Role: Prepared, Key: key, Trust: trust, Now: j.Now, Content: j.Content}, folder)
		return err
	}()
	if err != nil {
		fmt.Println(err)
		fmt.Println(Hint(err))
		os.Exit(1)
	}
	os.Exit(0)
}

// A failingDisk is the disk, but each step of it may fail, or end the process.
type failingDisk struct {
	shelf.System
	fail  func(step int) error
	steps int
	did   []string
}

func (d *failingDisk) step(what string) error {
	d.steps++
	d.did = append(d.did, what)
	return d.fail(d.steps)
}

func (d *failingDisk) MakeAll(folder string) error {
	if err := d.step("make folders"); err != nil {
		return err
	}
	return errors.Join(d.System.MakeAll(folder), d.step("folders made"))
}

func (d *failingDisk) Create(folder, pattern string) (shelf.Part, error) {
	if err := d.step("create"); err != nil {
		return nil, err
	}
	f, err := d.System.Create(folder, pattern)
	if err != nil {
		return nil, err
	}
	return &failingPart{f, d}, nil
}

func (d *failingDisk) Link(old, name string) error {
	if err := d.step("link"); err != nil {
		return err
	}
	return d.System.Link(old, name)
}

func (d *failingDisk) SyncFolder(folder string) error {
	if err := d.step("sync folder"); err != nil {
		return err
	}
	return d.System.SyncFolder(folder)
}

func (d *failingDisk) Remove(path string) {
	if d.step("remove") == nil {
		d.System.Remove(path)
	}
}

type failingPart struct {
	shelf.Part
	disk *failingDisk
}

// Write writes in four pieces, with a step before each.
func (f *failingPart) Write(text []byte) (n int, err error) {
	for piece := range slices.Chunk(text, len(text)/4+1) {
		if err := f.disk.step("write"); err != nil {
			return n, err
		}
		m, err := f.Part.Write(piece)
		if n += m; err != nil {
			return n, err
		}
	}
	return n, nil
}

func (f *failingPart) Chmod(mode fs.FileMode) error {
	return errors.Join(f.disk.step("chmod"), f.Part.Chmod(mode))
}

func (f *failingPart) Sync() error { return errors.Join(f.disk.step("sync"), f.Part.Sync()) }

func (f *failingPart) Close() error { return errors.Join(f.disk.step("close"), f.Part.Close()) }

// The steps of a signing: the bytes are on the disk before the file has its name,
// and the name is on the disk before the signer is told.
func TestSteps(t *testing.T) {
	s := newShop(t, "nina")
	d := &failingDisk{fail: func(int) error { return nil }}
	folder := shelf.Of(s.notebook)
	folder.Disk = d
	if _, err := sign(s.request("nina", Prepared), folder); err != nil {
		t.Fatal(err)
	}
	got := strings.Join(d.did, ", ")
	if want := "make folders, folders made, create, write, write, write, write, chmod, sync, close, link, sync folder, remove"; got != want {
		t.Errorf("got %s\nwant %s", got, want)
	}
}

// steps is the number of steps in a signing, as TestSteps has them.
const steps = 13

// issue is the content under another revision mark.
func issue(c *content.Content, mark string) *content.Content {
	d := *c
	d.Notebook.Revision = mark
	d.Notebook.Text = strings.Replace(small, "revision: A", "revision: "+mark, 1)
	d.Notebook.Digest = content.Digest([]byte(d.Notebook.Text))
	return &d
}

// child runs a job in a process of its own and kills it after a time, if that is
// not 0.
func (s *shop) child(j job, kill time.Duration) (out string, err error) {
	s.t.Helper()
	text, err := json.Marshal(j)
	if err != nil {
		s.t.Fatal(err)
	}
	path := filepath.Join(s.folder, "job.json")
	s.write("job.json", string(text))
	cmd := exec.Command(os.Args[0])
	cmd.Env = append(os.Environ(), childVariable+"="+path)
	var b strings.Builder
	cmd.Stdout = &b
	if err := cmd.Start(); err != nil {
		s.t.Fatal(err)
	}
	if kill > 0 {
		time.Sleep(kill)
		cmd.Process.Kill()
	}
	err = cmd.Wait()
	return b.String(), err
}

// files are the files in the folder of records, with their digests.
func (s *shop) files() map[string]string {
	found := map[string]string{}
	entries, _ := os.ReadDir(shelf.Of(s.notebook).Path)
	for _, e := range entries {
		if text, err := os.ReadFile(filepath.Join(shelf.Of(s.notebook).Path, e.Name())); err == nil && !strings.HasPrefix(e.Name(), ".") {
			found[e.Name()] = content.Digest(text)
		}
	}
	return found
}

// A signing that is killed at any step, or at any time, leaves the records that
// there were and at most one whole new one; the next signing goes well.
func TestKill(t *testing.T) {
	if runtime.GOOS == "windows" {
		t.Skip("another kind of kill there")
	}
	const long = 25 // tries in one folder
	var s *shop
	var first *content.Content
	killed, written := 0, 0
	random := rand.New(rand.NewPCG(1, 1))
	for try := range *tries {
		if try%long == 0 {
			s = newShop(t, "nina")
			first = s.content()
		}
		j := job{Notebook: s.notebook, Key: s.private["nina"].(ed25519.PrivateKey), List: s.list, Content: issue(first, "R"+strconv.Itoa(try)), Step: try%(steps+3) + 1}
		s.now = s.now.Add(time.Minute)
		j.Now = s.now
		var after time.Duration
		if j.Step > steps { // not at a step, but at some time
			after = time.Duration(random.Int64N(int64(40 * time.Millisecond)))
		}
		before := s.files()
		if out, err := s.child(j, after); err == nil {
			written++
		} else if out != "" {
			t.Fatalf("try %d: %s", try, out)
		} else {
			killed++
		}
		since := s.files()
		for name, digest := range before {
			if since[name] != digest {
				t.Fatalf("try %d, step %d: %s was changed or lost", try, j.Step, name)
			}
		}
		if len(since) > len(before)+1 {
			t.Fatalf("try %d, step %d: got %v, want at most one more than %v", try, j.Step, slices.Sorted(maps.Keys(since)), slices.Sorted(maps.Keys(before)))
		}
		// The next signing is as if nothing had been.
		s.now = s.now.Add(time.Minute)
		if _, err := Sign(Request{Notebook: s.notebook, Role: Prepared, Key: s.keys["nina"], Trust: s.trust(), Now: s.now, Content: issue(first, "N"+strconv.Itoa(try))}); err != nil {
			t.Fatalf("try %d, step %d: the next signing: %v", try, j.Step, err)
		}
		h, err := Examine(shelf.Of(s.notebook), s.notebook, s.trust(), s.now)
		if err != nil || h.Torn() || slices.ContainsFunc(h.Entries, func(e *Entry) bool { return !e.Sound() }) {
			t.Fatalf("try %d, step %d: the records do not hold: %v", try, j.Step, err)
		}
	}
	t.Logf("%d signings killed, %d ended before that", killed, written)
	if killed < *tries/2 {
		t.Errorf("killed: got %d of %d, want most", killed, *tries)
	}

	// What was left behind goes when it is old.
	folder := shelf.Of(s.notebook)
	left := filepath.Join(folder.Path, ".part-old")
	if err := os.WriteFile(left, []byte("half"), 0o600); err != nil {
		t.Fatal(err)
	}
	old := time.Now().Add(-2 * time.Hour)
	if err := os.Chtimes(left, old, old); err != nil {
		t.Fatal(err)
	}
	folder.Sweep()
	if _, err := os.Stat(left); !errors.Is(err, fs.ErrNotExist) {
		t.Errorf("a part of two hours ago: got %v, want it gone", err)
	}
}

// When a step of writing fails nothing is signed and nothing is lost, and the
// message says what to do.
func TestDiskFails(t *testing.T) {
	first := newShop(t).content()
	for _, c := range []struct {
		err  error
		want string
	}{
		{syscall.ENOSPC, "make room, then sign again"},
		{syscall.EROFS, "see that you may write there"},
		{fs.ErrPermission, "see that you may write there"},
		{errors.ErrUnsupported, "keep the notebooks on an ordinary disk"},
		{syscall.EIO, "nothing was signed and nothing is lost"},
	} {
		for step := 1; step < steps; step++ {
			s := newShop(t, "nina")
			d := &failingDisk{fail: func(n int) error {
				if n == step {
					return c.err
				}
				return nil
			}}
			folder := shelf.Of(s.notebook)
			folder.Disk = d
			q := Request{Notebook: s.notebook, Role: Prepared, Key: s.keys["nina"], Trust: s.trust(), Now: s.now, Content: first}
			_, err := sign(q, folder)
			what := d.did[step-1]
			if err == nil {
				t.Errorf("%v at %s: got nil, want an error", c.err, what)
				continue
			}
			if what == "sync folder" { // the file has its name, and the disk does not confirm it
				if !strings.Contains(Hint(err), "look with tautline verify") || len(s.files()) != 1 {
					t.Errorf("%v at %s: got %v, %s, and %d files", c.err, what, err, Hint(err), len(s.files()))
				}
				continue
			}
			if !strings.Contains(Hint(err), c.want) || !strings.Contains(err.Error(), "could not be written") {
				t.Errorf("%v at %s: got %v, hint %q, want %q", c.err, what, err, Hint(err), c.want)
			}
			if len(s.files()) != 0 {
				t.Errorf("%v at %s: got %v, want no record", c.err, what, s.files())
			}
			if left, _ := filepath.Glob(filepath.Join(folder.Path, ".*")); len(left) > 0 {
				t.Errorf("%v at %s: left %v behind", c.err, what, left)
			}
			if _, err := Sign(q); err != nil {
				t.Errorf("%v at %s, then signed again: %v", c.err, what, err)
			}
		}
	}
}

// Of many who sign in the same moment one wins; the others are told, and no record
// is lost.
func TestAtOnce(t *testing.T) {
	people := []string{"nina", "otto", "paul", "rosa", "sven", "tove"}
	first := newShop(t).content()
	for round := range 20 {
		s := newShop(t, people...)
		trust := s.trust()
		errs := make([]error, len(people))
		var all sync.WaitGroup
		for i, who := range people {
			all.Go(func() {
				_, errs[i] = Sign(Request{Notebook: s.notebook, Role: Prepared, Key: s.keys[who], Trust: trust, Now: s.now, Content: first})
			})
		}
		all.Wait()
		won := 0
		for _, err := range errs {
			switch {
			case err == nil:
				won++
			case !strings.Contains(err.Error(), "in this moment by somebody else") && !strings.Contains(err.Error(), "prepared already"):
				t.Errorf("round %d: got %v", round, err)
			}
		}
		if won != 1 || len(s.files()) != 1 {
			t.Errorf("round %d: %d won, with %d records, want 1 and 1", round, won, len(s.files()))
		}
		if h, err := Examine(shelf.Of(s.notebook), s.notebook, trust, s.now); err != nil || h.Torn() {
			t.Errorf("round %d: the records do not hold: %v", round, err)
		}
	}
}
