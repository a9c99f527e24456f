package quantity

import (
	"go/ast"
	"go/constant"
	"go/importer"
	"go/parser"
	"go/token"
	"go/types"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// unitsPackage type-checks the source of package units.
func unitsPackage(t *testing.T) *types.Package {
	t.Helper()
	names, err := filepath.Glob("../units/*.go")
	if err != nil {
		t.Fatal(err)
	}
	fset := token.NewFileSet()
	var files []*ast.File
	for _, name := range names {
		if strings.HasSuffix(name, "_test.go") {
			continue
		}
		src, err := os.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		f, err := parser.ParseFile(fset, name, src, 0)
		if err != nil {
			t.Fatal(err)
		}
		files = append(files, f)
	}
	conf := types.Config{Importer: importer.ForCompiler(fset, "source", nil)}
	pkg, err := conf.Check("tautline/stdlib/units", fset, files, nil)
	if err != nil {
		t.Fatal(err)
	}
	return pkg
}

// TestTablesCoverUnits holds the tables here to the source of package units:
// each alias has a dimension, each constant a unit with its value and the
// dimension of its alias, and nothing here is without its counterpart there.
func TestTablesCoverUnits(t *testing.T) {
	scope := unitsPackage(t).Scope()
	byCode := map[string][]Unit{}
	for _, u := range Units() {
		byCode[u.Code] = append(byCode[u.Code], u)
	}
	aliases, constants := 0, 0
	for _, name := range scope.Names() {
		switch obj := scope.Lookup(name).(type) {
		case *types.TypeName:
			aliases++
			_, ok := OfAlias(name)
			if want := name != "Same" && name != "Any"; ok != want {
				t.Errorf("OfAlias(%q): got %v, want %v", name, ok, want)
			}
		case *types.Const:
			constants++
			alias, ok := obj.Type().(*types.Alias)
			if !ok {
				t.Errorf("units.%s: got type %s, want an alias", name, obj.Type())
				continue
			}
			value, _ := constant.Float64Val(obj.Val())
			checkConstant(t, name, alias.Obj().Name(), value, byCode["units."+name])
			delete(byCode, "units."+name)
		default:
			t.Errorf("units.%s: got %T, want an alias or a constant", name, obj)
		}
	}
	if aliases == 0 || constants == 0 {
		t.Fatalf("package units: got %d aliases and %d constants, want some", aliases, constants)
	}
	for code := range byCode {
		if code != "" {
			t.Errorf("table: %s is no constant of package units", code)
		}
	}
	for _, k := range kinds {
		if k.alias != "" && scope.Lookup(k.alias) == nil {
			t.Errorf("kinds: %s is no alias of package units", k.alias)
		}
	}
}

func checkConstant(t *testing.T, name, alias string, value float64, us []Unit) {
	t.Helper()
	if len(us) == 0 {
		t.Errorf("units.%s: no unit in the table", name)
	}
	want, _ := OfAlias(alias)
	for _, u := range us {
		got := u.Factor
		if u.Offset != 0 {
			got = u.Offset
		}
		if got != value {
			t.Errorf("unit %s: got %g, want units.%s = %g", u.Symbol, got, name, value)
		}
		if u.Dimension != want {
			t.Errorf("unit %s: got dimension %s, want %s of %s", u.Symbol, u.Dimension, want, alias)
		}
	}
}

// TestAliasesAgreeWithTheirComments compares each dimension with the SI unit
// that the comment beside the alias in package units names.
func TestAliasesAgreeWithTheirComments(t *testing.T) {
	f, err := parser.ParseFile(token.NewFileSet(), "../units/units.go", nil, parser.ParseComments)
	if err != nil {
		t.Fatal(err)
	}
	compared := 0
	ast.Inspect(f, func(n ast.Node) bool {
		spec, ok := n.(*ast.TypeSpec)
		if !ok || spec.Comment == nil {
			return true
		}
		symbol, _, _ := strings.Cut(strings.TrimSpace(spec.Comment.Text()), ":")
		symbol, _, _ = strings.Cut(symbol, ",")
		if symbol == "ohm" {
			symbol = "Ω"
		}
		u, ok := Lookup(symbol)
		d, _ := OfAlias(spec.Name.Name)
		if !ok || u.Factor != 1 || !u.Dimension.Equal(d) {
			t.Errorf("units.%s // %s: dimension %s does not have that SI unit", spec.Name.Name, symbol, d)
		}
		compared++
		return true
	})
	if compared < 30 {
		t.Errorf("aliases with a unit beside them: got %d, want all", compared)
	}
}
