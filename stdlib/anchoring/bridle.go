package anchoring

import (
	"cmp"
	"fmt"
	"math"

	"tautline/stdlib/internal/argument"
	"tautline/stdlib/units"
)

// BridleLeg is the tension in one of two straps that share a load.
//
//	T = force*sin(other)/sin(angle + other)
//
// The force is 0 or more; angle is between the load's line and this leg, other
// between it and the leg on the other side, both 0 or more. The flatter the
// bridle, the higher the tension: at 60° and 60° each leg carries the whole load.
// It is an error if the two angles add up to 0 or to 180° or more, where no
// tension balances the load, or a number is out of its range.
//
// Source: equilibrium of three forces, sine rule.
func BridleLeg(force units.Force, angle, other units.Angle) (units.Force, error) {
	err := cmp.Or(argument.NotNegative("force", force), argument.NotNegative("angle", angle), argument.NotNegative("other angle", other),
		argument.Positive("angle between the legs", angle+other))
	if err == nil && angle+other >= math.Pi {
		err = fmt.Errorf("angle between the legs: got %.1f°, want less than 180°: legs so flat cannot hold the load; lengthen them", (angle+other)/units.Deg)
	}
	if err != nil {
		return 0, fmt.Errorf("bridle: %w", err)
	}
	return force * math.Sin(other) / math.Sin(angle+other), nil
}
