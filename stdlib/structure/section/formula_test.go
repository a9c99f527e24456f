package section_test

import (
	"testing"

	"tautline/stdlib/internal/proof"
	"tautline/stdlib/structure/section"
)

func TestFormulaLines(t *testing.T) {
	tube := section.RHS(0.1, 0.05, 0.004, section.ColdFormed)
	one := func(args ...any) [][]any { return [][]any{args} }
	proof.Formulas(t, []proof.Call{
		proof.Of("Section.MassPerLength", section.Section.MassPerLength, one(tube, 7850.0)),
		proof.Of("Section.RadiusY", section.Section.RadiusY, one(tube)),
		proof.Of("Section.RadiusZ", section.Section.RadiusZ, one(tube)),
		proof.Of("Section.RadiusV", section.Section.RadiusV, one(tube)),
		proof.Of("OpenTorsion", section.OpenTorsion, one(0.3, 0.005)),
		proof.Of("BredtStress", section.BredtStress, one(1000.0, 0.003, 0.004)),
	})
}
