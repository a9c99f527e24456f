// Package trial keeps what was measured on the built ride beside the notebook
// that predicted it.
//
//	readings, err := trial.Parse(text)
//	err = trial.Append(trial.File("lagoon-bed.md"), reading)
//
// The readings stand in a CSV file that a shop can open without this program,
// one a line, the newest last. Lines are only added: a reading that was wrong is
// followed by another, and its note says so.
package trial

import (
	"bytes"
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"math"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"time"
	"unicode"
	"unicode/utf8"

	"tautline/stdlib/quantity"
)

// A Reading is one measurement.
type Reading struct {
	Trial      string // its name in the notebook
	Number     string // as it was read
	Unit       quantity.Unit
	Who        string
	When       time.Time // to the second
	Instrument string
	Note       string
}

// Value is the reading in SI base units.
func (r Reading) Value() float64 {
	v, _ := strconv.ParseFloat(r.Number, 64)
	return r.Unit.ToSI(v)
}

// Within reports whether the reading is within a tolerance of what was predicted,
// both in SI base units. One at the very end of the tolerance is, in whatever unit
// it was read.
func (r Reading) Within(predicted, tolerance float64) bool {
	const roundOff = 1e-12 // of a number, by conversions of units
	v := r.Value()
	return math.Abs(v-predicted) <= tolerance+roundOff*max(math.Abs(predicted), math.Abs(v))
}

// heads are the columns of a file of readings.
var heads = []string{"trial", "reading", "unit", "who", "when", "instrument", "note"}

// File is where the readings of a notebook stand.
func File(notebook string) string {
	return strings.TrimSuffix(notebook, filepath.Ext(notebook)) + "-trials.csv"
}

// Parse reads a file of readings. The error names the first line that is none.
func Parse(text []byte) ([]Reading, error) {
	if !utf8.Valid(text) {
		return nil, errors.New("got bytes that are not UTF-8, want text: save the file as UTF-8")
	}
	rows := csv.NewReader(bytes.NewReader(bytes.TrimPrefix(text, []byte("\ufeff"))))
	rows.FieldsPerRecord = -1
	var all []Reading
	for first := true; ; first = false {
		row, err := rows.Read()
		if err == io.EOF {
			return all, nil
		}
		if err != nil {
			return nil, err // it says the line
		}
		line, _ := rows.FieldPos(0)
		switch {
		case first && !slices.Equal(row, heads):
			return nil, fmt.Errorf("line %d: got the columns %s, want %s", line, strings.Join(row, ","), strings.Join(heads, ","))
		case slices.Equal(row, heads): // again where two began the file at once
			continue
		case len(row) != len(heads):
			return nil, fmt.Errorf("line %d: got %d fields, want the %d of the first line", line, len(row), len(heads))
		}
		r, err := parse(row)
		if err != nil {
			return nil, fmt.Errorf("line %d: %w", line, err)
		}
		all = append(all, r)
	}
}

func parse(row []string) (Reading, error) {
	r := Reading{Trial: row[0], Who: row[3], Instrument: row[5], Note: row[6]}
	var err error
	if r.Number, err = Number(row[1]); err != nil {
		return r, err
	}
	if r.Unit, err = Unit(row[2]); err != nil {
		return r, err
	}
	if r.When, err = time.Parse(time.RFC3339, row[4]); err != nil {
		return r, fmt.Errorf("when: got %q, want a date and time such as 2026-11-30T14:05:00+01:00", row[4])
	}
	return r, r.complete()
}

// complete says what a reading lacks.
func (r Reading) complete() error {
	for _, f := range []struct{ name, text string }{
		{"trial", r.Trial}, {"who", r.Who}, {"instrument", r.Instrument}, {"note", r.Note},
	} {
		switch {
		case f.text == "" && f.name != "note":
			return fmt.Errorf("%s: got nothing, want it named", f.name)
		case len(f.text) > longest:
			return fmt.Errorf("%s: got %d bytes, want at most %d", f.name, len(f.text), longest)
		case strings.ContainsFunc(f.text, unicode.IsControl):
			return fmt.Errorf("%s: got a control character in %q, want one line of text", f.name, f.text)
		}
	}
	return nil
}

// longest is how long a text of a reading may be, in bytes.
const longest = 500

// Number is a reading as it is kept. The error says what is no number.
func Number(text string) (string, error) {
	text = strings.ReplaceAll(strings.TrimSpace(text), "\u2212", "-") // a typeset minus
	v, err := strconv.ParseFloat(text, 64)
	switch {
	case strings.Contains(text, ","):
		return "", fmt.Errorf("reading: got %q, want a number with a decimal point and no other signs, such as 1.85", text)
	case err != nil || math.IsNaN(v) || math.IsInf(v, 0) || strings.ContainsAny(text, "xX_"):
		return "", fmt.Errorf("reading: got %q, want a number such as 1.85", text)
	}
	return text, nil
}

// Entered reads an answer such as "1.85" in the unit of the trial, or "1850 Pa" in
// a unit of its own of the same dimension.
func Entered(answer string, unit quantity.Unit) (number string, in quantity.Unit, err error) {
	number, symbol, _ := strings.Cut(strings.TrimSpace(answer), " ")
	if number, err = Number(number); err != nil {
		return "", unit, err
	}
	if symbol = strings.TrimSpace(symbol); symbol == "" {
		return number, unit, nil
	}
	if in, err = Unit(symbol); err == nil && !in.Dimension.Equal(unit.Dimension) {
		err = fmt.Errorf("reading: got %s, want a %s, such as in %s", in.Symbol, unit.Dimension.Name(), unit.Symbol)
	}
	return number, in, err
}

// Unit is the unit with a symbol. The error names the nearest.
func Unit(symbol string) (quantity.Unit, error) {
	u, ok := quantity.Lookup(symbol)
	if ok {
		return u, nil
	}
	if near := quantity.Nearest(symbol); near != "" {
		return u, fmt.Errorf("unit: got %q, which is unknown; did you mean %s?", symbol, near)
	}
	return u, fmt.Errorf("unit: got %q, which is unknown: want its symbol, such as mm or kPa", symbol)
}

// Append adds a reading at the end of a file, which it makes when there is none.
// What the file holds already stays as it is, also when the machine stops.
func Append(file string, r Reading) error {
	if _, err := Number(r.Number); err != nil {
		return err
	}
	if err := r.complete(); err != nil {
		return err
	}
	old, err := os.ReadFile(file)
	if err != nil && !errors.Is(err, fs.ErrNotExist) {
		return err
	}
	if _, err := Parse(old); err != nil {
		return fmt.Errorf("%s: %w; mend the file before you add to it", file, err)
	}
	var text bytes.Buffer
	if len(old) > 0 && old[len(old)-1] != '\n' {
		text.WriteByte('\n')
	}
	rows := csv.NewWriter(&text)
	if len(old) == 0 {
		rows.Write(heads)
	}
	rows.Write([]string{r.Trial, r.Number, r.Unit.Symbol, r.Who, r.When.Format(time.RFC3339), r.Instrument, r.Note})
	if rows.Flush(); rows.Error() != nil {
		return rows.Error()
	}
	f, err := os.OpenFile(file, os.O_WRONLY|os.O_APPEND|os.O_CREATE, 0o666)
	if err != nil {
		return err
	}
	_, err = f.Write(text.Bytes()) // in one piece, so that two who add at once both stand there
	return errors.Join(err, f.Sync(), f.Close())
}
