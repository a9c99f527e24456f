package main

import (
	"bytes"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"tautline/cmd/internal/standing"
	"tautline/render/comparison"
	"tautline/render/machine"
	"tautline/render/terminal"
	"tautline/runner/engine"
	"tautline/runner/output"
	"tautline/runner/record"
	"tautline/runner/record/content"
	"tautline/runner/revision"
)

func compareCommand() *cobra.Command {
	var page string
	var asJSON bool
	var limits engine.Limits
	cmd := &cobra.Command{
		Use:   "compare [EARLIER] LATER",
		Short: "show what changed between two states of a notebook, number by number",
		Long: `compare says in what two states of a notebook differ: givens, values, checks,
trials, pictures and files for the shops, by how much, why, and which check
crossed its limit. A state is one of

  NOTEBOOK           the file as it stands, run from nothing
  NOTEBOOK@REVISION  the file and what lies beside it in a revision of git
  RECORD             what a record froze

With one notebook alone, it is compared with what was signed last.

Exit code: 0 when nothing came out otherwise, 1 when something did, 2 when one
cannot be read.`,
		Example: "  tautline compare notebooks/lagoon-bed.md\n  tautline compare notebooks/lagoon-bed.md@HEAD~3 notebooks/lagoon-bed.md --html moved.html",
		Args: func(_ *cobra.Command, args []string) error {
			if len(args) == 0 || len(args) > 2 {
				return fmt.Errorf("compare: got %d states, want two, or one notebook to compare with what was signed last", len(args))
			}
			return nil
		},
		RunE: func(cmd *cobra.Command, args []string) error {
			s := newSession(cmd, limits)
			was, now, err := s.states(args)
			if err != nil {
				return err
			}
			d := content.Compare(was.content, now.content)
			switch {
			case asJSON:
				err = machine.Print(s.out, jsonCompared{was.label, now.label, d.Moves, d.Files, d.Tools, d.Functions})
			default:
				terminal.Comparison(s.out, comparisonOf(was, now, d))
			}
			if err == nil && page != "" {
				err = writeCompared(page, was, now, d)
			}
			if err == nil && d.Moved() {
				err = errFails
			}
			return err
		},
	}
	cmd.Flags().StringVar(&page, "html", "", "write the comparison to `FILE` as a page too")
	cmd.Flags().BoolVar(&asJSON, "json", false, "print it as JSON")
	limitFlags(cmd, &limits)
	return cmd
}

// A compared is what a notebook gave in one of its states.
type compared struct {
	label   string
	content *content.Content
}

// states reads the two states to compare.
func (s *session) states(args []string) (was, now *compared, err error) {
	if len(args) == 1 {
		if was, err = lastSigned(args[0]); err == nil {
			now, err = s.state(args[0])
		}
		return was, now, err
	}
	if was, err = s.state(args[0]); err == nil {
		now, err = s.state(args[1])
	}
	return was, now, err
}

// lastSigned is what the newest record of a notebook froze.
func lastSigned(notebook string) (*compared, error) {
	last := standing.Last(notebook, record.Open)
	if last == nil {
		return nil, fmt.Errorf("%s: it has no record to compare with that can be believed: name another state, such as %s@HEAD", notebook, notebook)
	}
	return &compared{"what was signed: " + last.Label(), &last.Content}, nil
}

func (s *session) state(arg string) (*compared, error) {
	switch file, at, _ := revision.Cut(arg); {
	case strings.HasSuffix(arg, ".record"):
		signed, err := record.Open(arg)
		if err != nil {
			return nil, fmt.Errorf("%s: %w", arg, err)
		}
		return &compared{signed.Record.Label(), &signed.Record.Content}, nil
	case at != "":
		folder, err := revision.CheckOut(file, at)
		if err != nil {
			return nil, err
		}
		defer os.RemoveAll(folder)
		return s.ran(arg, filepath.Join(folder, filepath.Base(file)))
	}
	return s.ran(arg, arg)
}

// ran runs the notebook in a file.
func (s *session) ran(label, file string) (*compared, error) {
	content, err := s.rerun(file, nil)
	if err != nil {
		return nil, fmt.Errorf("%s: %w", label, err)
	}
	return &compared{label, content}, nil
}

type jsonCompared struct {
	Was       string                   `json:"was"`
	Now       string                   `json:"now"`
	Moves     []content.Move           `json:"moves"`
	Data      []string                 `json:"data,omitempty"`
	Tools     []string                 `json:"tools,omitempty"`
	Functions []content.FunctionChange `json:"functions,omitempty"`
}

// comparisonOf orders the moves for people: what was chosen, what crossed, what
// followed.
func comparisonOf(was, now *compared, d *content.Difference) *comparison.Comparison {
	c := &comparison.Comparison{Title: now.content.Notebook.Title, Was: was.label, Now: now.label}
	for _, l := range d.Lines {
		if l.Was != "" || l.Now != "" {
			c.Lines = append(c.Lines, comparison.Line{Number: l.Number, Was: l.Was, Now: l.Now})
		}
	}
	c.Causes = append(c.Causes, d.Files...)
	for _, t := range d.Tools {
		c.Causes = append(c.Causes, "computed with another "+t)
	}
	for i := range d.Functions {
		c.Causes = append(c.Causes, d.Functions[i].Say())
	}
	given := map[string]bool{}
	for _, content := range []*content.Content{was.content, now.content} {
		for _, n := range content.Names {
			if n.Given {
				given[n.Name] = true
			}
		}
	}
	groups := map[string][]comparison.Row{}
	for i := range d.Moves {
		m := &d.Moves[i]
		row := comparison.Row{What: m.What, Line: m.Line, Was: m.Was, Now: m.Now, Share: m.Share(), Crossed: m.Crossed, Why: m.Why}
		name := "Values"
		switch base, _, _ := strings.Cut(m.What, "."); m.Kind {
		case content.MovedCheck:
			name = "Checks"
		case content.MovedShown:
			name = "Pictures, tables, trials and files"
		case content.NewThing, content.GoneThing:
			name = map[content.MoveKind]string{content.NewThing: "New", content.GoneThing: "Gone"}[m.Kind]
			row.Was, row.Now = "", ""
		case content.MovedValue:
			row.Was, row.Now = saidOr(m.Was, m), saidOr(m.Now, m)
			if given[base] {
				name, row.Why = "Givens", ""
			}
		}
		groups[name] = append(groups[name], row)
	}
	for _, name := range []string{"Checks", "Givens", "Values", "Pictures, tables, trials and files", "New", "Gone"} {
		if rows := groups[name]; len(rows) > 0 {
			slices.SortStableFunc(rows, func(a, b comparison.Row) int { return crossedFirst(a) - crossedFirst(b) })
			c.Groups = append(c.Groups, comparison.Group{Name: name, Rows: rows})
		}
	}
	return c
}

func crossedFirst(r comparison.Row) int {
	if r.Crossed {
		return 0
	}
	return 1
}

// saidOr writes a number for people; nothing stays nothing.
func saidOr(number string, m *content.Move) string {
	if number == "" {
		return ""
	}
	return content.Say(number, m.Dimension, m.Alias)
}

func writeCompared(file string, was, now *compared, d *content.Difference) error {
	c := comparisonOf(was, now, d)
	c.Tool = identity().Tool
	var b bytes.Buffer
	if err := comparison.HTML(&b, c); err != nil {
		return err
	}
	return output.Write(file, b.Bytes())
}
