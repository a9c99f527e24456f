package main

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"strings"
	"time"

	"github.com/spf13/cobra"

	"tautline/render"
	"tautline/render/page"
	"tautline/render/report"
	"tautline/render/sensitivity"
	"tautline/render/terminal"
	"tautline/runner"
	"tautline/runner/engine"
	"tautline/runner/output"
)

func runCommand() *cobra.Command {
	var folder string
	var study bool
	var limits engine.Limits
	cmd := &cobra.Command{
		Use:   "run NOTEBOOK...",
		Short: "run notebooks and write their reports",
		Long: `run computes each notebook from nothing and writes its report, one HTML file
that needs nothing else. A notebook that cannot be run to its end leaves the
last good report alone; how far it came stands in NAME.partial.html beside it.
With --study the report also says which given moves which check, in a section of
its own after the working.

Exit code: 0 when all checks hold, 1 when a notebook fails, 2 when one cannot
be read.`,
		Example: "  tautline run notebooks/lagoon-bed.md\n  tautline run --out /tmp notebooks/*.md",
		Args:    atLeastOneNotebook,
		RunE: func(cmd *cobra.Command, files []string) error {
			if err := distinctReports(folder, files); err != nil {
				return err
			}
			s := newSession(cmd, limits)
			s.study = study
			for _, file := range files {
				s.runOne(folder, file)
			}
			return s.end()
		},
	}
	cmd.Flags().StringVarP(&folder, "out", "o", "reports", "folder for the reports")
	cmd.Flags().BoolVar(&study, "study", false, "add to each report what the stated tolerances do to its checks")
	limitFlags(cmd, &limits)
	return cmd
}

func limitFlags(cmd *cobra.Command, limits *engine.Limits) {
	cmd.Flags().DurationVar(&limits.Time, "time", 30*time.Second, "longest that one notebook may run")
}

func atLeastOneNotebook(cmd *cobra.Command, args []string) error {
	if len(args) == 0 {
		return fmt.Errorf("%s: name a notebook, such as %s notebooks/lagoon-bed.md", cmd.Name(), cmd.CommandPath())
	}
	return nil
}

// A session is one call of the command over several notebooks.
type session struct {
	ctx      context.Context
	out, err io.Writer
	color    bool // on err
	watched  bool // err is a terminal
	limits   engine.Limits
	study    bool // reports say what moves the checks
	fails    bool
	unread   []string
	broken   error
}

func newSession(cmd *cobra.Command, limits engine.Limits) *session {
	s := &session{ctx: cmd.Context(), out: cmd.OutOrStdout(), err: cmd.ErrOrStderr(), limits: limits}
	s.watched = isTerminal(s.err)
	s.color = s.watched && os.Getenv("NO_COLOR") == ""
	return s
}

// end is the error that stands for the whole session.
func (s *session) end() error {
	switch {
	case s.broken != nil:
		return s.broken
	case len(s.unread) > 0:
		return fmt.Errorf("could not read %s", strings.Join(s.unread, ", "))
	case s.fails:
		return errFails
	}
	return nil
}

// compute runs a notebook and prints what was found about it.
func (s *session) compute(file string) (*runner.Result, *report.Report) {
	stop := s.progress(file)
	worker := engine.Start(s.limits) // starts up while the notebook is checked
	res := runner.Check(file)
	go page.Prepare() // while the worker runs
	res.Run(s.ctx, worker)
	worker.Close()
	stop()
	for _, d := range res.Diagnostics() {
		fmt.Fprint(s.err, d.Format(source(res), s.color))
	}
	if errors.Is(res.Err, context.Canceled) {
		s.broken = errors.New("interrupted")
		return res, nil
	}
	if res.Err != nil {
		s.broken = errors.Join(s.broken, fmt.Errorf("%s: %w", file, res.Err))
		return res, nil
	}
	if res.Unread {
		s.unread = append(s.unread, file)
		return res, nil
	}
	if res.Plan == nil {
		s.fails = true
		return res, nil
	}
	report := assemble(res)
	terminal.Warnings(s.err, file, report)
	if !report.Verdict.Good() {
		s.fails = true
	}
	return res, report
}

func source(res *runner.Result) []byte {
	if res.Notebook != nil {
		return res.Notebook.Source
	}
	return res.Source
}

// runOne runs a notebook, writes its report and says in one line how it went.
func (s *session) runOne(folder, file string) {
	res, report := s.compute(file)
	if report == nil || res.Outcome == nil {
		return
	}
	path := reportPath(folder, file)
	if !res.Ran() {
		path = strings.TrimSuffix(path, ".html") + ".partial.html"
	}
	if s.study && res.Ran() {
		if s.addStudy(res, report); s.ctx.Err() != nil {
			s.broken = errors.Join(s.broken, s.ctx.Err())
			return
		}
	}
	var page bytes.Buffer
	err := render.HTML(&page, report)
	if err == nil {
		err = output.Write(path, page.Bytes())
	}
	if err != nil {
		s.broken = errors.Join(s.broken, err)
		return
	}
	terminal.Fails(s.out, file, report)
	fmt.Fprintf(s.out, "%s: %s\nreport: %s\n", file, report.Verdict.Whole(), path)
}

// addStudy adds the study of tolerances to a report. A notebook that gives none
// has its report without.
func (s *session) addStudy(res *runner.Result, report *report.Report) {
	tol, err := s.tolerances(res, defaultSamples, defaultSeed)
	if err != nil {
		fmt.Fprintf(s.err, "%s: the report has no study: %v\n", res.File, err)
		return
	}
	report.Study = sensitivity.Tolerances(res.Plan, res.Outcome, tol, report.Checks)
}

// reportPath is where the report of a notebook goes.
func reportPath(folder, file string) string {
	base := filepath.Base(file)
	return filepath.Join(folder, strings.TrimSuffix(base, filepath.Ext(base))+".html")
}

// distinctReports refuses two notebooks whose reports would be one file.
func distinctReports(folder string, files []string) error {
	from := map[string]string{}
	for _, f := range files {
		path := reportPath(folder, f)
		if old, ok := from[path]; ok && old != f {
			return fmt.Errorf("%s and %s would both write %s: run them apart, with --out", old, f, path)
		}
		from[path] = f
	}
	return nil
}

// progress tells a watching terminal what takes long. The returned function
// ends it.
func (s *session) progress(file string) func() {
	if !s.watched {
		return func() {}
	}
	done, gone := make(chan struct{}), make(chan struct{})
	go func() {
		defer close(gone)
		start := time.Now()
		tick := time.NewTicker(500 * time.Millisecond)
		defer tick.Stop()
		for {
			select {
			case <-done:
				fmt.Fprint(s.err, "\r\x1b[K")
				return
			case <-tick.C:
				fmt.Fprintf(s.err, "\r\x1b[Krunning %s, %.0f s", file, time.Since(start).Seconds())
			}
		}
	}()
	return func() { close(done); <-gone }
}

func isTerminal(w io.Writer) bool {
	f, ok := w.(*os.File)
	if !ok {
		return false
	}
	info, err := f.Stat()
	return err == nil && info.Mode()&os.ModeCharDevice != 0
}
