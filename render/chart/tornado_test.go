package chart_test

import (
	"math"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"tautline/render/sample"
)

var barOf = regexp.MustCompile(`<rect class="(least|most)" x="([\d.]+)" y="[\d.]+" width="([\d.]+)"`)

// The bars of a tornado start at the check as computed and are as long as the
// effects are wide, to the tenth of a unit that the drawing is written to.
func TestTornadoLengths(t *testing.T) {
	tornado := sample.Tornado()
	for _, part := range strings.SplitAfter(string(tornado.SVG("t")), "</svg>")[:2] {
		bars := barOf.FindAllStringSubmatch(part, -1)
		if len(bars) != 7 {
			t.Fatalf("got %d bars, want two for each given but one lost", len(bars))
		}
		number := func(s string) float64 { v, _ := strconv.ParseFloat(s, 64); return v }
		perUnit := number(bars[0][3]) / 0.12 // the first is the longer one of r
		middle := number(bars[0][2])
		want := []struct {
			class    string
			from, to float64
		}{{"most", 0, 0.12}, {"least", -0.1, 0}, {"least", 0, 0.04}, {"most", -0.02, 0}, {"most", 0, 0.03}, {"least", 0, 0.01}, {"most", 0, 0.05}}
		for i, w := range want {
			b := bars[i]
			if b[1] != w.class || math.Abs(number(b[2])-(middle+w.from*perUnit)) > 0.15 || math.Abs(number(b[3])-(w.to-w.from)*perUnit) > 0.15 {
				t.Errorf("bar %d: got %v, want %s from %g to %g", i, b[1:], w.class, middle+w.from*perUnit, middle+w.to*perUnit)
			}
		}
	}
	words := string(tornado.SVG("t"))
	for _, want := range []string{"Utilisation of long seam, as computed 90.0\u202f%.", "295 mm: 80.0\u202f%; 305 mm: 102.0\u202f%.", "1: no result"} {
		if !strings.Contains(words, want) {
			t.Errorf("the description lacks %q", want)
		}
	}
}

func BenchmarkFigure(b *testing.B) {
	f := sample.Figure()
	for b.Loop() {
		if _, err := f.SVG("f"); err != nil {
			b.Fatal(err)
		}
	}
}
