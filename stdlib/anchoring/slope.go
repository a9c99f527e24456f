package anchoring

import (
	"math"

	"tautline/stdlib/internal/argument"
	"tautline/stdlib/units"
)

// SlopeAngle is the angle of a slope given as rise over run: 5 % is 2.9°, not 5°.
//
//	angle = atan(grade)
//
// The grade is positive uphill, any finite number; outside it panics.
//
// Source: definition of the grade.
func SlopeAngle(grade units.Number) units.Angle {
	argument.Demand("anchoring: SlopeAngle", argument.Finite("grade", grade))
	return math.Atan(grade)
}

// A SlopeLimit is the steepest ground a document allows.
type SlopeLimit struct {
	Grade  units.Number // rise over run
	Source string
}

// PlayInflatableSlope is the steepest ground for play inflatables.
//
// Caution: a powered ride's bed is outside that standard's scope; it serves
// there by analogy.
//
// Source: EN 14960-1, as quoted by others: verify against the document.
func PlayInflatableSlope() SlopeLimit {
	return SlopeLimit{Grade: 5 * units.Percent, Source: "EN 14960-1 (as quoted by others: verify against the document)"}
}
