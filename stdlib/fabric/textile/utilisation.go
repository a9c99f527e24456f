package textile

import (
	"fmt"

	"tautline/stdlib/internal/argument"
	"tautline/stdlib/units"
)

// A Utilisation is the share of its strength that one part uses.
type Utilisation struct {
	Name  string
	Share units.Number // at most 1 if the part holds
}

// Utilised is the share that a demand takes of what a part may carry: demand
// over allowable.
//
// Demand and allowable have one dimension; the demand is 0 or more, the
// allowable more than 0. Outside it panics.
//
// Source: definition.
func Utilised(name string, demand, allowable units.Same) Utilisation {
	argument.Demand("textile: Utilised: "+name, argument.NotNegative("demand", demand), argument.Positive("allowable", allowable))
	return Utilisation{name, demand / allowable}
}

// Governing is the part that uses most of its strength, the first of several
// that use as much. It is the one that breaks first.
//
// It is an error if there is none.
//
// Source: a chain is as strong as its weakest link.
func Governing(parts []Utilisation) (Utilisation, error) {
	if len(parts) == 0 {
		return Utilisation{}, fmt.Errorf("governing part: got no parts, want one or more")
	}
	most := parts[0]
	for _, p := range parts {
		if p.Share > most.Share {
			most = p
		}
	}
	return most, nil
}
