package tree

import (
	"go/ast"
	"go/token"
	"slices"
)

// The most that a type may hold, all in all, and that a constant text may be
// long. Types in types and texts of texts multiply, and go/types works through
// each of them.
const (
	maxFields = 10_000
	maxText   = 1 << 20
)

// sizes refuses types and constants that are too large to be worked through.
func (g *program) sizes() {
	fields := sizer{of: fieldCount, most: maxFields, names: map[string][]ast.Expr{}, known: map[string]int{}}
	texts := sizer{of: textLength, most: maxText, names: map[string][]ast.Expr{}, known: map[string]int{}}
	var types, constants []*ast.Ident
	for _, d := range g.file.Decls {
		ast.Inspect(d, func(n ast.Node) bool {
			switch n := n.(type) {
			case *ast.TypeSpec:
				types = append(types, n.Name)
				fields.names[n.Name.Name] = append(fields.names[n.Name.Name], n.Type)
			case *ast.GenDecl:
				for _, s := range n.Specs {
					if spec, ok := s.(*ast.ValueSpec); ok && n.Tok == token.CONST {
						constants = append(constants, spec.Names...)
						for i := range min(len(spec.Names), len(spec.Values)) {
							name := spec.Names[i].Name
							texts.names[name] = append(texts.names[name], spec.Values[i])
						}
					}
				}
			}
			return true
		})
	}
	for _, id := range types {
		if fields.name(id.Name) > maxFields {
			g.report(g.tree.Range(id), "put what repeats into a slice",
				"type %s: got more than %d fields with those of the types in it, want fewer", id.Name, maxFields)
			break // a type that holds it is no better
		}
	}
	for _, id := range constants {
		if texts.name(id.Name) > maxText {
			g.report(g.tree.Range(id), "", "constant %s: got a text of more than %d bytes, want a shorter one", id.Name, maxText)
			break
		}
	}
}

// A sizer measures what names stand for.
type sizer struct {
	of    func(s *sizer, e ast.Expr) int
	most  int                   // where counting may stop
	names map[string][]ast.Expr // several when functions have a name of their own
	known map[string]int
	open  []string // being measured
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
	for _, e := range s.names[name] {
		size = max(size, min(s.of(s, e), s.most+1))
	}
	s.open = s.open[:len(s.open)-1]
	s.known[name] = size
	return size
}

func fieldCount(s *sizer, e ast.Expr) int {
	switch e := e.(type) {
	case *ast.Ident:
		return s.name(e.Name)
	case *ast.ParenExpr:
		return fieldCount(s, e.X)
	case *ast.ArrayType:
		return fieldCount(s, e.Elt)
	case *ast.StructType:
		sum := 0
		for _, f := range e.Fields.List {
			sum = min(sum+max(1, len(f.Names))*fieldCount(s, f.Type), s.most+1)
		}
		return sum
	}
	return 1
}

func textLength(s *sizer, e ast.Expr) int {
	switch e := e.(type) {
	case *ast.Ident:
		return s.name(e.Name)
	case *ast.ParenExpr:
		return textLength(s, e.X)
	case *ast.BasicLit:
		return len(e.Value)
	case *ast.BinaryExpr:
		if e.Op == token.ADD {
			return min(textLength(s, e.X)+textLength(s, e.Y), s.most+1)
		}
	case *ast.CallExpr: // a conversion
		if len(e.Args) == 1 {
			return textLength(s, e.Args[0])
		}
	}
	return 1
}
