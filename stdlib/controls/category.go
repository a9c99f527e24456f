package controls

import (
	"fmt"
)

// StopCategory is what a stop category means, and whether an emergency stop may
// have it: 0 cuts the power at once, 1 brings the axes to rest with power and then
// cuts it, 2 keeps the power on.
type StopCategory struct {
	Category  int
	Meaning   string
	Emergency bool // allowed for an emergency stop
}

// NewStopCategory is the category with a number, 0, 1 or 2; another is an error.
//
// Caution: to release the device after an emergency stop must not set anything in
// motion; a start of its own has to.
//
// Source: IEC 60204-1:2016, 9.2.2 and 9.2.3.4.2 (from memory: verify against the
// document).
func NewStopCategory(category int) (StopCategory, error) {
	switch category {
	case 0:
		return StopCategory{0, "power is cut at once, brakes close", true}, nil
	case 1:
		return StopCategory{1, "drives bring the axes to rest, then power is cut", true}, nil
	case 2:
		return StopCategory{2, "drives bring the axes to rest and hold them with power", false}, nil
	}
	return StopCategory{}, fmt.Errorf("stop category: got %d, want 0, 1 or 2", category)
}
