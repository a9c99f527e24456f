package canonical

import (
	"encoding/json"
	"math"
	"math/rand/v2"
	"strconv"
	"strings"
	"testing"
)

// The samples of RFC 8785, appendix B: the bits of a float64 and how it is
// written.
func TestNumber(t *testing.T) {
	for bits, want := range map[uint64]string{
		0x0000000000000000: "0",
		0x8000000000000000: "0",
		0x0000000000000001: "5e-324",
		0x8000000000000001: "-5e-324",
		0x7fefffffffffffff: "1.7976931348623157e+308",
		0xffefffffffffffff: "-1.7976931348623157e+308",
		0x4340000000000000: "9007199254740992",
		0xc340000000000000: "-9007199254740992",
		0x4430000000000000: "295147905179352830000",
		0x44b52d02c7e14af5: "9.999999999999997e+22",
		0x44b52d02c7e14af6: "1e+23",
		0x44b52d02c7e14af7: "1.0000000000000001e+23",
		0x444b1ae4d6e2ef4e: "999999999999999700000",
		0x444b1ae4d6e2ef4f: "999999999999999900000",
		0x444b1ae4d6e2ef50: "1e+21",
		0x3eb0c6f7a0b5ed8c: "9.999999999999997e-7",
		0x3eb0c6f7a0b5ed8d: "0.000001",
		0x41b3de4355555553: "333333333.3333332",
		0x41b3de4355555554: "333333333.33333325",
		0x41b3de4355555555: "333333333.3333333",
		0x41b3de4355555556: "333333333.3333334",
		0x41b3de4355555557: "333333333.33333343",
		0xbecbf647612f3696: "-0.0000033333333333333333",
		0x43143ff3c1cb0959: "1424953923781206.2",
	} {
		if got, err := Number(math.Float64frombits(bits)); got != want || err != nil {
			t.Errorf("Number(%#016x): got %q, %v, want %q", bits, got, err, want)
		}
	}
	for _, bits := range []uint64{0x7fffffffffffffff, 0x7ff0000000000000, 0xfff0000000000000} {
		if got, err := Number(math.Float64frombits(bits)); err == nil {
			t.Errorf("Number(%#016x): got %q, want an error", bits, got)
		}
	}
}

// What Number writes reads back as the same bits, on seeded random numbers.
func TestNumberReadsBack(t *testing.T) {
	random := rand.New(rand.NewPCG(1, 2))
	for range 100_000 {
		f := math.Float64frombits(random.Uint64())
		text, err := Number(f)
		if math.IsNaN(f) || math.IsInf(f, 0) {
			continue
		}
		if back, _ := strconv.ParseFloat(text, 64); back != f || err != nil {
			t.Fatalf("Number(%v): got %q, which reads as %v, %v", f, text, back, err)
		}
	}
}

// The example of RFC 8785, sections 3.2.2 to 3.2.4, and that of the order of
// names in section 3.2.3.
func TestTransform(t *testing.T) {
	for _, c := range []struct{ name, text, want string }{
		{"section 3.2.2", `{
			"numbers": [333333333.33333329, 1E30, 4.50, 2e-3, 0.000000000000000000000000001],
			"string": "\u20ac$\u000F\u000aA'\u0042\u0022\u005c\\\"\/",
			"literals": [null, true, false]
		}`, `{"literals":[null,true,false],"numbers":[333333333.3333333,1e+30,4.5,0.002,1e-27],"string":"€$\u000f\nA'B\"\\\\\"/"}`},
		{"section 3.2.3", `{
			"\u20ac": "Euro Sign",
			"\r": "Carriage Return",
			"\ufb33": "Hebrew Letter Dalet With Dagesh",
			"1": "One",
			"\ud83d\ude00": "Emoji: Grinning Face",
			"\u0080": "Control",
			"\u00f6": "Latin Small Letter O With Diaeresis"
		}`, "{\"\\r\":\"Carriage Return\",\"1\":\"One\",\"\u0080\":\"Control\",\"ö\":\"Latin Small Letter O With Diaeresis\"," +
			"\"€\":\"Euro Sign\",\"😀\":\"Emoji: Grinning Face\",\"\ufb33\":\"Hebrew Letter Dalet With Dagesh\"}"},
		{"empty", ` { } `, `{}`},
		{"nested", `[ [ ], { "b" : [ ] , "a" : { } } ]`, `[[],{"a":{},"b":[]}]`},
		{"controls", `"\u0000\u001f\u007f\b\f\n\r\t"`, "\"\\u0000\\u001f\u007f\\b\\f\\n\\r\\t\""},
	} {
		got, err := Transform([]byte(c.text))
		if string(got) != c.want || err != nil {
			t.Errorf("%s: got %s, %v, want %s", c.name, got, err, c.want)
		}
		if again, err := Transform(got); string(again) != string(got) || err != nil {
			t.Errorf("%s, once more: got %s, %v", c.name, again, err)
		}
	}
}

// What has no canonical form is refused.
func TestRefused(t *testing.T) {
	for _, text := range []string{
		``, `{`, `[1`, `[1,]`, `{"a":1,}`, `{"a" 1}`, `{a:1}`, `"a`, `"\x"`, `"\u12"`, "\"\n\"", `nul`, `01`, `1.`, `+1`, `1e999`, `NaN`,
		`1 2`, `{"a":1,"a":2}`, `{"a":1,"\u0061":2}`, `"\ud800"`, `"\ud800x"`, `"\udc00"`, `"\ud800\ud800"`, "\"\xff\"",
		strings.Repeat("[", 1000) + strings.Repeat("]", 1000),
	} {
		if got, err := Transform([]byte(text)); err == nil {
			t.Errorf("Transform(%.40q): got %.40s, want an error", text, got)
		}
	}
}

// Whatever is valid JSON without doubled names means the same afterwards.
func FuzzTransform(f *testing.F) {
	f.Add([]byte(`{"a":[1,2.5e-7,"x\u0000"],"":null}`))
	f.Fuzz(func(t *testing.T, text []byte) {
		got, err := Transform(text)
		if err != nil {
			return
		}
		var a, b any
		if json.Unmarshal(text, &a) != nil || json.Unmarshal(got, &b) != nil {
			t.Fatalf("Transform(%q): got %q, want JSON of JSON", text, got)
		}
		x, _ := json.Marshal(a)
		y, _ := json.Marshal(b)
		if string(x) != string(y) && !strings.Contains(string(x), "-0") {
			t.Errorf("Transform(%q): got %q, which means another thing", text, got)
		}
	})
}
