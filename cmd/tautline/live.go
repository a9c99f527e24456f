package main

import (
	"errors"
	"fmt"
	"html/template"
	"io"
	"net"
	"os"
	"os/exec"
	"path/filepath"
	"runtime"
	"strings"
	"sync"

	"github.com/spf13/cobra"

	"tautline/cmd/internal/standing"
	"tautline/render"
	"tautline/render/assembly"
	"tautline/render/page"
	"tautline/render/report"
	"tautline/render/terminal"
	"tautline/runner"
	"tautline/runner/document"
	"tautline/runner/live"
	"tautline/runner/record"
	"tautline/runner/record/shelf"
)

func liveCommand() *cobra.Command {
	var o live.Options
	var listen string
	var open bool
	cmd := &cobra.Command{
		Use:   "live [PATH...]",
		Short: "show notebooks in the browser and follow every save",
		Long: `live watches notebooks and folders of notebooks, runs what is saved and shows it
on a page in the browser. While a notebook has an error its last good report
stays, with the error at its cell. A given with a range can be tried with another
number there, and the number kept in the notebook.

Without PATH it takes the folder notebooks, or else this one. The page is for
this machine alone unless --listen says otherwise.`,
		Example: "  tautline live\n  tautline live notebooks/lagoon-bed.md --open\n  tautline live --read-only notebooks",
		RunE: func(cmd *cobra.Command, paths []string) error {
			if len(paths) == 0 {
				paths = []string{"."}
				if info, err := os.Stat("notebooks"); err == nil && info.IsDir() {
					paths = []string{"notebooks"}
				}
			}
			o.Paths = paths
			return runLive(cmd, o, listen, open)
		},
	}
	f := cmd.Flags()
	f.StringVar(&listen, "listen", defaultAddress, "`ADDRESS` of the page; with port 0 a free one is taken")
	f.BoolVar(&open, "open", false, "open the page in the browser")
	f.BoolVar(&o.ReadOnly, "read-only", false, "numbers can be tried on the page, not kept")
	limitFlags(cmd, &o.Limits)
	return cmd
}

// defaultAddress is where the page is: the same each time, so that a page left
// open finds its desk again.
const defaultAddress = "127.0.0.1:7460"

func runLive(cmd *cobra.Command, o live.Options, listen string, open bool) error {
	l, err := net.Listen("tcp", listen)
	if err != nil && listen == defaultAddress {
		l, err = net.Listen("tcp", "127.0.0.1:0") // another desk has it
	}
	if err != nil {
		return fmt.Errorf("live: cannot listen at %s: %w", listen, err)
	}
	defer l.Close()
	if warning := live.Warning(l.Addr()); warning != "" {
		fmt.Fprintln(cmd.ErrOrStderr(), warning)
	}
	var mu sync.Mutex
	o.Log = func(line string) {
		mu.Lock()
		defer mu.Unlock()
		fmt.Fprintln(cmd.OutOrStdout(), terminal.PlainSpaces(line))
	}
	o = printed(o)
	go page.Prepare()
	desk, err := live.Open(cmd.Context(), o)
	if err != nil {
		return fmt.Errorf("live: %w", err)
	}
	address := "http://" + l.Addr().String() + "/"
	o.Log("page: " + address + "\nStop with Ctrl-C.")
	if open {
		if err := openBrowser(address); err != nil {
			o.Log("The browser could not be opened: " + err.Error() + ". Open the page by hand.")
		}
	}
	return desk.Serve(cmd.Context(), l)
}

// printed adds to a desk's options who prints its pages, and what stands on them.
func printed(o live.Options) live.Options {
	o.Printer, o.Shows = &printer{}, showsRecord
	o.Beside = func(notebook string) string { return filepath.Dir(shelf.Of(notebook).Path) }
	return o
}

// openBrowser opens a page in the browser of the person at the machine.
func openBrowser(address string) error {
	name, args := "xdg-open", []string{address}
	switch runtime.GOOS {
	case "darwin":
		name = "open"
	case "windows":
		name, args = "rundll32", []string{"url.dll,FileProtocolHandler", address}
	}
	path, err := exec.LookPath(name)
	if err != nil {
		return errors.New(name + " is not there")
	}
	cmd := exec.Command(path, args...)
	if err := cmd.Start(); err != nil {
		return err
	}
	go cmd.Wait()
	return nil
}

// showsRecord reports whether the page of a notebook shows a file: a record of it,
// or who may sign.
func showsRecord(notebook, file string) bool {
	return filepath.Base(file) == record.TrustName || filepath.Dir(file) == shelf.Of(notebook).Path && !strings.HasPrefix(filepath.Base(file), ".")
}

// A printer prints results for the live page.
type printer struct{ records record.Kept }

func assemble(res *runner.Result) *report.Report {
	return complete(render.Assemble(res.Plan, res.Outcome, res.Findings, identityOf(res)), res, standing.Of(res, tool(), record.Open))
}

// complete adds to a report what stands beside the notebook.
func complete(report *report.Report, res *runner.Result, s *report.Standing) *report.Report {
	report.Images = res.Images
	report.Measure(res.Readings)
	if s != nil {
		report.Stand(s)
	}
	return report
}

// Begin finds how the notebook stands with the first page, which is that of the
// text as it was saved: the numbers that are tried after it sign nothing.
func (p *printer) Begin(res *runner.Result) live.Print {
	draft := assembly.Begin(res.Plan)
	var once sync.Once
	var stands *report.Standing
	return func(res *runner.Result) (*live.Page, error) {
		once.Do(func() { stands = standing.Of(res, tool(), p.records.Open) })
		return p.pageOf(res, complete(draft.Report(res.Outcome, res.Findings, identityOf(res)), res, stands))
	}
}

func (p *printer) Page(res *runner.Result) (*live.Page, error) { return p.pageOf(res, assemble(res)) }

func (printer *printer) pageOf(res *runner.Result, report *report.Report) (*live.Page, error) {
	pieces, err := page.Pieces(report)
	if err != nil {
		return nil, err
	}
	p := &live.Page{Title: pieces.Title, Name: report.Title.Title, Number: report.Title.Number, State: report.State,
		Verdict: report.Verdict.Whole(), Class: report.Verdict.Class(), Shown: report.Shown()}
	p.Record, p.Signed = standing.Since(res, tool(), report, printer.records.Open)
	if c := report.Verdict.Governing; c != nil {
		p.Governing = strings.TrimSpace(report.Verdict.Lead() + ": " + c.What + " " + c.Percent())
	}
	for _, piece := range pieces.Pieces {
		p.Pieces = append(p.Pieces, live.Piece(piece))
	}
	for _, t := range report.Trials {
		p.Trials = append(p.Trials, live.Trial{Name: t.What, Predicted: t.Foretold(), Standing: t.Standing(), Instrument: t.Instrument, Unit: t.Unit()})
	}
	for _, g := range report.Givens {
		if _, ok := res.Program.Givens[g.Name]; ok && g.Choice != nil {
			symbol := string(g.Symbol)
			if symbol == "" {
				symbol = template.HTMLEscapeString(g.Name)
			}
			p.Choices = append(p.Choices, live.Choice{Name: g.Name, Symbol: symbol,
				Value: g.Choice.Value, Low: g.Choice.Low, High: g.Choice.High, Unit: g.Choice.Unit})
		}
	}
	return p, nil
}

func (*printer) Finding(d document.Diagnostic, text []byte) (string, error) {
	return page.Finding(d, text)
}

func (*printer) Report(w io.Writer, res *runner.Result) error {
	return render.HTML(w, assemble(res))
}

func (*printer) Style() string { return page.Style() }
