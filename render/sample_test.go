package render

import (
	"html/template"
	"math"
	"strings"

	"tautline/runner/document"
	"tautline/runner/outcome"
	"tautline/stdlib/quantity"
	"tautline/stdlib/sheet"
)

// The sample is a landing bed for a harbour fair. The fair, the bed and every
// number are invented; they show the page, not a design.

func ml(s string) template.HTML { return template.HTML("<math>" + s + "</math>") }

func mi(s string) string { return "<mi>" + s + "</mi>" }

func mn(number, unit string) string {
	s := "<mn>" + number + "</mn>"
	if unit != "" {
		s += `<mspace width="0.2em"/><mi mathvariant="normal">` + unit + "</mi>"
	}
	return s
}

func msub(base, sub string) string {
	return "<msub>" + mi(base) + `<mi mathvariant="normal">` + sub + "</mi></msub>"
}

func mfrac(over, under string) string {
	return "<mfrac><mrow>" + over + "</mrow><mrow>" + under + "</mrow></mfrac>"
}

func mtimes(parts ...string) string { return strings.Join(parts, "<mo>·</mo>") }

func text(s string) []document.Inline { return []document.Inline{document.Text(s)} }

func para(in ...document.Inline) *document.Paragraph { return &document.Paragraph{Text: in} }

func head(level int, id, s string) *document.Heading {
	return &document.Heading{Level: level, ID: id, Text: text(s)}
}

func qp(number, unit string) *Quantity { return &Quantity{number, unit} }

func sampleChecks() []*Check {
	return []*Check{
		{ID: "seam", What: "long seam", Rule: "at most", Demand: Quantity{"0.54", "kN/m"}, Capacity: []Quantity{{"0.62", "kN/m"}},
			Utilisation: 0.871, Holds: true, Governing: true, Source: Citation{Text: "Invented seam trial 4, lower 5 % value over 3.0"}, Line: 31},
		{ID: "bottom", What: "landing rider stays off the ground", Rule: "at least", Demand: Quantity{"412", "mm"}, Capacity: []Quantity{{"300", "mm"}},
			Utilisation: 0.728, Holds: true, Source: Citation{Text: "Shop rule 2 (invented)"}, Line: 42},
		{ID: "pressure", What: "bed pressure", Rule: "within", Demand: Quantity{"1.80", "kPa"}, Capacity: []Quantity{{"1.50", "kPa"}, {"2.40", "kPa"}},
			Utilisation: 0.333, Holds: true, Source: Citation{Text: "Invented fan sheet"}, Line: 44},
		{ID: "flap", What: "inlet flap closes by itself", Rule: "holds", Utilisation: math.NaN(), Holds: true, Source: Citation{Text: "Trial on the built bed, pending"}, Line: 45},
	}
}

// sample is a report in which every check holds.
func sample() *Report {
	checks := sampleChecks()
	return &Report{
		Title: document.TitleBlock{
			Title: "Landing bed: seams, pressure and landing depth", Number: "HF-203", Revision: "B",
			Project:  "Harbour fair set (invented)",
			Prepared: "designer", Checked: "second engineer", Approved: "shop lead",
			Standards: []string{"EN 13814-1:2019, amusement rides", "EN 14960-1:2019, inflatable play equipment", "EN 1991-1-4, wind"},
		},
		File: "lagoon-bed.md", State: "Draft, not signed",
		Verdict:  Verdict{Kind: AllHold, Hold: 4, Governing: checks[0]},
		Cautions: []Caution{{ID: "cutter", Place: "In the working", Text: "The seam strength is that of one trial; cut three more strips before the first public day."}},
		Checks:   checks,
		Givens: []*Given{
			{ID: "p", Name: "p", Symbol: ml(mi("p")), Value: ml(mn("1.80", "kPa")), Low: qp("1.50", "kPa"), High: qp("2.40", "kPa"), InRange: true,
				Reason: "bed pressure at the fan’s working point", Line: 12},
			{ID: "r", Name: "r", Symbol: ml(mi("r")), Value: ml(mn("300", "mm")), InRange: true,
				Reason: "tube radius: a landing rider must not bottom out", Line: 13},
			{ID: "mr", Name: "mRider", Symbol: ml(msub("m", "rider")), Value: ml(mn("95", "kg")), High: qp("90", "kg"), Reason: "heaviest rider let on, with wet clothes", Line: 14},
			{ID: "h", Name: "h", Symbol: ml(mi("h")), Value: ml(mn("1.40", "m")), Low: qp("0.5", "m"), InRange: true, Reason: "from the seat of the skiff to the bed", Line: 15},
		},
		Blocks: sampleBlocks(), Cells: sampleCells(checks),
		Files: []*ShopFile{sampleShopFile()},
		Sources: []Source{
			{Number: 1, Text: "EN 14960-1:2019, 4.2.9", Used: []string{"fabric.HoopTension", "long seam"}},
			{Number: 2, Text: "Equilibrium of a thin tube, derived in the library", Used: []string{"fabric.HoopTension"}},
			{Number: 3, Text: "Invented seam trial 4"},
		},
		Identity: Identity{Tool: "tautline 0.3.0", Library: "sha256:5e1f…c204", Go: "go1.26.8",
			Digest: "8c1d0f7a4b6e29d35c7788f0a1b2c3d4e5f60718293a4b5c6d7e8f9012345678",
			Guards: []outcome.Guard{{Name: "own process"}, {Name: "memory at most 512 MiB"}, {Name: "run time at most 1m0s"}, {Name: "Landlock", Off: "this kernel has none"}}},
	}
}

func sampleBlocks() []document.Block {
	return []document.Block{
		head(1, "the-tube", "The tube"),
		para(document.Text("The bed is a ring of tubes round a flat mattress. The fan holds it at the pressure "), document.InlineMath("p"),
			document.Text("; the tension round a tube is carried by the "), document.Emphasis(text("long seams")),
			document.Text(", so the seam is what we size. See "), document.Link{To: "#landing", Text: text("the landing")},
			document.Text(" for what the pressure must do.")),
		&document.Cell{Index: 0},
		para(document.Text("With no friction between the layers, "), document.Strong(text("every layer carries the same tension")),
			document.Text(", and equilibrium of half a tube gives")),
		&document.Math{TeX: `T = p r`},
		&document.Cell{Index: 1},
		head(2, "landing", "The landing"),
		para(document.Text("The depth follows from energy: what the rider loses in height, the air takes up as work. Three things are left out on purpose:")),
		&document.List{Tight: true, Items: [][]document.Block{
			{para(document.Text("the air that leaves through the seams,"))},
			{para(document.Text("the stretch of the fabric ("), document.CodeSpan("strain"), document.Text(" below 2 %),")), &document.Cell{Index: 2}},
			{para(document.Text("the rider’s own bending of the knees."))},
		}},
		&document.Cell{Index: 3},
		&document.Quote{Blocks: []document.Block{para(document.Text("Press a fist into the bed: it must come back before you do."))}},
		head(4, "strips", "Seam strips"),
		&document.Table{Align: []document.Align{document.AlignLeft, document.AlignRight, document.AlignCenter},
			Header: [][]document.Inline{text("Strip"), text("Broke at (kN/m)"), text("Where")},
			Rows:   [][][]document.Inline{{text("A"), text("1.92"), text("thread")}, {text("B"), text("2.04"), text("fabric")}, {text("C"), text("1.88"), text("thread")}}},
		&document.Cell{Index: 4},
		para(document.Image{File: "bed-from-above.jpg", Alt: "The bed from above"}),
		&document.Rule{},
		&document.Code{Language: "text", Text: "fan curve, as read from the sheet (invented)\n0.00  2.60\n0.25  2.05\n"},
	}
}

func sampleCells(checks []*Check) []*Cell {
	return []*Cell{
		{Line: 11, Parts: []Part{
			&Line{ID: "p", Symbol: ml(mi("p")), Result: ml(mn("1.80", "kPa")), Given: true, Reason: "bed pressure at the fan’s working point", Line: 12},
			&Line{ID: "r", Symbol: ml(mi("r")), Result: ml(mn("300", "mm")), Given: true, Reason: "tube radius: a landing rider must not bottom out", Line: 13},
			&Line{ID: "mr", Symbol: ml(msub("m", "rider")), Result: ml(mn("95", "kg")), Given: true, Reason: "heaviest rider let on, with wet clothes", Line: 14},
			&Line{ID: "h", Symbol: ml(mi("h")), Result: ml(mn("1.40", "m")), Given: true, Reason: "from the seat of the skiff to the bed", Line: 15},
		}},
		{Line: 20, Parts: []Part{
			&Line{ID: "T", Symbol: ml(mi("T")), Formula: ml(mtimes(mi("p"), mi("r"))), Numbers: ml(mtimes(mn("1.80", "kPa"), mn("300", "mm"))), Result: ml(mn("0.540", "kN/m")),
				Reason: "runs round the tube, carried by the long seams", Source: Citation{Text: "EN 14960-1:2019, 4.2.9"}, Line: 21},
			&Line{ID: "Ts", Symbol: ml(msub("T", "seam")), Formula: ml(mfrac(msub("T", "break"), mi("γ"))), Numbers: ml(mfrac(mn("1.86", "kN/m"), mn("3.0", ""))), Result: ml(mn("0.620", "kN/m")),
				Reason: "lower 5 % value of the strips, over the shop’s factor", Line: 22},
			&CheckPart{checks[0]},
		}},
		{Line: 26, Parts: []Part{&Line{ID: "eps", Symbol: ml(mi("ε")), Formula: ml(mfrac(mi("T"), mtimes(mi("E"), mi("t")))), Numbers: ml(mfrac(mn("0.540", "kN/m"), mtimes(mn("310", "MPa"), mn("0.55", "mm")))), Result: ml(mn("0.32", "%")), Line: 27}}},
		{Line: 30, Parts: []Part{
			&Line{ID: "v", Symbol: ml(mi("v")), Formula: ml("<msqrt><mrow>" + mn("2", "") + "<mo>·</mo>" + mtimes(mi("g"), mi("h")) + "</mrow></msqrt>"),
				Numbers: ml("<msqrt><mrow>" + mtimes(mn("2", ""), mn("9.81", "m/s²"), mn("1.40", "m")) + "</mrow></msqrt>"), Result: ml(mn("5.24", "m/s")), Reason: "speed at the bed", Line: 31},
			&Line{ID: "d", Symbol: ml(msub("d", "land")), Formula: ml(mfrac(msub("m", "rider")+"<mo>·</mo>"+"<msup>"+mi("v")+"<mn>2</mn></msup>", mtimes(mn("2", ""), mi("p"), msub("A", "foot"))) + "<mo>+</mo>" + mfrac(mtimes(msub("m", "rider"), mi("g")), mtimes(mi("p"), msub("b", "mat")))),
				Numbers: ml(mfrac(mtimes(mn("95", "kg"), "<msup><mrow><mo>(</mo>"+mn("5.24", "m/s")+"<mo>)</mo></mrow><mn>2</mn></msup>"), mtimes(mn("2", ""), mn("1.80", "kPa"), mn("1.72", "m²"))) + "<mo>+</mo>" + mfrac(mtimes(mn("95", "kg"), mn("9.81", "m/s²")), mtimes(mn("1.80", "kPa"), mn("5.0", "m")))),
				Result:  ml(mn("525", "mm")), Reason: "depth that the rider sinks in, all the height going into work on the air", Source: Citation{Text: "Energy balance, derived in the library"}, Line: 33},
			&Line{ID: "kap", Symbol: ml(mi("κ")), Result: ml(mn("1.40", "")), Reason: "air, short times", Caveat: "dimension unknown", Line: 34},
			&CheckPart{checks[1]}, &CheckPart{checks[2]}, &CheckPart{checks[3]},
			&Code{Text: "depths := make([]float64, 0, 20)\nfor i := range 20 {\n\th := float64(i) * 0.1 * units.M\n\tdepths = append(depths, fabric.Depth(p, h, mRider))\n}\n", Line: 38},
			&FigurePart{ID: "fig", Picture: sampleFigure()},
			&FigurePart{ID: "plan", Picture: sampleDrawing()}, &FigurePart{ID: "tones", Picture: sampleTones()}, &FigurePart{ID: "rose", Picture: sampleRose()}, &FigurePart{ID: "motion", Picture: sampleMotion()},
			&ShopFilePart{sampleShopFile()},
			&Remark{ID: "note", Text: "The curve for a wet bed is from the library’s friction value, not from a trial."},
			&Remark{ID: "cutter", Caution: true, Text: "The seam strength is that of one trial; cut three more strips before the first public day."},
		}},
		{Line: 60, Parts: []Part{&TablePart{ID: "tab", Title: "Depth of landing by height (invented)", Columns: []Column{
			{Head: "Rider", Cells: []string{"child, 25 kg", "adult, 75 kg", "heaviest, 95 kg"}},
			{Head: "Height", Unit: "m", Numeric: true, Cells: []string{"1.40", "1.40", "1.40"}},
			{Head: "Depth", Unit: "mm", Numeric: true, Cells: []string{"138", "414", "525"}},
			{Head: "Left to the ground", Unit: "mm", Numeric: true, Cells: []string{"799", "523", "412"}},
		}}}},
	}
}

func sampleFigure() *Figure {
	f := &Figure{Title: "Depth of landing over the height of the fall (invented)", X: Axis{Label: "height of the fall", Unit: "m"}, Y: Axis{Label: "depth of landing", Unit: "mm"},
		Marks: []Mark{{"this bed", 1.4, 525}}, Limits: []Limit{{"mattress bottoms out", 700, false}, {"seat at its highest", 1.8, true}}}
	for _, c := range []struct {
		name string
		k    float64
	}{{"1.5 kPa, wet bed", 450}, {"1.8 kPa", 375}, {"2.4 kPa", 281}} {
		var xs, ys []float64
		for i := range 41 {
			h := float64(i) * 0.05
			xs, ys = append(xs, h), append(ys, c.k*h*(1-0.02*h))
		}
		f.Curves = append(f.Curves, Curve{c.name, xs, ys})
	}
	return f
}

// metres are lengths to draw.
func metres(vs ...float64) []float64 { return vs }

func sampleDrawing() *Drawing {
	d := new(sheet.Sheet).NewDrawing("The bed from above (invented)")
	xs, ys := metres(0, 6.2, 6.2, 0), metres(0, 0, 5.5, 5.5)
	d.Outline(xs, ys)
	d.Area("mattress", metres(0.7, 5.5, 5.5, 0.7), metres(0.7, 0.7, 4.8, 4.8))
	d.Area("landing zone", metres(2, 4.2, 4.2, 2), metres(1.6, 1.6, 3.9, 3.9))
	d.Thin(metres(0, 6.2), ys[1:3])
	d.Thin(metres(0, 6.2), metres(5.5, 0))
	d.Circle(3.1, 2.75, 0.9)
	d.Line("fence", metres(-1.2, -1.2, 7.4, 7.4), metres(-0.9, 6.4, 6.4, -0.9))
	d.Line("way in", metres(-0.9, 0.8, 2.2), metres(-0.5, 0.8, 2))
	d.Dimension(0, 0, 6.2, 0, -0.7)
	d.Dimension(0, 0, 0, 5.5, 0.6)
	d.Dimension(6.2, 5.5, 5.5, 5.5, -0.4)
	d.Arrow("wind", -0.9, 4, 0.9, 3.2)
	d.Text("skiff", 3.1, 2.75)
	for i, name := range []string{"A1", "A2", "A3", "A4"} {
		d.Mark(name, -0.8+float64(i%2)*7.8, 0.6+float64(i/2)*4.3)
	}
	d.Compass()
	return &Drawing{d, lookup("m")}
}

// sampleMotion is a boat that rocks, ten times a second for two seconds.
func sampleMotion() *Motion {
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
		d.Thin(metres(-1.5, 1.5), metres(0, 0))
		d.Thin(metres(0, 0), metres(0, 0.75))
		d.Outline(turn(metres(-1.2, 1.5, 1.1, -1), metres(0.4, 0.5, 0.1, 0.1)))
		xs, ys := turn(metres(-0.2, 0.2, 0.15, -0.15), metres(0.4, 0.4, 1.1, 1.1))
		d.Area("rider", xs, ys)
		d.Text("boat", 0, -0.2)
	}
	return &Motion{m, lookup("m")}
}

func sampleTones() *Drawing {
	d := new(sheet.Sheet).NewDrawing("Utilisation of a gusset (invented)")
	d.Scale("utilisation", 0, 1)
	for i := range 96 {
		x, y := 0.02*float64(i%12), 0.02*float64(i/12)
		u := 1.1 * math.Exp(-math.Hypot(x-0.12, y-0.02)/0.08)
		d.Shade(metres(x, x+0.02, x+0.02, x), metres(y, y, y+0.02, y+0.02), u)
	}
	d.Circle(0.12, 0.08, 0.009)
	d.Dimension(0, 0, 0.24, 0, -0.02)
	d.Dimension(0.24, 0, 0.24, 0.006, -0.02)
	d.Mark("worst", 0.13, 0.03)
	return &Drawing{d, lookup("mm")}
}

func lookup(symbol string) quantity.Unit {
	u, ok := quantity.Lookup(symbol)
	if !ok {
		panic("no unit " + symbol)
	}
	return u
}

func sampleRose() *Rose {
	r := &Rose{Title: "Wind that the anchors bear (invented)", Unit: "m/s", Limits: []RoseLimit{{"limit of operation", 10}}}
	all, one := RoseCurve{Name: "all anchors"}, RoseCurve{Name: "anchor A2 lost"}
	for i := range 36 {
		a := float64(i) * math.Pi / 18
		all.Angles, all.Values = append(all.Angles, a), append(all.Values, 15+3*math.Cos(2*a))
		one.Angles, one.Values = append(one.Angles, a), append(one.Values, 11+4*math.Cos(a-0.7))
	}
	r.Curves = []RoseCurve{all, one}
	return r
}

func sampleShopFile() *ShopFile {
	return &ShopFile{ID: "shopfile.1", Name: "anchors.csv", Size: "29\u00a0bytes", Digest: "20452a8f4b28cdf896b0a3dc83884ee57a8781ebb232a27cc47ef402cd01df0d"}
}

// failing is the sample with a failed check, a fault and a cell that was not
// run.
func failing() *Report {
	r := sample()
	c := r.Checks[0]
	c.Demand, c.Utilisation, c.Holds = Quantity{"0.72", "kN/m"}, 1.161, false
	r.Verdict = Verdict{Kind: SomeFail, Hold: 3, Fail: 1, Governing: c}
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
	r.Cells[4].Parts = []Part{&FaultPart{r.Findings[0]}}
	return r
}

// signed is a report of little else than its signatures: revision B needs two, of
// which one is there.
func signed() *Report {
	r := &Report{File: "bed.md", Verdict: Verdict{Kind: NoChecks}, Title: document.TitleBlock{Title: "Bed", Number: "HF-1", Revision: "B",
		Prepared: "designer", Checked: "engineer", Approved: "owner", Signatures: []string{"prepared", "checked"}}}
	nina := Signature{Role: "prepared", By: "nina@example.org", On: "2026-05-04"}
	r.Stand(&Standing{State: "Draft: prepared; not yet checked", Draft: true, Signed: []Signature{nina}, Revisions: []*Revision{
		{Mark: "A", Signatures: []Signature{nina, {Role: "checked", By: "otto", On: "2026-05-05", Flaw: "does not hold"}}, Remarks: []string{"checked although line 9: check fails: seam <b>: the trial <is> to show it", "superseded"}},
		{Mark: "B", Signatures: []Signature{nina}},
	}})
	return r
}
