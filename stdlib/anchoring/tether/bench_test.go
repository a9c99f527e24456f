package tether_test

import (
	"fmt"
	"testing"
	"time"

	"tautline/stdlib/anchoring"
	"tautline/stdlib/anchoring/tether"
	"tautline/stdlib/anchoring/windload"
	"tautline/stdlib/internal/proof"
)

// crowd is a round bed with so many anchors, its feet with or without friction.
func crowd(n int, friction float64) tether.Set {
	wind := anchoring.PlayInflatableWind()
	s := tether.Set{Faces: windload.Ring(3, 0, 1.5, wind.Coefficient), Mass: 210, Centre: anchoring.Point{Z: 0.5}, Density: wind.Density, Factors: anchoring.AmusementFactors()}
	for i, b := range windload.Bearings(n) {
		s.Anchors = append(s.Anchors, tether.Anchor{Name: fmt.Sprint(i + 1), Eye: anchoring.At(b, 3, 0.8), Ground: anchoring.At(b+0.05*float64(1-2*(i%2)), 4, 0),
			Holding: 1600, Stiffness: 1.5e5, Pretension: 50})
	}
	for _, b := range windload.Bearings(12) {
		s.Feet = append(s.Feet, tether.Foot{At: anchoring.At(b, 2.6, 0), Stiffness: 1e6, Friction: friction})
	}
	return s
}

// A hundred anchors, 72 bearings, each anchor lost in turn: 7272 equilibria; and
// how the time grows with the anchors: each adds a case and makes every case larger.
func BenchmarkSurvey(b *testing.B) {
	for _, n := range []int{50, 100, 200} {
		for _, c := range []struct {
			name     string
			friction float64
		}{{"without friction", 0}, {"with friction", 0.2}} {
			b.Run(fmt.Sprintf("%d anchors %s", n, c.name), func(b *testing.B) {
				set := crowd(n, c.friction)
				for b.Loop() {
					proof.Must(set.Survey(20, 72))
				}
				b.ReportMetric(b.Elapsed().Seconds()/float64(b.N*72*(n+1))*1e6, "µs/equilibrium")
			})
		}
	}
}

// How much faster a survey is than its cases one by one, each from nothing.
func BenchmarkSurveyAgainstCases(b *testing.B) {
	set := crowd(20, 0)
	var survey, cases time.Duration
	for b.Loop() {
		start := time.Now()
		proof.Must(set.Survey(20, 12))
		survey += time.Since(start)
		start = time.Now()
		for _, from := range windload.Bearings(12) {
			proof.Must(set.Solve(20, from))
			for _, a := range set.Anchors {
				rest, err := set.Without(a.Name)
				if err != nil {
					b.Fatal(err)
				}
				proof.Must(rest.Solve(20, from))
			}
		}
		cases += time.Since(start)
	}
	b.ReportMetric(float64(cases)/float64(survey), "times-faster")
}

func BenchmarkSafeWind(b *testing.B) {
	set := crowd(12, 0)
	for b.Loop() {
		proof.Must(set.SafeWind(72))
	}
}
