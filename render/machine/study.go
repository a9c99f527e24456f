package machine

import (
	"tautline/runner/outcome"
	"tautline/stdlib/sheet"
)

// The JSON of a study: numbers in SI base units, a number that is not finite as
// a text, as in that of a run.
type (
	jsonSweep struct {
		Notebook string        `json:"notebook"`
		Given    string        `json:"given"`
		Nominal  sheet.Float   `json:"nominal"`
		Values   []sheet.Float `json:"values"`
		Faults   []string      `json:"faults"` // by value; empty where it could be computed
		Checks   []jsonCourse  `json:"checks"`
	}
	jsonCourse struct {
		What    string       `json:"what"`
		Nth     int          `json:"nth,omitempty"` // of the checks with this text, from 0
		Nominal jsonJudged   `json:"nominal"`
		Points  []jsonJudged `json:"points"`
		Turns   []jsonTurn   `json:"turns"`
	}
	jsonJudged struct {
		Known       bool        `json:"known"`
		Holds       bool        `json:"holds"`
		Utilisation sheet.Float `json:"utilisation"`
		Demand      sheet.Float `json:"demand"`
	}
	jsonTurn struct {
		At    sheet.Float `json:"at"`
		Fails string      `json:"fails"` // "above" or "below"
	}
	jsonTolerances struct {
		Notebook string            `json:"notebook"`
		Samples  int               `json:"samples"`
		Seed     uint64            `json:"seed"`
		Faulted  int               `json:"faulted"`
		Fault    string            `json:"fault,omitempty"`
		Givens   []jsonTolerance   `json:"givens"`
		Unvaried []string          `json:"unvaried,omitempty"`
		Checks   []jsonSensitivity `json:"checks"`
	}
	jsonTolerance struct {
		Given     string      `json:"given"`
		Value     sheet.Float `json:"value"`
		PlusMinus sheet.Float `json:"plusMinus"`
	}
	jsonSensitivity struct {
		What     string       `json:"what"`
		Nth      int          `json:"nth,omitempty"`
		Nominal  jsonJudged   `json:"nominal"`
		Mover    string       `json:"mover,omitempty"` // the given that moves it most
		Effects  []jsonEffect `json:"effects"`
		Least    sheet.Float  `json:"least"`
		Greatest sheet.Float  `json:"greatest"`
		Fails    int          `json:"fails"`
		Missing  int          `json:"missing"`
	}
	jsonEffect struct {
		Given string     `json:"given"`
		Low   jsonJudged `json:"low"`
		High  jsonJudged `json:"high"`
	}
)

// Sweep is a sweep of a notebook, to be printed.
func Sweep(file string, s *outcome.Swept) any {
	out := jsonSweep{Notebook: file, Given: s.Given, Nominal: sheet.Float(s.Nominal), Faults: s.Faults}
	for _, v := range s.Values {
		out.Values = append(out.Values, sheet.Float(v))
	}
	for _, c := range s.Courses {
		course := jsonCourse{What: c.Check.What, Nth: c.Check.Nth, Nominal: jsonOfJudged(c.Nominal), Turns: []jsonTurn{}}
		for _, p := range c.Points {
			course.Points = append(course.Points, jsonOfJudged(p))
		}
		for _, t := range c.Turns {
			where := "below"
			if t.Fails {
				where = "above"
			}
			course.Turns = append(course.Turns, jsonTurn{sheet.Float(t.At), where})
		}
		out.Checks = append(out.Checks, course)
	}
	return out
}

// Tolerances is a study of the tolerances of a notebook, to be printed.
func Tolerances(file string, t *outcome.Toleranced) any {
	out := jsonTolerances{Notebook: file, Samples: t.Samples, Seed: t.Seed, Faulted: t.Faulted, Fault: t.Fault, Unvaried: t.Unvaried}
	for _, g := range t.Givens {
		out.Givens = append(out.Givens, jsonTolerance{g.Given, sheet.Float(g.Value), sheet.Float(g.PlusMinus)})
	}
	for _, c := range t.Checks {
		s := jsonSensitivity{What: c.Check.What, Nth: c.Check.Nth, Nominal: jsonOfJudged(c.Nominal),
			Least: sheet.Float(c.Least), Greatest: sheet.Float(c.Greatest), Fails: c.Fails, Missing: c.Missing}
		for k, e := range c.Effects {
			s.Effects = append(s.Effects, jsonEffect{t.Givens[k].Given, jsonOfJudged(e.Low), jsonOfJudged(e.High)})
		}
		if k := c.Mover(); k >= 0 {
			s.Mover = t.Givens[k].Given
		}
		out.Checks = append(out.Checks, s)
	}
	return out
}

func jsonOfJudged(j outcome.Judged) jsonJudged {
	return jsonJudged{j.Known, j.Holds, sheet.Float(j.Utilisation), sheet.Float(j.Demand)}
}
