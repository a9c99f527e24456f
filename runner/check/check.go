package check

import (
	"fmt"
	"go/ast"
	"go/constant"
	"go/token"
	"go/types"
	"io/fs"
	"slices"
	"strings"
	"unicode"

	"tautline/runner/document"
	"tautline/runner/library"
)

// SheetPath is the import path of the package through which cells speak to
// their report.
const SheetPath = "tautline/stdlib/sheet"

// Check reads and checks the cells of a notebook. The plan is never nil; it
// can be run only when no diagnostic is an error.
func Check(nb *document.Notebook) (*Plan, []document.Diagnostic) {
	p := &Plan{
		Notebook: nb,
		Names:    map[string]*Name{},
		Info: &types.Info{
			Types: map[ast.Expr]types.TypeAndValue{}, Defs: map[*ast.Ident]types.Object{}, Uses: map[*ast.Ident]types.Object{},
			Implicits: map[ast.Node]types.Object{}, Selections: map[*ast.SelectorExpr]*types.Selection{},
			Scopes: map[ast.Node]*types.Scope{}, Instances: map[*ast.Ident]types.Instance{},
		},
		Sites:   []Site{{}},
		fset:    token.NewFileSet(),
		origin:  map[string]*Cell{},
		numbers: map[ast.Stmt]int{},
	}
	p.dims = newDimensions(p)
	sources := nb.Cells()
	if diags := p.extent(sources); len(diags) > 0 {
		return p, diags
	}
	var diags []document.Diagnostic
	var cells []*parsed
	for _, source := range sources {
		c := &Cell{Source: source}
		p.Cells = append(p.Cells, c)
		parsed, errs := p.parseCell(c)
		diags = append(diags, errs...)
		if parsed != nil {
			p.steps(parsed)
			cells = append(cells, parsed)
		}
	}
	if len(p.Cells) == 0 {
		return p, append(diags, noCells(nb))
	}
	if len(diags) == 0 { // the types of half a program would only confuse
		diags = p.checkProgram(cells)
	}
	document.Sort(diags)
	return p, p.first(diags)
}

// checkProgram checks all cells together, each stage only when the one before
// found nothing.
func (p *Plan) checkProgram(cells []*parsed) []document.Diagnostic {
	prog := newProgram(p)
	for _, c := range cells {
		prog.add(c)
	}
	prog.sizes()
	if len(prog.diags) > 0 {
		return prog.diags
	}
	if diags := prog.check(); len(diags) > 0 {
		return diags
	}
	p.number()
	p.classify()
	p.values()
	if diags := append(p.order(), p.changes()...); len(diags) > 0 {
		return diags
	}
	diags := p.dims.check()
	files, errs := p.dataFiles()
	p.Data = files
	diags = append(diags, errs...)
	diags = append(diags, p.titleUnits()...)
	if hasErrors(diags) {
		return diags // advice is for a notebook that is right so far
	}
	return append(diags, p.advice()...)
}

// number gives every statement that runs a number, in the order of the source.
func (p *Plan) number() {
	visit := func(n ast.Node) bool {
		switch s := n.(type) {
		case *ast.BlockStmt, *ast.EmptyStmt, *ast.LabeledStmt, nil:
		case ast.Stmt:
			if p.numbers[s] == 0 {
				p.numbers[s] = len(p.Sites)
				p.Sites = append(p.Sites, Site{s, p.statementRange(s)})
			}
		}
		return true
	}
	p.Inspect(visit)
}

// statementRange is the place of a statement without the blocks it holds.
func (p *Plan) statementRange(s ast.Stmt) document.Range {
	r := p.Range(s)
	var body *ast.BlockStmt
	switch s := s.(type) {
	case *ast.IfStmt:
		body = s.Body
	case *ast.ForStmt:
		body = s.Body
	case *ast.RangeStmt:
		body = s.Body
	case *ast.SwitchStmt:
		body = s.Body
	case *ast.CaseClause:
		r.End = p.At(s.Colon)
	}
	if body != nil {
		r.End = p.At(body.Lbrace)
	}
	return r
}

// SheetCall returns the name of the function or method when call is of package
// sheet, such as "AtMost" or "Figure.Curve".
func (p *Plan) SheetCall(call *ast.CallExpr) (string, bool) {
	f := p.Callee(call)
	if f == nil || f.Pkg() == nil || f.Pkg().Path() != SheetPath {
		return "", false
	}
	if recv := f.Signature().Recv(); recv != nil {
		return TypeName(recv.Type()) + "." + f.Name(), true
	}
	return f.Name(), true
}

// Callee returns the function or method that call calls by name, or nil.
func (p *Plan) Callee(call *ast.CallExpr) *types.Func {
	var id *ast.Ident
	switch f := ast.Unparen(call.Fun).(type) {
	case *ast.Ident:
		id = f
	case *ast.SelectorExpr:
		id = f.Sel
	case *ast.IndexExpr:
		if sel, ok := f.X.(*ast.SelectorExpr); ok {
			id = sel.Sel
		}
	}
	if id == nil {
		return nil
	}
	f, _ := p.Info.Uses[id].(*types.Func)
	return f
}

// IsTop reports whether o is a top-level name of the notebook: a variable,
// constant, function or type.
func (p *Plan) IsTop(o types.Object) bool {
	if _, isPackage := o.(*types.PkgName); isPackage || o == nil {
		return false
	}
	return o.Pkg() != nil && o.Pkg().Path() == "main" && o.Parent() == o.Pkg().Scope()
}

// TypeName is the name of a named type or of what a pointer to it points to.
func TypeName(t types.Type) string {
	if ptr, ok := types.Unalias(t).(*types.Pointer); ok {
		t = ptr.Elem()
	}
	if n, ok := types.Unalias(t).(*types.Named); ok {
		return n.Obj().Name()
	}
	return t.String()
}

// classify finds the steps that only speak to the sheet: calls of package sheet,
// and calls of the library that draw on what such a call made.
func (p *Plan) classify() {
	for _, c := range p.Cells {
		for _, s := range c.Steps {
			switch stmt := s.Stmt.(type) {
			case *ast.ExprStmt:
				if call, ok := stmt.X.(*ast.CallExpr); ok {
					if _, ok := p.SheetCall(call); ok || p.draws(call) {
						s.Kind = StepSheet
					}
				}
			case *ast.AssignStmt:
				if call, ok := ast.Unparen(stmt.Rhs[0]).(*ast.CallExpr); ok {
					if name, _ := p.SheetCall(call); strings.HasPrefix(name, "New") {
						s.Kind = StepSheet
					}
				}
			}
		}
	}
}

// draws reports whether a call of the library is given a figure, a drawing or a
// rose by its name, to draw on.
func (p *Plan) draws(call *ast.CallExpr) bool {
	f := p.Callee(call)
	return f != nil && f.Pkg() != nil && f.Pkg().Path() != "main" && slices.ContainsFunc(call.Args, func(e ast.Expr) bool {
		ptr, ok := types.Unalias(p.Info.TypeOf(e)).(*types.Pointer)
		if !ok {
			return false
		}
		named, ok := types.Unalias(ptr.Elem()).(*types.Named)
		return ok && named.Obj().Pkg() != nil && named.Obj().Pkg().Path() == SheetPath
	})
}

// dataFiles lists the constant names given to sheet.ReadData and sheet.ReadText,
// each once.
func (p *Plan) dataFiles() (files []DataFile, diags []document.Diagnostic) {
	p.Inspect(func(n ast.Node) bool {
		call, ok := n.(*ast.CallExpr)
		if !ok {
			return true
		}
		if name, _ := p.SheetCall(call); name != "ReadData" && name != "ReadText" || len(call.Args) != 1 {
			return true
		}
		arg := call.Args[0]
		v := p.Info.Types[arg].Value
		if v == nil {
			diags = append(diags, p.errorAt(p.Range(arg), "the name of a data file must be a constant text",
				"so that a reader and the record know which files the notebook depends on"))
			return true
		}
		file := constant.StringVal(v)
		if !fs.ValidPath(file) || file == "." || strings.ContainsAny(file, `/\:`) || strings.ContainsFunc(file, unicode.IsControl) {
			diags = append(diags, p.errorAt(p.Range(arg), fmt.Sprintf("data file %q: want the name of a file beside the notebook, without a path", file),
				"put the file beside the notebook and write only its name"))
			return true
		}
		if !slices.ContainsFunc(files, func(f DataFile) bool { return f.Name == file }) {
			files = append(files, DataFile{file, p.Range(arg)})
		}
		return true
	})
	return files, diags
}

// Inspect walks the syntax of every cell in order, as ast.Inspect does.
func (p *Plan) Inspect(f func(ast.Node) bool) {
	for _, c := range p.Cells {
		for _, s := range c.Steps {
			s.Inspect(f)
		}
	}
}

// Inspect walks the statement or declaration of a step, as ast.Inspect does.
func (s *Step) Inspect(f func(ast.Node) bool) {
	if s.Stmt != nil {
		ast.Inspect(s.Stmt, f)
	} else if s.Decl != nil {
		ast.Inspect(s.Decl, f)
	}
}

// packageNames lists what cells can import.
func packageNames() []string {
	var names []string
	for _, pkg := range library.Packages() {
		names = append(names, pkg.Name)
	}
	return names
}

func hasErrors(diags []document.Diagnostic) bool {
	return slices.ContainsFunc(diags, func(d document.Diagnostic) bool { return d.Severity == document.Error })
}

// noCells says that a notebook computes nothing, at the block that may have been
// meant as a cell.
func noCells(nb *document.Notebook) document.Diagnostic {
	d := document.Diagnostic{Severity: document.Error, File: nb.File, Message: "no cells: the notebook computes nothing",
		Hint: "write the calculation in a fenced block marked go"}
	document.Walk(nb.Blocks, func(b document.Block) {
		if code, ok := b.(*document.Code); ok && d.Range.Start.Line == 0 {
			d.Range = document.Range{Start: code.Start, End: code.Start}
			d.Message = "no cells: this block is not marked go, and no other is"
			d.Hint = "begin it with ```go"
		}
	})
	return d
}
