package notebooks

import (
	"bytes"
	"html"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"tautline/render"
	"tautline/render/report"
)

// What is doubtful about anchors in a wind stands in the report, whether or not
// the notebook asks for it: a rating that is a slip of units, a force coefficient
// below 1, riders on above the standard's wind or with too little in hand, ballast
// counted by its weight, a stake that leans the wrong way, too few pulls, a soft
// bed; and so do the scope of the standard and who decides.
func TestWarningsOfAnchorsArePrinted(t *testing.T) {
	file := filepath.Join(t.TempDir(), "doubtful.md")
	text := "---\ntitle: Doubtful\n---\n\n```go\n" + `scope := siting.PlayScope()
sheet.Caution(scope.Text)
rule := anchoring.PlayInflatableAnchors()
wind := anchoring.PlayInflatableWind()
ring := tether.Ring{Number: 8, Eye: 2 * units.M, Height: 0.7 * units.M, Angle: 40 * units.Deg, Splay: 10 * units.Deg, Holding: 163 * units.KN, Stiffness: 50 * units.NPerMm}
set := tether.Set{Anchors: ring.Anchors(), Feet: tether.RoundBase(2*units.M, 12, 50*units.NPerMm, 0), Faces: windload.Box(3*units.M, 3*units.M, 1*units.M, 0, 0.8), Mass: 200 * units.Kg, Density: wind.Density, Factors: anchoring.EquilibriumFactors()}
round := sheet.Must(set.Survey(11*units.MPerS, 4))
plan := siting.PlanWind(11.1*units.MPerS, 1.2, rule)
plan.Run = 11 * units.MPerS
acts := sheet.Must(plan.Actions())
block := holding.Ballast{Mass: rule.Ballast, Friction: 0.4}
held := sheet.Must(block.Holds(40 * units.Deg))
stake := holding.Stake{Length: 300 * units.Mm, Diameter: 12 * units.Mm, Yield: 235 * units.MPa, Lean: -10 * units.Deg}
lawn := sheet.Must(holding.SoilOf("firm clay"))
guess := sheet.Must(stake.Holds(lawn, 40*units.Deg))
pulls := holding.PullTest{Readings: []units.Force{163 * units.KN, 2 * units.KN}, Factor: 1.25}
found := sheet.Must(pulls.Holding())
soft := sheet.Must(siting.BlowerStopped(2*units.KPa, 0, 1.5*units.KPa, 20*units.S))
sheet.AtMost("all set", round.Greatest, 1, "the test")
` + "```\n"
	if err := os.WriteFile(file, []byte(text), 0o666); err != nil {
		t.Fatal(err)
	}
	res := run(t, file)
	var page bytes.Buffer
	if err := render.HTML(&page, render.Assemble(res.Plan, res.Outcome, nil, report.Identity{})); err != nil {
		t.Fatal(err)
	}
	// From the cautions to the first line of the working.
	_, rest, ok := strings.Cut(page.String(), ">Cautions<")
	cautions, _, ended := strings.Cut(rest, "</section>")
	if !ok || !ended {
		t.Fatal("the report has no section of cautions")
	}
	cautions = strings.Join(strings.Fields(html.UnescapeString(tags.ReplaceAllString(cautions, ""))), " ")
	for _, want := range []string{
		"covers bouncing and sliding by users up to 14 years",
		"outside its scope",
		"anchor 1: 163 kN is above the 50 kN that an anchor of this kind may hold: check its unit",
		"has a force coefficient of 0.8, below 1",
		"riders are on up to 39.6 km/h, above the standard's limit of 38.0 km/h",
		"the anchors hold only 1.22 times the wind's force",
		"never count ballast by its weight alone",
		"stake leans 10° towards the device",
		"smaller than the 380 mm by 16 mm",
		"pull test, reading 1: 163 kN is above the 50 kN",
		"pull test rests on 2 pulls",
		"below the 1.50 kPa that a landing needs",
		"Pull-test the anchors on the spot",
		"competent person",
	} {
		if !strings.Contains(cautions, want) {
			t.Errorf("the cautions of the report lack %q:\n%s", want, cautions)
		}
	}
}

var tags = regexp.MustCompile(`<[^>]*>`)
