package lower_test

import (
	"flag"
	"fmt"
	"testing"
)

var (
	programs = flag.Int("programs", 150, "number of random programs")
	from     = flag.Uint64("from", 1, "number of the first random program")
)

// TestRandom runs random programs interpreted and compiled by Go. A run of
// thousands: go test -run TestRandom -programs 3000 -from 1000.
func TestRandom(t *testing.T) {
	const batch = 300
	refused := 0
	var books []*book
	flush := func() {
		agree(t, books)
		books = nil
	}
	for number := *from; number < *from+uint64(*programs); number++ {
		b := read(fmt.Sprintf("random program %d", number), notebook(generate(number)))
		if b.program == nil {
			refused++
			for _, d := range errorsIn(b.diags) {
				t.Logf("%s", d.Format([]byte(b.source), false))
			}
			continue
		}
		if books = append(books, b); len(books) == batch {
			flush()
		}
	}
	flush()
	t.Logf("%d of %d programs refused", refused, *programs)
	if refused > *programs/3 {
		t.Errorf("%d of %d programs refused: the generator no longer keeps to the subset", refused, *programs)
	}
}
