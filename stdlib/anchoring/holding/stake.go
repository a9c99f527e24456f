package holding

import (
	"cmp"
	"fmt"
	"math"

	"tautline/stdlib/internal/argument"
	"tautline/stdlib/units"
)

// A Stake is a driven round steel bar that a strap pulls at its head.
type Stake struct {
	Length   units.Length   // in the ground, along the stake; more than 0
	Diameter units.Length   // more than 0
	Arm      units.Length   // of the strap above the ground, along the stake; 0 or more
	Yield    units.Pressure // of its steel, more than 0
	Lean     units.Angle    // of the head from upright, away from the device; less than 90° to both sides
}

func leanRange(lean units.Angle) error {
	return argument.Within("lean", lean, -math.Pi/2, math.Pi/2)
}

func strapRange(angle units.Angle) error {
	return argument.Within("strap angle", angle, 0, math.Pi/2)
}

func (s Stake) check() error {
	return cmp.Or(argument.Positive("length", s.Length), argument.Positive("diameter", s.Diameter), argument.NotNegative("arm", s.Arm),
		argument.Positive("yield strength", s.Yield), leanRange(s.Lean))
}

// leaning warns of a stake that leans towards the device.
func (s Stake) leaning() []string {
	if s.Lean >= 0 {
		return nil
	}
	return []string{fmt.Sprintf("stake leans %.0f° towards the device, so the strap draws it out; drive it leaning away from the pull", -s.Lean/units.Deg)}
}

// A StakePull is a strap's pull, resolved at the stake.
type StakePull struct {
	Axial    units.Force // along the stake: above 0 it is drawn out, below 0 pushed in
	Lateral  units.Force // across the stake
	Warnings []string
}

// Pull resolves a strap's tension on the stake: axially tension times the sine
// of strap angle less lean, laterally tension times the cosine.
//
// The tension is 0 or more; the strap rises towards the device at the angle to
// the ground, 0 to 90°. It panics if a number is out of its range. A stake that
// leans towards the device carries a warning.
//
// Source: statics.
func (s Stake) Pull(tension units.Force, angle units.Angle) StakePull {
	argument.Demand("holding: Stake.Pull", argument.NotNegative("tension", tension), strapRange(angle), leanRange(s.Lean))
	return StakePull{
		Axial:    tension * math.Sin(angle-s.Lean),
		Lateral:  tension * math.Cos(angle-s.Lean),
		Warnings: s.leaning(),
	}
}

// PlasticMoment is the moment at which the stake bends for good.
//
//	M = s.Yield*s.Diameter*s.Diameter*s.Diameter/6
//
// It panics if a field is out of its range.
//
// Source: plastic modulus of a round bar, d³/6.
func (s Stake) PlasticMoment() units.Moment {
	argument.Demand("holding: Stake.PlasticMoment", s.check())
	return s.Yield * s.Diameter * s.Diameter * s.Diameter / 6
}

// A StakeHold is what a stake holds by calculation.
type StakeHold struct {
	Tension  units.Force  // of the strap, at which it gives way
	Lateral  units.Force  // across the stake alone
	Axial    units.Force  // along the stake alone, drawn out
	Moment   units.Moment // greatest in the stake, under Lateral
	Regime   string       // "short: the ground gives way" or "long: the stake bends"
	Warnings []string
}

// Holds is the strap tension that the stake holds in a soil, at a strap angle to
// the ground of 0 to 90°: laterally after Broms, the lower of short and long;
// along it by skin friction; between the two by Inclined, or laterally alone
// where the strap pushes the stake in.
//
// A number out of its range is an error, as is a stake in clay no longer than
// 1.5 of its diameters. A stake that leans towards the device or is smaller than
// play inflatables may have carries a warning.
//
// Caution: a guess for planning. Pull-test the anchors on the spot.
//
// Source: as BromsClayShort, BromsSandShort, ClaySkin, SandSkin and Inclined. The
// stake's own axes stand for upright and level ground.
func (s Stake) Holds(soil Soil, angle units.Angle) (StakeHold, error) {
	err := cmp.Or(s.check(), soil.check(), strapRange(angle))
	if err == nil && soil.Strength > 0 {
		err = argument.Above("length in clay", s.Length, 1.5*s.Diameter)
	}
	if err != nil {
		return StakeHold{}, fmt.Errorf("stake: %w", err)
	}
	h := StakeHold{Warnings: s.leaning()}
	var short, long float64
	bends := s.PlasticMoment()
	if soil.Strength > 0 {
		short = BromsClayShort(soil.Strength, s.Diameter, s.Length, s.Arm)
		long = BromsClayLong(soil.Strength, s.Diameter, s.Arm, bends)
		h.Lateral = math.Min(short, long)
		h.Moment = BromsClayMoment(soil.Strength, s.Diameter, s.Arm, h.Lateral)
		h.Axial = ClaySkin(soil.Adhesion, soil.Strength, s.Diameter, s.Length)
	} else {
		short = BromsSandShort(soil.Weight, soil.Passive(), s.Diameter, s.Length, s.Arm)
		long = BromsSandLong(soil.Weight, soil.Passive(), s.Diameter, s.Arm, bends)
		h.Lateral = math.Min(short, long)
		h.Moment = BromsSandMoment(soil.Weight, soil.Passive(), s.Diameter, s.Arm, h.Lateral)
		h.Axial = SandSkin(soil.Weight, soil.Friction, s.Diameter, s.Length)
	}
	h.Regime = "short: the ground gives way"
	if long < short {
		h.Regime = "long: the stake bends"
	}
	h.Tension = s.between(h, angle-s.Lean)
	if s.Length < 380*units.Mm || s.Diameter < 16*units.Mm {
		h.Warnings = append(h.Warnings, fmt.Sprintf("stake of %.0f mm by %.0f mm is smaller than the 380 mm by 16 mm of play inflatables (ISO 20187:2016, 4.2.1)", s.Length/units.Mm, s.Diameter/units.Mm))
	}
	return h, nil
}

// between is the tension under a pull that rises out of the square to the stake
// by an angle.
func (s Stake) between(h StakeHold, out float64) float64 {
	across := math.Abs(math.Cos(out)) / h.Lateral
	if out <= 0 {
		return 1 / across // pushed in
	}
	if h.Axial == 0 {
		return 0 // no adhesion: any pull out draws it
	}
	return 1 / (across + math.Sin(out)/h.Axial)
}

// A Steel is what a document asks of a stake's steel.
type Steel struct {
	Least  units.Pressure // tensile strength
	Source string
}

// StakeSteel is the steel of stakes by the American practice for inflatables:
// 36 000 psi.
//
// Source: ASTM F2374, stakes, as quoted in a work item on its revision: verify
// against the document.
func StakeSteel() Steel {
	return Steel{Least: 36000 * units.Psi, Source: "ASTM F2374 (as quoted in a work item: verify against the document)"}
}
