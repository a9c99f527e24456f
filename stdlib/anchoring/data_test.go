package anchoring_test

import (
	"strings"
	"testing"

	"tautline/stdlib/anchoring"
	"tautline/stdlib/internal/proof"
	"tautline/stdlib/units"
)

// EN 1990 Table A1.2(A); EN 13814 5.5.1: exact.
func TestFactors(t *testing.T) {
	eq, am := anchoring.EquilibriumFactors(), anchoring.AmusementFactors()
	for _, c := range []struct {
		what      string
		got, want float64
	}{
		{"EQU, driving weight", eq.PermanentUnfavourable, 1.10},
		{"EQU, holding weight", eq.PermanentFavourable, 0.90},
		{"EQU, wind", eq.Wind, 1.50},
		{"EQU, holding live load", eq.VariableFavourable, 0},
		{"amusement, driving weight", am.PermanentUnfavourable, 1.1},
		{"amusement, holding weight", am.PermanentFavourable, 1.0},
		{"amusement, wind", am.Wind, 1.2},
		{"amusement, other live load", am.Variable, 1.3},
		{"play inflatables, wind", anchoring.PlayInflatableAnchors().Factor, 1.5},
	} {
		proof.Near(t, c.what, c.got, c.want, 0)
	}
}

// EN 13814:2004 and EN 13782: exact, and the same in either order.
func TestFriction(t *testing.T) {
	for _, c := range []struct {
		one, other string
		want       float64
	}{
		{"wood", "wood", 0.4}, {"steel", "wood", 0.4}, {"wood", "concrete", 0.6}, {"steel", "steel", 0.1},
		{"concrete", "steel", 0.2}, {"concrete", "concrete", 0.5}, {"wood", "clay", 0.25},
		{"wood", "loam", 0.4}, {"sand or gravel", "wood", 0.65},
	} {
		proof.Near(t, c.one+" on "+c.other, proof.Must(anchoring.FrictionBetween(c.one, c.other))(t).Coefficient, c.want, 0)
	}
	_, err := anchoring.FrictionBetween("rubber", "ice")
	proof.Fails(t, "pair not in the table", err, "got rubber on ice, want one of: wood on wood,")
}

// Definition of a grade; values computed apart from this code.
func TestSlope(t *testing.T) {
	proof.Near(t, "5 %", anchoring.SlopeAngle(anchoring.PlayInflatableSlope().Grade)/units.Deg, 2.862405, 1e-6/2.9)
	proof.Near(t, "10 %", anchoring.SlopeAngle(0.1)/units.Deg, 5.710593, 1e-6/5.8)
}

// Every value from a document says which, and one from memory or hearsay asks
// to be verified.
func TestSources(t *testing.T) {
	sources := []string{
		anchoring.PlayInflatableWind().Source, anchoring.PlayInflatableAnchors().Source,
		anchoring.PlayInflatableSlope().Source, anchoring.AmusementFactors().Source,
	}
	for _, f := range anchoring.Frictions() {
		sources = append(sources, f.Source)
	}
	for _, s := range sources {
		if !strings.Contains(s, "verify against the document") {
			t.Errorf("source %q does not ask to be verified", s)
		}
	}
	if !strings.Contains(anchoring.EquilibriumFactors().Source, "EN 1990:2002") {
		t.Error("factors of EN 1990 do not name it")
	}
}
