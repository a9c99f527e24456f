package tree

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
	loose map[string]int // lines that set names in blocks that are no cells; nil until asked for
	tree  *Tree
	file  *ast.File
	owner map[string]*Name // names set so far
	diags []document.Diagnostic
	temps []string // what each value that is assigned later is for
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

func newProgram(t *Tree) *program {
	return &program{tree: t, file: &ast.File{Name: ast.NewIdent("main")}, owner: map[string]*Name{}}
}

func (g *program) report(r document.Range, hint, format string, args ...any) {
	g.diags = append(g.diags, g.tree.ErrorAt(r, fmt.Sprintf(format, args...), hint))
}

// read makes the program of the cells, each stage only when the one before found
// nothing.
func (g *program) read(cells []*parsed) []document.Diagnostic {
	for _, c := range cells {
		g.add(c)
	}
	g.sizes()
	if len(g.diags) > 0 {
		return g.diags
	}
	return g.check()
}

// add puts one cell into the program.
func (g *program) add(c *parsed) {
	for _, d := range c.decls {
		if d, ok := d.(*ast.GenDecl); ok && d.Tok == token.IMPORT {
			g.checkImports(d)
		}
	}
	body := &ast.BlockStmt{Lbrace: c.body.Body.Lbrace, Rbrace: c.body.Body.Rbrace}
	for _, step := range c.cell.Steps {
		switch s := step.Stmt.(type) {
		case nil:
			g.declareType(step.Decl, c.cell)
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

// declareType puts a function, a method or types into the program.
func (g *program) declareType(d ast.Decl, c *Cell) {
	switch d := d.(type) {
	case *ast.FuncDecl:
		if d.Recv == nil && g.claim(d.Name, nil, c) == nil {
			return
		}
		c.Funcs = append(c.Funcs, d)
		g.file.Decls = append(g.file.Decls, d)
	case *ast.GenDecl:
		for _, s := range d.Specs {
			g.claim(s.(*ast.TypeSpec).Name, nil, c)
		}
		c.Types = append(c.Types, d)
		g.file.Decls = append(g.file.Decls, d)
	}
}

// another says which names near one that cannot be had are free.
func (g *program) another(name string) string { return "choose another name: " + g.free(name) }

// free names two names like one that are not in use so far.
func (g *program) free(name string) string {
	first := g.firstFree(name, func(k int) string { return strconv.Itoa(k + 1) }, 100)
	second := g.firstFree(name, func(k int) string { return string(rune('A' + k)) }, 26)
	if first == "" || second == "" {
		return "one that says what it is of"
	}
	return first + " and " + second + " are free so far"
}

// firstFree is the first free name with one of so many endings, or "".
func (g *program) firstFree(name string, ending func(k int) string, most int) string {
	for k := range most {
		try := name + ending(k)
		if _, pkg := library.Path(try); !pkg && g.owner[try] == nil {
			return try
		}
	}
	return ""
}

// claim makes id a top-level name of the cell. It returns nil, and reports
// why, when the name cannot be had.
func (g *program) claim(id *ast.Ident, step *Step, c *Cell) *Name {
	r := g.tree.Range(id)
	switch {
	case id.Name == "_":
		return nil
	case types.Universe.Lookup(id.Name) != nil:
		g.report(r, g.another(id.Name), "%s is a predeclared name of Go", id.Name)
		return nil
	case id.Name == "init" || id.Name == "main":
		g.report(r, g.another(id.Name), "%s has a meaning of its own in Go", id.Name)
		return nil
	}
	if _, ok := library.Path(id.Name); ok {
		g.report(r, g.another(id.Name), "%s is the name of a package that cells can import", id.Name)
		return nil
	}
	if old := g.owner[id.Name]; old != nil {
		where := "in this cell"
		if old.Cell != c.Source.Index {
			where = "in an earlier cell"
		}
		g.report(r, "give the new value a name of its own: "+g.free(id.Name), "%s is set already %s", id.Name, where)
		g.diags[len(g.diags)-1].Notes = []document.Note{{Range: old.Range, Message: id.Name + " is set here"}}
		return nil
	}
	n := &Name{Ident: id.Name, Cell: c.Source.Index, Step: step, Range: r}
	g.owner[id.Name] = n
	if step != nil {
		step.Names = append(step.Names, n)
		c.Names = append(c.Names, n)
		g.tree.Names[id.Name] = n
	}
	return n
}

// assign puts a top-level assignment into the program: as a package variable
// when it sets new names, into the cell's function otherwise.
func (g *program) assign(s *ast.AssignStmt, step *Step, c *Cell, body *ast.BlockStmt) {
	if s.Tok != token.DEFINE {
		g.library(s)
		body.List = append(body.List, s)
		return
	}
	spec := &ast.ValueSpec{Values: s.Rhs}
	later := &ast.AssignStmt{TokPos: s.TokPos, Tok: token.ASSIGN}
	fresh := 0
	for _, l := range s.Lhs {
		id, ok := l.(*ast.Ident)
		if !ok {
			g.report(g.tree.Range(l), "a new name stands on the left of :=; use = to set a part of a value", "cannot define %s with :=", g.tree.OneLine(l))
			return
		}
		if old := g.owner[id.Name]; old != nil && old.Cell == c.Source.Index && len(s.Lhs) > 1 {
			// `b, err := g()` where this cell has set err: err is assigned.
			temp := &ast.Ident{NamePos: id.NamePos, Name: fmt.Sprintf("__temp%d", len(g.temps))}
			g.temps = append(g.temps, id.Name)
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
		g.report(g.tree.Range(s), "use = instead of :=", "no new names on the left of :=")
		return
	}
	g.file.Decls = append(g.file.Decls, &ast.GenDecl{TokPos: s.Pos(), Tok: token.VAR, Specs: []ast.Spec{spec}})
	if len(later.Lhs) > 0 {
		body.List = append(body.List, later)
	}
}

// library refuses an assignment to a name of a package.
func (g *program) library(s *ast.AssignStmt) {
	for _, l := range s.Lhs {
		if id := Root(l); id != nil && id != l {
			if _, ok := library.Path(id.Name); ok {
				g.report(g.tree.Range(l), "give the value a name of its own", "%s belongs to the library and cannot be set", g.tree.OneLine(l))
			}
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
				g.report(g.tree.Range(spec), "write "+base+".Name", "import %s under another name: cells use packages by their own names", path)
			}
			continue
		}
		hint := cannotImport(base)
		if _, ok := library.Path(base); ok {
			hint = "the package " + base + " that cells know needs no import: write " + base + ".Name"
		}
		g.report(g.tree.Range(spec), hint, "cells cannot import %q", path)
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
	p := g.tree
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
