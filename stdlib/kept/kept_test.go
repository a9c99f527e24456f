package kept

import (
	"errors"
	"math"
	"reflect"
	"testing"

	"pgregory.net/rapid"
)

type shelf map[[32]byte][]byte

func (s shelf) Get(d [32]byte) ([]byte, bool) { b, ok := s[d]; return b, ok }
func (s shelf) Put(d [32]byte, result []byte) { s[d] = result }

type part struct {
	Name   string
	Xs     []float64
	Corner [2]int
	On     bool
	Parts  []part
}

func drawPart(t *rapid.T, depth int) part {
	p := part{Name: rapid.String().Draw(t, "name"), On: rapid.Bool().Draw(t, "on"),
		Corner: [2]int{rapid.Int().Draw(t, "i"), rapid.Int().Draw(t, "j")}}
	if rapid.Bool().Draw(t, "list") {
		p.Xs = []float64{}
		for range rapid.IntRange(0, 5).Draw(t, "n") {
			p.Xs = append(p.Xs, math.Float64frombits(rapid.Uint64().Draw(t, "bits")))
		}
	}
	for range rapid.IntRange(0, depth).Draw(t, "parts") {
		p.Parts = append(p.Parts, drawPart(t, depth-1))
	}
	return p
}

// What is written is read back bit for bit, and no beginning of it is taken for
// the whole.
func TestValue(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		want := drawPart(t, 3)
		b, ok := appendValue(nil, reflect.ValueOf(want))
		if !ok {
			t.Fatal("not written")
		}
		var got part
		rest, ok := readValue(b, reflect.ValueOf(&got).Elem())
		again, _ := appendValue(nil, reflect.ValueOf(got))
		if !ok || len(rest) > 0 || string(again) != string(b) {
			t.Fatalf("got %+v, want %+v", got, want)
		}
		cut := rapid.IntRange(0, len(b)-1).Draw(t, "cut")
		if _, ok := readValue(b[:cut], reflect.ValueOf(&got).Elem()); ok {
			t.Fatalf("%d bytes of %d were taken for the whole", cut, len(b))
		}
	})
}

func TestResult(t *testing.T) {
	s := shelf{}
	Use(s)
	t.Cleanup(func() { store.Store(nil) })
	count := 0
	work := func(x []float64) ([]float64, error) {
		count++
		if len(x) == 0 {
			return nil, errors.New("nothing to do")
		}
		return []float64{-x[0], math.NaN(), math.Copysign(0, -1)}, nil
	}
	for range 3 {
		got, err := Result("work", []float64{2}, work)
		if err != nil || got[0] != -2 || !math.IsNaN(got[1]) || !math.Signbit(got[2]) {
			t.Errorf("got %v, %v", got, err)
		}
		got[0] = 7 // a caller may do with its result what it likes
	}
	if count != 1 {
		t.Errorf("worked %d times, want once", count)
	}
	Result("work", []float64{3}, work)
	Result("other work", []float64{2}, work)
	if count != 3 {
		t.Errorf("other arguments and other work: worked %d times, want 3", count)
	}
	for range 2 {
		if _, err := Result("work", []float64{}, work); err == nil {
			t.Error("got no error")
		}
	}
	if count != 5 {
		t.Errorf("errors: worked %d times, want each time", count)
	}
	for d := range s { // what was kept got spoilt
		s[d] = s[d][:3]
	}
	if got, err := Result("work", []float64{2}, work); err != nil || got[0] != -2 {
		t.Errorf("from a spoilt store: got %v, %v", got, err)
	}
	hidden := 0
	for range 2 {
		Result("hidden", struct{ x int }{1}, func(struct{ x int }) (int, error) { hidden++; return 1, nil })
		Result("hidden", 1, func(int) (map[string]int, error) { hidden++; return nil, nil })
	}
	if hidden != 4 {
		t.Errorf("what cannot be kept: worked %d times, want each time", hidden)
	}
}
