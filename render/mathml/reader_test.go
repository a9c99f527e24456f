package mathml

import (
	"errors"
	"fmt"
	"math/big"
	"strings"
	"unicode"
	"unicode/utf8"

	"tautline/render/mathml/core"
)

// This file reads MathML back, as a person reads the printed form: rows group
// nothing, only fences, fraction bars, radicals and scripts do. Nothing here
// knows how the package makes its text.

// A fataler is a test of package testing or rapid.
type fataler interface {
	Helper()
	Fatalf(format string, args ...any)
}

func wellFormed(t fataler, what, s string) *core.Element {
	t.Helper()
	e, err := core.Parse(s)
	if err != nil {
		t.Fatalf("%s: %v\n%s", what, err, s)
	}
	return e
}

// flat is the row that a reader sees: groups without a mark of their own are
// gone, and so is space.
func flat(e *core.Element) []*core.Element {
	switch e.Name {
	case "mspace":
		return nil
	case "mrow", "mstyle", "math", "mtable", "mtr", "mtd":
		var out []*core.Element
		for _, k := range e.Kids {
			out = append(out, flat(k)...)
		}
		return out
	}
	return []*core.Element{e}
}

// A modular is a field, the integers modulo a prime. In it sums and products are exact in
// any order, so that a formula and its source must agree to the last digit.
// Functions without a meaning there are arbitrary but fixed.
type modular struct{ names map[string]*big.Int }

var prime, _ = new(big.Int).SetString("1000000000000000003", 10)

var errUndefined = errors.New("division by zero")

func (m modular) op(op string, a, b *big.Int) (*big.Int, error) {
	z := new(big.Int)
	switch op {
	case "+":
		z.Add(a, b)
	case "-":
		z.Sub(a, b)
	case "*":
		z.Mul(a, b)
	case "/":
		if b.Sign() == 0 {
			return nil, errUndefined
		}
		z.Mul(a, new(big.Int).ModInverse(b, prime))
	case "^":
		switch below := new(big.Int).Sub(prime, b); {
		case b.Cmp(big.NewInt(100)) < 0:
			z.Exp(a, b, prime)
		case below.Cmp(big.NewInt(100)) < 0: // a negative whole number
			z.Exp(a, below, prime)
			return m.op("/", big.NewInt(1), z)
		default:
			return m.apply("pow", a, b), nil
		}
	default:
		return nil, fmt.Errorf("operator %q", op)
	}
	return z.Mod(z, prime), nil
}

// apply is a function of its name and arguments that is far from linear.
func (m modular) apply(name string, args ...*big.Int) *big.Int {
	z := big.NewInt(7)
	for _, r := range name {
		z.Mul(z, big.NewInt(1009)).Add(z, big.NewInt(int64(r)))
	}
	for _, a := range args {
		z.Add(z, a).Add(z, big.NewInt(17)).Exp(z, big.NewInt(5), prime)
	}
	return z.Mod(z, prime)
}

func (m modular) number(s string) (*big.Int, error) {
	r, ok := new(big.Rat).SetString(s)
	if !ok {
		return nil, fmt.Errorf("number %q", s)
	}
	return m.op("/", new(big.Int).Mod(r.Num(), prime), new(big.Int).Mod(r.Denom(), prime))
}

// A mathReader evaluates a row by the rules of written mathematics.
type mathReader struct {
	modular
	row []*core.Element
	pos int
}

func (m modular) eval(e *core.Element) (*big.Int, error) { return m.evalRow(flat(e)) }

func (m modular) evalRow(row []*core.Element) (*big.Int, error) {
	r := &mathReader{m, row, 0}
	v, err := r.sum()
	if err == nil && r.pos < len(row) {
		err = fmt.Errorf("left over: %s %q", row[r.pos].Name, row[r.pos].Text)
	}
	return v, err
}

func (r *mathReader) mo(signs ...string) string {
	if r.pos < len(r.row) && r.row[r.pos].Name == "mo" {
		for _, s := range signs {
			if r.row[r.pos].Text == s {
				r.pos++
				return s
			}
		}
	}
	return ""
}

func (r *mathReader) sum() (*big.Int, error) {
	negative := r.mo("−") != ""
	v, err := r.product()
	if negative && err == nil {
		v, err = r.op("-", new(big.Int), v)
	}
	for err == nil {
		op := r.mo("+", "−")
		if op == "" {
			break
		}
		var w *big.Int
		if w, err = r.product(); err == nil {
			v, err = r.op(map[string]string{"+": "+", "−": "-"}[op], v, w)
		}
	}
	return v, err
}

func (r *mathReader) product() (*big.Int, error) {
	v, err := r.one()
	for err == nil {
		op := r.mo("⋅", "/", "×")
		if op == "" {
			break
		}
		var w *big.Int
		if w, err = r.one(); err == nil {
			v, err = r.op(map[string]string{"⋅": "*", "×": "*", "/": "/"}[op], v, w)
		}
	}
	return v, err
}

// fenced reads up to the sign that closes, minding those that open again.
func (r *mathReader) fenced(open, close string) ([]*core.Element, error) {
	start := r.pos
	for depth := 1; r.pos < len(r.row); r.pos++ {
		e := r.row[r.pos]
		if e.Name != "mo" {
			continue
		}
		if e.Text == close {
			depth--
		} else if e.Text == open {
			depth++
		}
		if depth == 0 {
			r.pos++
			return r.row[start : r.pos-1], nil
		}
	}
	return nil, fmt.Errorf("no %q", close)
}

func (r *mathReader) group(open, close string) (*big.Int, error) {
	row, err := r.fenced(open, close)
	if err != nil {
		return nil, err
	}
	return r.evalRow(row)
}

// one reads a single form with its superscript: a symbol, a fraction, a group,
// a function with the one form after it.
func (r *mathReader) one() (*big.Int, error) {
	v, err := r.bare()
	if err == nil && r.mo("^") != "" {
		var n *big.Int
		if n, err = r.bare(); err == nil {
			v, err = r.op("^", v, n)
		}
	}
	return v, err
}

func (r *mathReader) bare() (*big.Int, error) {
	for sign, name := range map[string]string{"√": "sqrt", "∛": "cbrt"} {
		if r.mo(sign) != "" {
			v, err := r.bare()
			if err != nil {
				return nil, err
			}
			return r.apply(name, v), nil
		}
	}
	switch r.mo("(", "|", "⌊", "⌈") {
	case "(":
		return r.group("(", ")")
	case "|":
		v, err := r.group("", "|")
		if err != nil {
			return nil, err
		}
		return r.apply("abs", v), nil
	case "⌊":
		v, err := r.group("⌊", "⌋")
		if err != nil {
			return nil, err
		}
		return r.apply("floor", v), nil
	case "⌈":
		v, err := r.group("⌈", "⌉")
		if err != nil {
			return nil, err
		}
		return r.apply("ceil", v), nil
	}
	if r.pos >= len(r.row) {
		return nil, errors.New("row ends early")
	}
	e := r.row[r.pos]
	r.pos++
	if r.mo("\u2061") != "" {
		return r.function(e)
	}
	return r.single(e)
}

var functionNames = set("sin cos tan ln arctan sinh")

func (r *mathReader) function(head *core.Element) (*big.Int, error) {
	if head.Name == "msup" && functionNames[head.Kids[0].Text] {
		v, err := r.function(head.Kids[0])
		if err != nil {
			return nil, err
		}
		n, err := r.eval(head.Kids[1])
		if err != nil {
			return nil, err
		}
		return r.op("^", v, n)
	}
	if functionNames[head.Text] {
		v, err := r.one()
		if err != nil {
			return nil, err
		}
		return r.apply(head.Text, v), nil
	}
	if r.mo("(") == "" {
		return nil, fmt.Errorf("no ( after %s", head.Text)
	}
	row, err := r.fenced("(", ")")
	if err != nil {
		return nil, err
	}
	var args []*big.Int
	depth, start := 0, 0
	for i := 0; i <= len(row); i++ {
		switch {
		case i == len(row) || depth == 0 && row[i].Text == ",":
			v, err := r.evalRow(row[start:i])
			if err != nil {
				return nil, err
			}
			args = append(args, v)
			start = i + 1
		case row[i].Text == "(":
			depth++
		case row[i].Text == ")":
			depth--
		}
	}
	return r.apply(head.Text, args...), nil
}

func (r *mathReader) single(e *core.Element) (*big.Int, error) {
	var args []*big.Int
	for i, k := range e.Kids {
		if e.Name == "msub" || e.Name == "msubsup" && i < 2 || e.Name == "msqrt" {
			continue
		}
		if e.Name == "msup" && i == 0 {
			// Only a single form or a group takes the superscript.
			row := &mathReader{r.modular, flat(k), 0}
			v, err := row.one()
			if err != nil {
				return nil, err
			}
			if row.pos < len(row.row) {
				return nil, errors.New("superscript after a row")
			}
			args = append(args, v)
			continue
		}
		v, err := r.eval(k)
		if err != nil {
			return nil, err
		}
		args = append(args, v)
	}
	switch e.Name {
	case "mn":
		return r.number(e.Text)
	case "mi":
		return r.name(e.Text)
	case "msub":
		return r.name(e.Kids[0].Text + "_" + e.Kids[1].Text)
	case "msubsup":
		v, err := r.name(e.Kids[0].Text + "_" + e.Kids[1].Text)
		if err != nil {
			return nil, err
		}
		return r.op("^", v, args[0])
	case "msup":
		return r.op("^", args[0], args[1])
	case "mfrac":
		return r.op("/", args[0], args[1])
	case "msqrt":
		v, err := r.eval(&core.Element{Name: "mrow", Kids: e.Kids})
		if err != nil {
			return nil, err
		}
		return r.apply("sqrt", v), nil
	case "mroot":
		return r.apply("cbrt", args[0]), nil
	}
	return nil, fmt.Errorf("element %s %q", e.Name, e.Text)
}

const up = "⁰¹²³⁴⁵⁶⁷⁸⁹"

// lowered returns the digits that r starts with as superscripts.
func lowered(r []rune) string {
	digits := ""
	for _, c := range r {
		i := strings.IndexRune(up, c)
		if i < 0 {
			break
		}
		digits += fmt.Sprint(utf8.RuneCountInString(up[:i]))
	}
	return digits
}

// textRow cuts the plain text of a formula into the row that it stands for.
func textRow(s string) []*core.Element {
	var row []*core.Element
	add := func(name, text string) { row = append(row, &core.Element{Name: name, Text: text}) }
	r := []rune(s)
	in := func(i int, set string) bool { return i < len(r) && strings.ContainsRune(set, r[i]) }
	for i := 0; i < len(r); i++ {
		start := i
		switch {
		case r[i] == ' ':
		case r[i] == '½':
			add("mo", "(")
			add("mn", "0.5")
			add("mo", ")")
		case in(i, "0123456789"):
			for in(i+1, "0123456789.") {
				i++
			}
			add("mn", string(r[start:i+1]))
		case in(i, up+"⁻"):
			add("mo", "^")
			add("mo", "(")
			if r[i] == '⁻' {
				add("mo", "−")
				i++
			}
			add("mn", lowered(r[i:]))
			for in(i+1, up) {
				i++
			}
			add("mo", ")")
		case unicode.IsLetter(r[i]):
			for i+1 < len(r) && (unicode.IsLetter(r[i+1]) || r[i+1] == '_') {
				i++
			}
			head := &core.Element{Name: "mi", Text: string(r[start : i+1])}
			isFunction := functionNames[head.Text]
			if isFunction && in(i+1, up) { // sin² x
				head = &core.Element{Name: "msup", Kids: []*core.Element{head, {Name: "mn", Text: lowered(r[i+1:])}}}
				for in(i+1, up) {
					i++
				}
			}
			row = append(row, head)
			if isFunction || in(i+1, "(") {
				add("mo", "\u2061")
			}
		default:
			add("mo", strings.ReplaceAll(string(r[i]), "·", "⋅"))
		}
	}
	return row
}

func (m modular) name(s string) (*big.Int, error) {
	if v, ok := m.names[s]; ok {
		return v, nil
	}
	return nil, fmt.Errorf("name %q", s)
}
