package lower

import (
	"fmt"
	"go/ast"
	"go/types"
	"strings"

	"tautline/runner/check"
	"tautline/runner/document"
	"tautline/runner/library"
)

// Lower makes the program of a plan that has no errors. Data files are the
// caller's to fill in. When the notebook uses what the core cannot hold, the
// program is nil and the diagnostics say what and where.
func Lower(plan *check.Plan) (*Program, []document.Diagnostic) {
	if diags := refuse(plan); len(diags) > 0 {
		return nil, diags
	}
	l := &lowerer{plan: plan, info: plan.Info, names: map[types.Object]string{}, packages: map[string]bool{}, helpers: map[string]bool{}}
	p := &Program{File: plan.Notebook.File}
	for _, s := range plan.Sites {
		p.Sites = append(p.Sites, s.Range)
	}
	for _, c := range plan.Cells {
		p.Cells = append(p.Cells, l.cell(c))
	}
	if len(l.diags) > 0 {
		return nil, l.diags
	}
	p.Source = l.file()
	return p, nil
}

// A lowerer writes the program as text: every constant folded, every local
// variable under a name of its own, every statement in a form that the
// interpreter runs as the compiler does.
type lowerer struct {
	plan     *check.Plan
	info     *types.Info
	out      strings.Builder // statements of the function being written
	indent   int
	decls    []string                // finished declarations
	names    map[types.Object]string // local variables by object
	count    int                     // of temporaries and local names
	packages map[string]bool         // import paths used
	helpers  map[string]bool         // min and max functions, by name
	label    string                  // of the statement that comes next
	results  []string                // named results of the function being written
	diags    []document.Diagnostic
}

func (l *lowerer) bad(n ast.Node, hint, format string, args ...any) {
	l.diags = append(l.diags, document.Diagnostic{Severity: document.Error, File: l.plan.Notebook.File,
		Range: l.plan.Range(n), Message: fmt.Sprintf(format, args...), Hint: hint})
}

// line writes one line at the present depth.
func (l *lowerer) line(format string, args ...any) {
	for range l.indent {
		l.out.WriteByte('\t')
	}
	fmt.Fprintf(&l.out, format, args...)
	l.out.WriteByte('\n')
}

// temp is a new name for a temporary.
func (l *lowerer) temp() string {
	l.count++
	return fmt.Sprintf("__t%d", l.count)
}

// file puts the declarations together.
func (l *lowerer) file() string {
	var b strings.Builder
	b.WriteString("package main\n\n")
	for _, pkg := range library.Packages() {
		if l.packages[pkg.Path] {
			fmt.Fprintf(&b, "import %q\n", pkg.Path)
		}
	}
	b.WriteString("\nvar __at int\n")
	for _, d := range l.decls {
		b.WriteString("\n" + d)
	}
	return b.String()
}

// capture returns what write writes, apart from the rest.
func (l *lowerer) capture(indent int, write func()) string {
	out, depth := l.out, l.indent
	l.out, l.indent = strings.Builder{}, indent
	write()
	text := l.out.String()
	l.out, l.indent = out, depth
	return text
}

// cell writes the declarations and the function of one cell.
func (l *lowerer) cell(c *check.Cell) Cell {
	cell := Cell{Func: check.CellFunc(c.Source.Index), Range: c.Source.Span()}
	for _, d := range c.Types {
		for _, s := range d.Specs {
			spec := s.(*ast.TypeSpec)
			o := l.info.Defs[spec.Name].(*types.TypeName)
			if o.IsAlias() {
				continue // every use is written as what it stands for
			}
			l.decls = append(l.decls, fmt.Sprintf("type %s %s\n", o.Name(), l.typeText(o.Type().Underlying())))
		}
	}
	for _, n := range c.Names {
		if v, ok := n.Object.(*types.Var); ok {
			l.decls = append(l.decls, fmt.Sprintf("var %s %s\n", n.Ident, l.typeText(v.Type())))
			cell.Names = append(cell.Names, n.Ident)
		}
	}
	for _, f := range c.Funcs {
		l.decls = append(l.decls, l.funcDecl(f))
	}
	body := l.capture(1, func() {
		for _, s := range c.Steps {
			if s.Stmt != nil {
				l.stmt(s.Stmt)
			}
		}
	})
	l.decls = append(l.decls, fmt.Sprintf("func %s() {\n%s}\n", cell.Func, body))
	return cell
}

func (l *lowerer) funcDecl(f *ast.FuncDecl) string {
	sig := l.info.Defs[f.Name].(*types.Func).Signature()
	recv := ""
	if r := sig.Recv(); r != nil {
		recv = fmt.Sprintf("(%s %s) ", l.local(r), l.typeText(r.Type()))
	}
	return fmt.Sprintf("func %s%s%s\n", recv, f.Name.Name, l.function(sig, f.Body, 0))
}

// function writes parameters, results and body. Named results become local
// variables: the interpreter does not zero them between calls.
func (l *lowerer) function(sig *types.Signature, body *ast.BlockStmt, indent int) string {
	var params, results []string
	for i := range sig.Params().Len() {
		v := sig.Params().At(i)
		t := l.typeText(v.Type())
		if sig.Variadic() && i == sig.Params().Len()-1 {
			t = "..." + l.typeText(v.Type().Underlying().(*types.Slice).Elem())
		}
		params = append(params, l.local(v)+" "+t)
	}
	outer := l.results
	l.results = nil
	for v := range sig.Results().Variables() {
		results = append(results, l.typeText(v.Type()))
		if v.Name() != "" {
			l.results = append(l.results, l.local(v))
		}
	}
	text := l.capture(indent+1, func() {
		for i, name := range l.results {
			l.line("var %s %s", name, results[i])
		}
		for _, s := range body.List {
			l.stmt(s)
		}
	})
	l.results = outer
	return fmt.Sprintf("(%s) (%s) {\n%s%s}", strings.Join(params, ", "), strings.Join(results, ", "), text, strings.Repeat("\t", indent))
}

// local is the name of a variable in the program: its own for a top-level name,
// one that no other variable has for the rest.
func (l *lowerer) local(o types.Object) string {
	if n, ok := l.names[o]; ok {
		return n
	}
	if o.Parent() != nil && o.Parent().Parent() == types.Universe {
		return o.Name()
	}
	l.count++
	n := fmt.Sprintf("%s__%d", strings.Trim(o.Name(), "_"), l.count)
	if o.Name() == "_" || o.Name() == "" {
		n = fmt.Sprintf("__t%d", l.count)
	}
	l.names[o] = n
	return n
}

// typeText writes a type without aliases.
func (l *lowerer) typeText(t types.Type) string {
	switch t := types.Unalias(t).(type) {
	case *types.Basic:
		if t.Info()&types.IsUntyped != 0 {
			return types.Default(t).String()
		}
		return t.Name()
	case *types.Named:
		o := t.Obj()
		if o.Pkg() == nil || o.Pkg().Name() == "main" {
			return o.Name()
		}
		l.packages[o.Pkg().Path()] = true
		return o.Pkg().Name() + "." + o.Name()
	case *types.Pointer:
		return "*" + l.typeText(t.Elem())
	case *types.Slice:
		return "[]" + l.typeText(t.Elem())
	case *types.Array:
		return fmt.Sprintf("[%d]%s", t.Len(), l.typeText(t.Elem()))
	case *types.Map:
		return fmt.Sprintf("map[%s]%s", l.typeText(t.Key()), l.typeText(t.Elem()))
	case *types.Struct:
		var b strings.Builder
		b.WriteString("struct{")
		for f := range t.Fields() {
			fmt.Fprintf(&b, " %s %s;", f.Name(), l.typeText(f.Type()))
		}
		return b.String() + " }"
	case *types.Signature:
		return "func" + l.signatureText(t)
	case *types.Interface:
		if t.Empty() {
			return "interface{}"
		}
	}
	l.diags = append(l.diags, document.Diagnostic{Severity: document.Error, File: l.plan.Notebook.File,
		Message: fmt.Sprintf("a cell cannot use the type %s", t)})
	return "int"
}

func (l *lowerer) signatureText(sig *types.Signature) string {
	var params, results []string
	for i := range sig.Params().Len() {
		t := sig.Params().At(i).Type()
		if sig.Variadic() && i == sig.Params().Len()-1 {
			params = append(params, "..."+l.typeText(t.Underlying().(*types.Slice).Elem()))
		} else {
			params = append(params, l.typeText(t))
		}
	}
	for v := range sig.Results().Variables() {
		results = append(results, l.typeText(v.Type()))
	}
	return fmt.Sprintf("(%s) (%s)", strings.Join(params, ", "), strings.Join(results, ", "))
}
