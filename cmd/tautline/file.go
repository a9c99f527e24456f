package main

import (
	"bytes"
	"cmp"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"time"

	"github.com/spf13/cobra"

	"tautline/cmd/internal/standing"
	"tautline/render/designfile"
	"tautline/render/report"
	"tautline/runner/engine"
	"tautline/runner/output"
	"tautline/runner/record"
	"tautline/runner/record/shelf"
	"tautline/runner/shop"
)

func fileCommand() *cobra.Command {
	var out, name string
	var limits engine.Limits
	cmd := &cobra.Command{
		Use:   "file FOLDER|NOTEBOOK...",
		Short: "bind a game's notebooks into one design file",
		Long: `file computes every notebook of a game from nothing and binds their reports into
one HTML file: contents, the verdict on the whole, what is still open, the files
for the shops with their digests, a page with what the plate on the ride must
say (sheet.Plate), then every report with the sheets that the crew carries.

The file is written also when something fails; it says so on its first page.

Exit code: 0 when every notebook holds, 1 when one fails, 2 when one cannot be
read.`,
		Example: "  tautline file notebooks\n  tautline file --name \"Storm Skiff\" --out skiff.html notebooks/lagoon-*.md notebooks/storm-skiff-*.md",
		Args: func(_ *cobra.Command, args []string) error {
			if len(args) == 0 {
				return errors.New("file: name the folder of the game's notebooks, such as tautline file notebooks")
			}
			return nil
		},
		RunE: func(cmd *cobra.Command, args []string) error {
			files, err := notebooksIn(args)
			if err != nil {
				return err
			}
			s := newSession(cmd, limits)
			d := s.bind(files)
			if s.broken != nil {
				return s.end()
			}
			d.Name = cmp.Or(name, nameOf(d))
			var page bytes.Buffer
			if err := designfile.HTML(&page, d); err != nil {
				return err
			}
			if err := output.Write(out, page.Bytes()); err != nil {
				return err
			}
			fmt.Fprintf(s.out, "%s\n%s.\ndesign file: %s\n", d.Sentence(), d.State(), out)
			return s.end()
		},
	}
	cmd.Flags().StringVarP(&out, "out", "o", filepath.Join("reports", "design-file.html"), "`FILE` to write")
	cmd.Flags().StringVar(&name, "name", "", "`NAME` of the game; else what the title blocks say")
	limitFlags(cmd, &limits)
	return cmd
}

// notebooksIn lists the notebooks that are named and those in the folders that
// are named, each once.
func notebooksIn(paths []string) ([]string, error) {
	var files []string
	for _, path := range paths {
		if filepath.Ext(path) == ".md" {
			files = append(files, path)
			continue
		}
		in, err := filepath.Glob(filepath.Join(path, "*.md"))
		if err == nil && len(in) == 0 {
			err = fmt.Errorf("file: %s: got no notebook there, want a folder with some, or a notebook", path)
		}
		if err != nil {
			return nil, err
		}
		files = append(files, in...)
	}
	slices.Sort(files)
	return slices.Compact(files), nil
}

// bind computes notebooks and orders them by their numbers.
func (s *session) bind(files []string) *designfile.File {
	d := &designfile.File{}
	for _, file := range files {
		res, report := s.compute(file)
		if report == nil {
			why := "it has errors"
			if found := res.Diagnostics(); len(found) > 0 {
				why = found[0].Message
			}
			d.Unread = append(d.Unread, designfile.Unread{File: filepath.Base(file), Why: why})
			continue
		}
		d.Reports = append(d.Reports, report)
		d.Records = append(d.Records, boundRecords(file, report)...)
		d.Identity = report.Identity
	}
	slices.SortStableFunc(d.Reports, func(a, b *report.Report) int {
		return cmp.Or(cmp.Compare(a.Title.Number, b.Title.Number), cmp.Compare(a.File, b.File))
	})
	return d
}

// boundRecords lists the records of a notebook, also those that do not hold: the
// report says so.
func boundRecords(notebook string, report *report.Report) []designfile.Record {
	folder := shelf.Of(notebook)
	if !standing.Kept(notebook) {
		return nil
	}
	h, err := record.Examine(folder, notebook, nil, time.Now())
	if err != nil {
		return nil
	}
	var all []designfile.Record
	for _, e := range h.Entries {
		r := designfile.Record{Notebook: report.Label(), File: filepath.Base(e.Path), Says: "this file is no record"}
		if text, err := os.ReadFile(e.Path); err == nil {
			r.Digest = shop.Digest(text)
		}
		if e.Signed != nil {
			signed := e.Signed.Record
			r.Says, r.On = fmt.Sprintf("revision %s, %s by %s", signed.Content.Notebook.Revision, signed.Role, signed.By), signed.At.Format(time.DateOnly)
		}
		all = append(all, r)
	}
	return all
}

// nameOf is the project that the title blocks name, or the projects.
func nameOf(d *designfile.File) string {
	var names []string
	for _, r := range d.Reports {
		if p := r.Title.Project; p != "" && !slices.Contains(names, p) {
			names = append(names, p)
		}
	}
	return cmp.Or(strings.Join(names, ", "), "Design file")
}
