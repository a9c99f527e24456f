package check

import (
	"fmt"
	"go/ast"
	"go/token"
	"go/types"
	"strconv"
	"strings"

	"tautline/runner/document"
	"tautline/runner/library"
)

// A program is the notebook as one Go file for go/types. A top-level
// `x := e` becomes the package variable `var x = e`, so that any later cell
// and any function can read it; the other statements stay in one function per
// cell.
type program struct {
	plan    *Plan
	file    *ast.File
	imports map[string]bool
	owner   map[string]*Name // names set so far
	diags   []document.Diagnostic
	temps   int
}

// packages serves every check: a package of the library never changes.
var packages = library.Importer(token.NewFileSet())

// members lists what the package that cells know by name declares.
func members(name string) []string {
	path, ok := library.Path(name)
	if !ok {
		return nil
	}
	pkg, err := packages.Import(path)
	if err != nil {
		return nil
	}
	return pkg.Scope().Names()
}

func newProgram(p *Plan) *program {
	return &program{plan: p, file: &ast.File{Name: ast.NewIdent("main")}, imports: map[string]bool{}, owner: map[string]*Name{}}
}

func (g *program) report(r document.Range, hint, format string, args ...any) {
	g.diags = append(g.diags, g.plan.errorAt(r, fmt.Sprintf(format, args...), hint))
}

// add puts one cell into the program.
func (g *program) add(c *parsed) {
	for _, d := range c.decls {
		switch d := d.(type) {
		case *ast.FuncDecl:
			if d.Recv == nil && g.claim(d.Name, nil, c.cell) == nil {
				continue
			}
			c.cell.Funcs = append(c.cell.Funcs, d)
			g.file.Decls = append(g.file.Decls, d)
		case *ast.GenDecl:
			if d.Tok == token.IMPORT {
				g.checkImports(d)
				continue
			}
			for _, s := range d.Specs {
				g.claim(s.(*ast.TypeSpec).Name, nil, c.cell)
			}
			c.cell.Types = append(c.cell.Types, d)
			g.file.Decls = append(g.file.Decls, d)
		}
	}
	body := &ast.BlockStmt{Lbrace: c.body.Body.Lbrace, Rbrace: c.body.Body.Rbrace}
	for _, step := range c.cell.Steps {
		switch s := step.Stmt.(type) {
		case nil:
		case *ast.AssignStmt:
			g.assign(s, step, c.cell, body)
		case *ast.DeclStmt:
			g.declare(s.Decl.(*ast.GenDecl), step, c.cell)
		default:
			body.List = append(body.List, s)
		}
	}
	g.file.Decls = append(g.file.Decls, &ast.FuncDecl{Name: c.body.Name, Type: c.body.Type, Body: body})
}

// claim makes id a top-level name of the cell. It returns nil, and reports
// why, when the name cannot be had.
func (g *program) claim(id *ast.Ident, step *Step, c *Cell) *Name {
	r := g.plan.Range(id)
	switch {
	case id.Name == "_":
		return nil
	case strings.HasPrefix(id.Name, "__"):
		g.report(r, "choose another name", "%s: names that begin with __ belong to the runner", id.Name)
		return nil
	case types.Universe.Lookup(id.Name) != nil:
		g.report(r, "choose another name", "%s is a predeclared name of Go", id.Name)
		return nil
	case id.Name == "init" || id.Name == "main":
		g.report(r, "choose another name", "%s has a meaning of its own in Go", id.Name)
		return nil
	}
	if _, ok := library.Path(id.Name); ok {
		g.report(r, "choose another name", "%s is the name of a package that cells can import", id.Name)
		return nil
	}
	if old := g.owner[id.Name]; old != nil {
		where := "in this cell"
		if old.Cell != c.Source.Index {
			where = "in an earlier cell"
		}
		g.report(r, "give the new value a name of its own", "%s is set already %s", id.Name, where)
		g.diags[len(g.diags)-1].Notes = []document.Note{{Range: old.Range, Message: id.Name + " is set here"}}
		return nil
	}
	n := &Name{Ident: id.Name, Cell: c.Source.Index, Step: step, Range: r}
	g.owner[id.Name] = n
	if step != nil {
		step.Names = append(step.Names, n)
		c.Names = append(c.Names, n)
		g.plan.Names[id.Name] = n
	}
	return n
}

// assign puts a top-level assignment into the program: as a package variable
// when it sets new names, into the cell's function otherwise.
func (g *program) assign(s *ast.AssignStmt, step *Step, c *Cell, body *ast.BlockStmt) {
	if s.Tok != token.DEFINE {
		g.changes(s, c)
		body.List = append(body.List, s)
		return
	}
	spec := &ast.ValueSpec{Values: s.Rhs}
	later := &ast.AssignStmt{TokPos: s.TokPos, Tok: token.ASSIGN}
	fresh := 0
	for _, l := range s.Lhs {
		id, ok := l.(*ast.Ident)
		if !ok {
			g.report(g.plan.Range(l), "use = to set a part of a value", "cannot define %s with :=", g.plan.Source(l))
			return
		}
		if old := g.owner[id.Name]; old != nil && old.Cell == c.Source.Index && len(s.Lhs) > 1 {
			// `b, err := g()` where this cell has set err: err is assigned.
			g.temps++
			temp := &ast.Ident{NamePos: id.NamePos, Name: fmt.Sprintf("__temp%d", g.temps)}
			spec.Names = append(spec.Names, temp)
			later.Lhs = append(later.Lhs, id)
			later.Rhs = append(later.Rhs, &ast.Ident{NamePos: id.NamePos, Name: temp.Name})
			continue
		}
		if id.Name != "_" {
			if g.claim(id, step, c) == nil {
				return
			}
			fresh++
		}
		spec.Names = append(spec.Names, id)
	}
	if fresh == 0 {
		g.report(g.plan.Range(s), "use = instead of :=", "no new names on the left of :=")
		return
	}
	g.file.Decls = append(g.file.Decls, &ast.GenDecl{TokPos: s.Pos(), Tok: token.VAR, Specs: []ast.Spec{spec}})
	if len(later.Lhs) > 0 {
		body.List = append(body.List, later)
	}
}

// changes refuses a plain assignment to a name of another cell.
func (g *program) changes(s *ast.AssignStmt, c *Cell) {
	for _, l := range s.Lhs {
		id := root(l)
		if id == nil {
			continue
		}
		if old := g.owner[id.Name]; old != nil && old.Cell != c.Source.Index {
			g.report(g.plan.Range(l), "give the new value a name of its own", "%s belongs to another cell and cannot be changed here", id.Name)
			g.diags[len(g.diags)-1].Notes = []document.Note{{Range: old.Range, Message: id.Name + " is set here"}}
		}
	}
}

// declare puts a top-level var or const declaration into the program.
func (g *program) declare(d *ast.GenDecl, step *Step, c *Cell) {
	for _, s := range d.Specs {
		spec, ok := s.(*ast.ValueSpec)
		if !ok {
			continue
		}
		for _, id := range spec.Names {
			g.claim(id, step, c)
		}
	}
	g.file.Decls = append(g.file.Decls, d)
}

// checkImports allows imports of what is in scope anyway.
func (g *program) checkImports(d *ast.GenDecl) {
	for _, s := range d.Specs {
		spec := s.(*ast.ImportSpec)
		path, _ := strconv.Unquote(spec.Path.Value)
		base := path[strings.LastIndex(path, "/")+1:]
		if known, ok := library.Path(base); ok && (known == path || base == path) {
			if spec.Name != nil && spec.Name.Name != base {
				g.report(g.plan.Range(spec), "write "+base+".Name", "import %s under another name: cells use packages by their own names", path)
			}
			continue
		}
		g.report(g.plan.Range(spec), cannotImport(base), "cells cannot import %q", path)
	}
}

// cannotImport is the hint for a package that cells do not have.
func cannotImport(name string) string {
	hint := "cells can use: " + strings.Join(packageNames(), ", ") + " (no import is needed)"
	if near, ok := document.Nearest(name, packageNames()); ok {
		hint += fmt.Sprintf("; did you mean %s?", near)
	}
	return hint
}

// check type-checks the program.
func (g *program) check() []document.Diagnostic {
	p := g.plan
	used := map[string]bool{}
	for _, d := range g.file.Decls {
		ast.Inspect(d, func(n ast.Node) bool {
			if sel, ok := n.(*ast.SelectorExpr); ok {
				if x, ok := sel.X.(*ast.Ident); ok {
					used[x.Name] = true
				}
			}
			return true
		})
	}
	imports := &ast.GenDecl{Tok: token.IMPORT}
	for _, pkg := range library.Packages() {
		if used[pkg.Name] && g.owner[pkg.Name] == nil {
			imports.Specs = append(imports.Specs, &ast.ImportSpec{Path: &ast.BasicLit{Kind: token.STRING, Value: strconv.Quote(pkg.Path)}})
		}
	}
	g.file.Decls = append([]ast.Decl{imports}, g.file.Decls...)
	conf := types.Config{
		Importer:                 packages,
		DisableUnusedImportCheck: true,
		Error: func(err error) {
			if e, ok := err.(types.Error); ok {
				g.typeError(e)
			}
		},
	}
	pkg, _ := conf.Check("main", p.fset, []*ast.File{g.file}, p.Info) // errors went to Error
	for _, n := range p.Names {
		n.Object = pkg.Scope().Lookup(n.Ident)
	}
	return g.diags
}

// typeError turns an error of go/types into a diagnostic with a hint where we
// know a better one than the compiler.
func (g *program) typeError(e types.Error) {
	p := g.plan
	message := strings.ReplaceAll(e.Msg, "tautline/stdlib/", "")
	if strings.HasPrefix(message, "\t") { // "other declaration of …": part of the error before
		if n := len(g.diags); n > 0 && p.At(e.Pos).Line > 0 {
			at := p.At(e.Pos)
			g.diags[n-1].Notes = append(g.diags[n-1].Notes, document.Note{Range: document.Range{Start: at, End: at}, Message: strings.TrimSpace(message)})
		}
		return
	}
	at := p.At(e.Pos)
	r := document.Range{Start: at, End: at}
	if id := p.identAt(e.Pos); id != nil {
		r = p.Range(id)
	}
	hint := ""
	if name, ok := strings.CutPrefix(message, "undefined: "); ok {
		hint = g.undefinedHint(name)
	} else if strings.Contains(message, "mismatched types") && strings.Contains(message, " int)") {
		hint = "a whole number was set without a unit or a decimal point: write it as 3.0, or convert it with float64(n)"
	}
	if strings.HasPrefix(message, "multiple-value") && strings.Contains(message, "error)") {
		hint = "write sheet.Must(…) round it: an error then ends the run at this line"
	}
	lines := strings.SplitN(message, "\n", 2)
	if len(lines) > 1 {
		hint = strings.TrimSpace(lines[1] + "\n" + hint)
	}
	g.report(r, hint, "%s", lines[0])
}

// undefinedHint names what the writer may have meant by an undefined name.
func (g *program) undefinedHint(name string) string {
	if pkg, member, ok := strings.Cut(name, "."); ok {
		if near, ok := document.Nearest(member, members(pkg)); ok {
			return fmt.Sprintf("did you mean %s.%s?", pkg, near)
		}
		return "tautline doc " + pkg + " lists what it has"
	}
	var known []string
	for n := range g.owner {
		known = append(known, n)
	}
	near, ok := document.Nearest(name, append(known, packageNames()...))
	if ok {
		return fmt.Sprintf("did you mean %s?", near)
	}
	if g.usedAsPackage(name) {
		return cannotImport(name)
	}
	return "set it in this cell or an earlier one"
}

func (g *program) usedAsPackage(name string) bool {
	found := false
	ast.Inspect(g.file, func(n ast.Node) bool {
		if sel, ok := n.(*ast.SelectorExpr); ok {
			if x, ok := sel.X.(*ast.Ident); ok && x.Name == name {
				found = true
			}
		}
		return !found
	})
	return found
}

// identAt finds the identifier or selector that begins at pos.
func (p *Plan) identAt(pos token.Pos) *ast.Ident {
	var found *ast.Ident
	p.inspect(func(n ast.Node) bool {
		if id, ok := n.(*ast.Ident); ok && id.Pos() == pos {
			found = id
		}
		return found == nil
	})
	return found
}

// root is the identifier at the root of an expression that can be assigned to.
func root(e ast.Expr) *ast.Ident {
	for {
		switch x := e.(type) {
		case *ast.Ident:
			return x
		case *ast.SelectorExpr:
			e = x.X
		case *ast.IndexExpr:
			e = x.X
		case *ast.ParenExpr:
			e = x.X
		case *ast.StarExpr:
			e = x.X
		case *ast.SliceExpr:
			e = x.X
		default:
			return nil
		}
	}
}
