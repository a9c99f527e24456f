package machine

import (
	"encoding/xml"
	"fmt"

	"tautline/render/terminal"
	"tautline/runner/document"
)

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

// JUnit writes notebooks as JUnit XML.
func JUnit(all []Notebook) ([]byte, error) {
	var out suites
	for _, c := range all {
		s := suite{Name: c.File}
		if c.Report != nil {
			for _, k := range c.Report.Checks {
				tc := testCase{Name: k.What, Class: c.File}
				if !k.Holds {
					s.Failures++
					tc.Failure = &message{Message: terminal.Describe(k), Text: fmt.Sprintf("%s:%d", c.File, k.Line)}
				}
				s.Cases = append(s.Cases, tc)
			}
		}
		for _, d := range c.Findings {
			if d.Severity == document.Error {
				s.Errors++
				s.Cases = append(s.Cases, testCase{Name: "notebook runs", Class: c.File,
					Error: &message{Message: d.Message, Text: d.Format(c.Source, false)}})
			}
		}
		s.Tests = len(s.Cases)
		out.Suites = append(out.Suites, s)
	}
	text, err := xml.MarshalIndent(out, "", "  ")
	return append([]byte(xml.Header), append(text, '\n')...), err
}
