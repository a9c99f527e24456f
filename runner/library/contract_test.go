package library

import (
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
)

// Whatever gives a quantity says what it rests on: a published text, or that it is
// a definition, derived here, measured or common practice.
func TestQuantitiesHaveSources(t *testing.T) {
	quantities := 0
	for _, p := range Packages() {
		if !strings.HasPrefix(p.Path, "tautline/") || p.Name == "sheet" || p.Name == "units" {
			continue // these compute nothing
		}
		for _, e := range Symbols(p.Path) {
			if e.Kind != Function && e.Kind != Method || !strings.Contains(results(e.Signature), "units.") {
				continue
			}
			quantities++
			f, ok := Doc(p.Path, e.Name)
			if !ok || f.Source == "" {
				t.Errorf("%s.%s gives a quantity and names no source: add a line Source: to its comment", p.Name, e.Name)
			}
		}
	}
	if quantities < 350 {
		t.Fatalf("got %d functions that give a quantity: the library has more", quantities)
	}
}

// Every package that cells can import shows its use in an example that runs.
func TestPackagesHaveExamples(t *testing.T) {
	for _, p := range Packages() {
		folder, ours := strings.CutPrefix(p.Path, "tautline/")
		if !ours {
			continue
		}
		files, err := filepath.Glob(filepath.Join("../..", folder, "*_test.go"))
		if err != nil {
			t.Fatal(err)
		}
		if !slices.ContainsFunc(files, func(file string) bool {
			text, err := os.ReadFile(file)
			return err == nil && strings.Contains(string(text), "\nfunc Example")
		}) {
			t.Errorf("package %s has no example: write one, with its output, in %s/example_test.go", p.Name, folder)
		}
	}
}
