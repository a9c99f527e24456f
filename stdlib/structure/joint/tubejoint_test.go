package joint_test

import (
	"math"
	"strings"
	"testing"

	"tautline/stdlib/internal/proof"
	"tautline/stdlib/structure/joint"
	"tautline/stdlib/units"
)

func square(side, wall float64) joint.Tube {
	return joint.Tube{Height: side * units.Mm, Width: side * units.Mm, Wall: wall * units.Mm, Fy: 355e6}
}

func round(d, wall float64) joint.Tube {
	return joint.Tube{Round: true, Height: d * units.Mm, Width: d * units.Mm, Wall: wall * units.Mm, Fy: 355e6}
}

// The chord face of a T-joint of square tubes is a plate with yield lines: the
// least over the angle alpha of the fan lines of 2·fy·t²/(1-beta)·(tan(alpha) +
// (1-beta)/tan(alpha) + eta), a model independent of the standard's closed form
// (Wardenier, Hollow sections in structural applications).
func TestChordFaceYieldLines(t *testing.T) {
	for _, brace := range []float64{40, 50, 60, 80} {
		j := joint.TubeJoint{Chord: square(100, 5), Brace: square(brace, 4), Angle: 90 * units.Deg}
		r := proof.Must(j.Single(f))(t)
		if !r.Covered || r.Mode != "the chord's face yields" {
			t.Fatalf("brace of %g mm: %+v", brace, r)
		}
		beta, least := brace/100, math.Inf(1)
		for i := 1; i < 20000; i++ {
			tan := math.Tan(float64(i) * math.Pi / 2 / 20000)
			least = math.Min(least, 2*355e6*0.005*0.005/(1-beta)*(tan+(1-beta)/tan+beta))
		}
		proof.Near(t, "yield lines", r.Axial, least, 1e-6)
	}
}

// EN 1993-1-8:2005, Tables 7.2, 7.5, 7.10, 7.11 and 7.14, worked apart from this
// code.
func TestTubeJoints(t *testing.T) {
	// Round T: gamma 11.43, beta 0.5: 11.43^0.2·355·25·(2.8 + 14.2·0.25).
	ring := joint.TubeJoint{Chord: round(114.3, 5), Brace: round(57.15, 4), Angle: 90 * units.Deg}
	r := proof.Must(ring.Single(f))(t)
	proof.Near(t, "round, axial", r.Axial, 91738.436, 1e-8)
	proof.Near(t, "round, moment", r.Moment, 3347.1117, 1e-7) // punching; the face would carry 4158.33
	proof.Near(t, "round, together", r.Utilisation(r.Axial/2, r.Moment/2), 0.75, 1e-12)
	// Compression of half the strength: kp = 1 - 0.3·0.5·1.5 = 0.775.
	ring.ChordStress = 177.5e6
	proof.Near(t, "round, pushed chord", proof.Must(ring.Single(f))(t).Axial, 0.775*91738.436, 1e-5)
	ring.ChordStress = 0
	// K with a gap of 20 mm at 45°: kg = 1.628·(1 + 0.024·18.61/(1 + exp(0.67))).
	ring.Angle = 45 * units.Deg
	proof.Near(t, "round K", proof.Must(ring.KGap(20*units.Mm, f))(t).Axial, 162283.866, 1e-8)

	// Square, full width: slenderness 0.5887, chi 0.8942 of curve a.
	full := joint.TubeJoint{Chord: square(60, 4), Brace: square(60, 4), Angle: 90 * units.Deg}
	r = proof.Must(full.Single(f))(t)
	proof.Near(t, "full width, axial", r.Axial, 203170.590, 1e-8)
	proof.Near(t, "full width, moment", r.Moment, 4544, 1e-12)
	// Square, T, moment: 1·355·16·40·(1/(2·2/3) + 2/sqrt(1/3) + 2).
	narrow := joint.TubeJoint{Chord: square(60, 4), Brace: square(40, 3), Angle: 90 * units.Deg}
	proof.Near(t, "narrow, moment", proof.Must(narrow.Single(f))(t).Moment, 355e6*16e-6*0.04*(0.75+2*math.Sqrt(3)+2), 1e-12)
	k := joint.TubeJoint{Chord: square(100, 5), Brace: square(60, 4), Angle: 45 * units.Deg}
	proof.Near(t, "square K", proof.Must(k.KGap(30*units.Mm, f))(t).Axial, 8.9*math.Sqrt(10)*355e6*25e-6/math.Sin(math.Pi/4)*0.6, 1e-12)
	// High-strength steel is taken down by 0.9.
	k.Chord.Fy, k.Brace.Fy = 420e6, 420e6
	proof.Near(t, "high strength", proof.Must(k.KGap(30*units.Mm, f))(t).Axial, 0.9*8.9*math.Sqrt(10)*420e6*25e-6/math.Sin(math.Pi/4)*0.6, 1e-12)
}

func TestTubeJointsNotCovered(t *testing.T) {
	right := 90 * units.Deg
	for _, c := range []struct {
		j   joint.TubeJoint
		why string
	}{
		{joint.TubeJoint{Chord: square(100, 5), Brace: round(48.3, 3.2), Angle: right}, "a round and a rectangular tube"},
		{joint.TubeJoint{Chord: square(100, 5), Brace: square(90, 4), Angle: right}, "take the full width"},
		{joint.TubeJoint{Chord: square(60, 5), Brace: square(80, 4), Angle: right}, "wider than its chord"},
		{joint.TubeJoint{Chord: square(100, 2.5), Brace: square(60, 3), Angle: right}, "40 walls"},
		{joint.TubeJoint{Chord: round(114.3, 5), Brace: round(21.3, 3), Angle: right}, "thinner than 0.2"},
		{joint.TubeJoint{Chord: square(100, 5), Brace: square(60, 4), Angle: 20 * units.Deg}, "below 30°"},
	} {
		r := proof.Must(c.j.Single(f))(t)
		if r.Covered || r.Axial != 0 || !strings.Contains(r.Why, c.why) {
			t.Errorf("%+v: got %+v, want not covered: %s", c.j, r, c.why)
		}
		proof.Panics(t, "not covered", func() { r.Utilisation(1, 1) })
	}
	k := joint.TubeJoint{Chord: square(100, 5), Brace: square(60, 4), Angle: 45 * units.Deg}
	if r := proof.Must(k.KGap(100*units.Mm, f))(t); r.Covered || !strings.Contains(r.Why, "only 20 to 60 mm") {
		t.Errorf("wide gap: %+v", r)
	}
	k.Angle = 60 * units.Deg
	r := proof.Must(k.Single(f))(t)
	if !r.Covered || r.Moment != 0 || len(r.Warnings) != 1 {
		t.Errorf("slanted brace's moment: %+v", r)
	}
	k.Chord.Wall = 0
	_, err := k.Single(f)
	proof.Fails(t, "no wall", err, "chord: wall")
}
