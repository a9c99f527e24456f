package member

import (
	"fmt"

	"tautline/stdlib/sheet"
	"tautline/stdlib/structure/frame"
	"tautline/stdlib/units"
)

// All are the members of a frame, each as Of makes it.
//
// Source: as Of.
func All(f *frame.Frame) []Member {
	var list []Member
	for i := range f.Members {
		list = append(list, Of(f, frame.Member(i+1)))
	}
	return list
}

// Survey verifies members, of which the first is member 1 of the frame, over
// results: each with the result that governs it.
//
// The count of members is that of each result; otherwise it panics. The first
// member that cannot be checked is an error.
//
// Source: as Member.Verify.
func Survey(members []Member, results ...frame.Result) ([]Verification, error) {
	for _, r := range results {
		if len(r.Members) != len(members) {
			panic(fmt.Sprintf("member: Survey: members: got %d, want %d as in result %q", len(members), len(r.Members), r.Name))
		}
	}
	var list []Verification
	for i, m := range members {
		v, err := m.Worst(frame.Member(i+1), results...)
		if err != nil {
			return nil, err
		}
		list = append(list, v)
	}
	return list, nil
}

// Governing is the verification with the greatest utilisation.
//
// There is at least one; otherwise it panics.
//
// Source: as Member.Verify.
func Governing(list []Verification) Verification {
	if len(list) == 0 {
		panic("member: Governing: verifications: got none, want at least one")
	}
	worst := list[0]
	for _, v := range list {
		if v.Utilisation > worst.Utilisation {
			worst = v
		}
	}
	return worst
}

// Utilisations are the utilisations of verifications in their order, to colour a
// frame's members by.
//
// Source: as Member.Verify.
func Utilisations(list []Verification) []units.Number {
	out := make([]units.Number, len(list))
	for i, v := range list {
		out[i] = v.Utilisation
	}
	return out
}

// Table lists verifications: member, class, utilisation, what governs and in
// which combination.
func Table(t *sheet.Table, list []Verification) {
	var names, whats, clauses, combinations []string
	var classes []units.Number
	for _, v := range list {
		names, whats, clauses, combinations = append(names, v.Name), append(whats, v.What), append(clauses, v.Clause), append(combinations, v.Combination)
		classes = append(classes, v.Class.Class)
	}
	t.Texts("member", names)
	t.Column("class", classes)
	t.Column("utilisation", Utilisations(list))
	t.Texts("what governs", whats)
	t.Texts("clause", clauses)
	t.Texts("combination", combinations)
}
