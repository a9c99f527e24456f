package mathml

import (
	"go/ast"
	"go/token"
	"slices"
	"strings"
)

// constants of package math.
var constants = map[string]box{
	"Pi":    atom(Upright("π"), "π"),
	"E":     atom(Upright("e"), "e"),
	"Sqrt2": root(atom(Element("mn", "2"), "2")),
}

// functions of package math that have a form of their own.
var functions = map[string]struct {
	arity int
	set   func(a []box) box
}{
	"Sqrt":  {1, func(a []box) box { return root(a[0]) }},
	"Cbrt":  {1, func(a []box) box { return cubeRoot(a[0]) }},
	"Abs":   {1, func(a []box) box { return absolute(a[0]) }},
	"Ceil":  {1, func(a []box) box { return fenced("⌈", a[0], "⌉") }},
	"Floor": {1, func(a []box) box { return fenced("⌊", a[0], "⌋") }},
	"Hypot": {2, func(a []box) box {
		two := numeral("2")
		return root(chain(levelSum, levelSum, levelSlash, []part{{"", power(a[0], two)}, {"+", power(a[1], two)}}))
	}},
	"Log1p": {1, func(a []box) box {
		return elementary("ln", chain(levelSum, levelSum, levelSlash, []part{{"", numeral("1")}, {"+", a[0]}}))
	}},
	"Log2":  {1, func(a []box) box { return logarithm("2", a[0]) }},
	"Log10": {1, func(a []box) box { return logarithm("10", a[0]) }},
	"Mod": {2, func(a []box) box {
		return chain(levelRelation, levelPower, levelPower, []part{{"", a[0]}, {"mod", a[1]}})
	}},
}

// names of the functions of package math that are printed as such.
var names = map[string]string{
	"Sin": "sin", "Cos": "cos", "Tan": "tan", "Asin": "arcsin", "Acos": "arccos", "Atan": "arctan",
	"Sinh": "sinh", "Cosh": "cosh", "Tanh": "tanh", "Asinh": "arsinh", "Acosh": "arcosh", "Atanh": "artanh",
	"Log": "ln",
}

// absolute is |x|, and abs(x) where bars within bars could be paired wrongly.
func absolute(x box) box {
	if strings.Contains(x.ml, ">|<") {
		return call(atom(Upright("abs"), "abs"), x)
	}
	return fenced("|", x, "|")
}

func logarithm(base string, x box) box {
	head := atom(Upright("log"), "log").withSub(atom(Element("mn", base), base))
	b := call(head, x)
	b.level, b.textLevel = levelPower, levelPower
	return b
}

// call prints a call: of a function with its name upright, of a method with
// the receiver as subscript and, when there are arguments, those in parentheses.
func (s *setter) call(e *ast.CallExpr) box {
	if s.converts(e) {
		return s.box(e.Args[0])
	}
	if name := s.mathFunc(e.Fun); name != "" {
		return s.mathCall(name, e)
	}
	if appends(e) {
		return fenced("[", wrapped(s.items(e)), "]")
	}
	args := s.boxes(e.Args)
	if last := len(args) - 1; e.Ellipsis.IsValid() && last >= 0 {
		args[last] = all(args[last])
	}
	switch fun := ast.Unparen(e.Fun).(type) {
	case *ast.Ident:
		return call(function(fun.Name), args...)
	case *ast.SelectorExpr:
		if pkg, ok := fun.X.(*ast.Ident); ok && s.isPackage(pkg.Name) {
			return call(atom(Name(fun.Sel.Name), fun.Sel.Name), args...)
		}
		name := field(fun.Sel.Name)
		if small[strings.ToLower(fun.Sel.Name)] { // "At" is no A with a subscript here
			name = atom(Name(fun.Sel.Name), fun.Sel.Name)
		}
		method := s.owned(name, fun.X)
		if len(args) == 0 {
			return method
		}
		return call(method, args...)
	}
	return call(s.box(e.Fun).at(levelAtom), args...)
}

// all stands for every item of a list.
func all(list box) box {
	return box{ml: Row(list.ml, Element("mo", "…")), text: list.text + "…", width: list.width + 1}
}

// appends reports whether e adds items to a list.
func appends(e ast.Expr) bool {
	c, ok := e.(*ast.CallExpr)
	if !ok || len(c.Args) == 0 {
		return false
	}
	id, ok := ast.Unparen(c.Fun).(*ast.Ident)
	return ok && id.Name == "append"
}

// items are those of the list that e makes: of a list added to, those that it
// had and those that are new.
func (s *setter) items(e ast.Expr) []box {
	if appends(e) {
		c := e.(*ast.CallExpr)
		items := append(s.items(c.Args[0]), s.boxes(c.Args[1:])...)
		if c.Ellipsis.IsValid() {
			items[len(items)-1] = all(items[len(items)-1])
		}
		return items
	}
	if lit, ok := e.(*ast.CompositeLit); ok {
		if _, isStruct := typeName(lit.Type); !isStruct {
			return s.boxes(lit.Elts)
		}
	}
	return []box{all(s.box(e))}
}

// function is the name of a function: a short one as a symbol, a longer one as
// it stands. A conversion to an integer drops the fraction and says so.
func function(name string) box {
	switch name {
	case "int", "int8", "int16", "int32", "int64":
		name = "trunc"
	}
	if runes(name) <= 2 {
		return symbol(name)
	}
	return atom(Name(name), name)
}

// converts reports whether e only changes the type of a value.
func (s *setter) converts(e *ast.CallExpr) bool {
	if len(e.Args) != 1 {
		return false
	}
	if s.Conversion != nil {
		return s.Conversion(e.Fun)
	}
	id, ok := ast.Unparen(e.Fun).(*ast.Ident)
	return ok && id.Name == "float64"
}

// mathFunc returns the name of the function of package math that fun is, or "".
func (s *setter) mathFunc(fun ast.Expr) string {
	sel, ok := ast.Unparen(fun).(*ast.SelectorExpr)
	if !ok {
		return ""
	}
	if id, ok := sel.X.(*ast.Ident); ok && id.Name == "math" && s.isPackage("math") {
		return sel.Sel.Name
	}
	return ""
}

func (s *setter) mathCall(name string, e *ast.CallExpr) box {
	switch {
	case name == "Pow" && len(e.Args) == 2:
		return power(s.box(e.Args[0]), s.exponent(e.Args[1]))
	case name == "Exp" && len(e.Args) == 1:
		return power(constants["E"], s.exponent(e.Args[0]))
	case name == "Exp2" && len(e.Args) == 1:
		return power(numeral("2"), s.exponent(e.Args[0]))
	}
	args := s.boxes(e.Args)
	if f, ok := functions[name]; ok && len(args) == f.arity {
		return f.set(args)
	}
	if f, ok := names[name]; ok && len(args) == 1 {
		return elementary(f, args[0])
	}
	switch name {
	case "Inf":
		if infinity := atom(Element("mi", "∞"), "∞"); len(args) == 1 && isInteger(e.Args[0]) {
			if args[0].level == levelNegative {
				return negative(infinity)
			}
			return infinity
		}
	case "Min", "Max", "Trunc", "Round", "Atan2":
		name = strings.ToLower(name)
	}
	return call(atom(Upright(name), name), args...)
}

// exponent is a form for a superscript: a short fraction with a slash.
func (s *setter) exponent(e ast.Expr) box {
	e = ast.Unparen(e)
	b, ok := e.(*ast.BinaryExpr)
	if !ok || b.Op != token.QUO || s.integerQuotient(b) || !short(b.X) || !short(b.Y) {
		return s.box(e)
	}
	if x, replaced := s.operand(e); replaced {
		return x
	}
	return slashed(s.box(b.X), s.box(b.Y))
}

// short reports whether e is a name or number, perhaps with a sign.
func short(e ast.Expr) bool {
	switch e := e.(type) {
	case *ast.Ident, *ast.BasicLit:
		return true
	case *ast.UnaryExpr:
		return e.Op == token.SUB && short(e.X)
	}
	return false
}

// composite prints a struct as its name with a row for each field, and a list
// in brackets.
func (s *setter) composite(e *ast.CompositeLit) box {
	name, isStruct := typeName(e.Type)
	keyed := slices.ContainsFunc(e.Elts, func(x ast.Expr) bool { _, ok := x.(*ast.KeyValueExpr); return ok })
	if !keyed {
		items := s.boxes(e.Elts)
		if isStruct {
			return call(atom(Name(name), name), items...)
		}
		return fenced("[", wrapped(items), "]")
	}
	var rows, text []string
	width := 0
	for _, x := range e.Elts {
		kv, ok := x.(*ast.KeyValueExpr)
		if !ok {
			kv = &ast.KeyValueExpr{Key: ast.NewIdent("_"), Value: x}
		}
		var key box
		if id, ok := kv.Key.(*ast.Ident); ok {
			key = atom(Name(id.Name), id.Name)
		} else {
			key = s.box(kv.Key)
		}
		value := s.box(kv.Value)
		rows = append(rows, Element("mtr", Element(CellLeft, Row(key.ml, Operator("="), value.ml))))
		text = append(text, key.text+" = "+value.text)
		width = max(width, key.width+3+value.width)
	}
	b := box{text: name + "{" + strings.Join(text, ", ") + "}", level: levelAtom, textLevel: levelAtom, width: width + runes(name) + 2}
	b.ml = Element("mrow", Element(`mo form="prefix"`, "{"), Element("mtable", rows...))
	if name != "" {
		b.ml = Element("mrow", Name(name), b.ml)
	}
	return b
}

// typeName returns the name of a type without its package, empty for lists and
// maps and for a type that is left out.
func typeName(t ast.Expr) (name string, isStruct bool) {
	switch t := t.(type) {
	case *ast.Ident:
		return t.Name, true
	case *ast.SelectorExpr:
		return t.Sel.Name, true
	case *ast.IndexExpr:
		return typeName(t.X)
	}
	return "", false
}

// function prints a function that only returns a value as x ↦ value.
func (s *setter) function(e *ast.FuncLit) box {
	var params []box
	for _, f := range e.Type.Params.List {
		for _, n := range f.Names {
			params = append(params, symbol(n.Name))
		}
	}
	args := fenced("(", list(params), ")")
	if len(params) == 1 {
		args = params[0]
	}
	if len(e.Body.List) == 1 {
		if r, ok := e.Body.List[0].(*ast.ReturnStmt); ok && len(r.Results) == 1 {
			return chain(levelOr, levelOr, levelOr, []part{{"", args}, {"↦", s.box(r.Results[0])}})
		}
	}
	return atom(Text("func"), "func")
}
