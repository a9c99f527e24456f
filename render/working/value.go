package working

import (
	"fmt"
	"go/types"
	"html"
	"html/template"
	"math"
	"strings"
	"unicode/utf8"

	"tautline/render/mathml"
	"tautline/runner/check/tree"
	"tautline/stdlib/quantity"
	"tautline/stdlib/sheet"
)

// StructOf is the struct that t is, or points to.
func StructOf(t types.Type) (*types.Struct, bool) {
	if ptr, ok := t.Underlying().(*types.Pointer); ok {
		t = ptr.Elem()
	}
	st, ok := t.Underlying().(*types.Struct)
	return st, ok
}

// Result is a value as MathML and as plain text; both empty for a struct or
// function.
func (ts *Typesetter) Result(v sheet.Value, u quantity.Unit) (template.HTML, string) {
	switch v.Kind {
	case sheet.KindNumber:
		o := mathml.Value(numberText(float64(v.Number), u))
		return ts.Math(o), o.Text
	case sheet.KindText:
		text := excerpt(v.Text)
		return ts.words("“" + text + "”"), `"` + text + `"`
	case sheet.KindTruth:
		word := map[bool]string{true: "yes", false: "no"}[v.Truth]
		return ts.Math(mathml.Operand{MathML: mathml.Text(word), Text: word}), word
	case sheet.KindList:
		text := listText(v, u)
		if text == "" {
			return "", ""
		}
		return ts.words(text), text
	}
	return "", ""
}

// excerpt is a text, or the beginning of one that fills more than a few lines: a file
// for a shop is read in the file.
func excerpt(text string) string {
	const most, shown, few = 240, 60, 3
	lines, runes := strings.Count(text, "\n"), utf8.RuneCountInString(text)
	if runes <= most && lines <= few {
		return text
	}
	first, _, _ := strings.Cut(text, "\n")
	if r := []rune(first); len(r) > shown {
		first = string(r[:shown])
	}
	if lines > few {
		return fmt.Sprintf("%s… (%d lines)", first, strings.Count(strings.TrimSuffix(text, "\n"), "\n")+1)
	}
	return fmt.Sprintf("%s… (%d characters)", first, runes)
}

// words is a text among formulas. A long one is left out of MathML, which does not
// break lines.
func (ts *Typesetter) words(text string) template.HTML {
	const long = 40
	if utf8.RuneCountInString(text) > long {
		return template.HTML("<span class=\"words\">" + template.HTMLEscapeString(text) + "</span>")
	}
	return ts.Math(mathml.Operand{MathML: mathml.Text(text), Text: text})
}

func numberText(v float64, u quantity.Unit) (number, unit string) {
	if math.IsNaN(v) {
		return quantity.Format(v, u, 0), ""
	}
	return quantity.Format(v, u, 0), u.Symbol
}

// listText says a list of numbers in one line: all of a short one, first and
// last of a long one.
func listText(v sheet.Value, u quantity.Unit) string {
	const short = 6
	var parts []string
	for _, item := range v.Items {
		switch item.Kind {
		case sheet.KindNumber:
			parts = append(parts, quantity.Format(float64(item.Number), u, 0))
		case sheet.KindText:
			parts = append(parts, item.Text)
		default:
			return items(v.Len)
		}
	}
	switch {
	case v.Len == 0:
		return "empty"
	case len(v.Items) < v.Len: // a great value of which only a part was kept
		return fmt.Sprintf("%d values", v.Len)
	}
	if len(parts) == 0 { // the run kept only how many there are
		return items(v.Len)
	}
	unit := ""
	if u.Symbol != "" && v.Items[0].Kind == sheet.KindNumber {
		unit = " " + u.Symbol
	}
	if v.Len <= short {
		return strings.Join(parts, "; ") + unit
	}
	return fmt.Sprintf("%s; %s; … %s%s (%d values)", parts[0], parts[1], parts[len(parts)-1], unit, v.Len)
}

// NameValue is the value that a run gave a name.
func (ts *Typesetter) NameValue(n *tree.Name) (sheet.Value, bool) {
	if c, ok := n.Object.(*types.Const); ok {
		return constantValue(c), true
	}
	v, ok := ts.Out.Values[n.Ident]
	return v, ok
}

// Math wraps an operand as a formula of its own.
func (ts *Typesetter) Math(o mathml.Operand) template.HTML {
	return template.HTML(mathml.Math(o.MathML, false, o.Text))
}

// Whole wraps a formula to stand by itself.
func Whole(f mathml.Formula) template.HTML {
	return template.HTML(mathml.Math(f.MathML, false, f.Text))
}

// maxRow is the width in letters beyond which no type is small enough to set a
// row of a formula across a page.
const maxRow = 3 * MaxFormula

// Legible is f as Whole sets it, with the letters of its widest row; when they are
// more than maxRow, its plain text, which breaks where it must, and 0.
func Legible(f mathml.Formula) (set template.HTML, row int) {
	if f.Row <= maxRow {
		return Whole(f), f.Row
	}
	return template.HTML(`<span class="plain">` + html.EscapeString(f.Text) + `</span>`), 0
}

// items says how many things a list holds.
func items(n int) string {
	if n == 1 {
		return "1 item"
	}
	return fmt.Sprintf("%d items", n)
}
