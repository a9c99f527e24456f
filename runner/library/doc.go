package library

import (
	"go/ast"
	"go/format"
	"go/parser"
	"go/token"
	"strings"
)

// A Func is the documentation of a function or method.
type Func struct {
	Name      string // HoopTension, or Mattress.LineForce
	Receiver  string // name that the formula calls the value of a method by
	Params    []string
	Signature string // as declared, with alias names
	Summary   string // first sentence
	Doc       string // whole comment
	Formula   string // first indented line that assigns a Go expression; may be empty
	Source    string // document, edition, clause; "as X" is replaced by the source of X
	Caution   string // what to mind, if the comment says so
}

// Doc returns the documentation of a function, or of a method named
// "Type.Method", of a package that cells can import.
func Doc(pkgPath, name string) (Func, bool) {
	s := all()[pkgPath]
	if s == nil {
		return Func{}, false
	}
	f, ok := s.docs().funcs[name]
	return f, ok
}

// Kind is what an Entry declares.
type Kind string

// The kinds of entries.
const (
	Constant Kind = "constant"
	Type     Kind = "type"
	Function Kind = "function"
	Method   Kind = "method"
)

// An Entry is one name of a package.
type Entry struct {
	Kind      Kind
	Package   string // name of the package
	Name      string // of a method: Type.Method
	Signature string // the declaration in one line; of a struct: all of it
	Summary   string // first sentence
	Doc       string // whole comment
}

// Symbols lists every name of a package in the order of its source.
func Symbols(pkgPath string) []Entry {
	s := all()[pkgPath]
	if s == nil {
		return nil
	}
	return s.docs().entries
}

// docs is the documentation of one package.
type docs struct {
	entries []Entry
	funcs   map[string]Func
}

// readDocs parses a stub with its comments.
func readDocs(s *stub) *docs {
	fset := token.NewFileSet()
	file, err := parser.ParseFile(fset, s.Path+".go", s.text, parser.ParseComments|parser.SkipObjectResolution)
	if err != nil {
		panic("library: " + err.Error())
	}
	base := fset.File(file.Pos()).Base()
	source := func(from, to token.Pos) string { return s.text[int(from)-base : int(to)-base] }

	d := &docs{funcs: map[string]Func{}}
	add := func(kind Kind, name, signature string, groups ...*ast.CommentGroup) {
		doc := ""
		for _, g := range groups {
			if doc = g.Text(); doc != "" {
				break
			}
		}
		doc = strings.TrimSpace(doc)
		d.entries = append(d.entries, Entry{kind, s.Name, name, signature, firstSentence(doc), doc})
	}
	for _, decl := range file.Decls {
		switch decl := decl.(type) {
		case *ast.FuncDecl:
			f := newFunc(decl, source(decl.Pos(), decl.Type.End()))
			d.funcs[f.Name] = f
			kind := Function
			if decl.Recv != nil {
				kind = Method
			}
			add(kind, f.Name, f.Signature, decl.Doc)
		case *ast.GenDecl:
			for _, spec := range decl.Specs {
				switch spec := spec.(type) {
				case *ast.TypeSpec:
					add(Type, spec.Name.Name, tidy("type "+source(spec.Pos(), spec.End())), spec.Doc, spec.Comment, decl.Doc)
				case *ast.ValueSpec:
					for _, name := range spec.Names {
						add(Constant, name.Name, strings.Join(strings.Fields("const "+source(spec.Pos(), spec.End())), " "),
							spec.Doc, spec.Comment, decl.Doc)
					}
				}
			}
		}
	}
	for name, f := range d.funcs {
		f.Source = d.resolve(f, 0)
		d.funcs[name] = f
	}
	return d
}

// newFunc reads the documentation of one function.
func newFunc(decl *ast.FuncDecl, signature string) Func {
	doc := strings.TrimSpace(decl.Doc.Text())
	f := Func{Name: decl.Name.Name, Signature: signature, Summary: firstSentence(doc), Doc: doc,
		Formula: formula(doc), Source: paragraph(doc, "Source:"), Caution: paragraph(doc, "Caution:")}
	for _, field := range decl.Type.Params.List {
		for _, name := range field.Names {
			f.Params = append(f.Params, name.Name)
		}
	}
	if decl.Recv != nil {
		field := decl.Recv.List[0]
		if len(field.Names) > 0 {
			f.Receiver = field.Names[0].Name
		}
		t := field.Type
		if star, ok := t.(*ast.StarExpr); ok {
			t = star.X
		}
		f.Name = t.(*ast.Ident).Name + "." + f.Name
	}
	return f
}

// resolve returns the source of f, following "as X" to the source of X.
func (d *docs) resolve(f Func, depth int) string {
	name, found := strings.CutPrefix(f.Source, "as ")
	name = strings.TrimSuffix(name, ".")
	if !found || depth > 4 || strings.ContainsAny(name, " ,;") {
		return f.Source
	}
	if receiver, _, ok := strings.Cut(f.Name, "."); ok {
		if other, ok := d.funcs[receiver+"."+name]; ok {
			return d.resolve(other, depth+1)
		}
	}
	if other, ok := d.funcs[name]; ok {
		return d.resolve(other, depth+1)
	}
	return f.Source
}

// formula returns the first indented line of doc that assigns a Go expression
// to a name.
func formula(doc string) string {
	for line := range strings.Lines(doc) {
		text, indented := strings.CutPrefix(line, "\t")
		left, right, ok := strings.Cut(text, " = ")
		if !indented || !ok || !token.IsIdentifier(strings.TrimSpace(left)) {
			continue
		}
		if _, err := parser.ParseExpr(right); err == nil {
			return strings.TrimSpace(text)
		}
	}
	return ""
}

// paragraph returns the paragraph of doc that begins with label, in one line
// and without the label.
func paragraph(doc, label string) string {
	_, after, ok := strings.Cut("\n"+doc, "\n"+label)
	if !ok {
		return ""
	}
	text, _, _ := strings.Cut(after, "\n\n")
	return strings.Join(strings.Fields(text), " ")
}

// firstSentence returns doc up to its first full stop, in one line.
func firstSentence(doc string) string {
	text, _, _ := strings.Cut(doc, "\n\n")
	text = strings.Join(strings.Fields(text), " ")
	if i := strings.Index(text, ". "); i >= 0 {
		text = text[:i+1]
	}
	return text
}

// uncomment takes the comment marks off every line.
func uncomment(comment string) string {
	var b strings.Builder
	for line := range strings.Lines(comment) {
		b.WriteString(strings.TrimPrefix(strings.TrimPrefix(line, "//"), " "))
	}
	return b.String()
}

// tidy formats a declaration that stood indented in a group.
func tidy(decl string) string {
	text, err := format.Source([]byte(decl))
	if err != nil {
		return decl
	}
	return string(text)
}
