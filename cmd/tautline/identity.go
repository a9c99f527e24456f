package main

import (
	"fmt"
	"runtime"
	"runtime/debug"
	"strings"

	"github.com/spf13/cobra"

	"tautline/render/report"
	"tautline/runner"
	"tautline/runner/library"
)

// version of the program. It changes with every release.
const version = "0.1.0"

func versionCommand() *cobra.Command {
	return &cobra.Command{
		Use:   "version",
		Short: "say which tautline, library and Go this is",
		Args:  nothing,
		Run: func(cmd *cobra.Command, _ []string) {
			id := identity()
			fmt.Fprintf(cmd.OutOrStdout(), "%s\nlibrary %s\n%s\n", id.Tool, id.Library, id.Go)
		},
	}
}

// identity is what a report is computed with, less what belongs to a run.
func identity() report.Identity {
	tool := "tautline " + version
	if info, ok := debug.ReadBuildInfo(); ok {
		for _, s := range info.Settings {
			if s.Key == "vcs.revision" {
				tool += " (" + s.Value[:min(12, len(s.Value))] + ")"
			}
		}
	}
	return report.Identity{Tool: tool, Library: library.Digest, Go: strings.Replace(runtime.Version(), "go", "Go ", 1) + " " + runtime.GOOS + "/" + runtime.GOARCH}
}

// identityOf is what the report of a result is computed with.
func identityOf(res *runner.Result) report.Identity {
	id := identity()
	id.Digest = res.Digest()
	return id
}
