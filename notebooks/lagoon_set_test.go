package notebooks

import (
	"math"
	"testing"
)

// What one notebook of the Lagoon takes from another is what that one has: as many
// digits as it quotes.
func TestLagoonAgrees(t *testing.T) {
	bed, anchors, hard := run(t, "lagoon-bed.md"), run(t, "lagoon-anchors.md"), run(t, "lagoon-hardstanding.md")
	fall, panels, step := run(t, "lagoon-landing.md"), run(t, "lagoon-panels.md"), run(t, "lagoon-form.md")
	R, r := number(t, bed, "R"), number(t, bed, "r")
	wall := number(t, bed, "layers") * 2 * r
	for _, c := range []struct {
		what           string
		got, want, tol float64
	}{
		{"HF-111, pressure while it runs", number(t, anchors, "before"), number(t, bed, "p"), 5},
		{"HF-111, least pressure", number(t, anchors, "least"), number(t, bed, "pLow"), 0},
		{"HF-111, outside", number(t, anchors, "outer"), R + r, 1e-12},
		{"HF-111, inside", number(t, anchors, "inner"), R - r, 1e-12},
		{"HF-111, wall", number(t, anchors, "wall"), wall, 1e-12},
		{"HF-111, level of the mattress", number(t, anchors, "level"), number(t, bed, "H"), 0},
		{"HF-112, outside", number(t, hard, "outer"), R + r, 1e-12},
		{"HF-113, least pressure", number(t, fall, "p"), number(t, bed, "pLow"), 0},
		{"HF-113, depth", number(t, fall, "D"), number(t, bed, "depth"), 1e-12},
		{"HF-113, to the ring", number(t, fall, "inner"), R - r, 1e-12},
		{"HF-114, ring", number(t, panels, "R"), R, 0},
		{"HF-114, tube", number(t, panels, "r"), r, 0},
		{"HF-114, pitch", number(t, panels, "s"), number(t, bed, "s"), 0},
		{"HF-114, baffles", number(t, panels, "H"), number(t, bed, "H"), 0},
		{"HF-114, stretch", number(t, panels, "weft"), number(t, bed, "stretch"), 0},
		{"HF-110, pieces of a ring", number(t, bed, "segments"), number(t, panels, "segments"), 0},
		{"HF-110, seams", number(t, bed, "seams"), number(t, panels, "sewn"), 0.03 * number(t, panels, "sewn")},
		{"HF-114, anchors", number(t, panels, "anchors"), number(t, anchors, "layout", 0), 0},
		{"HF-111, height of the D-rings", number(t, anchors, "eyes"), number(t, panels, "eyes"), 5e-3},
		{"HF-111, D-rings from the middle", number(t, anchors, "patch"), number(t, panels, "out"), 5e-3},
		{"HF-111, tube", number(t, anchors, "tube"), r, 1e-12},
		{"HF-111, belt", number(t, anchors, "wide"), number(t, panels, "wide"), 0},
		{"HF-111, strap off the cloth", number(t, anchors, "offCloth"), number(t, panels, "offCloth"), 1e-12},
		{"HF-111, long seams", number(t, anchors, "long"), number(t, bed, "Nlong"), 1e-9},
		{"HF-112, D-rings", number(t, hard, "layout", 0), number(t, anchors, "layout", 0), 0},
		{"HF-114, rings", number(t, panels, "layers"), number(t, bed, "layers"), 0},
		{"HF-114, cloth", number(t, panels, "cloth"), named(t, bed, "cloth.Mass"), 0},
		{"HF-115, shut-off", number(t, step, "p"), number(t, bed, "pMax"), 0},
		{"HF-115, pitch of the bed", number(t, step, "known", 0), number(t, bed, "s"), 0},
		{"HF-115, height of the bed", number(t, step, "known", 1), number(t, bed, "H"), 0},
		{"HF-115, thread", number(t, step, "thread"), number(t, bed, "thread"), 0},
		{"HF-115, stitch", number(t, step, "stitch"), number(t, bed, "stitch"), 0},
		{"HF-115, long seams", number(t, step, "Nlong"), number(t, bed, "Nlong"), 1e-9},
	} {
		if math.Abs(c.got-c.want) > c.tol {
			t.Errorf("%s: got %g, the notebook that it comes from has %g", c.what, c.got, c.want)
		}
	}
}
