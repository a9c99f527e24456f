package main

import (
	"bufio"
	"fmt"
	"io"
	"strings"
	"time"

	"github.com/spf13/cobra"

	"tautline/render/report"
	"tautline/render/terminal"
	"tautline/runner/engine"
	"tautline/runner/trial"
)

func trialCommand() *cobra.Command {
	var who string
	var limits engine.Limits
	cmd := &cobra.Command{
		Use:   "trial NOTEBOOK",
		Short: "enter what was measured on the built ride",
		Long: `trial computes a notebook and asks for a reading of each thing that it names to be
measured on the built ride (sheet.Trial). A reading is judged at once against
what was predicted and added, with who, when and the instrument, to
NAME-trials.csv beside the notebook. Lines of that file are only added.

An empty answer leaves a reading out; the end of the input ends the command.

Exit code: 0 when no reading is outside its tolerance, 1 when one is or the
notebook fails, 2 when it cannot be read.`,
		Example: "  tautline trial notebooks/lagoon-bed.md\n  tautline trial --who \"M. Fitter\" notebooks/lagoon-bed.md",
		Args: func(cmd *cobra.Command, args []string) error {
			if len(args) != 1 {
				return fmt.Errorf("trial: got %d notebooks, want the one whose ride is measured", len(args))
			}
			return nil
		},
		RunE: func(cmd *cobra.Command, args []string) error {
			s := newSession(cmd, limits)
			file := args[0]
			res, report := s.compute(file)
			if report == nil || !res.Ran() {
				return s.end()
			}
			if len(report.Trials) == 0 {
				return fmt.Errorf("%s: it names nothing to be measured: a cell does so with sheet.Trial", file)
			}
			a := &asker{in: bufio.NewReader(cmd.InOrStdin()), out: s.out}
			fmt.Fprintf(s.out, "%s: %s\nAn empty answer leaves a reading out.\n", file, report.Verdict.Tried())
			if who == "" {
				who = a.ask("Who measures? ")
			}
			outside, err := a.all(report, trial.File(file), who)
			if err != nil {
				return err
			}
			if outside {
				return errFails
			}
			return nil
		},
	}
	cmd.Flags().StringVar(&who, "who", "", "`NAME` of who measures")
	limitFlags(cmd, &limits)
	return cmd
}

// An asker asks questions, one a line.
type asker struct {
	in   *bufio.Reader
	out  io.Writer
	done bool // there are no more answers
}

// ask asks once. The answer is empty when there is none.
func (a *asker) ask(question string) string {
	if a.done {
		return ""
	}
	fmt.Fprint(a.out, question)
	line, err := a.in.ReadString('\n')
	if err != nil {
		a.done = true
		fmt.Fprintln(a.out)
	}
	return strings.TrimSpace(line)
}

// all asks for a reading of every trial and reports whether one was outside.
func (a *asker) all(report *report.Report, file, who string) (outside bool, err error) {
	added := 0
	for i, t := range report.Trials {
		fmt.Fprintf(a.out, "\n%d of %d: %s\n  predicted %s; %s\n", i+1, len(report.Trials), t.What, terminal.PlainSpaces(t.Foretold()), terminal.PlainSpaces(t.Standing()))
		r, ok := a.reading(t)
		if a.done && !ok {
			break
		}
		if !ok {
			continue
		}
		r.Who = who
		for r.Who == "" && !a.done {
			r.Who = a.ask("  who measured it? ")
		}
		for r.Instrument == "" && !a.done {
			r.Instrument = a.ask("  measured with: ")
		}
		if err := trial.Append(file, r); err != nil {
			return outside, fmt.Errorf("the reading %s %s of %q is not kept: %w", r.Number, r.Unit.Symbol, t.What, err)
		}
		added++
		judged := t.Judge(r)
		outside = outside || !judged.Within
		fmt.Fprintf(a.out, "  kept: %s, %s from what was predicted: %s\n", terminal.Say(judged.Reading), terminal.Say(judged.Off), judged.Word())
	}
	if added > 0 {
		fmt.Fprintf(a.out, "\nreadings: %s\n", file)
	}
	return outside, nil
}

// reading asks until it gets a reading of the trial or none.
func (a *asker) reading(t *report.Trial) (trial.Reading, bool) {
	for {
		answer := a.ask("  reading in " + t.Unit().Symbol + ": ")
		if answer == "" {
			return trial.Reading{}, false
		}
		r := trial.Reading{Trial: t.What, When: time.Now()}
		var err error
		if r.Number, r.Unit, err = trial.Entered(answer, t.Unit()); err != nil {
			fmt.Fprintf(a.out, "  %v\n", err)
			continue
		}
		if r.Instrument = t.Instrument; r.Instrument != "" {
			if other := a.ask("  measured with (empty: " + t.Instrument + "): "); other != "" {
				r.Instrument = other
			}
		}
		r.Note = a.ask("  note: ")
		return r, true
	}
}
