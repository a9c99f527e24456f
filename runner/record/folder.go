package record

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

// A Folder holds the records of one notebook: 0001.record, 0002.record and so on.
// A file is made under another name, written to the disk and only then linked to
// its own, which fails if that is taken. So a record is there whole or not at all,
// of two people who sign at once one is told to look again, and nothing is ever
// written over.
type Folder struct {
	Path string
	disk disk
}

// FolderOf is where the records of a notebook are: notebooks/records/lagoon-bed
// for notebooks/lagoon-bed.md.
func FolderOf(notebook string) Folder {
	base := filepath.Base(notebook)
	return Folder{Path: filepath.Join(filepath.Dir(notebook), folderName, strings.TrimSuffix(base, filepath.Ext(base))), disk: osDisk{}}
}

const (
	folderName = "records"
	extension  = ".record"
	partial    = ".part-" // begins the name of a file that is being written
)

// Notebook is the path of the notebook whose records a folder holds.
func (f Folder) Notebook() string {
	return filepath.Join(filepath.Dir(filepath.Dir(f.Path)), filepath.Base(f.Path)+".md")
}

// Is reports whether a folder is one of records.
func Is(path string) bool { return filepath.Base(filepath.Dir(filepath.Clean(path))) == folderName }

var numbered = regexp.MustCompile(`^([0-9]{4,})\` + extension + `$`)

// file is the path of a record.
func (f Folder) file(number int) string {
	return filepath.Join(f.Path, fmt.Sprintf("%04d%s", number, extension))
}

// numbers lists the numbers of the records that are there, and the names of what
// else is.
func (f Folder) numbers() (numbers []int, others []string, err error) {
	entries, err := os.ReadDir(f.Path)
	if errors.Is(err, fs.ErrNotExist) {
		return nil, nil, nil
	}
	for _, e := range entries {
		name := e.Name()
		m := numbered.FindStringSubmatch(name)
		switch {
		case m != nil && e.Type().IsRegular(): // no link to elsewhere, no pipe
			n, err := strconv.Atoi(m[1])
			if err != nil || f.file(n) != filepath.Join(f.Path, name) {
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

// add writes the text of a record under its number. When it returns nil the record
// is on the disk; when it returns an error there is none, or, should the disk not
// have said, a whole one.
func (f Folder) add(number int, text []byte) error {
	if err := f.disk.makeAll(f.Path); err != nil {
		return cannotWrite(f.Path, err)
	}
	f.sweep()
	part, err := f.disk.create(f.Path, partial+"*")
	if err != nil {
		return cannotWrite(f.Path, err)
	}
	defer f.disk.remove(part.Name())
	_, err = part.Write(text)
	if err == nil {
		err = part.Chmod(0o444)
	}
	if err == nil {
		err = part.Sync()
	}
	if err = errors.Join(err, part.Close()); err != nil {
		return cannotWrite(f.Path, err)
	}
	err = f.disk.link(part.Name(), f.file(number))
	switch {
	case errors.Is(err, fs.ErrExist):
		return &hinted{fmt.Sprintf("%s was signed in this moment by somebody else", f.file(number)), "nothing is lost: look at it with tautline verify, then sign again if that is still wanted"}
	case err != nil:
		return cannotWrite(f.Path, err)
	}
	if err := f.disk.syncFolder(f.Path); err != nil {
		return &hinted{fmt.Sprintf("%s was written, but the disk does not confirm it: %v", f.file(number), err), "look with tautline verify whether it is there before signing again"}
	}
	return nil
}

// sweep removes what a signing that was cut off left, when it is so old that it
// cannot be one in progress.
func (f Folder) sweep() {
	old, _ := filepath.Glob(filepath.Join(f.Path, partial+"*"))
	for _, path := range old {
		if info, err := os.Lstat(path); err == nil && info.Mode().IsRegular() && time.Since(info.ModTime()) > time.Hour {
			f.disk.remove(path)
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

// A disk is what a Folder needs of the file system, so that a test can let each
// step fail.
type disk interface {
	makeAll(folder string) error
	create(folder, pattern string) (part, error)
	link(old, name string) error
	syncFolder(folder string) error
	remove(path string)
}

// A part is a file that is being written.
type part interface {
	io.WriteCloser
	Name() string
	Chmod(fs.FileMode) error
	Sync() error
}

type osDisk struct{}

// makeAll makes a folder and those above it, each on the disk when it returns.
func (d osDisk) makeAll(folder string) error {
	if info, err := os.Stat(folder); err == nil && info.IsDir() {
		return nil
	}
	above := filepath.Dir(folder)
	if above != folder {
		if err := d.makeAll(above); err != nil {
			return err
		}
	}
	if err := os.Mkdir(folder, 0o777); err != nil && !errors.Is(err, fs.ErrExist) {
		return err
	}
	return d.syncFolder(above)
}

func (osDisk) create(folder, pattern string) (part, error) { return os.CreateTemp(folder, pattern) }
func (osDisk) link(old, name string) error                 { return os.Link(old, name) }
func (osDisk) remove(path string)                          { os.Remove(path) }
