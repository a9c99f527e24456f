package unroll_test

import (
	"testing"

	"tautline/stdlib/fabric/unroll"
	"tautline/stdlib/internal/proof"
)

var (
	frustum = unroll.Frustum{Small: 0.5, Large: 0.9, Height: 1.2}
	tee     = unroll.Tee{Main: 0.5, Branch: 0.3, Angle: 1.1}
	ring    = unroll.Ring{Radius: 1.5, Tube: 0.4, Sweep: 3, Pieces: 9}
)

// The calls by which each documented formula is compared with its function.
var formulaCalls = []proof.Call{
	proof.Of("MitreRise", unroll.MitreRise, calls(a(0.3, 0.4, 1.0), a(0.3, 0.4, 2.5))),
	proof.Of("Frustum.Slant", unroll.Frustum.Slant, calls(a(frustum))),
	proof.Of("Frustum.Sector", unroll.Frustum.Sector, calls(a(frustum))),
	proof.Of("Frustum.OuterRadius", unroll.Frustum.OuterRadius, calls(a(frustum))),
	proof.Of("Frustum.Area", unroll.Frustum.Area, calls(a(frustum))),
	proof.Of("Tee.Profile", unroll.Tee.Profile, calls(a(tee, 0.0), a(tee, 1.2), a(tee, 3.0))),
	proof.Of("Ring.CentreLength", unroll.Ring.CentreLength, calls(a(ring))),
	proof.Of("Ring.OuterLength", unroll.Ring.OuterLength, calls(a(ring))),
	proof.Of("Ring.InnerLength", unroll.Ring.InnerLength, calls(a(ring))),
	proof.Of("Ring.Surface", unroll.Ring.Surface, calls(a(ring))),
	proof.Of("Ring.Volume", unroll.Ring.Volume, calls(a(ring))),
	proof.Of("SphereGores.Width", unroll.SphereGores.Width, calls(a(unroll.SphereGores{Radius: 0.9, Gores: 10}, 0.7))),
	proof.Of("RingGores.Width", unroll.RingGores.Width, calls(a(unroll.RingGores{Radius: 1.5, Tube: 0.4, Gores: 10}, 0.7))),
	proof.Of("RoundMattress.Bays", unroll.RoundMattress.Bays, calls(a(unroll.RoundMattress{Radius: 2.25, Height: 0.75, Pitch: 0.55}))),
}

func a(args ...any) []any         { return args }
func calls(args ...[]any) [][]any { return args }

func TestFormulaLines(t *testing.T) { proof.Formulas(t, formulaCalls) }
