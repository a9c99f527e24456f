package member_test

import (
	"testing"

	"tautline/stdlib/internal/proof"
	"tautline/stdlib/structure/member"
)

func TestFormulaLines(t *testing.T) {
	one := func(args ...any) [][]any { return [][]any{args} }
	proof.Formulas(t, []proof.Call{
		proof.Of("Epsilon", member.Epsilon, one(355e6)),
		proof.Of("EulerLoad", member.EulerLoad, one(210e9, 4e-7, 2.0)),
		proof.Of("BucklingLength", member.BucklingLength, one(210e9, 4e-7, 50e3)),
		proof.Of("Slenderness", member.Slenderness, one(8e-4, 355e6, 50e3)),
		proof.Of("DeflectionLimit.Allowed", member.DeflectionLimit.Allowed, one(member.DeflectionLimit{Share: 200}, 3.0)),
	})
}
