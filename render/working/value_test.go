package working

import (
	"strings"
	"testing"

	"tautline/stdlib/quantity"
	"tautline/stdlib/sheet"
)

// Of a great value only a part is kept; its later lists have a length and no
// numbers.
func TestListOfWhichNothingWasKept(t *testing.T) {
	cut := sheet.Value{Kind: sheet.KindList, Len: 4000}
	if got := listText(cut, quantity.Unit{Symbol: "m"}); got != "4000 values" {
		t.Errorf("got %q", got)
	}
}

// One thing is an item, two are items.
func TestItems(t *testing.T) {
	thing := sheet.Value{Kind: sheet.KindStruct}
	for want, v := range map[string]sheet.Value{
		"1 item":  {Kind: sheet.KindList, Len: 1, Items: []sheet.Value{thing}},
		"2 items": {Kind: sheet.KindList, Len: 2, Items: []sheet.Value{thing, thing}},
	} {
		if got := listText(v, quantity.Unit{}); got != want {
			t.Errorf("got %q, want %q", got, want)
		}
	}
}

// A text that fills more than a few lines is shown by its beginning and its length.
func TestExcerpt(t *testing.T) {
	for text, want := range map[string]string{
		"S235JRH":                                 "S235JRH",
		"a\nb\nc\n":                               "a\nb\nc\n",
		"time,force\n1,2\n3,4\n5,6\n":             "time,force… (4 lines)",
		strings.Repeat("ä", 240):                  strings.Repeat("ä", 240),
		strings.Repeat("ä", 241):                  strings.Repeat("ä", 60) + "… (241 characters)",
		strings.Repeat("x,", 50) + "\n1\n2\n3\n4": strings.Repeat("x,", 30) + "… (5 lines)",
	} {
		if got := excerpt(text); got != want {
			t.Errorf("excerpt of %q: got %q, want %q", text, got, want)
		}
	}
}
