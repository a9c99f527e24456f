package tex

import (
	"maps"
	"slices"
	"strings"
	"unicode/utf8"

	"tautline/render/mathml"
)

// A class says how a TeX symbol stands beside others.
type class int

const (
	ordinary   class = iota
	letterlike       // as ordinary, set as an identifier
	binary
	relation
	opening
	closing
	punctuation
	bigOperator // ∑, with limits under and over
	integral
	named // sin, lim
)

// A sign is what a TeX command prints.
type sign struct {
	text  string
	class class
}

// signs are the commands that print one sign, and byText the same by the sign.
var signs, byText = map[string]sign{}, map[string]sign{}

func init() {
	for name, letter := range mathml.Greek {
		signs[name] = sign{letter, letterlike}
		byText[letter] = signs[name]
	}
	for _, g := range []struct {
		class class
		list  string
	}{
		{letterlike, `varepsilon ε varphi φ vartheta ϑ varrho ϱ varsigma ς ell ℓ hbar ℏ imath ı jmath ȷ
			Re ℜ Im ℑ partial ∂ nabla ∇ infty ∞ emptyset ∅ varnothing ∅`},
		{ordinary, `degree ° prime ′ angle ∠ triangle △ forall ∀ exists ∃ neg ¬ lnot ¬ dots … ldots … cdots ⋯
			vdots ⋮ ddots ⋱ top ⊤ bot ⊥ % % # # & & $ $ _ _ | ‖ Vert ‖ vert | backslash \ circ ∘ checkmark ✓`},
		{binary, `cdot ⋅ times × div ÷ pm ± mp ∓ ast ∗ star ⋆ bullet ∙ cap ∩ cup ∪ setminus ∖
			land ∧ wedge ∧ lor ∨ vee ∨ oplus ⊕ otimes ⊗`},
		{relation, `le ≤ leq ≤ ge ≥ geq ≥ ne ≠ neq ≠ ll ≪ gg ≫ approx ≈ sim ∼ simeq ≃ cong ≅ equiv ≡
			propto ∝ perp ⊥ parallel ∥ mid ∣ in ∈ notin ∉ ni ∋ subset ⊂ subseteq ⊆ supset ⊃ supseteq ⊇
			lt < gt > to → rightarrow → leftarrow ← gets ← leftrightarrow ↔ uparrow ↑ downarrow ↓ mapsto ↦
			Rightarrow ⇒ Leftarrow ⇐ Leftrightarrow ⇔ implies ⟹ iff ⟺ therefore ∴ because ∵`},
		{opening, `{ { lbrace { langle ⟨ lfloor ⌊ lceil ⌈ lvert | lVert ‖ lbrack [`},
		{closing, `} } rbrace } rangle ⟩ rfloor ⌋ rceil ⌉ rvert | rVert ‖ rbrack ]`},
		{bigOperator, `sum ∑ prod ∏ coprod ∐ bigcup ⋃ bigcap ⋂`},
		{integral, `int ∫ iint ∬ iiint ∭ oint ∮`},
	} {
		fields := strings.Fields(g.list)
		for i := 0; i+1 < len(fields); i += 2 {
			s := sign{fields[i+1], g.class}
			signs[fields[i]] = s
			if _, ok := byText[s.text]; !ok {
				byText[s.text] = s
			}
		}
	}
	for _, name := range strings.Fields(`sin cos tan cot sec csc sinh cosh tanh coth arcsin arccos arctan
		ln log lg exp det deg dim ker arg gcd lim max min sup inf`) {
		signs[name] = sign{name, named}
	}
}

// limited are the functions whose subscript stands below them.
var limited = strings.Fields("lim max min sup inf det gcd")

// widths of the spacing commands, in em.
var widths = map[string]string{
	",": "0.1667", ":": "0.2222", ">": "0.2222", ";": "0.2778", "!": "-0.1667", " ": "0.25", "~": "0.25",
	"thinspace": "0.1667", "enspace": "0.5", "quad": "1", "qquad": "2",
}

// An accent stands over or under its argument.
type accent struct {
	mark        string
	under, wide bool
}

var accents = map[string]accent{
	"bar": {mark: "¯"}, "hat": {mark: "^"}, "dot": {mark: "˙"}, "ddot": {mark: "¨"},
	"vec": {mark: "→"}, "tilde": {mark: "~"},
	"widehat": {mark: "^", wide: true}, "widetilde": {mark: "~", wide: true},
	"overbrace": {mark: "⏞", wide: true}, "underbrace": {mark: "⏟", under: true, wide: true},
}

// lines are rules over or under an argument. Few fonts have a stroke that
// stretches, so the rule is a border.
var lines = map[string]string{
	"overline":  `mrow style="border-top:0.06em solid;padding-top:0.12em"`,
	"underline": `mrow style="border-bottom:0.06em solid;padding-bottom:0.12em"`,
}

// An environment is a table in fences.
type environment struct {
	open, close string
	columns     []string // repeated
	display     bool
}

var environments = map[string]environment{
	"matrix":  {columns: []string{"mtd"}},
	"pmatrix": {open: "(", close: ")", columns: []string{"mtd"}},
	"bmatrix": {open: "[", close: "]", columns: []string{"mtd"}},
	"vmatrix": {open: "|", close: "|", columns: []string{"mtd"}},
	"cases":   {open: "{", columns: []string{`mtd style="text-align:left"`}},
	"aligned": {columns: []string{mathml.CellRight, mathml.CellLeft}, display: true},
}

// styles are the commands that change the letters of their argument.
var styles = map[string]string{"mathrm": "rm", "mathbf": "bf", "mathit": "", "mathnormal": ""}

// texts are the commands whose argument is plain text.
var texts = strings.Fields("text textrm mbox")

// structures are the commands that the parser knows itself.
var structures = strings.Fields(`frac dfrac tfrac sqrt operatorname left right begin end overset underset`)

// commands returns every known command.
func commands() []string {
	return slices.Concat(structures,
		slices.Collect(maps.Keys(signs)), slices.Collect(maps.Keys(widths)),
		slices.Collect(maps.Keys(accents)), slices.Collect(maps.Keys(lines)),
		slices.Collect(maps.Keys(styles)), texts)
}

// nearest returns the name of list most like word, empty if none is near.
func nearest(word string, list []string) string {
	slices.Sort(list)
	best, least := "", max(1, utf8.RuneCountInString(word)/2)+1
	for _, name := range list {
		if d := distance(word, name); d < least && utf8.RuneCountInString(name) > 1 {
			best, least = name, d
		}
	}
	return best
}

// distance counts the letters to insert, delete or replace to make a of b.
func distance(a, b string) int {
	ra, rb := []rune(a), []rune(b)
	if len(ra) > 40 {
		return len(ra)
	}
	row := make([]int, len(rb)+1)
	for j := range row {
		row[j] = j
	}
	for i, x := range ra {
		diagonal := row[0]
		row[0] = i + 1
		for j, y := range rb {
			cost := 1
			if x == y {
				cost = 0
			}
			next := min(row[j]+1, row[j+1]+1, diagonal+cost)
			diagonal, row[j+1] = row[j+1], next
		}
	}
	return row[len(rb)]
}
