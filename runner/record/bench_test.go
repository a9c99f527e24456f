package record

import (
	"fmt"
	"os"
	"strconv"
	"testing"
	"time"

	"tautline/runner/record/content"
	"tautline/runner/record/shelf"
)

// An archive of records in one folder is verified, none of them run again: the
// time and the size of a record, and whether either grows with the archive.
func BenchmarkArchive(b *testing.B) {
	for _, records := range []int{50, 500} {
		b.Run(fmt.Sprint(records, " records"), func(b *testing.B) {
			s := newShop(b, "nina")
			first := s.content()
			follows, size := "", int64(0)
			for n := 1; n <= records; n++ {
				c := issue(first, strconv.Itoa(n))
				r := &Record{Format: Format, Version: Version, Number: n, Role: Prepared, By: "nina", Key: fingerprint(s, "nina"), At: s.now.Add(time.Duration(n) * time.Minute), Follows: follows, Content: *c}
				text, err := r.seal(s.keys["nina"])
				if err == nil {
					err = shelf.Of(s.notebook).Add(n, text)
				}
				if err != nil {
					b.Fatal(err)
				}
				follows = content.Digest(text)
				size += int64(len(text))
			}
			if err := os.WriteFile(s.notebook, []byte(issue(first, strconv.Itoa(records)).Notebook.Text), 0o666); err != nil {
				b.Fatal(err)
			}
			trust := s.trust()
			for b.Loop() {
				v, err := Verify(s.notebook, trust, s.now.Add(1000*time.Hour), nil)
				if err != nil || !v.Holds() || len(v.History.Entries) != records {
					b.Fatal(err, v.All())
				}
			}
			b.ReportMetric(float64(b.Elapsed().Microseconds())/float64(b.N*records), "µs/record")
			b.ReportMetric(float64(size)/float64(records), "bytes/record")
		})
	}
}
