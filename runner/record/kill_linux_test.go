package record

import (
	"path/filepath"
	"strings"
	"syscall"
	"testing"

	"tautline/runner/record/shelf"
)

// On a full disk nothing is signed and nothing is lost.
func TestFullDisk(t *testing.T) {
	s := newShop(t, "nina")
	first := s.content()
	disk := filepath.Join(s.folder, "records")
	if err := syscall.Mkdir(disk, 0o777); err != nil {
		t.Fatal(err)
	}
	if err := syscall.Mount("tmpfs", disk, "tmpfs", 0, "size=32k"); err != nil {
		t.Skipf("a small disk needs root: %v", err)
	}
	defer syscall.Unmount(disk, 0)
	q := s.request("nina", Prepared)
	var err error
	signed := 0
	for mark := range 100 {
		q.Content = issue(first, "R"+string(rune('A'+mark)))
		if _, err = Sign(q); err != nil {
			break
		}
		signed++
	}
	if err == nil || signed == 0 || !strings.Contains(err.Error(), "no space left on device") || !strings.Contains(Hint(err), "make room, then sign again") {
		t.Fatalf("after %d records: got %v, hint %q", signed, err, Hint(err))
	}
	h, err := Examine(shelf.Of(s.notebook), s.notebook, s.trust(), s.now)
	if err != nil || h.Torn() || len(h.Entries) != signed {
		t.Errorf("got %d records, %v, want the %d that were signed, whole", len(h.Entries), err, signed)
	}
	if left, _ := filepath.Glob(filepath.Join(shelf.Of(s.notebook).Path, ".*")); len(left) > 0 {
		t.Errorf("left %v behind", left)
	}
}
