package runner_test

import (
	"bytes"
	"encoding/binary"
	"hash/crc32"
	"image"
	"image/gif"
	"image/jpeg"
	"image/png"
	"io"
	"math/rand/v2"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"tautline/runner"
	"tautline/runner/document"
)

// encoded is a picture of a size, of seeded noise, as a file.
func encoded(t *testing.T, w, h int, encode func(io.Writer, image.Image) error) string {
	m := image.NewGray(image.Rect(0, 0, w, h))
	noise := rand.New(rand.NewPCG(1, 2))
	for i := range m.Pix {
		m.Pix[i] = byte(noise.Uint32())
	}
	var b bytes.Buffer
	if err := encode(&b, m); err != nil {
		t.Fatal(err)
	}
	return b.String()
}

func asJPEG(w io.Writer, m image.Image) error { return jpeg.Encode(w, m, nil) }

// vast is a PNG file that says it is 65536 pixels wide and high.
func vast(file string) string {
	head := []byte(file[12:29]) // IHDR with its fields, before its check
	binary.BigEndian.PutUint32(head[4:], 1<<16)
	binary.BigEndian.PutUint32(head[8:], 1<<16)
	return file[:12] + string(binary.BigEndian.AppendUint32(head, crc32.ChecksumIEEE(head))) + file[33:]
}

func asGIF(w io.Writer, m image.Image) error { return gif.Encode(w, m, nil) }

// Pictures beside a notebook are read; one that cannot be is a warning at its
// place, and nothing outside the folder is read.
func TestImages(t *testing.T) {
	outside, folder := t.TempDir(), t.TempDir()
	small := encoded(t, 8, 6, png.Encode)
	large := encoded(t, 2000, 1900, png.Encode) // noise of one byte a pixel does not shrink
	if len(large) > 4<<20 || len(large) < 3<<20 {
		t.Fatalf("the large picture has %d bytes", len(large))
	}
	for path, text := range map[string]string{
		filepath.Join(outside, "secret.png"): small,
		filepath.Join(folder, "small.png"):   small,
		filepath.Join(folder, "wrong.gif"):   small, // what counts is what it is
		filepath.Join(folder, "photo.jpg"):   encoded(t, 8, 6, asJPEG),
		filepath.Join(folder, "a.gif"):       encoded(t, 8, 6, asGIF),
		filepath.Join(folder, "a.svg"):       `<svg xmlns="http://www.w3.org/2000/svg"><script>alert(1)</script></svg>`,
		filepath.Join(folder, "cut.png"):     small[:20],
		filepath.Join(folder, "empty.png"):   "",
		filepath.Join(folder, "over.png"):    small + strings.Repeat("x", 4<<20),
		filepath.Join(folder, "vast.png"):    vast(small),
		filepath.Join(folder, "large1.png"):  large, filepath.Join(folder, "large2.png"): large, filepath.Join(folder, "large3.png"): large,
		filepath.Join(folder, "large4.png"): large, filepath.Join(folder, "large5.png"): large,
	} {
		if err := os.WriteFile(path, []byte(text), 0o666); err != nil {
			t.Fatal(err)
		}
	}
	if err := os.Mkdir(filepath.Join(folder, "folder.png"), 0o777); err != nil {
		t.Fatal(err)
	}
	for name, target := range map[string]string{"out.png": filepath.Join(outside, "secret.png"), "in.png": "small.png"} {
		if err := os.Symlink(target, filepath.Join(folder, name)); err != nil {
			t.Skip("no symbolic links here: ", err)
		}
	}
	wants := map[string]string{ // by file; "" is read
		"small.png": "", "wrong.gif": "", "photo.jpg": "", "in.png": "",
		"a.gif": "no PNG or JPEG", "a.svg": "no PNG or JPEG", "empty.png": "no PNG or JPEG", "cut.png": "broken picture",
		"over.png": "want at most 4194304", "vast.png": "got 65536 by 65536 pixels", "missing.png": "no such file beside the notebook",
		"folder.png": "not a regular file", "out.png": "escapes",
		"large1.png": "", "large2.png": "", "large3.png": "", "large4.png": "", "large5.png": "for all pictures",
	}
	text := "---\ntitle: T\n---\n"
	for _, name := range []string{"small.png", "wrong.gif", "photo.jpg", "in.png", "a.gif", "a.svg", "empty.png", "cut.png", "over.png", "vast.png",
		"missing.png", "folder.png", "out.png", "large1.png", "large2.png", "large3.png", "large4.png", "large5.png"} {
		text += "\n![words](" + name + ")\n"
	}
	text += "\n![again](missing.png)\n\n```go\np := 1 * units.KPa\nsheet.AtMost(\"p\", p, 2*units.KPa, \"the test\")\n```\n"
	notebook := filepath.Join(folder, "n.md")
	if err := os.WriteFile(notebook, []byte(text), 0o666); err != nil {
		t.Fatal(err)
	}
	res := runner.Check(notebook)
	found := map[string]string{}
	for _, d := range res.Findings {
		name, what, _ := strings.Cut(strings.TrimPrefix(d.Message, "picture "), ": ")
		if _, twice := found[name]; twice || d.Severity != document.Warning {
			t.Errorf("got %s", d.Format(res.Source, false))
		}
		found[name] = what
		if line := strings.Split(text, "\n")[d.Range.Start.Line-1]; !strings.HasPrefix(line[d.Range.Start.Column-1:], name) {
			t.Errorf("%s: got the place %v, want that of the name", name, d.Range)
		}
	}
	for name, want := range wants {
		got, warned := found[name]
		raw, read := res.Images[name]
		if read != (want == "") || warned == read || !strings.Contains(got, want) {
			t.Errorf("%s: got %d bytes and the warning %q, want %q", name, len(raw), got, want)
		}
	}
	before := res.Digest()
	if err := os.WriteFile(filepath.Join(folder, "small.png"), []byte(encoded(t, 9, 6, png.Encode)), 0o666); err != nil {
		t.Fatal(err)
	}
	if runner.Check(notebook).Digest() == before {
		t.Error("the digest is the same with another picture")
	}
}
