package formula

import (
	"fmt"
	"strings"
	"testing"
)

// What is a formula in running text, and that nothing is lost by lifting it.
func TestLift(t *testing.T) {
	for _, c := range []struct{ text, want string }{
		{"of $p r$ and $T_1$.", "of |<p r>| and |<T_1>|."},
		{"from $5 to $6 each", "from $5 to $6 each"}, // prices
		{"`$a$` is code", "`$a$` is code"},
		{`\$a$ is text`, `\$a$ is text`},
		{"$a$2 is text", "$a$2 is text"},
		{"a \uffff b $x$", "a |\uffff| b |<x>"},
	} {
		rest, lifted := Lift([]byte(c.text))
		if back := Lower(string(rest), lifted); back != c.text {
			t.Errorf("%q: put back as %q", c.text, back)
		}
		var parts []string
		Pieces(string(rest), lifted, func(part string, isFormula bool) {
			if isFormula {
				part = fmt.Sprintf("<%s>", part)
			}
			parts = append(parts, part)
		})
		if got := strings.TrimSuffix(strings.Join(parts, "|"), "|"); got != c.want {
			t.Errorf("%q: got %s, want %s", c.text, got, c.want)
		}
	}
}

func TestDisplayed(t *testing.T) {
	for _, c := range []struct {
		text, tex string
		size      int
	}{
		{"$$p r$$\nmore\n", "p r", 8},
		{"$$\np r\n$$\nmore\n", "p r", 10},
		{"$$\np\n\n$$\n", "", 0},    // an empty line
		{"$$p$$ and\n", "", 0},      // something else on its line
		{"    $$p$$\n", "", 0},      // code
		{"$$ $$\n", "", 0},          // nothing in it
		{"text $$p$$\n", "", 0},     // not at the start
		{"$$p\nq$$ r\n$$\n", "", 0}, // ends before its line does
	} {
		if tex, size := Displayed([]byte(c.text)); tex != c.tex || size != c.size {
			t.Errorf("Displayed(%q): got %q, %d, want %q, %d", c.text, tex, size, c.tex, c.size)
		}
	}
}
