package trial

import (
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"sync"
	"testing"
	"time"

	"tautline/stdlib/quantity"
)

const head = "trial,reading,unit,who,when,instrument,note\n"

func mm(t *testing.T) quantity.Unit {
	u, ok := quantity.Lookup("mm")
	if !ok {
		t.Fatal("no mm")
	}
	return u
}

func sample(t *testing.T, number string) Reading {
	return Reading{Trial: `height, "floor"`, Number: number, Unit: mm(t), Who: "the fitter", When: time.Date(2026, 5, 4, 9, 30, 0, 0, time.FixedZone("", 7200)), Instrument: "steel rule"}
}

// What is added is read again, whatever stands in its texts.
func TestAppend(t *testing.T) {
	file := filepath.Join(t.TempDir(), "bed-trials.csv")
	for i, number := range []string{"512", "-3.5", "1e3"} {
		if err := Append(file, sample(t, number)); err != nil {
			t.Fatal(err)
		}
		text, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		all, err := Parse(text)
		if err != nil || len(all) != i+1 {
			t.Fatalf("Parse after %d readings: got %d, %v", i+1, len(all), err)
		}
		got, want := all[i], sample(t, number)
		if !got.When.Equal(want.When) {
			t.Errorf("when: got %v, want %v", got.When, want.When)
		}
		got.When = want.When
		if got != want {
			t.Errorf("got %+v, want %+v", got, want)
		}
	}
	text, _ := os.ReadFile(file)
	if v := sample(t, "512").Value(); v != 0.512 {
		t.Errorf("Value: got %v, want 0.512", v)
	}
	if !strings.HasPrefix(string(text), head+`"height, ""floor""",512,mm,the fitter,2026-05-04T09:30:00+02:00,steel rule,`+"\n") {
		t.Errorf("got the file\n%s", text)
	}
}

// A last line without its end, as some editors leave it, stays whole.
func TestAppendAfterUnendedLine(t *testing.T) {
	file := filepath.Join(t.TempDir(), "bed-trials.csv")
	before := head + "p,1.9,kPa,a,2026-05-04T09:30:00Z,gauge,"
	if err := os.WriteFile(file, []byte(before), 0o666); err != nil {
		t.Fatal(err)
	}
	if err := Append(file, sample(t, "5")); err != nil {
		t.Fatal(err)
	}
	text, _ := os.ReadFile(file)
	if all, err := Parse(text); err != nil || len(all) != 2 || !strings.HasPrefix(string(text), before+"\n") {
		t.Errorf("got %d readings, %v in\n%s", len(all), err, text)
	}
}

// Of many who add at once, each reading is there.
func TestAppendAtOnce(t *testing.T) {
	file := filepath.Join(t.TempDir(), "bed-trials.csv")
	var all sync.WaitGroup
	for i := range 30 {
		all.Go(func() {
			if err := Append(file, sample(t, fmt.Sprint(i))); err != nil {
				t.Error(err)
			}
		})
	}
	all.Wait()
	text, _ := os.ReadFile(file)
	readings, err := Parse(text)
	if err != nil || len(readings) != 30 {
		t.Errorf("got %d readings, %v, want 30", len(readings), err)
	}
}

// A file that cannot be read is not added to, and nothing of it is lost.
func TestRefusals(t *testing.T) {
	for _, c := range []struct{ text, want string }{
		{"trial,reading\n", "line 1: got the columns trial,reading"},
		{head + "p,1.9,kPa\n", "line 2: got 3 fields"},
		{head + "p,1.9,kPa,a,yesterday,gauge,\n", `line 2: when: got "yesterday"`},
		{head + "p,\"1,9\",kPa,a,2026-05-04T09:30:00Z,gauge,\n", "decimal point"},
		{head + "p,NaN,kPa,a,2026-05-04T09:30:00Z,gauge,\n", `reading: got "NaN"`},
		{head + "p,1e999,kPa,a,2026-05-04T09:30:00Z,gauge,\n", `reading: got "1e999"`},
		{head + "p,1.9,kPs,a,2026-05-04T09:30:00Z,gauge,\n", "did you mean kPa?"},
		{head + "p,1.9,kPa,,2026-05-04T09:30:00Z,gauge,\n", "who: got nothing"},
		{head + "p,1.9,kPa,a,2026-05-04T09:30:00Z,gauge,\"a\x00b\"\n", "control character"},
		{head + "p,1.9,kPa,a,2026-05-04T09:30:00Z,gauge,ok\np,2.0,kP", "line 3: got 3 fields"}, // cut short
		{head + "p,\"1.9", "line 2"},
		{"\xff", "UTF-8"},
	} {
		file := filepath.Join(t.TempDir(), "bed-trials.csv")
		if err := os.WriteFile(file, []byte(c.text), 0o666); err != nil {
			t.Fatal(err)
		}
		err := Append(file, sample(t, "5"))
		if err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("Append to %q: got %v, want %q", c.text, err, c.want)
		}
		if text, _ := os.ReadFile(file); string(text) != c.text {
			t.Errorf("Append to %q changed it to %q", c.text, text)
		}
	}
	bad := sample(t, "5")
	bad.Who = ""
	if err := Append(filepath.Join(t.TempDir(), "x.csv"), bad); err == nil {
		t.Error("a reading of nobody was taken")
	}
}

func TestFile(t *testing.T) {
	if got, want := File("notebooks/lagoon-bed.md"), "notebooks/lagoon-bed-trials.csv"; got != want {
		t.Errorf("File: got %q, want %q", got, want)
	}
}
