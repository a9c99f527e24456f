package content

import (
	"fmt"
	"go/ast"
	"go/types"
	"maps"
	"math"
	"path/filepath"
	"slices"
	"strings"

	"tautline/runner"
	"tautline/runner/check"
	"tautline/runner/check/graph"
	"tautline/runner/check/tree"
	"tautline/runner/library"
	"tautline/runner/record/canonical"
	"tautline/runner/trial"
	"tautline/stdlib/sheet"
)

// Of makes the Content of a result that ran. tool says what ran it; the functions
// in it are filled in.
func Of(res *runner.Result, tool Tool) (*Content, error) {
	if !res.Ran() {
		return nil, fmt.Errorf("%s: did not run to its end", res.File)
	}
	g := &gatherer{res: res, plan: res.Plan, content: &Content{Tool: tool}, functions: map[string]bool{}}
	g.notebook()
	g.files()
	g.names()
	if err := g.entries(); err != nil {
		return nil, err
	}
	g.uses()
	return g.content, nil
}

// A gatherer fills a Content.
type gatherer struct {
	res       *runner.Result
	plan      *check.Plan
	content   *Content
	functions map[string]bool
}

func (g *gatherer) notebook() {
	t := g.plan.Notebook.Title
	g.content.Notebook = Notebook{File: filepath.Base(g.res.File), Digest: Digest(g.res.Source), Title: t.Title, Number: t.Number,
		Revision: t.Revision, Project: t.Project, Roles: t.Roles(), Text: string(g.res.Source)}
}

func (g *gatherer) files() {
	for _, name := range slices.Sorted(maps.Keys(g.res.Data)) {
		g.content.Files = append(g.content.Files, File{name, Digest([]byte(g.res.Data[name]))})
	}
	for _, name := range slices.Sorted(maps.Keys(g.res.Images)) {
		g.content.Files = append(g.content.Files, File{name, Digest(g.res.Images[name])})
	}
	if g.res.Measured != nil {
		g.content.Files = append(g.content.Files, File{filepath.Base(trial.File(g.res.File)), Digest(g.res.Measured)})
	}
}

func (g *gatherer) names() {
	nodes := map[string]*graph.Node{}
	for _, n := range g.plan.Graph().Nodes {
		if n.Kind != graph.Check {
			nodes[n.Label] = n
		}
	}
	calls := g.calls()
	for _, c := range g.plan.Cells {
		for _, n := range c.Names {
			name := Name{Name: n.Ident, Line: n.Range.Start.Line, Given: n.Given, Calls: slices.Sorted(maps.Keys(calls[n.Ident]))}
			if node := nodes[n.Ident]; node != nil {
				for _, u := range node.Uses {
					name.Uses = append(name.Uses, u.Label)
				}
			}
			if v, ok := g.res.Outcome.Values[n.Ident]; ok {
				w := flattener{plan: g.plan, name: &name}
				w.value(n.Ident, v, n.Object.Type(), g.plan.ObjectMeasure(n.Object), true)
			}
			g.content.Names = append(g.content.Names, name)
		}
	}
}

// calls lists for each top-level name the library functions that are called where
// it is set or changed.
func (g *gatherer) calls() map[string]map[string]bool {
	calls := map[string]map[string]bool{}
	bodies := map[types.Object]ast.Node{}
	for _, c := range g.plan.Cells {
		for _, f := range c.Funcs {
			bodies[g.plan.Info.Defs[f.Name]] = f.Body
		}
	}
	for _, c := range g.plan.Cells {
		for _, s := range c.Steps {
			targets := s.Names
			if len(targets) == 0 {
				targets = slices.DeleteFunc(slices.Clone(c.Names), func(n *tree.Name) bool { return !n.Changed })
			}
			if len(targets) == 0 {
				continue
			}
			found := map[string]bool{}
			g.libraryCalls(s, bodies, map[types.Object]bool{}, found)
			for _, n := range targets {
				if calls[n.Ident] == nil {
					calls[n.Ident] = map[string]bool{}
				}
				maps.Copy(calls[n.Ident], found)
			}
		}
	}
	return calls
}

// libraryCalls notes the library functions that a step comes to, through the
// notebook's own functions too.
func (g *gatherer) libraryCalls(s interface{ Inspect(func(ast.Node) bool) }, bodies map[types.Object]ast.Node, seen map[types.Object]bool, found map[string]bool) {
	s.Inspect(func(n ast.Node) bool {
		id, ok := n.(*ast.Ident)
		if !ok {
			return true
		}
		obj := g.plan.Info.Uses[id]
		if name := libraryName(obj); name != "" {
			found[name] = true
		}
		if body := bodies[obj]; body != nil && !seen[obj] {
			seen[obj] = true
			g.libraryCalls(syntax{body}, bodies, seen, found)
		}
		return true
	})
}

// syntax is a syntax tree that can be inspected as a step can.
type syntax struct{ ast.Node }

func (s syntax) Inspect(f func(ast.Node) bool) { ast.Inspect(s.Node, f) }

// libraryName names a function, method or constant of the library, such as
// "fabric.Torus.InnerEquator"; "" for anything else.
func libraryName(obj types.Object) string {
	if obj == nil || obj.Pkg() == nil || !strings.HasPrefix(obj.Pkg().Path(), "tautline/") {
		return ""
	}
	switch obj := obj.(type) {
	case *types.Func:
		if recv := obj.Signature().Recv(); recv != nil {
			return obj.Pkg().Name() + "." + tree.TypeName(recv.Type()) + "." + obj.Name()
		}
	case *types.Const:
	default:
		return ""
	}
	return obj.Pkg().Name() + "." + obj.Name()
}

// uses fills in the functions of the library that the notebook uses, and the
// sources that they and its checks name.
func (g *gatherer) uses() {
	t := &g.content.Tool
	t.Changes, t.Functions = len(library.Changes()), map[string]string{}
	sources := map[string]bool{}
	for _, obj := range g.plan.Info.Uses {
		name := libraryName(obj)
		if name == "" {
			continue
		}
		if digest, ok := library.FunctionDigest(name); ok {
			t.Functions[name] = digest
		}
		if doc, ok := library.Doc(obj.Pkg().Path(), strings.TrimPrefix(name, obj.Pkg().Name()+".")); ok {
			sources[strings.TrimSuffix(doc.Source, ".")] = true
		}
	}
	for _, c := range g.content.Checks {
		sources[strings.TrimSuffix(c.Source, ".")] = true
	}
	delete(sources, "")
	g.content.Sources = slices.Sorted(maps.Keys(sources))
}

// entries takes what the cells put on the sheet.
func (g *gatherer) entries() error {
	for i := range g.res.Outcome.Entries {
		e := &g.res.Outcome.Entries[i]
		site := g.plan.Sites[e.Site]
		line := site.Range.Start.Line
		shown := func(kind, title string, what any) error {
			text, err := canonical.Marshal(what)
			g.content.Shown = append(g.content.Shown, Shown{kind, title, line, Digest(text)})
			return err
		}
		var err error
		switch {
		case e.Check != nil:
			g.check(e.Check, line, site.Stmt)
		case e.Table != nil:
			err = shown("table", e.Table.Title, e.Table)
		case e.Figure != nil:
			err = shown("figure", e.Figure.Title, e.Figure)
		case e.Drawing != nil:
			err = shown("drawing", e.Drawing.Title, e.Drawing)
		case e.Rose != nil:
			err = shown("rose", e.Rose.Title, e.Rose)
		case e.Plate != nil:
			err = shown("plate", e.Plate.What, e.Plate)
		case e.Motion != nil:
			err = shown("motion", e.Motion.Title, e.Motion)
		case e.Trial != nil:
			g.trial(e.Trial, line)
		case e.ShopFile != nil:
			g.content.Shown = append(g.content.Shown, Shown{"shop file", e.ShopFile.Name, line, Digest([]byte(e.ShopFile.Text))})
		}
		if err != nil {
			return err
		}
	}
	return nil
}

func (g *gatherer) trial(p *sheet.Prediction, line int) {
	t := Trial{What: p.What, Line: line, Predicted: exact(float64(p.Value)), Tolerance: exact(float64(p.Tolerance))}
	for _, r := range g.res.Readings {
		if r.Trial == p.What { // the last decides
			t.Reading = strings.TrimSpace(r.Number + " " + r.Unit.Symbol)
			t.Outside = !r.Within(float64(p.Value), float64(p.Tolerance))
		}
	}
	g.content.Trials = append(g.content.Trials, t)
}

func (g *gatherer) check(c *sheet.Check, line int, stmt ast.Stmt) {
	out := Check{What: c.What, Line: line, Rule: string(c.Rule), Holds: c.Holds, Source: c.Source}
	if !math.IsNaN(float64(c.Utilisation)) {
		out.Utilisation = exact(float64(c.Utilisation))
	}
	if c.Rule != sheet.RuleHolds {
		out.Dimension, out.Alias = g.checkDimension(stmt)
		out.Demand = exact(float64(c.Demand))
	}
	if c.Rule == sheet.RuleAtLeast || c.Rule == sheet.RuleWithin {
		out.Low = exact(float64(c.Low))
	}
	if c.Rule == sheet.RuleAtMost || c.Rule == sheet.RuleWithin {
		out.High = exact(float64(c.High))
	}
	g.content.Checks = append(g.content.Checks, out)
}

// checkDimension is that of the first argument of a check whose dimension is
// known.
func (g *gatherer) checkDimension(stmt ast.Stmt) (dimension, alias string) {
	dimension = Unknown
	ast.Inspect(stmt, func(n ast.Node) bool {
		call, ok := n.(*ast.CallExpr)
		if !ok {
			return true
		}
		switch name, _ := g.plan.SheetCall(call); name {
		case "AtMost", "AtLeast", "Within":
			for _, arg := range call.Args[1:min(4, len(call.Args))] {
				if m := g.plan.Measure(arg); m.Known && (dimension == Unknown || alias == "") {
					dimension, alias = m.Dimension.String(), m.Alias
				}
			}
		}
		return true
	})
	return dimension, alias
}
