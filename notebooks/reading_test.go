package notebooks

import (
	"bytes"
	"fmt"
	"html"
	"math"
	"os"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"
	"unicode"
	"unicode/utf8"

	"tautline/render"
	"tautline/render/report"
	"tautline/stdlib/quantity"
)

// Every calculation line of every report is read as a reviewer reads it: the
// numbers printed in it are worked again and must give the printed result, to
// its last digit.
func TestLinesCanBeWorkedAgain(t *testing.T) {
	for _, file := range all(t) {
		if worked := workAgain(t, file); worked < 10 {
			t.Errorf("%s: only %d lines could be worked again", file, worked)
		}
	}
}

// Where four digits of the operands do not give the result, more are printed.
func TestDigitsAsNeeded(t *testing.T) {
	file := filepath.Join(t.TempDir(), "digits.md")
	text := "---\ntitle: Digits\n---\n\n```go\na := 1 * units.M\nthird := a / 3\nnear := 333.3 * units.Mm\nrest := third - near\n" +
		"big := 1234.5678 * units.M\nhalf := big / 2\nturned := half * 3 / 7\nsheet.AtLeast(\"rest\", rest, 0, \"the test\")\n```\n"
	if err := os.WriteFile(file, []byte(text), 0o666); err != nil {
		t.Fatal(err)
	}
	if worked := workAgain(t, file); worked != 4 {
		t.Errorf("lines worked again: got %d, want 4", worked)
	}
}

// What statements put into a struct after it was written down is shown.
func TestFilledStructIsShown(t *testing.T) {
	file := filepath.Join(t.TempDir(), "filled.md")
	text := "---\ntitle: Filled\n---\n\n```go\na := joint.Action{}\nfor range 3 {\n\ta.Fx += 2 * units.KN\n}\nsheet.AtMost(\"force\", a.Fx, 7*units.KN, \"the test\")\n```\n"
	if err := os.WriteFile(file, []byte(text), 0o666); err != nil {
		t.Fatal(err)
	}
	res := run(t, file)
	var page bytes.Buffer
	if err := render.HTML(&page, render.Assemble(res.Plan, res.Outcome, nil, report.Identity{})); err != nil {
		t.Fatal(err)
	}
	for _, m := range lineOf.FindAllStringSubmatch(page.String(), -1) {
		if m[1] == "a.Fx" {
			if !strings.Contains(m[2], ">6<") {
				t.Errorf("line of a.Fx: got %s, want 6 kN in it", m[2])
			}
			return
		}
	}
	t.Error("the report has no line for a.Fx")
}

// A caution that stands at several places is said once at the top.
func TestCautionsOnce(t *testing.T) {
	for _, file := range all(t) {
		res := run(t, file)
		seen := map[string]bool{}
		for _, c := range render.Assemble(res.Plan, res.Outcome, nil, report.Identity{}).Cautions {
			if c.Place == "In the working" && seen[c.Text] {
				t.Errorf("%s: said twice at the top: %s", file, c.Text)
			}
			seen[c.Text] = true
		}
	}
}

// workAgain works the lines of the report of a notebook and returns how many
// there were.
func workAgain(t *testing.T, file string) (worked int) {
	t.Helper()
	res := run(t, file)
	var page bytes.Buffer
	if err := render.HTML(&page, render.Assemble(res.Plan, res.Outcome, nil, report.Identity{})); err != nil {
		t.Fatal(err)
	}
	for _, m := range lineOf.FindAllStringSubmatch(page.String(), -1) {
		var steps []string
		for _, alt := range altOf.FindAllStringSubmatch(m[2], -1) {
			steps = append(steps, html.UnescapeString(alt[1]))
		}
		if len(steps) < 3 { // symbol = numbers = result at least
			continue
		}
		numbers, result := steps[len(steps)-2], steps[len(steps)-1]
		got, err := work(numbers)
		if err != nil {
			continue // not an arithmetic line
		}
		want, unit, err := quantityIn(result)
		if err != nil {
			continue
		}
		worked++
		if text := strings.Fields(result)[0]; math.Abs(unit.FromSI(got)-want) > lastPlace(text)*(1+1e-9) {
			t.Errorf("%s, %s: %s is %.8g %s, but the line says %s", file, m[1], numbers, unit.FromSI(got), unit.Symbol, result)
		}
	}
	return worked
}

var (
	lineOf = regexp.MustCompile(`(?s)<div class="line[^>]*id="line\.([^"]*)"(.*?)</div>`)
	altOf  = regexp.MustCompile(`alttext="([^"]*)"`)
)

// quantityIn reads a result such as "980.8 N/m".
func quantityIn(s string) (float64, quantity.Unit, error) {
	number, symbol, _ := strings.Cut(strings.ReplaceAll(s, "\u00a0", " "), " ")
	if n, ok := strings.CutSuffix(number, "°"); ok {
		number, symbol = n, "°"
	}
	unit, ok := quantity.Lookup(symbol)
	if !ok {
		return 0, unit, fmt.Errorf("unit %q", symbol)
	}
	v, err := strconv.ParseFloat(strings.NewReplacer("\u202f", "", "−", "-").Replace(number), 64)
	return v, unit, err
}

// lastPlace is one unit in the last digit of a number; one with fewer than four
// digits is exact, as if it had four.
func lastPlace(number string) float64 {
	number = strings.NewReplacer("\u202f", "", "−", "-").Replace(number)
	v, _ := strconv.ParseFloat(number, 64)
	_, decimals, _ := strings.Cut(strings.TrimSuffix(number, "°"), ".")
	place := math.Pow10(-len(decimals))
	if v != 0 {
		place = min(place, math.Pow10(int(math.Floor(math.Log10(math.Abs(v))))-3))
	}
	return place
}

// work computes a formula of numbers in its plain text form, in SI base units.
func work(text string) (v float64, err error) {
	defer func() {
		if p := recover(); p != nil {
			err = fmt.Errorf("%v", p)
		}
	}()
	r := &reader{strings.NewReplacer("\u00a0", " ", "\u202f", "").Replace(text)}
	v = r.sum()
	if r.rest != "" {
		panic("rest: " + r.rest)
	}
	return v, nil
}

// A reader reads a formula from the left.
type reader struct{ rest string }

func (r *reader) take(s string) bool {
	rest, ok := strings.CutPrefix(r.rest, s)
	if ok {
		r.rest = rest
	}
	return ok
}

func (r *reader) want(s string) {
	if !r.take(s) {
		panic(fmt.Sprintf("want %q at %q", s, r.rest))
	}
}

func (r *reader) sum() float64 {
	v := r.product()
	for {
		switch {
		case r.take(" + "):
			v += r.product()
		case r.take(" − "):
			v -= r.product()
		default:
			return v
		}
	}
}

func (r *reader) product() float64 {
	v := r.power()
	for {
		switch {
		case r.take("·"):
			v *= r.power()
		case r.take("/"):
			v /= r.power()
		default:
			return v
		}
	}
}

func (r *reader) power() float64 {
	v := r.atom()
	for s, n := range map[string]float64{"²": 2, "³": 3, "⁴": 4} {
		if r.take(s) {
			return math.Pow(v, n)
		}
	}
	return v
}

func (r *reader) atom() float64 {
	functions := map[string]func(float64) float64{"√": math.Sqrt, "sin": math.Sin, "cos": math.Cos, "tan": math.Tan,
		"arctan": math.Atan, "arcsin": math.Asin, "arccos": math.Acos, "ln": math.Log, "exp": math.Exp}
	for name, f := range functions {
		if strings.HasPrefix(r.rest, name+"(") {
			r.want(name + "(")
			v := r.sum()
			r.want(")")
			return f(v)
		}
	}
	switch {
	case r.take("−"):
		return -r.power()
	case r.take("½"):
		return 0.5
	case r.take("π"):
		return math.Pi
	case r.take("gₙ"):
		return 9.80665
	case r.take("("):
		v := r.sum()
		r.want(")")
		return v
	case r.take("⌈"):
		v := r.sum()
		r.want("⌉")
		return math.Ceil(v)
	case r.take("⌊"):
		v := r.sum()
		r.want("⌋")
		return math.Floor(v)
	case r.take("max("):
		return r.extreme(math.Max)
	case r.take("min("):
		return r.extreme(math.Min)
	}
	return r.number()
}

func (r *reader) extreme(f func(a, b float64) float64) float64 {
	v := r.sum()
	for r.take(", ") {
		v = f(v, r.sum())
	}
	r.want(")")
	return v
}

// number reads a number and its unit, the longest that is one.
func (r *reader) number() float64 {
	end := strings.IndexFunc(r.rest, func(c rune) bool { return !unicode.IsDigit(c) && c != '.' })
	if end < 0 {
		end = len(r.rest)
	}
	v, err := strconv.ParseFloat(r.rest[:end], 64)
	if err != nil {
		panic(err)
	}
	r.rest = r.rest[end:]
	text, spaced := strings.CutPrefix(r.rest, " ")
	if !spaced && !strings.HasPrefix(text, "°") {
		return v
	}
	stop := strings.IndexFunc(text, func(c rune) bool { return strings.ContainsRune(" +−(),⌉⌋", c) })
	if stop < 0 {
		stop = len(text)
	}
	for ; stop > 0; stop-- {
		if !utf8.RuneStart(append([]byte(text), 'x')[stop]) {
			continue
		}
		if u, ok := quantity.Lookup(text[:stop]); ok && u.Symbol != "" {
			r.rest = text[stop:]
			return u.ToSI(v)
		}
	}
	return v
}
