package fabric_test

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

	"tautline/stdlib/fabric"
	"tautline/stdlib/units"
)

// The calls by which each documented formula is compared with its function:
// the function and sample arguments, the receiver first.
var formulaCalls = []struct {
	name string
	fn   any
	args [][]any
}{
	{"Torus.Hoop", fabric.Torus.Hoop, calls(a(torus, -1.0), a(torus, 0.4), a(torus, 7.0))},
	{"Torus.InnerEquator", fabric.Torus.InnerEquator, calls(a(torus))},
	{"Torus.Crown", fabric.Torus.Crown, calls(a(torus))},
	{"Torus.OuterEquator", fabric.Torus.OuterEquator, calls(a(torus))},
	{"Torus.Along", fabric.Torus.Along, calls(a(torus))},
	{"Torus.Surface", fabric.Torus.Surface, calls(a(torus))},
	{"Torus.Volume", fabric.Torus.Volume, calls(a(torus))},
	{"HoopTension", fabric.HoopTension, calls(a(2500.0, 0.4))},
	{"Tube.Hoop", fabric.Tube.Hoop, calls(a(tube))},
	{"Tube.Along", fabric.Tube.Along, calls(a(tube))},
	{"Tube.WrinklingMoment", fabric.Tube.WrinklingMoment, calls(a(tube))},
	{"Tube.CollapseMoment", fabric.Tube.CollapseMoment, calls(a(tube))},
	{"WallMoment", fabric.WallMoment, calls(a(130.0, 2.2))},
	{"Sphere.Tension", fabric.Sphere.Tension, calls(a(fabric.Sphere{Radius: 0.7, Pressure: 900}))},
	{"Cone.Hoop", fabric.Cone.Hoop, calls(a(cone, 0.8))},
	{"Cone.Meridian", fabric.Cone.Meridian, calls(a(cone, 0.8))},
	{"Mattress.LobeRadius", fabric.Mattress.LobeRadius, mattresses},
	{"Mattress.LobeAngle", fabric.Mattress.LobeAngle, mattresses},
	{"Mattress.LineForce", fabric.Mattress.LineForce, mattresses},
	{"Mattress.BaffleForce", fabric.Mattress.BaffleForce, mattresses},
	{"Mattress.ArcLength", fabric.Mattress.ArcLength, mattresses},
	{"Mattress.Sagitta", fabric.Mattress.Sagitta, mattresses},
	{"Mattress.CrownHeight", fabric.Mattress.CrownHeight, mattresses},
	{"Mattress.BaySection", fabric.Mattress.BaySection, mattresses},
	{"Mattress.Fullness", fabric.Mattress.Fullness, mattresses},
	{"BaffleForce", fabric.BaffleForce, calls(a(1500.0, 0.4, 0.7))},
	{"Lobe.LineForce", fabric.Lobe.LineForce, calls(a(lobe))},
	{"Lobe.HalfAngle", fabric.Lobe.HalfAngle, calls(a(lobe))},
	{"Lobe.ArcLength", fabric.Lobe.ArcLength, calls(a(lobe))},
	{"Lobe.Rise", fabric.Lobe.Rise, calls(a(lobe))},
	{"DoubleLobe.LargeForce", fabric.DoubleLobe.LargeForce, calls(a(doubleLobe))},
	{"DoubleLobe.SmallForce", fabric.DoubleLobe.SmallForce, calls(a(doubleLobe))},
	{"Tufts.TieForce", fabric.Tufts.TieForce, calls(a(fabric.Tufts{Along: 0.5, Across: 0.6, Pressure: 1500}))},
	{"OpenDome.RimForce", fabric.OpenDome.RimForce, calls(a(dome))},
	{"OpenDome.Uplift", fabric.OpenDome.Uplift, calls(a(dome))},
	{"Seam.Strength", fabric.Seam.Strength, calls(a(seam))},
	{"Seam.Efficiency", fabric.Seam.Efficiency, calls(a(seam, 37e3), a(seam, 20e3))},
	{"StripStrength", fabric.StripStrength, calls(a(1850.0, 0.05))},
	{"Allowable", fabric.Allowable, calls(a(37e3, 0.6, 5.0))},
	{"LargestTube", fabric.LargestTube, calls(a(4440.0, 2500.0))},
	{"LargestSphere", fabric.LargestSphere, calls(a(4440.0, 2500.0))},
	{"CutLength", fabric.CutLength, calls(a(2.0, 0.012), a(2.0, -0.012))},
	{"AirDensity", fabric.AirDensity, calls(a(101325.0, 288.15))},
	{"StandardPressure", fabric.StandardPressure, calls(a(1500.0), a(-200.0))},
	{"SealedTube.PressureAt", fabric.SealedTube.PressureAt,
		calls(a(fabric.SealedTube{Fill: 2e4, Temperature: 293, Ambient: 101325}, 310.0, 9e4))},
	{"Orifice.FlowAt", fabric.Orifice.FlowAt, calls(a(orifice, 1000.0))},
	{"Orifice.PressureLossTime", fabric.Orifice.PressureLossTime, calls(a(orifice, 50.0, 1000.0, 300.0, 101325.0))},
	{"Orifice.EmptyTime", fabric.Orifice.EmptyTime, calls(a(orifice, 50.0, 6.4))},
	{"WeightPressure", fabric.WeightPressure, calls(a(0.65))},
	{"SeamLeak.FlowAt", fabric.SeamLeak.FlowAt, calls(a(fabric.SeamLeak{Flow: 0.2, At: 50, Exponent: 0.65}, 1000.0))},
	{"Point.AirPower", fabric.Point.AirPower, calls(a(point))},
	{"Point.ShaftPower", fabric.Point.ShaftPower, calls(a(point, 0.45))},
	{"Point.TemperatureRise", fabric.Point.TemperatureRise, calls(a(point, 1.2, 0.45))},
}

var (
	torus      = fabric.Torus{Radius: 1.5, Tube: 0.4, Pressure: 2500}
	tube       = fabric.Tube{Radius: 0.3, Pressure: 2000}
	cone       = fabric.Cone{HalfAngle: 0.5, Pressure: 1500}
	lobe       = fabric.Lobe{Chord: 0.5, Radius: 0.4, Pressure: 1500}
	doubleLobe = fabric.DoubleLobe{Large: 0.6, Small: 0.4, Web: 0.6, Pressure: 2000}
	dome       = fabric.OpenDome{Radius: 3, Pressure: 300}
	seam       = fabric.Seam{Rows: 2, Thread: 88, Pitch: 0.005, Loss: 0.1}
	orifice    = fabric.Orifice{Discharge: 0.61, Area: 0.001, Density: 1.2}
	point      = fabric.Point{Flow: 0.37, Pressure: 1500}
	mattresses = calls(
		a(fabric.Mattress{Pitch: 0.5, Height: 1, Pressure: 1500}),
		a(fabric.Mattress{Pitch: 0.9, Height: 0.4, Pressure: 800}))
)

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
