package main

import (
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"time"

	"github.com/spf13/cobra"

	"tautline/cmd/internal/standing"
	"tautline/render/machine"
	"tautline/render/terminal"
	"tautline/runner/engine"
	"tautline/runner/record"
	"tautline/runner/record/account"
	"tautline/runner/record/content"
	"tautline/runner/record/shelf"
)

func verifyCommand() *cobra.Command {
	var trust string
	var asJSON bool
	var limits engine.Limits
	cmd := &cobra.Command{
		Use:   "verify NOTEBOOK|RECORD|FOLDER...",
		Short: "verify signatures and records, run the notebook again and compare every number",
		Long: `verify examines the records of a notebook: each signature, whose key it is, that
none is missing or was exchanged, that the roles signed in order, and that the
notebook and the files beside it are those that were signed. Then it runs the
notebook from nothing and compares every number with the signed one: to the last
bit when the same program on the same platform signed, else within 1e-9 of the
number. What moved is told with the cause: the library, the data or the notebook.
The run is compared with the latest revision; earlier ones are examined and not run.

A RECORD is compared with a run of the text that stands in it, which may be long
superseded. In a FOLDER every notebook that has records is verified.

Exit code: 0 when all holds, 1 when something does not or a notebook named has no
record, 2 for wrong use or what cannot be read.`,
		Example: "  tautline verify notebooks\n  tautline verify --json notebooks/lagoon-bed.md",
		Args: func(_ *cobra.Command, args []string) error {
			if len(args) == 0 {
				return errors.New("verify: name a record, a notebook or a folder, such as tautline verify notebooks")
			}
			return nil
		},
		RunE: func(cmd *cobra.Command, paths []string) error {
			s := newSession(cmd, limits)
			all := []account.Account{}
			for _, path := range paths {
				some, err := s.verify(path, trust)
				if err != nil {
					return err
				}
				all = append(all, some...)
			}
			for _, v := range all {
				s.fails = s.fails || !v.Holds()
				if !asJSON {
					fmt.Fprint(s.out, terminal.Inert(v.Text()))
				}
			}
			if asJSON {
				if err := machine.Print(s.out, account.JSON(all)); err != nil {
					return err
				}
			}
			return s.end()
		},
	}
	cmd.Flags().StringVar(&trust, "trust", "", "`FILE` with the allowed signers, instead of "+record.TrustName+" beside the notebook or above")
	cmd.Flags().BoolVar(&asJSON, "json", false, "print the results as JSON")
	limitFlags(cmd, &limits)
	return cmd
}

// verify verifies a notebook, one record or all notebooks of a folder.
func (s *session) verify(path, trust string) ([]account.Account, error) {
	info, err := os.Stat(path)
	if err != nil && !errors.Is(err, os.ErrNotExist) {
		return nil, err
	}
	switch {
	case err == nil && info.IsDir() && shelf.Is(path):
		v, err := s.verifyNotebook(record.NotebookOf(filepath.Join(path, "x")), trust)
		return []account.Account{v}, err
	case err == nil && info.IsDir():
		notebooks, err := record.Notebooks(path)
		if err == nil && len(notebooks) == 0 {
			err = fmt.Errorf("%s: no notebook in it has a record", path)
		}
		var all []account.Account
		for _, n := range notebooks {
			v, vErr := s.verifyNotebook(n, trust)
			if vErr != nil {
				return nil, vErr
			}
			all = append(all, v)
		}
		return all, err
	case strings.HasSuffix(path, ".record"):
		notebook := record.NotebookOf(path)
		_, t, err := standing.Trust(notebook, trust)
		if err != nil {
			return nil, err
		}
		v, err := record.VerifyOne(path, t, time.Now(), func(file, text string) (*content.Content, error) { return s.rerun(file, []byte(text)) })
		return []account.Account{{Verified: v, Path: path, One: true}}, err
	case err != nil && !standing.Kept(path):
		return nil, fmt.Errorf("%s: there is no such file", path)
	}
	v, err := s.verifyNotebook(path, trust)
	return []account.Account{v}, err
}

func (s *session) verifyNotebook(notebook, trust string) (account.Account, error) {
	_, t, err := standing.Trust(notebook, trust)
	if err != nil {
		return account.Account{}, err
	}
	v, err := record.Verify(notebook, t, time.Now(), func(file string) (*content.Content, error) { return s.rerun(file, nil) })
	return account.Account{Verified: v, Path: notebook, One: false}, err
}
