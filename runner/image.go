package runner

import (
	"bytes"
	"errors"
	"fmt"
	"image"
	_ "image/jpeg" // the two kinds of pictures that a report holds
	_ "image/png"
	"io"
	"io/fs"
	"os"

	"tautline/runner/document"
)

// The most that pictures may take: a report is read on a phone, and sent by
// post.
const (
	maxImage  = 4 << 20  // bytes of one file
	maxImages = 16 << 20 // of all
	maxPixels = 50e6     // of one, which a browser unpacks
)

// readImages reads the pictures that the prose shows, beside the notebook. One
// that cannot be read is a warning: the report has its words.
func (r *Result) readImages(folder string) {
	if len(r.Notebook.Pictures) == 0 {
		return
	}
	r.Images = map[string][]byte{}
	seen, left := map[string]bool{}, int64(maxImages)
	for _, p := range r.Notebook.Pictures {
		if seen[p.File] {
			continue
		}
		seen[p.File] = true
		raw, err := readImage(folder, p.File, min(left, maxImage))
		if err != nil {
			d := document.Diagnostic{Severity: document.Warning, File: r.File, Range: p.Range, Message: fmt.Sprintf("picture %s: %v", p.File, err),
				Hint: "the report shows the words for it alone"}
			r.Findings = append(r.Findings, d)
			continue
		}
		left -= int64(len(raw))
		r.Images[p.File] = raw
	}
}

// readImage reads a PNG or JPEG file of at most so many bytes. The name cannot
// lead out of the folder, not by a symbolic link either.
func readImage(folder, name string, most int64) ([]byte, error) {
	root, err := os.OpenRoot(folder)
	if err != nil {
		return nil, errors.Unwrap(err)
	}
	defer root.Close()
	info, err := root.Stat(name)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return nil, errors.New("there is no such file beside the notebook")
	case err != nil:
		return nil, errors.Unwrap(err)
	case !info.Mode().IsRegular():
		return nil, errors.New("this is not a regular file")
	case info.Size() > most:
		return nil, fmt.Errorf("got %d bytes, want at most %d, and %d for all pictures", info.Size(), maxImage, maxImages)
	}
	f, err := root.Open(name)
	if err != nil {
		return nil, errors.Unwrap(err)
	}
	defer f.Close()
	raw, err := io.ReadAll(io.LimitReader(f, most))
	if err != nil {
		return nil, errors.Unwrap(err)
	}
	c, kind, err := image.DecodeConfig(bytes.NewReader(raw))
	switch {
	case errors.Is(err, image.ErrFormat), err == nil && kind != "png" && kind != "jpeg":
		return nil, errors.New("this is no PNG or JPEG picture")
	case err != nil:
		return nil, fmt.Errorf("this is a broken picture: %w", err)
	case float64(c.Width)*float64(c.Height) > maxPixels:
		return nil, fmt.Errorf("got %d by %d pixels, want at most %.0f million", c.Width, c.Height, maxPixels/1e6)
	}
	return raw, nil
}
