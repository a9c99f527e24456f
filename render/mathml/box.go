package mathml

import (
	"strconv"
	"strings"
	"unicode/utf8"
)

// A level says how strongly the parts of a printed form hold together. A form
// stands in another without parentheses when it holds strongly enough.
type level int

const (
	levelOr level = iota
	levelAnd
	levelNot
	levelRelation
	levelSum
	levelNegative // −x, −x·y
	levelSlash    // x/y in a line of text; a fraction bar is a product
	levelProduct
	levelPrefix   // sin x, ΔT, ring radius
	levelQuantity // 300 mm, 1.2×10⁶
	levelPower
	levelAtom
)

// A box is a printed form with what is needed to set it beside others: the same
// form as MathML, always one element, and as plain text.
type box struct {
	ml, text         string
	level, textLevel level
	width            int // in letters, about

	base, sub string // of a symbol with a subscript: ml is both in <msub>
	fn        *application
	parts     []part // of a chain, at which it may be broken
	number    bool   // digits only
	unit      bool   // a bare unit
}

// An application is an elementary function before its argument.
type application struct {
	name string
	arg  box
}

// A part is one member of a chain with the operator before it.
type part struct {
	op string
	box
}

func atom(ml, text string) box {
	return box{ml: ml, text: text, level: levelAtom, textLevel: levelAtom, width: runes(text)}
}

// at returns the box in parentheses if it holds less strongly than l.
func (b box) at(l level) box {
	if b.level < l {
		b = box{ml: fence("(", b.ml, ")"), text: b.text, level: levelAtom, textLevel: b.textLevel, width: b.width + 2}
	}
	if b.textLevel < l {
		b.text = "(" + b.text + ")"
		b.textLevel = levelAtom
	}
	return b
}

// spaced holds the operators that are words.
var spaced = map[string]bool{"and": true, "or": true, "mod": true}

func operator(op string) string {
	if spaced[op] {
		return Text(" " + op + " ")
	}
	return Operator(op)
}

// chain sets parts in a row with their operators between; l is the level of the
// whole, first and rest the levels that its parts must have.
func chain(l, first, rest level, parts []part) box {
	if len(parts) == 1 {
		return parts[0].box
	}
	var ml, text []string
	width := 0
	for i, p := range parts {
		need := first
		if i > 0 {
			need = rest
			ml = append(ml, operator(p.op))
			text = append(text, p.op)
		}
		p.box = p.at(need)
		parts[i] = p
		ml = append(ml, p.ml)
		text = append(text, p.text)
		width += p.width + runes(p.op) + 2
	}
	return box{ml: Element("mrow", ml...), text: strings.Join(text, " "), level: l, textLevel: l, width: width, parts: parts}
}

// broken sets a chain that is wider than limit in rows, each row after the
// first with its operator in front, and says how wide the widest is.
func (b box) broken(limit int) (ml string, widest int) {
	if limit <= 0 || b.width <= limit || len(b.parts) < 2 {
		return b.ml, b.width
	}
	var rows, row []string
	width := 0
	for _, p := range b.parts {
		w := p.width + runes(p.op) + 2
		if width+w > limit && len(row) > 0 {
			rows = append(rows, Element("mtr", Element(CellLeft, row...)))
			row, width = nil, 0
		}
		if p.op != "" {
			row = append(row, operator(p.op))
		}
		row = append(row, p.ml)
		width += w
		widest = max(widest, width)
	}
	rows = append(rows, Element("mtr", Element(CellLeft, row...)))
	return Element(`mtable displaystyle="true"`, rows...), widest
}

func negative(x box) box {
	x = x.at(levelSlash)
	return box{
		ml:    Element("mrow", Element(`mo form="prefix"`, Minus), x.ml),
		text:  Minus + x.text,
		level: levelNegative, textLevel: levelNegative, width: x.width + 1,
		number: x.number,
	}
}

func not(x box) box {
	x = x.at(levelSum)
	return box{
		ml: Element("mrow", Text("not "), x.ml), text: "not " + x.text,
		level: levelNot, textLevel: levelNot, width: x.width + 4,
	}
}

// product sets factors side by side with a dot between, and no dot before a
// bare unit.
func product(factors []box) box {
	if len(factors) == 1 {
		return factors[0]
	}
	out := box{level: levelProduct, textLevel: levelProduct}
	var ml []string
	for i, f := range factors {
		last := i == len(factors)-1
		if f.fn != nil && !last && factors[i+1].fn == nil {
			f = f.fn.closed()
		}
		switch {
		case i == 0:
			f = f.at(levelNegative)
			if f.level == levelNegative {
				out.level, out.textLevel = levelNegative, levelNegative
			}
		case f.unit && (factors[i-1].number || factors[i-1].unit):
			if factors[i-1].unit {
				ml = append(ml, times)
				out.text += "·"
			} else {
				if !followsAtOnce(f.text) {
					ml = append(ml, Space)
					out.text += " "
				}
				if last && len(factors) == 2 && out.level == levelProduct {
					out.level, out.textLevel = levelQuantity, levelQuantity
				}
			}
			out.width++
		default:
			f = f.at(levelProduct)
			ml = append(ml, times)
			out.text += "·"
			out.width++
		}
		ml = append(ml, f.ml)
		out.text += f.text
		out.width += f.width
	}
	out.ml = Element("mrow", ml...)
	return out
}

func fraction(num, den box) box {
	return box{
		ml:    Element("mfrac", num.ml, den.ml),
		text:  num.at(levelProduct).text + "/" + den.at(levelPower).text,
		level: levelProduct, textLevel: levelSlash,
		width: max(num.width, den.width),
	}
}

// slashed is a fraction within a line, for exponents.
func slashed(num, den box) box {
	num, den = num.at(levelNegative), den.at(levelPower)
	return box{
		ml:    Element("mrow", num.ml, Element(`mo lspace="0" rspace="0"`, "/"), den.ml),
		text:  num.text + "/" + den.text,
		level: levelSlash, textLevel: levelSlash,
		width: num.width + 1 + den.width,
	}
}

// half is ½, smaller than the formula beside it.
var half = box{
	ml:   Element(`mstyle displaystyle="false"`, Element("mfrac", Element("mn", "1"), Element("mn", "2"))),
	text: "½", level: levelProduct, textLevel: levelAtom, width: 1,
}

func power(base, exponent box) box {
	exp := superscript(exponent.text)
	if f := base.fn; f != nil && f.trig() && isCount(exponent.text) {
		b := f.set(Element("msup", Italic(f.name), exponent.ml), f.name+exp)
		b.fn = nil
		return b
	}
	b := base.at(levelAtom)
	p := box{text: b.text + exp, level: levelPower, textLevel: levelPower, width: b.width + (exponent.width+1)/2}
	if b.base != "" {
		p.ml = Element("msubsup", b.base, b.sub, exponent.ml)
	} else {
		p.ml = Element("msup", b.ml, exponent.ml)
	}
	return p
}

func isCount(s string) bool {
	_, err := strconv.ParseUint(s, 10, 64)
	return err == nil
}

var superscripts = strings.NewReplacer("0", "⁰", "1", "¹", "2", "²", "3", "³", "4", "⁴",
	"5", "⁵", "6", "⁶", "7", "⁷", "8", "⁸", "9", "⁹", Minus, "⁻")

// superscript is an exponent in plain text.
func superscript(text string) string {
	switch {
	case isCount(strings.TrimPrefix(text, Minus)):
		return superscripts.Replace(text)
	case runes(text) == 1:
		return "^" + text
	}
	return "^(" + text + ")"
}

func root(x box) box {
	return box{
		ml: Element("msqrt", x.ml), text: "√" + x.at(levelAtom).text,
		level: levelPower, textLevel: levelPower, width: x.width + 1,
	}
}

func cubeRoot(x box) box {
	return box{
		ml: Element("mroot", x.ml, Element("mn", "3")), text: "∛" + x.at(levelAtom).text,
		level: levelPower, textLevel: levelPower, width: x.width + 1,
	}
}

func fenced(open string, x box, close string) box {
	b := atom(fence(open, x.ml, close), open+x.text+close)
	b.width = x.width + 2
	return b
}

// listWidth is how many letters of a list stand in one line, about: what a page of
// paper has room for, beside a name and brackets.
const listWidth = 64

// wrapped sets items as list does, in several lines when one would be too long.
func wrapped(items []box) box {
	whole := list(items)
	if whole.width <= listWidth || len(items) < 2 {
		return whole
	}
	var rows, row []string
	widest, width := 0, 0
	for i, it := range items {
		if len(row) > 0 && width+it.width > listWidth {
			rows = append(rows, Element("mtr", Element(CellLeft, row...)))
			row, width = nil, 0
		}
		row = append(row, it.ml)
		if i+1 < len(items) {
			row = append(row, Element(`mo separator="true"`, ","))
		}
		width += it.width + 2
		widest = max(widest, width)
	}
	rows = append(rows, Element("mtr", Element(CellLeft, row...)))
	whole.ml, whole.width = Element("mtable", rows...), widest
	return whole
}

// list sets items in a row with commas between.
func list(items []box) box {
	var ml, text []string
	width := 0
	for i, it := range items {
		if i > 0 {
			ml = append(ml, Element(`mo separator="true"`, ","))
		}
		ml = append(ml, it.ml)
		text = append(text, it.text)
		width += it.width + 2
	}
	return box{ml: Element("mrow", ml...), text: strings.Join(text, ", "), width: width}
}

// call is a function with its arguments in parentheses.
func call(head box, args ...box) box {
	in := fenced("(", list(args), ")")
	b := atom(Element("mrow", head.ml, Element("mo", Apply), in.ml), head.text+in.text)
	b.width = head.width + in.width
	return b
}

// elementary is a function such as sin or ln: without parentheses before a
// plain symbol or number.
func elementary(name string, arg box) box {
	f := &application{name, arg}
	b := f.set(Italic(name), name)
	b.fn = f
	return b
}

// set sets the argument after the head. Even in parentheses it does not hold
// like an atom: sin(−x)² would leave open what is squared.
func (f *application) set(head, text string) box {
	arg := f.arg.at(levelAtom)
	b := box{
		text:  text + arg.text,
		level: levelPrefix, textLevel: levelPrefix, width: runes(text) + 1 + arg.width,
	}
	if f.arg.level < levelAtom {
		b.ml = Element("mrow", head, Element("mo", Apply), arg.ml)
		b.level, b.textLevel = levelPower, levelPower
		return b
	}
	b.text = text + " " + arg.text
	b.ml = Element("mrow", head, Element("mo", Apply), Space, arg.ml)
	return b
}

// closed sets the argument in parentheses, so that a factor may follow.
func (f *application) closed() box { return call(atom(Italic(f.name), f.name), f.arg) }

func (f *application) trig() bool {
	switch f.name {
	case "sin", "cos", "tan", "sinh", "cosh", "tanh":
		return true
	}
	return false
}

// withSub adds a subscript to a symbol, after those that it has.
func (b box) withSub(sub box) box {
	b = b.at(levelAtom)
	base, ml := b.ml, sub.ml
	if b.base != "" {
		base, ml = b.base, Element("mrow", b.sub, Element(`mo separator="true"`, ","), sub.ml)
	}
	text := b.text + "_" + sub.text
	if sub.textLevel < levelAtom {
		text = b.text + "_(" + sub.text + ")"
	}
	return box{
		ml: Element("msub", base, ml), text: text, base: base, sub: ml,
		level: levelAtom, textLevel: levelAtom, width: b.width + (sub.width*7+9)/10,
	}
}

func runes(s string) int { return utf8.RuneCountInString(s) }
