package check

import (
	"go/ast"
	"slices"
)

// maxFields is the most fields that a type may hold, all in all. Types in types
// multiply, and go/types walks through each of them.
const maxFields = 10_000

// sizes refuses types that hold too much.
func (g *program) sizes() {
	s := sizer{types: map[string][]ast.Expr{}, known: map[string]int{}}
	var specs []*ast.TypeSpec
	for _, d := range g.file.Decls {
		ast.Inspect(d, func(n ast.Node) bool {
			if spec, ok := n.(*ast.TypeSpec); ok {
				specs = append(specs, spec)
				s.types[spec.Name.Name] = append(s.types[spec.Name.Name], spec.Type)
			}
			return true
		})
	}
	for _, spec := range specs {
		if s.name(spec.Name.Name) > maxFields {
			g.report(g.plan.Range(spec.Name), "put what repeats into a slice",
				"type %s: got more than %d fields with those of the types in it, want fewer", spec.Name.Name, maxFields)
			return // a type that holds it is no better
		}
	}
}

// A sizer counts the fields in types, by name.
type sizer struct {
	types map[string][]ast.Expr // several when functions have types of one name
	known map[string]int
	open  []string // being counted
}

func (s *sizer) name(name string) int {
	if n, ok := s.known[name]; ok {
		return n
	}
	if slices.Contains(s.open, name) {
		return 1 // it holds itself, which go/types reports
	}
	s.open = append(s.open, name)
	size := 1
	for _, t := range s.types[name] {
		size = max(size, s.size(t))
	}
	s.open = s.open[:len(s.open)-1]
	s.known[name] = size
	return size
}

func (s *sizer) size(e ast.Expr) int {
	switch e := e.(type) {
	case *ast.Ident:
		return s.name(e.Name)
	case *ast.ParenExpr:
		return s.size(e.X)
	case *ast.ArrayType:
		return s.size(e.Elt)
	case *ast.StructType:
		sum := 0
		for _, f := range e.Fields.List {
			sum = min(sum+max(1, len(f.Names))*s.size(f.Type), maxFields+1)
		}
		return sum
	}
	return 1
}
