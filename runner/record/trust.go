package record

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"

	"tautline/runner/record/signature"
)

// TrustName is the name of the file that says whose key is whose.
const TrustName = "allowed_signers"

// FindTrust is the path of the list of allowed signers for a notebook: that in its
// folder, or else in the nearest folder above it up to the root of the repository;
// "" when there is none.
func FindTrust(notebook string) string {
	folder, err := filepath.Abs(filepath.Dir(notebook))
	if err != nil {
		return ""
	}
	for {
		path := filepath.Join(folder, TrustName)
		if info, err := os.Stat(path); err == nil && info.Mode().IsRegular() {
			return path
		}
		_, err := os.Stat(filepath.Join(folder, ".git"))
		above := filepath.Dir(folder)
		if err == nil || above == folder {
			return ""
		}
		folder = above
	}
}

// ReadTrust reads a list of allowed signers.
func ReadTrust(path string) (*signature.Trust, error) {
	text, err := os.ReadFile(path)
	if errors.Is(err, fs.ErrNotExist) {
		return nil, &hinted{fmt.Sprintf("%s: there is no such list of allowed signers", path), "make it, with a line NAME KEY for each person, as in NAME.pub"}
	} else if err != nil {
		return nil, err
	}
	return signature.ParseTrust(path, text)
}
