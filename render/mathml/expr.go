package mathml

import (
	"bytes"
	"go/ast"
	"go/format"
	"go/token"
	"slices"
	"strconv"
	"strings"
)

// Options says how Expr prints. The zero value prints names as symbols.
type Options struct {
	// Operand is asked about every expression, outer before inner and
	// without its parentheses, before it is printed in the usual way. It may
	// answer with what to print instead, such as the number that a name
	// holds. Nil replaces nothing.
	Operand func(e ast.Expr) (Operand, bool)
	// Package reports whether a name stands for an imported package, which
	// is not printed. Nil knows math and units only.
	Package func(name string) bool
	// Conversion reports whether a call of fun is a conversion that changes
	// no value, which is not printed. Nil knows float64 only.
	Conversion func(fun ast.Expr) bool
	// Integer reports whether an expression is an integer, so that its
	// division drops the remainder and must be printed so. Nil knows
	// constants written as integers only.
	Integer func(e ast.Expr) bool
	// MaxWidth is the width in letters beyond which a sum, or a chain of
	// conditions, is set in rows. 0 sets one row always.
	MaxWidth int
}

// An Operand is printed in place of an expression.
type Operand struct {
	MathML string // a result of this package
	Text   string // the same as plain text
	// Binding says where it needs parentheses.
	Binding Binding
}

// Binding says where an operand needs parentheses.
type Binding int

// The bindings.
const (
	Tight    Binding = iota // a plain number or symbol: nowhere
	Measured                // a number with unit or power of ten: raised to a power
	Signed                  // a negative number: after an operator, raised to a power
	Loose                   // a sum: in a product or power
	BareUnit                // a unit alone: nowhere, and it follows a number without dot
)

// Value is the operand of a number and its unit, printed as by Quantity, with
// its binding.
func Value(number, unit string) Operand {
	b := quantity(number, unit)
	o := Operand{MathML: b.ml, Text: b.text}
	switch {
	case b.level == levelNegative:
		o.Binding = Signed
	case b.level < levelAtom:
		o.Binding = Measured
	}
	return o
}

// Unit is the operand of a unit that stands for itself, as in 1.8*units.KPa.
func Unit(unit string) Operand { return Operand{Text(unit), unit, BareUnit} }

func (o Operand) box() box {
	b := atom(Element("mrow", o.MathML), o.Text)
	switch o.Binding {
	case Measured:
		b.level = levelQuantity
	case Signed:
		b.level = levelNegative
	case Loose:
		b.level = levelSum
	case BareUnit:
		b.unit = true
	}
	b.textLevel = b.level
	return b
}

// A Formula is an expression as it is printed.
type Formula struct {
	MathML string
	Text   string // the same as plain text in one line
	Width  int    // about how many letters wide it is in one row
	Row    int    // the same of its widest row as it is set
}

// Set prints a Go expression as a formula. It drops the parentheses of the
// source and sets those that the formula needs. Products are joined by dots, the
// same factor more than once becomes a power, a quotient becomes a fraction, a
// leading 0.5 becomes ½, and the functions of package math become their usual
// signs. What has no form in a formula is printed as Go source, as is an
// expression nested more deeply than a page can show.
func Set(e ast.Expr, o Options) Formula {
	b := top(e, o)
	ml, row := b.broken(o.MaxWidth)
	return Formula{ml, b.text, b.width, row}
}

// Expr is the MathML of Set.
func Expr(e ast.Expr, o Options) string { return Set(e, o).MathML }

// ExprText is the plain text of Set.
func ExprText(e ast.Expr, o Options) string { return Set(e, o).Text }

// maxDepth is how deeply expressions may nest; browsers show a few hundred
// elements inside each other at most.
const maxDepth = 40

// A setter sets expressions as boxes.
type setter struct {
	Options
	depth int
	deep  bool // maxDepth was exceeded
}

func top(e ast.Expr, o Options) box {
	s := &setter{Options: o}
	b := s.box(e)
	if s.deep {
		return source(e)
	}
	return b
}

// source is an expression as Go source.
func source(e ast.Expr) box {
	var b bytes.Buffer
	if err := format.Node(&b, token.NewFileSet(), e); err != nil {
		return atom(Text("?"), "?")
	}
	text := strings.Join(strings.Fields(b.String()), " ")
	return atom(Text(text), text)
}

// operand asks the options what to print for e.
func (s *setter) operand(e ast.Expr) (box, bool) {
	if s.Operand == nil {
		return box{}, false
	}
	o, ok := s.Operand(e)
	return o.box(), ok
}

func (s *setter) box(e ast.Expr) box {
	if s.depth > maxDepth {
		s.deep = true
		return box{}
	}
	s.depth++
	defer func() { s.depth-- }()
	e = ast.Unparen(e)
	if b, ok := s.operand(e); ok {
		return b
	}
	return s.set(e)
}

func (s *setter) boxes(list []ast.Expr) []box {
	var out []box
	for _, e := range list {
		out = append(out, s.box(e))
	}
	return out
}

// set prints an expression that the options leave alone.
func (s *setter) set(e ast.Expr) box {
	switch e := e.(type) {
	case *ast.Ident:
		return ident(e.Name)
	case *ast.BasicLit:
		return literal(e)
	case *ast.BinaryExpr:
		return s.binary(e)
	case *ast.UnaryExpr:
		return s.unary(e)
	case *ast.StarExpr:
		return s.box(e.X)
	case *ast.CallExpr:
		return s.call(e)
	case *ast.SelectorExpr:
		return s.selector(e)
	case *ast.IndexExpr:
		return s.owner(e.X).withSub(s.box(e.Index))
	case *ast.SliceExpr:
		return s.slice(e)
	case *ast.CompositeLit:
		return s.composite(e)
	case *ast.FuncLit:
		return s.function(e)
	}
	return source(e)
}

func ident(name string) box {
	switch name {
	case "true", "false", "nil":
		return atom(Text(name), name)
	}
	return symbol(name)
}

func literal(e *ast.BasicLit) box {
	switch e.Kind {
	case token.INT, token.FLOAT:
		return numeral(strings.TrimSuffix(e.Value, ".0"))
	case token.STRING:
		if s, err := strconv.Unquote(e.Value); err == nil {
			return atom(Text("“"+s+"”"), "“"+s+"”")
		}
	}
	return atom(Text(e.Value), e.Value)
}

func (s *setter) unary(e *ast.UnaryExpr) box {
	switch x := s.box(e.X); e.Op {
	case token.SUB:
		return negative(x)
	case token.NOT:
		return not(x)
	case token.ADD, token.AND:
		return x
	}
	return source(e)
}

var relations = map[token.Token]string{
	token.EQL: "=", token.NEQ: "≠", token.LSS: "<", token.LEQ: "≤", token.GTR: ">", token.GEQ: "≥",
}

func (s *setter) binary(e *ast.BinaryExpr) box {
	switch e.Op {
	case token.ADD, token.SUB:
		return s.sum(e)
	case token.MUL, token.QUO:
		return s.product(e)
	case token.LAND:
		return s.condition(e, "and", levelAnd, levelNot)
	case token.LOR:
		return s.condition(e, "or", levelOr, levelAnd)
	case token.REM:
		return chain(levelRelation, levelPower, levelPower, s.pair(e, "mod"))
	}
	if op, ok := relations[e.Op]; ok {
		return chain(levelRelation, levelSum, levelSum, s.pair(e, op))
	}
	return chain(levelRelation, levelPower, levelPower, s.pair(e, e.Op.String()))
}

func (s *setter) pair(e *ast.BinaryExpr, op string) []part {
	return []part{{"", s.box(e.X)}, {op, s.box(e.Y)}}
}

// A link is an operator and what stands right of it.
type link struct {
	op token.Token
	y  ast.Expr
}

// spine takes a row of operators that associate to the left apart, as long as
// in holds and no parentheses stand between.
func (s *setter) spine(e ast.Expr, in func(*ast.BinaryExpr) bool) (first ast.Expr, links []link) {
	first = e
	for {
		b, ok := first.(*ast.BinaryExpr)
		if !ok || !in(b) {
			break
		}
		if _, replaced := s.operand(b); replaced {
			break
		}
		links = append(links, link{b.Op, b.Y})
		first = b.X
	}
	slices.Reverse(links)
	return first, links
}

func (s *setter) sum(e *ast.BinaryExpr) box {
	first, links := s.spine(e, func(b *ast.BinaryExpr) bool { return b.Op == token.ADD || b.Op == token.SUB })
	parts := []part{{"", s.box(first)}}
	if b := parts[0].box; b.level == levelSum && len(b.parts) > 0 {
		parts = b.parts
	}
	for _, l := range links {
		y := s.box(l.y)
		switch {
		case l.op == token.SUB:
			parts = append(parts, part{Minus, y})
		case y.level == levelSum && len(y.parts) > 0:
			y.parts[0].op = "+"
			parts = append(parts, y.parts...)
		default:
			parts = append(parts, part{"+", y})
		}
	}
	return chain(levelSum, levelSum, levelSlash, parts)
}

func (s *setter) condition(e *ast.BinaryExpr, word string, l, inner level) box {
	first, links := s.spine(e, func(b *ast.BinaryExpr) bool { return b.Op == e.Op })
	parts := []part{{"", s.box(first)}}
	for _, l := range links {
		parts = append(parts, part{word, s.box(l.y)})
	}
	return chain(l, inner, inner, parts)
}

// selector is a field: its name with its owner as subscript. The name of a
// package is left out.
func (s *setter) selector(e *ast.SelectorExpr) box {
	if pkg, ok := e.X.(*ast.Ident); ok && s.isPackage(pkg.Name) {
		if c, ok := constants[e.Sel.Name]; ok && pkg.Name == "math" {
			return c
		}
		return atom(Name(e.Sel.Name), e.Sel.Name)
	}
	return s.owned(field(e.Sel.Name), e.X)
}

// owned is the field or method f of x.
func (s *setter) owned(f box, x ast.Expr) box {
	switch ast.Unparen(x).(type) {
	case *ast.Ident, *ast.SelectorExpr, *ast.IndexExpr:
		return f.withSub(s.owner(x))
	}
	o := s.box(x).at(levelAtom)
	b := atom(Element("mrow", o.ml, Element(`mo lspace="0" rspace="0"`, "."), f.ml), o.text+"."+f.text)
	b.width = o.width + 1 + f.width
	return b
}

// owner is what an index or field belongs to; a name stays a name even where
// the options would print its value.
func (s *setter) owner(x ast.Expr) box {
	if id, ok := ast.Unparen(x).(*ast.Ident); ok {
		return ident(id.Name)
	}
	return s.box(x)
}

func (s *setter) slice(e *ast.SliceExpr) box {
	var ml, text []string
	for i, at := range []ast.Expr{e.Low, e.High, e.Max} {
		if i == 2 && at == nil {
			break
		}
		if i > 0 {
			ml = append(ml, Element(`mo lspace="0" rspace="0"`, ":"))
			text = append(text, ":")
		}
		if at != nil {
			b := s.box(at)
			ml = append(ml, b.ml)
			text = append(text, b.text)
		}
	}
	return s.owner(e.X).withSub(box{
		ml: Element("mrow", ml...), text: strings.Join(text, ""), width: runes(strings.Join(text, "")),
	})
}

func (s *setter) isPackage(name string) bool {
	if s.Package == nil {
		return name == "math" || name == "units"
	}
	return s.Package(name)
}
