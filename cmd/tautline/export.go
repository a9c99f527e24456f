package main

import (
	"github.com/spf13/cobra"

	"tautline/runner/engine"
	"tautline/runner/export"
	"tautline/runner/output"
)

func exportCommand() *cobra.Command {
	var to string
	cmd := &cobra.Command{
		Use:   "export NOTEBOOK",
		Short: "write a notebook as an ordinary Go program",
		Long: `export writes the calculation of a notebook as a Go program of one file. Compiled
by Go it prints, bit for bit, the numbers of the report. Run it in tautline's
source folder, since it imports the library, with the notebook's data files in
the working folder:

  tautline export notebooks/lagoon-bed.md -o /tmp/lagoon.go
  go run /tmp/lagoon.go`,
		Args: oneNotebook,
		RunE: func(cmd *cobra.Command, args []string) error {
			s := newSession(cmd, engine.Limits{})
			plan, err := s.plan(args[0])
			if err != nil {
				return err
			}
			text, err := export.Program(plan)
			if err != nil {
				return err
			}
			if to != "" {
				return output.Write(to, text)
			}
			_, err = s.out.Write(text)
			return err
		},
	}
	cmd.Flags().StringVarP(&to, "output", "o", "", "write to `FILE` instead of standard output")
	return cmd
}
