package main

import (
	"errors"
	"fmt"
	"os"
	"strings"

	"github.com/spf13/cobra"

	"tautline/runner/engine"
	"tautline/runner/shop"
	"tautline/stdlib/sheet"
)

func shopCommand() *cobra.Command {
	var folder string
	var draft bool
	var limits engine.Limits
	cmd := &cobra.Command{
		Use:   "shop NOTEBOOK...",
		Short: "run notebooks and write their files for the shops",
		Long: `shop computes each notebook from nothing and writes the files that its cells
make with sheet.ShopFile to a folder NAME-shop beside its report, with a list of
their digests, ` + sheet.DigestList + `, which sha256sum -c and the report agree with. Files that
an earlier call wrote there and this one did not are removed, unless they were
changed.

A notebook that cannot be run to its end, or of which a check fails, gives no
shop files. With --draft they go to NAME-shop-draft all the same: to look at, not
to make anything from.

Exit code: 0 when all checks hold, 1 when a notebook fails, drafts too, 2 when
one cannot be read.`,
		Example: "  tautline shop notebooks/lagoon-bed.md\n  tautline shop --out /tmp notebooks/*.md",
		Args:    atLeastOneNotebook,
		RunE: func(cmd *cobra.Command, files []string) error {
			if err := distinctReports(folder, files); err != nil {
				return err
			}
			s := newSession(cmd, limits)
			for _, file := range files {
				s.shopOne(strings.TrimSuffix(reportPath(folder, file), ".html")+"-shop", file, draft)
			}
			return s.end()
		},
	}
	cmd.Flags().StringVarP(&folder, "out", "o", "reports", "folder of the reports")
	cmd.Flags().BoolVar(&draft, "draft", false, "write the files of a notebook that fails too, as drafts")
	limitFlags(cmd, &limits)
	return cmd
}

// shopOne runs a notebook and writes its shop files into a folder.
func (s *session) shopOne(folder, file string, draft bool) {
	res, report := s.compute(file)
	if report == nil {
		return
	}
	verdict := report.Verdict.Sentence()
	fmt.Fprintf(s.out, "%s: %s\n", file, verdict)
	good := report.Verdict.Good()
	if !good && !draft {
		fmt.Fprintf(s.err, "%s: no shop files written: mend what fails, or look at them with --draft\n", file)
		if exists(folder) {
			fmt.Fprintf(s.err, "careful: the files in %s are of an earlier run\n", folder)
		}
		return
	}
	if !good {
		folder += "-draft"
		fmt.Fprintf(s.err, "DRAFT: %s: %s The files in %s are drafts: make nothing from them.\n", file, verdict, folder)
	}
	files := shop.Files(res.Outcome)
	if len(files) > 0 || exists(folder) {
		if err := shop.Write(folder, files, s.err); err != nil {
			s.broken = errors.Join(s.broken, err)
			return
		}
	}
	if len(files) == 0 {
		fmt.Fprintln(s.out, "no shop files: a cell makes one with sheet.ShopFile")
		return
	}
	fmt.Fprintf(s.out, "shop files: %s\nstate: %s\n", folder, report.State)
	for _, f := range files {
		fmt.Fprintf(s.out, "  %s, %d bytes\n", f.Name, len(f.Text))
	}
}

func exists(path string) bool {
	_, err := os.Stat(path)
	return err == nil
}
