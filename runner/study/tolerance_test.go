package study

import (
	"math"
	"math/rand/v2"
	"reflect"
	"runtime"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"tautline/runner/outcome"
)

// The tube by hand: u = p*r/Nallow with p = 1800 ± 50 Pa, r = 300 ± 5 mm and
// Nallow = 700 N/m. p moves it by 50*0.3/700 either way, r by 1800*0.005/700.
func TestTolerances(t *testing.T) {
	got := notebook(t, tube).tolerances(200, 1)
	want := []outcome.Tolerance{{Given: "p", Value: 1800, PlusMinus: 50}, {Given: "r", Value: 0.3, PlusMinus: 0.005}}
	if !reflect.DeepEqual(got.Givens, want) || got.Samples != 200 || got.Seed != 1 || got.Faulted != 0 || got.Fault != "" || len(got.Unvaried) != 0 {
		t.Fatalf("got %+v", got)
	}
	seam, radius := got.Checks[0], got.Checks[1]
	near(t, "seam as it stands", seam.Nominal.Utilisation, 1800*0.3/700)
	near(t, "p at its least", seam.Effects[0].Low.Utilisation, 1750*0.3/700)
	near(t, "p at its greatest", seam.Effects[0].High.Utilisation, 1850*0.3/700)
	near(t, "r at its least", seam.Effects[1].Low.Utilisation, 1800*0.295/700)
	near(t, "r at its greatest", seam.Effects[1].High.Utilisation, 1800*0.305/700)
	near(t, "width of p", seam.Width(seam.Effects[0]), 2*50*0.3/700)
	if seam.Mover() != 0 || radius.Mover() != 1 {
		t.Errorf("movers: got %d and %d, want p and r", seam.Mover(), radius.Mover())
	}
	if given, high, worst := seam.Worst(); given != 0 || !high || worst != seam.Effects[0].High {
		t.Errorf("worst of the seam: got %d, %v, %+v, want p at its greatest", given, high, worst)
	}
	if given, high, _ := radius.Worst(); given != 1 || high {
		t.Errorf("worst of the radius: got %d, %v, want r at its least", given, high)
	}
	// No sample lies beyond the corners; the strata bring some near them.
	low, high := 1750*0.295/700.0, 1850*0.305/700.0
	if seam.Least < low || seam.Greatest > high || seam.Greatest < 1800*0.3/700 || seam.Fails != 0 || seam.Missing != 0 {
		t.Errorf("samples of the seam: got %+v, want utilisations from %g to %g", seam, low, high)
	}
	// Of the radius alone every stratum holds a sample, so its ends are near.
	near := func(what string, u, end float64) {
		if u > 0.25/0.295 || math.Abs(0.25/u-end) > 0.010/200 {
			t.Errorf("radius, %s: got %.9g at r = %.9g, want r within a stratum of %g", what, u, 0.25/u, end)
		}
	}
	near("greatest", radius.Greatest, 0.295)
	near("least", radius.Least, 0.305)
}

// Half of the samples of one given fail where the limit is in the middle, a
// quarter where it is at the third quarter: strata leave no luck in it.
func TestTolerancesFails(t *testing.T) {
	b := notebook(t, "x := sheet.PlusMinus(1.0, 0.5)\nsheet.AtMost(\"x\", x, 1)\nsheet.Holds(\"over\", x < 1.25)\none := 1.0\nsheet.AtMost(\"still\", one, 2)")
	for _, samples := range []int{4, 100, 400} {
		got := b.tolerances(samples, 7)
		if x := got.Checks[0]; x.Fails != samples/2 {
			t.Errorf("%d samples: got %d that fail, want half", samples, x.Fails)
		}
		if over := got.Checks[1]; over.Fails != samples/4 || over.Mover() != -1 || !math.IsNaN(over.Greatest) {
			t.Errorf("%d samples, over 1.25: got %+v", samples, over)
		}
		if given, high, worst := got.Checks[1].Worst(); given != 0 || !high || worst.Holds {
			t.Errorf("over 1.25, worst: got %d, %v, %+v, want x at its greatest, where it fails", given, high, worst)
		}
		if still := got.Checks[2]; still.Mover() != -1 || still.Least != 0.5 || still.Greatest != 0.5 {
			t.Errorf("still: got %+v, want that nothing moves it", still)
		}
	}
}

// Samples that fault are counted, and so is a check that they did not come to.
func TestTolerancesFaults(t *testing.T) {
	b := notebook(t, "x := sheet.PlusMinus(1.0, 0.5)\nif x > 1.25 {\n\tpanic(\"too much\")\n}\nsheet.AtMost(\"x\", x, 1)")
	got := b.tolerances(100, 3)
	x := got.Checks[0]
	if got.Faulted != 25 || x.Missing != 25 || x.Fails != 25 || !strings.Contains(got.Fault, "too much") || x.Effects[0].High.Known {
		t.Errorf("got %d faulted (%s), %+v, want a quarter faulted and a quarter failing", got.Faulted, got.Fault, x)
	}
	if x.Greatest > 1.25 {
		t.Errorf("greatest: got %g, want at most 1.25", x.Greatest)
	}
}

// A tolerance is found wherever it stands in the value of its given, and one of
// a computed name is named.
func TestTolerancesStated(t *testing.T) {
	b := notebook(t, `a := sheet.PlusMinus(sheet.Given(2.0, 1, 3), 0.1)
b := sheet.Given(sheet.PlusMinus(3.0, 0.2), 1, 4)
var (
	c = sheet.PlusMinus(4.0, 0.3)
	d = sheet.Given(5.0, 1, 9)
	e = sheet.PlusMinus(6.0, 0.4)
)
exact := sheet.PlusMinus(7.0, 0)
f := sheet.PlusMinus(a*b, 0.5)
sheet.AtMost("sum", a+b+c+d+e+f+exact, 100)`)
	got := b.tolerances(3, 1)
	want := []outcome.Tolerance{{Given: "a", Value: 2, PlusMinus: 0.1}, {Given: "b", Value: 3, PlusMinus: 0.2}, {Given: "c", Value: 4, PlusMinus: 0.3}, {Given: "e", Value: 6, PlusMinus: 0.4}}
	if !reflect.DeepEqual(got.Givens, want) {
		t.Errorf("got %+v, want %+v", got.Givens, want)
	}
	if !slices.Equal(got.Unvaried, []string{"f"}) {
		t.Errorf("computed: got %v, want f", got.Unvaried)
	}
	if low, high, ok := Range(b.plan, b.out, b.plan.Names["d"]); !ok || low != 1 || high != 9 {
		t.Errorf("range of d: got %g to %g, %v", low, high, ok)
	}
	if _, _, ok := Range(b.plan, b.out, b.plan.Names["c"]); ok {
		t.Error("range of c: got one, want none")
	}
}

// The same seed gives the same samples, on one processor or several; another
// seed others.
func TestTolerancesSeed(t *testing.T) {
	b := notebook(t, tube)
	first := b.tolerances(50, 1)
	if reflect.DeepEqual(first.Checks, b.tolerances(50, 2).Checks) {
		t.Error("two seeds give the same samples")
	}
	defer runtime.GOMAXPROCS(runtime.GOMAXPROCS(1))
	if !reflect.DeepEqual(first, b.tolerances(50, 1)) {
		t.Error("one seed gives other samples on one processor")
	}
}

// Each stratum of each number holds just one point: the definition of a Latin
// hypercube.
func TestHypercube(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n, d := rapid.IntRange(1, 200).Draw(t, "n"), rapid.IntRange(1, 6).Draw(t, "d")
		seed := rapid.Uint64().Draw(t, "seed")
		points := hypercube(n, d, rand.New(rand.NewPCG(seed, 0)))
		for k := range d {
			column := make([]float64, n)
			for i, p := range points {
				column[i] = p[k]
			}
			slices.Sort(column)
			for i, v := range column {
				if !(v >= float64(i)/float64(n) && v < float64(i+1)/float64(n)) {
					t.Fatalf("number %d, stratum %d of %d: got %.17g", k, i, n, v)
				}
			}
		}
		if !reflect.DeepEqual(points, hypercube(n, d, rand.New(rand.NewPCG(seed, 0)))) {
			t.Fatal("the same seed gives other points")
		}
	})
}
