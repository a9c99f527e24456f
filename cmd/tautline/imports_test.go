package main

import (
	"encoding/json"
	"io"
	"os/exec"
	"strings"
	"testing"
)

// banned lists the arrows that the design forbids, and why. A name ending in
// /... is a whole tree.
var banned = []struct{ from, to, why string }{
	{"stdlib/...", "runner/...", "the library is an ordinary Go library: it must be of use without the runner"},
	{"stdlib/...", "render/...", "the library computes; how a number looks is not its matter"},
	{"stdlib/...", "cmd/...", "nothing depends on the command"},
	{"runner/document/...", "runner/...", "the document is a leaf that runner and render share"},
	{"runner/document/...", "stdlib/...", "the document knows Markdown, not units"},
	{"runner/check/...", "runner/lower/...", "data flows from check to lower"},
	{"runner/check/...", "runner/engine", "data flows from check to engine"},
	{"runner/check/tree", "runner/check/owner", "the tree is what is checked"},
	{"runner/check/tree", "runner/check/dimension", "the tree is what is checked"},
	{"runner/check/tree", "runner/check/graph", "the tree is what is checked"},
	{"runner/check/owner", "runner/check/dimension", "what belongs to which cell does not hang on units"},
	{"runner/check/dimension", "runner/check/owner", "what has which unit does not hang on cells"},
	{"runner/check/graph", "runner/check/dimension", "what rests on what does not hang on units"},
	{"runner/lower/subset", "runner/lower", "what a cell may use is known before anything is lowered"},
	{"runner/lower/...", "runner/engine", "data flows from lower to engine"},
	{"runner/outcome", "runner/engine", "an outcome is plain data"},
	{"runner/...", "render/...", "a run does not know how it is shown"},
	{"runner/...", "cmd/...", "nothing depends on the command"},
	{"render/...", "runner/engine", "the renderer never sees the interpreter"},
	{"render/...", "runner/record", "the renderer is told how a notebook stands, and knows nothing of keys"},
	{"render/...", "golang.org/x/crypto/...", "the renderer is told how a notebook stands, and knows nothing of keys"},
	{"runner/record/content", "runner/record", "what a run gave is there before anybody signs it"},
	{"runner/record/content", "golang.org/x/crypto/...", "what a run gave knows nothing of keys"},
	{"runner/live", "runner/record", "the desk is told what was signed by who prints its pages"},
	{"runner/trial", "runner/...", "a reading is a leaf that runner and render share"},
	{"render/...", "cmd/...", "nothing depends on the command"},
	{"render/...", "runner/record/...", "the renderer is given what was signed as plain data"},
	{"render/...", "golang.org/x/crypto/...", "the renderer signs nothing"},
	{"runner/live", "runner/record/...", "the desk shows what it is given"},
	{"render/chart", "runner/...", "a picture knows numbers, not notebooks"},
	{"render/drawing", "runner/...", "a picture knows shapes, not notebooks"},
	{"render/report", "runner/check/...", "a report does not know how it was computed"},
	{"render/page", "runner/check/...", "a page is written from a report alone"},
	{"render/page", "render/assembly", "a page is written from a report alone"},
	{"render/assembly", "render/page", "what a report says does not rest on how it looks"},
	{"render/sensitivity", "render/page", "what a study says does not rest on how it looks"},
	{"render/working", "render/report", "a line is worked wherever it stands"},
	{"render/mathml", "runner/...", "an expression is set without a notebook"},
	{"render/tex", "runner/...", "a formula is set without a notebook"},
	{"render/...", "render/sample", "the sample is for tests"},
	{"render/...", "render/mathml/core", "reading MathML back is for tests"},
	{"cmd/...", "render/sample", "the sample is for tests"},
	{"render/...", "github.com/traefik/yaegi/...", "the renderer never sees the interpreter"},
	{"runner/check/...", "github.com/traefik/yaegi/...", "checking needs no interpreter"},
}

// Every package keeps to the one-way flow, through all that it imports.
func TestImports(t *testing.T) {
	out, err := exec.Command("go", "list", "-deps", "-json=ImportPath,Name,Deps", "tautline/...").Output()
	if err != nil {
		t.Fatal(err)
	}
	const module = "tautline/"
	seen := map[string]bool{}
	for dec := json.NewDecoder(strings.NewReader(string(out))); ; {
		var p struct {
			ImportPath, Name string
			Deps             []string
		}
		if err := dec.Decode(&p); err == io.EOF {
			break
		} else if err != nil {
			t.Fatal(err)
		}
		if command, ok := strings.CutPrefix(p.ImportPath, module+"cmd/"); ok && !strings.Contains(command, "/") && p.Name != "main" {
			t.Errorf("%s is package %s, which go run cannot run: want main", p.ImportPath, p.Name)
		}
		for _, rule := range banned {
			if !within(p.ImportPath, module+rule.from) {
				continue
			}
			seen[rule.from] = true
			for _, dep := range p.Deps {
				if own := strings.TrimSuffix(rule.from, "/..."); within(own, rule.to) && within(dep, module+own+"/...") {
					continue // what stands in its own folder is part of it
				}
				if within(dep, module+rule.to) || within(dep, rule.to) {
					t.Errorf("%s depends on %s: %s", p.ImportPath, dep, rule.why)
				}
			}
		}
	}
	for _, rule := range banned {
		if !seen[rule.from] {
			t.Errorf("no package is %s: the rule guards nothing", rule.from)
		}
	}
}

func within(path, pattern string) bool {
	tree, ok := strings.CutSuffix(pattern, "/...")
	return path == pattern || ok && (path == tree || strings.HasPrefix(path, tree+"/"))
}
