package render

import (
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
