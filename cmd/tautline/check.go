package main

import (
	"encoding/json"
	"encoding/xml"
	"fmt"
	"io"
	"math"
	"strings"

	"github.com/spf13/cobra"

	"tautline/render/report"
	"tautline/runner"
	"tautline/runner/document"
	"tautline/runner/engine"
	"tautline/stdlib/sheet"
)

func checkCommand() *cobra.Command {
	var junit string
	var asJSON bool
	var limits engine.Limits
	cmd := &cobra.Command{
		Use:   "check NOTEBOOK...",
		Short: "run notebooks and say of each check whether it holds",
		Long: `check computes each notebook from nothing and prints one line a check, for
people and for continuous integration. It writes no report.

Exit code: 0 when all checks hold, 1 when a notebook fails, 2 when one cannot
be read.`,
		Example: "  tautline check notebooks/*.md\n  tautline check --junit checks.xml --json notebooks/*.md",
		Args:    atLeastOneNotebook,
		RunE: func(cmd *cobra.Command, files []string) error {
			s := newSession(cmd, limits)
			var all []checked
			for _, file := range files {
				res, report := s.compute(file)
				all = append(all, checked{res, report})
				if !asJSON && report != nil {
					printChecks(s.out, file, report)
				}
			}
			if asJSON {
				if err := writeJSON(s.out, all); err != nil {
					return err
				}
			}
			if junit != "" {
				text, err := junitXML(all)
				if err == nil {
					err = writeFile(junit, text)
				}
				if err != nil {
					return err
				}
			}
			return s.end()
		},
	}
	cmd.Flags().StringVar(&junit, "junit", "", "write the results to `FILE` as JUnit XML")
	cmd.Flags().BoolVar(&asJSON, "json", false, "print the results, values too, as JSON")
	limitFlags(cmd, &limits)
	return cmd
}

type checked struct {
	res    *runner.Result
	report *report.Report
}

// printChecks prints one line a check and one for the notebook.
func printChecks(w io.Writer, file string, r *report.Report) {
	for _, c := range r.Checks {
		word := "holds"
		if !c.Holds {
			word = "FAILS"
		}
		fmt.Fprintf(w, "%s:%d: %s %6s  %s\n", file, c.Line, word, share(c.Utilisation), describe(c))
	}
	for _, t := range r.Trials {
		fmt.Fprintf(w, "%s:%d: trial %s: %s, predicted %s\n", file, t.Line, t.What, plainSpaces(t.Standing()), plainSpaces(t.Foretold()))
	}
	fmt.Fprintf(w, "%s: %s\n", file, r.Verdict.Whole())
}

func share(u float64) string {
	switch {
	case math.IsNaN(u):
		return ""
	case math.IsInf(u, 0):
		return "∞"
	}
	return fmt.Sprintf("%.0f %%", 100*u)
}

// describe says a check in words: "long seam: 3.1 kN/m, at most 4.44 kN/m".
func describe(c *report.Check) string {
	text := c.What
	if len(c.Capacity) > 0 {
		text += ": " + say(c.Demand) + ", " + c.Rule + " "
		var ends []string
		for _, q := range c.Capacity {
			ends = append(ends, say(q))
		}
		text += strings.Join(ends, " to ")
	}
	return text
}

// say is a quantity for a terminal: with an ordinary space, which can be searched
// for.
func say(q report.Quantity) string { return strings.ReplaceAll(q.String(), "\u00a0", " ") }

// The JSON of a run: numbers in SI base units, a number that is not finite as a
// text.
type (
	jsonNotebook struct {
		Notebook string                 `json:"notebook"`
		Verdict  string                 `json:"verdict"`
		Holds    bool                   `json:"holds"`
		Digest   string                 `json:"digest,omitempty"`
		Checks   []jsonCheck            `json:"checks"`
		Values   map[string]sheet.Value `json:"values,omitempty"`
		Findings []jsonFinding          `json:"findings,omitempty"`
	}
	jsonCheck struct {
		Line        int         `json:"line"`
		What        string      `json:"what"`
		Rule        string      `json:"rule"`
		Holds       bool        `json:"holds"`
		Utilisation sheet.Float `json:"utilisation"`
		Demand      string      `json:"demand,omitempty"`
		Capacity    []string    `json:"capacity,omitempty"`
		Source      string      `json:"source,omitempty"`
	}
	jsonFinding struct {
		Severity string `json:"severity"`
		Line     int    `json:"line"`
		Column   int    `json:"column"`
		Message  string `json:"message"`
		Hint     string `json:"hint,omitempty"`
	}
)

func writeJSON(w io.Writer, all []checked) error {
	out := []jsonNotebook{}
	for _, c := range all {
		n := jsonNotebook{Notebook: c.res.File, Verdict: "not run", Checks: []jsonCheck{}}
		if c.report != nil {
			n.Verdict, n.Digest = c.report.Verdict.Whole(), c.report.Identity.Digest
			n.Holds = c.report.Verdict.Kind == report.AllHold && c.report.Verdict.Good()
			for _, k := range c.report.Checks {
				n.Checks = append(n.Checks, jsonOf(k))
			}
		}
		if c.res.Outcome != nil {
			n.Values = c.res.Outcome.Values
		}
		for _, d := range c.res.Diagnostics() {
			n.Findings = append(n.Findings, jsonFinding{d.Severity.String(), d.Range.Start.Line, d.Range.Start.Column, d.Message, d.Hint})
		}
		out = append(out, n)
	}
	return printJSON(w, out)
}

// printJSON prints a value for machines, and for people who look at it.
func printJSON(w io.Writer, v any) error {
	enc := json.NewEncoder(w)
	enc.SetIndent("", "  ")
	enc.SetEscapeHTML(false)
	return enc.Encode(v)
}

func jsonOf(c *report.Check) jsonCheck {
	out := jsonCheck{Line: c.Line, What: c.What, Rule: c.Rule, Holds: c.Holds, Utilisation: sheet.Float(c.Utilisation), Source: c.Source.Text}
	if len(c.Capacity) > 0 {
		out.Demand = say(c.Demand)
	}
	for _, q := range c.Capacity {
		out.Capacity = append(out.Capacity, say(q))
	}
	return out
}

// The JUnit XML that continuous integration reads: a suite a notebook, a case a
// check, errors of the notebook as a case of their own.
type (
	suites struct {
		XMLName xml.Name `xml:"testsuites"`
		Suites  []suite  `xml:"testsuite"`
	}
	suite struct {
		Name     string     `xml:"name,attr"`
		Tests    int        `xml:"tests,attr"`
		Failures int        `xml:"failures,attr"`
		Errors   int        `xml:"errors,attr"`
		Cases    []testCase `xml:"testcase"`
	}
	testCase struct {
		Name    string   `xml:"name,attr"`
		Class   string   `xml:"classname,attr"`
		Failure *message `xml:"failure,omitempty"`
		Error   *message `xml:"error,omitempty"`
	}
	message struct {
		Message string `xml:"message,attr"`
		Text    string `xml:",chardata"`
	}
)

func junitXML(all []checked) ([]byte, error) {
	var out suites
	for _, c := range all {
		s := suite{Name: c.res.File}
		if c.report != nil {
			for _, k := range c.report.Checks {
				tc := testCase{Name: k.What, Class: c.res.File}
				if !k.Holds {
					s.Failures++
					tc.Failure = &message{Message: describe(k), Text: fmt.Sprintf("%s:%d", c.res.File, k.Line)}
				}
				s.Cases = append(s.Cases, tc)
			}
		}
		for _, d := range c.res.Diagnostics() {
			if d.Severity == document.Error {
				s.Errors++
				s.Cases = append(s.Cases, testCase{Name: "notebook runs", Class: c.res.File,
					Error: &message{Message: d.Message, Text: d.Format(source(c.res), false)}})
			}
		}
		s.Tests = len(s.Cases)
		out.Suites = append(out.Suites, s)
	}
	text, err := xml.MarshalIndent(out, "", "  ")
	return append([]byte(xml.Header), append(text, '\n')...), err
}
