package crew_test

import (
	"fmt"
	"testing"

	"tautline/stdlib/crew"
)

// BenchmarkArrange plans as many steps as it takes, in a lattice of twenty side by
// side, for four people.
func BenchmarkArrange(b *testing.B) {
	var steps []crew.Step
	for i := range 500 {
		s := crew.Step{Name: fmt.Sprint(i), Time: float64(1 + i*7919%13), People: float64(i % 3)}
		for _, j := range []int{i - 20, i - 21} {
			if j >= 0 {
				s.After = append(s.After, fmt.Sprint(j))
			}
		}
		steps = append(steps, s)
	}
	for b.Loop() {
		if _, err := crew.Arrange(steps, 4); err != nil {
			b.Fatal(err)
		}
	}
}
