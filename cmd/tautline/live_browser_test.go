package main

import (
	"flag"
	"net"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/chromedp/chromedp/kb"

	"tautline/render/browsertest"
	"tautline/runner/live"
)

var shots = flag.String("shots", "", "folder to write pictures of the live page to")

// atDesk serves a desk with a copy of the landing bed and returns its address
// and the notebook's file.
func atDesk(t *testing.T, o live.Options) (address, file string) {
	t.Helper()
	folder := t.TempDir()
	text, err := os.ReadFile("../../notebooks/lagoon-bed.md")
	if err != nil {
		t.Fatal(err)
	}
	file = filepath.Join(folder, "lagoon-bed.md")
	save(t, file, string(text))
	if o.Paths == nil {
		o.Paths = []string{folder}
	} else {
		o.Paths = []string{file} // that one file only
	}
	desk, err := live.Open(t.Context(), printed(o))
	if err != nil {
		t.Fatal(err)
	}
	l, err := net.Listen("tcp", "127.0.0.1:0")
	if err != nil {
		t.Fatal(err)
	}
	go desk.Serve(t.Context(), l)
	return "http://" + l.Addr().String() + "/", file
}

func save(t *testing.T, file, text string) {
	t.Helper()
	if err := os.WriteFile(file, []byte(text), 0o644); err != nil {
		t.Fatal(err)
	}
}

// edit replaces one text of a file by another.
func edit(t *testing.T, file, old, new string) {
	t.Helper()
	text, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	if strings.Count(string(text), old) != 1 {
		t.Fatalf("%s: got %d times %q, want once", file, strings.Count(string(text), old), old)
	}
	save(t, file, strings.Replace(string(text), old, new, 1))
}

func picture(t *testing.T, tab *browsertest.Tab, name string) {
	t.Helper()
	if *shots != "" {
		time.Sleep(300 * time.Millisecond) // for what fades
		save(t, filepath.Join(*shots, name+".png"), string(tab.Picture(false)))
	}
}

// barText is what the line above the page says.
const barText = `document.getElementById("live:bar").textContent`

// A save changes the page in place; an error leaves the last good report and
// stands at its cell; mending it takes it away.
func TestLiveInBrowser(t *testing.T) {
	address, file := atDesk(t, live.Options{})
	tab := browsertest.Open(t)
	tab.View(1500, "light")
	tab.Go(address)
	tab.Until("the verdict on the first page", `document.querySelector("tr.holds td")?.textContent.includes("All 16 checks hold")`)
	picture(t, tab, "first-page")
	tab.Number(`document.querySelector(".books a").click(), 1`)
	tab.Until("the notebook's page", `document.getElementById("live:givens")?.children.length === 4`)
	tab.Until("how it stands", barText+`.startsWith("All 16 checks hold")`)
	picture(t, tab, "notebook")

	// Far down the page, with a listing opened, and the page marked as this one.
	tab.Number(`window.same = 1, document.querySelector("details.code").open = true, document.getElementById("line.Nring").scrollIntoView({block: "center"}), 1`)
	top := tab.Number(`document.getElementById("line.Nring").getBoundingClientRect().top`)
	edit(t, file, "R := sheet.Given(2.60*units.M", "R := sheet.Given(2.70*units.M")
	tab.Until("the changed number with what it was", `/was\s2[.]6/.test(document.querySelector("#line\\.R .was")?.textContent)`)
	if got := tab.Number(`window.same`); got != 1 {
		t.Error("the page was loaded anew")
	}
	if got := tab.Number(`document.getElementById("line.Nring").getBoundingClientRect().top`); got < top-1.5 || got > top+1.5 {
		t.Errorf("what the reader looked at moved from %g to %g px", top, got)
	}
	if tab.Number(`document.querySelector("details.code").open ? 1 : 0`) != 1 {
		t.Error("an opened listing was closed")
	}
	picture(t, tab, "changed")

	edit(t, file, "ring := fabric.Torus{Radius: R, Tube: r, Pressure: pMax}", "ring := fabric.Torus{Radius: R, Tube: pMax, Pressure: pMax}")
	tab.Until("the error", `document.querySelector("div.trouble")?.textContent.includes("pMax")`)
	picture(t, tab, "error")
	for what, script := range map[string]string{
		"the line above names the error's line": barText + `.startsWith("Line ")`,
		"the last good report stands":           `document.getElementById("line.Nring") !== null && document.querySelector(".verdict").textContent.includes("16 checks")`,
		"the error has an excerpt":              `document.querySelector("div.trouble pre").textContent.includes("Tube: pMax")`,
		"the error stands after its cell":       `document.querySelector("div.trouble").compareDocumentPosition(document.getElementById("line.Nring")) === Node.DOCUMENT_POSITION_PRECEDING`,
	} {
		tab.Until(what, script)
	}
	edit(t, file, "Tube: pMax", "Tube: r")
	tab.Until("the error is gone", `document.querySelector("div.trouble") === null && `+barText+`.startsWith("All 16 checks hold")`)

	// The file goes and comes back.
	text, _ := os.ReadFile(file)
	os.Remove(file)
	tab.Until("the file is gone", barText+`.startsWith("The file is gone")`)
	save(t, file, string(text))
	tab.Until("the file is back", barText+`.startsWith("All 16 checks hold")`)
	tab.Calm(address)
}

// A given is tried and kept by keyboard alone; just its number changes in the
// file.
func TestWhatIfInBrowser(t *testing.T) {
	address, file := atDesk(t, live.Options{})
	before, _ := os.ReadFile(file)
	tab := browsertest.Open(t)
	tab.View(1500, "dark")
	tab.Go(address)
	tab.Until("the first page", `document.querySelector("tr.holds a") !== null`)
	tab.Press("\t\r") // the first link
	tab.Until("the givens", `document.getElementById("live:givens")?.children.length === 4`)

	focus := func(label string) {
		t.Helper()
		for range 400 {
			if tab.Text(`document.activeElement.getAttribute("aria-label") ?? document.activeElement.id ?? ""`) == label {
				return
			}
			tab.Press("\t")
		}
		t.Fatalf("the tab key does not reach %q", label)
	}
	focus("s in mm, from 400 to 700")
	for range 10 {
		tab.Press(kb.ArrowRight)
	}
	tab.Until("the trial", barText+`.startsWith("What if s = 560 mm instead of 550 mm? Not saved.")`)
	tab.Until("a changed result", `/in the notebook\s/.test(document.querySelector("#line\\.Nlobe .was")?.textContent)`)
	picture(t, tab, "what-if-dark")
	if now, _ := os.ReadFile(file); string(now) != string(before) {
		t.Fatal("a trial changed the file")
	}
	focus("live:drop")
	tab.Press(" ")
	tab.Until("the trial is dropped", barText+`.startsWith("All 16 checks hold") && document.querySelector(".was") === null`)
	tab.Until("the slider is back", `document.querySelector("[aria-label='s in mm, from 400 to 700']").value === "550"`)

	focus("s in mm, number")
	tab.Press(kb.End + kb.Backspace + kb.Backspace + "62.5")
	tab.Until("the trial", barText+`.startsWith("What if s = 562.5 mm")`)
	focus("live:keep")
	tab.Press("\r")
	tab.Until("it is kept", barText+`.startsWith("All 16 checks hold") && document.querySelector("#line\\.s .was")?.textContent.startsWith("was")`)
	want := strings.Replace(string(before), "s := sheet.Given(sheet.PlusMinus(550*units.Mm", "s := sheet.Given(sheet.PlusMinus(562.5*units.Mm", 1)
	if now, _ := os.ReadFile(file); string(now) != want {
		t.Error("keeping changed more in the file than the number")
	}

	// A trial that fails a check, on a phone.
	tab.View(390, "light")
	tab.Number(`{ const n = document.querySelector("[aria-label='R in m, number']"); n.value = "3.4"; n.dispatchEvent(new Event("input")); 1 }`)
	tab.Until("a failing trial", `document.getElementById("live:bar").classList.contains("fails")`)
	picture(t, tab, "what-if-phone")
	if got := tab.Number(`document.documentElement.scrollWidth`); got > 390 {
		t.Errorf("at 390 px the page is %g px wide: it scrolls sideways", got)
	}
	tab.Calm(address)
}

// A read-only desk lets numbers be tried and not kept.
func TestReadOnlyInBrowser(t *testing.T) {
	address, file := atDesk(t, live.Options{ReadOnly: true})
	before, _ := os.ReadFile(file)
	tab := browsertest.Open(t)
	tab.Go(address + "notebook/lagoon-bed")
	tab.Until("the givens", `document.getElementById("live:givens")?.children.length === 4`)
	tab.Number(`{ const n = document.querySelector("[aria-label='R in m, number']"); n.value = "2.8"; n.dispatchEvent(new Event("input")); 1 }`)
	tab.Until("the trial", barText+`.startsWith("What if R = 2.8 m")`)
	if tab.Number(`document.getElementById("live:keep").hidden ? 1 : 0`) != 1 {
		t.Error("a read-only desk offers to keep a number")
	}
	tab.Number(`order("keep", {}), 1`)
	tab.Until("the refusal", `document.getElementById("live:refused").textContent.includes("read-only")`)
	if now, _ := os.ReadFile(file); string(now) != string(before) {
		t.Error("a read-only desk changed the file")
	}
}

// The library's documentation is searched beside the notebook.
func TestLibraryInBrowser(t *testing.T) {
	address, _ := atDesk(t, live.Options{})
	tab := browsertest.Open(t)
	tab.View(1500, "light")
	tab.Go(address + "notebook/lagoon-bed")
	tab.Until("the panel", `document.getElementById("live:search") !== null`)
	ask := func(query string) {
		tab.Number(`{ document.querySelector("aside.library details").open = true; const s = document.getElementById("live:search"); s.value = "` + query + `"; s.dispatchEvent(new Event("input")); 1 }`)
	}
	ask("wrinkling")
	tab.Until("what was found", `[...document.querySelectorAll("#live\\:found code")].some((c) => c.textContent.startsWith("fabric.Tube.WrinklingMoment"))`)
	tab.Number(`[...document.querySelectorAll("#live\\:found details")].find((d) => d.textContent.startsWith("fabric.Tube.WrinklingMoment")).open = true, 1`)
	tab.Until("its source", `document.querySelector("#live\\:found details[open] pre").textContent.includes("Source: ")`)
	picture(t, tab, "library")
	ask("fabric.torus")
	tab.Until("the names of a package", `document.querySelector("#live\\:found code")?.textContent.startsWith("fabric.Torus")`)
	ask("<b>zzz")
	tab.Until("nothing", `document.getElementById("live:count").textContent === "Nothing found."`)
	tab.View(390, "dark")
	ask("kPa")
	tab.Until("by unit", `document.querySelectorAll("#live\\:found details").length === 25`)
	if got := tab.Number(`document.documentElement.scrollWidth`); got > 390 {
		t.Errorf("at 390 px the page is %g px wide: it scrolls sideways", got)
	}
	picture(t, tab, "library-phone")
	tab.Calm(address)
}

// A number that is another than in the newest record shows what it is there, and
// nothing more once it is as signed.
func TestSignedInBrowser(t *testing.T) {
	address, file := atDesk(t, live.Options{Paths: []string{"one file"}})
	tab := browsertest.Open(t)
	tab.View(1500, "light")
	tab.Go(address + "notebook/lagoon-bed")
	tab.Until("the page", `document.getElementById("line.R") !== null && document.querySelector("p.signed") === null`)
	saveSigned(t, file) // the page shows it by itself
	tab.Until("the signature", `document.getElementById("line.T") !== null && document.querySelector("p.signed")?.textContent === "nina" && document.querySelector(".was") === null`)
	edit(t, file, "350 *", "360 *")
	tab.Until("what the record has", `document.querySelector("#line\\.T.unsigned")?.textContent.includes("in record 0001: 665")`)
	tab.Until("the check in the record", `document.querySelector("#check\\.1")?.textContent.includes("in record 0001: holds, 66.5")`)
	picture(t, tab, "signed")
	edit(t, file, "360 *", "350 *")
	tab.Until("it is as signed", `document.querySelector(".unsigned") === null`)
	tab.Calm(address)
}

// saveSigned writes a small notebook and signs it with a throw-away key, as who
// prepared it.
func saveSigned(t *testing.T, file string) {
	t.Helper()
	if _, err := exec.LookPath("ssh-keygen"); err != nil {
		t.Skip("ssh-keygen is not installed")
	}
	folder := filepath.Dir(file)
	save(t, file, "---\ntitle: Bed\nrevision: A\n---\n\n```go\nr := 350 * units.Mm // tube\nT := 1.9 * units.KPa * r\nsheet.AtMost(\"seam\", T, 1*units.KNPerM, \"common practice, no source\")\n```\n")
	key := filepath.Join(folder, "nina")
	if out, err := exec.Command("ssh-keygen", "-q", "-t", "ed25519", "-N", "", "-f", key).CombinedOutput(); err != nil {
		t.Fatalf("ssh-keygen: %v\n%s", err, out)
	}
	public, err := os.ReadFile(key + ".pub")
	if err != nil {
		t.Fatal(err)
	}
	save(t, filepath.Join(folder, "allowed_signers"), "nina "+string(public))
	if code, _, stderr := command(t, "sign", file, "--role", "prepared", "--key", key); code != 0 {
		t.Fatalf("sign: code %d\n%s", code, stderr)
	}
}

// A reading of a trial is entered on the page, kept beside the notebook, judged
// and shown; one that is no number is refused with the reason.
func TestReadingInBrowser(t *testing.T) {
	address, file := atDesk(t, live.Options{})
	save(t, file, "---\ntitle: Bed\n---\n\n```go\nh := 512 * units.Mm // floor\nsheet.Trial(\"height\", h, 20*units.Mm, \"steel rule\")\n```\n")
	tab := browsertest.Open(t)
	tab.View(1500, "light")
	tab.Go(address + "notebook/lagoon-bed")
	tab.Until("the form", `document.getElementById("live:reading")?.hidden === false && document.getElementById("live:instrument").value === "steel rule"`)
	enter := func(number string) {
		tab.Number(`{ document.getElementById("live:who").value = "the fitter"; const n = document.getElementById("live:number"); n.value = "` + number + `"; n.form.requestSubmit(); 1 }`)
	}
	enter("54 cm")
	tab.Until("the reading in the report", `document.querySelector(".trials tr.fails .measured")?.textContent === "540\u00a0mm"`)
	tab.Until("what it was", `document.querySelector("#trial\\.1 .was")?.textContent.includes("to be measured")`)
	picture(t, tab, "reading")
	enter("515")
	tab.Until("the last decides", `document.querySelector(".trials tr.holds .measured")?.textContent === "515\u00a0mm" && `+barText+`.includes("as predicted")`)
	text, err := os.ReadFile(strings.TrimSuffix(file, ".md") + "-trials.csv")
	if err != nil || strings.Count(string(text), "\n") != 3 || !strings.Contains(string(text), "height,54,cm,the fitter,") {
		t.Errorf("got %v and the readings\n%s", err, text)
	}
	tab.Calm(address)
	enter("5l5")
	tab.Until("the refusal", `document.getElementById("live:refused").textContent.includes('reading: got "5l5"')`)
}

// An accessibility checker finds no serious fault on any page of the desk, nor
// in the report. TAUTLINE_AXE names the checker's file, axe.min.js of axe-core.
func TestAccessibility(t *testing.T) {
	path := os.Getenv("TAUTLINE_AXE")
	if path == "" {
		t.Skip("TAUTLINE_AXE names no axe.min.js")
	}
	axe, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	address, file := atDesk(t, live.Options{})
	tab := browsertest.Open(t)
	audit := func(page string) {
		t.Helper()
		for width, scheme := range map[int64]string{1500: "light", 390: "dark"} {
			tab.View(width, scheme)
			time.Sleep(300 * time.Millisecond) // for what fades
			tab.Number(string(axe) + "; delete window.found; axe.run(document, {resultTypes: ['violations']}).then(r => window.found = r.violations.filter(v => ['serious', 'critical'].includes(v.impact)).map(v => v.id + ': ' + v.help + ': ' + v.nodes.slice(0, 3).map(n => n.html.slice(0, 120)).join(' | ')).join('\\n')), 1")
			tab.Until("the audit", `typeof window.found === "string"`)
			if found := tab.Text(`window.found`); found != "" {
				t.Errorf("%s, %s, %d px:\n%s", page, scheme, width, found)
			}
		}
	}
	tab.Go(address)
	tab.Until("the first page", `document.querySelector("tr.holds a") !== null`)
	audit("first page")
	tab.Go(address + "notebook/lagoon-bed")
	tab.Until("the givens", `document.getElementById("live:givens")?.children.length === 4`)
	audit("notebook")
	tab.Number(`document.querySelector("aside.whatif details").open = true, order("try", {name: "R", number: "2.8"}), 1`)
	tab.Until("the trial", barText+`.startsWith("What if R")`)
	audit("what if")
	edit(t, file, "Tube: r,", "Tube: pMax,")
	tab.Until("the error", `document.querySelector("div.trouble") !== null`)
	audit("error")
	tab.Go(writeReport(t))
	audit("report")
	bound := filepath.Join(t.TempDir(), "design-file.html")
	if code, _, stderr := command(t, "file", "../../notebooks/lagoon-bed.md", "../../notebooks/start-here.md", "-o", bound); code != 0 {
		t.Fatalf("file: code %d\n%s", code, stderr)
	}
	tab.Go("file://" + bound)
	audit("design file")
	moved := filepath.Join(t.TempDir(), "moved.html")
	if code, _, stderr := command(t, "compare", "../../notebooks/start-here.md", "../../notebooks/lagoon-bed.md", "--html", moved); code != 1 {
		t.Fatalf("compare: code %d\n%s", code, stderr)
	}
	tab.Go("file://" + moved)
	audit("comparison")
	folder := t.TempDir()
	saveSigned(t, filepath.Join(folder, "bed.md"))
	if code, _, stderr := command(t, "run", "--out", folder, filepath.Join(folder, "bed.md")); code != 0 {
		t.Fatalf("run: code %d\n%s", code, stderr)
	}
	tab.Go("file://" + filepath.Join(folder, "bed.html"))
	audit("signed report")
	saveSigned(t, file)
	tab.Go(address + "notebook/lagoon-bed")
	tab.Until("the signed page", `document.querySelector("p.signed") !== null`)
	audit("signed page")
}
