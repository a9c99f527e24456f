package assembly

import (
	"go/parser"
	"slices"
	"testing"

	"tautline/render/report"
	"tautline/render/working"
	"tautline/stdlib/quantity"
	"tautline/stdlib/sheet"
)

// What the library draws on a figure or a rose is in the unit that it tells;
// untold it is in SI base units, and says so.
func TestLibraryDraws(t *testing.T) {
	for _, c := range []struct {
		alias  sheet.Alias
		unit   string
		system quantity.System
		want   float64 // of 2500 in SI base units
	}{
		{"Pressure", "kPa", quantity.SI, 2.5},
		{"Energy", "kJ", quantity.SI, 2.5},
		{"Number", "", quantity.SI, 2500},
		{"", "SI base units", quantity.SI, 2500},
		{"Length", "ft", quantity.US, 2500 / 0.3048},
	} {
		x := &axis{a: &assembler{Typesetter: &working.Typesetter{System: c.system}}, label: "x", alias: c.alias}
		x.take(nil, 1, 2500)
		if got := x.finish(); got.Unit != c.unit || x.scale(2500) != c.want {
			t.Errorf("2500 of %q: got %g %q, want %g %q", c.alias, x.scale(2500), got.Unit, c.want, c.unit)
		}
	}
	var s sheet.Sheet
	s.NewFigure("f", "x", "y").Axes("Pressure", "Force")
	s.NewRose("r").Values("Speed")
	if f, r := s.Entries[0].Figure, s.Entries[1].Rose; f.XAlias != "Pressure" || f.YAlias != "Force" || r.Alias != "Speed" {
		t.Errorf("got %q, %q and %q", f.XAlias, f.YAlias, r.Alias)
	}
}

// A warning that several results carry stands whole once; each other result says
// that it holds there too.
func TestWarningSaidOnce(t *testing.T) {
	a := &assembler{report: &report.Report{}, cellOut: &report.Cell{}, count: map[string]int{}, warned: map[string]bool{}}
	a.warning("first", "the search stopped early", 7)
	a.warning("second", "the search stopped early", 8)
	a.warning("third", "another", 9)
	var got []string
	for _, p := range a.cellOut.Parts {
		r := p.(*report.Remark)
		got = append(got, map[bool]string{true: "caution: ", false: ""}[r.Caution]+r.Text)
	}
	want := []string{"caution: first: the search stopped early", "The caution above holds for second too: the search stopped early", "caution: third: another"}
	if !slices.Equal(got, want) || len(a.report.Cautions) != 2 {
		t.Errorf("got %q and %d cautions at the top, want %q and 2", got, len(a.report.Cautions), want)
	}
	if w := a.report.Warnings; len(w) != 2 || w[0] != (report.Warning{Name: "first", Text: "the search stopped early", Line: 7}) || w[1].Line != 9 {
		t.Errorf("for the terminal: got %+v, want the first and the third", w)
	}
}

// A given has the digits that were typed; what comes of arithmetic or of another unit
// is rounded.
func TestChosen(t *testing.T) {
	kPa, _ := quantity.Lookup("kPa")
	one := quantity.Choose(quantity.Dimension{}, 1, quantity.SI)
	for _, c := range []struct {
		value float64
		unit  quantity.Unit
		typed string
		want  string
	}{
		{1800, kPa, "1.8*units.KPa", "1.8"},
		{138.23007675795088, one, "44*math.Pi", "138.2"},
		{138.230076758, one, "138.230076758", "138.230076758"},
		{13789.514586336, kPa, "2*units.Psi", "13.79"},
		{0.3333333333333333, one, "1.0/3", "0.3333"},
		{2.5, one, "2+0.5", "2.5"},
	} {
		from, err := parser.ParseExpr(c.typed)
		if err != nil {
			t.Fatal(err)
		}
		if got := chosen(c.value, c.unit, from); got != c.want {
			t.Errorf("%s: got %q, want %q", c.typed, got, c.want)
		}
	}
}
