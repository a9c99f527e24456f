package anchoring

import (
	"cmp"
	"fmt"
	"math"
)

// demand panics with the first error of a call that was given a number outside
// its stated range.
func demand(call string, errs ...error) {
	if err := cmp.Or(errs...); err != nil {
		panic(fmt.Sprintf("anchoring: %s: %v", call, err))
	}
}

func positive(what string, v float64) error {
	if v > 0 && !math.IsInf(v, 1) {
		return nil
	}
	return fmt.Errorf("%s: got %g, want more than 0", what, v)
}

func notNegative(what string, v float64) error {
	if v >= 0 && !math.IsInf(v, 1) {
		return nil
	}
	return fmt.Errorf("%s: got %g, want 0 or more", what, v)
}

func finite(what string, v float64) error {
	if !math.IsNaN(v) && !math.IsInf(v, 0) {
		return nil
	}
	return fmt.Errorf("%s: got %g, want a finite number", what, v)
}

func within(what string, v, low, high float64) error {
	if low <= v && v <= high {
		return nil
	}
	return fmt.Errorf("%s: got %g, want %g to %g", what, v, low, high)
}

func above(what string, v, least float64) error {
	if v > least && !math.IsInf(v, 1) {
		return nil
	}
	return fmt.Errorf("%s: got %g, want more than %g", what, v, least)
}

func whole(what string, v float64) error {
	if v == math.Trunc(v) {
		return nil
	}
	return fmt.Errorf("%s: got %g, want a whole number", what, v)
}
