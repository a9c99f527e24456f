package main

import (
	"github.com/spf13/cobra"

	"tautline/render/manual"
)

func docCommand() *cobra.Command {
	return &cobra.Command{
		Use:   "doc [PACKAGE[.NAME] | WORDS...]",
		Short: "show what cells can use, from the library's own documentation",
		Long: `doc shows what cells can use. Without a word it lists the packages; with the
name of a package it lists what is in it; with package.Name it shows one thing
whole. Anything else is searched for: by the words of the trade, by unit (kPa), by
dimension (pressure). It needs no network and no source.`,
		Example: "  tautline doc\n  tautline doc how many anchors\n  tautline doc fabric\n  tautline doc fabric.Torus.Hoop\n  tautline doc kN/m\n  tautline doc ballast friction",
		RunE: func(cmd *cobra.Command, args []string) error {
			return manual.Show(cmd.OutOrStdout(), args)
		},
	}
}
