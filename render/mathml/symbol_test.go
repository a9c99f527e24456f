package mathml

import (
	"strings"
	"testing"

	"pgregory.net/rapid"
)

// TestSymbolText has names typical of the trade, each with its symbol as an
// engineer writes it.
func TestSymbolText(t *testing.T) {
	table := map[string]string{
		// One letter, Greek letters.
		"p": "p", "N": "N", "sigma": "σ", "Omega": "Ω", "pi": "π", "mu": "μ", "phi": "φ", "Pi": "Π",
		// Digits.
		"p0": "p_0", "r12": "r_12", "sigma1": "σ_1", "gammaM1": "γ_M1", "x1_2": "x_1,2", "pitch2": "pitch_2",
		// Two letters.
		"qp": "q_p", "Et": "E_t", "Gt": "G_t", "fy": "f_y", "fu": "f_u", "Mu": "M_u", "Ix": "I_x", "Iy": "I_y", "dt": "d_t",
		// A letter and words.
		"Tseam": "T_seam", "Fwind": "F_wind", "Nhoop": "N_hoop", "pBed": "p_bed", "NInner": "N_inner",
		"NOuter": "N_outer", "vmax": "v_max", "pmin": "p_min", "Treq": "T_req", "Mwrinkle": "M_wrinkle",
		"Mcollapse": "M_collapse", "hFall": "h_fall", "aPeak": "a_peak", "aLateral": "a_lateral", "jMax": "j_max",
		"Qleak": "Q_leak", "Qfan": "Q_fan", "Aseam": "A_seam", "tStop": "t_stop", "tReaction": "t_reaction",
		"sStop": "s_stop", "xA": "x_A", "xB": "x_B", "FxA": "F_xA", "T_long_seam": "T_long_seam", "k_1": "k_1", "TseamLong": "T_seam_long",
		"FULS": "FULS", "gULS": "g_ULS", "r1Inner": "r_1_inner", "v10min": "v_10min", "mRider": "m_rider",
		// The Eurocodes' subscripts keep their capital.
		"MEd": "M_Ed", "NRd": "N_Rd", "FEk": "F_Ek", "MzEd": "M_z,Ed", "sigmaEd": "σ_Ed", "MEdTop": "M_Ed_top",
		// A Greek letter and words.
		"sigmaMax": "σ_max", "sigma_vM": "σ_vM", "muStake": "μ_stake", "rhoAir": "ρ_air", "thetaTilt": "θ_tilt",
		"omegaMax": "ω_max", "alphaRider": "α_rider", "etaFan": "η_fan", "tauWeld": "τ_weld", "epsilonWarp": "ε_warp",
		"nuWarp": "ν_warp", "phiSoil": "φ_soil", "deltaTip": "δ_tip", "lambda_c": "λ_c", "DeltaMax": "Δ_max",
		// A change.
		"deltaP": "δP", "DeltaT": "ΔT", "DeltaT1": "ΔT_1", "DeltaTmax": "ΔT_max", "Delta_p": "Δ_p",
		// Words.
		"pitch": "pitch", "height": "height", "area": "area", "ringRadius": "ring radius", "seamStrength": "seam strength",
		"load_max": "load_max", "loadMax": "load max", "bedWidth2": "bed width_2", "toWall": "to wall", "Pitch": "Pitch",
		"Height": "Height", "EI": "EI", "GJ": "GJ", "EA": "EA", "ok": "ok", "up": "up",
		// A field, and what is no plain name.
		"m.Pitch": "Pitch_m", "rim.tube.R1": "R_1_tube_rim", "_x": "_x", "x__y": "x__y", "": "", "a b": "a b", "3x": "3x",
		// Letters of other scripts.
		"σMax": "σ_max", "höhe": "höhe", "ширина": "ширина", "Ω": "Ω",
	}

	seen := map[string]string{}
	same := map[string]bool{"σMax": true, "Ω": true}
	for name, want := range table {
		got := SymbolText(name)
		if got != want {
			t.Errorf("SymbolText(%q) = %q, want %q", name, got, want)
		}
		ml := Symbol(name)
		wellFormed(t, name, ml)
		if same[name] {
			continue
		}
		if other, ok := seen[ml]; ok {
			t.Errorf("%s and %s print alike: %s", name, other, ml)
		}
		seen[ml] = name
	}
	if len(table) < 100 {
		t.Errorf("names: got %d, want 100 at least", len(table))
	}
}

func TestSymbol(t *testing.T) {
	for name, want := range map[string]string{
		"p":          `<mi>p</mi>`,
		"Omega":      `<mi mathvariant="normal">Ω</mi>`,
		"sigmaMax":   `<msub><mi>σ</mi><mtext>max</mtext></msub>`,
		"qp":         `<msub><mi>q</mi><mtext>p</mtext></msub>`,
		"r12":        `<msub><mi>r</mi><mn>12</mn></msub>`,
		"ringRadius": `<mi>ring` + "\u00a0" + `radius</mi>`,
		"DeltaT":     `<mrow><mi mathvariant="normal">Δ</mi><mi>T</mi></mrow>`,
		"m.Pitch":    `<msub><mi>Pitch</mi><mi>m</mi></msub>`,
		`<b>"&'`:     `<mi>&lt;b&gt;&#34;&amp;&#39;</mi>`,
		"\x00\u202e": "<mi>\ufffd\ufffd</mi>",
	} {
		if got := Symbol(name); got != want {
			t.Errorf("Symbol(%q) = %s, want %s", name, got, want)
		}
	}
}

// TestAlike checks the promise of SymbolText on random names: two print alike
// just if their texts are equal.
func TestAlike(t *testing.T) {
	part := rapid.SampledFrom([]string{"p", "T", "sigma", "Delta", "delta", "max", "Max", "seam", "Seam", "1", "2", "12",
		"_", "x", "A", "qp", "pitch", "Pitch", "ULS", "to", "ring"})
	name := rapid.Map(rapid.SliceOfN(part, 1, 4), func(p []string) string { return strings.Join(p, "") })
	byML, byText := map[string]string{}, map[string]string{}
	rapid.Check(t, func(t *rapid.T) {
		n := name.Draw(t, "name")
		ml, text := Symbol(n), SymbolText(n)
		wellFormed(t, n, ml)
		if was, ok := byML[ml]; ok && was != text {
			t.Fatalf("%s prints as %s but its text is %s and %s", n, ml, text, was)
		}
		if was, ok := byText[text]; ok && was != ml {
			t.Fatalf("%s has the text %s but prints as %s and %s", n, text, ml, was)
		}
		byML[ml], byText[text] = text, ml
	})
}
