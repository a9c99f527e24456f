// Package runner takes a notebook from its file to its outcome, the one path
// that the command, the live page and the tests share.
//
//	res := runner.File(ctx, "notebooks/lagoon-bed.md", engine.Limits{})
//	if res.OK() { … res.Plan, res.Outcome … }
//
// The worker process starts up while the notebook is read and checked.
package runner

import (
	"bytes"
	"context"
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"maps"
	"os"
	"path/filepath"
	"slices"

	"tautline/runner/check"
	"tautline/runner/document"
	"tautline/runner/engine"
	"tautline/runner/lower"
	"tautline/runner/outcome"
	"tautline/runner/trial"
)

// A Result is what became of one notebook. Each part is nil when it was not
// reached: Findings say why.
type Result struct {
	File     string
	Source   []byte // as read
	Notebook *document.Notebook
	Plan     *check.Plan
	Program  *lower.Program
	Outcome  *outcome.Outcome
	Data     map[string]string // text of the data files
	Images   map[string][]byte // PNG and JPEG files that the prose shows
	Measured []byte            // text of the file of readings; nil when there is none
	Readings []trial.Reading   // on the built ride
	Findings []document.Diagnostic
	Unread   bool  // the file could not be read as a notebook at all
	Err      error // of the runner itself, such as no worker process
}

// Ran reports whether every cell ran to its end.
func (r *Result) Ran() bool {
	return r.Outcome != nil && len(r.Outcome.Faults) == 0 && r.Err == nil
}

// Diagnostics lists all that was found, the faults of the run too.
func (r *Result) Diagnostics() []document.Diagnostic {
	all := append([]document.Diagnostic(nil), r.Findings...)
	if r.Outcome != nil {
		all = append(all, r.Outcome.Faults...)
	}
	document.Sort(all)
	return all
}

// Digest is the SHA-256, in hexadecimal, of the notebook's text and of the name
// and content of each data file, then of each picture and of the readings, in order.
func (r *Result) Digest() string {
	h := sha256.New()
	h.Write(r.Source)
	for _, name := range slices.Sorted(maps.Keys(r.Data)) {
		fmt.Fprintf(h, "\x00%s\x00%s", name, r.Data[name])
	}
	for _, name := range slices.Sorted(maps.Keys(r.Images)) {
		fmt.Fprintf(h, "\x00%s\x00%s", name, r.Images[name])
	}
	if r.Measured != nil {
		fmt.Fprintf(h, "\x00%s\x00%s", filepath.Base(trial.File(r.File)), r.Measured)
	}
	return hex.EncodeToString(h.Sum(nil))
}

// File reads, checks and runs the notebook in a file.
func File(ctx context.Context, file string, limits engine.Limits) *Result {
	worker := engine.Start(limits)
	defer worker.Close()
	res := Check(file)
	res.Run(ctx, worker)
	return res
}

// Text reads the text of a notebook: a regular file of bounded size.
func Text(file string) ([]byte, error) { return read(anywhere{}, file, document.MaxSize) }

// Check reads and checks the notebook in a file without running it.
func Check(file string) *Result {
	src, err := Text(file)
	if err != nil {
		res := &Result{File: file, Unread: true}
		res.find(document.Range{}, err)
		return res
	}
	return CheckText(file, src)
}

// CheckText checks a text as if it stood in a file.
func CheckText(file string, src []byte) *Result {
	res := &Result{File: file, Source: src}
	res.Notebook, res.Findings = document.Parse(file, src)
	if res.Notebook == nil {
		res.Unread = true
		return res
	}
	if res.Failed() {
		return res
	}
	plan, diags := check.Check(res.Notebook)
	res.Plan = plan
	res.Findings = append(res.Findings, diags...)
	if !res.Failed() {
		res.readData(filepath.Dir(file))
		res.readImages(filepath.Dir(file))
		res.readReadings()
	}
	return res
}

// A Worker runs one program, as *engine.Process does.
type Worker interface {
	Run(context.Context, *lower.Program) (*outcome.Outcome, error)
}

// Run lowers the plan of a result that Check made and runs it in the worker,
// unless an error was found.
func (r *Result) Run(ctx context.Context, worker Worker) {
	if r.Plan == nil || r.Failed() {
		return
	}
	prog, diags := lower.Lower(r.Plan)
	r.Findings = append(r.Findings, diags...)
	if prog == nil {
		return
	}
	prog.Data = r.Data
	r.Program = prog
	r.Outcome, r.Err = worker.Run(ctx, prog)
}

// Failed reports whether an error was found before the run.
func (r *Result) Failed() bool {
	for _, d := range r.Findings {
		if d.Severity == document.Error {
			return true
		}
	}
	return false
}

func (r *Result) find(at document.Range, err error) {
	d := document.Diagnostic{Severity: document.Error, File: r.File, Range: at, Message: err.Error()}
	var h *hinted
	if errors.As(err, &h) {
		d.Hint = h.hint
	}
	r.Findings = append(r.Findings, d)
}

// readData reads the data files that the notebook names, beside it. A link that
// leads out of the folder is not followed: who hands a notebook on would
// otherwise choose which of the reader's files it reads.
func (r *Result) readData(folder string) {
	r.Data = map[string]string{}
	if len(r.Plan.Data) == 0 {
		return
	}
	root, err := os.OpenRoot(folder)
	if err != nil {
		r.find(r.Plan.Data[0].Range, fmt.Errorf("folder of the data files: %w", err))
		return
	}
	defer root.Close()
	for _, f := range r.Plan.Data {
		src, err := read(root, f.Name, maxData)
		if err != nil {
			r.find(f.Range, fmt.Errorf("data file %s: %w", f.Name, err))
			continue
		}
		r.Data[f.Name] = string(src)
	}
}

// readReadings reads what was measured on the built ride, if there is a file of
// it beside the notebook.
func (r *Result) readReadings() {
	file := trial.File(r.File)
	if _, err := os.Lstat(file); errors.Is(err, fs.ErrNotExist) {
		return
	}
	root, err := os.OpenRoot(filepath.Dir(file))
	if err == nil {
		defer root.Close()
		r.Measured, err = read(root, filepath.Base(file), maxData)
	}
	if err == nil {
		r.Readings, err = trial.Parse(r.Measured)
	}
	if err != nil {
		r.find(document.Range{}, fmt.Errorf("readings in %s: %w", filepath.Base(file), err))
	}
}

// maxData is the largest data file in bytes.
const maxData = 8 << 20

// hinted is an error that says what to do.
type hinted struct{ message, hint string }

func (h *hinted) Error() string { return h.message }

// A place is where files are looked for: a folder, or anywhere.
type place interface {
	Stat(name string) (fs.FileInfo, error)
	Open(name string) (*os.File, error)
}

type anywhere struct{}

func (anywhere) Stat(name string) (fs.FileInfo, error) { return os.Stat(name) }
func (anywhere) Open(name string) (*os.File, error)    { return os.Open(name) }

// read reads a regular file of at most so many bytes.
func read(in place, file string, most int64) ([]byte, error) {
	info, err := in.Stat(file)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return nil, &hinted{"there is no such file", "check the name and the folder"}
	case err != nil:
		return nil, &hinted{errors.Unwrap(err).Error(), "see that it is in the folder, no link to another place, and that you may read it"}
	case info.IsDir():
		return nil, &hinted{"this is a folder", "name the notebooks in it, such as " + filepath.Join(file, "*.md")}
	case !info.Mode().IsRegular():
		return nil, &hinted{"this is not a regular file", ""}
	}
	if info.Size() > most {
		return nil, &hinted{fmt.Sprintf("file size: got %d bytes, want at most %d", info.Size(), most), "split it, or keep measured data in files of their own"}
	}
	f, err := in.Open(file)
	if err != nil {
		return nil, &hinted{errors.Unwrap(err).Error(), "see that you may read it"}
	}
	defer f.Close()
	var b bytes.Buffer
	b.Grow(int(min(info.Size(), most)) + 1)
	// The file may grow while it is read: one byte over the limit is enough to tell.
	if _, err := io.Copy(&b, io.LimitReader(f, most+1)); err != nil {
		return nil, &hinted{"could not be read to its end: " + err.Error(), ""}
	}
	return b.Bytes(), nil
}
