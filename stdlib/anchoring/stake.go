package anchoring

import (
	"fmt"
	"math"

	"tautline/stdlib/internal/argument"
	"tautline/stdlib/units"
)

// A Stake is a driven stake that a strap pulls at its head.
type Stake struct {
	Lean units.Angle // of the head from upright, away from the device; less than 90° to both sides
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
	argument.Demand("anchoring: Stake.Pull", argument.NotNegative("tension", tension), strapRange(angle), argument.Within("lean", s.Lean, -math.Pi/2, math.Pi/2))
	p := StakePull{
		Axial:   tension * math.Sin(angle-s.Lean),
		Lateral: tension * math.Cos(angle-s.Lean),
	}
	if s.Lean < 0 {
		p.Warnings = append(p.Warnings, fmt.Sprintf(
			"stake leans %.0f° towards the device, so the strap draws it out; drive it leaning away from the pull", -s.Lean/units.Deg))
	}
	return p
}
