// Package render turns a run notebook into what people read: a self-contained
// HTML report that reads like an engineer's hand calculation.
//
//	rep := render.Assemble(plan, out, identity)   // what it says
//	err := render.HTML(w, rep)                    // how it looks
//
// A Report holds words, formatted quantities and MathML; it knows nothing of
// how they were computed. The same Report gives the same bytes.
// Package report is what a report says, as words, formatted quantities and MathML.
// It knows nothing of how they were computed, nor of the page that they stand on.
package report

import (
	"cmp"
	"html/template"
	"slices"
	"sync"

	"tautline/runner/document"
	"tautline/runner/outcome"
	"tautline/stdlib/quantity"
)

// A Report is everything that one report says, in the order it says it.
type Report struct {
	Title    document.TitleBlock
	File     string    // of the notebook, without its folder: the report is the same wherever it was run
	State    string    // such as "Draft, not signed"
	Standing *Standing // who signed it; nil when nobody did
	Verdict  Verdict
	Cautions []Caution
	Warnings []Warning // of them, what the library said of its results
	Checks   []*Check
	Givens   []*Given
	Images   map[string][]byte // PNG and JPEG files that the prose shows, by name
	Blocks   []document.Block  // the prose, with the cells at their places
	Cells    []*Cell           // by the index of the document's cell
	Study    *Study            // what moves the checks; nil when that was not asked
	Files    []*ShopFile       // for the shops
	Trials   []*Trial          // on the built ride
	Plate    []*PlateLine      // what the plate on the ride must say
	Sources  []Source
	Findings []document.Diagnostic // errors, faults and warnings
	Text     []byte                // of the notebook, for excerpts
	Identity Identity
}

// An Identity says what a report was computed with.
type Identity struct {
	Tool    string          // name and version of the program
	Library string          // digest of the library's declarations and code
	Go      string          // version of Go
	Digest  string          // SHA-256 of the notebook's text and data files
	Guards  []outcome.Guard // what kept the run apart from the rest of the machine
}

// On lists the guards that the run had.
func (id Identity) On() []outcome.Guard {
	return slices.DeleteFunc(slices.Clone(id.Guards), func(g outcome.Guard) bool { return g.Off != "" })
}

// Off lists those that this system did not give, each with the reason.
func (id Identity) Off() []outcome.Guard {
	return slices.DeleteFunc(slices.Clone(id.Guards), func(g outcome.Guard) bool { return g.Off == "" })
}

// A Verdict is the whole answer in one line.
type Verdict struct {
	Kind      VerdictKind
	Hold      int    // checks that hold
	Fail      int    // checks that fail
	Faults    int    // errors and faults
	Governing *Check // the highest utilisation, or the worst failure; nil without checks
	Trials    TrialCount
}

// VerdictKind is the kind of a verdict.
type VerdictKind int

// The verdicts.
const (
	AllHold  VerdictKind = iota // every check holds and no fault
	SomeFail                    // some check fails
	NotDone                     // the run ended early
	NotRun                      // errors were found before the run
	NoChecks                    // ran to the end, but nothing was checked
)

// A Check is one row of the table of checks.
type Check struct {
	ID          string // anchor
	What        string
	Rule        string // "at most", "at least", "within", "holds"
	Demand      Quantity
	Capacity    []Quantity // one, or low and high; none for "holds"
	Utilisation float64    // NaN when it has none
	Holds       bool
	Governing   bool
	Source      Citation
	Rests       []Reference // the givens and data that it rests on
	Line        int         // in the notebook
}

// A Reference leads to the line of a name.
type Reference struct {
	ID     string
	Name   string
	Symbol template.HTML
}

// A Given is a number that the designer chose.
type Given struct {
	ID        string // anchor of its line
	Name      string // in the notebook
	Symbol    template.HTML
	Value     template.HTML
	Low, High *Quantity // the range it may be chosen in, when stated
	Tolerance *Quantity // by how much it may differ as built, when stated
	Choice    *Choice   // the range as numbers, when stated
	InRange   bool
	Reason    string
	Line      int
}

// A Choice is a given's number and the range it may be chosen in, in one unit.
type Choice struct {
	Value, Low, High float64
	Unit             quantity.Unit
}

// A Caution is a warning about what can hurt someone.
type Caution struct {
	ID    string // anchor of its place; may be empty
	Place string // in words, such as "anchoring.BallastMass"
	Text  string
}

// A Warning is what a function of the library said of its result, at the first place.
type Warning struct {
	Name string // of the value
	Text string
	Line int // in the notebook
}

// A Citation is what a number or a limit rests on.
type Citation struct {
	By   string // the library function that cites it; empty for a check
	Text string // empty when there is none
	Ref  int    // its number in the list of sources; 0 when it is not there
}

// A Source is a published text that the calculation rests on.
type Source struct {
	Number int
	Text   string
	Used   []string // the functions and checks that rest on it
}

// A ShopFile is a file for a shop that the notebook makes.
type ShopFile struct {
	ID     string // anchor of its place
	Name   string
	Size   string
	Digest string // SHA-256 in hexadecimal
}

// A PlateLine is a line of the data plate.
type PlateLine struct {
	ID   string // anchor of its place
	What string
	Says string
	Line int // in the notebook
}

// A Cell is what stands in the report at the place of one cell.
type Cell struct {
	Line  int // in the notebook
	State string
	Parts []Part
}

// A Part is one of the closed set: *Line, *Code, *Comment, *CheckPart,
// *Fold, *TablePart, *FigurePart, *Remark, *ShopFilePart, *PlatePart, *TrialPart,
// *FaultPart.
type Part interface{ part() }

type (
	// Line is one calculation line: symbol = formula = numbers put in = result.
	Line struct {
		ID      string
		Symbol  template.HTML // MathML, each a whole math element
		Formula template.HTML // empty for a plain given
		Wide    bool          // a row of the formula or its numbers is too long for its column
		Row     int           // about how many letters wide that row is; 0 for text that breaks
		Name    int           // the same of the symbol
		Numbers template.HTML // empty when it would repeat the formula or the result
		Result  template.HTML
		Text    string // the result in plain letters
		Reason  string
		Source  Citation // of the library function that the line calls
		Caveat  string   // such as "not a number", "dimension unknown"
		Given   bool
		Line    int
	}
	// Fold is lines of which few readers ask for more than one or two: the
	// fields of a struct that has many.
	Fold struct {
		Name  string
		Lines []*Line
	}
	// Code is statements shown as they stand: loops, functions, long cells.
	Code struct {
		IDs  []string // anchors of the names that it sets
		Text string
		Line int
	}
	// Comment is a comment that stands alone in a cell.
	Comment struct{ Text string }
	// CheckPart is a check at its place.
	CheckPart struct{ *Check }
	// TablePart is a table of results.
	TablePart struct {
		ID      string
		Title   string
		Columns []Column
	}
	// FigurePart is a picture with its number and title.
	FigurePart struct {
		ID string
		Picture

		once  sync.Once
		drawn template.HTML
		err   error
	}
	// Remark is a note or a caution at its place.
	Remark struct {
		ID      string
		Caution bool
		Text    string
	}
	// ShopFilePart is where a shop file was made.
	ShopFilePart struct{ *ShopFile }
	// PlatePart is a line of the data plate at its place.
	PlatePart struct{ *PlateLine }
	// TrialPart is a trial at its place.
	TrialPart struct{ *Trial }
	// FaultPart is where the run ended or an error was found.
	FaultPart struct{ document.Diagnostic }
)

// A Picture is a figure, a drawing, a rose or a motion.
type Picture interface {
	// Name is the picture's title.
	Name() string
	// SVG draws the picture as inline SVG. id starts every id in it.
	SVG(id string) (template.HTML, error)
}

// Drawn is the part's picture, drawn when first asked for.
func (p *FigurePart) Drawn() (template.HTML, error) {
	p.once.Do(func() { p.drawn, p.err = p.SVG(p.ID) })
	return p.drawn, p.err
}

// A Column of a table: formatted cells under a head with one unit.
type Column struct {
	Head    string
	Unit    string
	Numeric bool
	Cells   []string
}

func (*Line) part()         {}
func (*Fold) part()         {}
func (*Code) part()         {}
func (*Comment) part()      {}
func (*CheckPart) part()    {}
func (*TablePart) part()    {}
func (*FigurePart) part()   {}
func (*Remark) part()       {}
func (*ShopFilePart) part() {}
func (*PlatePart) part()    {}
func (*TrialPart) part()    {}
func (*FaultPart) part()    {}

// LineID is the anchor of the line that sets a name.
func LineID(name string) string { return "line." + name }

// Label names the report shortly: its number, or its file.
func (r *Report) Label() string { return cmp.Or(r.Title.Number, r.File) }

// Name is the report's title, or its file's name when it has none.
func (r *Report) Name() string { return cmp.Or(r.Title.Title, r.File) }
