package tex

import (
	"errors"
	"strings"
	"testing"

	"tautline/render/mathml/core"

	"tautline/render/mathml"
)

func TestTeX(t *testing.T) {
	const (
		minusIn  = `<mo form="infix">−</mo>`
		equals   = `<mo form="infix" stretchy="false">=</mo>`
		open     = `<mo form="prefix" stretchy="false">(</mo>`
		close    = `<mo form="postfix" stretchy="false">)</mo>`
		growOpen = `<mo form="prefix" fence="true" stretchy="true">(</mo>`
		growEnd  = `<mo form="postfix" fence="true" stretchy="true">)</mo>`
		sum      = `<mo form="prefix" largeop="true" movablelimits="true">∑</mo>`
		call     = "<mo>\u2061</mo>" + mathml.Space
	)
	for _, c := range []struct{ src, want string }{
		{`x`, `<mi>x</mi>`},
		{`12.5`, `<mn>12.5</mn>`},
		{`x^2`, `<msup><mi>x</mi><mn>2</mn></msup>`},
		{`x^23`, `<msup><mi>x</mi><mn>2</mn></msup><mn>3</mn>`},
		{`x_{12}^n`, `<msubsup><mi>x</mi><mrow><mn>12</mn></mrow><mi>n</mi></msubsup>`},
		{`x^n_a`, `<msubsup><mi>x</mi><mi>a</mi><mi>n</mi></msubsup>`},
		{`x'`, `<msup><mi>x</mi><mo>′</mo></msup>`},
		{`x''^2`, `<msup><mi>x</mi><mrow><mo>″</mo><mn>2</mn></mrow></msup>`},
		{`\frac ab`, `<mfrac><mi>a</mi><mi>b</mi></mfrac>`},
		{`\frac12`, `<mfrac><mn>1</mn><mn>2</mn></mfrac>`},
		{`\tfrac12`, `<mstyle displaystyle="false" scriptlevel="0"><mfrac><mn>1</mn><mn>2</mn></mfrac></mstyle>`},
		{`\sqrt x`, `<msqrt><mi>x</mi></msqrt>`},
		{`\sqrt[3]{x}`, `<mroot><mrow><mi>x</mi></mrow><mrow><mn>3</mn></mrow></mroot>`},
		{`a - b`, `<mi>a</mi>` + minusIn + `<mi>b</mi>`},
		{`a = -b`, `<mi>a</mi>` + equals + `<mo form="prefix">−</mo><mi>b</mi>`},
		{`(-b)`, open + `<mo form="prefix">−</mo><mi>b</mi>` + close},
		{`\left( x \right)`, `<mrow>` + growOpen + `<mrow><mi>x</mi></mrow>` + growEnd + `</mrow>`},
		{`\left. x \right)`, `<mrow><mrow><mi>x</mi></mrow>` + growEnd + `</mrow>`},
		{`\sum_{i}^n i`, `<munderover>` + sum + `<mrow><mi>i</mi></mrow><mi>n</mi></munderover><mi>i</mi>`},
		{`\int_0^1`, `<msubsup><mo form="prefix" largeop="true">∫</mo><mn>0</mn><mn>1</mn></msubsup>`},
		{`\sin x`, `<mi>sin</mi>` + call + `<mi>x</mi>`},
		{`\sin(x)`, `<mi>sin</mi>` + open + `<mi>x</mi>` + close},
		{`2\sin^2 x`, `<mn>2</mn>` + mathml.Space + `<msup><mi>sin</mi><mn>2</mn></msup>` + call + `<mi>x</mi>`},
		{`\operatorname{rank}A`, `<mi>rank</mi>` + call + `<mi>A</mi>`},
		{`\sigma_{\mathrm{max}}`, `<msub><mi>σ</mi><mrow><mrow><mi>max</mi></mrow></mrow></msub>`},
		{`\phi\varphi\Delta`, `<mi>φ</mi><mi>φ</mi><mi mathvariant="normal">Δ</mi>`},
		{`\mathbf{v1}`, `<mrow><mi>𝐯</mi><mn>𝟏</mn></mrow>`},
		{`\mathrm dx`, `<mi mathvariant="normal">d</mi><mi>x</mi>`},
		{`\text{if } x`, "<mtext>if\u00a0</mtext><mi>x</mi>"},
		{`\text{a {b} \% \{}`, "<mtext>a\u00a0b\u00a0%\u00a0{</mtext>"},
		{`a\,b\quad c`, `<mi>a</mi><mspace width="0.1667em"></mspace><mi>b</mi><mspace width="1em"></mspace><mi>c</mi>`},
		{`\dot x`, `<mover accent="true"><mi>x</mi><mo stretchy="false">˙</mo></mover>`},
		{`\begin{matrix} 1 & 2 \\ 3 & 4 \end{matrix}`,
			`<mrow><mtable><mtr><mtd><mn>1</mn></mtd><mtd><mn>2</mn></mtd></mtr><mtr><mtd><mn>3</mn></mtd><mtd><mn>4</mn></mtd></mtr></mtable></mrow>`},
		{`<"`, `<mo form="infix" stretchy="false">&lt;</mo><mo form="infix" lspace="0" rspace="0" stretchy="false">&#34;</mo>`},
		{``, ``},
	} {
		got, err := MathML(c.src, false)
		if err != nil {
			t.Errorf("TeX(%s): %v", c.src, err)
			continue
		}
		wellFormed(t, c.src, got)
		_, got, _ = strings.Cut(got, ">")
		if want := "<mrow>" + c.want + "</mrow></math>"; got != want {
			t.Errorf("TeX(%s) =\n%s, want\n%s", c.src, got, want)
		}
	}
}

// TestTeXForms has formulas of every other kind; each must be well-formed.
func TestTeXForms(t *testing.T) {
	for _, src := range []string{
		`\bar x \hat x \ddot x \vec x \tilde x \overline{AB} \underline{AB} \widehat{AB} \underbrace{a+b}_{n}`,
		`\begin{pmatrix} a \\ b \end{pmatrix} \begin{bmatrix} a & b \end{bmatrix} \begin{vmatrix} a \end{vmatrix}`,
		`f = \begin{cases} 1 & x > 0 \\[2pt] 0 & \text{else} \\ \end{cases}`,
		`\begin{aligned} a &= b \\ &= c & d &= e \end{aligned}`,
		`a = b \\ c = d \\`,
		`\lim_{x\to\infty} \max_i \ln\frac{a}{b} \exp(x)`,
		`30^\circ, 20\,\degree\mathrm{C}, 5\,\%, \mathrm{kN/m^2}`,
		`\left\lfloor \frac{n}{2} \right\rfloor \left\{ x \right\} \left| x \right| \left\langle x \right\rangle`,
		`a \pm b \times c \cdot d \le e \ge f \ne g \approx h \sim i \partial \nabla \prod_{i=1}^n`,
		`{}^2_3 x + _a b + \overset{!}{=} \underset{x}{y}`,
		`α ≤ 2·β − Ω ∑ 3² § 中`,
		`\mathbf{\alpha A1} \mathrm{a_bc}`,
		"a \u202e b \x00 \xff",
	} {
		for _, display := range []bool{false, true} {
			got, err := MathML(src, display)
			if err != nil {
				t.Errorf("TeX(%s): %v", src, err)
				continue
			}
			wellFormed(t, src, got)
		}
	}
	for name := range signs {
		got, err := MathML(`a \`+name+` b`, false)
		if err != nil {
			t.Errorf(`\%s: %v`, name, err)
		}
		wellFormed(t, name, got)
	}
}

func TestTeXErrors(t *testing.T) {
	for _, c := range []struct {
		src    string
		offset int
		want   string
	}{
		{`a + \fracc{1}{2}`, 4, `command: got unknown \fracc (the nearest is \frac)`},
		{`\sgima`, 0, `command: got unknown \sgima (the nearest is \sigma)`},
		{`\zzzzzzzz`, 0, `command: got unknown \zzzzzzzz`},
		{`\newcommand{\x}{y}`, 0, `command: got unknown \newcommand`},
		{`{a`, 0, `group: got no end (close it with })`},
		{`a}`, 1, `group: got an end without a start (take it out or open it with {)`},
		{`a & b`, 2, `column: got & outside a table (write \& for the sign itself, or \begin{aligned})`},
		{`x^`, 2, `argument of superscript: got none (write a letter, a digit or a group in braces)`},
		{`\frac{1}`, 8, `argument of frac: got none (write a letter, a digit or a group in braces)`},
		{`x^a^b`, 3, `superscript: got two on one base (group with braces, as in {x_a}_b)`},
		{`x^a'`, 3, `superscript: got a prime after a superscript (put the prime first)`},
		{`\left( x`, 0, `\left: got no \right (close it with \right)`},
		{`x \right)`, 2, `command: got \right without its start`},
		{`\left x \right)`, 6, `fence after \left: got none (use ( ) [ ] | \{ \} \langle \rangle \lfloor \rfloor \lceil \rceil or a dot for none)`},
		{`\begin{table} a \end{table}`, 0, `environment: got unknown "table" (known are aligned, bmatrix, cases, matrix, pmatrix, vmatrix)`},
		{`\begin{cases} a`, 0, `\begin{cases}: got no \end (close it with \end{cases})`},
		{`\begin{cases} a \end{matrix}`, 16, `\end: got "matrix", want "cases"`},
		{`5%`, 1, `sign: got '%', want a formula (write \% for the sign itself)`},
		{`\text{a`, 5, `text: got no end (close it with })`},
		{`\text{\alpha}`, 6, `text: got a command, want plain text (close the text before it)`},
		{`\text a`, 6, `argument of text: got none (write it in braces)`},
		{`\sqrt[3`, 5, `index of sqrt: got no end (close it with ])`},
		{`a \\[2`, 2, `space after \\: got no end (close it with ])`},
		{`a\`, 1, `command: got none after the backslash (write \backslash for the sign itself)`},
		{strings.Repeat("{", 1000), 40, `nesting: got more than 40 levels (write it in parts)`},
		{strings.Repeat(`\sqrt`, 1000), 200, `nesting: got more than 40 levels (write it in parts)`},
		{strings.Repeat(`x^`, 1000), 3, `superscript: got two on one base (group with braces, as in {x_a}_b)`},
	} {
		_, err := MathML(c.src, false)
		var te *Error
		if !errors.As(err, &te) {
			t.Errorf("TeX(%.30s): got error %v, want a *TeXError", c.src, err)
			continue
		}
		if _, got, _ := strings.Cut(err.Error(), ": "); te.Offset != c.offset || got != c.want {
			t.Errorf("TeX(%.30s): got %d: %s, want %d: %s", c.src, te.Offset, got, c.offset, c.want)
		}
	}
}

func FuzzTeX(f *testing.F) {
	for _, src := range []string{`\frac{p\,r}{2t} \le \sigma_{\mathrm{max}}^2`, `\begin{cases} a & b \\ c \end{cases}`,
		`\left[ \sqrt[3]{x'} \right]`, `\text{a\%b}`, `\sum_{i=1}^n \vec{x}_i`, `\mathbf{v}\operatorname*{lim}_x`, `a \\[2pt] b`} {
		f.Add(src)
	}
	f.Fuzz(func(t *testing.T, src string) {
		got, err := MathML(src, true)
		if err != nil {
			var te *Error
			if !errors.As(err, &te) || te.Offset < 0 || te.Offset > len(src) {
				t.Fatalf("TeX(%q): error %#v", src, err)
			}
			return
		}
		wellFormed(t, src, got)
	})
}

// wellFormed checks that s is just one well-formed element of MathML Core.
func wellFormed(t *testing.T, what, s string) {
	t.Helper()
	if _, err := core.Parse(s); err != nil {
		t.Fatalf("%s: %v\n%s", what, err, s)
	}
}
