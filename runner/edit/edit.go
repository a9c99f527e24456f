// Package edit puts another number in the place of a given, and changes nothing
// else of the notebook.
//
//	p, err := edit.Find(plan, "R")
//	literal, value, err := p.Number("2.75", metre) // as a person typed it
//	text, err := p.Replace(source, literal)
//
// A given is set from one number and units: `2.60 * units.M`, also inside
// sheet.Given and sheet.PlusMinus. The number is what can be replaced.
//
// Invariant: a notebook with the literal in its place computes with just the
// value that Number returned, to the last bit.
package edit

import (
	"bytes"
	"errors"
	"fmt"
	"go/ast"
	"go/constant"
	"go/token"
	"go/types"
	"math"
	"regexp"
	"strconv"
	"strings"

	"tautline/runner/check"
	"tautline/runner/document"
	"tautline/stdlib/quantity"
)

// A Place is where the number of a given stands.
type Place struct {
	Literal string // as it stands, such as "2.60"
	At      document.Position

	steps []step // from the literal outwards
}

// step is what is done to the literal: × or ÷ by a constant. Once a typed one is
// met, Go rounds after every step.
type step struct {
	op    token.Token
	by    constant.Value
	typed bool
}

// Find finds the number of a given. The error says what keeps it from being
// replaced.
func Find(plan *check.Plan, name string) (*Place, error) {
	n := plan.Names[name]
	if n == nil || n.Value == nil || !n.Given {
		return nil, fmt.Errorf("%s: it is not a given", name)
	}
	p := &Place{}
	lit := p.descend(plan, n.Value)
	if lit == nil {
		return nil, fmt.Errorf("%s is written as %s: only a given of one number and its unit can be changed here", name, plan.Source(n.Value))
	}
	p.Literal, p.At = lit.Value, plan.At(lit.Pos())
	return p, nil
}

// descend looks for the one number of an expression and remembers the way to it.
func (p *Place) descend(plan *check.Plan, e ast.Expr) *ast.BasicLit {
	switch e := e.(type) {
	case *ast.BasicLit:
		if e.Kind == token.INT || e.Kind == token.FLOAT {
			return e
		}
	case *ast.ParenExpr:
		return p.descend(plan, e.X)
	case *ast.UnaryExpr:
		if e.Op == token.SUB {
			return p.after(p.descend(plan, e.X), step{token.MUL, constant.MakeInt64(-1), false})
		}
	case *ast.CallExpr:
		if name, _ := plan.SheetCall(e); (name == "Given" || name == "PlusMinus") && len(e.Args) > 0 {
			return p.descend(plan, e.Args[0])
		}
	case *ast.BinaryExpr:
		x, y := number(plan, e.X), number(plan, e.Y)
		switch {
		case (e.Op == token.MUL || e.Op == token.QUO) && x != nil && y != nil && !hasLiteral(e.Y):
			return p.after(p.descend(plan, e.X), step{e.Op, y, isTyped(plan, e.Y)})
		case e.Op == token.MUL && x != nil && y != nil && !hasLiteral(e.X):
			return p.after(p.descend(plan, e.Y), step{e.Op, x, isTyped(plan, e.X)})
		}
	}
	return nil
}

func (p *Place) after(lit *ast.BasicLit, s step) *ast.BasicLit {
	if lit != nil {
		p.steps = append(p.steps, s)
	}
	return lit
}

// number is the value of a constant number, exact; nil for anything else.
func number(plan *check.Plan, e ast.Expr) constant.Value {
	v := plan.Info.Types[e].Value
	if v == nil || v.Kind() != constant.Int && v.Kind() != constant.Float {
		return nil
	}
	return constant.ToFloat(v)
}

// isTyped reports whether a constant expression names a constant that has a type,
// such as a unit.
func isTyped(plan *check.Plan, e ast.Expr) bool {
	found := false
	ast.Inspect(e, func(n ast.Node) bool {
		if id, ok := n.(*ast.Ident); ok {
			if c, ok := plan.Info.Uses[id].(*types.Const); ok {
				b, ok := c.Type().Underlying().(*types.Basic)
				found = found || !ok || b.Info()&types.IsUntyped == 0
			}
		}
		return true
	})
	return found
}

func hasLiteral(e ast.Expr) bool {
	found := false
	ast.Inspect(e, func(n ast.Node) bool {
		_, ok := n.(*ast.BasicLit)
		found = found || ok
		return true
	})
	return found
}

// typed is how a number may be typed.
var typed = regexp.MustCompile(`^-?[0-9]{1,15}(\.[0-9]{1,15})?([eE][-+]?[0-9]{1,2})?$`)

// Read reads a number as a person types it.
func Read(text string) (float64, error) {
	text = strings.TrimSpace(text)
	v, err := strconv.ParseFloat(text, 64)
	if !typed.MatchString(text) || err != nil {
		return 0, fmt.Errorf("got %.40q, want a number such as 2.75", text)
	}
	return v, nil
}

// Number takes a number that a person typed in a unit. It returns the literal to
// write in its place and the value that the given then has, in SI base units.
func (p *Place) Number(text string, unit quantity.Unit) (literal string, value float64, err error) {
	v, err := Read(text)
	if err != nil {
		return "", 0, err
	}
	literal = strings.TrimSpace(text)
	if k := p.scale(1); unit.Offset != 0 || math.Abs(k-unit.Factor) > 1e-14*math.Abs(unit.Factor) {
		literal = strconv.FormatFloat(unit.ToSI(v)/k, 'g', 12, 64)
	}
	if strings.ContainsAny(p.Literal, ".eE") && !strings.ContainsAny(literal, ".eE") {
		literal += ".0" // a float stays one
	}
	value = p.apply(literal)
	if math.IsInf(value, 0) || math.IsNaN(value) {
		return "", 0, fmt.Errorf("got %s, want a number that can be computed with", text)
	}
	return literal, value, nil
}

// scale is the value of the given for a literal.
func (p *Place) scale(x float64) float64 {
	return p.apply(strconv.FormatFloat(x, 'g', -1, 64))
}

// apply computes the value as the compiler does.
func (p *Place) apply(literal string) float64 {
	digits, negative := strings.CutPrefix(literal, "-")
	v := constant.MakeFromLiteral(digits, token.FLOAT, 0)
	if negative {
		v = constant.UnaryOp(token.SUB, v, 0)
	}
	typed := false
	for _, s := range p.steps {
		if s.op == token.QUO && constant.Sign(s.by) == 0 {
			return math.NaN()
		}
		if typed = typed || s.typed; typed {
			v = constant.BinaryOp(rounded(v), s.op, rounded(s.by))
		} else {
			v = constant.BinaryOp(v, s.op, s.by)
		}
	}
	f, _ := constant.Float64Val(constant.ToFloat(v))
	return f
}

// rounded is the nearest float64, or v itself when that is not finite.
func rounded(v constant.Value) constant.Value {
	f, _ := constant.Float64Val(v)
	if math.IsInf(f, 0) {
		return v
	}
	return constant.MakeFloat64(f)
}

// Replace returns the text of a notebook with the literal in its place. The text
// is that of the file: line ends and a byte order mark stay as they are. The
// error says that the text is not the one that was checked.
func (p *Place) Replace(text []byte, literal string) ([]byte, error) {
	start := 0
	for range p.At.Line - 1 {
		i := bytes.IndexByte(text[start:], '\n')
		if i < 0 {
			return nil, errMoved
		}
		start += i + 1
	}
	if p.At.Line == 1 {
		start += len(text) - len(bytes.TrimPrefix(text, []byte("\ufeff")))
	}
	start += p.At.Column - 1
	if start < 0 || start > len(text) || !bytes.HasPrefix(text[start:], []byte(p.Literal)) {
		return nil, errMoved
	}
	if strings.HasPrefix(literal, "-") && start > 0 && text[start-1] == '-' {
		literal = "(" + literal + ")"
	}
	return bytes.Join([][]byte{text[:start], []byte(literal), text[start+len(p.Literal):]}, nil), nil
}

var errMoved = errors.New("the file has changed since it was run: look at it, then try again")
