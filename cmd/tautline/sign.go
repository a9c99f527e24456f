package main

import (
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"runtime"
	"strings"
	"time"

	"github.com/spf13/cobra"
	"golang.org/x/crypto/ssh"
	"golang.org/x/term"

	"tautline/cmd/internal/standing"
	"tautline/render/terminal"
	"tautline/runner"
	"tautline/runner/document"
	"tautline/runner/engine"
	"tautline/runner/record"
	"tautline/runner/record/content"
	"tautline/runner/record/signature"
)

func signCommand() *cobra.Command {
	var q record.Request
	var key, trust string
	var limits engine.Limits
	cmd := &cobra.Command{
		Use:   "sign NOTEBOOK --role prepared|checked|approved",
		Short: "run a notebook and sign what it says, as who prepared, checked or approved it",
		Long: `sign computes a notebook from nothing and freezes its text, every value, every
check, the digests of figures, shop files and data, and what computed them, in a
record beside it: records/NAME/0001.record and so on, each signed with your own
ssh key. ssh-keygen -Y verify alone can check it.

Who you are says the file allowed_signers in the notebook's folder or above it, a
line NAME KEY for each person. The key is that of --key FILE, or the one of your
ssh agent that stands in that file.

A notebook that cannot be run is not signed. One of which a check fails, that
checks nothing, or that has a number of unknown dimension is signed only with a
written --reason, which the record keeps. Who checks is not who prepared, with
another key too; who approves needs both before. A notebook that needs fewer
signatures says so in its title block: signatures: [prepared, checked].

Exit code: 0 when it was signed, 1 when not, 2 for wrong use.`,
		Example: "  tautline sign notebooks/lagoon-bed.md --role prepared\n  tautline sign notebooks/lagoon-bed.md --role checked --key ~/.ssh/id_ed25519",
		Args: func(_ *cobra.Command, args []string) error {
			if len(args) != 1 {
				return fmt.Errorf("sign: got %d notebooks, want one: a record is of one notebook, such as tautline sign notebooks/lagoon-bed.md --role prepared", len(args))
			}
			return nil
		},
		RunE: func(cmd *cobra.Command, files []string) error {
			q.Notebook = files[0]
			if q.Role == "" {
				return errors.New("sign: say as what you sign: --role prepared, --role checked or --role approved")
			}
			s := newSession(cmd, limits)
			return s.sign(q, key, trust)
		},
	}
	f := cmd.Flags()
	f.StringVar(&q.Role, "role", "", "as what you sign: prepared, checked or approved")
	f.StringVar(&key, "key", "", "`FILE` of your private ssh key, or of the public one of a key in your ssh agent")
	f.StringVar(&q.Who, "as", "", "your `NAME`, when the list of allowed signers has several for your key")
	f.StringVar(&q.Reason, "reason", "", "`WHY` it may be signed although something fails")
	f.StringVar(&trust, "trust", "", "`FILE` with the allowed signers, instead of "+record.TrustName+" beside the notebook or above")
	limitFlags(cmd, &limits)
	return cmd
}

// sign runs a notebook and signs what came of it.
func (s *session) sign(q record.Request, key, trust string) error {
	var err error
	if _, q.Trust, err = standing.Trust(q.Notebook, trust); err != nil {
		return err
	}
	if q.Trust == nil {
		return fmt.Errorf("%s: there is no list of allowed signers beside it or above\nhint: make a file %s there, with a line NAME KEY for each person", q.Notebook, record.TrustName)
	}
	signer, done, err := signerFor(key, q.Trust, s.err)
	if err != nil {
		return err
	}
	defer done()
	q.Key = signer
	res, report := s.compute(q.Notebook)
	switch {
	case s.broken != nil || len(s.unread) > 0:
		return s.end()
	case report == nil || !res.Ran():
		fmt.Fprintf(s.err, "%s: not signed: it cannot be run to its end\n", q.Notebook)
		return errFails
	}
	for i := range report.Checks {
		if c := report.Checks[i]; !c.Holds {
			fmt.Fprintf(s.err, "%s:%d: FAILS %s  %s\n", q.Notebook, c.Line, terminal.Share(c.Utilisation), terminal.Describe(c))
		}
	}
	if q.Content, err = content.Of(res, tool()); err != nil {
		return err
	}
	q.Now = time.Now()
	signed, err := record.Sign(q)
	if err != nil {
		fmt.Fprintf(s.err, "%s: %s\n", q.Notebook, terminal.Inert(err.Error()))
		if hint := record.Hint(err); hint != "" {
			fmt.Fprintf(s.err, "hint: %s\n", terminal.Inert(hint))
		}
		return errFails
	}
	r := signed.Record
	fmt.Fprintf(s.out, "%s: revision %s, %s by %s\nrecord: %s\n", q.Notebook, r.Content.Notebook.Revision, r.Role, r.By, filepath.ToSlash(signed.Path))
	for _, e := range r.Exceptions {
		fmt.Fprintf(s.out, "signed although %s\n", e)
	}
	return nil
}

// signerFor is the person's key.
func signerFor(file string, trust *signature.Trust, terminal io.Writer) (ssh.Signer, func(), error) {
	if file == "" {
		return signature.FromAgent(trust)
	}
	return signature.FromFile(file, func(prompt string) ([]byte, error) {
		if !term.IsTerminal(int(os.Stdin.Fd())) {
			return nil, errors.New("there is no terminal to ask for it: add the key to your ssh agent with ssh-add, and name its public key")
		}
		fmt.Fprint(terminal, prompt)
		defer fmt.Fprintln(terminal)
		return term.ReadPassword(int(os.Stdin.Fd()))
	})
}

// tool is what computes here, as a record says it.
func tool() content.Tool {
	id := identity()
	return content.Tool{Program: id.Tool, Go: strings.Replace(runtime.Version(), "go", "Go ", 1), Platform: runtime.GOOS + "/" + runtime.GOARCH, Library: id.Library}
}

// rerun runs the notebook in a file, or a text as if it stood there, and gathers
// what came of it.
func (s *session) rerun(file string, text []byte) (*content.Content, error) {
	stop := s.progress(file)
	defer stop()
	worker := engine.Start(s.limits)
	defer worker.Close()
	var res *runner.Result
	if text == nil {
		res = runner.Check(file)
	} else {
		res = runner.CheckText(file, text)
	}
	if res.Run(s.ctx, worker); res.Err != nil {
		return nil, res.Err
	}
	for _, d := range res.Diagnostics() {
		if !res.Ran() && d.Severity == document.Error {
			return nil, fmt.Errorf("line %d: %s", d.Range.Start.Line, d.Message)
		}
	}
	return content.Of(res, tool())
}
