// Package shelf keeps the files of records: 0001.record, 0002.record and so on, in a
// folder for each notebook.
//
//	s := shelf.Of("notebooks/lagoon-bed.md")
//	numbers, others, err := s.Numbers()
//	err = s.Add(len(numbers)+1, text)
//
// A file is made under another name, written to the disk and only then linked to
// its own, which fails if that is taken. So a record is there whole or not at all,
// of two people who sign at once one is told to look again, and nothing is ever
// written over.
package shelf

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"time"
)

// A Shelf is the folder of the records of one notebook.
type Shelf struct {
	Path string
	Disk Disk // nil for that of the system
}

func (s Shelf) disk() Disk {
	if s.Disk == nil {
		return System{}
	}
	return s.Disk
}

// Of is where the records of a notebook are: notebooks/records/lagoon-bed
// for notebooks/lagoon-bed.md.
func Of(notebook string) Shelf {
	base := filepath.Base(notebook)
	return Shelf{Path: filepath.Join(filepath.Dir(notebook), folderName, strings.TrimSuffix(base, filepath.Ext(base)))}
}

// Extension ends the name of a record's file.
const Extension = ".record"

const (
	folderName = "records"
	partial    = ".part-" // begins the name of a file that is being written
)

// Notebook is the path of the notebook whose records a shelf holds.
func (s Shelf) Notebook() string {
	return filepath.Join(filepath.Dir(filepath.Dir(s.Path)), filepath.Base(s.Path)+".md")
}

// Is reports whether a folder is one of records.
func Is(path string) bool { return filepath.Base(filepath.Dir(filepath.Clean(path))) == folderName }

var numbered = regexp.MustCompile(`^([0-9]{4,})\` + Extension + `$`)

// File is the path of a record.
func (s Shelf) File(number int) string {
	return filepath.Join(s.Path, fmt.Sprintf("%04d%s", number, Extension))
}

// Numbers lists the numbers of the records that are there, and the names of what
// else is.
func (s Shelf) Numbers() (numbers []int, others []string, err error) {
	entries, err := os.ReadDir(s.Path)
	if errors.Is(err, fs.ErrNotExist) {
		return nil, nil, nil
	}
	for _, e := range entries {
		name := e.Name()
		m := numbered.FindStringSubmatch(name)
		switch {
		case m != nil && e.Type().IsRegular(): // no link to elsewhere, no pipe
			n, err := strconv.Atoi(m[1])
			if err != nil || s.File(n) != filepath.Join(s.Path, name) {
				others = append(others, name)
				continue
			}
			numbers = append(numbers, n)
		case !strings.HasPrefix(name, "."):
			others = append(others, name)
		}
	}
	slices.Sort(numbers)
	return numbers, others, err
}

// Add writes the text of a record under its number. When it returns nil the record
// is on the disk; when it returns an error there is none, or, should the disk not
// have said, a whole one.
func (s Shelf) Add(number int, text []byte) error {
	if err := s.disk().MakeAll(s.Path); err != nil {
		return cannotWrite(s.Path, err)
	}
	s.Sweep()
	part, err := s.disk().Create(s.Path, partial+"*")
	if err != nil {
		return cannotWrite(s.Path, err)
	}
	defer s.disk().Remove(part.Name())
	_, err = part.Write(text)
	if err == nil {
		err = part.Chmod(0o444)
	}
	if err == nil {
		err = part.Sync()
	}
	if err = errors.Join(err, part.Close()); err != nil {
		return cannotWrite(s.Path, err)
	}
	err = s.disk().Link(part.Name(), s.File(number))
	switch {
	case errors.Is(err, fs.ErrExist):
		return &hinted{fmt.Sprintf("%s was signed in this moment by somebody else", s.File(number)), "nothing is lost: look at it with tautline verify, then sign again if that is still wanted"}
	case err != nil:
		return cannotWrite(s.Path, err)
	}
	if err := s.disk().SyncFolder(s.Path); err != nil {
		return &hinted{fmt.Sprintf("%s was written, but the disk does not confirm it: %v", s.File(number), err), "look with tautline verify whether it is there before signing again"}
	}
	return nil
}

// Sweep removes what a signing that was cut off left, when it is so old that it
// cannot be one in progress.
func (s Shelf) Sweep() {
	old, _ := filepath.Glob(filepath.Join(s.Path, partial+"*"))
	for _, path := range old {
		if info, err := os.Lstat(path); err == nil && info.Mode().IsRegular() && time.Since(info.ModTime()) > time.Hour {
			s.disk().Remove(path)
		}
	}
}

// hinted is an error that says what to do.
type hinted struct{ message, hint string }

func (h *hinted) Error() string { return h.message }

// Hint says what to do.
func (h *hinted) Hint() string { return h.hint }

func cannotWrite(folder string, err error) error {
	hint := "nothing was signed and nothing is lost: make room, then sign again"
	switch {
	case errors.Is(err, fs.ErrPermission) || isReadOnly(err):
		hint = "nothing was signed and nothing is lost: see that you may write there, then sign again"
	case errors.Is(err, errors.ErrUnsupported):
		hint = "this disk cannot make a file in one step, as some memory sticks cannot: keep the notebooks on an ordinary disk"
	}
	return &hinted{fmt.Sprintf("the record could not be written to %s: %v", folder, err), hint}
}

// A Disk is what a Shelf needs of the file system, so that a test can let each
// step fail.
type Disk interface {
	MakeAll(folder string) error
	Create(folder, pattern string) (Part, error)
	Link(old, name string) error
	SyncFolder(folder string) error
	Remove(path string)
}

// A Part is a file that is being written.
type Part interface {
	io.WriteCloser
	Name() string
	Chmod(fs.FileMode) error
	Sync() error
}

// System is the disk of the system.
type System struct{}

// MakeAll makes a folder and those above it, each on the disk when it returns.
func (d System) MakeAll(folder string) error {
	if info, err := os.Stat(folder); err == nil && info.IsDir() {
		return nil
	}
	above := filepath.Dir(folder)
	if above != folder {
		if err := d.MakeAll(above); err != nil {
			return err
		}
	}
	if err := os.Mkdir(folder, 0o777); err != nil && !errors.Is(err, fs.ErrExist) {
		return err
	}
	return d.SyncFolder(above)
}

func (System) Create(folder, pattern string) (Part, error) { return os.CreateTemp(folder, pattern) }
func (System) Link(old, name string) error                 { return os.Link(old, name) }
func (System) Remove(path string)                          { os.Remove(path) }
