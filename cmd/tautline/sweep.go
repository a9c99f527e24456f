package main

import (
	"bytes"
	"errors"
	"fmt"
	"time"

	"github.com/spf13/cobra"

	"tautline/render/machine"
	"tautline/render/page"
	"tautline/render/sensitivity"
	"tautline/render/terminal"
	"tautline/runner"
	"tautline/runner/engine"
	"tautline/runner/outcome"
	"tautline/runner/output"
	"tautline/runner/study"
)

// What a study of tolerances has when nothing is said.
const (
	defaultSamples = 400
	defaultSeed    = 1
)

// sweepOptions are the flags of the command.
type sweepOptions struct {
	given, from, to string
	steps           int
	tolerances      bool
	samples         int
	seed            uint64
	html            string
	asJSON          bool
	limits          engine.Limits
}

func sweepCommand() *cobra.Command {
	var o sweepOptions
	cmd := &cobra.Command{
		Use:   "sweep NOTEBOOK",
		Short: "show which given moves which check, and where a check fails",
		Long: `sweep runs a notebook many times with other numbers for its givens.

With --given it takes one given from one value to another, and finds where
checks begin to fail. Without --from and --to it takes the range that the
notebook states with sheet.Given.

With --tolerances it takes every given that states a tolerance with
sheet.PlusMinus, each alone to both ends and then all at once in samples
spread evenly over all tolerances.

Exit code: 0 when it is done, also when checks fail on the way; 1 when the
notebook itself cannot be run; 2 for wrong use.`,
		Example: "  tautline sweep notebooks/lagoon-bed.md --given r\n  tautline sweep notebooks/lagoon-bed.md --given s --from 400mm --to 80cm --html s.html\n  tautline sweep notebooks/lagoon-bed.md --tolerances --samples 1000",
		Args:    oneNotebook,
		RunE: func(cmd *cobra.Command, args []string) error {
			if err := o.check(cmd); err != nil {
				return err
			}
			return o.run(newSession(cmd, o.limits), args[0])
		},
	}
	f := cmd.Flags()
	f.StringVar(&o.given, "given", "", "`NAME` of the given to vary")
	f.StringVar(&o.from, "from", "", "its first `VALUE`, such as 250mm")
	f.StringVar(&o.to, "to", "", "its last `VALUE`")
	f.IntVar(&o.steps, "steps", 21, "values that it takes, both ends included")
	f.BoolVar(&o.tolerances, "tolerances", false, "vary all givens within their tolerances instead")
	f.IntVar(&o.samples, "samples", defaultSamples, "samples in which all givens vary at once")
	f.Uint64Var(&o.seed, "seed", defaultSeed, "of the samples: the same gives the same ones")
	f.StringVar(&o.html, "html", "", "write a page with figures to `FILE`")
	f.BoolVar(&o.asJSON, "json", false, "print the results as JSON")
	limitFlags(cmd, &o.limits)
	return cmd
}

// check refuses flags that do not go together.
func (o *sweepOptions) check(cmd *cobra.Command) error {
	if (o.given == "") != o.tolerances {
		return errors.New("sweep: say what to vary: --given NAME, or --tolerances")
	}
	other := map[bool][]string{true: {"from", "to", "steps"}, false: {"samples", "seed"}}
	for _, name := range other[o.tolerances] {
		if cmd.Flags().Changed(name) {
			return fmt.Errorf("sweep: --%s goes with %s", name, map[bool]string{true: "--given", false: "--tolerances"}[o.tolerances])
		}
	}
	return nil
}

func (o *sweepOptions) run(s *session, file string) error {
	res, report := s.compute(file)
	switch {
	case s.broken != nil || len(s.unread) > 0:
		return s.end()
	case report == nil || !res.Ran():
		return errFails
	}
	out := &page.StudyPage{Title: report.Title, File: report.File, Identity: report.Identity}
	var result any
	var err error
	if o.tolerances {
		var tol *outcome.Toleranced
		if tol, err = s.tolerances(res, o.samples, o.seed); err == nil {
			out.Study = sensitivity.Tolerances(res.Plan, res.Outcome, tol, nil)
			result = machine.Tolerances(file, tol)
		}
	} else {
		var swept *outcome.Swept
		if swept, err = o.sweep(s, res); err == nil {
			out.Sweep = sensitivity.Sweep(res.Plan, res.Outcome, swept)
			result = machine.Sweep(file, swept)
		}
	}
	if err != nil {
		return fmt.Errorf("%s: %w", file, err)
	}
	if o.html != "" {
		var text bytes.Buffer
		if err := page.StudyHTML(&text, out); err != nil {
			return err
		}
		if err := output.Write(o.html, text.Bytes()); err != nil {
			return err
		}
	}
	if o.asJSON {
		return machine.Print(s.out, result)
	}
	if out.Sweep != nil {
		terminal.Sweep(s.out, out.Sweep)
	} else {
		terminal.Tolerances(s.out, out.Study)
	}
	if o.html != "" {
		fmt.Fprintf(s.out, "page: %s\n", o.html)
	}
	return nil
}

// sweep reads the ends and sweeps the given.
func (o *sweepOptions) sweep(s *session, res *runner.Result) (*outcome.Swept, error) {
	n, err := study.Given(res.Plan, res.Program, o.given)
	if err != nil {
		return nil, err
	}
	from, to, stated := study.Range(res.Plan, res.Outcome, n)
	measure := res.Plan.ObjectMeasure(n.Object)
	for _, end := range []struct {
		flag, text string
		value      *float64
	}{{"from", o.from, &from}, {"to", o.to, &to}} {
		if end.text == "" {
			if !stated {
				return nil, fmt.Errorf("given %s states no range: give --from and --to, or write it as %s := sheet.Given(value, low, high)", o.given, o.given)
			}
			continue
		}
		if *end.value, err = measure.Read(end.text); err != nil {
			return nil, fmt.Errorf("--%s: %w", end.flag, err)
		}
	}
	progress, stop := s.counting("sweeping " + o.given)
	defer stop()
	return study.Sweep(s.ctx, res.Plan, res.Program, o.given, from, to, o.steps, s.limits, progress)
}

// tolerances studies the tolerances of a notebook that ran.
func (s *session) tolerances(res *runner.Result, samples int, seed uint64) (*outcome.Toleranced, error) {
	progress, stop := s.counting("varying the givens of " + res.File)
	defer stop()
	return study.Tolerances(s.ctx, res.Plan, res.Program, res.Outcome, samples, seed, s.limits, progress)
}

// counting tells a watching terminal how many runs are done. stop ends it.
func (s *session) counting(what string) (progress func(done, total int), stop func()) {
	if !s.watched {
		return nil, func() {}
	}
	last := time.Now()
	progress = func(done, total int) {
		if now := time.Now(); now.Sub(last) > 100*time.Millisecond {
			last = now
			fmt.Fprintf(s.err, "\r\x1b[K%s: %d of %d runs", what, done, total)
		}
	}
	return progress, func() { fmt.Fprint(s.err, "\r\x1b[K") }
}
