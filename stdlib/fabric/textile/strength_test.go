package textile_test

import (
	"testing"

	"tautline/stdlib/fabric/textile"
	"tautline/stdlib/internal/proof"
	"tautline/stdlib/units"
)

// Exact and conventional unit sizes: a strength on a strip 50 mm wide is not
// one per metre.
func TestStripStrength(t *testing.T) {
	strip := textile.StripStrength(1850*units.N, 50*units.Mm)
	proof.Near(t, "strip", strip, 37e3, 1e-12)
	proof.Near(t, "strip in lbf/in", strip/units.LbfPerIn, 211.275, 1e-5)
	proof.Near(t, "standard's strip", textile.PlayInflatableMinimum().Strip, strip, 1e-12)
	proof.Near(t, "3 inH2O", 3*units.InH2O, 747.267, 1e-5)
	proof.Near(t, "150 mmH2O", 150*units.MmH2O, 1470.998, 1e-5)
	proof.Near(t, "12 mbar", 12*units.Mbar, 1200, 1e-12)
	proof.Near(t, "0.15 psi", 0.15*units.Psi, 1034.214, 1e-5)
}

// Common practice, worked by hand: 1850 N per 50 mm, seam 0.6, factor 5.
func TestAllowable(t *testing.T) {
	allowable := textile.Allowable(37e3, 0.6, 5)
	proof.Near(t, "allowable", allowable, 4440, 1e-9)
	proof.Panics(t, "textile: Allowable: efficiency: got 1.2, want 0 to 1", func() { textile.Allowable(37e3, 1.2, 5) })
	proof.Panics(t, "textile: Allowable: factor", func() { textile.Allowable(37e3, 0.6, 0.2) })
}

// Lower bound by the thread alone, worked by hand.
func TestSeam(t *testing.T) {
	one := textile.Seam{Rows: 1, Thread: 88 * units.N, Pitch: 5 * units.Mm}
	two := textile.Seam{Rows: 2, Thread: 88 * units.N, Pitch: 5 * units.Mm}
	proof.Near(t, "one row", one.Strength(), 17.6e3, 1e-12)
	proof.Near(t, "two rows", two.Strength(), 35.2e3, 1e-12)
	proof.Near(t, "efficiency of one row", one.Efficiency(37e3), 0.4757, 1e-4)
	proof.Near(t, "efficiency of two rows", two.Efficiency(37e3), 0.9514, 1e-4)
	if got := two.Efficiency(20e3); got != 1 {
		t.Errorf("seam stronger than its fabric: efficiency %g, want 1", got)
	}
	proof.Panics(t, "textile: Seam.Strength: stitch pitch", func() { textile.Seam{Rows: 1, Thread: 88}.Strength() })
}

// EN 14960-1 4.1.1 and 4.1.2 and ISO 15372, as documented at the data.
func TestMinimums(t *testing.T) {
	play, boat := textile.PlayInflatableMinimum(), textile.RescueBoatMinimum()
	proof.Near(t, "rescue boat", boat.Strip, 70*units.KNPerM, 1e-12)
	proof.Near(t, "rescue boat over play", boat.Strip/play.Strip, 1.89, 2e-3)
	proof.Near(t, "tear", play.Tear, 350, 0)
	proof.Near(t, "adhesion", play.Adhesion, 2*units.KNPerM, 1e-12)
	proof.Near(t, "thread", play.Thread, 88, 0)
	proof.Near(t, "stitch", play.ShortStitch+play.LongStitch, 0.011, 1e-12)
}
