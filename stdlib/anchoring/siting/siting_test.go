package siting_test

import (
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"tautline/stdlib/anchoring"
	"tautline/stdlib/anchoring/siting"
	"tautline/stdlib/internal/proof"
	"tautline/stdlib/units"
)

// EN 14960-1:2019, 4.2.9: on either side of each limit.
func TestPlayWalls(t *testing.T) {
	for _, c := range []struct {
		platform, height float64
		roof             bool
	}{
		{0.60, 0, false}, {0.61, 1.5, false}, {3.00, 1.5, false}, {3.01, 1.875, false}, {6.00, 1.875, false}, {6.01, 1.875, true},
	} {
		w := siting.PlayWalls(c.platform, 1.5)
		proof.Near(t, "wall", w.Height, c.height, 1e-15)
		if w.Roof != c.roof {
			t.Errorf("platform at %g m: roof %v, want %v", c.platform, w.Roof, c.roof)
		}
	}
}

// EN 14960-1:2019, as quoted by others; worked by hand.
func TestPlaySurround(t *testing.T) {
	for _, c := range []struct{ platform, clear, end, stopped float64 }{
		{0.5, 1.8, 0.3, 0.8}, {0.6, 1.8, 0.3, 0.8}, {3.6, 1.8, 1.8, 2.3}, {5, 2.5, 2.5, 3},
	} {
		proof.Near(t, "clear ground", siting.PlaySurround(c.platform).Closed, c.clear, 1e-15)
		proof.Near(t, "run-out", siting.PlayRunOut(c.platform, false), c.end, 1e-15)
		proof.Near(t, "run-out to a wall", siting.PlayRunOut(c.platform, true), c.stopped, 1e-15)
	}
	s := siting.PlaySurround(1)
	for _, c := range []struct{ got, want float64 }{{s.Open, 3.5}, {s.Gate, 1}, {s.Impact, 1.5}, {s.FallHeight, 0.63}} {
		proof.Near(t, "surround", c.got, c.want, 1e-15)
	}
	proof.Near(t, "static pressure", siting.PlayPressure().Pressure, 1000, 0)
	if scope := siting.PlayScope(); scope.Oldest != 14 || !strings.Contains(scope.Text, "outside its scope") {
		t.Errorf("scope: got %+v", scope)
	}
}

// EN 14960-1:2019, annex: 25, 35, 65 and 85 kg.
func TestGroundingMass(t *testing.T) {
	for _, c := range []struct{ user, mass float64 }{{0.9, 25}, {1.0, 25}, {1.1, 35}, {1.2, 35}, {1.5, 65}, {1.51, 85}, {1.8, 85}} {
		proof.Near(t, "mass", proof.Must(siting.GroundingMassFor(c.user))(t).Mass, c.mass, 0)
	}
	for _, user := range []float64{0, 1.9, math.NaN()} {
		_, err := siting.GroundingMassFor(user)
		proof.Fails(t, "user", err, "want above 0 to 1.8 m")
	}
	proof.Near(t, "users", proof.Must(siting.Users(15, 1.5))(t), 10, 0)
	proof.Near(t, "users", proof.Must(siting.Users(14.9, 1.5))(t), 9, 0)
	_, err := siting.Users(15, 0)
	proof.Fails(t, "no area for a user", err, "area for each user: got 0")
}

// The limit of 38 km/h at 10 m is 7.63114 m/s at 2 m over a roughness of 0.03 m;
// a gust factor of 1.523535 makes 11.1 m/s a forecast of 7.28569 m/s. Worked by
// hand from the logarithmic profile and EN 1991-1-4, 4.5.
func TestActions(t *testing.T) {
	rule := anchoring.PlayInflatableAnchors()
	plan := siting.PlanWind(12, 1.5, rule)
	proof.Near(t, "riders on", plan.Run, 38*units.KmPerH, 1e-12)
	proof.Near(t, "set up", plan.SetUp, 0.6*38*units.KmPerH, 1e-12)
	a := proof.Must(plan.Actions())(t)
	proof.Near(t, "hand anemometer", a.Hand[1], 7.6, 1e-12) // 7.63114, down to a tenth
	proof.Near(t, "margin", a.Margin[1], 1.93, 1e-12)       // 1.5·(12/10.55556)² = 1.9386, down to a hundredth
	proof.Near(t, "gust with riders on", a.Gust[1], 10.5, 1e-12)
	proof.Near(t, "gust when let down", a.Gust[2], 12, 1e-12)
	proof.Near(t, "margin when let down", a.Margin[2], 1.5, 1e-12)
	proof.Near(t, "margin at the end", a.Margin[3], 1, 1e-12)
	if len(a.Warnings) != 0 || len(a.Action) != 4 || len(a.Why) != 4 {
		t.Errorf("got %d actions, warnings %q", len(a.Action), a.Warnings)
	}
	plan.Gust, plan.Run = 1.523535, 11.1
	a = proof.Must(plan.Actions())(t)
	proof.Near(t, "forecast", a.Forecast[1], 7.2, 1e-12) // 7.28569
	if a.Beaufort[1] != 4 || anchoring.Beaufort(11.1) != 6 {
		t.Errorf("gusts of Beaufort 6 come with a mean of Beaufort %g, want 4", a.Beaufort[1])
	}
	if len(a.Warnings) != 1 || !strings.Contains(a.Warnings[0], "40.0 km/h, above the standard's limit of 38.0 km/h") {
		t.Errorf("above the standard: warnings %q", a.Warnings)
	}
	weak := siting.PlanWind(8, 1.2, rule)
	proof.Near(t, "weak anchors, riders on", weak.Run, 7.6, 1e-12)
	if w := proof.Must(weak.Actions())(t).Warnings; len(w) != 1 || !strings.Contains(w[0], "only 1.33 times the wind's force") {
		t.Errorf("little margin: warnings %q", w)
	}
	weak.Run = 9
	_, err := weak.Actions()
	proof.Fails(t, "does not rise", err, "wind to run in: got 9, want 4.56 to 8")
	weak.Run, weak.Hand = 7, 0.02
	_, err = weak.Actions()
	proof.Fails(t, "in the grass", err, "height of the anemometer: got 0.02, want more than 0.03")
}

// Whatever the plan, the rows rise, the hand reads less than the gust at 10 m, and
// the forecast is below the gust.
func TestActionsRise(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		plan := siting.PlanWind(rapid.Float64Range(3, 40).Draw(t, "safe"), 1.5, anchoring.PlayInflatableAnchors())
		plan.Gust = rapid.Float64Range(1, 2).Draw(t, "gust")
		a, err := plan.Actions()
		if err != nil {
			t.Fatal(err)
		}
		for i, v := range a.Gust {
			if i > 0 && v < a.Gust[i-1] || a.Hand[i] >= v || a.Forecast[i] > v {
				t.Errorf("row %d: %g m/s, by hand %g, forecast %g", i, v, a.Hand[i], a.Forecast[i])
			}
		}
		if a.Margin[1] < 1.5 {
			t.Errorf("margin %g with riders on, want 1.5 or more", a.Margin[1])
		}
	})
}

func TestBlowerStopped(t *testing.T) {
	up := proof.Must(siting.BlowerStopped(2000, 1600, 1500, 0))(t)
	proof.Near(t, "share", up.Share, 0.8, 1e-15)
	if up.Soft || len(up.Warnings) != 0 || len(up.Steps) != 4 {
		t.Errorf("stays up: got %+v", up)
	}
	down := proof.Must(siting.BlowerStopped(2000, 900, 1500, 42))(t)
	if !down.Soft || len(down.Warnings) != 1 || !strings.Contains(strings.Join(down.Steps, "\n"), "after 42 s") {
		t.Errorf("goes soft: got %+v", down)
	}
	_, err := siting.BlowerStopped(2000, 2500, 1500, 0)
	proof.Fails(t, "more than before", err, "pressure left: got 2500, want 0 to 2000")
}

// Every value of a standard asks to be verified.
func TestSources(t *testing.T) {
	for _, s := range []string{siting.PlaySurround(1).Source, siting.PlayPressure().Source, siting.PlayWalls(1, 1).Source, siting.GroundingMasses()[0].Source} {
		if !strings.Contains(s, "verify against the document") {
			t.Errorf("source %q does not ask to be verified", s)
		}
	}
}
