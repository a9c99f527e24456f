package document

import (
	"testing"

	"pgregory.net/rapid"
)

func TestNearest(t *testing.T) {
	names := []string{"HoopTension", "Pressure", "Mm", "Mass", "Tube", "tube", "Länge"}
	for _, c := range []struct{ name, want string }{
		{"HoopTenson", "HoopTension"},
		{"hoopTesnion", "HoopTension"},
		{"Presure", "Pressure"},
		{"Pressrue", "Pressure"},
		{"mm", "Mm"},
		{"mn", ""},
		{"Mas", "Mass"},
		{"Moss", "Mass"},
		{"Mess3", ""},
		{"Tub", "Tube"},
		{"Tube", "tube"},
		{"Lange", "Länge"},
		{"", ""},
		{"Anchor", ""},
	} {
		got, ok := Nearest(c.name, names)
		if got != c.want || ok != (c.want != "") {
			t.Errorf("Nearest(%q): got %q, %v, want %q", c.name, got, ok, c.want)
		}
	}
	if got, ok := Nearest("a", nil); ok {
		t.Errorf("Nearest of no names: got %q", got)
	}
}

// TestDistance compares with the recursive definition.
func TestDistance(t *testing.T) {
	var define func(a, b string) int
	define = func(a, b string) int {
		if a == "" || b == "" {
			return len(a) + len(b)
		}
		i, j := len(a)-1, len(b)-1
		d := min(define(a[:i], b)+1, define(a, b[:j])+1)
		if a[i] == b[j] {
			d = min(d, define(a[:i], b[:j]))
		} else {
			d = min(d, define(a[:i], b[:j])+1)
		}
		if i > 0 && j > 0 && a[i] == b[j-1] && a[i-1] == b[j] {
			d = min(d, define(a[:i-1], b[:j-1])+1)
		}
		return d
	}
	word := rapid.StringMatching(`[abc]{0,6}`)
	rapid.Check(t, func(t *rapid.T) {
		a, b := word.Draw(t, "a"), word.Draw(t, "b")
		if got, want := distance([]rune(a), []rune(b)), define(a, b); got != want {
			t.Fatalf("distance(%q, %q): got %d, want %d", a, b, got, want)
		}
	})
}
