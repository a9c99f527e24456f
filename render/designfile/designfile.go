// Package designfile binds the reports of a game into one file.
package designfile

import (
	"bytes"
	_ "embed" // the layout and style of the pages before the reports
	"fmt"
	"html/template"
	"io"
	"regexp"
	"slices"
	"strings"
	"sync"

	"tautline/render/page"
	"tautline/render/report"
	"tautline/runner/document"
)

// fileStyle is what a design file needs beside the report's stylesheet.
//
//go:embed designfile.css
var fileStyle string

//go:embed designfile.html.tmpl
var fileLayout string

var filePages = sync.OnceValue(func() *template.Template { return page.Parse(fileLayout) })

// A File binds the reports of a game: what it is, how it stands, what is
// open, what the plate on the ride must say, then every report whole.
type File struct {
	Name     string
	Reports  []*report.Report // in the order of the contents
	Unread   []Unread
	Records  []Record
	Identity report.Identity // of who bound it
}

// An Unread is a notebook that gave no report.
type Unread struct{ File, Why string }

// A Record is what one person signed, as a file that is kept.
type Record struct {
	Notebook string // its number, or its file
	File     string
	Says     string // such as "revision A, prepared by nina"
	On       string // the day
	Digest   string // SHA-256 of the file
}

// HTML writes d as one file that needs nothing else, as HTML writes a
// report. The same design file gives the same bytes. Nothing is written when it
// fails.
func HTML(w io.Writer, d *File) error {
	v := &fileView{File: d}
	for i, r := range d.Reports {
		p, err := page.Pieces(r)
		if err != nil {
			return err
		}
		prefix := fmt.Sprintf("n%d.", i+1)
		b := bound{Report: r, Anchor: prefix + "report"}
		for _, piece := range p.Pieces {
			b.HTML += template.HTML(prefixed(piece.HTML, prefix))
		}
		v.Bound = append(v.Bound, b)
	}
	var out bytes.Buffer
	if err := filePages().ExecuteTemplate(&out, "designfile", v); err != nil {
		return fmt.Errorf("render: %s: %w", d.Name, err)
	}
	_, err := w.Write(out.Bytes())
	return err
}

// A fileView is a design file being written.
type fileView struct {
	*File
	Bound []bound
}

// bound is one report in a design file.
type bound struct {
	*report.Report
	Anchor string
	HTML   template.HTML
}

// Prefix starts every anchor of the report in the file.
func (b bound) Prefix() string { return strings.TrimSuffix(b.Anchor, "report") }

// Style is the stylesheet of a report and of the pages before them.
func (*fileView) Style() template.CSS { return template.CSS(page.StudyStyle() + fileStyle) }

// PageStyle is the running head and foot of the printed pages.
func (v *fileView) PageStyle() template.CSS {
	return template.CSS(fmt.Sprintf("@page{@top-left{content:%s}@bottom-left{content:%s}}", page.CSSString(v.Name), page.CSSString(v.State())))
}

// Good reports whether every notebook is good.
func (d *File) Good() bool {
	return len(d.Unread) == 0 && !slices.ContainsFunc(d.Reports, func(r *report.Report) bool { return !r.Verdict.Good() })
}

// Sentence is the verdict on the whole.
func (d *File) Sentence() string {
	bad, checks := len(d.Unread), 0
	for _, r := range d.Reports {
		if !r.Verdict.Good() {
			bad++
		}
		checks += len(r.Checks)
	}
	all := len(d.Reports) + len(d.Unread)
	switch {
	case bad == 0 && all == 1:
		return fmt.Sprintf("The one notebook holds, with %d %s.", checks, report.Plural(checks, "check"))
	case bad == 0:
		return fmt.Sprintf("All %d notebooks hold, with %d %s.", all, checks, report.Plural(checks, "check"))
	}
	return fmt.Sprintf("%d of %d notebooks %s not hold.", bad, all, map[bool]string{true: "does", false: "do"}[bad == 1])
}

// State says how much of the file is signed.
func (d *File) State() string {
	drafts := 0
	for _, r := range d.Reports {
		if r.Draft() {
			drafts++
		}
	}
	if drafts += len(d.Unread); drafts == 0 {
		return "Every notebook is signed as it stands"
	}
	return fmt.Sprintf("Draft: %d of %d notebooks %s not signed as %s", drafts, len(d.Reports)+len(d.Unread), report.IsAre(drafts), map[bool]string{true: "it stands", false: "they stand"}[drafts == 1])
}

// An openPoint is something that somebody has to settle, in one notebook.
type openPoint struct{ Href, Label, Text string }

// Unsigned are the reports that nobody has signed as they stand.
func (v *fileView) Unsigned() []bound {
	return slices.DeleteFunc(slices.Clone(v.Bound), func(b bound) bool { return !b.Report.Draft() })
}

// Open lists what is open beside signatures: what fails, what was found and what
// is not measured.
func (v *fileView) Open() []openPoint {
	var points []openPoint
	for _, u := range v.Unread {
		points = append(points, openPoint{"", u.File, "not read: " + u.Why})
	}
	for _, b := range v.Bound {
		add := func(id, text string) {
			points = append(points, openPoint{"#" + b.Prefix() + id, b.Label(), text})
		}
		if k := b.Report.Verdict.Kind; k == report.NotDone || k == report.NotRun || k == report.NoChecks {
			add("report", b.Report.Verdict.Sentence())
		}
		for _, c := range b.Report.Checks {
			if !c.Holds {
				add(c.ID, fmt.Sprintf("check fails: %s, %s, %s", c.What, c.Demand, c.Allowed()))
			}
		}
		for _, f := range b.Report.Findings {
			if f.Severity == document.Warning {
				add("report.findings", "warning: "+f.Message)
			}
		}
		for _, t := range b.Report.Trials {
			if t.State() != report.TrialWithin {
				add(t.ID, "trial: "+t.What+": "+t.Standing())
			}
		}
	}
	return points
}

// A plateRow is a line of the data plate, and where it comes from.
type plateRow struct{ What, Says, Href, From string }

// PlateRows are the data plate of all notebooks.
func (v *fileView) PlateRows() []plateRow {
	var rows []plateRow
	for _, b := range v.Bound {
		for _, p := range b.Report.Plate {
			rows = append(rows, plateRow{p.What, p.Says, "#" + b.Prefix() + p.ID, b.Label()})
		}
	}
	return rows
}

// Disputed names the lines of the plate on which notebooks differ.
func (v *fileView) Disputed() []string {
	said := map[string]string{}
	var names []string
	for _, row := range v.PlateRows() {
		if old, ok := said[row.What]; ok && old != row.Says && !slices.Contains(names, row.What) {
			names = append(names, row.What)
		}
		said[row.What] = row.Says
	}
	return names
}

// ShopFiles counts the files for the shops.
func (v *fileView) ShopFiles() (n int) {
	for _, r := range v.Reports {
		n += len(r.Files)
	}
	return n
}

var (
	anchored = regexp.MustCompile(` (id|for|href|aria-labelledby|aria-describedby)="([^"]*)"`)
	drawnBy  = regexp.MustCompile(`url\(#`)
)

// prefixed gives every anchor of a piece, and what leads to one, a prefix: the
// reports of a design file have many in common. Text on a page has no quotes of
// its own, so that only attributes are found.
func prefixed(piece, prefix string) string {
	piece = anchored.ReplaceAllStringFunc(piece, func(attribute string) string {
		m := anchored.FindStringSubmatch(attribute)
		name, value := m[1], m[2]
		switch {
		case name == "href" && strings.HasPrefix(value, "#"):
			value = "#" + prefix + value[1:]
		case name == "href":
		default:
			words := strings.Fields(value)
			for i, w := range words {
				words[i] = prefix + w
			}
			value = strings.Join(words, " ")
		}
		return ` ` + name + `="` + value + `"`
	})
	return drawnBy.ReplaceAllString(piece, "url(#"+prefix)
}
