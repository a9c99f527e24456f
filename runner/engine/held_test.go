package engine

import (
	"context"
	"reflect"
	"strconv"
	"strings"
	"testing"
	"time"

	"tautline/runner/lower"
	"tautline/runner/outcome"
)

// A held program gives what a run from nothing gives, whatever ran before.
func TestHeld(t *testing.T) {
	h := Hold(Limits{})
	defer h.Close()
	for _, x := range []float64{2, 3, 101, 3, 4.5, 5, 2} {
		got, err := h.Run(t.Context(), studied, Variant{"x": x})
		if err != nil {
			t.Fatal(err)
		}
		p := *studied
		p.Source = strings.Replace(p.Source, "__given_x float64 = 2", "__given_x float64 = "+number(x), 1)
		want, err := Run(t.Context(), &p, Limits{})
		if err != nil {
			t.Fatal(err)
		}
		want.Guards, got.Guards = nil, nil // the time of a held worker is longer
		if !reflect.DeepEqual(got, want) {
			t.Errorf("x = %g: got %+v, want %+v", x, got, want)
		}
	}
}

func number(x float64) string { return strconv.FormatFloat(x, 'g', -1, 64) }

// A run that is overtaken or too long ends, and the next one runs.
func TestHeldStops(t *testing.T) {
	h := Hold(Limits{Time: 100 * time.Millisecond})
	defer h.Close()
	ctx, cancel := context.WithTimeout(t.Context(), 50*time.Millisecond)
	defer cancel()
	if _, err := h.Run(ctx, studied, Variant{"x": -1}); err == nil {
		t.Error("an endless loop that was overtaken: got no error")
	}
	out, err := h.Run(t.Context(), studied, Variant{"x": -1})
	if err != nil || len(out.Faults) != 1 || !strings.Contains(out.Faults[0].Message, "100ms") {
		t.Errorf("an endless loop: got %+v, %v, want a fault that names the limit", out, err)
	}
	out, err = h.Run(t.Context(), studied, Variant{"x": 3})
	if err != nil || len(out.Faults) != 0 || out.Cells[0] != outcome.Done {
		t.Errorf("after it: got %+v, %v, want a run", out, err)
	}
}

// A program that differs in a given's number runs in the same worker with that
// number; one that differs in more is compiled anew.
func TestHeldOtherProgram(t *testing.T) {
	h := Hold(Limits{})
	defer h.Close()
	total := func(p lower.Program) float64 {
		t.Helper()
		out, err := h.Run(t.Context(), &p, nil)
		if err != nil || len(out.Faults) > 0 {
			t.Fatal(out, err)
		}
		return float64(out.Values["total"].Number)
	}
	if got := total(*studied); got != 6 {
		t.Errorf("total: got %g, want 6", got)
	}
	worker := h.worker
	other := *studied
	other.Source = strings.Replace(other.Source, "__given_x float64 = 2", "__given_x float64 = 3", 1)
	other.Givens = map[string]float64{"x": 3}
	if got := total(other); got != 9 || h.worker != worker {
		t.Errorf("with x = 3: got %g, and the same worker: %v; want 9 of the same", got, h.worker == worker)
	}
	other.Source = strings.Replace(other.Source, "i < 3", "i < 4", 1)
	if got := total(other); got != 12 || h.worker == worker {
		t.Errorf("with four rounds: got %g, and the same worker: %v; want 12 of another", got, h.worker == worker)
	}
}
