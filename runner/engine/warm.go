package engine

import (
	"context"
	"encoding/json"
	"io"
	"strings"

	"tautline/runner/lower"
)

// warmUp runs a small program of the usual statements, so that the code that a
// notebook needs is in memory when it comes. Nothing is kept of it.
func warmUp() {
	w := newWorker(io.Discard)
	if main, err := w.prepare(&warm); err == nil {
		w.execute(context.Background(), main)
	}
	var r request
	json.NewDecoder(strings.NewReader(`{"Program":{"Cells":[{"Names":["x"]}],"Sites":[{}],"Data":{"":""}}}`)).Decode(&r)
}

var warm = lower.Program{
	Cells: []lower.Cell{{Func: "__cell0", Names: []string{"x", "ys", "l"}}},
	Source: `package main

import (
	"fmt"
	"math"
	"tautline/stdlib/sheet"
)

var __at int
var x float64
var ys []float64
var l leg

type leg struct {
	name string
	load float64
}

func half(x float64) float64 {
	return 0.5 * x
}

func (l leg) sum(more float64) float64 {
	return l.load + more
}

func __cell0() {
	__at = 1
	x = sheet.Given(2*math.Sqrt(3), 1, 4)
	if x > 1 && half(x) < 9 || x == 0 {
		x = -x
	} else {
		x += 1
	}
	for i := 0; i < 2; i++ {
		ys = append(ys, math.Pow(x, float64(i)))
	}
	for i, y := range ys {
		ys[i] = y / 2
	}
	l = leg{fmt.Sprintf("%.1f", x), x}
	f := func(t float64) float64 { return t * l.sum(1) }
	sheet.AtMost("", f(x), 2, "")
	sheet.AtLeast("", l.load, 2)
	sheet.Note("")
	fig := sheet.NewFigure("", "", "")
	fig.Curve("", ys, ys)
	fig.LimitY("", 1)
	t := sheet.NewTable("")
	t.Column("", ys)
}
`}
