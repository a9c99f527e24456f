package main

import (
	"github.com/spf13/cobra"

	"tautline/render/machine"
	"tautline/render/terminal"
	"tautline/runner/engine"
	"tautline/runner/output"
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
			var all []machine.Notebook
			for _, file := range files {
				res, report := s.compute(file)
				all = append(all, machine.Notebook{File: file, Source: source(res), Report: report, Outcome: res.Outcome, Findings: res.Diagnostics()})
				if !asJSON && report != nil {
					terminal.Checks(s.out, file, report)
				}
			}
			if asJSON {
				if err := machine.JSON(s.out, all); err != nil {
					return err
				}
			}
			if junit != "" {
				text, err := machine.JUnit(all)
				if err == nil {
					err = output.Write(junit, text)
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
