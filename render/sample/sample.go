// Package sample is a report with everything in it that a report can have, for
// the tests of those who write reports. It is of a landing bed for a harbour fair.
// The fair, the bed and every number are invented; they show the page, not a
// design.
package sample

import (
	"html/template"
	"math"
	"strings"

	"tautline/render/chart"
	"tautline/render/drawing"
	"tautline/render/report"
	"tautline/runner/document"
	"tautline/runner/outcome"
	"tautline/stdlib/quantity"
	"tautline/stdlib/sheet"
)

// Math is a formula as a report has it.
func Math(s string) template.HTML { return template.HTML("<math>" + s + "</math>") }

// Identifier is a name in a formula.
func Identifier(s string) string { return "<mi>" + s + "</mi>" }

func mn(number, unit string) string {
	s := "<mn>" + number + "</mn>"
	if unit != "" {
		s += `<mspace width="0.2em"/><mi mathvariant="normal">` + unit + "</mi>"
	}
	return s
}

func msub(base, sub string) string {
	return "<msub>" + Identifier(base) + `<mi mathvariant="normal">` + sub + "</mi></msub>"
}

func mfrac(over, under string) string {
	return "<mfrac><mrow>" + over + "</mrow><mrow>" + under + "</mrow></mfrac>"
}

func mtimes(parts ...string) string { return strings.Join(parts, "<mo>·</mo>") }

// Text is running text.
func Text(s string) []document.Inline { return []document.Inline{document.Text(s)} }

// Paragraph is a paragraph of the prose.
func Paragraph(in ...document.Inline) *document.Paragraph { return &document.Paragraph{Text: in} }

// Heading is a heading of the prose.
func Heading(level int, id, s string) *document.Heading {
	return &document.Heading{Level: level, ID: id, Text: Text(s)}
}

func qp(number, unit string) *report.Quantity { return &report.Quantity{Number: number, Unit: unit} }

func checks() []*report.Check {
	return []*report.Check{
		{ID: "seam", What: "long seam", Rule: "at most", Demand: report.Quantity{Number: "0.54", Unit: "kN/m"}, Capacity: []report.Quantity{{Number: "0.62", Unit: "kN/m"}},
			Utilisation: 0.871, Holds: true, Governing: true, Source: report.Citation{Text: "Invented seam trial 4, lower 5 % value over 3.0"}, Line: 31},
		{ID: "bottom", What: "landing rider stays off the ground", Rule: "at least", Demand: report.Quantity{Number: "412", Unit: "mm"}, Capacity: []report.Quantity{{Number: "300", Unit: "mm"}},
			Utilisation: 0.728, Holds: true, Source: report.Citation{Text: "Shop rule 2 (invented)"}, Line: 42},
		{ID: "pressure", What: "bed pressure", Rule: "within", Demand: report.Quantity{Number: "1.80", Unit: "kPa"}, Capacity: []report.Quantity{{Number: "1.50", Unit: "kPa"}, {Number: "2.40", Unit: "kPa"}},
			Utilisation: 0.333, Holds: true, Source: report.Citation{Text: "Invented fan sheet"}, Line: 44},
		{ID: "flap", What: "inlet flap closes by itself", Rule: "holds", Utilisation: math.NaN(), Holds: true, Source: report.Citation{Text: "Trial on the built bed, pending"}, Line: 45},
	}
}

// Report is a report in which every check holds.
func Report() *report.Report {
	checks := checks()
	return &report.Report{
		Title: document.TitleBlock{
			Title: "Landing bed: seams, pressure and landing depth", Number: "HF-203", Revision: "B",
			Project:  "Harbour fair set (invented)",
			Prepared: "designer", Checked: "second engineer", Approved: "shop lead",
			Standards: []string{"EN 13814-1:2019, amusement rides", "EN 14960-1:2019, inflatable play equipment", "EN 1991-1-4, wind"},
		},
		File: "lagoon-bed.md", State: "Draft, not signed",
		Verdict:  report.Verdict{Kind: report.AllHold, Hold: 4, Governing: checks[0]},
		Cautions: []report.Caution{{ID: "cutter", Place: "In the working", Text: "The seam strength is that of one trial; cut three more strips before the first public day."}},
		Checks:   checks,
		Givens: []*report.Given{
			{ID: "p", Name: "p", Symbol: Math(Identifier("p")), Value: Math(mn("1.80", "kPa")), Low: qp("1.50", "kPa"), High: qp("2.40", "kPa"), InRange: true,
				Reason: "bed pressure at the fan’s working point", Line: 12},
			{ID: "r", Name: "r", Symbol: Math(Identifier("r")), Value: Math(mn("300", "mm")), InRange: true,
				Reason: "tube radius: a landing rider must not bottom out", Line: 13},
			{ID: "mr", Name: "mRider", Symbol: Math(msub("m", "rider")), Value: Math(mn("95", "kg")), High: qp("90", "kg"), Reason: "heaviest rider let on, with wet clothes", Line: 14},
			{ID: "h", Name: "h", Symbol: Math(Identifier("h")), Value: Math(mn("1.40", "m")), Low: qp("0.5", "m"), InRange: true, Reason: "from the seat of the skiff to the bed", Line: 15},
		},
		Blocks: blocks(), Cells: cells(checks),
		Files: []*report.ShopFile{shopFile()},
		Sources: []report.Source{
			{Number: 1, Text: "EN 14960-1:2019, 4.2.9", Used: []string{"fabric.HoopTension", "long seam"}},
			{Number: 2, Text: "Equilibrium of a thin tube, derived in the library", Used: []string{"fabric.HoopTension"}},
			{Number: 3, Text: "Invented seam trial 4"},
		},
		Identity: report.Identity{Tool: "tautline 0.3.0", Library: "sha256:5e1f…c204", Go: "go1.26.8",
			Digest: "8c1d0f7a4b6e29d35c7788f0a1b2c3d4e5f60718293a4b5c6d7e8f9012345678",
			Guards: []outcome.Guard{{Name: "own process"}, {Name: "memory at most 512 MiB"}, {Name: "run time at most 1m0s"}, {Name: "Landlock", Off: "this kernel has none"}}},
	}
}

func blocks() []document.Block {
	return []document.Block{
		Heading(1, "the-tube", "The tube"),
		Paragraph(document.Text("The bed is a ring of tubes round a flat mattress. The fan holds it at the pressure "), document.InlineMath("p"),
			document.Text("; the tension round a tube is carried by the "), document.Emphasis(Text("long seams")),
			document.Text(", so the seam is what we size. See "), document.Link{To: "#landing", Text: Text("the landing")},
			document.Text(" for what the pressure must do.")),
		&document.Cell{Index: 0},
		Paragraph(document.Text("With no friction between the layers, "), document.Strong(Text("every layer carries the same tension")),
			document.Text(", and equilibrium of half a tube gives")),
		&document.Math{TeX: `T = p r`},
		&document.Cell{Index: 1},
		Heading(2, "landing", "The landing"),
		Paragraph(document.Text("The depth follows from energy: what the rider loses in height, the air takes up as work. Three things are left out on purpose:")),
		&document.List{Tight: true, Items: [][]document.Block{
			{Paragraph(document.Text("the air that leaves through the seams,"))},
			{Paragraph(document.Text("the stretch of the fabric ("), document.CodeSpan("strain"), document.Text(" below 2 %),")), &document.Cell{Index: 2}},
			{Paragraph(document.Text("the rider’s own bending of the knees."))},
		}},
		&document.Cell{Index: 3},
		&document.Quote{Blocks: []document.Block{Paragraph(document.Text("Press a fist into the bed: it must come back before you do."))}},
		Heading(4, "strips", "Seam strips"),
		&document.Table{Align: []document.Align{document.AlignLeft, document.AlignRight, document.AlignCenter},
			Header: [][]document.Inline{Text("Strip"), Text("Broke at (kN/m)"), Text("Where")},
			Rows:   [][][]document.Inline{{Text("A"), Text("1.92"), Text("thread")}, {Text("B"), Text("2.04"), Text("fabric")}, {Text("C"), Text("1.88"), Text("thread")}}},
		&document.Cell{Index: 4},
		Paragraph(document.Image{File: "bed-from-above.jpg", Alt: "The bed from above"}),
		&document.Rule{},
		&document.Code{Language: "text", Text: "fan curve, as read from the sheet (invented)\n0.00  2.60\n0.25  2.05\n"},
	}
}

func cells(checks []*report.Check) []*report.Cell {
	return []*report.Cell{
		{Line: 11, Parts: []report.Part{
			&report.Line{ID: "p", Symbol: Math(Identifier("p")), Result: Math(mn("1.80", "kPa")), Given: true, Reason: "bed pressure at the fan’s working point", Line: 12},
			&report.Line{ID: "r", Symbol: Math(Identifier("r")), Result: Math(mn("300", "mm")), Given: true, Reason: "tube radius: a landing rider must not bottom out", Line: 13},
			&report.Line{ID: "mr", Symbol: Math(msub("m", "rider")), Result: Math(mn("95", "kg")), Given: true, Reason: "heaviest rider let on, with wet clothes", Line: 14},
			&report.Line{ID: "h", Symbol: Math(Identifier("h")), Result: Math(mn("1.40", "m")), Given: true, Reason: "from the seat of the skiff to the bed", Line: 15},
		}},
		{Line: 20, Parts: []report.Part{
			&report.Line{ID: "T", Symbol: Math(Identifier("T")), Formula: Math(mtimes(Identifier("p"), Identifier("r"))), Numbers: Math(mtimes(mn("1.80", "kPa"), mn("300", "mm"))), Result: Math(mn("0.540", "kN/m")),
				Reason: "runs round the tube, carried by the long seams", Source: report.Citation{Text: "EN 14960-1:2019, 4.2.9"}, Line: 21},
			&report.Line{ID: "Ts", Symbol: Math(msub("T", "seam")), Formula: Math(mfrac(msub("T", "break"), Identifier("γ"))), Numbers: Math(mfrac(mn("1.86", "kN/m"), mn("3.0", ""))), Result: Math(mn("0.620", "kN/m")),
				Reason: "lower 5 % value of the strips, over the shop’s factor", Line: 22},
			&report.CheckPart{Check: checks[0]},
		}},
		{Line: 26, Parts: []report.Part{&report.Line{ID: "eps", Symbol: Math(Identifier("ε")), Formula: Math(mfrac(Identifier("T"), mtimes(Identifier("E"), Identifier("t")))), Numbers: Math(mfrac(mn("0.540", "kN/m"), mtimes(mn("310", "MPa"), mn("0.55", "mm")))), Result: Math(mn("0.32", "%")), Line: 27}}},
		{Line: 30, Parts: []report.Part{
			&report.Line{ID: "v", Symbol: Math(Identifier("v")), Formula: Math("<msqrt><mrow>" + mn("2", "") + "<mo>·</mo>" + mtimes(Identifier("g"), Identifier("h")) + "</mrow></msqrt>"),
				Numbers: Math("<msqrt><mrow>" + mtimes(mn("2", ""), mn("9.81", "m/s²"), mn("1.40", "m")) + "</mrow></msqrt>"), Result: Math(mn("5.24", "m/s")), Reason: "speed at the bed", Line: 31},
			&report.Line{ID: "d", Symbol: Math(msub("d", "land")), Formula: Math(mfrac(msub("m", "rider")+"<mo>·</mo>"+"<msup>"+Identifier("v")+"<mn>2</mn></msup>", mtimes(mn("2", ""), Identifier("p"), msub("A", "foot"))) + "<mo>+</mo>" + mfrac(mtimes(msub("m", "rider"), Identifier("g")), mtimes(Identifier("p"), msub("b", "mat")))),
				Numbers: Math(mfrac(mtimes(mn("95", "kg"), "<msup><mrow><mo>(</mo>"+mn("5.24", "m/s")+"<mo>)</mo></mrow><mn>2</mn></msup>"), mtimes(mn("2", ""), mn("1.80", "kPa"), mn("1.72", "m²"))) + "<mo>+</mo>" + mfrac(mtimes(mn("95", "kg"), mn("9.81", "m/s²")), mtimes(mn("1.80", "kPa"), mn("5.0", "m")))),
				Result:  Math(mn("525", "mm")), Reason: "depth that the rider sinks in, all the height going into work on the air", Source: report.Citation{Text: "Energy balance, derived in the library"}, Line: 33},
			&report.Line{ID: "kap", Symbol: Math(Identifier("κ")), Result: Math(mn("1.40", "")), Reason: "air, short times", Caveat: "dimension unknown", Line: 34},
			&report.CheckPart{Check: checks[1]}, &report.CheckPart{Check: checks[2]}, &report.CheckPart{Check: checks[3]},
			&report.Code{Text: "depths := make([]float64, 0, 20)\nfor i := range 20 {\n\th := float64(i) * 0.1 * units.M\n\tdepths = append(depths, fabric.Depth(p, h, mRider))\n}\n", Line: 38},
			&report.FigurePart{ID: "fig", Picture: Figure()},
			&report.FigurePart{ID: "plan", Picture: Drawing()}, &report.FigurePart{ID: "tones", Picture: Tones()}, &report.FigurePart{ID: "rose", Picture: Rose()}, &report.FigurePart{ID: "motion", Picture: Motion()},
			&report.ShopFilePart{ShopFile: shopFile()},
			&report.Remark{ID: "note", Text: "The curve for a wet bed is from the library’s friction value, not from a trial."},
			&report.Remark{ID: "cutter", Caution: true, Text: "The seam strength is that of one trial; cut three more strips before the first public day."},
		}},
		{Line: 60, Parts: []report.Part{&report.TablePart{ID: "tab", Title: "Depth of landing by height (invented)", Columns: []report.Column{
			{Head: "Rider", Cells: []string{"child, 25 kg", "adult, 75 kg", "heaviest, 95 kg"}},
			{Head: "Height", Unit: "m", Numeric: true, Cells: []string{"1.40", "1.40", "1.40"}},
			{Head: "Depth", Unit: "mm", Numeric: true, Cells: []string{"138", "414", "525"}},
			{Head: "Left to the ground", Unit: "mm", Numeric: true, Cells: []string{"799", "523", "412"}},
		}}}},
	}
}

// Figure has curves, a mark and limits.
func Figure() *chart.Figure {
	f := &chart.Figure{Title: "Depth of landing over the height of the fall (invented)", X: chart.Axis{Label: "height of the fall", Unit: "m"}, Y: chart.Axis{Label: "depth of landing", Unit: "mm"},
		Marks: []chart.Mark{{Name: "this bed", X: 1.4, Y: 525}}, Limits: []chart.Limit{{Name: "mattress bottoms out", At: 700, Upright: false}, {Name: "seat at its highest", At: 1.8, Upright: true}}}
	for _, c := range []struct {
		name string
		k    float64
	}{{"1.5 kPa, wet bed", 450}, {"1.8 kPa", 375}, {"2.4 kPa", 281}} {
		var xs, ys []float64
		for i := range 41 {
			h := float64(i) * 0.05
			xs, ys = append(xs, h), append(ys, c.k*h*(1-0.02*h))
		}
		f.Curves = append(f.Curves, chart.Curve{Name: c.name, X: xs, Y: ys})
	}
	return f
}

// Metres are lengths to draw.
func Metres(vs ...float64) []float64 { return vs }

// Drawing is the bed from above.
func Drawing() *drawing.Drawing {
	d := new(sheet.Sheet).NewDrawing("The bed from above (invented)")
	xs, ys := Metres(0, 6.2, 6.2, 0), Metres(0, 0, 5.5, 5.5)
	d.Outline(xs, ys)
	d.Area("mattress", Metres(0.7, 5.5, 5.5, 0.7), Metres(0.7, 0.7, 4.8, 4.8))
	d.Area("landing zone", Metres(2, 4.2, 4.2, 2), Metres(1.6, 1.6, 3.9, 3.9))
	d.Thin(Metres(0, 6.2), ys[1:3])
	d.Thin(Metres(0, 6.2), Metres(5.5, 0))
	d.Circle(3.1, 2.75, 0.9)
	d.Line("fence", Metres(-1.2, -1.2, 7.4, 7.4), Metres(-0.9, 6.4, 6.4, -0.9))
	d.Line("way in", Metres(-0.9, 0.8, 2.2), Metres(-0.5, 0.8, 2))
	d.Dimension(0, 0, 6.2, 0, -0.7)
	d.Dimension(0, 0, 0, 5.5, 0.6)
	d.Dimension(6.2, 5.5, 5.5, 5.5, -0.4)
	d.Arrow("wind", -0.9, 4, 0.9, 3.2)
	d.Text("skiff", 3.1, 2.75)
	for i, name := range []string{"A1", "A2", "A3", "A4"} {
		d.Mark(name, -0.8+float64(i%2)*7.8, 0.6+float64(i/2)*4.3)
	}
	d.Compass()
	return &drawing.Drawing{Drawing: d, Unit: Unit("m")}
}

// Motion is a boat that rocks, ten times a second for two seconds.
func Motion() *drawing.Motion {
	m := new(sheet.Sheet).NewMotion("The boat in a swell (invented)", 0.1)
	for k := range 20 {
		tilt := 0.2 * math.Sin(float64(k)*math.Pi/10)
		d := m.Frame()
		turn := func(xs, ys []float64) (x, y []float64) {
			for i := range xs {
				x, y = append(x, xs[i]*math.Cos(tilt)-ys[i]*math.Sin(tilt)), append(y, 0.75+xs[i]*math.Sin(tilt)+ys[i]*math.Cos(tilt))
			}
			return x, y
		}
		d.Thin(Metres(-1.5, 1.5), Metres(0, 0))
		d.Thin(Metres(0, 0), Metres(0, 0.75))
		d.Outline(turn(Metres(-1.2, 1.5, 1.1, -1), Metres(0.4, 0.5, 0.1, 0.1)))
		xs, ys := turn(Metres(-0.2, 0.2, 0.15, -0.15), Metres(0.4, 0.4, 1.1, 1.1))
		d.Area("rider", xs, ys)
		d.Text("boat", 0, -0.2)
	}
	return &drawing.Motion{Motion: m, Unit: Unit("m")}
}

// Tones is a drawing in patches of tone.
func Tones() *drawing.Drawing {
	d := new(sheet.Sheet).NewDrawing("Utilisation of a gusset (invented)")
	d.Scale("utilisation", 0, 1)
	for i := range 96 {
		x, y := 0.02*float64(i%12), 0.02*float64(i/12)
		u := 1.1 * math.Exp(-math.Hypot(x-0.12, y-0.02)/0.08)
		d.Shade(Metres(x, x+0.02, x+0.02, x), Metres(y, y, y+0.02, y+0.02), u)
	}
	d.Circle(0.12, 0.08, 0.009)
	d.Dimension(0, 0, 0.24, 0, -0.02)
	d.Dimension(0.24, 0, 0.24, 0.006, -0.02)
	d.Mark("worst", 0.13, 0.03)
	return &drawing.Drawing{Drawing: d, Unit: Unit("mm")}
}

// Unit is the unit with a symbol.
func Unit(symbol string) quantity.Unit {
	u, ok := quantity.Lookup(symbol)
	if !ok {
		panic("no unit " + symbol)
	}
	return u
}

// Rose has two curves and a limit.
func Rose() *drawing.Rose {
	r := &drawing.Rose{Title: "Wind that the anchors bear (invented)", Unit: "m/s", Limits: []drawing.RoseLimit{{Name: "limit of operation", At: 10}}}
	all, one := drawing.RoseCurve{Name: "all anchors"}, drawing.RoseCurve{Name: "anchor A2 lost"}
	for i := range 36 {
		a := float64(i) * math.Pi / 18
		all.Angles, all.Values = append(all.Angles, a), append(all.Values, 15+3*math.Cos(2*a))
		one.Angles, one.Values = append(one.Angles, a), append(one.Values, 11+4*math.Cos(a-0.7))
	}
	r.Curves = []drawing.RoseCurve{all, one}
	return r
}

func shopFile() *report.ShopFile {
	return &report.ShopFile{ID: "shopfile.1", Name: "anchors.csv", Size: "29\u00a0bytes", Digest: "20452a8f4b28cdf896b0a3dc83884ee57a8781ebb232a27cc47ef402cd01df0d"}
}

// Failing is the sample with a failed check, a fault and a cell that was not
// run.
func Failing() *report.Report {
	r := Report()
	c := r.Checks[0]
	c.Demand, c.Utilisation, c.Holds = report.Quantity{Number: "0.72", Unit: "kN/m"}, 1.161, false
	r.Verdict = report.Verdict{Kind: report.SomeFail, Hold: 3, Fail: 1, Governing: c}
	r.Text = []byte("---\ntitle: sample\n---\n\n```go\np := 1.8 * units.KPa\nT := p + r // wrong on purpose\n```\n")
	at := func(l, a, b int) document.Range {
		return document.Range{Start: document.Position{Line: l, Column: a}, End: document.Position{Line: l, Column: b}}
	}
	r.Findings = []document.Diagnostic{
		{Severity: document.Error, File: r.File, Range: at(7, 6, 11), Message: "p + r: got pressure + length, want one dimension", Hint: "multiply for a force per length, or take the other name",
			Notes: []document.Note{{Range: at(6, 1, 2), Message: "p is a pressure here"}}},
		{Severity: document.Warning, File: r.File, Range: at(6, 6, 9), Message: "p: got 1.80 kPa, which is near the low end of its range"},
	}
	r.Cells[4].State = "This cell did not run: the cell before it faulted."
	r.Cells[4].Parts = []report.Part{&report.FaultPart{Diagnostic: r.Findings[0]}}
	return r
}

// Signed is a report of little else than its signatures: revision B needs two, of
// which one is there.
func Signed() *report.Report {
	r := &report.Report{File: "bed.md", Verdict: report.Verdict{Kind: report.NoChecks}, Title: document.TitleBlock{Title: "Bed", Number: "HF-1", Revision: "B",
		Prepared: "designer", Checked: "engineer", Approved: "owner", Signatures: []string{"prepared", "checked"}}}
	nina := report.Signature{Role: "prepared", By: "nina@example.org", On: "2026-05-04"}
	r.Stand(&report.Standing{State: "Draft: prepared; not yet checked", Draft: true, Signed: []report.Signature{nina}, Revisions: []*report.Revision{
		{Mark: "A", Signatures: []report.Signature{nina, {Role: "checked", By: "otto", On: "2026-05-05", Flaw: "does not hold"}}, Remarks: []string{"checked although line 9: check fails: seam <b>: the trial <is> to show it", "superseded"}},
		{Mark: "B", Signatures: []report.Signature{nina}},
	}})
	return r
}

// Tornado has bars both ways, and one with an end lost.
func Tornado() *chart.Tornado {
	return &chart.Tornado{What: "long seam", Nominal: 0.9, Bars: []chart.Bar{
		{Given: "r 300 mm ± 5 mm", At: [2]string{"295 mm", "305 mm"}, Low: 0.8, High: 1.02},
		{Given: "H 1 m ± 0.1 m", At: [2]string{"0.9 m", "1.1 m"}, Low: 0.94, High: 0.88},
		{Given: "both up", At: [2]string{"1", "3"}, Low: 0.91, High: 0.93},
		{Given: "one lost", At: [2]string{"1", "3"}, Low: math.NaN(), High: 0.95},
	}}
}

// Study is of the tolerances of the sample.
func Study() *report.Study {
	return &report.Study{Samples: 400, Seed: 1, Faulted: 3, Fault: "line 9: too thin",
		Givens:    []*report.ToleranceGiven{{Symbol: Math(Identifier("r")), Text: "r", Value: report.Quantity{Number: "300", Unit: "mm"}, PlusMinus: report.Quantity{Number: "5", Unit: "mm"}}},
		Unvaried:  []string{"q"},
		Checks:    []*report.StudyCheck{{ID: "seam", What: "long seam", Nominal: report.Share{Known: true, Utilisation: 0.871, Holds: true}, Worst: report.Share{Known: true, Utilisation: 1.02, Holds: false}, By: "r at 305 mm", Greatest: report.Share{Known: true, Utilisation: 1.01, Holds: false}, Fails: 12, Of: 397}},
		Tornadoes: []*chart.Tornado{Tornado(), {What: "other", Nominal: 0.5, Bars: []chart.Bar{{Given: "r", Low: 0.4, High: 0.6}}}}}
}

// Sweep is of one of its givens.
func Sweep() *report.Sweep {
	return &report.Sweep{Symbol: Math(Identifier("r")), Text: "r", From: report.Quantity{Number: "200", Unit: "mm"}, Nominal: report.Quantity{Number: "300", Unit: "mm"}, To: report.Quantity{Number: "400", Unit: "mm"}, Steps: 3,
		Summary: "Going up, the first to fail is long seam, above 333 mm.", Notes: []string{"r does not move: angle."},
		Rows: []*report.SweepRow{{What: "long seam", From: report.Share{Known: true, Utilisation: 0.6, Holds: true}, Nominal: report.Share{Known: true, Utilisation: 0.9, Holds: true}, To: report.Share{Known: true, Utilisation: 1.2, Holds: false},
			Greatest: report.Share{Known: true, Utilisation: 1.2, Holds: false}, Where: "at 400 mm", Fails: "above 333 mm"}},
		Figures: []*chart.Figure{{Title: "Utilisation over r", X: chart.Axis{Label: "r", Unit: "mm"}, Y: chart.Axis{Label: "utilisation", Unit: "%"}, Curves: []chart.Curve{{Name: "long seam", X: []float64{200, 300, 400}, Y: []float64{60, 90, 120}}}}}}
}
