// Command tautline runs design notebooks. It wires flags to the runner and the
// renderer; all logic is theirs.
package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"os"
	"os/signal"
	"runtime/debug"
	"strings"

	"github.com/spf13/cobra"

	"tautline/runner/engine"
)

func main() {
	engine.Main()           // does not return in a worker process
	debug.SetGCPercent(400) // a run is short and small: fewer collections, a fifth less time
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt)
	err := run(ctx, os.Stdin, os.Stdout, os.Stderr, os.Args[1:])
	stop()
	os.Exit(exitCode(err, os.Stderr))
}

// errFails says that a notebook fails; what fails has been printed.
var errFails = errors.New("a notebook fails")

// exitCode is 0 when all holds, 1 when a notebook fails, 2 for wrong use or
// input that cannot be read.
func exitCode(err error, stderr io.Writer) int {
	switch {
	case err == nil:
		return 0
	case errors.Is(err, errFails):
		return 1
	}
	fmt.Fprintln(stderr, "tautline:", err)
	return 2
}

// run is the whole command. A panic here is a fault of ours, not the user's: it
// ends as a message that says so.
func run(ctx context.Context, stdin io.Reader, stdout, stderr io.Writer, args []string) (err error) {
	defer func() {
		if p := recover(); p != nil {
			err = fmt.Errorf("internal error: %v\nThis is a fault of tautline, not of your notebook. Please report it with the notebook and these lines:\n%s", p, debug.Stack())
		}
	}()
	cmd := root()
	cmd.SetIn(stdin)
	cmd.SetOut(stdout)
	cmd.SetErr(stderr)
	cmd.SetArgs(args)
	return cmd.ExecuteContext(ctx)
}

func root() *cobra.Command {
	cmd := &cobra.Command{
		Use:   "tautline",
		Short: "design notebooks for powered rides and inflatables, from the sketch to numbers that hold",
		Long: `tautline runs design notebooks: Markdown files with Go cells that compute every
measurement of a ride or an inflatable. It checks units before anything runs,
computes, and writes a report that reads like an engineer's hand calculation.

A report supports the judgement of a competent person; it does not replace it,
nor the local code, nor a licensed engineer where one is required.`,
		SilenceUsage:  true,
		SilenceErrors: true,
		Args:          unknown,
		RunE:          func(cmd *cobra.Command, _ []string) error { return cmd.Help() },

		SuggestionsMinimumDistance: 2,
	}
	cmd.AddCommand(runCommand(), checkCommand(), liveCommand(), newCommand(), docCommand(), graphCommand(), sweepCommand(), exportCommand(), shopCommand(), trialCommand(), fileCommand(), signCommand(), verifyCommand(), compareCommand(), doctorCommand(), versionCommand())
	cmd.CompletionOptions.HiddenDefaultCmd = true
	cmd.SetHelpCommand(helpCommand(cmd))
	return cmd
}

// helpCommand is for those who ask with a word, not with --help.
func helpCommand(root *cobra.Command) *cobra.Command {
	return &cobra.Command{
		Use:   "help [COMMAND]",
		Short: "say how a command is used",
		RunE: func(_ *cobra.Command, args []string) error {
			asked, rest, err := root.Find(args)
			if err != nil {
				return err
			}
			if asked == root && len(rest) > 0 {
				return unknown(root, rest)
			}
			return asked.Help()
		},
	}
}

// unknown refuses a first word that is no command, and names those that are
// near to it.
func unknown(cmd *cobra.Command, args []string) error {
	if len(args) == 0 {
		return nil
	}
	near := "tautline --help lists the commands"
	if strings.HasSuffix(args[0], ".md") {
		near = "to compute a notebook: tautline run " + args[0]
	} else if names := cmd.SuggestionsFor(args[0]); len(names) > 0 {
		near = "did you mean " + strings.Join(names, " or ") + "?"
	}
	return fmt.Errorf("no command %q: %s", args[0], near)
}

// nothing refuses arguments of a command that takes none.
func nothing(cmd *cobra.Command, args []string) error {
	if len(args) > 0 {
		return fmt.Errorf("%s: got %q, but it takes no file or name", cmd.Name(), args[0])
	}
	return nil
}
