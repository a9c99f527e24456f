package page

import (
	"bytes"
	"encoding/base64"
	"image"
	"image/png"
	"strings"
	"testing"

	"tautline/render/report"
	"tautline/render/sample"
	"tautline/runner/document"
)

// A picture stands in the page itself, once; where it is not at hand its words
// do.
func TestImages(t *testing.T) {
	var raw bytes.Buffer
	if err := png.Encode(&raw, image.NewGray(image.Rect(0, 0, 8, 6))); err != nil {
		t.Fatal(err)
	}
	r := &report.Report{
		Blocks: []document.Block{sample.Paragraph(document.Image{File: "bed.png", Alt: attack}, document.Image{File: "bed.png", Alt: "again"},
			document.Link{To: "#x", Text: []document.Inline{document.Image{File: "none.png", Alt: "missing"}}}, document.Image{File: "bad.png", Alt: "bad"})},
		Images: map[string][]byte{"bed.png": raw.Bytes(), "bad.png": []byte("GIF89a")},
	}
	r.Blocks = append(r.Blocks, sample.Heading(1, "x", "x"))
	page := written(t, r)
	if n := wellFormed(t, page)["img"]; n != 1 {
		t.Errorf("got %d images, want 1", n)
	}
	for _, want := range []string{
		`src="data:image/png;base64,` + base64.StdEncoding.EncodeToString(raw.Bytes()) + `" alt="&#34;&gt;&lt;script&gt;`, `width="8" height="6"`,
		"again (picture: bed.png)", "missing (picture: none.png)", "bad (picture: bad.png)",
	} {
		if !strings.Contains(page, want) {
			t.Errorf("the page lacks %s", want)
		}
	}
	if strings.Contains(page, "<script") {
		t.Error("the words of a picture became markup")
	}
}
