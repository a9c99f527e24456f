package proof

import (
	"go/ast"
	"go/parser"
	"go/token"
	"math"
	"path/filepath"
	"reflect"
	"strconv"
	"strings"
	"testing"

	"tautline/stdlib/units"
)

// A Call is a function with a formula in its comment, and sample arguments.
type Call struct {
	name string
	fn   any
	args [][]any
}

// Of is the call of a function by name, Type.Method for a method, with lists of
// sample arguments, the receiver first.
func Of(name string, fn any, args [][]any) Call { return Call{name, fn, args} }

// Formulas fails unless the formula line of every comment in the package of the
// test is what the code computes: a report typesets that line and puts the
// numbers in. Rounding may differ in the last digits.
func Formulas(t *testing.T, calls []Call) {
	t.Helper()
	formulas := readFormulas(t)
	for _, c := range calls {
		f, found := formulas[c.name]
		if !found {
			t.Errorf("%s: comment has no formula line, want one", c.name)
			continue
		}
		delete(formulas, c.name)
		for _, args := range c.args {
			env := map[string]reflect.Value{}
			var in []reflect.Value
			for i, arg := range args {
				in = append(in, reflect.ValueOf(arg))
				env[f.names[i]] = in[i]
			}
			out := reflect.ValueOf(c.fn).Call(in)
			if len(out) > 1 && !out[1].IsNil() {
				t.Errorf("%s%v: %v", c.name, args, out[1])
				continue
			}
			got, want := out[0].Float(), eval(t, f.expr, env)
			if !(math.Abs(got-want) <= 1e-13*math.Abs(want)) {
				t.Errorf("%s%v = %.17g, its formula %s gives %.17g", c.name, args, got, f.text, want)
			}
		}
	}
	for name := range formulas {
		t.Errorf("%s: its formula is not compared with its code", name)
	}
}

type formula struct {
	text  string
	expr  ast.Expr
	names []string // of the receiver and the parameters
}

// readFormulas reads the formula line of each exported function's comment.
func readFormulas(t *testing.T) map[string]formula {
	files, err := filepath.Glob("*.go")
	if err != nil {
		t.Fatal(err)
	}
	formulas := map[string]formula{}
	for _, file := range files {
		if strings.HasSuffix(file, "_test.go") {
			continue
		}
		tree, err := parser.ParseFile(token.NewFileSet(), file, nil, parser.ParseComments)
		if err != nil {
			t.Fatal(err)
		}
		for _, d := range tree.Decls {
			fn, ok := d.(*ast.FuncDecl)
			if !ok || !fn.Name.IsExported() {
				continue
			}
			for line := range strings.Lines(fn.Doc.Text()) {
				_, right, ok := strings.Cut(strings.TrimSpace(line), " = ")
				if !ok || line[0] != '\t' {
					continue
				}
				expr, err := parser.ParseExpr(right)
				if err != nil {
					t.Fatalf("%s: formula %q: %v", fn.Name.Name, right, err)
				}
				name, names := signature(fn)
				formulas[name] = formula{right, expr, names}
				break
			}
		}
	}
	return formulas
}

func signature(fn *ast.FuncDecl) (name string, names []string) {
	name = fn.Name.Name
	if fn.Recv != nil {
		name = fn.Recv.List[0].Type.(*ast.Ident).Name + "." + name
		names = append(names, fn.Recv.List[0].Names[0].Name)
	}
	for _, group := range fn.Type.Params.List {
		for _, n := range group.Names {
			names = append(names, n.Name)
		}
	}
	return name, names
}

// eval computes a formula with the receiver and parameters in env.
func eval(t *testing.T, e ast.Expr, env map[string]reflect.Value) float64 {
	switch e := e.(type) {
	case *ast.BasicLit:
		v, err := strconv.ParseFloat(e.Value, 64)
		if err != nil {
			t.Fatal(err)
		}
		return v
	case *ast.Ident:
		if e.Name == "pi" {
			return math.Pi
		}
		return env[e.Name].Float()
	case *ast.SelectorExpr:
		if name := e.X.(*ast.Ident).Name + "." + e.Sel.Name; name == "units.Gn" {
			return units.Gn
		}
		return env[e.X.(*ast.Ident).Name].FieldByName(e.Sel.Name).Float()
	case *ast.ParenExpr:
		return eval(t, e.X, env)
	case *ast.BinaryExpr:
		x, y := eval(t, e.X, env), eval(t, e.Y, env)
		switch e.Op {
		case token.ADD:
			return x + y
		case token.SUB:
			return x - y
		case token.MUL:
			return x * y
		case token.QUO:
			return x / y
		}
	case *ast.CallExpr:
		x := eval(t, e.Args[0], env)
		name := e.Fun.(*ast.Ident).Name
		if one, ok := map[string]func(float64) float64{
			"sqrt": math.Sqrt, "sin": math.Sin, "cos": math.Cos, "tan": math.Tan, "asin": math.Asin,
			"acos": math.Acos, "atan": math.Atan, "exp": math.Exp, "log": math.Log, "ceil": math.Ceil,
		}[name]; ok {
			return one(x)
		}
		if two, ok := map[string]func(x, y float64) float64{
			"pow": math.Pow, "min": math.Min, "max": math.Max,
		}[name]; ok {
			return two(x, eval(t, e.Args[1], env))
		}
	}
	t.Fatalf("formula holds %T, which is not understood", e)
	return 0
}
