package crew

import (
	"fmt"

	"tautline/stdlib/internal/argument"
	"tautline/stdlib/units"
)

// A CarryGuide is how much one person may carry over a distance, with both hands
// and in good conditions.
type CarryGuide struct {
	Distance  units.Length    // up to which it holds
	Often     units.Frequency // carries, at the most
	PerMinute units.Mass      // carried in a minute
	PerHour   units.Mass
	PerDay    units.Mass // of eight hours
	Source    string
}

// CarryGuides is the table by distance, from the shortest.
//
// Source: ISO 11228-1:2003, table 1, from memory: verify against the document.
func CarryGuides() []CarryGuide {
	var list []CarryGuide
	for _, r := range []struct{ distance, often, minute, hour, day float64 }{
		{1, 8, 120, 7200, 10000}, {2, 5, 75, 4500, 10000}, {4, 4, 60, 3000, 10000}, {10, 2, 30, 1500, 10000}, {20, 1, 15, 750, 6000},
	} {
		list = append(list, CarryGuide{r.distance * units.M, r.often * units.PerMin, r.minute * units.Kg, r.hour * units.Kg, r.day * units.Kg,
			"ISO 11228-1:2003, table 1 (from memory: verify against the document)"})
	}
	return list
}

// CarryGuideFor is the row for a distance, the next longer one between two.
//
// A distance of 0 or less, or of more than 20 m, is an error: then it is rolled.
//
// Source: as CarryGuides.
func CarryGuideFor(distance units.Length) (CarryGuide, error) {
	if err := argument.Positive("distance", distance); err != nil {
		return CarryGuide{}, fmt.Errorf("carrying: %w", err)
	}
	for _, g := range CarryGuides() {
		if atMost(distance, g.Distance) {
			return g, nil
		}
	}
	return CarryGuide{}, fmt.Errorf("carrying: distance: got %.3g m, want at most 20 m: roll it", distance)
}
