package report

import (
	"fmt"
	"html/template"
	"strings"

	"tautline/render/chart"
)

// A Study says what moves the checks: the givens within their tolerances.
type Study struct {
	Samples   int    // in which all givens differ at once
	Seed      uint64 // of the samples
	Faulted   int    // samples that could not be computed
	Fault     string // why the first run that could not was not
	Givens    []*ToleranceGiven
	Unvaried  []string // computed names that state a tolerance
	Checks    []*StudyCheck
	Tornadoes []*chart.Tornado // of each check that a given moves, the governing first
}

type (
	// ToleranceGiven is a given with its tolerance.
	ToleranceGiven struct {
		ID               string // anchor of its line; may be empty
		Symbol           template.HTML
		Text             string // the symbol as plain text
		Value, PlusMinus Quantity
	}
	// StudyCheck is one check under the tolerances.
	StudyCheck struct {
		ID       string // anchor; may be empty
		What     string
		Nominal  Share
		Worst    Share  // that one given alone leads to
		By       string // which one, such as "r at 345 mm"; empty when none makes it worse
		Greatest Share  // among the samples
		Fails    int    // samples that fail
		Of       int    // samples that came to the check
		Moves    bool
	}
	// Share is the utilisation of a check in one run.
	Share struct {
		Known       bool
		Utilisation float64 // NaN when it has none
		Holds       bool
	}
)

// A Sweep says what becomes of the checks while one given takes other values.
type Sweep struct {
	Symbol            template.HTML
	Text              string // the symbol as plain text
	From, Nominal, To Quantity
	Steps             int
	Summary           string // what fails first
	Rows              []*SweepRow
	Figures           []*chart.Figure // utilisation over the given
	Notes             []string        // what is not drawn, and what could not be computed
}

// A SweepRow is one check of a sweep.
type SweepRow struct {
	What              string
	From, Nominal, To Share
	Greatest          Share
	Where             string // of the greatest
	Fails             string // "never", "above 410 mm"
}

// Sentence says how many checks a study found to fail.
func (s *Study) Sentence() string {
	var fail []string
	for _, c := range s.Checks {
		switch {
		case c.Fails > 0:
			fail = append(fail, fmt.Sprintf("%s in %d of %d samples", c.What, c.Fails, c.Of))
		case c.By != "" && c.Worst.Fails():
			fail = append(fail, fmt.Sprintf("%s with %s", c.What, c.By))
		}
	}
	switch {
	case s.Faulted == s.Samples:
		return "No sample could be computed."
	case len(fail) == 0 && s.Faulted > 0:
		return "In the samples that could be computed every check holds."
	case len(fail) == 0:
		return "Within the tolerances every check holds."
	}
	return fmt.Sprintf("Within the tolerances %d of %d checks can fail: %s.", len(fail), len(s.Checks), strings.Join(fail, "; "))
}

// Failing says in how many samples the check fails.
func (c *StudyCheck) Failing() string { return fmt.Sprintf("%d of %d", c.Fails, c.Of) }

// Heads are the heads of the columns of utilisations.
func (s *Sweep) Heads() []string {
	return []string{"at " + s.From.String(), "at " + s.Nominal.String() + " (notebook)", "at " + s.To.String()}
}

// Shares are the utilisations under Heads.
func (r *SweepRow) Shares() []Share { return []Share{r.From, r.Nominal, r.To} }

// Trouble says how many samples could not be computed, and why; empty when all
// runs could.
func (s *Study) Trouble() string {
	switch {
	case s.Fault == "":
		return ""
	case s.Faulted == 0:
		return fmt.Sprintf("One end of a tolerance could not be computed: %s.", s.Fault)
	}
	return fmt.Sprintf("%d of %d samples could not be computed. The first run that could not: %s.", s.Faulted, s.Samples, s.Fault)
}
