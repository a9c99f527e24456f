package siting

import (
	"cmp"
	"fmt"
	"math"

	"tautline/stdlib/internal/argument"
	"tautline/stdlib/units"
)

// Scope is what a standard covers.
type Scope struct {
	Covers string
	Oldest units.Number // users, in years
	Text   string       // to print as a caution
	Source string
}

// PlayScope is the scope of the play-inflatable standards.
//
// Source: EN 14960-1 and ISO 20187, scope, as quoted in public copies.
func PlayScope() Scope {
	return Scope{Covers: "bouncing and sliding", Oldest: 14,
		Text:   "The play-inflatable standard covers bouncing and sliding by users up to 14 years. The bed of a powered ride is outside its scope; where its values are used they serve by analogy, and the local code, the standards for amusement rides and a competent person decide.",
		Source: "EN 14960-1 and ISO 20187, scope (public copies)"}
}

const (
	play     = "EN 14960-1:2019"
	verify   = " (from memory: verify against the document)"
	byOthers = " (as quoted by others: verify against the document)"
)

// A Surround is the room that a device keeps round it.
type Surround struct {
	Closed units.Length // clear ground at closed sides
	Open   units.Length // at open sides, where riders get on and off
	Gate   units.Length // width of the gap in the fence
	// Impact is how far soft ground reaches from a fall-off point higher than
	// FallHeight on hard standing, where nobody watches it all the time.
	Impact     units.Length
	FallHeight units.Length
	Source     string
}

// PlaySurround is the room round a play inflatable by the height of its highest
// platform: half of it, at least 1.8 m, and 3.5 m at open sides. A fence stands no
// nearer.
//
// The height is 0 or more; outside it panics.
//
// Source: EN 14960-1, as quoted by others: verify against the document.
func PlaySurround(platform units.Length) Surround {
	argument.Demand("siting: PlaySurround", argument.NotNegative("height of the platform", platform))
	return Surround{Closed: math.Max(platform/2, 1.8*units.M), Open: 3.5 * units.M, Gate: 1 * units.M, Impact: 1.5 * units.M, FallHeight: 630 * units.Mm,
		Source: play + byOthers}
}

// Walls is what a device has to keep users from falling off.
type Walls struct {
	Height units.Length // least, over the platform; 0 when no wall is asked for
	Roof   bool         // a permanent roof is asked for, too
	Source string
}

// PlayWalls is the least wall round a platform: none up to 0.6 m, as high as the
// tallest user up to 3 m, 1.25 of that up to 6 m, and with a roof beyond. Up to
// 6 m a permanent roof may stand in for the height.
//
// The heights of the platform and of the tallest user are 0 or more; outside it
// panics.
//
// Source: EN 14960-1:2019, 4.2.9, from memory: verify against the document, above
// all on which side of 0.6, 3 and 6 m the limits themselves lie.
func PlayWalls(platform, user units.Length) Walls {
	argument.Demand("siting: PlayWalls", argument.NotNegative("height of the platform", platform), argument.NotNegative("height of the user", user))
	w := Walls{Source: play + ", 4.2.9" + verify}
	switch {
	case platform <= 0.6*units.M:
	case platform <= 3*units.M:
		w.Height = user
	default:
		w.Height, w.Roof = 1.25*user, platform > 6*units.M
	}
	return w
}

// PlayRunOut is the least length of the level end of a slide: half the platform's
// height, at least 0.3 m, and 0.5 m more where a wall stops it.
//
// The height of the platform is 0 or more; outside it panics.
//
// Source: EN 14960-1:2019, slides, from memory: verify against the document.
func PlayRunOut(platform units.Length, stopWall bool) units.Length {
	argument.Demand("siting: PlayRunOut", argument.NotNegative("height of the platform", platform))
	out := math.Max(platform/2, 300*units.Mm)
	if stopWall {
		out += 500 * units.Mm
	}
	return out
}

// A LeastPressure is the least air pressure in an inflatable in use.
type LeastPressure struct {
	Pressure units.Pressure
	Source   string
}

// PlayPressure is the least static pressure in a play inflatable: 1.0 kPa.
//
// Caution: a bed that catches riders needs more: by its own calculation of a fall.
//
// Source: EN 14960-1, as quoted by others: verify against the document.
func PlayPressure() LeastPressure {
	return LeastPressure{Pressure: 1 * units.KPa, Source: play + byOthers}
}

// A GroundingMass is the mass that stands for a user in the test whether a bed
// lets a jumper through to the ground.
type GroundingMass struct {
	User   units.Length // users up to this height
	Mass   units.Mass
	Source string
}

// GroundingMasses is the table by the user's height.
//
// Source: EN 14960-1:2019, annex on grounding, from memory: verify against the
// document.
func GroundingMasses() []GroundingMass {
	const source = play + ", annex on grounding" + verify
	return []GroundingMass{{1.0 * units.M, 25 * units.Kg, source}, {1.2 * units.M, 35 * units.Kg, source}, {1.5 * units.M, 65 * units.Kg, source}, {1.8 * units.M, 85 * units.Kg, source}}
}

// GroundingMassFor is the row for users up to a height, the next higher one
// between two.
//
// A height of 0 or less or above 1.8 m is an error.
//
// Source: as GroundingMasses.
func GroundingMassFor(user units.Length) (GroundingMass, error) {
	for _, g := range GroundingMasses() {
		if user > 0 && user <= g.User {
			return g, nil
		}
	}
	return GroundingMass{}, fmt.Errorf("grounding mass: height of the user: got %g m, want above 0 to 1.8 m: heavier users need a test of their own", user)
}

// Users is how many users a bed takes at once.
//
// It is the area over the area that each needs, rounded down. The area is 0 or
// more, the area for each more than 0: figures for it differ between documents, so
// take it from the standard at hand. Outside it is an error.
//
// Source: definition.
func Users(area, each units.Area) (units.Number, error) {
	if err := cmp.Or(argument.NotNegative("area", area), argument.Positive("area for each user", each)); err != nil {
		return 0, fmt.Errorf("users: %w", err)
	}
	return math.Floor(area / each * (1 + 1e-12)), nil
}
