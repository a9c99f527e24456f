// Package tex reads formulas of the prose, in the notation of TeX, and prints them
// as MathML.
package tex

import (
	"fmt"
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"

	"tautline/render/mathml"
)

// MathML prints a formula in TeX notation, without its dollar signs, as a whole
// <math>: in a line of its own when display is true, else within the text. It
// knows letters, numbers and operators; ^ and _; \frac, \dfrac, \tfrac, \sqrt;
// Greek letters (\phi and \varphi are one letter, as are \epsilon and
// \varepsilon, the same that mathml.Symbol prints); the usual operators, relations and
// arrows; \sum, \prod, \int with limits; \sin and its like, \operatorname;
// \text, \mathrm, \mathbf; \left and \right; \bar, \hat, \dot, \ddot, \vec,
// \tilde, \overline, \underline; matrix, pmatrix, bmatrix, vmatrix, cases,
// aligned; spacing; and \\ for a new line. It defines no macros.
//
// An error is always a *Error.
func MathML(src string, display bool) (string, error) {
	p := &parser{src: src}
	rows, err := p.table("")
	if err != nil {
		return "", err
	}
	var inner string
	if len(rows) == 1 && len(rows[0]) == 1 {
		inner = mathml.Row(rows[0][0])
	} else {
		inner = environment{columns: []string{mathml.CellLeft}, display: true}.set(rows)
	}
	return mathml.Math(inner, display, src), nil
}

// An Error is a fault in a formula.
type Error struct {
	Offset  int    // in bytes from the start of the formula
	Message string // "what: got X, want Y"
	Hint    string // the next action or the nearest name; may be empty
}

func (e *Error) Error() string {
	s := fmt.Sprintf("formula, offset %d: %s", e.Offset, e.Message)
	if e.Hint != "" {
		s += " (" + e.Hint + ")"
	}
	return s
}

// maxDepth is how deeply groups may nest.
const maxDepth = 40

// A parser reads a formula once from left to right. A method that reads a
// part leaves pos behind it.
type parser struct {
	src   string
	pos   int
	depth int
	style string // of letters: "", "rm" or "bf"
}

// An item is one member of a row before its scripts.
type item struct {
	ml     string
	class  class
	limits bool // scripts stand under and over
}

func (p *parser) fail(at int, hint, format string, args ...any) error {
	return &Error{at, fmt.Sprintf(format, args...), hint}
}

func (p *parser) skipSpace() {
	p.pos = len(p.src) - len(strings.TrimLeft(p.src[p.pos:], " \t\r\n"))
}

func (p *parser) take(prefix string) bool {
	if strings.HasPrefix(p.src[p.pos:], prefix) {
		p.pos += len(prefix)
		return true
	}
	return false
}

// peekCommand returns the name of the command at pos, empty if there is none.
func (p *parser) peekCommand() string {
	rest := p.src[p.pos:]
	if len(rest) < 2 || rest[0] != '\\' {
		return ""
	}
	n := 1
	for n < len(rest) && (rest[n]|0x20 >= 'a' && rest[n]|0x20 <= 'z') {
		n++
	}
	if n == 1 {
		_, size := utf8.DecodeRuneInString(rest[1:])
		n += size
	}
	return rest[1:n]
}

func (p *parser) takeCommand(name string) bool {
	if p.peekCommand() == name {
		p.pos += 1 + len(name)
		return true
	}
	return false
}

// atEnd reports whether a row ends at pos.
func (p *parser) atEnd() bool {
	if p.pos >= len(p.src) || strings.IndexByte("}&", p.src[p.pos]) >= 0 {
		return true
	}
	switch p.peekCommand() {
	case `\`, "end", "right":
		return true
	}
	return false
}

// row reads items up to the end of a group, cell, environment or formula, or up
// to the byte stop.
func (p *parser) row(stop byte) (string, error) {
	if p.depth >= maxDepth {
		return "", p.fail(p.pos, "write it in parts", "nesting: got more than %d levels", maxDepth)
	}
	p.depth++
	defer func() { p.depth-- }()
	var out strings.Builder
	last := item{class: opening}
	for {
		p.skipSpace()
		if p.atEnd() || stop != 0 && p.src[p.pos] == stop {
			return out.String(), nil
		}
		it, err := p.item(last.class)
		if err != nil {
			return "", err
		}
		ml, err := p.scripts(it)
		if err != nil {
			return "", err
		}
		term := it.class == ordinary || it.class == letterlike
		if last.class == named && (term || it.class == named) {
			out.WriteString(mathml.Element("mo", mathml.Apply) + mathml.Space)
		}
		if it.class == named && (last.class == ordinary || last.class == letterlike || last.class == closing) {
			out.WriteString(mathml.Space)
		}
		out.WriteString(ml)
		last = it
	}
}

// item reads one member of a row; after says what stands before it.
func (p *parser) item(after class) (item, error) {
	start := p.pos
	c := p.src[p.pos]
	switch {
	case c == '{':
		ml, err := p.group()
		return item{ml: ml}, err
	case c == '\\':
		return p.command(after)
	case c == '^' || c == '_' || c == '\'':
		return item{ml: mathml.Element("mrow")}, nil
	case c >= '0' && c <= '9':
		return item{ml: p.number()}, nil
	case strings.IndexByte("%$#", c) >= 0:
		return item{}, p.fail(start, fmt.Sprintf(`write \%c for the sign itself`, c), "sign: got %q, want a formula", c)
	}
	r, size := utf8.DecodeRuneInString(p.src[p.pos:])
	p.pos += size
	if unicode.IsLetter(r) {
		if p.style == "rm" {
			for p.pos < len(p.src) && p.src[p.pos]|0x20 >= 'a' && p.src[p.pos]|0x20 <= 'z' {
				p.pos++
			}
			return item{ml: mathml.Upright(p.src[start:p.pos])}, nil
		}
		return item{ml: p.identifier(string(r))}, nil
	}
	return p.sign(character(r), after), nil
}

// number reads digits with a decimal point.
func (p *parser) number() string {
	start := p.pos
	for p.pos < len(p.src) {
		c := p.src[p.pos]
		point := c == '.' && p.pos+1 < len(p.src) && p.src[p.pos+1] >= '0' && p.src[p.pos+1] <= '9'
		if !point && (c < '0' || c > '9') {
			break
		}
		p.pos++
	}
	text := p.src[start:p.pos]
	if p.style == "bf" {
		text = bold(text)
	}
	return mathml.Element("mn", mathml.Escape(text))
}

func (p *parser) identifier(s string) string {
	switch p.style {
	case "rm":
		return mathml.Upright(s)
	case "bf":
		return mathml.Element("mi", mathml.Escape(bold(s)))
	}
	return mathml.Italic(s)
}

// bold maps letters and digits to the bold ones of mathematical text.
func bold(s string) string {
	return strings.Map(func(r rune) rune {
		switch {
		case r >= 'A' && r <= 'Z':
			return r - 'A' + 0x1D400
		case r >= 'a' && r <= 'z':
			return r - 'a' + 0x1D41A
		case r >= '0' && r <= '9':
			return r - '0' + 0x1D7CE
		case r >= 'Α' && r <= 'Ω':
			return r - 'Α' + 0x1D6A8
		case r >= 'α' && r <= 'ω':
			return r - 'α' + 0x1D6C2
		}
		return r
	}, s)
}

// character classes a sign that stands for itself.
func character(r rune) sign {
	s := string(r)
	switch r {
	case '-':
		return sign{mathml.Minus, binary}
	case '*':
		return sign{"∗", binary}
	case '·':
		return sign{mathml.Dot, binary}
	case '+':
		return sign{s, binary}
	case '=', '<', '>', ':':
		return sign{s, relation}
	case '(', '[':
		return sign{s, opening}
	case ')', ']', '!':
		return sign{s, closing}
	case ',', ';':
		return sign{s, punctuation}
	}
	if known, ok := byText[s]; ok {
		return known
	}
	return sign{s, ordinary}
}

// sign sets a sign; a plus or minus after nothing, an operator or an opening
// belongs to what follows.
func (p *parser) sign(s sign, after class) item {
	it := item{class: s.class}
	text := mathml.Escape(s.text)
	switch s.class {
	case letterlike:
		it.ml = p.identifier(s.text)
	case ordinary:
		it.ml = mathml.Element(`mo form="infix" lspace="0" rspace="0" stretchy="false"`, text)
	case binary:
		form := "infix"
		if after != ordinary && after != letterlike && after != closing {
			form, it.class = "prefix", opening
		}
		it.ml = mathml.Element(`mo form="`+form+`"`, text)
	case relation:
		it.ml = mathml.Element(`mo form="infix" stretchy="false"`, text)
	case opening:
		it.ml = mathml.Element(`mo form="prefix" stretchy="false"`, text)
	case closing:
		it.ml = mathml.Element(`mo form="postfix" stretchy="false"`, text)
	case punctuation:
		it.ml = mathml.Element(`mo separator="true"`, text)
	case bigOperator:
		it.ml, it.limits = mathml.Element(`mo form="prefix" largeop="true" movablelimits="true"`, text), true
	case integral:
		it.ml = mathml.Element(`mo form="prefix" largeop="true"`, text)
	case named:
		it.ml = mathml.Upright(s.text)
		if slices.Contains(limited, s.text) {
			it.ml, it.limits = mathml.Element(`mo form="prefix" lspace="0" rspace="0" movablelimits="true"`, text), true
		}
	}
	return it
}

// scripts reads the primes, subscript and superscript of it.
func (p *parser) scripts(it item) (string, error) {
	var sub, sup string
	for {
		p.skipSpace()
		start := p.pos
		switch {
		case p.take("'"):
			n := 1
			for p.take("'") {
				n++
			}
			if sup != "" {
				return "", p.fail(start, "put the prime first", "superscript: got a prime after a superscript")
			}
			sup = mathml.Element("mo", []string{"", "′", "″", "‴"}[min(n, 3)]+strings.Repeat("′", max(n-3, 0)))
			if p.take("^") {
				more, err := p.argument("superscript")
				if err != nil {
					return "", err
				}
				sup = mathml.Row(sup, more)
			}
			continue
		case p.take("_"), p.take("^"):
			which, name := &sub, "subscript"
			if p.src[start] == '^' {
				which, name = &sup, "superscript"
			}
			if *which != "" {
				return "", p.fail(start, "group with braces, as in {x_a}_b", "%s: got two on one base", name)
			}
			var err error
			if *which, err = p.argument(name); err != nil {
				return "", err
			}
			continue
		}
		return script(it, sub, sup), nil
	}
}

func script(it item, sub, sup string) string {
	names := [3]string{"msub", "msup", "msubsup"}
	if it.limits {
		names = [3]string{"munder", "mover", "munderover"}
	}
	switch {
	case sub != "" && sup != "":
		return mathml.Element(names[2], it.ml, sub, sup)
	case sub != "":
		return mathml.Element(names[0], it.ml, sub)
	case sup != "":
		return mathml.Element(names[1], it.ml, sup)
	}
	return it.ml
}

// argument reads a group, a command or one character.
func (p *parser) argument(of string) (string, error) {
	p.skipSpace()
	if p.atEnd() || strings.IndexByte("^_'", p.src[p.pos]) >= 0 {
		return "", p.fail(p.pos, "write a letter, a digit or a group in braces", "argument of %s: got none", of)
	}
	if p.depth >= maxDepth {
		return "", p.fail(p.pos, "write it in parts", "nesting: got more than %d levels", maxDepth)
	}
	p.depth++
	defer func() { p.depth-- }()
	if c := p.src[p.pos]; c >= '0' && c <= '9' || p.style == "rm" && c|0x20 >= 'a' && c|0x20 <= 'z' {
		p.pos++
		if c > '9' {
			return mathml.Upright(string(c)), nil
		}
		return mathml.Element("mn", string(c)), nil
	}
	it, err := p.item(opening)
	return it.ml, err
}

// group reads {…}.
func (p *parser) group() (string, error) {
	start := p.pos
	p.pos++
	ml, err := p.row(0)
	if err != nil {
		return "", err
	}
	if !p.take("}") {
		return "", p.fail(start, "close it with }", "group: got no end")
	}
	return mathml.Row(ml), nil
}

// raw reads {…} as plain text, in which \ makes a sign stand for itself.
func (p *parser) raw(of string) (string, error) {
	p.skipSpace()
	start := p.pos
	if !p.take("{") {
		return "", p.fail(start, "write it in braces", "argument of %s: got none", of)
	}
	var out strings.Builder
	for level := 0; p.pos < len(p.src); {
		c := p.src[p.pos]
		p.pos++
		switch {
		case c == '\\' && p.pos < len(p.src) && strings.IndexByte(`{}%$#&_\`, p.src[p.pos]) >= 0:
			c = p.src[p.pos]
			p.pos++
		case c == '\\':
			return "", p.fail(p.pos-1, "close the text before it", "text: got a command, want plain text")
		case c == '~':
			c = ' '
		case c == '{':
			level++
			continue
		case c == '}' && level == 0:
			return out.String(), nil
		case c == '}':
			level--
			continue
		}
		out.WriteByte(c)
	}
	return "", p.fail(start, "close it with }", "text: got no end")
}

// command reads a command and its arguments.
func (p *parser) command(after class) (item, error) {
	start := p.pos
	name := p.peekCommand()
	p.pos += 1 + len(name)
	if s, ok := signs[name]; ok {
		return p.sign(s, after), nil
	}
	if w, ok := widths[name]; ok {
		return item{ml: mathml.Element(`mspace width="` + w + `em"`), class: after}, nil
	}
	if a, ok := accents[name]; ok {
		return p.accent(name, a)
	}
	if tag, ok := lines[name]; ok {
		ml, err := p.argument(name)
		return item{ml: mathml.Element(tag, ml)}, err
	}
	if style, ok := styles[name]; ok {
		was := p.style
		p.style = style
		ml, err := p.argument(name)
		p.style = was
		return item{ml: ml}, err
	}
	if slices.Contains(texts, name) {
		s, err := p.raw(name)
		return item{ml: mathml.Text(s)}, err
	}
	switch name {
	case "frac", "dfrac", "tfrac":
		return p.fraction(name)
	case "sqrt":
		return p.sqrt()
	case "operatorname":
		p.take("*")
		s, err := p.raw(name)
		return item{ml: mathml.Upright(s), class: named}, err
	case "left":
		return p.fenced(start)
	case "begin":
		return p.environment(start)
	case "overset", "underset":
		return p.stacked(name)
	case "":
		return item{}, p.fail(start, `write \backslash for the sign itself`, "command: got none after the backslash")
	}
	hint := ""
	if near := nearest(name, commands()); near != "" {
		hint = `the nearest is \` + near
	}
	return item{}, p.fail(start, hint, `command: got unknown \%s`, name)
}

func (p *parser) arguments(of string) (a, b string, err error) {
	if a, err = p.argument(of); err == nil {
		b, err = p.argument(of)
	}
	return a, b, err
}

func (p *parser) fraction(name string) (item, error) {
	num, den, err := p.arguments(name)
	ml := mathml.Element("mfrac", num, den)
	switch name {
	case "dfrac":
		ml = mathml.Element(`mstyle displaystyle="true" scriptlevel="0"`, ml)
	case "tfrac":
		ml = mathml.Element(`mstyle displaystyle="false" scriptlevel="0"`, ml)
	}
	return item{ml: ml}, err
}

func (p *parser) stacked(name string) (item, error) {
	mark, base, err := p.arguments(name)
	tag := "mover"
	if name == "underset" {
		tag = "munder"
	}
	return item{ml: mathml.Element(tag, base, mark)}, err
}

func (p *parser) sqrt() (item, error) {
	p.skipSpace()
	index := ""
	if start := p.pos; p.take("[") {
		var err error
		if index, err = p.row(']'); err != nil {
			return item{}, err
		}
		if !p.take("]") {
			return item{}, p.fail(start, "close it with ]", "index of sqrt: got no end")
		}
	}
	x, err := p.argument("sqrt")
	if index != "" {
		return item{ml: mathml.Element("mroot", x, mathml.Row(index))}, err
	}
	return item{ml: mathml.Element("msqrt", x)}, err
}

func (p *parser) accent(name string, a accent) (item, error) {
	x, err := p.argument(name)
	mark := mathml.Element(`mo stretchy="`+fmt.Sprint(a.wide)+`"`, a.mark)
	tag := `mover accent="true"`
	if a.under {
		tag = `munder accentunder="true"`
	}
	return item{ml: mathml.Element(tag, x, mark), limits: strings.HasSuffix(name, "brace")}, err
}

// fenced reads what follows \left up to its \right.
func (p *parser) fenced(start int) (item, error) {
	open, err := p.delimiter("left")
	if err != nil {
		return item{}, err
	}
	inner, err := p.row(0)
	if err != nil {
		return item{}, err
	}
	if !p.takeCommand("right") {
		return item{}, p.fail(start, `close it with \right`, `\left: got no \right`)
	}
	close, err := p.delimiter("right")
	return item{ml: fences(open, mathml.Row(inner), close)}, err
}

// fences sets inner between fences that grow with it; an empty one is left out.
func fences(open, inner, close string) string {
	if open != "" {
		open = mathml.Element(`mo form="prefix" fence="true" stretchy="true"`, mathml.Escape(open))
	}
	if close != "" {
		close = mathml.Element(`mo form="postfix" fence="true" stretchy="true"`, mathml.Escape(close))
	}
	return mathml.Row(open, inner, close)
}

// delimiter reads the fence after \left or \right; the dot is none.
func (p *parser) delimiter(of string) (string, error) {
	p.skipSpace()
	if name := p.peekCommand(); name != "" {
		if s := signs[name]; s.class == opening || s.class == closing || s.text == "|" || s.text == "‖" {
			if s.text != "" {
				p.pos += 1 + len(name)
				return s.text, nil
			}
		}
	} else if p.pos < len(p.src) && strings.IndexByte("()[]|/.", p.src[p.pos]) >= 0 {
		p.pos++
		return strings.TrimSuffix(p.src[p.pos-1:p.pos], "."), nil
	}
	return "", p.fail(p.pos, `use ( ) [ ] | \{ \} \langle \rangle \lfloor \rfloor \lceil \rceil or a dot for none`,
		`fence after \%s: got none`, of)
}

// environment reads what follows \begin up to its \end.
func (p *parser) environment(start int) (item, error) {
	name, err := p.raw("begin")
	if err != nil {
		return item{}, err
	}
	env, ok := environments[name]
	if !ok {
		var known []string
		for n := range environments {
			known = append(known, n)
		}
		slices.Sort(known)
		return item{}, p.fail(start, "known are "+strings.Join(known, ", "), "environment: got unknown %q", name)
	}
	rows, err := p.table(name)
	if err != nil {
		return item{}, err
	}
	at := p.pos
	if !p.takeCommand("end") {
		return item{}, p.fail(start, `close it with \end{`+name+`}`, `\begin{%s}: got no \end`, name)
	}
	if end, err := p.raw("end"); err != nil || end != name {
		return item{}, p.fail(at, "", `\end: got %q, want %q`, end, name)
	}
	return item{ml: fences(env.open, env.set(rows), env.close)}, nil
}

// table reads rows of cells up to \end, or of a whole formula when env is empty.
func (p *parser) table(env string) ([][]string, error) {
	rows := [][]string{nil}
	for {
		cell, err := p.row(0)
		if err != nil {
			return nil, err
		}
		last := len(rows) - 1
		rows[last] = append(rows[last], cell)
		start := p.pos
		switch {
		case p.pos >= len(p.src):
			return trim(rows), nil
		case env != "" && p.take("&"):
		case p.takeCommand(`\`):
			rows = append(rows, nil)
			if p.take("[") { // more space between the lines; ours stays
				end := strings.IndexByte(p.src[p.pos:], ']')
				if end < 0 {
					return nil, p.fail(start, "close it with ]", `space after \\: got no end`)
				}
				p.pos += end + 1
			}
		case p.peekCommand() == "end" && env != "":
			return trim(rows), nil
		case p.src[p.pos] == '&':
			return nil, p.fail(start, `write \& for the sign itself, or \begin{aligned}`, "column: got & outside a table")
		case p.src[p.pos] == '}':
			return nil, p.fail(start, "take it out or open it with {", "group: got an end without a start")
		default:
			return nil, p.fail(start, "", `command: got \%s without its start`, p.peekCommand())
		}
	}
}

// trim takes off an empty last row, left by a \\ at the end.
func trim(rows [][]string) [][]string {
	if last := rows[len(rows)-1]; len(rows) > 1 && len(last) == 1 && last[0] == "" {
		return rows[:len(rows)-1]
	}
	return rows
}

func (env environment) set(rows [][]string) string {
	var out []string
	for _, row := range rows {
		var cells []string
		for i, cell := range row {
			cells = append(cells, mathml.Element(env.columns[i%len(env.columns)], cell))
		}
		out = append(out, mathml.Element("mtr", cells...))
	}
	if env.display {
		return mathml.Element(`mtable displaystyle="true"`, out...)
	}
	return mathml.Element("mtable", out...)
}
