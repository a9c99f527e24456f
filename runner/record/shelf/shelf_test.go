package shelf

import (
	"os"
	"path/filepath"
	"slices"
	"testing"
)

// A record that is there is never written over, and what is none is told.
func TestShelf(t *testing.T) {
	notebook := filepath.Join(t.TempDir(), "bed.md")
	s := Of(notebook)
	if s.Notebook() != notebook || !Is(s.Path) || Is(notebook) {
		t.Errorf("Of(%s): got %s, of %s", notebook, s.Path, s.Notebook())
	}
	if numbers, others, err := s.Numbers(); len(numbers)+len(others) > 0 || err != nil {
		t.Errorf("no folder: got %v, %v, %v", numbers, others, err)
	}
	for n, text := range []string{"one", "two"} {
		if err := s.Add(n+1, []byte(text)); err != nil {
			t.Fatal(err)
		}
	}
	if err := s.Add(2, []byte("another")); err == nil {
		t.Error("a number that is taken: got nil, want an error")
	}
	if text, err := os.ReadFile(s.File(2)); string(text) != "two" || err != nil {
		t.Errorf("after that: got %q, %v", text, err)
	}
	for _, name := range []string{"00003.record", "4.record", "0005.record.bak", ".part-1"} {
		if err := os.WriteFile(filepath.Join(s.Path, name), nil, 0o666); err != nil {
			t.Fatal(err)
		}
	}
	numbers, others, err := s.Numbers()
	if !slices.Equal(numbers, []int{1, 2}) || !slices.Equal(others, []string{"00003.record", "0005.record.bak", "4.record"}) || err != nil {
		t.Errorf("got %v, %q, %v", numbers, others, err)
	}
}
