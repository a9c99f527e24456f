package anchoring_test

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

	"tautline/stdlib/anchoring"
	"tautline/stdlib/units"
)

// The calls by which each documented formula is compared with its function:
// the function and sample arguments, the receiver first.
var formulaCalls = []struct {
	name string
	fn   any
	args [][]any
}{
	{"Wind.Pressure", anchoring.Wind.Pressure, calls(a(wind))},
	{"Wind.FacePressure", anchoring.Wind.FacePressure, calls(a(wind))},
	{"Wind.Force", anchoring.Wind.Force, calls(a(wind, 15.0))},
	{"WindPressure", anchoring.WindPressure, calls(a(1.25, 24.0))},
	{"WindAtHeight", anchoring.WindAtHeight, calls(a(6.0, 2.0, 10.0, 0.03), a(6.0, 10.0, 2.0, 0.3))},
	{"WindAtHeightByPower", anchoring.WindAtHeightByPower, calls(a(6.0, 2.0, 10.0, 0.14))},
	{"TurbulenceIntensity", anchoring.TurbulenceIntensity, calls(a(10.0, 0.05))},
	{"GustRatio", anchoring.GustRatio, calls(a(0.19))},
	{"BeaufortSpeed", anchoring.BeaufortSpeed, calls(a(5.0))},
	{"AnchorsPerFace", anchoring.AnchorsPerFace, calls(a(1804.7, 1.5, 1600.0), a(3200.0, 1.0, 1600.0))},
	{"AnchorsInAll", anchoring.AnchorsInAll, calls(a(2.0, 3.0, 6.0), a(1.0, 1.0, 6.0))},
	{"BallastWeight", anchoring.BallastWeight, straps(1600.0)},
	{"BallastMass", anchoring.BallastMass, straps(1600.0)},
	{"SlipTension", anchoring.SlipTension, straps(1598.0)},
	{"LiftTension", anchoring.LiftTension, calls(a(1598.0, 0.6))},
	{"WorstStrapAngle", anchoring.WorstStrapAngle, calls(a(0.4))},
	{"Block.Face", anchoring.Block.Face, calls(a(block))},
	{"Block.OverturningMoment", anchoring.Block.OverturningMoment, calls(a(block, 1700.0, factors))},
	{"Block.RightingMoment", anchoring.Block.RightingMoment, calls(a(block, factors))},
	{"Block.SlidingForce", anchoring.Block.SlidingForce, calls(a(block, 1700.0, factors))},
	{"Block.FrictionForce", anchoring.Block.FrictionForce, calls(a(block, 0.4, factors))},
	{"Block.OverturningTension", anchoring.Block.OverturningTension,
		calls(a(block, 1700.0, 0.7, factors), a(block, 100.0, 0.7, factors))},
	{"Block.SlidingTension", anchoring.Block.SlidingTension,
		calls(a(block, 1700.0, 0.3, 0.7, factors), a(block, 100.0, 0.3, 0.7, factors))},
	{"SlopeAngle", anchoring.SlopeAngle, calls(a(0.05), a(-0.1))},
	{"BridleLeg", anchoring.BridleLeg, calls(a(1000.0, 0.3, 0.9))},
}

var (
	wind    = anchoring.Wind{Density: 1.24, Speed: 11.1, Coefficient: 1.5}
	block   = anchoring.Block{Width: 5, Height: 3, Depth: 4, Mass: 150}
	factors = anchoring.EquilibriumFactors()
)

func straps(force float64) [][]any {
	return calls(a(force, 0.0, 0.4), a(force, 0.7, 0.4), a(force, 1.5, 0.2))
}

func a(args ...any) []any         { return args }
func calls(args ...[]any) [][]any { return args }

// A report typesets the formula line of a comment and puts the numbers in, so
// each must be what the code computes. Rounding may differ in the last digits.
func TestFormulaLines(t *testing.T) {
	formulas := readFormulas(t)
	for _, c := range formulaCalls {
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
			"sqrt": math.Sqrt, "sin": math.Sin, "cos": math.Cos, "asin": math.Asin,
			"atan": math.Atan, "log": math.Log, "ceil": math.Ceil,
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
