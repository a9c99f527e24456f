package dimension

import (
	"cmp"
	"fmt"
	"go/ast"
	"slices"
	"strings"

	"tautline/runner/document"
	"tautline/stdlib/quantity"
)

// assign checks that value, of shape got, fits what it is assigned to.
func (d *Inference) assign(to *shape, what string, value ast.Expr, got *shape) {
	text := d.tree.OneLine(value)
	if got.isBare() && to.isAngle() {
		d.report(value, writeAngle(text), "%s: got the bare number %s, want an angle", what, text)
		return
	}
	if d.agree(to, got, value) {
		d.mixedUp(to, what, value, got)
		return
	}
	to, got = unlikeParts(to, got)
	want, known1 := to.dimension()
	have, known2 := got.dimension()
	switch {
	case !known1 || !known2:
		d.report(value, "", "%s: %s does not fit in dimension", what, text)
	case got.bare:
		d.report(value, writeUnit(text, want), "%s: got the bare number %s, want %s", what, text, noun(want))
	default:
		d.report(value, forceOrMass(want, have), "%s: got %s, want %s", what, noun(have), noun(want))
	}
	d.because(to)
}

// because adds to the last diagnostic what gave the numbers in s their
// dimension, if that stands on another line.
func (d *Inference) because(s *shape) {
	u := s.inferred()
	if u == nil || u.is == nil || u.from == nil {
		return
	}
	diag := &d.diags[len(d.diags)-1]
	dim, ok := s.dimension()
	if at := d.tree.Range(u.from); ok && at.Start.Line != diag.Range.Start.Line {
		diag.Notes = append(diag.Notes, document.Note{Range: at, Message: "this makes it " + noun(dim)})
	}
}

// unlikeParts finds the numbers in two shapes that do not agree.
func unlikeParts(a, b *shape) (*shape, *shape) {
	var as, bs []*shape
	switch {
	case a.elem != nil && b.elem != nil:
		return unlikeParts(a.elem, b.elem)
	case a.fn != nil && b.fn != nil:
		as, bs = slices.Concat(a.fn.params, a.fn.results), slices.Concat(b.fn.params, b.fn.results)
	case a.fields != nil && b.fields != nil:
		as, bs = a.fields, b.fields
	default:
		return a, b
	}
	for i := range min(len(as), len(bs)) {
		if !agrees(as[i], bs[i]) {
			return unlikeParts(as[i], bs[i])
		}
	}
	return number(), number()
}

// confusions are aliases of one dimension that must not be taken for each
// other, by what is wanted and what was got.
var confusions = map[[2]string]string{
	{"Temperature", "TemperatureDifference"}: "20 °C is units.ZeroCelsius + 20*units.K",
	{"TemperatureDifference", "Temperature"}: "take the temperature that it differs from",
	{"AngularSpeed", "Frequency"}:            "one turn is 2π: multiply by units.Rev",
	{"Frequency", "AngularSpeed"}:            "one turn is 2π: divide by units.Rev",
}

// kindNames are the names of those aliases.
var kindNames = map[string]string{"Temperature": "temperature", "TemperatureDifference": "temperature difference",
	"AngularSpeed": "angular speed", "Frequency": "frequency"}

// mixedUp reports a quantity of the right dimension but the wrong kind.
func (d *Inference) mixedUp(to *shape, what string, value ast.Expr, got *shape) {
	want, have := to.scalar(), got.scalar()
	if want == nil || have == nil {
		return
	}
	if hint, ok := confusions[[2]string{want.kind(), have.kind()}]; ok {
		d.report(value, hint, "%s: got %s, want %s", what, withArticle(kindNames[have.kind()]), withArticle(kindNames[want.kind()]))
	}
}

// unlike reports two operands whose dimensions do not agree.
func (d *Inference) unlike(at ast.Node, x, y ast.Expr, format string) {
	a, b := d.expr(x).scalar(), d.expr(y).scalar()
	hint := ""
	switch {
	case a.bare:
		hint = d.unitHint(x, b)
	case b.bare:
		hint = d.unitHint(y, a)
	default:
		want, _ := a.dimension()
		have, _ := b.dimension()
		hint = cmp.Or(confusions[[2]string{a.kind(), b.kind()}], forceOrMass(want, have))
	}
	d.report(at, hint, format, d.describe(x), d.describe(y))
	d.because(a)
	d.because(b)
}

// unitHint gives a bare number the unit that it lacks beside like.
func (d *Inference) unitHint(e ast.Expr, like *shape) string {
	want, ok := like.dimension()
	switch {
	case !ok:
		return ""
	case like.isAngle():
		return writeAngle(d.tree.OneLine(e))
	}
	return writeUnit(d.tree.OneLine(e), want)
}

// describe names an expression with its dimension: "p (pressure)".
func (d *Inference) describe(e ast.Expr) string {
	text := d.tree.OneLine(e)
	s := d.expr(e).scalar()
	if s.bare {
		return "the bare number " + text
	}
	dim, ok := s.dimension()
	if !ok {
		return text
	}
	return fmt.Sprintf("%s (%s)", text, cmp.Or(kindNames[s.kind()], dim.Name()))
}

// noun is the name of a dimension as a noun: "an area".
func noun(dim quantity.Dimension) string {
	name := dim.Name()
	switch {
	case name == dim.String():
		return "a quantity in " + name
	case strings.HasPrefix(name, "per "):
		return "a quantity " + name
	}
	return withArticle(name)
}

func withArticle(name string) string {
	if strings.ContainsRune("aeiou", rune(name[0])) {
		return "an " + name
	}
	return "a " + name
}

// unitFor is the code of a unit of a dimension: that of SI itself or, with
// small, the first in the table.
func unitFor(dim quantity.Dimension, small bool) string {
	for _, u := range quantity.Units() {
		if u.Dimension.Equal(dim) && (u.Factor == 1 || small) && u.Offset == 0 && u.Code != "" {
			return u.Code
		}
	}
	return ""
}

// writeUnit is the hint that gives a bare number the unit it lacks.
func writeUnit(text string, want quantity.Dimension) string {
	if want.IsNumber() {
		return ""
	}
	if code := unitFor(want, false); code != "" {
		return fmt.Sprintf("write %s*%s, or the unit that you mean", factorText(text), code)
	}
	return "give it the unit of " + noun(want)
}

func writeAngle(text string) string {
	return fmt.Sprintf("write %s*units.Deg (or *units.Rad)", factorText(text))
}

// factorText is text in parentheses if it needs them as a factor.
func factorText(text string) string {
	if strings.ContainsAny(text, "+- /") {
		return "(" + text + ")"
	}
	return text
}

func forceOrMass(a, b quantity.Dimension) string {
	force, _ := quantity.OfAlias("Force")
	mass, _ := quantity.OfAlias("Mass")
	if a == force && b == mass || a == mass && b == force {
		return "a mass is not a force: its weight is mass*units.Gn"
	}
	return ""
}

// mayLackUnits gives what was found about a check, where nothing better is known, the
// numbers behind it that were set without a unit: one may lack it.
func (d *Inference) mayLackUnits(check *ast.CallExpr, found []document.Diagnostic) {
	for i := range found {
		if found[i].Hint != "" || len(found[i].Notes) > 0 {
			continue
		}
		if bare := d.bareBehind(check); len(bare) > 0 {
			found[i].Hint = "set without a unit: " + strings.Join(bare, ", ") + "; does one of them lack it?"
		}
	}
}

// bareBehind lists the top-level names that were set as a number without a unit and
// that an expression rests on, with their lines.
func (d *Inference) bareBehind(e ast.Expr) []string {
	const most = 5
	var bare []string
	seen := map[string]bool{}
	var visit func(e ast.Expr)
	visit = func(e ast.Expr) {
		ast.Inspect(e, func(n ast.Node) bool {
			id, ok := n.(*ast.Ident)
			if !ok || seen[id.Name] || d.tree.Names[id.Name] == nil || d.tree.Names[id.Name].Value == nil {
				return true
			}
			seen[id.Name] = true
			name := d.tree.Names[id.Name]
			if _, literal := name.Value.(*ast.BasicLit); literal && len(bare) < most {
				bare = append(bare, fmt.Sprintf("%s (line %d)", name.Ident, name.Range.Start.Line))
			}
			visit(name.Value)
			return true
		})
	}
	visit(e)
	return bare
}
