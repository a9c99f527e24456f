package main

import (
	_ "embed"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"unicode"

	"github.com/spf13/cobra"
)

//go:embed starter.md
var starter string

func newCommand() *cobra.Command {
	return &cobra.Command{
		Use:   "new FILE",
		Short: "begin a notebook that runs",
		Long: `new writes a short notebook to begin from. It runs as it stands; change it line
by line. A file that exists is left alone.`,
		Example: "  tautline new my-game.md\n  tautline run my-game.md",
		Args: func(_ *cobra.Command, args []string) error {
			if len(args) != 1 {
				return errors.New("new: name one file, such as my-game.md")
			}
			return nil
		},
		RunE: func(cmd *cobra.Command, args []string) error {
			file := args[0]
			if filepath.Ext(file) == "" {
				file += ".md"
			}
			f, err := os.OpenFile(file, os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o666)
			if errors.Is(err, fs.ErrExist) {
				return fmt.Errorf("new: %s exists already: choose another name", file)
			}
			if err != nil {
				return fmt.Errorf("new: %w", err)
			}
			_, err = f.WriteString(strings.Replace(starter, "TITLE", titleOf(file), 1))
			if err := errors.Join(err, f.Close()); err != nil {
				return fmt.Errorf("new: %w", err)
			}
			fmt.Fprintf(cmd.OutOrStdout(), "wrote %[1]s: run it with\n  tautline run %[1]s\nor see it in the browser at every save with\n  tautline live --open %[1]s\n", file)
			return nil
		},
	}
}

// titleOf makes a title of a file name: my-game.md is "My game".
func titleOf(file string) string {
	base := strings.TrimSuffix(filepath.Base(file), filepath.Ext(file))
	words := strings.FieldsFunc(base, func(r rune) bool { return !unicode.IsLetter(r) && !unicode.IsDigit(r) })
	title := strings.Join(words, " ")
	if title == "" {
		return "Untitled"
	}
	runes := []rune(title)
	runes[0] = unicode.ToUpper(runes[0])
	return string(runes)
}
