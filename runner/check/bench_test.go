package check

import (
	"fmt"
	"strings"
	"testing"
)

// BenchmarkCheck checks a notebook of 40 cells and some 500 lines.
func BenchmarkCheck(b *testing.B) {
	cells := []string{"p := 2 * units.KPa\nr0 := 300 * units.Mm\n"}
	for i := 1; i < 40; i++ {
		cells = append(cells, strings.ReplaceAll(`r# := sheet.Given(300*units.Mm, 250*units.Mm, 400*units.Mm) // the tube
T# := fabric.HoopTension(p, r#)  // round the tube
A# := math.Pi * r# * r#
F# := p*A# + 2*T#*math.Hypot(r#, r0)
sum# := 0.0
for k := range 20 {
	sum# += F# * float64(k)
}
func line#(x float64) float64 { return x*F#/(r0*r0) + T# }
sheet.AtMost("line force", line#(r#), 9*units.KNPerM, "invented")
`, "#", fmt.Sprint(i)))
	}
	src := source(cells...)
	nb := read(b, "bench.md", []byte(src))
	if _, diags := Check(nb); len(onlyErrors(diags)) > 0 {
		b.Fatalf("%s", diags[0].Format([]byte(src), false))
	}
	b.ReportMetric(float64(strings.Count(src, "\n")), "lines")
	for b.Loop() {
		Check(nb)
	}
}
