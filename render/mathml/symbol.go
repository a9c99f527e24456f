package mathml

import (
	"slices"
	"strings"
	"unicode"
)

// Symbol prints a Go name as the symbol that an engineer would write. A dotted
// name x.F prints F with subscript x.
//
//	sigma, Omega       the Greek letter: σ, Ω
//	p, N               one letter, slanted
//	p0, r12, gammaM1   digits at the end are a subscript
//	qp, Et             two letters: the second is a subscript of the first
//	pBed, NInner       a letter and a capitalised word: p_bed, N_inner
//	Tseam, vmax        T_seam; of small letters only max, min, ref, req, tot, eff, avg, crit
//	sigmaMax, muStake  the same after a Greek letter: σ_max, μ_stake
//	MEd, NRd           the Eurocodes' subscripts keep their capital: M_Ed, N_Rd
//	T_seam, load_max   what follows an underscore is a subscript
//	deltaP, DeltaT1    delta or Delta right before a letter: the change of it, δP, ΔT_1
//	pitch, ringRadius  longer words stay upright words: pitch, ring radius
//
// A capitalised word of the trade (Pitch, Height…) and a run of capitals (EI,
// ULS) stay words too, and so do small words of two letters (to, at…). Names
// that are read alike but written differently (Tseam, T_seam, TSeam) print
// alike; so do x1 and x[1]. What is no plain name is printed as it stands.
func Symbol(name string) string { return symbol(name).ml }

// SymbolText is the symbol of a Go name as plain text, such as "σ_max". Two
// names print alike just if their texts are equal.
func SymbolText(name string) string { return symbol(name).text }

// Name prints a Go name upright just as it is written, so that it can be looked
// up.
func Name(name string) string { return Upright(name) }

// Greek are the Greek letters by their names in ASCII letters.
var Greek = map[string]string{
	"alpha": "α", "beta": "β", "gamma": "γ", "delta": "δ", "epsilon": "ε", "zeta": "ζ",
	"eta": "η", "theta": "θ", "iota": "ι", "kappa": "κ", "lambda": "λ", "mu": "μ", "nu": "ν",
	"xi": "ξ", "pi": "π", "rho": "ρ", "sigma": "σ", "tau": "τ", "upsilon": "υ", "phi": "φ",
	"chi": "χ", "psi": "ψ", "omega": "ω",
	"Gamma": "Γ", "Delta": "Δ", "Theta": "Θ", "Lambda": "Λ", "Xi": "Ξ", "Pi": "Π",
	"Sigma": "Σ", "Upsilon": "Υ", "Phi": "Φ", "Psi": "Ψ", "Omega": "Ω",
}

const greekCapitals = "ΓΔΘΛΞΠΣΥΦΨΩ"

// words are capitalised names that are not a letter with a subscript.
var words = set(`Acceleration Allowance Anchor Angle Area Arm Axis Baffle Bag Ballast Base Bay
	Beam Bed Blower Bolt Bottom Cable Capacity Case Chord Coefficient Count Cover Deck Deflection
	Demand Density Depth Diameter Distance Drag Duration Energy Extent Fabric Factor Fall Fan Flow
	Foot Force Frame Friction Gap Ground Gust Heel Height Hoop Inertia Jerk Joint Leak Leg Length
	Lift Limit Line Load Margin Mass Mast Mattress Moment Mount Net Number Offset Panel Pitch Pole
	Post Power Pressure Radius Rate Ratio Reach Rider Ring Rise Roll Rope Safety Sag Seam Shape
	Side Site Size Slack Slope Soil Span Speed Spring Stake Step Stiffness Stop Strain Strap Strength
	Stress Strip Stroke Support Surface Tension Thickness Tie Time Top Torque Total Travel Tube
	Turn Utilisation Value Velocity Volume Wall Web Weight Weld Width Wind Wire Work Yaw Yield Zone`)

// small are words of two letters that are not a letter with a subscript.
var small = set("an as at by do go id if in is it no of ok on or to up us we")

// kept are subscripts whose capital stays: those of the Eurocodes for a design or a
// characteristic value, of an effect or a resistance.
var kept = set("Ed Rd Sd Ek Rk Sk")

// tails are subscripts that need no capital.
var tails = []string{"max", "min", "ref", "req", "tot", "eff", "avg", "crit"}

func set(list string) map[string]bool {
	m := map[string]bool{}
	for _, w := range strings.Fields(list) {
		m[w] = true
	}
	return m
}

// symbol returns the printed form of a name.
func symbol(name string) box {
	if i := strings.LastIndexByte(name, '.'); i > 0 && i < len(name)-1 {
		return field(name[i+1:]).withSub(symbol(name[:i]))
	}
	if !plain(name) {
		return atom(Upright(name), name)
	}
	head, tail, _ := strings.Cut(name, "_")
	pieces := split(head)
	first := pieces[0]
	if (first == "delta" || first == "Delta") && len(pieces) > 1 && changes(pieces[1]) {
		x := symbol(strings.TrimPrefix(name, first))
		return box{
			ml:   Element("mrow", Element(`mi mathvariant="normal"`, Greek[first]), x.ml),
			text: Greek[first] + x.text, width: x.width + 1,
			level: levelPrefix, textLevel: levelPrefix,
		}
	}
	base, rest := letter(first)
	if base == "" {
		return phrase(pieces, tail)
	}
	sub := join(slices.Concat([]string{""}, rest, pieces[1:]))
	return subscripted(atom(Italic(base), base), sub, tail)
}

// changes reports whether piece is a letter, or a letter with one of the tails,
// which delta before it makes a change of.
func changes(piece string) bool {
	r := []rune(piece)
	return unicode.IsLetter(r[0]) && (len(r) == 1 || slices.Contains(tails, string(r[1:])))
}

// plain reports whether name is letters and digits, perhaps in parts with one
// underscore between, and starts with a letter.
func plain(name string) bool {
	for i, part := range strings.Split(name, "_") {
		if part == "" {
			return false
		}
		for j, r := range part {
			if !unicode.IsLetter(r) && (!unicode.IsDigit(r) || i == 0 && j == 0) {
				return false
			}
		}
	}
	return true
}

// split cuts a name before each capital that starts a word and around digits.
func split(s string) []string {
	r := []rune(s)
	var out []string
	start := 0
	for i := 1; i < len(r); i++ {
		was, is := r[i-1], r[i]
		cut := unicode.IsDigit(was) != unicode.IsDigit(is) ||
			!unicode.IsUpper(was) && unicode.IsUpper(is) ||
			unicode.IsUpper(was) && unicode.IsUpper(is) && i+1 < len(r) && unicode.IsLower(r[i+1])
		if cut {
			out = append(out, string(r[start:i]))
			start = i
		}
	}
	return append(out, string(r[start:]))
}

// letter takes the letter off the front of the first piece of a name; base is
// empty if the piece is a word.
func letter(piece string) (base string, rest []string) {
	if g, ok := Greek[piece]; ok {
		return g, nil
	}
	r := []rune(piece)
	head, tail := string(r[0]), string(r[1:])
	switch {
	case len(r) == 1:
		return head, nil
	case len(r) == 2 && unicode.IsLower(r[1]) && !small[piece],
		unicode.IsUpper(r[0]) && unicode.IsLower(r[1]) && !words[piece],
		slices.Contains(tails, tail):
		return head, []string{tail}
	}
	return "", nil
}

// phrase is a name of upright words.
func phrase(pieces []string, tail string) box {
	sub := ""
	if last := len(pieces) - 1; last > 0 && !letters(pieces[last]) {
		pieces, sub = pieces[:last], pieces[last]
	}
	text := join(pieces)
	b := atom(Upright(strings.ReplaceAll(text, " ", hardSpace)), text)
	b = subscripted(b, sub, tail)
	if strings.Contains(text, " ") {
		b.level, b.textLevel = levelPrefix, levelPrefix
	}
	return b
}

// subscripted sets sub and the parts of tail as the subscript of b.
func subscripted(b box, sub, tail string) box {
	if tail != "" {
		for part := range strings.SplitSeq(tail, "_") {
			part = join(slices.Concat([]string{""}, split(part)))
			switch {
			case sub == "":
			case digitAt(sub, len(sub)-1) && digitAt(part, 0):
				sub += ","
			default:
				sub += " "
			}
			sub += part
		}
	}
	if sub == "" {
		return b
	}
	ml := Text(sub)
	if isCount(sub) {
		ml = Element("mn", sub)
	}
	return b.withSub(atom(ml, strings.ReplaceAll(sub, " ", "_")))
}

// join sets the pieces of a name as they are read: words with a space between
// and, but for the first, without their capital; single letters and digits
// close up.
func join(pieces []string) string {
	var b strings.Builder
	for i, p := range pieces {
		word := runes(p) > 1 && letters(p)
		if i > 0 {
			if r := []rune(p); word && unicode.IsLower(r[1]) && !kept[p] {
				r[0] = unicode.ToLower(r[0])
				p = string(r)
			}
			was := pieces[i-1]
			if was != "" && letters(p) && (word || runes(was) > 1 && letters(was)) &&
				(unicode.IsUpper([]rune(pieces[i])[0])) {
				if kept[p] {
					b.WriteByte(',')
				} else {
					b.WriteByte(' ')
				}
			}
		}
		b.WriteString(p)
	}
	return b.String()
}

func letters(s string) bool {
	for _, r := range s {
		if !unicode.IsLetter(r) {
			return false
		}
	}
	return s != ""
}

func digitAt(s string, i int) bool { return s[i] >= '0' && s[i] <= '9' }

// field is the printed form of the name of a field or method. Such names are
// words more often than symbols.
func field(name string) box {
	pieces := split(name)
	if _, isGreek := Greek[pieces[0]]; isGreek || runes(pieces[0]) <= 2 {
		return symbol(name)
	}
	return atom(Upright(name), name)
}
