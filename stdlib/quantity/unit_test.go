package quantity

import "testing"

func TestLookup(t *testing.T) {
	for _, c := range []struct{ typed, symbol string }{
		{"kPa", "kPa"}, {"kN/m", "kN/m"}, {"in", "in"}, {"psi", "psi"}, {"N/50mm", "N/50mm"},
		{"N·m", "N·m"}, {"N.m", "N·m"}, {"N*m", "N·m"}, {"N⋅m", "N·m"},
		{"mm2", "mm²"}, {"mm^2", "mm²"}, {"mm²", "mm²"}, {"m/s2", "m/s²"}, {"cm4", "cm⁴"},
		{"°", "°"}, {"deg", "°"}, {"deg/s", "°/s"}, {"rpm", "rpm"}, {"ohm", "Ω"}, {"\u2126", "Ω"},
		{"inH2O", "inH₂O"}, {"mm H2O", "mmH₂O"}, {"N / 50 mm", "N/50mm"}, {"gn", "gₙ"}, {"g", "g"},
		{"mPa", ""}, {"KPA", ""}, {"furlong", ""},
	} {
		u, ok := Lookup(c.typed)
		if ok != (c.symbol != "") || u.Symbol != c.symbol {
			t.Errorf("Lookup(%q): got %q, %v, want %q", c.typed, u.Symbol, ok, c.symbol)
		}
	}
	if u, ok := Lookup("1"); !ok || u != table[0] {
		t.Errorf(`Lookup("1"): got %+v, %v, want the pure number`, u, ok)
	}
}

func TestSymbolsAreUnique(t *testing.T) {
	for _, u := range Units() {
		if got, ok := Lookup(u.Symbol); !ok || got != u {
			t.Errorf("Lookup(%q): got %+v, want %+v", u.Symbol, got, u)
		}
	}
	for spelling, symbol := range synonyms {
		if plain.Replace(spelling) != spelling {
			t.Errorf("synonym %q: want %q, as plain writes it", spelling, plain.Replace(spelling))
		}
		if bySymbol[spelling] == nil {
			t.Errorf("synonym %q: no unit %q", spelling, symbol)
		}
		for _, u := range Units() {
			if plain.Replace(u.Symbol) == spelling {
				t.Errorf("synonym %q: is a symbol already", spelling)
			}
		}
	}
}

func TestNearest(t *testing.T) {
	for _, c := range []struct{ typed, want string }{
		{"KPa", "kPa"}, {"KPA", "kPa"}, {"units.KPa", "kPa"}, {"kPs", "kPa"}, {"Kg", "kg"},
		{"NPer50mm", "N/50mm"}, {"units.InH2O", "inH₂O"}, {"kN/mm", "kN/m"}, {"lbf/inch", "lbf/in"},
		{"furlongs", ""}, {"", ""},
	} {
		if got := Nearest(c.typed); got != c.want {
			t.Errorf("Nearest(%q): got %q, want %q", c.typed, got, c.want)
		}
	}
}

func TestParseSystem(t *testing.T) {
	for name, want := range map[string]System{"SI": SI, "us": US, " Si ": SI} {
		if got, err := ParseSystem(name); got != want || err != nil {
			t.Errorf("ParseSystem(%q): got %v, %v, want %v", name, got, err, want)
		}
	}
	_, err := ParseSystem("metric")
	if want := `unit system: got "metric", want SI or US`; err == nil || err.Error() != want {
		t.Errorf("ParseSystem: got error %v, want %s", err, want)
	}
}
