package lower

import (
	"fmt"
	"go/ast"
	"go/types"
	"strings"

	"tautline/runner/check"
	"tautline/runner/check/tree"
	"tautline/runner/document"
	"tautline/runner/library"
	"tautline/runner/lower/subset"
)

// Lower makes the program of a plan that has no errors. Data files are the
// caller's to fill in. When the notebook uses what a cell may not, the
// program is nil and the diagnostics say what and where.
func Lower(plan *check.Plan) (*Program, []document.Diagnostic) {
	if diags := subset.Check(plan.Tree); len(diags) > 0 {
		return nil, diags
	}
	l := &lowerer{plan: plan, info: plan.Info, names: map[types.Object]string{},
		inputs: map[*types.Func]string{}, packages: map[string]bool{}, own: map[string]bool{}, givens: map[string]float64{}}
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
	p.Source, p.Givens = l.file(), l.givens
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
	own      map[string]bool         // functions and variables of the core's own, by name
	givens   map[string]float64      // numbers that the designer chose, by name
	label    string                  // of the statement that comes next
	frame    frame                   // of the function being written
	inputs   map[*types.Func]string  // type that holds a function's operands, or ""
	diags    []document.Diagnostic
}

// A frame is what the statements of a function need to know of it.
type frame struct {
	named []string     // results by name
	types *types.Tuple // of the results
	from  string       // where the run was when the function was called; "" when that is not needed
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
	if l.packages[HostPath] {
		fmt.Fprintf(&b, "import __host %q\n", HostPath)
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
func (l *lowerer) cell(c *tree.Cell) Cell {
	cell := Cell{Func: tree.CellFunc(c.Source.Index), Range: c.Source.Span()}
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
				l.announce(s.Stmt)
				l.stmt(s.Stmt)
			}
		}
	})
	l.decls = append(l.decls, fmt.Sprintf("func %s() {\n%s}\n", cell.Func, body))
	return cell
}

// body writes the body of a function in braces. Named results become local
// variables: the interpreter does not zero them between calls. A function that
// notes where the run is puts back the place of its call when it returns.
func (l *lowerer) body(sig *types.Signature, body *ast.BlockStmt, indent int, head func()) string {
	outer := l.frame
	l.frame = frame{types: sig.Results()}
	text := l.capture(indent+1, func() {
		head()
		if l.canFail(body) {
			l.frame.from = l.temp()
			l.line("%s := __at", l.frame.from)
		}
		for v := range sig.Results().Variables() {
			if v.Name() != "" {
				l.frame.named = append(l.frame.named, l.local(v))
				l.line("var %s %s", l.local(v), l.typeText(v.Type()))
			}
		}
		l.stmts(body.List)
		if sig.Results().Len() == 0 && l.frame.from != "" {
			l.line("__at = %s", l.frame.from)
		}
	})
	l.frame = outer
	return fmt.Sprintf("{\n%s%s}", text, strings.Repeat("\t", indent))
}

// funcLit writes a function literal.
func (l *lowerer) funcLit(e *ast.FuncLit) string {
	sig := l.info.Types[e].Type.Underlying().(*types.Signature)
	return "func" + l.header(sig) + " " + l.body(sig, e.Body, l.indent, func() {})
}

// header writes the parameters by name and the results of a signature.
func (l *lowerer) header(sig *types.Signature) string {
	var params []string
	for v := range sig.Params().Variables() {
		params = append(params, l.local(v)+" "+l.parameterType(sig, v))
	}
	return fmt.Sprintf("(%s) %s", strings.Join(params, ", "), l.resultText(sig))
}

// local is the name of a variable or label in the program: its own for a
// top-level name, one that nothing else has for the rest.
func (l *lowerer) local(o types.Object) string {
	if l.plan.IsTop(o) {
		return o.Name()
	}
	n, ok := l.names[o]
	if !ok {
		l.count++
		n = fmt.Sprintf("__%s_%d", strings.Trim(o.Name(), "_"), l.count)
		l.names[o] = n
	}
	return n
}
