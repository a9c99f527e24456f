package mathml

import (
	"go/ast"
	"go/token"
	"go/types"
	"slices"
	"strconv"
	"strings"
)

// A factor is a member of a product with the expression that it was set from.
type factor struct {
	ast.Expr
	box
}

// product sets a row of products and quotients as one fraction.
func (s *setter) product(e *ast.BinaryExpr) box {
	if s.integerQuotient(e) {
		q := fraction(s.box(e.X), s.box(e.Y))
		return call(atom(Upright("trunc"), "trunc"), q)
	}
	first, links := s.spine(e, s.inProduct)
	over, under := s.factors(first), []factor(nil)
	for _, l := range links {
		if l.op == token.MUL {
			over = append(over, s.factors(l.y)...)
		} else {
			under = append(under, s.factors(l.y)...)
		}
	}
	if len(over) > 1 && len(under) > 0 && isLiteral(over[0].Expr, "1", "1.", "1.0") {
		over = over[1:]
	}
	halved := len(over) > 1 && isLiteral(over[0].Expr, "0.5", ".5")
	if halved {
		over = over[1:]
	}
	num, den := joinUnits(s.collect(over), s.collect(under))
	out := product(num)
	if len(den) > 0 {
		out = fraction(out, product(den))
	}
	switch {
	case !halved:
		return out
	case len(den) > 0:
		return product([]box{half, out})
	}
	return product(append([]box{half}, num...))
}

func (s *setter) inProduct(b *ast.BinaryExpr) bool {
	return b.Op == token.MUL || b.Op == token.QUO && !s.integerQuotient(b)
}

// factors takes a product apart; a quotient stays one factor.
func (s *setter) factors(e ast.Expr) []factor {
	e = ast.Unparen(e)
	first, links := s.spine(e, s.inProduct)
	if len(links) == 0 || s.depth > maxDepth ||
		slices.ContainsFunc(links, func(l link) bool { return l.op == token.QUO }) {
		return []factor{{e, s.box(e)}}
	}
	s.depth++
	defer func() { s.depth-- }()
	out := s.factors(first)
	for _, l := range links {
		out = append(out, s.factors(l.y)...)
	}
	return out
}

// collect makes powers of equal factors.
func (s *setter) collect(factors []factor) []box {
	var out []box
	index := map[string]int{}
	count := map[int]int{}
	for _, f := range factors {
		key, ok := s.key(f.Expr)
		if i, seen := index[key]; ok && seen {
			count[i]++
			continue
		}
		if ok {
			index[key] = len(out)
		}
		count[len(out)] = 1
		out = append(out, f.box)
	}
	for i, n := range count {
		if n > 1 {
			unit := out[i].unit
			out[i] = power(out[i], numeral(strconv.Itoa(n)))
			out[i].unit = unit
		}
	}
	return out
}

// key is what equal factors have in common. Numbers stay apart, and so does
// what may give another value each time.
func (s *setter) key(e ast.Expr) (key string, ok bool) {
	if _, isNumber := e.(*ast.BasicLit); isNumber {
		return "", false
	}
	ok = true
	ast.Inspect(e, func(n ast.Node) bool {
		switch n := n.(type) {
		case *ast.CompositeLit, *ast.FuncLit:
			ok = false
		case *ast.CallExpr:
			ok = ok && (s.mathFunc(n.Fun) != "" || s.converts(n))
		case *ast.UnaryExpr:
			ok = ok && n.Op != token.ARROW
		}
		return ok
	})
	if ok {
		key = types.ExprString(e)
	}
	return key, ok
}

// joinUnits writes the units of a number that ends a product as one: 5 kN/m.
func joinUnits(num, den []box) ([]box, []box) {
	from := len(num)
	for from > 0 && num[from-1].unit {
		from--
	}
	if from == 0 || from == len(num) || !num[from-1].number || len(den) == 0 ||
		slices.ContainsFunc(den, func(b box) bool { return !b.unit }) {
		return num, den
	}
	over, under := unitText(num[from:]), unitText(den)
	if len(den) > 1 {
		under = "(" + under + ")"
	}
	return append(num[:from:from], Unit(over+"/"+under).box()), nil
}

func unitText(units []box) string {
	var text []string
	for _, u := range units {
		text = append(text, u.text)
	}
	return strings.Join(text, "·")
}

// integerQuotient reports whether e is a division that drops the remainder.
func (s *setter) integerQuotient(e *ast.BinaryExpr) bool {
	if e.Op != token.QUO {
		return false
	}
	if s.Integer != nil {
		return s.Integer(e)
	}
	return isInteger(e.X) && isInteger(e.Y)
}

// isInteger reports whether e is a constant written with integers only.
func isInteger(e ast.Expr) bool {
	switch e := ast.Unparen(e).(type) {
	case *ast.BasicLit:
		return e.Kind == token.INT
	case *ast.UnaryExpr:
		return isInteger(e.X)
	case *ast.BinaryExpr:
		return isInteger(e.X) && isInteger(e.Y)
	}
	return false
}

func isLiteral(e ast.Expr, values ...string) bool {
	lit, ok := e.(*ast.BasicLit)
	return ok && slices.Contains(values, lit.Value)
}
