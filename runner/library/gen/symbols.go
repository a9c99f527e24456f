package main

import (
	"bytes"
	"fmt"
	"go/ast"
	"go/format"
	"go/types"
	"sort"
)

// symbols is the source of the table that the interpreter links against.
// Constants and aliases of basic types never reach the interpreter.
func symbols(table []*surface) ([]byte, error) {
	var b bytes.Buffer
	b.WriteString(generated)
	b.WriteString("// Package symbols is the compiled library as the interpreter sees it: the\n" +
		"// functions and types of every package that cells can import.\npackage symbols\n\nimport (\n")
	standard, own := []string{"reflect"}, []string{}
	for _, s := range table {
		switch {
		case !s.own:
			standard = append(standard, s.PkgPath)
		case len(s.entries()) > 0:
			own = append(own, s.PkgPath)
		}
	}
	sort.Strings(standard)
	for _, path := range standard {
		fmt.Fprintf(&b, "%q\n", path)
	}
	b.WriteString("\n")
	for _, path := range own {
		fmt.Fprintf(&b, "%q\n", path)
	}
	b.WriteString(")\n\n" +
		"// Exports returns the table by import path and package name. The functions of\n" +
		"// package sheet write to s.\n" +
		"func Exports(s *sheet.Sheet) map[string]map[string]reflect.Value {\n" +
		"return map[string]map[string]reflect.Value{\n")
	for _, s := range table {
		fmt.Fprintf(&b, "%q: {\n", s.key())
		for _, e := range s.entries() {
			fmt.Fprintf(&b, "%q: reflect.ValueOf(%s),\n", e.name, e.value)
		}
		b.WriteString("},\n")
	}
	b.WriteString("}\n}\n")
	return format.Source(b.Bytes())
}

// key is the package in the interpreter's table. The dot keeps the interpreter
// from taking fmt for the whole standard library and compiling its own generic
// sources, which would be most of the time that a small notebook takes.
func (s *surface) key() string {
	if s.PkgPath == "fmt" {
		return "./fmt/fmt"
	}
	return s.PkgPath + "/" + s.Name
}

type entry struct{ name, value string }

// entries lists the functions and types that cells see, by name.
func (s *surface) entries() []entry {
	var list []entry
	s.decls(func(d ast.Decl) {
		switch d := d.(type) {
		case *ast.FuncDecl:
			name := d.Name.Name
			if d.Recv != nil || !s.hasFunc(d) || d.Type.TypeParams != nil {
				return
			}
			if s.PkgPath == sheetPath {
				list = append(list, entry{name, "s." + name})
				return
			}
			list = append(list, entry{name, s.Name + "." + name})
		case *ast.GenDecl:
			for _, spec := range d.Specs {
				spec, ok := spec.(*ast.TypeSpec)
				if !ok || !s.has(spec.Name) {
					continue
				}
				if _, basic := s.TypesInfo.TypeOf(spec.Type).Underlying().(*types.Basic); basic && spec.Assign.IsValid() {
					continue
				}
				list = append(list, entry{spec.Name.Name, fmt.Sprintf("(*%s.%s)(nil)", s.Name, spec.Name.Name)})
			}
		}
	})
	sort.Slice(list, func(i, j int) bool { return list[i].name < list[j].name })
	return list
}
