package controls

import (
	"fmt"
	"math"
	"slices"

	"tautline/stdlib/internal/argument"
	"tautline/stdlib/units"
)

// classes of the mean time to a dangerous failure, years.
const (
	notAllowed = 3
	medium     = 10
	high       = 30
	capped     = 100  // what counts at most of one channel
	cappedFour = 2500 // and in category 4
)

// TimeClass is the class of the mean time to a dangerous failure of one channel:
// "low" from 3 years, "medium" from 10, "high" from 30.
//
// Less than 3 years is an error: such a channel must not be used.
//
// Source: ISO 13849-1:2015, Table 4 (from memory: verify against the document).
func TimeClass(mttfd units.Time) (string, error) {
	if err := argument.Positive("mean time to a dangerous failure", mttfd); err != nil {
		return "", err
	}
	years := mttfd / units.Yr * (1 + 1e-12)
	switch {
	case years < notAllowed:
		return "", fmt.Errorf("mean time to a dangerous failure: got %.3g years, want at least 3: take parts that last longer", years)
	case years < medium:
		return "low", nil
	case years < high:
		return "medium", nil
	}
	return "high", nil
}

// CoverageClass is the class of the diagnostic coverage: "none" below 60 %, "low"
// below 90 %, "medium" below 99 %, else "high".
//
// The coverage is 0 to 1; outside it panics.
//
// Source: ISO 13849-1:2015, Table 5 (from memory: verify against the document).
func CoverageClass(coverage units.Number) string {
	argument.Demand("controls: CoverageClass", argument.Within("coverage", coverage, 0, 1))
	c := coverage * (1 + 1e-12)
	switch {
	case c < 0.6:
		return "none"
	case c < 0.9:
		return "low"
	case c < 0.99:
		return "medium"
	}
	return "high"
}

// SimpleLevel is the performance level of a subsystem from its category and its
// classes alone.
//
// A category with classes for which the table has no level is an error that says
// so. Coverage above the best column of a category counts as that column.
//
// Source: ISO 13849-1:2015, 4.5.4, Table 6 (from memory: verify against the
// document).
func SimpleLevel(category, timeClass, coverageClass string) (string, error) {
	column, err := column(category, coverageClass)
	if err != nil {
		return "", err
	}
	row := slices.Index([]string{"low", "medium", "high"}, timeClass)
	if row < 0 {
		return "", fmt.Errorf(`class of time: got %q, want "low", "medium" or "high"`, timeClass)
	}
	level := map[string][3]string{
		"B": {"a", "b", ""}, "1": {"", "", "c"}, "2 low": {"a", "b", "c"}, "2 medium": {"b", "c", "d"},
		"3 low": {"b", "c", "d"}, "3 medium": {"c", "d", "d"}, "4": {"", "", "e"},
	}[column][row]
	if level == "" {
		return "", fmt.Errorf("category %s with a time of class %s: got no performance level in the table, want another category or other parts", category, timeClass)
	}
	return level, nil
}

// column is the name of the column of the tables for a category and a coverage.
func column(category, coverageClass string) (string, error) {
	c := slices.Index([]string{"none", "low", "medium", "high"}, coverageClass)
	switch {
	case c < 0:
		return "", fmt.Errorf(`class of coverage: got %q, want "none", "low", "medium" or "high"`, coverageClass)
	case category == "B" || category == "1":
		return category, nil
	case (category == "2" || category == "3") && c == 0:
		return "", fmt.Errorf("category %s: diagnostic coverage: got none, want at least 60 %%: faults have to be found", category)
	case category == "2" || category == "3":
		return category + " " + []string{"", "low", "medium", "medium"}[c], nil
	case category == "4" && c < 3:
		return "", fmt.Errorf("category 4: diagnostic coverage: got %s, want high, 99 %%", coverageClass)
	case category == "4":
		return "4", nil
	}
	return "", fmt.Errorf(`category: got %q, want "B", "1", "2", "3" or "4"`, category)
}

// rates are rows of the table of dangerous failures per hour, by years; 0 stands
// for no value.
//
// Source: ISO 13849-1:2015, Annex K, Table K.1, eight of its rows (from memory:
// verify against the document). Models of a few states, which are in the tests, come
// within a twentieth of category 2, and of category 3 with medium coverage; within a
// tenth of category 4, and of category 3 with low coverage from 10 years. The value of
// category 3 with low coverage at 3 years lies between two models, one of them a
// quarter above it: it is not verified any closer.
var rates = []struct {
	years                                          float64
	twoLow, twoMedium, threeLow, threeMedium, four float64
}{
	{3, 2.58e-5, 1.99e-5, 1.26e-5, 6.09e-6, 0},
	{10, 7.18e-6, 5.14e-6, 3.21e-6, 1.36e-6, 0},
	{15, 4.53e-6, 3.01e-6, 1.82e-6, 7.44e-7, 0},
	{20, 3.26e-6, 2.06e-6, 1.22e-6, 4.85e-7, 0},
	{30, 2.06e-6, 1.21e-6, 6.94e-7, 2.65e-7, 9.54e-8},
	{39, 1.53e-6, 8.40e-7, 4.53e-7, 1.78e-7, 7.11e-8},
	{62, 9.06e-7, 4.43e-7, 2.13e-7, 8.84e-8, 4.22e-8},
	{100, 5.28e-7, 2.29e-7, 1.01e-7, 4.29e-8, 2.47e-8},
}

// FailureRate is the rate of dangerous failures of a subsystem from its category,
// the mean time to a dangerous failure of a channel and the coverage.
//
// Between rows of the table the next lower time counts, which is the worse one.
// In category B and 1 the rate is just one failure in the time, for 3 to less than
// 30 years and from 30 years; times above 100 years count as 100. Less than 3
// years and pairs for which the table has no value are an error.
//
// Source: ISO 13849-1:2015, Annex K, Table K.1, eight of its rows (from memory:
// verify against the document).
func FailureRate(category string, mttfd units.Time, coverage units.Number) (units.Frequency, error) {
	class, err := TimeClass(mttfd)
	if err != nil {
		return 0, err
	}
	col, err := column(category, CoverageClass(coverage))
	if err != nil {
		return 0, err
	}
	if _, err := SimpleLevel(category, class, CoverageClass(coverage)); err != nil {
		return 0, err
	}
	years := math.Min(mttfd/units.Yr, capped)
	if col == "B" || col == "1" {
		return 1 / (years * units.Yr), nil
	}
	hourly := 0.0
	for _, r := range rates {
		if r.years <= years*(1+1e-12) {
			hourly = map[string]float64{"2 low": r.twoLow, "2 medium": r.twoMedium, "3 low": r.threeLow, "3 medium": r.threeMedium, "4": r.four}[col]
		}
	}
	return hourly * units.PerH, nil
}
