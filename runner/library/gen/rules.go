package main

import (
	"fmt"
	"go/ast"
	"go/token"
	"go/types"
	"strings"
)

const (
	unitsPath = module + "/stdlib/units"
	sheetPath = module + "/stdlib/sheet"
)

// check returns each way in which the package breaks the rules of what cells
// can import: the interpreter mishandles generics, package variables,
// interfaces and untyped constants, the unit checker reads alias names, and a
// number without a source is worth nothing in a report.
func (s *surface) check() []error {
	if !s.own {
		return nil
	}
	var broken []error
	report := func(pos token.Pos, format string, args ...any) {
		broken = append(broken, fmt.Errorf("%s: %s", s.Fset.Position(pos), fmt.Sprintf(format, args...)))
	}
	s.decls(func(d ast.Decl) {
		switch d := d.(type) {
		case *ast.FuncDecl:
			if s.hasFunc(d) {
				s.checkFunc(d, report)
			}
		case *ast.GenDecl:
			for _, spec := range d.Specs {
				switch spec := spec.(type) {
				case *ast.TypeSpec:
					if s.has(spec.Name) {
						s.checkType(d, spec, report)
					}
				case *ast.ValueSpec:
					s.checkValue(d, spec, report)
				}
			}
		}
	})
	return broken
}

type reporter func(pos token.Pos, format string, args ...any)

func (s *surface) checkFunc(d *ast.FuncDecl, report reporter) {
	name := d.Name.Name
	if d.Recv != nil {
		name = receiver(d).Name + "." + name
	}
	if d.Doc.Text() == "" {
		report(d.Pos(), "%s: got no doc comment, want one", name)
	}
	sig := s.TypesInfo.Defs[d.Name].Type().(*types.Signature)
	if sig.TypeParams().Len() > 0 {
		if s.PkgPath != sheetPath || name != "Must" {
			report(d.Pos(), "%s: got type parameters, want none: the interpreter cannot call it", name)
		}
		return
	}
	if !s.sees(sig) {
		report(d.Pos(), "%s: the signature names a type that cells do not see", name)
	}
	s.checkParts(d.Pos(), name, sig.Params(), report)
	s.checkParts(d.Pos(), name, sig.Results(), report)
	if s.PkgPath == sheetPath || !quantities(sig.Results()) {
		return
	}
	if !strings.Contains("\n"+d.Doc.Text(), "\nSource:") {
		report(d.Pos(), `%s: gives a quantity and has no "Source:" paragraph`, name)
	}
}

func (s *surface) checkType(d *ast.GenDecl, spec *ast.TypeSpec, report reporter) {
	name := spec.Name.Name
	if d.Doc.Text() == "" && spec.Doc.Text() == "" && spec.Comment.Text() == "" {
		report(spec.Pos(), "%s: got no doc comment, want one", name)
	}
	if spec.TypeParams != nil {
		report(spec.Pos(), "%s: got type parameters, want none: the interpreter cannot use it", name)
		return
	}
	t := s.TypesInfo.TypeOf(spec.Type)
	if s.exempt() {
		return
	}
	structure, ok := spec.Type.(*ast.StructType)
	if !ok {
		if basic, ok := t.Underlying().(*types.Basic); ok && !spec.Assign.IsValid() && basic.Info()&types.IsFloat != 0 {
			report(spec.Pos(), "%s: got a float type of its own, want a units alias: the unit checker does not know it", name)
		}
		s.checkParts(spec.Pos(), name, t, report)
		return
	}
	for _, f := range structure.Fields.List {
		names := f.Names
		if names == nil {
			names = []*ast.Ident{nil}
		}
		for _, field := range names {
			if s.hasField(f, field) {
				s.checkParts(f.Pos(), fmt.Sprintf("%s.%s", name, types.ExprString(f.Type)), s.TypesInfo.TypeOf(f.Type), report)
				break
			}
		}
	}
}

func (s *surface) checkValue(d *ast.GenDecl, spec *ast.ValueSpec, report reporter) {
	for _, name := range spec.Names {
		switch {
		case !s.has(name):
		case d.Tok == token.VAR:
			report(name.Pos(), "%s: got a package variable, want a constant or a function: cells would share it", name.Name)
		default:
			t := s.TypesInfo.Defs[name].Type()
			if basic, ok := t.(*types.Basic); ok && basic.Info()&types.IsUntyped != 0 {
				report(name.Pos(), "%s: got an untyped constant, want a typed one", name.Name)
			}
			s.checkParts(name.Pos(), name.Name, t, report)
		}
	}
}

// exempt reports whether plain floats may stand in the package: units defines
// the dimensions and sheet takes any.
func (s *surface) exempt() bool { return s.PkgPath == unitsPath || s.PkgPath == sheetPath }

// checkParts reports what may not stand in an exported type or signature.
func (s *surface) checkParts(pos token.Pos, name string, whole types.Type, report reporter) {
	if s.exempt() {
		return
	}
	walk(whole, func(t types.Type) bool {
		switch t := t.(type) {
		case *types.Alias:
			if t.Obj().Pkg() == nil || t.Obj().Pkg().Path() != unitsPath {
				s.checkParts(pos, name, t.Rhs(), report)
			}
			return false
		case *types.Named:
			from := t.Obj().Pkg()
			if from != nil && !strings.HasPrefix(from.Path(), module+"/stdlib/") {
				report(pos, "%s: got a type of package %s, which cells cannot import", name, from.Path())
			}
		case *types.Basic:
			if t.Info()&types.IsFloat != 0 {
				report(pos, "%s: got a plain %s, want a units alias", name, t.Name())
			}
		case *types.Signature:
			report(pos, "%s: got a func type, want data: calls back into a cell are slow and cannot be stopped", name)
			return false
		case *types.Chan:
			report(pos, "%s: got a channel, want none: cells have no goroutines", name)
		case *types.Interface:
			report(pos, "%s: got an interface, want a concrete type: no type of a cell can implement it", name)
		}
		return true
	})
}

// quantities reports whether any of the results is in a unit, alone or in a
// slice, array, map or pointer.
func quantities(results *types.Tuple) bool {
	found := false
	walk(results, func(t types.Type) bool {
		if obj := nameOf(t); obj != nil && obj.Pkg() != nil && obj.Pkg().Path() == unitsPath {
			found = true
		}
		return !found
	})
	return found
}
