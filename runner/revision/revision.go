// Package revision finds a notebook, and what lies beside it, as they are in a
// revision of git.
package revision

import (
	"archive/tar"
	"bytes"
	"cmp"
	"errors"
	"fmt"
	"io"
	"os"
	"os/exec"
	"path"
	"path/filepath"
	"strings"
)

// Cut cuts NOTEBOOK@REVISION, unless there is a file of that very name.
func Cut(arg string) (file, revision string, ok bool) {
	at := strings.LastIndexByte(arg, '@')
	if _, err := os.Stat(arg); err == nil || at < 0 {
		return arg, "", false
	}
	return arg[:at], arg[at+1:], true
}

// CheckOut puts a notebook, and the files beside it, as they are in a revision of
// git into a folder for a while.
func CheckOut(file, revision string) (string, error) {
	if strings.HasPrefix(revision, "-") || revision == "" {
		return "", fmt.Errorf("%s: revision: got %q, want one of git, such as HEAD or a tag", file, revision)
	}
	cmd := exec.Command("git", "archive", "--format=tar", revision) // of this folder and those below
	cmd.Dir = filepath.Dir(file)
	var fault bytes.Buffer
	cmd.Stderr = &fault
	archive, err := cmd.Output()
	if err != nil {
		return "", fmt.Errorf("%s at %s: git gives nothing: %s", file, revision, strings.TrimSpace(cmp.Or(fault.String(), err.Error())))
	}
	folder, err := os.MkdirTemp("", "tautline-compare")
	if err != nil {
		return "", err
	}
	if err := unpack(archive, folder); err != nil {
		os.RemoveAll(folder)
		return "", fmt.Errorf("%s at %s: %w", file, revision, err)
	}
	if _, err := os.Stat(filepath.Join(folder, filepath.Base(file))); err != nil {
		os.RemoveAll(folder)
		return "", fmt.Errorf("%s: it is not there in revision %s", file, revision)
	}
	return folder, nil
}

// unpack writes the regular files at the top of an archive into a folder.
func unpack(archive []byte, folder string) error {
	for r := tar.NewReader(bytes.NewReader(archive)); ; {
		h, err := r.Next()
		if errors.Is(err, io.EOF) {
			return nil
		}
		if err != nil {
			return err
		}
		name := path.Clean(h.Name)
		if h.Typeflag != tar.TypeReg || strings.Contains(name, "/") || !filepath.IsLocal(name) {
			continue
		}
		text, err := io.ReadAll(r)
		if err == nil {
			err = os.WriteFile(filepath.Join(folder, name), text, 0o666)
		}
		if err != nil {
			return err
		}
	}
}
