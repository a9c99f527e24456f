package crew_test

import (
	"strings"
	"testing"

	"tautline/stdlib/crew"
	"tautline/stdlib/internal/proof"
	"tautline/stdlib/units"
)

// ISO 11228-1:2003, table 1: the mass in a minute is that of 15 kg as often as may
// be, and everything falls with the distance.
func TestCarryGuide(t *testing.T) {
	last := crew.CarryGuide{Often: 1e9, PerMinute: 1e9, PerHour: 1e9, PerDay: 1e9}
	for _, g := range crew.CarryGuides() {
		proof.Near(t, "in a minute", g.PerMinute, 15*g.Often/units.PerMin, 1e-12)
		if g.Distance <= last.Distance || g.Often >= last.Often || g.PerHour >= last.PerHour || g.PerDay > last.PerDay || g.PerHour > 60*g.PerMinute {
			t.Errorf("%g m: got %+v after %+v", g.Distance, g, last)
		}
		if !strings.Contains(g.Source, "verify against the document") {
			t.Errorf("%g m: source %q", g.Distance, g.Source)
		}
		last = g
	}
	for _, c := range []struct{ distance, minute float64 }{{0.5, 120}, {1, 120}, {3, 60}, {10, 30}, {10.1, 15}, {20, 15}} {
		proof.Near(t, "in a minute", proof.Must(crew.CarryGuideFor(c.distance))(t).PerMinute, c.minute, 0)
	}
	_, err := crew.CarryGuideFor(21)
	proof.Fails(t, "far", err, "got 21 m, want at most 20 m: roll it")
	_, err = crew.CarryGuideFor(0)
	proof.Fails(t, "nowhere", err, "carrying: distance: got 0")
}
