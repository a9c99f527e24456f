package tree

import (
	"go/scanner"
	"go/token"
	"strings"
)

// split separates the func, type and import declarations of a cell with these
// tokens from its statements. Both texts have the length and the lines of src, with the other
// part blanked, so that a position in either is a position in src.
func split(src string, toks []lexeme) (decls, stmts string) {
	d, s := blank(src), []byte(src)
	for _, sp := range declarations(toks, len(src)) {
		copy(d[sp.from:sp.to], src[sp.from:sp.to])
		copy(s[sp.from:sp.to], blank(src[sp.from:sp.to]))
	}
	return string(d), string(s)
}

type span struct{ from, to int }

// declarations finds the byte spans of top-level func, type and import
// declarations in a cell of length size.
func declarations(toks []lexeme, size int) []span {
	var spans []span
	depth, from := 0, -1
	start := true // at the start of a statement
	for i, t := range toks {
		if start && depth == 0 && from < 0 && startsDeclaration(toks[i:]) {
			from = t.offset
		}
		start = false
		switch t.tok {
		case token.LBRACE, token.LPAREN, token.LBRACK:
			depth++
		case token.RBRACE, token.RPAREN, token.RBRACK:
			depth--
		case token.SEMICOLON:
			if depth != 0 {
				break
			}
			start = true
			if from >= 0 {
				to := t.offset
				if t.lit == ";" {
					to++
				}
				spans = append(spans, span{from, min(to, size)})
				from = -1
			}
		}
	}
	if from >= 0 {
		spans = append(spans, span{from, size})
	}
	return spans
}

// statements finds the byte spans of the top-level statements and declarations
// of a cell of length size.
func statements(toks []lexeme, size int) []span {
	var spans []span
	depth, from := 0, -1
	for _, t := range toks {
		if from < 0 {
			from = t.offset
		}
		switch t.tok {
		case token.LBRACE, token.LPAREN, token.LBRACK:
			depth++
		case token.RBRACE, token.RPAREN, token.RBRACK:
			depth--
		case token.SEMICOLON:
			if depth == 0 {
				spans = append(spans, span{from, min(t.offset+len(t.lit), size)})
				from = -1
			}
		}
	}
	if from >= 0 {
		spans = append(spans, span{from, size})
	}
	return spans
}

// startsDeclaration reports whether toks begin a declaration rather than a
// statement: `func f(` and `func (r T) m(` do, a function literal does not.
func startsDeclaration(toks []lexeme) bool {
	switch toks[0].tok {
	case token.TYPE, token.IMPORT:
		return true
	case token.FUNC:
	default:
		return false
	}
	if len(toks) < 2 || toks[1].tok == token.IDENT {
		return len(toks) >= 2
	}
	depth := 0
	for i, t := range toks[1:] {
		switch t.tok {
		case token.LPAREN:
			depth++
		case token.RPAREN:
			if depth--; depth == 0 {
				rest := toks[i+2:]
				return len(rest) > 1 && rest[0].tok == token.IDENT && rest[1].tok == token.LPAREN
			}
		}
	}
	return false
}

type lexeme struct {
	offset int
	tok    token.Token
	lit    string
}

// text is the token as it is written.
func (l lexeme) text() string {
	switch {
	case l.lit != "":
		return l.lit
	case l.tok == token.ILLEGAL: // none
		return ""
	}
	return l.tok.String()
}

// plainComments returns src with every comment that Go would take for a place
// in another file, such as `//line force: at the seam`, in a capital letter.
func plainComments(src string) string {
	if !strings.Contains(src, "//line ") && !strings.Contains(src, "/*line ") {
		return src
	}
	b := []byte(src)
	for _, t := range scan(src, scanner.ScanComments, func(int, string) {}) {
		if t.tok == token.COMMENT && len(t.lit) > 2 && strings.HasPrefix(t.lit[2:], "line ") {
			b[t.offset+2] = 'L'
		}
	}
	return string(b)
}

// scan reads the tokens of src and reports what is none.
func scan(src string, mode scanner.Mode, report func(offset int, message string)) []lexeme {
	file := token.NewFileSet().AddFile("", -1, len(src))
	var s scanner.Scanner
	s.Init(file, []byte(src), func(at token.Position, message string) { report(at.Offset, message) }, mode)
	var toks []lexeme
	for {
		pos, tok, lit := s.Scan()
		if tok == token.EOF {
			return toks
		}
		toks = append(toks, lexeme{file.Offset(pos), tok, lit})
	}
}

func blank(src string) []byte {
	b := []byte(src)
	for i, c := range b {
		if c != '\n' && c != '\t' {
			b[i] = ' '
		}
	}
	return b
}
