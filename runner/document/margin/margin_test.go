package margin

import "testing"

// Examples 5, 6 and 9 of CommonMark 0.31.2, section 2.2: a tab among the marks
// runs to the next multiple of four columns.
func TestTabs(t *testing.T) {
	for _, c := range []struct{ line, wide, text string }{
		{"\tfoo", "    foo", ""},
		{">\t\tfoo", ">       foo", "      foo"}, // the quote takes one column, code four: "  foo"
		{" - foo", " - foo", ""},
		{"\t - baz", "     - baz", ""},
		{"a\tb", "a\tb", ""}, // a tab in the text stays
	} {
		wide := Widen([]byte(c.line))
		if string(wide) != c.wide {
			t.Errorf("Widen(%q): got %q, want %q", c.line, wide, c.wide)
		}
		if c.text != "" && string(Quoted(wide)) != c.text {
			t.Errorf("Quoted(%q): got %q, want %q", wide, Quoted(wide), c.text)
		}
	}
	// Column 4 of the widened ">\t\tfoo" is where its second tab begins, column 5
	// divides it, column 8 is the f.
	for x, want := range map[int]int{0: 0, 1: 1, 4: 2, 5: 3, 8: 3, 9: 4} {
		if got := Narrow([]byte(">\t\tfoo"), x); got != want {
			t.Errorf("Narrow(%d): got %d, want %d", x, got, want)
		}
	}
}

// The marks of list items by CommonMark 0.31.2, section 5.2: a bullet, or up to
// nine digits with . or ), then one to four columns; more begin indented code.
func TestItemStart(t *testing.T) {
	for _, c := range []struct {
		line  string
		width int // 0: no item
		text  string
	}{
		{"- a", 2, "a"},
		{"10)  a", 5, "a"},
		{"123456789. a", 11, "a"},
		{"1234567890. a", 0, ""},
		{"-     a", 2, "    a"},
		{"-a", 0, ""},
		{"-", 2, ""},
		{"    - a", 0, ""},
	} {
		b, ok := ItemStart([]byte(c.line))
		if ok != (c.width > 0) || b.Width != c.width && ok || string(b.Text) != c.text {
			t.Errorf("ItemStart(%q): got %d, %q, %v, want %d, %q", c.line, b.Width, b.Text, ok, c.width, c.text)
		}
	}
}
