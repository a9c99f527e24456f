package page

import (
	"bytes"
	_ "embed" // the layout and style of studies
	"fmt"
	"html/template"
	"io"

	"tautline/render/chart"
	"tautline/render/report"
	"tautline/runner/document"
)

// studyStyle is what studies need beside the report's stylesheet.
//
//go:embed study.css
var studyStyle string

//go:embed study.html.tmpl
var studyLayout string

// A StudyPage is a study on a page of its own. One of Sweep and Study is set.
type StudyPage struct {
	Title    document.TitleBlock
	File     string
	Sweep    *report.Sweep
	Study    *report.Study
	Identity report.Identity
}

// StudyHTML writes p as one file that needs nothing else, as HTML writes a
// report. The same page gives the same bytes. Nothing is written when it fails.
func StudyHTML(w io.Writer, p *StudyPage) error {
	v := &studyView{page: page{Report: &report.Report{Title: p.Title, File: p.File, Identity: p.Identity}}, Heading: "What moves the checks"}
	if p.Study != nil {
		v.Tolerances = &tolerancesView{Study: p.Study, Drawn: drawTornadoes(p.Study.Tornadoes, 0)}
	}
	if s := p.Sweep; s != nil {
		v.Heading += ": " + s.Text
		v.Sweep = &sweepView{Sweep: s}
		for i, f := range s.Figures {
			id := fmt.Sprintf("figure.%d", i+1)
			svg, err := f.SVG(id)
			if err != nil {
				return fmt.Errorf("render: %s: %w", p.File, err)
			}
			v.Sweep.Drawn = append(v.Sweep.Drawn, numberedFigure{id, f.Title, i + 1, svg})
		}
	}
	var out bytes.Buffer
	if err := templates().ExecuteTemplate(&out, "studypage", v); err != nil {
		return fmt.Errorf("render: %s: %w", p.File, err)
	}
	_, err := io.WriteString(w, Tame(out.String()))
	return err
}

// A studyView is a study page being written.
type studyView struct {
	page
	Heading    string
	Sweep      *sweepView
	Tolerances *tolerancesView
}

// Style is the stylesheet of reports and of studies.
func (*studyView) Style() template.CSS { return template.CSS(StudyStyle()) }

// A sweepView is a sweep with its figures drawn.
type sweepView struct {
	*report.Sweep
	Drawn []numberedFigure
}

// A tolerancesView is a study of tolerances with its tornadoes drawn.
type tolerancesView struct {
	*report.Study
	Drawn []numberedFigure
}

// drawTornadoes draws tornadoes as figures, numbered after those before them.
func drawTornadoes(ts []*chart.Tornado, before int) []numberedFigure {
	var drawn []numberedFigure
	for i, t := range ts {
		id := fmt.Sprintf("tornado.%d", i+1)
		drawn = append(drawn, numberedFigure{id, "What moves the check “" + t.What + "”", before + i + 1, t.SVG(id)})
	}
	return drawn
}

// StudySection is the report's section on its tolerances, with the governing
// tornado alone.
func (p *page) StudySection() *tolerancesView {
	return &tolerancesView{p.Study, drawTornadoes(p.Study.Tornadoes[:min(1, len(p.Study.Tornadoes))], p.figures)}
}
