package pattern_test

import (
	"testing"

	"tautline/stdlib/fabric/pattern"
	"tautline/stdlib/internal/proof"
)

var (
	frustum = pattern.Frustum{Small: 0.5, Large: 0.9, Height: 1.2}
	tee     = pattern.Tee{Main: 0.5, Branch: 0.3, Angle: 1.1}
	ring    = pattern.Ring{Radius: 1.5, Tube: 0.4, Sweep: 3, Pieces: 9}
)

// The calls by which each documented formula is compared with its function.
var formulaCalls = []proof.Call{
	proof.Of("MitreRise", pattern.MitreRise, calls(a(0.3, 0.4, 1.0), a(0.3, 0.4, 2.5))),
	proof.Of("Frustum.Slant", pattern.Frustum.Slant, calls(a(frustum))),
	proof.Of("Frustum.Sector", pattern.Frustum.Sector, calls(a(frustum))),
	proof.Of("Frustum.OuterRadius", pattern.Frustum.OuterRadius, calls(a(frustum))),
	proof.Of("Frustum.Area", pattern.Frustum.Area, calls(a(frustum))),
	proof.Of("Tee.Profile", pattern.Tee.Profile, calls(a(tee, 0.0), a(tee, 1.2), a(tee, 3.0))),
	proof.Of("Ring.CentreLength", pattern.Ring.CentreLength, calls(a(ring))),
	proof.Of("Ring.OuterLength", pattern.Ring.OuterLength, calls(a(ring))),
	proof.Of("Ring.InnerLength", pattern.Ring.InnerLength, calls(a(ring))),
	proof.Of("Ring.Surface", pattern.Ring.Surface, calls(a(ring))),
	proof.Of("Ring.Volume", pattern.Ring.Volume, calls(a(ring))),
	proof.Of("SphereGores.Width", pattern.SphereGores.Width, calls(a(pattern.SphereGores{Radius: 0.9, Gores: 10}, 0.7))),
	proof.Of("RingGores.Width", pattern.RingGores.Width, calls(a(pattern.RingGores{Radius: 1.5, Tube: 0.4, Gores: 10}, 0.7))),
	proof.Of("RoundMattress.Bays", pattern.RoundMattress.Bays, calls(a(pattern.RoundMattress{Radius: 2.25, Height: 0.75, Pitch: 0.55}))),
}

func a(args ...any) []any         { return args }
func calls(args ...[]any) [][]any { return args }

func TestFormulaLines(t *testing.T) { proof.Formulas(t, formulaCalls) }
