package blower_test

import (
	"testing"

	"tautline/stdlib/fabric/blower"
	"tautline/stdlib/internal/proof"
)

// Continuity and the ideal gas law; values computed apart from this code, to
// the stated 1e-4.
func TestFill(t *testing.T) {
	fan := blower.ParabolicFan(2500, 0.6)
	weight := blower.WeightPressure(0.65)
	proof.Near(t, "weight of the fabric", weight, 6.3743, 1e-5)
	proof.Near(t, "flow while filling", proof.Must(fan.FlowAt(weight))(t), 0.59923459, 1e-7)
	proof.Near(t, "fill time of a tight bed", proof.Must(blower.FillTime(fan, blower.Leak{}, 50, weight))(t), 83.43978, 1e-4)
	proof.Near(t, "fill time", proof.Must(blower.FillTime(fan, leak, 50, weight))(t), 86.89976, 1e-4)
	proof.Near(t, "pressure rise", proof.Must(blower.PressureRiseTime(fan, leak, 50, weight, 1465.8986, 101325))(t), 4.7514, 1e-4)

	_, err := blower.PressureRiseTime(fan, leak, 50, weight, 1600, 101325)
	proof.Fails(t, "pressure never reached", err, "less than the settled pressure")
	torn := blower.Leak{Openings: []blower.Orifice{{Discharge: 0.61, Area: 1, Density: 1.2}}}
	_, err = blower.FillTime(fan, torn, 50, weight)
	proof.Fails(t, "torn bed", err, "seal the bed")
	_, err = blower.FillTime(fan, leak, 50, 3000)
	proof.Fails(t, "back pressure above shut-off", err, "does not come down to 3000 Pa")
}

// Closed forms derived from the ideal gas law and orifice flow; values computed
// apart from this code.
func TestDeflate(t *testing.T) {
	hole := blower.Orifice{Discharge: 1, Area: 0.01, Density: 1.2}
	all := hole.PressureLossTime(50, 1000, 0, 101325)
	proof.Near(t, "pressure lost", all, 2.417458, 1e-6)
	proof.Near(t, "half lost", hole.PressureLossTime(50, 1000, 500, 101325), 0.708057, 1e-6)
	// The square root of the pressure falls evenly.
	proof.Near(t, "a quarter left", hole.PressureLossTime(50, 1000, 250, 101325), all/2, 1e-12)

	weight := blower.WeightPressure(0.65)
	proof.Near(t, "sinking", hole.EmptyTime(50, weight), 1534.01, 1e-5)
	zip := blower.Orifice{Discharge: 0.6, Area: 0.05, Density: 1.2}
	proof.Near(t, "sinking through a zip", zip.EmptyTime(50, weight), 511.34, 1e-5)
}
