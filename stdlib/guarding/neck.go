package guarding

import (
	"fmt"
	"math"

	"tautline/stdlib/internal/argument"
	"tautline/stdlib/units"
)

// A Notch is an opening that is open at its top: between two straight sides that
// come nearer to each other downward, as between two tubes that meet.
type Notch struct {
	Mouth units.Length // width at the top, more than 0
	Base  units.Length // width at the bottom, 0 where the sides meet, no more than Mouth
	Depth units.Length // from mouth to base, more than 0
}

// Angle is the angle between the sides.
//
//	angle = 2*atan((n.Mouth - n.Base)/(2*n.Depth))
//
// It panics when a field is out of its range.
//
// Source: geometry.
func (n Notch) Angle() units.Angle {
	argument.Demand("guarding: Notch.Angle", n.check())
	return 2 * math.Atan((n.Mouth-n.Base)/(2*n.Depth))
}

func (n Notch) check() error {
	for _, err := range []error{argument.Positive("mouth", n.Mouth), argument.Within("base", n.Base, 0, n.Mouth), argument.Positive("depth", n.Depth)} {
		if err != nil {
			return fmt.Errorf("notch: %w", err)
		}
	}
	return nil
}

// width is that of the notch at a depth below its mouth.
func (n Notch) width(depth float64) float64 {
	return n.Mouth + (n.Base-n.Mouth)*depth/n.Depth
}

// A NeckRule says which notches catch a neck (entrapment): those into which the
// probe for a neck goes, and in which the tapered probe for a head stands on the
// sides before its tip meets the base.
type NeckRule struct {
	Name   string
	Neck   units.Length // width of the part that stands for a neck, more than 0
	Tip    units.Length // width of the tip of the probe for a head, no less than Neck
	Wide   units.Length // its width behind the taper, no less than Tip
	Taper  units.Length // length of the taper, more than 0
	Exempt units.Angle  // sides that stand farther apart catch nobody, more than 0 to 180°
	Source string
}

func (r NeckRule) check() error {
	for _, err := range []error{argument.Positive("neck", r.Neck), argument.Within("tip", r.Tip, r.Neck, 10*units.M), argument.Within("wide part", r.Wide, r.Tip, 10*units.M),
		argument.Positive("taper", r.Taper), argument.Within("exempt angle", r.Exempt, 1e-9, 180*units.Deg)} {
		if err != nil {
			return fmt.Errorf("rule: %w", err)
		}
	}
	return nil
}

// PlayNecks is the rule for playground equipment, to which play inflatables refer: a
// neck of 45 mm, a head that widens from 75 to 156 mm. EN 1176-1 exempts no angle.
//
// Source: EN 1176-1:2017, 4.2.7, template for partly bound and V-shaped openings,
// its widths from memory and the length of its taper, 105 mm, not known for sure:
// verify all against the document.
func PlayNecks() NeckRule {
	return NeckRule{Name: "neck of 45 mm, head of 75 to 156 mm", Neck: 45 * units.Mm, Tip: 75 * units.Mm, Wide: 156 * units.Mm, Taper: 105 * units.Mm, Exempt: 180 * units.Deg,
		Source: "EN 1176-1:2017, 4.2.7 (from memory: verify against the document)"}
}

// AmericanNecks is the American practice for playgrounds: a neck of 1.875 in, a head
// that widens from 3 to 6.2 in, and nothing to find where the sides stand apart by
// more than 55°.
//
// Source: CPSC pub. 325, 3.4 (55°) and B.2.5 (how it is tried), as quoted by others;
// the widths from memory, the length of the taper not known for sure: verify against
// the document and ASTM F1487.
func AmericanNecks() NeckRule {
	return NeckRule{Name: "neck of 1.875 in, head of 3 to 6.2 in", Neck: 1.875 * units.In, Tip: 3 * units.In, Wide: 6.2 * units.In, Taper: 4 * units.In, Exempt: 55 * units.Deg,
		Source: "CPSC pub. 325 and ASTM F1487 (from memory: verify against the documents)"}
}

// Stands is how far below the mouth the tip of the probe for a head comes before it
// meets the base or the probe stands on the sides.
//
// The probe goes in along the middle. A number out of its range panics.
//
// Source: geometry of two tapers.
func (r NeckRule) Stands(n Notch) units.Length {
	argument.Demand("guarding: NeckRule.Stands", r.check(), n.check())
	// The probe is in a depth z when it is nowhere wider than the notch: both are
	// straight between the tip, the end of the taper and the mouth.
	fits := func(z float64) bool {
		for _, s := range []float64{0, math.Min(r.Taper, z), z} { // above the tip
			wide := r.Tip + (r.Wide-r.Tip)*math.Min(s/r.Taper, 1)
			if !atMost(wide, n.width(z-s)) {
				return false
			}
		}
		return true
	}
	if fits(n.Depth) {
		return n.Depth
	}
	low, high := 0.0, n.Depth
	for range 60 {
		if z := (low + high) / 2; fits(z) {
			low = z
		} else {
			high = z
		}
	}
	return low
}

// Judge says whether a notch catches a neck, with its open end upward.
//
// Where the probe for a head stands on the sides, that for a neck, which is narrower
// than its tip, always goes below it. A number out of its range panics. Notches that
// widen inward, or are crooked, need the probes themselves.
//
// Caution: the probe is put in along the middle, upright. A notch that leans lets a
// neck in another way: try every one with the probes. Cords of clothes catch in
// notches that no neck enters.
//
// Source: the rule.
func (r NeckRule) Judge(n Notch) Judgement {
	argument.Demand("guarding: NeckRule.Judge", r.check(), n.check())
	j := Judgement{Rule: fmt.Sprintf("%s: %s", r.Name, r.Source)}
	switch {
	case !atMost(r.Neck, n.Mouth):
		j.Safe, j.Why = true, "no neck comes in"
	case r.Exempt < n.Angle():
		j.Safe, j.Why = true, "the sides stand too far apart to catch"
	case atMost(n.Depth, r.Stands(n)):
		j.Safe, j.Why = true, "a head goes down to the base and comes out again"
	default:
		j.Why = "a neck comes in and slides down where the head cannot follow"
	}
	return j
}
