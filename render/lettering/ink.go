package lettering

import (
	"fmt"
	"image/color"
	"strings"

	"gonum.org/v1/plot"
	"gonum.org/v1/plot/font"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
)

// An Ink is the role of a colour: the place of a variable in inks.
type Ink uint8

var inks = [...]string{"", "--ink", "--soft", "--grid", "--limit", "--c1", "--c2", "--c3", "--c4", "--c5", "--c6"}

// The inks that are not those of curves.
const (
	InkText Ink = iota + 1
	InkSoft
	InkGrid
	InkLimit
	inkCurve // the first of CurveInks
)

// CurveInks is how many curves have an ink of their own.
const CurveInks = 6

// RGBA makes an ink a color.Color: blue alone, so that it is never black, which
// the SVG writer leaves out.
func (k Ink) RGBA() (r, g, b, a uint32) { return color.RGBA{B: uint8(k), A: 255}.RGBA() }

// A Frame is one size of a drawing; one unit is a CSS pixel when not scaled.
type Frame struct {
	Class         string
	Width, Height vg.Length
	Size          vg.Length // of the text
}

// Frames are the sizes that every picture is drawn in: for the desk and for a phone.
var Frames = [...]Frame{
	{"wide", 672, 340, 12.5},
	{"narrow", 352, 300, 11.5},
}

// TextStyle is text of a size in an ink, as it is measured.
func TextStyle(size vg.Length, k Ink) draw.TextStyle {
	return draw.TextStyle{
		Color:   k,
		Font:    font.Font{Typeface: "Liberation", Variant: "Sans", Size: size},
		Handler: plot.DefaultTextHandler,
		YAlign:  draw.YCenter,
	}
}

// InkVars turns the colours of a style into variables, and takes out the font,
// which the page chooses.
var InkVars = func() *strings.Replacer {
	pairs := []string{"font-family:Liberation Sans;font-variant:normal;font-weight:normal;font-style:normal;", "", "\n\t", " "}
	for k, name := range inks {
		if name != "" {
			pairs = append(pairs, fmt.Sprintf("#0000%02X", k), "var("+name+")")
		}
	}
	return strings.NewReplacer(pairs...)
}()

// CurveInk is the ink of the i-th curve.
func CurveInk(i int) Ink { return inkCurve + Ink(i%CurveInks) }

// MarkRadius is that of the dot of a named point, in px.
const MarkRadius = 3.6
