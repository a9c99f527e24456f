package lower_test

import (
	"fmt"
	"strings"
	"testing"

	"tautline/runner/lower"
)

// BenchmarkLower lowers a notebook of 40 cells.
func BenchmarkLower(b *testing.B) {
	var cells []string
	for i := range 40 {
		cells = append(cells, strings.ReplaceAll(`
rN := sheet.Given(300*units.Mm, 250*units.Mm, 400*units.Mm) // tube radius
pN := 1.8 * units.KPa
TN := hoopN(pN, rN)
func hoopN(p units.Pressure, r units.Length) units.ForcePerLength { return p * r }
psN := []units.Pressure{}
for k := range 20 {
	psN = append(psN, pN*float64(k)/20)
}
sheet.AtMost("seam N", TN, max(TN, 1*units.KPa*rN), "derived here")`, "N", fmt.Sprint(i)))
	}
	book := read("bench", notebook(strings.Join(cells, "\n---\n")))
	if book.program == nil {
		b.Fatal(book.diags)
	}
	for b.Loop() {
		lower.Lower(book.plan)
	}
}
