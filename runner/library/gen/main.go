// Gen writes what cells can import: for each package a declarations-only stub
// for the type checker and the documentation, one table of compiled symbols for
// the interpreter, and digests of the library's source: of all of it, and of what
// each function can come to.
//
//	go run ./gen [-out dir]
//
// It fails when a declaration of the library breaks a rule that the
// interpreter or the unit checker depends on. Its output is the same bytes for
// the same source.
package main

import (
	"crypto/sha256"
	"errors"
	"flag"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"sort"
	"strings"

	"golang.org/x/tools/go/packages"
)

const module = "tautline"

// allowed is what cells see of the standard library: pure functions only. A
// nil list is everything.
var allowed = map[string][]string{
	"errors": {"Is", "New"},
	"fmt":    {"Errorf", "Sprint", "Sprintf"},
	"math":   nil,
	"sort": {"Float64s", "Float64sAreSorted", "Ints", "IntsAreSorted", "Search", "SearchFloat64s",
		"SearchInts", "SearchStrings", "Slice", "SliceIsSorted", "SliceStable", "Strings", "StringsAreSorted"},
	"strconv": {"Atoi", "FormatFloat", "FormatInt", "Itoa", "ParseFloat", "ParseInt", "Quote"},
	"strings": {"Contains", "Count", "EqualFold", "Fields", "HasPrefix", "HasSuffix", "Index", "Join",
		"LastIndex", "Repeat", "Replace", "ReplaceAll", "Split", "SplitN", "ToLower", "ToUpper",
		"Trim", "TrimLeft", "TrimPrefix", "TrimRight", "TrimSpace", "TrimSuffix"},
}

func main() {
	out := flag.String("out", ".", "folder to write stubs and symbols to")
	flag.Parse()
	if err := generate(*out); err != nil {
		fmt.Fprintln(os.Stderr, err)
		os.Exit(1)
	}
}

// generate writes stubs/, symbols/, functions.txt, changes.txt and digest.go in dir.
func generate(dir string) error {
	pkgs, err := load()
	if err != nil {
		return err
	}
	files := map[string][]byte{}
	if files["functions.txt"], err = functionDigests(pkgs); err != nil { // before the stubs take the bodies off
		return err
	}
	var table []*surface
	var broken []error
	for _, p := range pkgs {
		if isInner(p.PkgPath) {
			continue
		}
		s := newSurface(p)
		broken = append(broken, s.check()...)
		text, err := s.stub()
		if err != nil {
			broken = append(broken, err)
			continue
		}
		files[filepath.Join("stubs", p.Name+".go.txt")] = text
		table = append(table, s)
	}
	if len(broken) > 0 {
		return errors.Join(broken...)
	}
	if files[filepath.Join("symbols", "symbols.go")], err = symbols(table); err != nil {
		return err
	}
	if files["digest.go"], err = digest(pkgs); err != nil {
		return err
	}
	if files["changes.txt"], err = changes(); err != nil {
		return err
	}
	return write(dir, files)
}

// digest is a Go file with the digest of every source file of the library.
func digest(pkgs []*packages.Package) ([]byte, error) {
	hash := sha256.New()
	for _, p := range pkgs {
		if !strings.HasPrefix(p.PkgPath, module+"/") {
			continue
		}
		for _, path := range slices.Sorted(slices.Values(p.GoFiles)) {
			text, err := os.ReadFile(path)
			if err != nil {
				return nil, err
			}
			fmt.Fprintf(hash, "%s/%s %d\n%s", p.PkgPath, filepath.Base(path), len(text), text)
		}
	}
	return fmt.Appendf(nil, "%spackage library\n\n"+
		"// Digest identifies the source of the library that is built in: the start of\n"+
		"// the SHA-256 of its files.\nconst Digest = %q\n", generated, fmt.Sprintf("%x", hash.Sum(nil)[:8])), nil
}

// load type-checks the packages that cells can import and all of the library,
// in the order of their import paths.
func load() ([]*packages.Package, error) {
	paths := []string{}
	for path := range allowed {
		paths = append(paths, path)
	}
	fixed := len(paths)
	config := &packages.Config{Mode: packages.NeedName | packages.NeedFiles | packages.NeedSyntax |
		packages.NeedTypes | packages.NeedTypesInfo | packages.NeedImports}
	pkgs, err := packages.Load(config, append(paths, module+"/stdlib/...")...)
	if err != nil {
		return nil, err
	}
	var kept []*packages.Package
	for _, p := range pkgs {
		if len(p.Errors) > 0 {
			return nil, fmt.Errorf("%s: %w", p.PkgPath, p.Errors[0])
		}
		kept = append(kept, p)
	}
	if len(kept) <= fixed {
		return nil, fmt.Errorf("%s/stdlib: got no package, want at least units and sheet", module)
	}
	sort.Slice(kept, func(i, j int) bool { return kept[i].PkgPath < kept[j].PkgPath })
	names := map[string]string{}
	for _, p := range kept {
		if other := names[p.Name]; other != "" {
			return nil, fmt.Errorf("package name %s: got both %s and %s, want one: cells write no import", p.Name, other, p.PkgPath)
		}
		names[p.Name] = p.PkgPath
	}
	return kept, nil
}

// write replaces the generated files in dir and removes stubs that are no
// longer made.
func write(dir string, files map[string][]byte) error {
	old, err := filepath.Glob(filepath.Join(dir, "stubs", "*.go.txt"))
	if err != nil {
		return err
	}
	for _, path := range old {
		if files[filepath.Join("stubs", filepath.Base(path))] == nil {
			if err := os.Remove(path); err != nil {
				return err
			}
		}
	}
	for name, text := range files {
		path := filepath.Join(dir, name)
		if err := os.MkdirAll(filepath.Dir(path), 0o755); err != nil {
			return err
		}
		if err := os.WriteFile(path, text, 0o644); err != nil {
			return err
		}
	}
	return nil
}

// isInner reports whether a package of the library serves the library and
// the runner alone.
func isInner(path string) bool {
	return path == module+"/stdlib/quantity" || path == module+"/stdlib/kept" || strings.Contains(path, "/internal/")
}
