package designfile

import (
	"bytes"
	"regexp"
	"strings"
	"testing"

	"tautline/render/report"
	"tautline/render/sample"
)

// bind is a design file of the sample report, bound twice, and of one that fails.
func bind(t *testing.T) string {
	t.Helper()
	failing := sample.Report()
	failing.Verdict.Kind = report.SomeFail
	failing.Checks[0].Holds = false
	failing.Plate = []*report.PlateLine{{ID: "plate.1", What: "riders", Says: "three"}}
	first := sample.Report()
	first.Plate = []*report.PlateLine{{ID: "plate.1", What: "riders", Says: "two <b>"}}
	first.Cells[0].Parts = append(first.Cells[0].Parts, &report.PlatePart{PlateLine: first.Plate[0]})
	failing.Cells[0].Parts = append(failing.Cells[0].Parts, &report.PlatePart{PlateLine: failing.Plate[0]})
	var b bytes.Buffer
	d := &File{Name: "A <game>", Reports: []*report.Report{first, sample.Report(), failing}, Unread: []Unread{{"broken.md", "it has errors"}}}
	if err := HTML(&b, d); err != nil {
		t.Fatal(err)
	}
	return b.String()
}

// Bound together, no two reports share an anchor, and every link leads to one.
func TestDesignFileAnchors(t *testing.T) {
	page := bind(t)
	ids := map[string]bool{}
	for _, m := range regexp.MustCompile(`<[^>]* id="([^"]*)"`).FindAllStringSubmatch(page, -1) {
		if ids[m[1]] {
			t.Errorf("the anchor %q stands twice", m[1])
		}
		ids[m[1]] = true
	}
	links := 0
	for _, m := range regexp.MustCompile(` (href|for|aria-labelledby|aria-describedby)="(#?[^"]*)"|url\(#([^)]*)\)`).FindAllStringSubmatch(page, -1) {
		targets := strings.Fields(strings.TrimPrefix(m[2], "#") + m[3])
		if m[1] == "href" && !strings.HasPrefix(m[2], "#") {
			continue
		}
		for _, id := range targets {
			links++
			if !ids[id] {
				t.Errorf("%s leads to %q, which is not there", m[0], id)
			}
		}
	}
	if len(ids) < 60 || links < 60 {
		t.Fatalf("got %d anchors and %d links: the sample has more", len(ids), links)
	}
}

// The first pages say how the whole stands, and no plate is to be made of what
// fails or is disputed.
func TestDesignFilePages(t *testing.T) {
	page := bind(t)
	for _, want := range []string{
		"<h1>A &lt;game&gt;</h1>", "2 of 4 notebooks do not hold.", "Draft: 4 of 4 notebooks are not signed as they stand",
		"broken.md: not read: it has errors", "check fails: ", ">two &lt;b&gt;</td>",
		"Notebooks differ on “riders”", "No plate is to be made from this page.",
	} {
		if !strings.Contains(page, want) {
			t.Errorf("the design file lacks %q", want)
		}
	}
	if strings.Contains(page, "<script") || strings.Contains(page, " style=") {
		t.Error("the design file has a script or a style of its own on an element")
	}
}

func TestPrefixed(t *testing.T) {
	for piece, want := range map[string]string{
		`<a id="x" href="#y">`:                            `<a id="p.x" href="#p.y">`,
		`<a href="https://example.org/#y">`:               `<a href="https://example.org/#y">`,
		`<svg aria-labelledby="a b" clip-path="url(#c)">`: `<svg aria-labelledby="p.a p.b" clip-path="url(#p.c)">`,
		`<p data-line="3" class="id">text id=&#34;x&#34;`: `<p data-line="3" class="id">text id=&#34;x&#34;`,
	} {
		if got := prefixed(piece, "p."); got != want {
			t.Errorf("prefixed(%q): got %q, want %q", piece, got, want)
		}
	}
}
