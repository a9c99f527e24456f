package quantity

import (
	"fmt"
	"strings"
)

// System is a habit of units; its values are bits, so that a Unit can belong to
// both. The zero System counts as SI.
type System uint8

const (
	SI System = 1 << iota // metric practice: mm, kPa, kN/m
	US                    // United States customary practice: in, psi, lbf/in
)

// ParseSystem returns the system called "SI" or "US", in any case.
func ParseSystem(name string) (System, error) {
	switch strings.ToUpper(strings.TrimSpace(name)) {
	case "SI":
		return SI, nil
	case "US":
		return US, nil
	}
	return 0, fmt.Errorf("unit system: got %q, want SI or US", name)
}

// String returns "SI", "US" or, for a unit at home in both, "SI and US".
func (s System) String() string {
	switch s {
	case US:
		return "US"
	case SI | US:
		return "SI and US"
	}
	return "SI"
}
