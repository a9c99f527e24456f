//go:build unix

package shelf

import (
	"errors"
	"os"
	"syscall"
)

// SyncFolder brings the names in a folder to the disk.
func (System) SyncFolder(folder string) error {
	f, err := os.Open(folder)
	if err != nil {
		return err
	}
	err = f.Sync()
	if errors.Is(err, syscall.EINVAL) || errors.Is(err, syscall.ENOTSUP) {
		err = nil // a file system that has no such thing
	}
	return errors.Join(err, f.Close())
}

func isReadOnly(err error) bool { return errors.Is(err, syscall.EROFS) }
