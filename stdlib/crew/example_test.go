package crew_test

import (
	"fmt"

	"tautline/stdlib/crew"
	"tautline/stdlib/units"
)

// Two people put up a tent: the bed fills while stakes are driven.
func ExampleArrange() {
	plan, err := crew.Arrange([]crew.Step{
		{Name: "unroll", Time: 4 * units.Min, People: 2},
		{Name: "fill", After: []string{"unroll"}, Time: 10 * units.Min},
		{Name: "stakes", Time: 8 * units.Min, People: 1},
		{Name: "straps", After: []string{"fill", "stakes"}, Time: 6 * units.Min, People: 1},
	}, 2)
	if err != nil {
		fmt.Println(err)
		return
	}
	for i, name := range plan.Name {
		fmt.Printf("%2.0f min  %-7s %s\n", plan.Begin[i]/units.Min, name, plan.Who[i])
	}
	fmt.Printf("%.0f min in all, at least %.0f\n", plan.Total/units.Min, plan.Least/units.Min)
	// Output:
	//  0 min  unroll  A and B
	//  4 min  fill    nobody
	//  4 min  stakes  A
	// 14 min  straps  A
	// 20 min in all, at least 20
}
