// Package page writes reports and studies as pages: HTML files that need nothing
// else, or the pieces of one for who shows it in a frame of his own.
package page

import (
	"bytes"
	_ "embed" // the page's layout and style
	"fmt"
	"html/template"
	"io"
	"strings"
	"sync"

	"tautline/render/lettering"
	"tautline/render/report"
	"tautline/runner/library"
)

// style is the page's stylesheet.
//
//go:embed report.css
var style string

//go:embed report.html.tmpl
var layout string

// layouts are parsed when the first page is written, not when the program
// starts: most of its processes write none.
var layouts = sync.OnceValue(func() *template.Template {
	t := template.New("").Funcs(template.FuncMap{"checkRow": checkRow, "givenRow": givenRow, "trialRows": trialRows})
	for _, text := range []string{layout, studyLayout, `{{define "triangle"}}` + triangle + `{{end}}`} {
		template.Must(t.Parse(text))
	}
	return t
})

var templates = sync.OnceValue(func() *template.Template { return template.Must(layouts().Clone()) })

// Parse is the templates of a report's page with those of another layout, for a
// page that has parts of a report in it.
func Parse(layout string) *template.Template {
	return template.Must(template.Must(layouts().Clone()).Parse(layout))
}

// Prepare does what the first report of a process needs beside its numbers:
// the page's templates and the library's documentation. Called while a notebook
// runs, it takes that off the time a reader waits. It need not be called.
func Prepare() {
	templates()
	for _, p := range library.Packages() {
		library.Symbols(p.Path)
	}
}

// HTML writes r as one file that needs nothing else: no network, no script. The
// same report gives the same bytes. Nothing is written when it fails.
func HTML(w io.Writer, r *report.Report) error {
	p, err := newPage(r)
	if err != nil {
		return err
	}
	var out bytes.Buffer
	if err := templates().ExecuteTemplate(&out, "report", p); err != nil {
		return fmt.Errorf("render: %s: %w", r.File, err)
	}
	_, err = w.Write(out.Bytes())
	return err
}

// A page is a report being written, piece by piece.
type page struct {
	*report.Report
	pieces          []Piece
	body            rowWriter // the piece that is being written
	headings        outline
	figures, tables int             // so far, for their numbers
	shown           map[string]bool // images that stand on the page
}

// drawAhead begins to draw all figures of a report, as many at a time as there
// are processors: they take longer than the rest of the page.
func drawAhead(r *report.Report) {
	for _, c := range r.Cells {
		if c == nil {
			continue
		}
		for _, part := range c.Parts {
			if f, ok := part.(*report.FigurePart); ok {
				go f.Drawn()
			}
		}
	}
}

// Style is the stylesheet.
func (p *page) Style() template.CSS {
	if p.Study != nil {
		return template.CSS(StudyStyle())
	}
	return template.CSS(style)
}

// WindowTitle names the page for the browser.
func (p *page) WindowTitle() string {
	return Tame(strings.TrimSpace(p.Title.Number + " " + p.Name()))
}

// PageStyle is the running head and foot of the printed pages.
func (p *page) PageStyle() template.CSS {
	number := p.Title.Number
	if p.Title.Revision != "" {
		number = strings.TrimSpace(number + "  revision " + p.Title.Revision)
	}
	return template.CSS(fmt.Sprintf("@page{@top-left{content:%s}@top-right{content:%s}@bottom-left{content:%s}}",
		CSSString(p.Name()), CSSString(number), CSSString(p.State)))
}

// CSSString quotes s for a stylesheet inside HTML: all but letters, digits and
// spaces becomes an escape.
func CSSString(s string) string {
	var b strings.Builder
	b.WriteByte('"')
	for _, r := range lettering.OneLine(s) {
		if r == ' ' || r >= '0' && r <= '9' || r >= 'A' && r <= 'Z' || r >= 'a' && r <= 'z' {
			b.WriteRune(r)
		} else {
			fmt.Fprintf(&b, `\%06x `, r) // the space ends the escape
		}
	}
	b.WriteByte('"')
	return b.String()
}

// lines names lines of the notebook, such as "line 12".
func lines(first, last int) string {
	switch {
	case first <= 0:
		return ""
	case last <= first:
		return fmt.Sprintf("line %d", first)
	}
	return fmt.Sprintf("lines %d to %d", first, last)
}
