package page

import (
	"fmt"
	"html/template"
	"strings"

	"tautline/render/report"
	"tautline/runner/document"
)

// cell writes what the report has at the place of a cell: its parts, or its
// text when it was not run.
func (p *page) cell(c *document.Cell) error {
	if c.Index < 0 || c.Index >= len(p.Cells) || p.Cells[c.Index] == nil {
		return p.template("code", code{Text: c.Text, First: c.Start.Line + 1})
	}
	out := p.Cells[c.Index]
	if out.State != "" {
		if err := p.template("state", out); err != nil {
			return err
		}
	}
	for parts := out.Parts; len(parts) > 0; {
		run := 0
		for run < len(parts) && inWorking(parts[run]) {
			run++
		}
		if run > 0 {
			p.body.working(parts[:run])
			parts = parts[run:]
			continue
		}
		if err := p.part(parts[0]); err != nil {
			return err
		}
		parts = parts[1:]
	}
	return nil
}

// inWorking reports whether a part is a row of a working: one grid whose
// columns line up.
func inWorking(part report.Part) bool {
	switch part.(type) {
	case *report.Line, *report.CheckPart, *report.TrialPart, *report.PlatePart:
		return true
	}
	return false
}

func (p *page) part(part report.Part) error {
	switch part := part.(type) {
	case *report.Fold:
		return p.template("fold", fold{part})
	case *report.Code:
		return p.template("code", code{part.IDs, part.Text, part.Line})
	case *report.TablePart:
		p.tables++
		return p.template("table", numberedTable{part, p.tables})
	case *report.FigurePart:
		p.figures++
		svg, err := part.Drawn()
		if err != nil {
			return err
		}
		return p.template("figure", numberedFigure{part.ID, part.Name(), p.figures, svg})
	case *report.Comment:
		return p.template("remark", &report.Remark{Text: part.Text})
	case *report.Remark:
		return p.template("remark", part)
	case *report.ShopFilePart:
		return p.template("shopfile", part.ShopFile)
	case *report.FaultPart:
		return p.template("fault", finding{part.Diagnostic, p.Text})
	}
	return fmt.Errorf("part: got %T, want one of the report's parts", part)
}

func (p *page) template(name string, data any) error {
	return templates().ExecuteTemplate(&p.body, name, data)
}

func line(part report.Part) int {
	switch part := part.(type) {
	case *report.Line:
		return part.Line
	case *report.CheckPart:
		return part.Check.Line
	case *report.TrialPart:
		return part.Trial.Line
	case *report.PlatePart:
		return part.PlateLine.Line
	}
	return 0
}

// fold is a part whose lines stand in a working of their own.
type fold struct{ *report.Fold }

// Summary says what is folded away.
func (f fold) Summary() string { return fmt.Sprintf("%s: %d values", f.Name, len(f.Lines)) }

// Working is the folded lines.
func (f fold) Working() template.HTML {
	var w rowWriter
	parts := make([]report.Part, len(f.Lines))
	for i, l := range f.Lines {
		parts[i] = l
	}
	w.working(parts)
	return template.HTML(w.String())
}

// Line is where the value is set.
func (f fold) Line() int { return f.Lines[0].Line }

// code is statements with the line of the notebook they start at.
type code struct {
	IDs   []string
	Text  string
	First int
}

// Summary says how much is folded away, and where it stands.
func (c code) Summary() string {
	n := strings.Count(strings.TrimRight(c.Text, "\n"), "\n") + 1
	s := fmt.Sprintf("%d %s of code", n, report.Plural(n, "line"))
	if at := lines(c.First, c.First+n-1); at != "" {
		s += ", notebook " + at
	}
	return s
}

type numberedFigure struct {
	ID, Title string
	Number    int
	SVG       template.HTML
}

type numberedTable struct {
	*report.TablePart
	Number int
}

// A finding is a diagnostic with the text that it is about.
type finding struct {
	document.Diagnostic
	text []byte
}

// Findings are the diagnostics of the report.
func (p *page) Findings() []finding {
	fs := make([]finding, len(p.Report.Findings))
	for i, d := range p.Report.Findings {
		fs[i] = finding{d, p.Text}
	}
	return fs
}

// Word is the severity, as a label.
func (f finding) Word() string {
	if f.Severity == document.Warning {
		return "Warning"
	}
	return "Fault"
}

// Place is where in the notebook it is.
func (f finding) Place() string { return lines(f.Range.Start.Line, 0) }

// Excerpt is the line of the notebook that it starts on, with the range marked.
func (f finding) Excerpt() string { return f.excerpt(f.Range) }

// A note is a note of a finding.
type note struct{ Message, Excerpt string }

// Context are the notes of the finding, each with its line.
func (f finding) Context() []note {
	notes := make([]note, len(f.Notes))
	for i, n := range f.Notes {
		notes[i] = note{n.Message, f.excerpt(n.Range)}
	}
	return notes
}

// excerpt is what every view of a diagnostic shows under its first line.
func (f finding) excerpt(r document.Range) string {
	_, source, _ := strings.Cut(document.Diagnostic{Range: r}.Format(f.text, false), "\n")
	return source
}
