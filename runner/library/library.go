// Package library is what cells can import: the packages of tautline's own
// library and a short list of pure functions of the standard library.
//
//	importer := library.Importer(token.NewFileSet())
//	fabric, _ := importer.Import("tautline/stdlib/fabric")
//	f, _ := library.Doc("tautline/stdlib/fabric", "Torus.InnerEquator")
//	fmt.Println(f.Formula, f.Source)
//
// The generator reads the library's source and writes a stub of each package:
// its declarations without bodies, with alias names and comments kept. The type
// checker, the documentation and the report's formulas and sources all read
// the stubs, so a built runner needs neither a Go tool nor the source. Folder
// symbols holds the compiled side for the interpreter, written from the same
// declarations.
package library

import (
	"embed"
	"fmt"
	"go/ast"
	"go/parser"
	"go/token"
	"go/types"
	"path"
	"sort"
	"strconv"
	"strings"
	"sync"
)

//go:generate go run ./gen

//go:embed stubs
var stubs embed.FS

// A Package that cells can import.
type Package struct {
	Name     string // in cells; no two packages share one
	Path     string // import path
	Synopsis string // first sentence of its documentation
}

// Packages lists every package, by import path.
func Packages() []Package {
	var list []Package
	for _, s := range all() {
		list = append(list, s.Package)
	}
	sort.Slice(list, func(i, j int) bool { return list[i].Path < list[j].Path })
	return list
}

// Path returns the import path of the package that cells know by name.
func Path(name string) (string, bool) {
	for path, s := range all() {
		if s.Name == name {
			return path, true
		}
	}
	return "", false
}

// A stub is the embedded source of one package.
type stub struct {
	Package
	text string
	docs func() *docs // parsed when first asked for
}

// all returns the stubs by import path.
var all = sync.OnceValue(func() map[string]*stub {
	entries, err := stubs.ReadDir("stubs")
	if err != nil {
		panic(err)
	}
	found := make(map[string]*stub, len(entries))
	for _, e := range entries {
		text, err := stubs.ReadFile(path.Join("stubs", e.Name()))
		if err != nil {
			panic(err)
		}
		s := newStub(string(text))
		found[s.Path] = s
	}
	return found
})

// newStub reads the head of a stub: package comment, package clause and import
// comment.
func newStub(text string) *stub {
	head, rest, _ := strings.Cut(text, "\npackage ")
	clause, _, _ := strings.Cut(rest, "\n")
	name, quoted, _ := strings.Cut(clause, " // import ")
	importPath, err := strconv.Unquote(quoted)
	if err != nil {
		panic(fmt.Sprintf("library: package %s: %v", name, err))
	}
	_, doc, _ := strings.Cut(head, "\n\n") // the mark of generated code stands first
	s := &stub{Package: Package{name, importPath, firstSentence(uncomment(doc))}, text: text}
	s.docs = sync.OnceValue(func() *docs { return readDocs(s) })
	return s
}

// Importer returns an importer of the packages that cells can import. It
// checks a package when first asked for it and keeps it, so one importer may
// serve many notebooks. It is safe for use by many goroutines at once.
func Importer(fset *token.FileSet) types.Importer {
	return &importer{fset: fset, packages: map[string]*types.Package{}}
}

type importer struct {
	fset     *token.FileSet
	mu       sync.Mutex
	packages map[string]*types.Package
}

// Import returns the package of an import path.
func (im *importer) Import(path string) (*types.Package, error) {
	im.mu.Lock()
	defer im.mu.Unlock()
	return im.load(path)
}

func (im *importer) load(path string) (*types.Package, error) {
	if p := im.packages[path]; p != nil {
		return p, nil
	}
	s := all()[path]
	if s == nil {
		return nil, fmt.Errorf("package %q: cells cannot import it: they can import %s", path, known())
	}
	file, err := parser.ParseFile(im.fset, path+".go", s.text, parser.SkipObjectResolution)
	if err != nil {
		return nil, fmt.Errorf("library: %w", err)
	}
	config := types.Config{IgnoreFuncBodies: true, Importer: importFunc(im.load)}
	p, err := config.Check(path, im.fset, []*ast.File{file}, nil)
	if err != nil {
		return nil, fmt.Errorf("library: %w", err)
	}
	im.packages[path] = p
	return p, nil
}

type importFunc func(path string) (*types.Package, error)

func (f importFunc) Import(path string) (*types.Package, error) { return f(path) }

// known names all packages, for an error.
func known() string {
	var names []string
	for _, p := range Packages() {
		names = append(names, p.Name)
	}
	return strings.Join(names, ", ")
}
