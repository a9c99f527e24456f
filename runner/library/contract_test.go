package library

import (
	"os"
	"path/filepath"
	"regexp"
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

// Every noun of every package, a struct with methods that compute or draw, is shown in
// an example of its package that runs: the example names it, or calls what gives it.
// A struct without methods is what another gives or takes, and shown with that.
func TestNounsHaveExamples(t *testing.T) {
	nouns := 0
	for _, p := range Packages() {
		folder, ours := strings.CutPrefix(p.Path, "tautline/")
		if !ours {
			continue
		}
		examples := examplesIn(t, filepath.Join("../..", folder))
		if examples == "" {
			t.Errorf("package %s has no example: write one, with its output, in %s/example_test.go", p.Name, folder)
			continue
		}
		for _, e := range Symbols(p.Path) {
			if e.Kind != Type || !strings.Contains(e.Signature, " struct") || !works(Methods(p.Path, e.Name)) {
				continue
			}
			nouns++
			named := regexp.MustCompile(`\b` + p.Name + `\.` + e.Name + `\b|func Example` + e.Name + `(_|\()`)
			given := slices.ContainsFunc(Makers(p.Path, e.Name), func(m Entry) bool {
				return strings.Contains(examples, "."+m.Name[strings.LastIndexByte(m.Name, '.')+1:]+"(")
			})
			if !named.MatchString(examples) && !given {
				t.Errorf("%s.%s has no example: write Example%s, with its output, in %s/example_test.go", p.Name, e.Name, e.Name, folder)
			}
		}
	}
	if nouns < 150 {
		t.Fatalf("got %d nouns: the library has more", nouns)
	}
}

// works reports whether methods do more than check a value.
func works(methods []Entry) bool {
	return slices.ContainsFunc(methods, func(m Entry) bool {
		return !strings.HasSuffix(m.Name, ".Check") && !strings.HasSuffix(m.Name, ".Warnings")
	})
}

var example = regexp.MustCompile(`(?s)\nfunc Example.*?\n}\n`)

// examplesIn is the text of the examples in a folder's tests that run: they have an
// output.
func examplesIn(t *testing.T, folder string) string {
	files, err := filepath.Glob(filepath.Join(folder, "*_test.go"))
	if err != nil {
		t.Fatal(err)
	}
	var all strings.Builder
	for _, file := range files {
		text, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		for _, one := range example.FindAllString(string(text), -1) {
			if strings.Contains(one, "// Output:") {
				all.WriteString(one)
			}
		}
	}
	return all.String()
}
