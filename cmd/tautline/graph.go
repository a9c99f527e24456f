package main

import (
	"fmt"

	"github.com/spf13/cobra"

	"tautline/render/graph"
	"tautline/runner"
	"tautline/runner/check"
	"tautline/runner/engine"
	"tautline/runner/output"
)

func graphCommand() *cobra.Command {
	var svg string
	cmd := &cobra.Command{
		Use:   "graph NOTEBOOK",
		Short: "show what each value and check rests on",
		Long: `graph lists every top-level name and every check of a notebook with what it reads
and the givens and data that it rests on in the end. Nothing is run.`,
		Example: "  tautline graph notebooks/lagoon-bed.md\n  tautline graph notebooks/lagoon-bed.md --svg lagoon-bed.svg",
		Args:    oneNotebook,
		RunE: func(cmd *cobra.Command, args []string) error {
			s := newSession(cmd, engine.Limits{})
			plan, err := s.plan(args[0])
			if err != nil {
				return err
			}
			g := plan.Graph()
			if svg != "" {
				return output.Write(svg, graph.SVG(g))
			}
			_, err = fmt.Fprint(s.out, g.Text())
			return err
		},
	}
	cmd.Flags().StringVar(&svg, "svg", "", "draw it into `FILE` instead")
	return cmd
}

// oneNotebook asks for exactly one notebook.
func oneNotebook(cmd *cobra.Command, args []string) error {
	if len(args) != 1 {
		return fmt.Errorf("%s: name one notebook", cmd.Name())
	}
	return nil
}

// plan checks a notebook without running it and prints what was found.
func (s *session) plan(file string) (*check.Plan, error) {
	res := runner.Check(file)
	for _, d := range res.Diagnostics() {
		fmt.Fprint(s.err, d.Format(source(res), s.color))
	}
	switch {
	case res.Unread:
		return nil, fmt.Errorf("could not read %s", file)
	case res.Plan == nil || res.Failed():
		return nil, errFails
	}
	return res.Plan, nil
}
