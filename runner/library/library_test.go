package library

import (
	"bytes"
	"go/ast"
	"go/parser"
	"go/token"
	"go/types"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"sync"
	"testing"

	"tautline/runner/library/symbols"
	"tautline/stdlib/sheet"
)

// The committed files must be what the generator makes of the library today.
func TestGenerated(t *testing.T) {
	dir := t.TempDir()
	if out, err := exec.Command("go", "run", "./gen", "-out", dir).CombinedOutput(); err != nil {
		t.Fatalf("go run ./gen: %v\n%s", err, out)
	}
	want := tree(t, dir)
	got := tree(t, ".")
	for name, text := range want {
		if !bytes.Equal(got[name], text) {
			t.Errorf("%s: not what the generator writes: run go generate ./runner/library", name)
		}
	}
	for name := range got {
		if want[name] == nil {
			t.Errorf("%s: the generator does not write it", name)
		}
	}
}

// tree reads the generated files under dir.
func tree(t *testing.T, dir string) map[string][]byte {
	files := map[string][]byte{}
	for _, pattern := range []string{"stubs/*", "symbols/*.go", "*.txt", "digest.go"} {
		paths, err := filepath.Glob(filepath.Join(dir, pattern))
		if err != nil || len(paths) == 0 {
			t.Fatalf("%s: got %d files, error %v, want at least one", pattern, len(paths), err)
		}
		for _, path := range paths {
			text, err := os.ReadFile(path)
			if err != nil {
				t.Fatal(err)
			}
			name, err := filepath.Rel(dir, path)
			if err != nil {
				t.Fatal(err)
			}
			files[name] = text
		}
	}
	return files
}

// Every function and type that the checker accepts must be in the
// interpreter's table, and nothing else.
func TestSymbolsMatchStubs(t *testing.T) {
	table := symbols.Exports(&sheet.Sheet{})
	im := Importer(token.NewFileSet())
	for _, p := range Packages() {
		checked, err := im.Import(p.Path)
		if err != nil {
			t.Fatal(err)
		}
		key := p.Path + "/" + p.Name
		if p.Name == "fmt" {
			key = "./" + key
		}
		linked, ok := table[key]
		if !ok {
			t.Errorf("%s: not in the table", key)
		}
		scope := checked.Scope()
		for _, name := range scope.Names() {
			if needsSymbol(scope.Lookup(name)) && !linked[name].IsValid() {
				t.Errorf("%s.%s: in the stub, not in the table", p.Name, name)
			}
		}
		for name := range linked {
			if scope.Lookup(name) == nil {
				t.Errorf("%s.%s: in the table, not in the stub", p.Name, name)
			}
		}
	}
	if len(table) != len(Packages()) {
		t.Errorf("got %d packages in the table, want %d", len(table), len(Packages()))
	}
}

func needsSymbol(obj types.Object) bool {
	switch obj := obj.(type) {
	case *types.Func:
		return obj.Signature().TypeParams().Len() == 0 // sheet.Must is lowered away
	case *types.TypeName:
		_, basic := obj.Type().Underlying().(*types.Basic)
		return !obj.IsAlias() || !basic
	}
	return false
}

// check type-checks the body of a function that uses the library.
func check(im types.Importer, fset *token.FileSet, imports, body string) (*types.Package, error) {
	file, err := parser.ParseFile(fset, "cell.go", "package cell\n"+imports+"\n"+body, parser.SkipObjectResolution)
	if err != nil {
		return nil, err
	}
	config := types.Config{Importer: im}
	return config.Check("cell", fset, []*ast.File{file}, nil)
}

func TestImporterKeepsAliases(t *testing.T) {
	fset := token.NewFileSet()
	p, err := check(Importer(fset), fset, `import ("math"; "tautline/stdlib/sheet"; "tautline/stdlib/units")`, `
var p = 2 * units.KPa
var d = sheet.ReadData("fan.csv").Column("pressure Pa", units.Pa)
const third = math.Pi / 3
var r = sheet.Must(math.Sqrt(p), error(nil))`)
	if err != nil {
		t.Fatal(err)
	}
	for name, want := range map[string]string{
		"p": "tautline/stdlib/units.Pressure", "d": "[]tautline/stdlib/units.Same", "r": "float64", "third": "untyped float",
	} {
		if got := p.Scope().Lookup(name).Type().String(); got != want {
			t.Errorf("type of %s: got %s, want %s", name, got, want)
		}
	}
}

func TestImporterRefuses(t *testing.T) {
	fset := token.NewFileSet()
	im := Importer(fset)
	for _, c := range []struct{ imports, body, want string }{
		{`import "os"`, `var x = os.Args`, `cells cannot import it`},
		{`import "fmt"`, `func f() { fmt.Println() }`, "undefined: fmt.Println"},
		{`import "tautline/stdlib/sheet"`, `var s sheet.Sheet`, "undefined: sheet.Sheet"},
		{`import "tautline/stdlib/sheet"`, `var f = sheet.Figure{"", "", "", struct{}{}}`, "implicit assignment to unexported field _"},
		{`import "tautline/stdlib/sheet"`, `var c = (&sheet.Figure{}).Curves`, "Curves"},
		{`import "tautline/stdlib/sheet"`, `var same = sheet.Figure{} == sheet.Figure{}`, "cannot be compared"},
	} {
		_, err := check(im, fset, c.imports, c.body)
		if err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%s; %s: got error %v, want one with %q", c.imports, c.body, err, c.want)
		}
	}
}

func TestImporterIsShared(t *testing.T) {
	fset := token.NewFileSet()
	im := Importer(fset)
	var group sync.WaitGroup
	for range 8 {
		group.Go(func() {
			_, err := check(im, fset, `import ("tautline/stdlib/sheet"; "tautline/stdlib/units")`,
				`func f() { sheet.AtMost("p", units.KPa, units.Bar); t := sheet.NewTable("t"); t.Column("p", []units.Any{units.Pa}) }`)
			if err != nil {
				t.Error(err)
			}
		})
	}
	group.Wait()
}

func BenchmarkImportCold(b *testing.B) {
	for b.Loop() {
		im := Importer(token.NewFileSet())
		for _, path := range []string{"math", "tautline/stdlib/units", "tautline/stdlib/sheet", "tautline/stdlib/fabric"} {
			if _, err := im.Import(path); err != nil {
				b.Fatal(err)
			}
		}
	}
}
