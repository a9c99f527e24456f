package tree

import (
	"fmt"
	"go/ast"
	"go/token"
	"go/types"
	"regexp"
	"slices"
	"strconv"
	"strings"

	"tautline/runner/document"
	"tautline/runner/library"
)

// innerPlace is a position of the Go trees as go/types writes it.
var innerPlace = regexp.MustCompile(` at (cell\d+(?: declarations)?):(\d+):(\d+)`)

// tempName is a variable that the program has and the notebook has not.
var tempName = regexp.MustCompile(`__temp\d+`)

// typeError turns an error of go/types into a diagnostic: its own text, without
// what only the compiler knows, and a hint where there is one.
func (g *program) typeError(e types.Error) {
	if len(g.diags) > MaxErrors {
		return
	}
	p := g.tree
	message, notes := g.places(strings.ReplaceAll(e.Msg, "tautline/stdlib/", ""))
	message = tempName.ReplaceAllStringFunc(message, func(name string) string {
		n, _ := strconv.Atoi(name[len("__temp"):])
		return "the value for " + g.temps[n]
	})
	at := p.At(e.Pos)
	if strings.HasPrefix(message, "\t") { // "other declaration of …": part of the error before
		if n := len(g.diags); n > 0 && at.Line > 0 {
			g.diags[n-1].Notes = append(g.diags[n-1].Notes, document.Note{Range: document.Range{Start: at, End: at}, Message: strings.TrimSpace(message)})
		}
		return
	}
	if n := len(g.diags); n > 0 && g.diags[n-1].Range.Start == at {
		return // it only follows
	}
	message, more, _ := strings.Cut(message, "\n")
	message = strings.ReplaceAll(message, "\t", " ") // of a text that it quotes
	var hints []string
	if more != "" {
		hints = append(hints, strings.Join(strings.Fields(strings.ReplaceAll(more, "\n", ", ")), " "))
	}
	r := document.Range{Start: at, End: at}
	node := p.exprAt(e.Pos, message)
	if node != nil {
		r = p.Range(node)
	}
	message, hint := g.plain(message, node)
	if hint != "" {
		hints = append(hints, hint)
	}
	g.report(r, strings.Join(hints, "\n"), "%s", message)
	g.diags[len(g.diags)-1].Notes = notes
}

// places takes the positions out of a message and makes notes of them.
func (g *program) places(message string) (string, []document.Note) {
	var notes []document.Note
	for _, m := range innerPlace.FindAllStringSubmatch(message, -1) {
		line, _ := strconv.Atoi(m[2])
		column, _ := strconv.Atoi(m[3])
		at := g.tree.origin[m[1]].Source.At(line-1, column)
		notes = append(notes, document.Note{Range: document.Range{Start: at, End: at}, Message: "that is here"})
	}
	return innerPlace.ReplaceAllString(message, ""), notes
}

// A typeRule gives the hint for a message of go/types; the first group of the
// pattern is what is kept of the message, all of it without groups.
type typeRule struct {
	pattern *regexp.Regexp
	hint    func(g *program, m []string, at ast.Expr) string
}

var typeRules = []typeRule{
	{regexp.MustCompile(`^(undefined: (\S+)) \(but have (\S+)\)$`), func(g *program, m []string, _ ast.Expr) string {
		pkg, _, _ := strings.Cut(m[2], ".")
		return fmt.Sprintf("did you mean %s.%s?", pkg, m[3])
	}},
	{regexp.MustCompile(`^(undefined: (.+))$`), func(g *program, m []string, at ast.Expr) string { return g.undefinedHint(m[2], at) }},
	{regexp.MustCompile(`^(\S+ undefined \(type .+ has no field or method (\w+))(?:, but .*)?(\))$`), fieldHint},
	{regexp.MustCompile(`^(unknown field (\w+) in struct literal of type [^,]+)(?:, but .*)?$`), fieldHint},
	{regexp.MustCompile(`mismatched types (\S+) and (\S+)\)$`), numberHint},
	{regexp.MustCompile(`^cannot use (.+) \(.* of type int\) as (?:float64|units\.\w+) value`), func(_ *program, m []string, _ ast.Expr) string {
		return wholeNumber(m[1])
	}},
	{regexp.MustCompile(`\(untyped float constant.*\) truncated to int$`), always("it meets a whole number, one set without a decimal point: set that one with a decimal point")},
	{regexp.MustCompile(`^(?:multiple-value|assignment mismatch: 1 variable but .* returns 2 values)`), mustHint},
	{regexp.MustCompile(`in call to sheet\.Must`), always("sheet.Must takes a call that gives a value and an error; where there is no error, leave it out")},
	{regexp.MustCompile(`operator \^ not defined`), always("a power is written x*x, or math.Pow(x, 3)")},
	{regexp.MustCompile(`^declared and not used`), always("use it, or take it out")},
	{regexp.MustCompile(`^missing return`), always("end the function with return and its result")},
	{regexp.MustCompile(`^no new variables on left side of :=`), always("use = to change it, or choose another name")},
	{regexp.MustCompile(` is not used$`), always("give it a name with :=, or take it out")},
	{regexp.MustCompile(`^non-boolean condition`), always("write a comparison, such as p > 0")},
	{regexp.MustCompile(`^use of package (\w+)`), func(_ *program, m []string, _ ast.Expr) string {
		return "a package is used by its names, such as " + m[1] + "." + firstMember(m[1])
	}},
}

func always(hint string) func(*program, []string, ast.Expr) string {
	return func(*program, []string, ast.Expr) string { return hint }
}

// plain is what a reader should see of a message about the expression at, and
// its hint.
func (g *program) plain(message string, at ast.Expr) (text, hint string) {
	if name, ok := strings.CutPrefix(message, "initialization cycle for "); ok {
		return name + " depends on itself", "set it from values that are set above it"
	}
	if strings.HasPrefix(message, "extra init expr") {
		return "more values than names", "one name takes one value; a decimal has a point, as in 5.0, not a comma"
	}
	if strings.HasPrefix(message, "initialization cycle or refers to itself") || strings.HasPrefix(message, "initialization cycle: ") {
		return strings.Replace(message, "initialization cycle: ", "", 1), "set it from values that are set above it"
	}
	for _, rule := range typeRules {
		m := rule.pattern.FindStringSubmatch(message)
		if m == nil {
			continue
		}
		hint = rule.hint(g, m, at)
		if len(m) > 1 && strings.HasPrefix(message, m[1]) {
			message = m[1]
			if strings.Count(message, "(") > strings.Count(message, ")") {
				message += ")"
			}
		}
		return message, hint
	}
	return message, ""
}

// undefinedHint names what the writer may have meant by an undefined name.
func (g *program) undefinedHint(name string, at ast.Expr) string {
	if pkg, member, ok := strings.Cut(name, "."); ok {
		if near, ok := document.Nearest(member, members(pkg)); ok {
			return fmt.Sprintf("did you mean %s.%s?", pkg, near)
		}
		if near := alike(pkg, member); near != "" {
			return "did you mean " + near + "?"
		}
		return "tautline doc " + pkg + " lists what it has"
	}
	if g.isSet(at) {
		return fmt.Sprintf("a new name is set with :=, as in %s := …", name)
	}
	var known []string
	for n := range g.owner {
		known = append(known, n)
	}
	slices.Sort(known)
	if line := g.unmarked(name); line > 0 {
		return fmt.Sprintf("line %d sets it, in a block that is no cell: begin that block with ```go", line)
	}
	if unit, ok := nearUnit(name); ok && !g.usedAsPackage(name) {
		return "did you mean units." + unit + "?"
	}
	if near, ok := document.Nearest(name, append(known, packageNames()...)); ok {
		return fmt.Sprintf("did you mean %s?", near)
	}
	if g.usedAsPackage(name) {
		return cannotImport(name)
	}
	return "set it in this cell or an earlier one"
}

// nearUnit is the constant of package units that a name of more than one letter is
// written like, whatever its capitals: kPa, mm.
func nearUnit(name string) (string, bool) {
	path, _ := library.Path("units")
	for _, e := range library.Symbols(path) {
		if e.Kind == library.Constant && len(name) > 1 && strings.EqualFold(e.Name, name) {
			return e.Name, true
		}
	}
	return "", false
}

// unmarked is the line that sets a name in a block of code that is no cell, or 0.
func (g *program) unmarked(name string) int {
	if g.loose == nil {
		g.loose = map[string]int{}
		document.Walk(g.tree.Notebook.Blocks, func(b document.Block) {
			code, ok := b.(*document.Code)
			if !ok {
				return
			}
			line := code.Start.Line
			for text := range strings.Lines(code.Text) {
				line++
				if name, _, ok := strings.Cut(text, ":="); ok && g.loose[strings.TrimSpace(name)] == 0 {
					g.loose[strings.TrimSpace(name)] = line
				}
			}
		})
	}
	return g.loose[name]
}

// isSet reports whether an expression is what = sets.
func (g *program) isSet(e ast.Expr) bool {
	found := false
	g.tree.Inspect(func(n ast.Node) bool {
		if a, ok := n.(*ast.AssignStmt); ok && a.Tok == token.ASSIGN && slices.Contains(a.Lhs, e) {
			found = true
		}
		return !found
	})
	return found
}

// alike is what a package has under the words of a name: units.Gn for
// units.StandardGravity. It is empty when there is nothing, or too much to tell.
func alike(pkg, name string) string {
	query := wordStart.ReplaceAllString(name, " $0")
	var found []string
	for _, e := range library.Search(query) {
		if e.Package == pkg {
			found = append(found, fmt.Sprintf("%s.%s (%s)", pkg, e.Name, strings.TrimSuffix(e.Summary, ".")))
		}
	}
	if len(found) == 0 || len(found) > 3 {
		return ""
	}
	return found[0]
}

// wordStart is a capital letter that begins a word of a name.
var wordStart = regexp.MustCompile(`[A-Z]+`)

// fieldHint names the field or method that may have been meant.
func fieldHint(g *program, m []string, at ast.Expr) string {
	t := g.holderOf(at)
	if t == nil {
		return ""
	}
	var names []string
	if ptr, ok := types.Unalias(t).(*types.Pointer); ok {
		t = ptr.Elem()
	}
	if st, ok := t.Underlying().(*types.Struct); ok {
		for f := range st.Fields() {
			names = append(names, f.Name())
		}
	}
	if named, ok := types.Unalias(t).(*types.Named); ok {
		for f := range named.Methods() {
			names = append(names, f.Name())
		}
	}
	if near, ok := document.Nearest(m[2], names); ok {
		return fmt.Sprintf("did you mean %s?", near)
	}
	if len(names) == 0 || len(names) > 12 {
		return ""
	}
	return "it has " + strings.Join(names, ", ")
}

// holderOf is the type whose field or method at names.
func (g *program) holderOf(at ast.Expr) types.Type {
	var t types.Type
	g.tree.Inspect(func(n ast.Node) bool {
		switch n := n.(type) {
		case *ast.SelectorExpr:
			if n.Sel == at {
				t = g.tree.Info.Types[n.X].Type
			}
		case *ast.CompositeLit:
			for _, el := range n.Elts {
				if kv, ok := el.(*ast.KeyValueExpr); ok && kv.Key == at && n.Type != nil {
					t = g.tree.Info.Types[n.Type].Type
				}
			}
		}
		return t == nil
	})
	return t
}

// numberHint is for an int beside a float64: a number set without a decimal
// point.
func numberHint(g *program, m []string, at ast.Expr) string {
	float := func(t string) bool { return t == "float64" || strings.HasPrefix(t, "units.") }
	b, ok := at.(*ast.BinaryExpr)
	if !ok {
		return ""
	}
	switch {
	case m[1] == "int" && float(m[2]):
		return wholeNumber(g.tree.OneLine(b.X))
	case m[2] == "int" && float(m[1]):
		return wholeNumber(g.tree.OneLine(b.Y))
	}
	return ""
}

func wholeNumber(text string) string {
	if strings.Contains(text, " ") {
		return text + " is a whole number: set it with its unit, or a decimal point"
	}
	return fmt.Sprintf("%s is a whole number: set it with its unit, or a decimal point, or write float64(%s)", text, text)
}

// mustHint is for a call whose error is left over.
func mustHint(g *program, _ []string, at ast.Expr) string {
	text := "…"
	call, ok := at.(*ast.CallExpr)
	if !ok && at != nil {
		call, ok = g.tree.callAt(at)
	}
	if ok {
		if f := g.tree.Callee(call); f != nil {
			results := f.Signature().Results()
			if n := results.Len(); n != 2 || !types.Identical(results.At(1).Type(), types.Universe.Lookup("error").Type()) {
				return fmt.Sprintf("it gives %d values: give each a name", n)
			}
		}
		text = g.tree.OneLine(call)
	}
	return "write sheet.Must(" + text + "): an error then ends the run at this line"
}

// callAt finds the call of an expression.
func (t *Tree) callAt(called ast.Expr) (*ast.CallExpr, bool) {
	var found *ast.CallExpr
	t.Inspect(func(n ast.Node) bool {
		if call, ok := n.(*ast.CallExpr); ok && call.Fun == called {
			found = call
		}
		return found == nil
	})
	return found, found != nil
}

func (g *program) usedAsPackage(name string) bool {
	found := false
	ast.Inspect(g.file, func(n ast.Node) bool {
		if sel, ok := n.(*ast.SelectorExpr); ok {
			if x, ok := sel.X.(*ast.Ident); ok && x.Name == name {
				found = true
			}
		}
		return !found
	})
	return found
}

// exprAt finds the expression at pos that a message speaks of: the longest that
// it quotes, else the shortest there.
func (t *Tree) exprAt(pos token.Pos, message string) ast.Expr {
	var last, quoted ast.Expr
	t.Inspect(func(n ast.Node) bool {
		e, ok := n.(ast.Expr)
		if !ok || e.Pos() != pos {
			return true
		}
		last = e
		if quoted == nil && strings.Contains(message, types.ExprString(e)) {
			quoted = e
		}
		return true
	})
	if quoted != nil {
		return quoted
	}
	return last
}

// firstMember is a name that a package declares, as an example.
func firstMember(pkg string) string {
	if path, ok := library.Path(pkg); ok {
		for _, e := range library.Symbols(path) {
			if e.Kind != library.Method {
				return e.Name
			}
		}
	}
	return "Name"
}
