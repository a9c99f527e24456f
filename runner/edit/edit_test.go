package edit

import (
	"strings"
	"testing"

	"tautline/runner"
	"tautline/runner/check"
	"tautline/runner/document"
	"tautline/runner/lower"
	"tautline/stdlib/quantity"
)

func plan(t *testing.T, src string) (*check.Plan, *lower.Program) {
	t.Helper()
	nb, diags := document.Parse("t.md", []byte(src))
	if nb == nil {
		t.Fatal(diags)
	}
	plan, diags := check.Check(nb)
	prog, more := lower.Lower(plan)
	for _, d := range append(diags, more...) {
		if d.Severity == document.Error {
			t.Fatal(d.Format([]byte(src), false))
		}
	}
	return plan, prog
}

func notebook(statement string) string {
	return "---\ntitle: T\n---\n\nTöxt with € before.\n\n```go\n" + statement + " // reason “é”\ny := 2 * x\n```\n"
}

// A number put in place of another gives a notebook that differs in it alone and
// computes with the value foretold, to the last bit.
func TestReplace(t *testing.T) {
	for _, test := range []struct{ statement, typed, unit, want string }{
		{"x := 300 * units.Mm", "275", "mm", "x := 275 * units.Mm"},
		{"x := 300 * units.Mm", "0.275", "m", "x := 275 * units.Mm"},
		{"x := 300 * units.Mm", "0.1", "mm", "x := 0.1 * units.Mm"},
		{"x := sheet.Given(2.60*units.M, 2.40*units.M, 3.00*units.M)", "2.75", "m", "x := sheet.Given(2.75*units.M, 2.40*units.M, 3.00*units.M)"},
		{"x := sheet.Given(2.60*units.M, 2.40*units.M, 3.00*units.M)", "3", "m", "x := sheet.Given(3.0*units.M, 2.40*units.M, 3.00*units.M)"},
		{"x := sheet.Given(sheet.PlusMinus(350*units.Mm, 5*units.Mm), 300*units.Mm, 450*units.Mm)", "402.5", "mm", "x := sheet.Given(sheet.PlusMinus(402.5*units.Mm, 5*units.Mm), 300*units.Mm, 450*units.Mm)"},
		{"x := units.Mm * 300", "1e2", "mm", "x := units.Mm * 1e2"},
		{"x := 8.0", "9", "", "x := 9.0"},
		{"x := -8.0", "9", "", "x := -(-9.0)"},
		{"x := -8.0", "-9", "", "x := -9.0"},
		{"x := 36 * units.Km / units.H", "40", "km/h", "x := 40 * units.Km / units.H"},
		{"x := 36 * units.Km / units.H", "10", "m/s", "x := 36 * units.Km / units.H"},
		{"x := 12 * units.Percent", "13.7", "%", "x := 13.7 * units.Percent"},
		{"x := (2.5) * units.KPa", "1.8", "kPa", "x := (1.8) * units.KPa"},
	} {
		src := notebook(test.statement)
		book, _ := plan(t, src)
		p, err := Find(book, "x")
		if err != nil {
			t.Errorf("%s: %v", test.statement, err)
			continue
		}
		unit, ok := quantity.Lookup(test.unit)
		if !ok {
			t.Fatalf("no unit %q", test.unit)
		}
		literal, value, err := p.Number(test.typed, unit)
		if err != nil {
			t.Errorf("%s to %s: %v", test.statement, test.typed, err)
			continue
		}
		for _, form := range []func(string) string{
			func(s string) string { return s },
			func(s string) string { return "\ufeff" + strings.ReplaceAll(s, "\n", "\r\n") },
		} {
			got, err := p.Replace([]byte(form(src)), literal)
			if err != nil {
				t.Errorf("%s to %s: %v", test.statement, test.typed, err)
				continue
			}
			if want := form(notebook(test.want)); string(got) != want {
				t.Errorf("%s to %s: got %q, want %q", test.statement, test.typed, got, want)
			}
			if _, prog := plan(t, string(got)); prog.Givens["x"] != value {
				t.Errorf("%s to %s: foretold %v, computes with %v", test.statement, test.typed, value, prog.Givens["x"])
			}
		}
	}
}

func TestRefused(t *testing.T) {
	for _, test := range []struct{ statement, want string }{
		{"x := 2*units.M + 30*units.Cm", "2*units.M + 30*units.Cm"},
		{"x := 7 / 2.0", "7 / 2.0"},
		{"x := math.Sqrt(2)", "not a given"},
	} {
		book, _ := plan(t, notebook(test.statement))
		if _, err := Find(book, "x"); err == nil || !strings.Contains(err.Error(), test.want) {
			t.Errorf("%s: got error %v, want one with %q", test.statement, err, test.want)
		}
	}
	src := notebook("x := 300 * units.Mm")
	book, _ := plan(t, src)
	p, err := Find(book, "x")
	if err != nil {
		t.Fatal(err)
	}
	unit, _ := quantity.Lookup("mm")
	for _, typed := range []string{"", "NaN", "Inf", "0x10", "1_000", "2,5", "1e999", "2); os.Exit(1", "1\n", "9999999999999999"} {
		if literal, _, err := p.Number(typed, unit); err == nil && strings.TrimSpace(typed) == typed {
			t.Errorf("%q: got literal %q, want an error", typed, literal)
		}
	}
	for _, text := range []string{"", "short", strings.Replace(src, "300", "301", 1), "one more line\n" + src} {
		if _, err := p.Replace([]byte(text), "1"); err != errMoved {
			t.Errorf("in another text: got error %v, want %v", err, errMoved)
		}
	}
}

// Every given of the landing bed with a range can be changed.
func TestLandingBed(t *testing.T) {
	res := runner.Check("../../notebooks/lagoon-bed.md")
	for _, name := range []string{"R", "r", "s", "H"} {
		p, err := Find(res.Plan, name)
		if err != nil {
			t.Error(err)
			continue
		}
		if got, err := p.Replace(res.Source, p.Literal); err != nil || string(got) != string(res.Source) {
			t.Errorf("%s with its own number: got another text, or error %v", name, err)
		}
	}
}
