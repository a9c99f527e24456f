//go:build unix

package record

import (
	"crypto/ed25519"
	"os"
	"path/filepath"
	"strings"
	"syscall"
	"testing"

	"tautline/runner/record/shelf"
)

// die ends this process as kill -9 does.
func die() {
	syscall.Kill(os.Getpid(), syscall.SIGKILL)
	select {}
}

// become gives up the rights of root, which may write everywhere.
func become(user int) error {
	if user == 0 {
		return nil
	}
	if err := syscall.Setgid(user); err != nil {
		return err
	}
	return syscall.Setuid(user)
}

// In a folder that may not be written to, nothing is signed, and the message says
// so.
func TestReadOnly(t *testing.T) {
	s := newShop(t, "nina")
	j := job{Notebook: s.notebook, Key: s.private["nina"].(ed25519.PrivateKey), List: s.list, Now: s.now, Content: s.content()}
	if err := os.MkdirAll(shelf.Of(s.notebook).Path, 0o777); err != nil {
		t.Fatal(err)
	}
	if err := os.Chmod(shelf.Of(s.notebook).Path, 0o555); err != nil {
		t.Fatal(err)
	}
	if os.Getuid() == 0 { // root may write everywhere: another user tries
		j.User = 65534
		for path := s.folder; strings.HasPrefix(path, filepath.Join(os.TempDir(), "Test")); path = filepath.Dir(path) {
			if err := os.Chmod(path, 0o755); err != nil {
				t.Fatal(err)
			}
		}
	}
	out, err := s.child(j, 0)
	if err == nil || !strings.Contains(out, "could not be written") || !strings.Contains(out, "see that you may write there") {
		t.Errorf("got %v, %q", err, out)
	}
	if len(s.files()) != 0 {
		t.Errorf("got %v, want no record", s.files())
	}
}
