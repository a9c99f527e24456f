package notebooks

import "testing"

// The sums of the base, worked again by hand from the givens in SI units.
func TestStormSkiffBase(t *testing.T) {
	const g = 9.80665
	res := run(t, "storm-skiff-base.md")
	H := 1.5 * (130 + 2*100) * 0.5 * g
	near(t, "sideways", number(t, res, "H"), H)
	near(t, "overturning", number(t, res, "overturn"), H*(1.35-0.14))
	V := number(t, res, "V")
	near(t, "holding", number(t, res, "hold"), V*0.85)
	near(t, "weight left", number(t, res, "W")-V, 1.5*330*0.4*g)
}
