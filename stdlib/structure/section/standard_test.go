package section_test

import (
	"strings"
	"testing"

	"tautline/stdlib/internal/proof"
	"tautline/stdlib/structure/section"
)

// Every standard size can be made, has its own name, and bears no less than the
// next lighter one of its series.
func TestStandardSizes(t *testing.T) {
	names := section.StandardNames("")
	if len(names) < 300 {
		t.Fatalf("got %d standard sizes, want the common ranges", len(names))
	}
	seen := map[string]bool{}
	for _, name := range names {
		s := proof.Must(section.Standard(name))(t)
		if seen[name] || s.Name != name || !(s.A > 0 && s.Iv > 0 && s.It > 0 && s.Wply >= s.Wely) {
			t.Errorf("%s: got %s with area %g, want a section of that name, once", name, s.Name, s.A)
		}
		seen[name] = true
	}
	if got := section.StandardNames("SHS 60x60"); len(got) != 14 {
		t.Errorf("SHS 60x60: got %q, want 7 cold-formed and 7 hot-finished", got)
	}
}

func TestStandardUnknown(t *testing.T) {
	_, err := section.Standard("SHS 60x60x4.5 EN 10219")
	proof.Fails(t, "no such wall", err, "SHS 60x60x4 EN 10219")
	_, err = section.Standard("HEB 100")
	proof.Fails(t, "no such series", err, "CHS, SHS, RHS with EN 10219 or EN 10210, L, UPE, IPE")
	if strings.Contains(err.Error(), "such as") {
		t.Errorf("no such series: got %v, want no guess", err)
	}
}

func TestRefusals(t *testing.T) {
	proof.Panics(t, "section: CHS: diameter: got 0.008, want more than 0.008", func() { section.CHS(0.008, 0.004, section.ColdFormed) })
	proof.Panics(t, `forming: got "rolled"`, func() { section.SHS(0.06, 0.004, section.Rolled) })
	proof.Panics(t, "width: got 0.016, want more than 0.016", func() { section.RHS(0.06, 0.016, 0.004, section.ColdFormed) })
	proof.Panics(t, "forming: got", func() { section.ISection(0.1, 0.05, 0.004, 0.006, 0.007, section.ColdFormed) })
	proof.Panics(t, "toe radius", func() { section.Angle(0.05, 0.05, 0.005, 0.007, 0.006) })
}
