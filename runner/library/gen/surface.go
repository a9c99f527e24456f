package main

import (
	"go/ast"
	"go/types"
	"path/filepath"
	"slices"
	"sort"
	"strings"

	"golang.org/x/tools/go/packages"
)

// A surface is the part of a package that cells see.
type surface struct {
	*packages.Package
	own bool            // of this module, so that the rules apply
	off map[string]bool // exported package-level names left out
}

func newSurface(p *packages.Package) *surface {
	s := &surface{Package: p, own: strings.HasPrefix(p.PkgPath, module+"/"), off: map[string]bool{}}
	sort.Slice(s.Syntax, func(i, j int) bool { return s.file(s.Syntax[i]) < s.file(s.Syntax[j]) })
	s.decls(func(d ast.Decl) {
		switch d := d.(type) {
		case *ast.FuncDecl:
			if d.Recv == nil && s.dropped(d.Name.Name, d.Doc) {
				s.off[d.Name.Name] = true
			}
		case *ast.GenDecl:
			for _, spec := range d.Specs {
				switch spec := spec.(type) {
				case *ast.TypeSpec:
					if s.dropped(spec.Name.Name, d.Doc, spec.Doc, spec.Comment) {
						s.off[spec.Name.Name] = true
					}
				case *ast.ValueSpec:
					for _, name := range spec.Names {
						if s.dropped(name.Name, d.Doc, spec.Doc, spec.Comment) {
							s.off[name.Name] = true
						}
					}
				}
			}
		}
	})
	return s
}

func (s *surface) file(f *ast.File) string {
	return filepath.Base(s.Fset.Position(f.Package).Filename)
}

// decls calls f for every declaration, in the order of the files' names.
func (s *surface) decls(f func(ast.Decl)) {
	for _, file := range s.Syntax {
		for _, d := range file.Decls {
			f(d)
		}
	}
}

// dropped reports whether a package-level name with these docs is left out.
func (s *surface) dropped(name string, docs ...*ast.CommentGroup) bool {
	if !s.own {
		list := allowed[s.PkgPath]
		return list != nil && !slices.Contains(list, name)
	}
	return slices.ContainsFunc(docs, notForCells)
}

// notForCells reports whether a declaration keeps itself from cells.
func notForCells(doc *ast.CommentGroup) bool {
	return strings.Contains(strings.Join(strings.Fields(doc.Text()), " "), "Not for cells")
}

// has reports whether cells see the package-level name. A constant of a type
// that they do not see is not seen either.
func (s *surface) has(name *ast.Ident) bool {
	if !name.IsExported() || s.off[name.Name] {
		return false
	}
	if c, ok := s.TypesInfo.Defs[name].(*types.Const); ok {
		return s.sees(c.Type())
	}
	return true
}

// sees reports whether cells see every name of this package in t.
func (s *surface) sees(t types.Type) bool {
	ok := true
	walk(t, func(t types.Type) bool {
		if obj := nameOf(t); obj != nil && obj.Pkg() == s.Types && (!obj.Exported() || s.off[obj.Name()]) {
			ok = false
		}
		return ok
	})
	return ok
}

// hasFunc reports whether cells see a function or method.
func (s *surface) hasFunc(d *ast.FuncDecl) bool {
	if d.Recv == nil {
		return s.has(d.Name)
	}
	base := receiver(d)
	return d.Name.IsExported() && base.IsExported() && !s.off[base.Name] && !notForCells(d.Doc)
}

// receiver returns the name of the type that a method belongs to.
func receiver(d *ast.FuncDecl) *ast.Ident {
	t := d.Recv.List[0].Type
	if star, ok := t.(*ast.StarExpr); ok {
		t = star.X
	}
	if index, ok := t.(*ast.IndexExpr); ok {
		t = index.X
	}
	return t.(*ast.Ident)
}

// hasField reports whether cells see a field of a struct that they see. An
// embedded field has no names.
func (s *surface) hasField(f *ast.Field, name *ast.Ident) bool {
	if s.own && (notForCells(f.Doc) || notForCells(f.Comment)) {
		return false
	}
	return (name == nil || name.IsExported()) && s.sees(s.TypesInfo.TypeOf(f.Type))
}

// nameOf returns the declaration that t names, or nil.
func nameOf(t types.Type) *types.TypeName {
	switch t := t.(type) {
	case *types.Alias:
		return t.Obj()
	case *types.Named:
		return t.Obj()
	}
	return nil
}

// walk visits t and, while f returns true, the types it is made of. It does
// not look into the types behind names.
func walk(t types.Type, f func(types.Type) bool) {
	if !f(t) {
		return
	}
	switch t := t.(type) {
	case *types.Pointer:
		walk(t.Elem(), f)
	case *types.Slice:
		walk(t.Elem(), f)
	case *types.Array:
		walk(t.Elem(), f)
	case *types.Chan:
		walk(t.Elem(), f)
	case *types.Map:
		walk(t.Key(), f)
		walk(t.Elem(), f)
	case *types.Tuple:
		for v := range t.Variables() {
			walk(v.Type(), f)
		}
	case *types.Signature:
		walk(t.Params(), f)
		walk(t.Results(), f)
	case *types.Struct:
		for v := range t.Fields() {
			walk(v.Type(), f)
		}
	}
}
