package watch

import (
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"
)

// begin watches a new folder.
func begin(t *testing.T) (string, *Watcher) {
	t.Helper()
	folder := t.TempDir()
	w, err := Start(t.Context(), []Root{{Folder: folder, Deep: true}})
	if err != nil {
		t.Fatal(err)
	}
	return folder, w
}

// await waits until all paths were told, and returns what was told.
func await(t *testing.T, w *Watcher, paths ...string) map[string]int {
	t.Helper()
	told := map[string]int{}
	timeout := time.After(10 * time.Second)
	for {
		missing := 0
		for _, p := range paths {
			if told[p] == 0 {
				missing++
			}
		}
		if missing == 0 {
			return told
		}
		select {
		case c := <-w.Changes:
			told[c.Path]++
		case <-timeout:
			t.Fatalf("told of %v, want all of %q", told, paths)
		}
	}
}

// write writes a file as some editors do.
func write(t *testing.T, path, text string) {
	t.Helper()
	if err := os.WriteFile(path, []byte(text), 0o644); err != nil {
		t.Fatal(err)
	}
}

func TestChanges(t *testing.T) {
	folder, w := begin(t)
	a, b := filepath.Join(folder, "a.md"), filepath.Join(folder, "b.csv")
	write(t, a, "1")
	await(t, w, a)
	write(t, b, "1")
	await(t, w, b)

	t.Run("rename over", func(t *testing.T) {
		write(t, a+"~", "2")
		os.Rename(a+"~", a)
		await(t, w, a)
	})
	t.Run("deleted and made again", func(t *testing.T) {
		os.Remove(a)
		await(t, w, a)
		write(t, a, "3")
		await(t, w, a)
	})
	t.Run("a new folder", func(t *testing.T) {
		sub := filepath.Join(folder, "deck", "deep")
		os.MkdirAll(sub, 0o755)
		c := filepath.Join(sub, "c.md")
		write(t, c, "1")
		await(t, w, c)
		write(t, c, "2")
		await(t, w, c)
	})
	t.Run("the folder itself goes and comes back", func(t *testing.T) {
		os.RemoveAll(folder)
		await(t, w, a)
		os.MkdirAll(folder, 0o755)
		write(t, a, "4")
		await(t, w, a)
	})
}

// A folder that comes later is watched from then on, with what is below it, and its
// neighbours are not.
func TestLater(t *testing.T) {
	folder := t.TempDir()
	w, err := Start(t.Context(), []Root{{Folder: folder}, {Folder: filepath.Join(folder, "records"), Deep: true, Later: true}})
	if err != nil {
		t.Fatal(err)
	}
	sub := filepath.Join(folder, "records", "bed")
	if err := errors.Join(os.MkdirAll(filepath.Join(folder, "other"), 0o755), os.MkdirAll(sub, 0o755)); err != nil {
		t.Fatal(err)
	}
	write(t, filepath.Join(folder, "other", "x"), "1")
	record := filepath.Join(sub, "0001.record")
	write(t, record, "1")
	for c := range w.Changes {
		if filepath.Base(c.Path) == "x" {
			t.Fatalf("told of %s, which is below no root", c.Path)
		}
		if c.Path == record {
			return
		}
	}
}

// A burst of saves is told once or a few times, not at each write, and the last
// text can be read when the last change is told.
func TestBurst(t *testing.T) {
	folder, w := begin(t)
	a := filepath.Join(folder, "a.md")
	const writes = 200
	go func() {
		for i := range writes {
			os.WriteFile(a, fmt.Appendf(nil, "%d", i), 0o644)
		}
	}()
	told := 0
	for last := ""; last != fmt.Sprint(writes-1); {
		select {
		case c := <-w.Changes:
			if c.Path != a {
				t.Fatalf("told of %+v, want %s", c, a)
			}
			text, err := os.ReadFile(a)
			if err != nil {
				t.Fatal(err)
			}
			last = string(text)
			told++
		case <-time.After(10 * time.Second):
			t.Fatal("the last write was not told")
		}
	}
	if told > writes/4 {
		t.Errorf("told %d times of %d writes in a burst, want a few", told, writes)
	}
}

// Where no events come, changes are found by looking, and that is said.
func TestSilentFolder(t *testing.T) {
	folder := t.TempDir()
	a := filepath.Join(folder, "a.md")
	write(t, a, "1")
	w, err := Start(t.Context(), []Root{{Folder: folder}})
	if err != nil {
		t.Fatal(err)
	}
	w.events.Remove(folder) // the system forgets it, as a network folder never knew it
	write(t, a, "22")
	await(t, w, a)
	timeout := time.After(10 * time.Second)
	for said := false; !said; {
		select {
		case c := <-w.Changes:
			said = strings.Contains(c.Notice, "without events")
		case <-timeout:
			t.Fatal("nothing was said about the folder")
		}
	}
	os.Remove(a)
	await(t, w, a)
}

func TestHidden(t *testing.T) {
	folder := t.TempDir()
	hidden := filepath.Join(folder, ".git")
	os.Mkdir(hidden, 0o755)
	w, err := Start(t.Context(), []Root{{Folder: folder, Deep: true}})
	if err != nil {
		t.Fatal(err)
	}
	a := filepath.Join(folder, "a.md")
	write(t, filepath.Join(hidden, "b.md"), "1")
	write(t, a, "1")
	if told := await(t, w, a); len(told) > 1 {
		t.Errorf("told of %v, want %s alone", told, a)
	}
}

func TestNoFolder(t *testing.T) {
	_, err := Start(t.Context(), []Root{{Folder: filepath.Join(t.TempDir(), "none"), Deep: true}})
	if err == nil || !strings.Contains(err.Error(), "none") {
		t.Errorf("got error %v, want one that names the folder", err)
	}
}
