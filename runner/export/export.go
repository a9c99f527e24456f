// Package export writes a notebook as an ordinary Go program. Compiled by Go it
// gives, bit for bit, the numbers that the interpreter gave.
//
//	src, err := export.Program(plan)
//
// The program holds the text of the cells as it stands; only a top-level
// `x := e` becomes `x = e` of a package variable, since other cells read it.
package export

import (
	"fmt"
	"go/ast"
	"go/format"
	"go/token"
	"go/types"
	"strings"

	"tautline/runner/check"
	"tautline/runner/check/tree"
	"tautline/runner/library"
)

// Program returns the Go source. Its main function runs the cells in order,
// prints after each the values that it set, and at the end everything put on
// the sheet. It reads data files from the folder it runs in.
func Program(plan *check.Plan) ([]byte, error) {
	w := &writer{plan: plan, packages: map[string]bool{tree.SheetPath: true}}
	w.findPackages()
	w.variables()
	for _, c := range plan.Cells {
		w.cell(c)
	}
	w.main()
	head := fmt.Sprintf("// The calculation of the notebook %s as an ordinary Go program.\npackage main\n\n", plan.Notebook.File)
	src, err := format.Source([]byte(head + w.imports() + w.body.String()))
	if err != nil {
		return nil, fmt.Errorf("export: %w", err)
	}
	return src, nil
}

type writer struct {
	plan     *check.Plan
	packages map[string]bool // import paths used; sheet always is, by main
	body     strings.Builder
}

// findPackages lists the packages that cells name.
func (w *writer) findPackages() {
	for _, o := range w.plan.Info.Uses {
		if pkg, ok := o.(*types.PkgName); ok {
			w.packages[pkg.Imported().Path()] = true
		}
	}
}

func (w *writer) imports() string {
	var b strings.Builder
	b.WriteString("import (\n")
	for _, pkg := range library.Packages() {
		if w.packages[pkg.Path] {
			fmt.Fprintf(&b, "%q\n", pkg.Path)
		}
	}
	b.WriteString(")\n\n")
	return b.String()
}

func (w *writer) variables() {
	w.body.WriteString("var (\n")
	for _, c := range w.plan.Cells {
		for _, n := range c.Names {
			if v, ok := n.Object.(*types.Var); ok {
				fmt.Fprintf(&w.body, "%s %s\n", n.Ident, types.TypeString(plainType(v.Type()), w.qualify))
			}
		}
	}
	w.body.WriteString(")\n")
}

// qualify names the package of a type, which may be one that no cell names.
func (w *writer) qualify(p *types.Package) string {
	if p.Name() == "main" {
		return ""
	}
	w.packages[p.Path()] = true
	return p.Name()
}

// plainType is a type as the compiler sees it. The alias that go/types infers
// for a product is that of a factor, which would mislead a reader.
func plainType(t types.Type) types.Type {
	switch u := types.Unalias(t).(type) {
	case *types.Slice:
		return types.NewSlice(plainType(u.Elem()))
	case *types.Array:
		return types.NewArray(plainType(u.Elem()), u.Len())
	case *types.Map:
		return types.NewMap(plainType(u.Key()), plainType(u.Elem()))
	case *types.Pointer:
		return types.NewPointer(plainType(u.Elem()))
	default:
		return u
	}
}

func (w *writer) cell(c *tree.Cell) {
	var body strings.Builder
	for _, s := range c.Steps {
		text := s.Text
		switch {
		case s.Kind == tree.StepComment:
			text = "// " + s.Text
		case s.Stmt == nil:
			fmt.Fprintf(&w.body, "\n%s\n", text)
			continue
		case isConst(s.Stmt):
			fmt.Fprintf(&w.body, "\n%s\n", text)
			continue
		default:
			text = w.statement(s)
		}
		if s.Reason != "" {
			text += " // " + s.Reason
		}
		body.WriteString(text + "\n")
	}
	fmt.Fprintf(&w.body, "\n// The cell at line %d.\nfunc %s() {\n%s}\n", c.Source.Start.Line, w.function(c), body.String())
}

// function is the name of the function for a cell, none that a cell declares.
func (w *writer) function(c *tree.Cell) string {
	name := fmt.Sprintf("cell%d", c.Source.Index)
	for w.declared(name) {
		name += "_"
	}
	return name
}

// declared reports whether name is a top-level name of the notebook.
func (w *writer) declared(name string) bool {
	for _, o := range w.plan.Info.Defs {
		if o != nil && o.Name() == name && w.plan.IsTop(o) {
			return true
		}
	}
	return false
}

func isConst(s ast.Stmt) bool {
	d, ok := s.(*ast.DeclStmt)
	return ok && d.Decl.(*ast.GenDecl).Tok == token.CONST
}

// statement is the text of a top-level statement with definitions turned into
// assignments.
func (w *writer) statement(s *tree.Step) string {
	switch stmt := s.Stmt.(type) {
	case *ast.AssignStmt:
		if stmt.Tok == token.DEFINE {
			at := w.plan.Offset(stmt.TokPos) - w.plan.Offset(stmt.Pos())
			return s.Text[:at] + s.Text[at+1:]
		}
	case *ast.DeclStmt:
		var lines []string
		for _, spec := range stmt.Decl.(*ast.GenDecl).Specs {
			if v, ok := spec.(*ast.ValueSpec); ok && len(v.Values) > 0 {
				var names, values []string
				for _, id := range v.Names {
					names = append(names, id.Name)
				}
				for _, e := range v.Values {
					values = append(values, w.plan.Source(e))
				}
				lines = append(lines, strings.Join(names, ", ")+" = "+strings.Join(values, ", "))
			}
		}
		return strings.Join(lines, "\n")
	}
	return s.Text
}

// main runs the cells, each with its values printed as they are at its end.
func (w *writer) main() {
	w.body.WriteString("\nfunc main() {\n")
	for _, c := range w.plan.Cells {
		fmt.Fprintf(&w.body, "%s()\n", w.function(c))
		w.results(c)
	}
	w.body.WriteString("sheet.PrintEntries()\n}\n")
}

func (w *writer) results(c *tree.Cell) {
	var lines strings.Builder
	for _, n := range c.Names {
		if _, ok := n.Object.(*types.Var); !ok {
			continue
		}
		value := n.Ident
		if types.IsInterface(n.Object.Type()) {
			value = "&" + value // so that a nil one is still seen
		}
		fmt.Fprintf(&lines, "sheet.Result{Name: %q, Value: %s},\n", n.Ident, value)
	}
	if lines.Len() > 0 {
		fmt.Fprintf(&w.body, "sheet.Print(\n%s)\n", lines.String())
	}
}
