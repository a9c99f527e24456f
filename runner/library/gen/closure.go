package main

import (
	"crypto/sha256"
	"fmt"
	"go/ast"
	"go/scanner"
	"go/token"
	"go/types"
	"maps"
	"os"
	"slices"
	"sort"
	"strings"

	"golang.org/x/tools/go/packages"
)

// functionDigests is a list of every function, method and constant of the library
// that cells see, with a digest of all source that it can come to: its own
// declaration, those that this one names, and so on. Comments do not count. So
// the digest of a function changes when, and only when, what it computes can have
// changed.
func functionDigests(pkgs []*packages.Package) ([]byte, error) {
	c := closure{decls: map[string]*declared{}, versions: map[string]string{}}
	if err := c.modules(); err != nil {
		return nil, err
	}
	for _, p := range pkgs {
		if err := c.read(p); err != nil {
			return nil, err
		}
	}
	var lines []string
	for _, p := range pkgs {
		s := newSurface(p)
		if !s.own || isInner(p.PkgPath) {
			continue
		}
		add := func(name string) {
			lines = append(lines, fmt.Sprintf("%s.%s %s\n", s.Name, name, c.digest(s.PkgPath+"."+name)))
		}
		s.decls(func(d ast.Decl) {
			switch d := d.(type) {
			case *ast.FuncDecl:
				if s.hasFunc(d) && d.Recv != nil {
					add(receiver(d).Name + "." + d.Name.Name)
				} else if s.hasFunc(d) {
					add(d.Name.Name)
				}
			case *ast.GenDecl:
				for _, spec := range d.Specs {
					if v, ok := spec.(*ast.ValueSpec); ok {
						for _, name := range v.Names {
							if s.has(name) {
								add(name.Name)
							}
						}
					}
				}
			}
		})
	}
	sort.Strings(lines)
	return []byte(strings.Join(lines, "")), nil
}

// A closure finds all source that a declaration can come to.
type closure struct {
	decls    map[string]*declared
	versions map[string]string // of other modules, by path
}

// declared is one declaration at the level of its package.
type declared struct {
	text    string   // its tokens
	uses    []string // ids of other declarations, and modules with their version
	methods []string // names of methods of interfaces that it calls
}

// modules reads the versions of the modules that the library may use.
func (c *closure) modules() error {
	text, err := os.ReadFile(goMod())
	if err != nil {
		return err
	}
	for line := range strings.Lines(string(text)) {
		f := strings.Fields(strings.TrimPrefix(strings.TrimSpace(line), "require "))
		if len(f) >= 2 && strings.HasPrefix(f[1], "v") {
			c.versions[f[0]] = f[1]
		}
	}
	return nil
}

// goMod is the path of go.mod, from the folder that the generator or its test
// runs in.
func goMod() string {
	path := "go.mod"
	for range 4 {
		if _, err := os.Stat(path); err == nil {
			break
		}
		path = "../" + path
	}
	return path
}

// read takes the declarations of a package.
func (c *closure) read(p *packages.Package) error {
	if !strings.HasPrefix(p.PkgPath, module+"/") {
		return nil
	}
	for _, file := range p.Syntax {
		source, err := os.ReadFile(p.Fset.Position(file.Package).Filename)
		if err != nil {
			return err
		}
		for _, d := range file.Decls {
			switch d := d.(type) {
			case *ast.FuncDecl:
				if d.Body == nil {
					return fmt.Errorf("%s.%s: got no body: a digest without it tells nothing", p.PkgPath, d.Name.Name)
				}
				id := p.PkgPath + "." + d.Name.Name
				if d.Recv != nil {
					id = p.PkgPath + "." + receiver(d).Name + "." + d.Name.Name
				} else if d.Name.Name == "init" {
					return fmt.Errorf("%s: got a func init, want none: no digest would tell of it", p.PkgPath)
				}
				c.declare(p, source, id, d)
			case *ast.GenDecl:
				c.group(p, source, d)
			}
		}
	}
	return nil
}

// group takes a declaration of types, constants or variables. Constants that
// count, or repeat the one above, belong together.
func (c *closure) group(p *packages.Package, source []byte, d *ast.GenDecl) {
	counts := false
	for _, spec := range d.Specs {
		v, ok := spec.(*ast.ValueSpec)
		counts = counts || ok && d.Tok == token.CONST && (len(v.Values) == 0 || slices.ContainsFunc(v.Values, usesIota))
	}
	for _, spec := range d.Specs {
		node := ast.Node(spec)
		if counts {
			node = d
		}
		switch spec := spec.(type) {
		case *ast.TypeSpec:
			c.declare(p, source, p.PkgPath+"."+spec.Name.Name, node)
		case *ast.ValueSpec:
			for _, name := range spec.Names {
				c.declare(p, source, p.PkgPath+"."+name.Name, node)
			}
		}
	}
}

func usesIota(e ast.Expr) (found bool) {
	ast.Inspect(e, func(n ast.Node) bool {
		id, ok := n.(*ast.Ident)
		found = found || ok && id.Name == "iota"
		return !found
	})
	return found
}

// declare takes one declaration.
func (c *closure) declare(p *packages.Package, source []byte, id string, node ast.Node) {
	file := p.Fset.File(node.Pos())
	d := &declared{text: tokens(source[file.Offset(node.Pos()):file.Offset(node.End())])}
	ast.Inspect(node, func(n ast.Node) bool {
		name, ok := n.(*ast.Ident)
		if !ok {
			return true
		}
		switch obj := p.TypesInfo.Uses[name]; {
		case obj == nil || obj.Pkg() == nil:
		case strings.HasPrefix(obj.Pkg().Path(), module+"/"):
			if f, ok := obj.(*types.Func); ok && ofInterface(f) {
				d.methods = append(d.methods, f.Name())
			} else if used := idOf(obj); used != "" && used != id {
				d.uses = append(d.uses, used)
			}
		default:
			for path, version := range c.versions {
				if obj.Pkg().Path() == path || strings.HasPrefix(obj.Pkg().Path(), path+"/") {
					d.uses = append(d.uses, path+"@"+version)
				}
			}
		}
		return true
	})
	c.decls[id] = d
}

// ofInterface reports whether a method is one of an interface: whose code runs is
// not known here.
func ofInterface(f *types.Func) bool {
	recv := f.Signature().Recv()
	return recv != nil && types.IsInterface(recv.Type())
}

// idOf names a declaration at the level of its package; "" for any other.
func idOf(obj types.Object) string {
	if f, ok := obj.(*types.Func); ok && f.Signature().Recv() != nil {
		t := f.Signature().Recv().Type()
		if ptr, ok := types.Unalias(t).(*types.Pointer); ok {
			t = ptr.Elem()
		}
		if n := nameOf(t); n != nil {
			return n.Pkg().Path() + "." + n.Name() + "." + f.Name()
		}
		return ""
	}
	if obj.Parent() != obj.Pkg().Scope() {
		return ""
	}
	return obj.Pkg().Path() + "." + obj.Name()
}

// unseen are the methods that the standard library calls through interfaces.
var unseen = []string{"Error", "Format", "GoString", "Len", "Less", "MarshalJSON", "Pop", "Push", "Read", "String", "Swap",
	"UnmarshalJSON", "Unwrap", "Write", "At", "Dims", "T", "Is", "As"}

// digest is that of all that a declaration can come to.
func (c *closure) digest(id string) string {
	reached := map[string]bool{}
	called := map[string]bool{}
	for _, name := range unseen {
		called[name] = true
	}
	var visit func(id string)
	visit = func(id string) {
		if reached[id] {
			return
		}
		reached[id] = true
		if d := c.decls[id]; d != nil {
			for _, used := range d.uses {
				visit(used)
			}
			for _, name := range d.methods {
				called[name] = true
			}
		}
	}
	visit(id)
	for before := -1; before != len(reached); { // what is called through an interface, of any type that is reached
		before = len(reached)
		for _, t := range slices.Collect(maps.Keys(reached)) {
			for name := range called {
				if method := t + "." + name; c.decls[method] != nil {
					visit(method)
				}
			}
		}
	}
	hash := sha256.New()
	for _, id := range slices.Sorted(maps.Keys(reached)) {
		text := ""
		if d := c.decls[id]; d != nil {
			text = d.text
		}
		fmt.Fprintf(hash, "%s %d\n%s", id, len(text), text)
	}
	return fmt.Sprintf("%x", hash.Sum(nil)[:8])
}

// tokens is Go source without its comments and layout.
func tokens(source []byte) string {
	var s scanner.Scanner
	files := token.NewFileSet()
	s.Init(files.AddFile("", -1, len(source)), source, nil, 0)
	var b strings.Builder
	for {
		_, tok, text := s.Scan()
		switch {
		case tok == token.EOF:
			return b.String()
		case tok == token.SEMICOLON:
			text = ";"
		case text == "":
			text = tok.String()
		}
		b.WriteString(text + " ")
	}
}
