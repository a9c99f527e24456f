package engine

import (
	"context"
	"math"
	"strings"
	"testing"
	"time"

	"tautline/runner/document"
	"tautline/runner/lower"
	"tautline/runner/outcome"
)

// studied is a program with one given x, in the form that lowering gives it: a
// sum over a loop, a check, and faults for some x.
var studied = &lower.Program{
	File: "t.md",
	Source: `package main

import "tautline/stdlib/sheet"

var __at int
var __given_x float64 = 2
var x float64
var total float64

func __cell0() {
	__at = 1
	x = sheet.Given(__given_x, 0, 10)
	var __t1 float64
	total = __t1
	for i := 0; i < 3; i++ {
		total += x
	}
	__at = 2
	if x > 100 {
		panic("too large")
	}
	for x < 0 {
	}
	sheet.AtMost("total", total, 12)
}
`,
	Cells:  []lower.Cell{{Func: "__cell0", Names: []string{"x", "total"}}},
	Sites:  make([]document.Range, 3),
	Givens: map[string]float64{"x": 2},
}

func study(t *testing.T, variants []Variant, limits Limits) []outcome.Sample {
	t.Helper()
	got := make([]outcome.Sample, len(variants))
	count := 0
	err := Study(context.Background(), studied, variants, limits, func(i int, s outcome.Sample) {
		got[i] = s
		count++
	})
	if err != nil || count != len(variants) {
		t.Fatalf("got %d samples of %d, error %v", count, len(variants), err)
	}
	return got
}

// Each sample is what a run of its own would give, whatever ran before it in the
// same worker.
func TestStudy(t *testing.T) {
	var variants []Variant
	for i := range 50 {
		variants = append(variants, Variant{"x": float64(i) / 5})
	}
	variants = append(variants, Variant{}) // as the program stands
	for i, s := range study(t, variants, Limits{}) {
		x := float64(i) / 5
		if i == 50 {
			x = 2
		}
		total := 0 + x + x + x
		if s.Fault != "" || s.Numbers["x"] != x || s.Numbers["total"] != total {
			t.Errorf("x = %g: got %+v", x, s)
			continue
		}
		if len(s.Checks) != 1 || s.Checks[0].Holds != (total <= 12) || math.Abs(float64(s.Checks[0].Utilisation)-total/12) > 1e-15 {
			t.Errorf("x = %g: got check %+v", x, s.Checks)
		}
	}
}

// A run that faults, or never ends, is one sample's fault.
func TestStudyFaults(t *testing.T) {
	got := study(t, []Variant{{"x": 1}, {"x": 200}, {"x": 2}, {"x": -1}, {"x": 3}, {"x": 300}, {"x": 4}}, Limits{Time: 300 * time.Millisecond})
	for i, want := range []string{"", "too large", "", "did not end", "", "too large", ""} {
		if s := got[i]; !strings.Contains(s.Fault, want) || want == "" && s.Fault != "" {
			t.Errorf("sample %d: got fault %q, want %q", i, s.Fault, want)
		}
	}
}

func TestStudyCancelled(t *testing.T) {
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	err := Study(ctx, studied, []Variant{{"x": 1}}, Limits{}, func(int, outcome.Sample) {})
	if err == nil {
		t.Error("got no error")
	}
}
