package lettering

import (
	"math"
	"testing"
)

func TestNumberInWords(t *testing.T) {
	for v, want := range map[float64]string{0: "0", 1.5: "1.5", -0.25: "−0.25", 12345.678: "12\u202f346", 2.5e9: "2.5×10⁹", -3e-7: "−3×10⁻⁷", math.Inf(1): "infinite"} {
		if got := Number(v); got != want {
			t.Errorf("number(%g): got %q, want %q", v, got, want)
		}
	}
}
