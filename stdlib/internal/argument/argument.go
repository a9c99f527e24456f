// Package argument checks the numbers that a function of the library is given
// against the range in its comment.
//
//	argument.Demand("anchoring: WindPressure",
//		argument.Positive("air density", rho), argument.NotNegative("wind speed", v))
//
// Each check returns an error "what: got X, want Y", nil when all is well. What a
// careful caller never does panics through Demand; what data can bring about is
// returned.
package argument

import (
	"cmp"
	"fmt"
	"math"
)

// Demand panics with the first error, after the name of the call.
func Demand(call string, errs ...error) {
	if err := cmp.Or(errs...); err != nil {
		panic(fmt.Sprintf("%s: %v", call, err))
	}
}

// Positive reports an error unless v is finite and more than 0.
func Positive(what string, v float64) error {
	if v > 0 && !math.IsInf(v, 1) {
		return nil
	}
	return fmt.Errorf("%s: got %g, want more than 0", what, v)
}

// NotNegative reports an error unless v is finite and 0 or more.
func NotNegative(what string, v float64) error {
	if v >= 0 && !math.IsInf(v, 1) {
		return nil
	}
	return fmt.Errorf("%s: got %g, want 0 or more", what, v)
}

// Finite reports an error unless v is finite.
func Finite(what string, v float64) error {
	if !math.IsNaN(v) && !math.IsInf(v, 0) {
		return nil
	}
	return fmt.Errorf("%s: got %g, want a finite number", what, v)
}

// Within reports an error unless v lies from low to high.
func Within(what string, v, low, high float64) error {
	if low <= v && v <= high {
		return nil
	}
	return fmt.Errorf("%s: got %g, want %g to %g", what, v, low, high)
}

// Above reports an error unless v is finite and more than least.
func Above(what string, v, least float64) error {
	if v > least && !math.IsInf(v, 1) {
		return nil
	}
	return fmt.Errorf("%s: got %g, want more than %g", what, v, least)
}

// Whole reports an error unless v is a whole number.
func Whole(what string, v float64) error {
	if v == math.Trunc(v) {
		return nil
	}
	return fmt.Errorf("%s: got %g, want a whole number", what, v)
}
