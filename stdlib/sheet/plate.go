package sheet

import (
	"fmt"
	"math"
	"strings"

	"tautline/stdlib/units"
)

// A PlateLine is a line of the data plate. Not for cells.
type PlateLine struct {
	What  string
	Value Float  `json:",omitempty"`
	Text  string `json:",omitempty"` // instead of the value
}

// Plate puts a value on the data plate: what the plate on the ride must say, such
// as the most riders, the greatest wind, the mass of the heaviest piece. `tautline
// file` gathers the plate from all notebooks of a game.
//
//	sheet.Plate("greatest wind in use", 8*units.MPerS)
//
// what names the line, and no other of the notebook. It panics when it is not so,
// and when the value is not finite.
func Plate(what string, value units.Any) { own.Plate(what, value) }

// Plate is the function Plate on this sheet. Not for cells.
func (s *Sheet) Plate(what string, value units.Any) {
	if math.IsNaN(value) || math.IsInf(value, 0) {
		panic(fmt.Errorf("sheet: Plate %q: value: got %g, want a finite number", what, value))
	}
	s.plate("Plate", PlateLine{What: what, Value: Float(value)})
}

// PlateText puts words on the data plate.
//
//	sheet.PlateText("riders", "two, each of 35 to 100 kg")
//
// It panics as Plate does, and when there are no words.
func PlateText(what, text string) { own.PlateText(what, text) }

// PlateText is the function PlateText on this sheet. Not for cells.
func (s *Sheet) PlateText(what, text string) {
	if strings.TrimSpace(text) == "" {
		panic(fmt.Errorf("sheet: PlateText %q: text: got nothing, want what the plate says", what))
	}
	s.plate("PlateText", PlateLine{What: what, Text: text})
}

func (s *Sheet) plate(function string, p PlateLine) {
	switch {
	case strings.TrimSpace(p.What) == "" || strings.ContainsAny(p.What+p.Text, "\r\n"):
		panic(fmt.Errorf("sheet: %s: got %q and %q, want a name, each on one line", function, p.What, p.Text))
	case s.plated[p.What]:
		panic(fmt.Errorf("sheet: %s: name: got %q again, want a name of its own for each line of the plate", function, p.What))
	}
	if s.plated == nil {
		s.plated = map[string]bool{}
	}
	s.plated[p.What] = true
	s.put(Entry{Plate: &p}, len(p.What)+len(p.Text)+16)
}
