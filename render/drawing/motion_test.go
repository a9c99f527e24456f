package drawing

import (
	"fmt"
	"math"
	"regexp"
	"strings"
	"testing"

	"tautline/render/page"
	"tautline/stdlib/sheet"
)

// Every frame stands in its own window of the reel, to the scale of all, and the
// stylesheet knows the reel's count and step.
func TestMotion(t *testing.T) {
	m := &Motion{new(sheet.Sheet).NewMotion("t", 0.05), inUnit("m")}
	const n = 24
	for k := range n {
		d := m.Frame()
		d.Outline(lengths(0, float64(k+1), float64(k+1)), lengths(0, 0, 1))
		d.Area("hull", lengths(0, 1, 1), lengths(0, 0, 1))
	}
	svg := drawn(t, m)
	film, _, _ := strings.Cut(svg, "</svg>")
	if !strings.Contains(film, fmt.Sprintf(`class="reel n%d s50"`, n)) || !strings.Contains(page.Style(), fmt.Sprintf(".n%d { --n: %[1]d; }", n)) || !strings.Contains(page.Style(), ".s50 { --s: 50ms; }") {
		t.Error("the reel's count or step is not in the stylesheet")
	}
	frames := regexp.MustCompile(`<g transform="translate\((\d+)\)">`).FindAllStringSubmatch(film, -1)
	if len(frames) != n || frames[n-1][1] != fmt.Sprint(400*(n-1)) {
		t.Errorf("got %d frames, the last at %s", len(frames), frames[len(frames)-1][1])
	}
	paths := pathsOf(t, svg, "heavy")
	one := paths[0][1].x - paths[0][0].x
	for k, p := range paths[:n] {
		if wide := p[1].x - p[0].x; math.Abs(wide-float64(k+1)*one) > 0.1*float64(k+2) || p[0] != paths[0][0] { // coordinates are to a tenth
			t.Errorf("frame %d: got %g px from %v, want %d times %g", k, wide, p[0], k+1, one)
		}
		for _, q := range p {
			if q.x < 0 || q.x > 400 {
				t.Errorf("frame %d: a corner at %g px, want it within the window of 400", k, q.x)
			}
		}
	}
	if got := strings.Count(film, "<pattern"); got != 1 {
		t.Errorf("got %d patterns of one area, want 1", got)
	}
	// Four stills in the frame for paper, beside each other.
	_, rest, _ := strings.Cut(svg, `class="stills"`)
	still := pathsOf(t, rest, "heavy")
	if len(still) != 4 {
		t.Fatalf("got %d stills", len(still))
	}
	for i, p := range still {
		if i > 0 && p[0].x <= still[i-1][0].x || p[0].y != still[0][0].y {
			t.Errorf("still %d stands at %v after %v", i, p[0], still[max(i-1, 0)][0])
		}
	}
	for _, want := range []string{">0 s<", ">0.3 s<", ">0.6 s<", ">0.9 s<"} {
		if !strings.Contains(rest, want) {
			t.Errorf("no still is named %q", want)
		}
	}
}

// One frame, or none, is a drawing.
func TestMotionOfOne(t *testing.T) {
	m := &Motion{new(sheet.Sheet).NewMotion("t", 0.1), inUnit("m")}
	if svg := drawn(t, m); strings.Contains(svg, "reel") || !strings.Contains(svg, "nothing to draw") {
		t.Error("a motion without frames moves")
	}
	m.Frame().Circle(0, 0, 1)
	if svg := drawn(t, m); strings.Contains(svg, "reel") || strings.Count(svg, "<circle") != 2 {
		t.Error("a motion of one frame is not one drawing, wide and narrow")
	}
}

// Every count and step that a sheet takes is one that the stylesheet knows.
func TestMotionStyle(t *testing.T) {
	for n := 2; n <= sheet.MaxFrames; n++ {
		if !strings.Contains(page.Style(), fmt.Sprintf(".n%d { --n: %[1]d; }", n)) {
			t.Errorf("the stylesheet does not know a reel of %d frames", n)
		}
	}
	for _, ms := range []float64{20, 50, 100, 200, 500} {
		new(sheet.Sheet).NewMotion("t", ms/1000)
		if !strings.Contains(page.Style(), fmt.Sprintf(".s%g { --s: %[1]gms; }", ms)) {
			t.Errorf("the stylesheet does not know a step of %g ms", ms)
		}
	}
}
