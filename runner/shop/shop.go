// Package shop keeps the folder of files for the shops: those of the last run with
// a list of their digests, and none that an earlier one left.
package shop

import (
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"tautline/runner/outcome"
	"tautline/runner/output"
	"tautline/stdlib/sheet"
)

// Files are the files that the cells of a run made.
func Files(out *outcome.Outcome) []*sheet.ShopText {
	var files []*sheet.ShopText
	if out != nil {
		for _, e := range out.Entries {
			if e.ShopFile != nil {
				files = append(files, e.ShopFile)
			}
		}
	}
	return files
}

// Write makes a folder hold the files and their digests, and nothing else
// that an earlier call wrote. It warns of what it leaves alone.
func Write(folder string, files []*sheet.ShopText, warn io.Writer) error {
	if err := clearFolder(folder, files, warn); err != nil {
		return err
	}
	var list strings.Builder
	for _, f := range files {
		if err := output.Write(filepath.Join(folder, f.Name), []byte(f.Text)); err != nil {
			return err
		}
		fmt.Fprintf(&list, "%s  %s\n", Digest([]byte(f.Text)), f.Name)
	}
	return output.Write(filepath.Join(folder, sheet.DigestList), []byte(list.String()))
}

// clearFolder removes the files that the folder's list names and that are not
// written again. One that was changed since, or that no list names, is left
// alone and told of.
func clearFolder(folder string, files []*sheet.ShopText, warn io.Writer) error {
	list, err := os.ReadFile(filepath.Join(folder, sheet.DigestList))
	if err != nil && !errors.Is(err, fs.ErrNotExist) {
		return err
	}
	entries, err := os.ReadDir(folder)
	if err != nil && !errors.Is(err, fs.ErrNotExist) {
		return err
	}
	for _, e := range entries {
		name := e.Name()
		if name == sheet.DigestList || slices.ContainsFunc(files, func(f *sheet.ShopText) bool { return f.Name == name }) {
			continue
		}
		path := filepath.Join(folder, name)
		text, err := os.ReadFile(path)
		if err == nil && e.Type().IsRegular() && strings.Contains("\n"+string(list), "\n"+Digest(text)+"  "+name+"\n") {
			if err := os.Remove(path); err != nil {
				return err
			}
			continue
		}
		fmt.Fprintf(warn, "left alone: %s is not a file that tautline wrote\n", path)
	}
	return nil
}

// Digest is the SHA-256 of a file, in hexadecimal.
func Digest(text []byte) string {
	sum := sha256.Sum256(text)
	return hex.EncodeToString(sum[:])
}
