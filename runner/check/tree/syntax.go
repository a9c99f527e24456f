package tree

import (
	"fmt"
	"go/parser"
	"go/scanner"
	"go/token"
	"regexp"
	"strings"

	"tautline/runner/document"
	"tautline/stdlib/quantity"
)

// parserMode reads every error of a text; names are resolved by go/types.
const parserMode = parser.SkipObjectResolution | parser.AllErrors | parser.ParseComments

// spelling reads the tokens of a cell and finds what keeps its text from being
// read at all: a text without its closing quote, a bracket without its other
// half. The parser would report these far from their place, and more besides.
func (t *Tree) spelling(c *Cell) ([]lexeme, []document.Diagnostic) {
	var diags []document.Diagnostic
	toks := scan(c.text, 0, func(offset int, message string) {
		diags = append(diags, t.ErrorAt(c.at(offset, 1), message, spellingHints[message]))
	})
	if len(diags) > 0 {
		return nil, diags
	}
	return toks, t.brackets(c, toks)
}

var spellingHints = map[string]string{
	"string literal not terminated":           `close the text with " on its line`,
	"rune literal not terminated":             `a text stands in double quotes, "so"`,
	"illegal rune literal":                    `a text stands in double quotes, "so"`,
	"more than one character in rune literal": `a text stands in double quotes, "so"`,
	"comment not terminated":                  "end it with */",
}

var closing = map[token.Token]token.Token{token.LPAREN: token.RPAREN, token.LBRACK: token.RBRACK, token.LBRACE: token.RBRACE}

// brackets finds those without their other half.
func (t *Tree) brackets(c *Cell, toks []lexeme) []document.Diagnostic {
	var diags []document.Diagnostic
	report := func(l lexeme, format, hint string) {
		diags = append(diags, t.ErrorAt(c.at(l.offset, 1), fmt.Sprintf(format, l.tok), hint))
	}
	unclosed := func(l lexeme) {
		report(l, "%s is never closed", fmt.Sprintf("put %s where it ends", closing[l.tok]))
	}
	var open []lexeme
	for _, l := range toks {
		switch l.tok {
		case token.LPAREN, token.LBRACK, token.LBRACE:
			open = append(open, l)
		case token.RPAREN, token.RBRACK, token.RBRACE:
			last := len(open) - 1
			for last >= 0 && closing[open[last].tok] != l.tok {
				last--
			}
			if last < 0 {
				report(l, "unexpected %s: it closes nothing in this cell", "take it out, or open what it should close")
				return diags // what follows is in doubt
			}
			for _, o := range open[last+1:] {
				unclosed(o)
			}
			open = open[:last]
		}
	}
	for _, o := range open {
		unclosed(o)
	}
	return diags
}

var (
	expectedPattern = regexp.MustCompile(`(?s)^expected (.+), found (.+)$`)
	parserWords     = map[string]string{
		"';'": "the end of the statement", "newline": "the end of the line", "'EOF'": "the end of the cell",
		"operand": "a value", "'IDENT'": "a name", "statement": "a statement", "type": "a type",
		"1 expression": "one value", "declaration": "a declaration", "selector or type assertion": "a name",
		"expression": "a value", "boolean or range expression": "a condition", "for loop condition": "a condition",
	}
)

// syntaxErrors is what is wrong with the syntax of a cell. Every statement is
// read on its own, as the parser skips much of what follows a mistake.
func (t *Tree) syntaxErrors(c *Cell, toks []lexeme) []document.Diagnostic {
	text := c.text
	isDeclaration := map[int]bool{}
	for _, sp := range declarations(toks, len(text)) {
		isDeclaration[sp.from] = true
	}
	var diags []document.Diagnostic
	for _, sp := range statements(toks, len(text)) {
		head, tail := "package main; func _() {\n", "\n}\n"
		if isDeclaration[sp.from] {
			head, tail = "package main\n", ""
		}
		_, err := parser.ParseFile(token.NewFileSet(), "", head+text[sp.from:sp.to]+tail, parserMode)
		list, _ := err.(scanner.ErrorList)
		diags = append(diags, t.syntaxList(c, list, sp, sp.from-len(head), toks)...)
	}
	return diags
}

// syntaxList is the errors of one statement; shift leads from an offset in the
// parsed text to one in the cell.
func (t *Tree) syntaxList(c *Cell, list scanner.ErrorList, sp span, shift int, toks []lexeme) []document.Diagnostic {
	end := sp.from + len(strings.TrimRight(c.text[sp.from:sp.to], "; \t\n"))
	var diags []document.Diagnostic
	line := 0
	for _, e := range list {
		offset := e.Pos.Offset + shift
		if offset > end {
			if len(diags) > 0 {
				continue // it only follows from the others
			}
			offset = end
		}
		before, at := around(toks, offset)
		r := c.at(offset, len(at.text()))
		if r.Start.Line == line {
			continue // one is enough for a line
		}
		line = r.Start.Line
		message, hint := syntaxText(e.Msg, before, at)
		diags = append(diags, t.ErrorAt(r, message, hint))
	}
	return diags
}

// around is the token that begins at offset and the one before it.
func around(toks []lexeme, offset int) (before, at lexeme) {
	for _, t := range toks {
		if t.offset == offset && t.text() != "\n" {
			return before, t
		}
		if t.offset >= offset {
			break
		}
		before = t
	}
	return before, lexeme{}
}

// syntaxText says an error of the parser in plain words, with what to do.
func syntaxText(message string, before, at lexeme) (plain, hint string) {
	m := expectedPattern.FindStringSubmatch(message)
	if m == nil {
		if strings.Contains(message, "before newline in") {
			return message, "end the line with a comma, or close the bracket on it"
		}
		return message, ""
	}
	if m[1] == "boolean expression" && strings.HasPrefix(m[2], "assignment") {
		return "syntax: got an assignment, want a condition", "compare with =="
	}
	word := func(s string) string {
		if w, ok := parserWords[s]; ok {
			return w
		}
		s, _, cut := strings.Cut(strings.Trim(s, "'"), "\n")
		if cut {
			s += "…"
		}
		return strings.ReplaceAll(s, "\t", " ")
	}
	number := before.tok == token.INT || before.tok == token.FLOAT
	switch u, known := quantity.Lookup(at.lit); {
	case number && at.tok == token.IDENT && known && u.Code != "":
		hint = fmt.Sprintf("write %s*%s", before.lit, u.Code)
	case at.tok == token.ELSE:
		hint = "write } else { on one line"
	case at.tok == token.DEFINE || at.tok == token.ASSIGN:
		hint = "does the line above it go on here?"
	case m[1] == "';'":
		hint = "is an operator such as * missing before it? A statement ends with its line"
	}
	return fmt.Sprintf("syntax: got %s, want %s", word(m[2]), word(m[1])), hint
}
