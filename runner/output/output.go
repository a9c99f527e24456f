// Package output writes files whole or not at all.
package output

import (
	"errors"
	"os"
	"path/filepath"
)

// Write replaces a file in one step, so that a reader finds the old text or
// the new one. It makes the folder where there is none.
func Write(path string, text []byte) error {
	if err := os.MkdirAll(filepath.Dir(path), 0o777); err != nil {
		return err
	}
	return write(path, text, 0o644, false)
}

// Replace replaces the text of a file that is there in one step, on the disk when
// it returns. Its permissions stay.
func Replace(path string, text []byte) error {
	info, err := os.Stat(path)
	if err != nil {
		return err
	}
	return write(path, text, info.Mode().Perm(), true)
}

func write(path string, text []byte, mode os.FileMode, sync bool) error {
	f, err := os.CreateTemp(filepath.Dir(path), "."+filepath.Base(path)+"-*")
	if err != nil {
		return err
	}
	defer os.Remove(f.Name())
	if _, err = f.Write(text); err == nil {
		err = f.Chmod(mode)
	}
	if sync {
		err = errors.Join(err, f.Sync())
	}
	if err := errors.Join(err, f.Close()); err != nil {
		return err
	}
	return os.Rename(f.Name(), path)
}
