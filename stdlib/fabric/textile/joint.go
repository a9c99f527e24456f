package textile

import (
	"cmp"
	"fmt"
	"math"

	"tautline/stdlib/internal/argument"
	"tautline/stdlib/units"
)

// JointKind is how two edges of cloth are joined.
type JointKind string

// The kinds of joints.
const (
	Plain        JointKind = "plain"         // edge on edge and sewn through: the pull opens it
	Lap          JointKind = "lap"           // one edge over the other and sewn flat
	DoubleLocked JointKind = "double-locked" // both edges folded into each other, so that every row holds all layers
	WeldedLap    JointKind = "welded lap"    // one edge over the other and welded: the pull shears the weld
	WeldedFlap   JointKind = "welded flap"   // an edge welded upright onto a panel: the pull peels the weld
)

// A Joint is a seam of a known strength.
type Joint struct {
	Name     string
	Kind     JointKind
	Strength units.ForcePerLength // line force square to it at which it breaks
	Source   string               // of the strength
}

// SewnJoint is a joint judged by its thread and stitches.
//
// A plain joint takes one row or more, a lap two or more, since one row lets the
// edges turn, and a double-locked joint two or more, one through each fold. Less
// is an error, as is a kind that is not sewn or a field of the seam out of its
// range.
//
// Source: common practice, no source; strength as Seam.Strength.
func SewnJoint(name string, kind JointKind, seam Seam) (Joint, error) {
	rows, known := map[JointKind]float64{Plain: 1, Lap: 2, DoubleLocked: 2}[kind]
	err := seam.check()
	switch {
	case !known:
		err = fmt.Errorf("kind: got %q, want plain, lap or double-locked", string(kind))
	case err == nil && seam.Rows < rows:
		err = fmt.Errorf("rows: got %g, want %g or more for a %s joint", seam.Rows, rows, string(kind))
	}
	if err != nil {
		return Joint{}, fmt.Errorf("joint %q: %w", name, err)
	}
	return Joint{name, kind, seam.Strength(), "thread and stitches, one leg a stitch (common practice, no source)"}, nil
}

// A Weld is a welded strip between two layers of cloth.
type Weld struct {
	Width units.Length         // of the weld, more than 0
	Shear units.Pressure       // strength in shear over its area, more than 0
	Peel  units.ForcePerLength // strength in peel over its length, at most the adhesion of the coating, more than 0
}

// WeldedJoint is a joint judged by its weld: a lap shears it over its whole
// width, a flap peels it at one edge, however wide it is.
//
// A kind that is not welded is an error, as is a field of the weld out of its
// range.
//
// Source: common practice, no source.
func WeldedJoint(name string, kind JointKind, weld Weld) (Joint, error) {
	err := cmp.Or(argument.Positive("width", weld.Width), argument.Positive("shear strength", weld.Shear), argument.Positive("peel strength", weld.Peel))
	strength := weld.Shear * weld.Width
	switch {
	case kind == WeldedFlap:
		strength = weld.Peel
	case kind != WeldedLap:
		err = fmt.Errorf("kind: got %q, want welded lap or welded flap", string(kind))
	}
	if err != nil {
		return Joint{}, fmt.Errorf("joint %q: %w", name, err)
	}
	return Joint{name, kind, strength, "strength of the weld times its width in shear, its peel strength in peel (common practice, no source)"}, nil
}

// TestedJoint is a joint judged by strips of it that were pulled until they
// broke: the strength that only one in twenty falls short of.
//
// It is the mean force less k times the standard deviation, over the width of a
// strip, where k depends on the number of strips and nothing else is known of
// the scatter. There are three strips or more; the width, more than 0, is 50 mm
// in EN ISO 1421. Anything else is an error, as are strips so unlike that
// nothing is left.
//
// Source: EN 1990:2002, Annex D, D7.2 and table D1, unknown coefficient of
// variation, from memory: verify against the document.
func TestedJoint(name string, kind JointKind, forces []units.Force, width units.Length) (Joint, error) {
	fail := func(err error) (Joint, error) { return Joint{}, fmt.Errorf("joint %q: %w", name, err) }
	n := float64(len(forces))
	if n < 3 {
		return fail(fmt.Errorf("tested strips: got %g, want 3 or more", n))
	}
	err := argument.Positive("width", width)
	sum, squares := 0.0, 0.0
	for _, f := range forces {
		err = cmp.Or(err, argument.Positive("breaking force", f))
		sum += f
	}
	if err != nil {
		return fail(err)
	}
	mean := sum / n
	for _, f := range forces {
		squares += (f - mean) * (f - mean)
	}
	deviation := math.Sqrt(squares / (n - 1))
	low := mean - fractile(n)*deviation
	if low <= 0 {
		return fail(fmt.Errorf("breaking forces: got a mean of %.4g N with a standard deviation of %.4g N, want less scatter: "+
			"find out why, or test more strips", mean, deviation))
	}
	return Joint{name, kind, low / width, fmt.Sprintf("%g strips tested; one in twenty falls short, EN 1990:2002, D7.2 (factors from memory: verify)", n)}, nil
}

// fractile is the k of EN 1990 table D1 for so many tests; between two numbers
// of tests that of the fewer.
func fractile(n float64) float64 {
	k := 3.37
	for _, row := range [][2]float64{{4, 2.63}, {5, 2.33}, {6, 2.18}, {8, 2.00}, {10, 1.92}, {20, 1.76}, {30, 1.73}} {
		if n >= row[0] {
			k = row[1]
		}
	}
	return k
}

// Efficiency is the joint's strength over that of the cloth it joins, at most 1,
// because past that the cloth breaks first.
//
//	e = min(1, j.Strength/strip)
//
// The strip strength of the cloth is more than 0, that of the joint 0 or more;
// outside it panics.
//
// Source: definition.
func (j Joint) Efficiency(strip units.ForcePerLength) units.Number {
	argument.Demand("textile: Joint.Efficiency", argument.Positive("strip strength", strip), argument.NotNegative("strength of the joint", j.Strength))
	return math.Min(1, j.Strength/strip)
}
