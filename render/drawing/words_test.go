package drawing_test

import (
	"strings"
	"testing"

	"tautline/render/report"
	"tautline/render/sample"
)

func svg(t *testing.T, p report.Picture) string {
	t.Helper()
	picture, err := p.SVG("f")
	if err != nil {
		t.Fatal(err)
	}
	return string(picture)
}

func TestDrawingWords(t *testing.T) {
	page := svg(t, sample.Drawing())
	for _, want := range []string{"A picture to scale, 8.6 m wide and 7.3 m high.", "North is up.", "Areas: mattress; landing zone.", "Lines: fence; way in.",
		"Dimensions: 6.2 m; 5.5 m; 0.7 m.", "Arrows: wind.", "Marks: A1; A2; A3; A4.", "Texts: skiff."} {
		if !strings.Contains(page, want) {
			t.Errorf("the description lacks %q", want)
		}
	}
	if page := svg(t, sample.Tones()); !strings.Contains(page, "Patches in tones of utilisation from 0 to 1.") {
		t.Error("the description lacks the tones")
	}
}

func TestRoseWords(t *testing.T) {
	page := svg(t, sample.Rose())
	for _, want := range []string{"Values in m/s over the direction of the compass.", "Curve &#34;all anchors&#34;: lowest 12 at 90°, highest 18 at 0°.",
		"Limit &#34;limit of operation&#34; at 10."} {
		if !strings.Contains(page, want) {
			t.Errorf("the description lacks %q", want)
		}
	}
}
