// Package assembly makes the report of a plan and its outcome: what each cell put
// on the sheet at its place, and what is gathered from all of them.
package assembly

import (
	"cmp"
	"crypto/sha256"
	"fmt"
	"go/ast"
	"go/types"
	"path/filepath"
	"slices"
	"sort"
	"strconv"
	"strings"

	"tautline/render/lettering"
	"tautline/render/mathml"
	"tautline/render/report"
	"tautline/render/working"
	"tautline/runner/check"
	"tautline/runner/check/graph"
	"tautline/runner/check/owner"
	"tautline/runner/check/tree"
	"tautline/runner/document"
	"tautline/runner/outcome"
	"tautline/stdlib/sheet"
)

// Assemble makes the report of a plan and its outcome. findings are what
// parsing and checking found; out may be nil when the plan was not run, as when
// it has errors.
func Assemble(plan *check.Plan, out *outcome.Outcome, findings []document.Diagnostic, id report.Identity) *report.Report {
	if out == nil {
		return assemble(newDraft(plan), unrun(plan), findings, id, false)
	}
	return Begin(plan).Report(out, findings, id)
}

func assemble(d *Draft, out *outcome.Outcome, findings []document.Diagnostic, id report.Identity, ran bool) *report.Report {
	plan := d.plan
	a := newAssembler(d, out)
	a.graph = d.graph
	for i := range a.Out.Entries {
		e := &a.Out.Entries[i]
		a.entries[e.Site] = append(a.entries[e.Site], e)
	}
	a.findings = slices.Concat(findings, a.Out.Faults)
	a.report = &report.Report{Title: plan.Notebook.Title, File: filepath.Base(plan.Notebook.File), State: report.Unsigned,
		Blocks: plan.Notebook.Blocks, Text: plan.Notebook.Source, Identity: id}
	a.report.Identity.Guards = a.Out.Guards
	for i, c := range plan.Cells {
		a.cell(i, c)
	}
	a.report.Findings = append(a.findings, a.doubts...)
	document.Sort(a.report.Findings)
	a.verdict(ran)
	a.sources()
	return a.report
}

func newAssembler(d *Draft, out *outcome.Outcome) *assembler {
	return &assembler{Typesetter: working.New(d.plan, out), draft: d, entries: map[int][]*sheet.Entry{}, used: map[string]map[string]bool{}, count: map[string]int{}, warned: map[string]bool{}}
}

// An assembler fills a report.
type assembler struct {
	*working.Typesetter
	draft    *Draft
	graph    *graph.Graph
	entries  map[int][]*sheet.Entry // by the statement that put them
	report   *report.Report
	cellOut  *report.Cell
	findings []document.Diagnostic
	doubts   []document.Diagnostic      // found while assembling: figures of two dimensions
	used     map[string]map[string]bool // source to what rests on it
	warned   map[string]bool            // library functions, and texts, whose caution stands already
	count    map[string]int             // of tables, figures and lines, for anchors
}

func (a *assembler) add(p report.Part) {
	if code, ok := p.(*report.Code); ok && a.joins(code) {
		return
	}
	a.cellOut.Parts = append(a.cellOut.Parts, p)
}

// joins adds code to the code just before it, with empty lines for what lies
// between.
func (a *assembler) joins(code *report.Code) bool {
	parts := a.cellOut.Parts
	if len(parts) == 0 {
		return false
	}
	before, ok := parts[len(parts)-1].(*report.Code)
	if !ok {
		return false
	}
	gap := code.Line - before.Line - strings.Count(before.Text, "\n")
	if gap < 1 {
		return false
	}
	before.Text += strings.Repeat("\n", gap) + code.Text
	before.IDs = append(before.IDs, code.IDs...)
	return true
}

// cell makes what stands at the place of one cell.
func (a *assembler) cell(i int, c *tree.Cell) {
	a.cellOut = &report.Cell{Line: c.Source.Start.Line + 1}
	a.report.Cells = append(a.report.Cells, a.cellOut)
	switch a.Out.Cells[i] {
	case outcome.NotRun:
		a.cellOut.State = "not run"
		a.add(&report.Code{Text: c.Source.Text, Line: c.Source.Start.Line + 1})
		a.faults(c.Source.Span())
		return
	case outcome.Faulted:
		a.cellOut.State = "ended early"
	}
	for _, s := range c.Steps {
		a.step(s)
		for _, n := range a.sites(s) {
			for _, e := range a.entries[n] {
				a.entry(e, a.Plan.Sites[n].Stmt)
			}
		}
		a.gatherSources(s)
	}
	a.faults(c.Source.Span())
}

// faults puts the findings about a cell below it.
func (a *assembler) faults(r document.Range) {
	for _, d := range a.findings {
		if d.Severity == document.Error && d.Range.Start.Compare(r.Start) >= 0 && d.Range.Start.Compare(r.End) < 0 {
			a.add(&report.FaultPart{Diagnostic: d})
		}
	}
}

// sites lists the numbers of the statements in a step.
func (a *assembler) sites(s *tree.Step) []int {
	var numbers []int
	visit := func(n ast.Node) bool {
		if stmt, ok := n.(ast.Stmt); ok {
			if k := a.Plan.Number(stmt); k > 0 {
				numbers = append(numbers, k)
			}
		}
		return true
	}
	s.Inspect(visit)
	slices.Sort(numbers)
	return numbers
}

// step makes the lines or the code of a step; what it put on the sheet follows.
func (a *assembler) step(s *tree.Step) {
	switch s.Kind {
	case tree.StepAssign:
		if a.isBuilding(s) {
			code := &report.Code{Text: s.Text, Line: s.Range.Start.Line}
			for _, n := range s.Names {
				code.IDs = append(code.IDs, report.LineID(n.Ident))
			}
			a.add(code)
			return
		}
		a.lines(s)
	case tree.StepCode, tree.StepDeclare:
		a.add(&report.Code{Text: s.Text, Line: s.Range.Start.Line})
	case tree.StepComment:
		a.add(&report.Comment{Text: s.Text})
	}
}

// isBuilding reports whether an assignment makes something of the library that
// the cell goes on to build on, or a part of it: a reader wants the code.
func (a *assembler) isBuilding(s *tree.Step) bool {
	if len(s.Names) != 1 {
		return false
	}
	n := s.Names[0]
	if call := a.Calls(working.SetFrom(n)); call != nil && owner.Builds(a.Plan.Tree, call) {
		return true
	}
	ptr, ok := n.Object.Type().Underlying().(*types.Pointer)
	if !ok || !n.Changed {
		return false
	}
	named, ok := types.Unalias(ptr.Elem()).(*types.Named)
	return ok && named.Obj().Pkg() != nil && named.Obj().Pkg().Path() != "main"
}

// entry makes the part for one thing put on the sheet.
func (a *assembler) entry(e *sheet.Entry, stmt ast.Stmt) {
	switch {
	case e.Check != nil:
		a.check(e, stmt)
	case e.Table != nil:
		a.table(e.Table)
	case e.Figure != nil:
		a.figure(e.Figure)
	case e.Drawing != nil:
		a.drawing(e.Drawing)
	case e.Rose != nil:
		a.rose(e.Rose)
	case e.Motion != nil:
		a.motion(e.Motion)
	case e.ShopFile != nil:
		a.shopFile(e.ShopFile)
	case e.Plate != nil:
		a.plate(e.Plate, e.Site, stmt)
	case e.Trial != nil:
		a.trial(e.Trial, e.Site, stmt)
	case e.Remark != nil:
		a.remark(e.Remark.Caution, e.Remark.Text)
	}
}

func (a *assembler) remark(caution bool, text string) {
	r := &report.Remark{Caution: caution, Text: text}
	if caution {
		r.ID = a.id("caution")
		if said := "said: " + text; !a.warned[said] { // what is said at each of many places stands once at the top
			a.warned[said] = true
			a.report.Cautions = append(a.report.Cautions, report.Caution{ID: r.ID, Place: "In the working", Text: text})
		}
	}
	a.add(r)
}

// warning puts a warning of the library's result in a name at its place: whole
// and with that name where it is said first, then in a line that reminds of it.
func (a *assembler) warning(name, text string, line int) {
	if said := "warned: " + text; !a.warned[said] {
		a.warned[said] = true
		a.report.Warnings = append(a.report.Warnings, report.Warning{Name: name, Text: text, Line: line})
		a.remark(true, name+": "+text)
		return
	}
	const most = 60 // letters
	if start := []rune(text); len(start) > most {
		text = string(start[:most]) + " …"
	}
	a.remark(false, "The caution above holds for "+name+" too: "+text)
}

func (a *assembler) shopFile(t *sheet.ShopText) {
	f := &report.ShopFile{ID: a.id("shopfile"), Name: t.Name, Size: lettering.Typeset(strconv.Itoa(len(t.Text))) + "\u00a0" + report.Plural(len(t.Text), "byte"), Digest: fmt.Sprintf("%x", sha256.Sum256([]byte(t.Text)))}
	a.report.Files = append(a.report.Files, f)
	a.add(&report.ShopFilePart{ShopFile: f})
}

// plate makes a line of the data plate, and the same at its place.
func (a *assembler) plate(in *sheet.PlateLine, site int, stmt ast.Stmt) {
	p := &report.PlateLine{ID: a.id("plate"), What: in.What, Says: in.Text, Line: a.Plan.Sites[site].Range.Start.Line}
	if args := a.arguments(stmt, "Plate"); len(args) > 1 && in.Text == "" {
		v := float64(in.Value)
		p.Says = report.In(v, a.UnitOf(args[1:], v)).String()
	}
	a.report.Plate = append(a.report.Plate, p)
	a.add(&report.PlatePart{PlateLine: p})
}

// check makes a row of the table of checks and the same check at its place.
// Demand and capacity are shown in one unit.
func (a *assembler) check(e *sheet.Entry, stmt ast.Stmt) {
	in := e.Check
	c := &report.Check{ID: a.id("check"), What: in.What, Rule: string(in.Rule),
		Utilisation: float64(in.Utilisation), Holds: in.Holds, Source: report.Citation{Text: in.Source}, Line: a.Plan.Sites[e.Site].Range.Start.Line}
	demand, low, high := float64(in.Demand), float64(in.Low), float64(in.High)
	if args := a.arguments(stmt, checkFunc[in.Rule]); in.Rule != sheet.RuleHolds && len(args) > 2 {
		unit := a.UnitOf(args[1:], demand, low, high)
		put := func(v float64) report.Quantity { return report.In(v, unit) }
		c.Demand = put(demand)
		switch in.Rule {
		case sheet.RuleAtMost:
			c.Capacity = []report.Quantity{put(high)}
		case sheet.RuleAtLeast:
			c.Capacity = []report.Quantity{put(low)}
		case sheet.RuleWithin:
			c.Capacity = []report.Quantity{put(low), put(high)}
		}
	}
	if in.Source != "" {
		a.use(in.Source, "check: "+c.What)
	}
	if n := a.graph.CheckAt(e.Site, in.What); n != nil {
		for _, root := range n.Roots() {
			c.Rests = append(c.Rests, report.Reference{ID: report.LineID(root.Label), Name: root.Label, Symbol: working.Whole(mathml.Set(ast.NewIdent(root.Label), a.Symbols))})
		}
	}
	a.report.Checks = append(a.report.Checks, c)
	a.add(&report.CheckPart{Check: c})
}

var checkFunc = map[sheet.Rule]string{sheet.RuleAtMost: "AtMost", sheet.RuleAtLeast: "AtLeast",
	sheet.RuleWithin: "Within", sheet.RuleHolds: "Holds"}

// arguments finds the arguments of the call of a sheet function or method in a
// statement.
func (a *assembler) arguments(stmt ast.Stmt, name string) []ast.Expr {
	var args []ast.Expr
	ast.Inspect(stmt, func(n ast.Node) bool {
		if call, ok := n.(*ast.CallExpr); ok && args == nil {
			if f, ok := a.Plan.SheetCall(call); ok && f == name {
				args = call.Args
			}
		}
		return args == nil
	})
	return args
}

// verdict finds the governing check and says how it all ended.
func (a *assembler) verdict(ran bool) {
	v := &a.report.Verdict
	for _, d := range a.report.Findings {
		if d.Severity == document.Error {
			v.Faults++
		}
	}
	for _, c := range a.report.Checks {
		if c.Holds {
			v.Hold++
		} else {
			v.Fail++
		}
		if g := v.Governing; g == nil || report.Governs(c, g) {
			v.Governing = c
		}
	}
	if v.Governing != nil {
		v.Governing.Governing = true
	}
	v.Trials.Open = len(a.report.Trials)
	switch {
	case !ran:
		v.Kind = report.NotRun
	case v.Faults > 0 || slices.Contains(a.Out.Cells, outcome.NotRun):
		v.Kind = report.NotDone
	case v.Fail > 0:
		v.Kind = report.SomeFail
	case len(a.report.Checks) == 0:
		v.Kind = report.NoChecks
	default:
		v.Kind = report.AllHold
	}
}

// use notes that something rests on a source.
func (a *assembler) use(source, what string) {
	source = strings.TrimSuffix(source, ".")
	if a.used[source] == nil {
		a.used[source] = map[string]bool{}
	}
	a.used[source][what] = true
}

// gatherSources notes the sources of the library functions that a step calls.
func (a *assembler) gatherSources(s *tree.Step) {
	visit := func(n ast.Node) bool {
		if call, ok := n.(*ast.CallExpr); ok {
			f, name := a.Documented(call)
			if f.Source != "" {
				a.use(f.Source, name)
			}
			if f.Caution != "" && !a.warned[name] {
				a.warned[name] = true
				a.report.Cautions = append(a.report.Cautions, report.Caution{ID: a.anchor(s), Place: name, Text: f.Caution})
			}
		}
		return true
	}
	s.Inspect(visit)
}

// anchor is where the report shows a step: its line, else nowhere.
func (a *assembler) anchor(s *tree.Step) string {
	if s.Kind == tree.StepAssign && len(s.Names) > 0 {
		return report.LineID(s.Names[0].Ident)
	}
	return ""
}

func (a *assembler) sources() {
	for text, users := range a.used {
		s := report.Source{Text: text}
		for u := range users {
			s.Used = append(s.Used, u)
		}
		sort.Strings(s.Used)
		a.report.Sources = append(a.report.Sources, s)
	}
	slices.SortFunc(a.report.Sources, func(x, y report.Source) int { return cmp.Compare(x.Text, y.Text) })
	numbers := map[string]int{}
	for i := range a.report.Sources {
		s := &a.report.Sources[i]
		s.Number = i + 1
		numbers[s.Text] = s.Number
	}
	number := func(c *report.Citation) { c.Ref = numbers[strings.TrimSuffix(c.Text, ".")] }
	for _, c := range a.report.Checks {
		number(&c.Source)
	}
	for _, c := range a.report.Cells {
		for _, p := range c.Parts {
			if line, ok := p.(*report.Line); ok {
				number(&line.Source)
			}
		}
	}
}
