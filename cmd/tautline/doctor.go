package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"os"
	"os/exec"
	"slices"
	"time"

	"github.com/spf13/cobra"

	"tautline/runner/engine"
	"tautline/runner/outcome"
)

func doctorCommand() *cobra.Command {
	return &cobra.Command{
		Use:   "doctor",
		Short: "say whether tautline can work here, and what guards a run",
		Long: `doctor tries what tautline needs of this machine, and lists every guard that
keeps a notebook's run apart from it: on, or off and why. A guard that is off is
no error: those that stand before it hold on every system.

Exit code: 0 when notebooks can be run here, 2 when not.`,
		Args: nothing,
		RunE: func(cmd *cobra.Command, _ []string) error {
			return diagnose(cmd.Context(), cmd.OutOrStdout())
		},
	}
}

// diagnose writes what works on this machine.
func diagnose(ctx context.Context, w io.Writer) error {
	id := identity()
	fmt.Fprintf(w, "%s\nlibrary %s\n%s\n\n", id.Tool, id.Library, id.Go)
	failed := 0
	tell := func(what, text string, err error) {
		word := "ok"
		if err != nil {
			word, text = "fails", err.Error()
			failed++
		}
		fmt.Fprintf(w, "%-6s %-17s %s\n", word, what, text)
	}
	guards, took, err := startWorkers(ctx)
	tell("worker process", fmt.Sprintf("ready in %.1f ms", float64(took)/float64(time.Millisecond)), err)
	folder, err := tryTemporary()
	tell("temporary folder", folder, err)
	watch, err := tryWatch()
	tell("watching files", watch, err)
	tell("browser", "none is needed: a report opens in any"+browserHere(), nil)

	off := 0
	if len(guards) > 0 {
		fmt.Fprintln(w, "\nGuards of a run:")
	}
	for _, g := range guards {
		word, text := "on", g.Holds
		if g.Off != "" {
			word, text = "off", g.Off
			off++
		}
		fmt.Fprintf(w, "%-6s %s: %s\n", word, g.Name, text)
	}
	if failed > 0 {
		return errors.New("doctor: this machine lacks what is said above to fail")
	}
	fmt.Fprintf(w, "\nNotebooks can be run here, with %d of %d guards on.\n", len(guards)-off, len(guards))
	return nil
}

// startWorkers starts some workers in turn and takes the median of their times.
func startWorkers(ctx context.Context) (guards []outcome.Guard, took time.Duration, err error) {
	times := make([]time.Duration, 5)
	for i := range times {
		if guards, times[i], err = engine.Probe(ctx, engine.Limits{}); err != nil {
			return nil, 0, err
		}
	}
	slices.Sort(times)
	return guards, times[len(times)/2], nil
}

// tryTemporary writes a file into the folder for temporary files.
func tryTemporary() (folder string, err error) {
	f, err := os.CreateTemp("", "tautline-doctor-*")
	if err != nil {
		return "", err
	}
	defer os.Remove(f.Name())
	_, err = f.WriteString("doctor")
	return os.TempDir(), errors.Join(err, f.Close())
}

// browserHere says whether the pages can be tested in a browser here.
func browserHere() string {
	if _, err := exec.LookPath("chromium"); err != nil {
		return "; Chromium, which tautline's own tests use, is not here"
	}
	return "; Chromium is here for tautline's own tests"
}
