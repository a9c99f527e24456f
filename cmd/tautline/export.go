package main

import (
	"fmt"

	"github.com/spf13/cobra"

	"tautline/runner"
	"tautline/runner/engine"
	"tautline/runner/export"
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
		Args: func(cmd *cobra.Command, args []string) error {
			if len(args) != 1 {
				return fmt.Errorf("export: name one notebook")
			}
			return nil
		},
		RunE: func(cmd *cobra.Command, args []string) error {
			s := newSession(cmd, engine.Limits{})
			res := runner.Check(args[0])
			for _, d := range res.Diagnostics() {
				fmt.Fprint(s.err, d.Format(source(res), s.color))
			}
			if res.Unread {
				return fmt.Errorf("could not read %s", args[0])
			}
			if res.Plan == nil || res.Failed() {
				return errFails
			}
			text, err := export.Program(res.Plan)
			if err != nil {
				return err
			}
			if to != "" {
				return writeFile(to, text)
			}
			_, err = s.out.Write(text)
			return err
		},
	}
	cmd.Flags().StringVarP(&to, "output", "o", "", "write to `FILE` instead of standard output")
	return cmd
}
