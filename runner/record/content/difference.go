package content

import (
	"cmp"
	"fmt"
	"maps"
	"math"
	"slices"
	"strings"

	"tautline/runner/library"
)

// A Difference says in what two contents of one notebook differ, and why.
type Difference struct {
	Exact     bool             // both were computed by the same program on the same platform: not a bit may differ
	Lines     []Line           // of the notebook that differ, the first ones
	Files     []string         // beside the notebook that differ, each with how
	Functions []FunctionChange // of the library that can give other results
	Tools     []string         // what else computed, each with how
	Moves     []Move           // what came out otherwise
	Close     int              // numbers that differ by less than the tolerance, and are no moves
}

// Moved reports whether anything came out otherwise.
func (d *Difference) Moved() bool { return len(d.Moves) > 0 }

// A Line is a line of the notebook that differs.
type Line struct {
	Number   int    `json:"number"` // in the new text
	Was, Now string // "" where there was none
}

// A FunctionChange is a function of the library whose code is another.
type FunctionChange struct {
	Name string   `json:"name"`
	Gone bool     `json:"gone,omitempty"` // it is no more
	Told []string `json:"told,omitempty"` // what the library's list of changes says of it
}

// A Move is a value, a check or something shown that came out otherwise.
type Move struct {
	Kind      MoveKind `json:"kind"`
	What      string   `json:"what"` // path of the value, text of the check, title of what is shown
	Line      int      `json:"line"` // in the new notebook, or in the old for what is gone
	Was       string   `json:"was,omitempty"`
	Now       string   `json:"now,omitempty"` // numbers as in a Value
	Dimension string   `json:"dimension,omitempty"`
	Alias     string   `json:"alias,omitempty"`
	Crossed   bool     `json:"crossed,omitempty"` // a check that holds now and did not, or the reverse
	Why       string   `json:"why,omitempty"`
}

// MoveKind says what moved.
type MoveKind string

// The kinds of moves.
const (
	MovedValue MoveKind = "value"
	MovedCheck MoveKind = "check"
	MovedShown MoveKind = "shown"
	NewThing   MoveKind = "new"
	GoneThing  MoveKind = "gone"
)

const (
	// tolerance is by how much of itself a number may differ that another version
	// or platform computed: rounding in another order changes the last digits, and
	// an iteration then stops elsewhere within its own tolerance. Common practice,
	// no source. A report shows four to six digits.
	tolerance = 1e-9
	// nothing is by how much a number may differ as a share of the largest one of
	// its dimension: what is left of a sum that comes to zero.
	nothing = 1e-12
)

// Compare says in what a later content differs from an earlier one.
func Compare(was, now *Content) *Difference {
	c := comparer{was: was, now: now, d: &Difference{}, scale: map[string]float64{}, moved: map[string]bool{}}
	a, b := &was.Tool, &now.Tool
	c.d.Exact = a.Program == b.Program && a.Go == b.Go && a.Platform == b.Platform && a.Library == b.Library
	c.d.Lines = DifferentLines(was.Notebook.Text, now.Notebook.Text)
	c.files()
	told := library.Changes()
	c.d.Functions = functionChanges(a, func(name string) (string, bool) { d, ok := b.Functions[name]; return d, ok }, told[:min(b.Changes, len(told))], len(c.d.Lines) > 0)
	for _, t := range [][3]string{{"program", a.Program, b.Program}, {"Go", a.Go, b.Go}, {"platform", a.Platform, b.Platform}, {"library", a.Library, b.Library}} {
		if t[1] != t[2] {
			c.d.Tools = append(c.d.Tools, fmt.Sprintf("%s: %s, was %s", t[0], t[2], t[1]))
		}
	}
	c.names()
	c.checks()
	c.trials()
	c.shown()
	return c.d
}

type comparer struct {
	was, now *Content
	d        *Difference
	scale    map[string]float64 // largest number by dimension
	moved    map[string]bool    // names
}

// DifferentLines lists the first lines that differ.
func DifferentLines(was, now string) []Line {
	if was == now {
		return nil
	}
	a, b := strings.Split(was, "\n"), strings.Split(now, "\n")
	for len(a) > 0 && len(b) > 0 && a[len(a)-1] == b[len(b)-1] {
		a, b = a[:len(a)-1], b[:len(b)-1]
	}
	var lines []Line
	for i := 0; i < max(len(a), len(b)) && len(lines) < 3; i++ {
		at := func(l []string) string {
			if i < len(l) {
				return l[i]
			}
			return ""
		}
		if at(a) != at(b) || i >= min(len(a), len(b)) {
			lines = append(lines, Line{i + 1, at(a), at(b)})
		}
	}
	if len(lines) == 0 {
		lines = append(lines, Line{Number: 1})
	}
	return lines
}

func (c *comparer) files() {
	now := map[string]string{}
	for _, f := range c.now.Files {
		now[f.Name] = f.Digest
	}
	for _, f := range c.was.Files {
		digest, ok := now[f.Name]
		delete(now, f.Name)
		switch {
		case !ok:
			c.d.Files = append(c.d.Files, f.Name+" is read no more")
		case digest != f.Digest:
			c.d.Files = append(c.d.Files, f.Name+" was changed")
		}
	}
	for _, name := range slices.Sorted(maps.Keys(now)) {
		c.d.Files = append(c.d.Files, name+" is new")
	}
}

// Since lists the functions that a content used and that can give other results in
// the library of this program.
func Since(c *Content) []FunctionChange {
	return functionChanges(&c.Tool, library.FunctionDigest, library.Changes(), false)
}

// functionChanges lists the functions of a tool whose digest is another now, with
// what the list of changes says that came after. With another notebook a function
// that is not used any more tells nothing.
func functionChanges(was *Tool, now func(string) (string, bool), list []library.Change, other bool) []FunctionChange {
	var found []FunctionChange
	for _, name := range slices.Sorted(maps.Keys(was.Functions)) {
		digest, ok := now(name)
		if digest == was.Functions[name] || !ok && other {
			continue
		}
		f := FunctionChange{Name: name, Gone: !ok}
		for _, l := range list {
			if l.Number > was.Changes && slices.Contains(l.Functions, name) {
				f.Told = append(f.Told, strings.TrimSuffix(l.What, "."))
			}
		}
		found = append(found, f)
	}
	return found
}

// Say says what became of a function.
func (f *FunctionChange) Say() string {
	switch {
	case f.Gone:
		return f.Name + " is no more"
	case len(f.Told) > 0:
		return f.Name + " gives other results: " + strings.Join(f.Told, "; ")
	}
	return f.Name + " or what it rests on was changed; the list of changes names no other results"
}

func (c *comparer) names() {
	for _, content := range []*Content{c.was, c.now} {
		for _, n := range content.Names {
			for _, v := range n.Values {
				for _, f := range v.numbers() {
					if size := math.Abs(f); size <= math.MaxFloat64 {
						c.scale[v.Dimension] = max(c.scale[v.Dimension], size)
					}
				}
			}
		}
	}
	was := map[string]*Name{}
	for i := range c.was.Names {
		was[c.was.Names[i].Name] = &c.was.Names[i]
	}
	for i := range c.now.Names {
		n := &c.now.Names[i]
		old := was[n.Name]
		delete(was, n.Name)
		if old == nil {
			c.move(Move{Kind: NewThing, What: n.Name, Line: n.Line, Now: n.brief(), Why: "the notebook was changed"})
			continue
		}
		if moves := c.values(old, n); len(moves) > 0 {
			c.moved[n.Name] = true
			why := c.why(old, n)
			for _, m := range moves {
				m.Why = why
				c.move(m)
			}
		}
	}
	for _, name := range slices.Sorted(maps.Keys(was)) {
		c.move(Move{Kind: GoneThing, What: name, Line: was[name].Line, Was: was[name].brief(), Why: "the notebook was changed"})
	}
}

func (c *comparer) move(m Move) { c.d.Moves = append(c.d.Moves, m) }

// brief is the value of a name that holds only one.
func (n *Name) brief() string {
	if len(n.Values) == 1 {
		return n.Values[0].Number
	}
	return ""
}

// numbers are those of a value.
func (v *Value) numbers() []float64 {
	var out []float64
	for _, text := range append(strings.Fields(v.List), v.Number) {
		if f, ok := parse(text); ok && text != "" {
			out = append(out, f)
		}
	}
	return out
}

// values compares what a name holds with what it held.
func (c *comparer) values(was, now *Name) []Move {
	old := map[string]Value{}
	for _, v := range was.Values {
		old[v.Path] = v
	}
	var moves []Move
	for _, v := range now.Values {
		o, ok := old[v.Path]
		delete(old, v.Path)
		m := Move{Kind: MovedValue, What: v.Path, Line: now.Line, Was: o.Number, Now: v.Number, Dimension: v.Dimension, Alias: v.Alias}
		switch {
		case !ok:
			m.Kind = NewThing
			moves = append(moves, m)
		case o.Dimension != v.Dimension:
			m.What += " (dimension " + v.Dimension + ", was " + o.Dimension + ")"
			moves = append(moves, m)
		case o.List != v.List && !c.sameList(&o, &v, &m), o.Left != v.Left:
			moves = append(moves, m)
		case o.Text != v.Text:
			m.Was, m.Now = o.Text, v.Text
			moves = append(moves, m)
		case !c.same(o.Number, v.Number, v.Dimension):
			moves = append(moves, m)
		}
	}
	for _, v := range was.Values {
		if _, left := old[v.Path]; left {
			moves = append(moves, Move{Kind: GoneThing, What: v.Path, Line: now.Line, Was: v.Number, Dimension: v.Dimension, Alias: v.Alias})
		}
	}
	return moves
}

// sameList compares lists of numbers. It puts the first element that moved into m.
func (c *comparer) sameList(o, v *Value, m *Move) bool {
	a, b := strings.Fields(o.List), strings.Fields(v.List)
	if len(a) != len(b) {
		m.What = fmt.Sprintf("%s (%d elements, were %d)", v.Path, len(b), len(a))
		return false
	}
	moved, row, column := 0, 0, 0
	for i := range a {
		if !c.same(a[i], b[i], v.Dimension) {
			if moved++; moved == 1 {
				m.What, m.Was, m.Now = element(v, row, column), a[i], b[i]
			}
		}
		if column++; b[i] == between {
			row, column = row+1, 0
		}
	}
	if moved > 1 {
		m.What += fmt.Sprintf(" and %d more", moved-1)
	}
	return moved == 0
}

// element is the path of one element of a list.
func element(v *Value, row, column int) string {
	indices := []int{column}
	if strings.Contains(v.List, between) {
		indices = []int{row, column}
	}
	path := v.Path
	for _, i := range indices {
		if head, tail, ok := strings.Cut(path, "[]"); ok {
			path = fmt.Sprintf("%s[%d]%s", head, i, tail)
		} else {
			path += fmt.Sprintf("[%d]", i)
		}
	}
	return path
}

// same compares two numbers: to the bit, or within the tolerance.
func (c *comparer) same(was, now, dimension string) bool {
	if was == now {
		return true
	}
	a, ok1 := parse(was)
	b, ok2 := parse(now)
	if c.d.Exact || !ok1 || !ok2 {
		return false
	}
	if diff := math.Abs(a - b); diff <= tolerance*max(math.Abs(a), math.Abs(b)) || diff <= nothing*c.scale[dimension] {
		c.d.Close++
		return true
	}
	return false
}

// why says why a name moved: what it reads moved, or the first cause that there is
// in the notebook, its data, the library and the program.
func (c *comparer) why(was, now *Name) string {
	var from []string
	for _, u := range now.Uses {
		if c.moved[u] {
			from = append(from, u)
		}
	}
	var causes []string
	if len(from) > 0 {
		causes = append(causes, "it rests on "+strings.Join(from, ", "))
	}
	for i := range c.d.Functions {
		if f := &c.d.Functions[i]; slices.Contains(was.Calls, f.Name) {
			causes = append(causes, f.Say())
		}
	}
	if len(causes) > 0 {
		return strings.Join(causes, "; ")
	}
	reads := slices.ContainsFunc(now.Calls, func(f string) bool { return f == "sheet.ReadData" || strings.HasPrefix(f, "sheet.Data.") })
	switch {
	case len(c.d.Files) > 0 && (reads || len(c.d.Lines) == 0):
		return "data: " + strings.Join(c.d.Files, ", ")
	case len(c.d.Lines) > 0:
		return "the notebook was changed"
	case len(c.d.Tools) > 0:
		return strings.Join(c.d.Tools, "; ")
	}
	return "nothing that is known of: the same program gave another number"
}

func (c *comparer) checks() {
	was := map[string][]Check{}
	for _, k := range c.was.Checks {
		was[k.What] = append(was[k.What], k)
	}
	for _, k := range c.now.Checks {
		if len(was[k.What]) == 0 {
			c.move(Move{Kind: NewThing, What: "check: " + k.What, Line: k.Line})
			continue
		}
		o := was[k.What][0]
		was[k.What] = was[k.What][1:]
		m := Move{Kind: MovedCheck, What: k.What, Line: k.Line, Was: o.Say(), Now: k.Say(), Crossed: o.Holds != k.Holds}
		if m.Crossed || o.Rule != k.Rule || o.Source != k.Source || !c.same(o.Demand, k.Demand, k.Dimension) ||
			!c.same(o.Low, k.Low, k.Dimension) || !c.same(o.High, k.High, k.Dimension) || !c.same(o.Utilisation, k.Utilisation, "1") {
			c.move(m)
		}
	}
	for _, k := range c.was.Checks {
		if len(was[k.What]) > 0 {
			was[k.What] = was[k.What][1:]
			c.move(Move{Kind: GoneThing, What: "check: " + k.What, Line: k.Line})
		}
	}
}

// trials compares what was predicted of the built ride, and what was measured.
func (c *comparer) trials() {
	was := map[string]Trial{}
	for _, t := range c.was.Trials {
		was[t.What] = t
	}
	for _, t := range c.now.Trials {
		o, ok := was[t.What]
		delete(was, t.What)
		what := "trial: " + t.What
		switch {
		case !ok:
			c.move(Move{Kind: NewThing, What: what, Line: t.Line})
		case o.Reading != t.Reading || o.Outside != t.Outside:
			c.move(Move{Kind: MovedShown, What: what, Line: t.Line, Was: cmp.Or(o.Reading, "not measured"), Now: cmp.Or(t.Reading, "not measured"), Crossed: o.Outside != t.Outside})
		case !c.same(o.Predicted, t.Predicted, "") || !c.same(o.Tolerance, t.Tolerance, ""):
			c.move(Move{Kind: MovedShown, What: what, Line: t.Line, Why: "it is predicted otherwise"})
		}
	}
	for _, t := range c.was.Trials {
		if _, left := was[t.What]; left {
			c.move(Move{Kind: GoneThing, What: "trial: " + t.What, Line: t.Line})
		}
	}
}

// Say says a check in words: "holds, 79 %, 1.901 kPa at least 1.5 kPa".
func (k *Check) Say() string {
	text := "fails"
	if k.Holds {
		text = "holds"
	}
	if u, ok := parse(k.Utilisation); ok {
		text += fmt.Sprintf(", %.4g %%", 100*u)
	}
	if k.Demand != "" {
		text += ", " + Say(k.Demand, k.Dimension, k.Alias) + " " + k.Rule
		if k.Low != "" {
			text += " " + Say(k.Low, k.Dimension, k.Alias)
		}
		if k.Low != "" && k.High != "" {
			text += " to"
		}
		if k.High != "" {
			text += " " + Say(k.High, k.Dimension, k.Alias)
		}
	}
	return text
}

// shown compares what is kept by its digest. Where numbers may differ a little,
// so may what is drawn of them: it counts when something else moved.
func (c *comparer) shown() {
	was := map[string][]Shown{}
	for _, s := range c.was.Shown {
		was[s.Kind+": "+s.Title] = append(was[s.Kind+": "+s.Title], s)
	}
	for _, s := range c.now.Shown {
		key := s.Kind + ": " + s.Title
		if len(was[key]) == 0 {
			c.move(Move{Kind: NewThing, What: key, Line: s.Line})
			continue
		}
		old := was[key][0]
		was[key] = was[key][1:]
		if old.Digest == s.Digest {
			continue
		}
		if c.d.Exact || c.d.Moved() || len(c.d.Lines) > 0 || len(c.d.Files) > 0 || s.Kind == "shop file" {
			c.move(Move{Kind: MovedShown, What: key, Line: s.Line})
		} else {
			c.d.Close++
		}
	}
	for _, s := range c.was.Shown {
		if key := s.Kind + ": " + s.Title; len(was[key]) > 0 {
			was[key] = was[key][1:]
			c.move(Move{Kind: GoneThing, What: key, Line: s.Line})
		}
	}
}

// Say says a move in one line.
func (m *Move) Say() string {
	text := m.What
	switch m.Kind {
	case NewThing:
		text += " is new"
	case GoneThing:
		text += " is gone"
	case MovedShown:
		if text += " looks otherwise"; m.Was != "" || m.Now != "" {
			text = m.What + ": " + m.Now + "; was: " + m.Was
		}
	case MovedCheck:
		text += ": " + m.Now + "; was: " + m.Was
		if m.Crossed {
			text = "CROSSED: " + text
		}
	case MovedValue:
		if m.Now != "" || m.Was != "" {
			text += ": " + Say(m.Now, m.Dimension, m.Alias) + ", was " + Say(m.Was, m.Dimension, m.Alias) + share(m.Was, m.Now)
		}
	}
	if m.Why != "" {
		text += " (" + m.Why + ")"
	}
	return text
}

// Share says by how much of itself a number moved, such as "+2.5 %"; empty where
// that says nothing.
func (m *Move) Share() string {
	if m.Kind != MovedValue {
		return ""
	}
	return strings.TrimPrefix(share(m.Was, m.Now), ", ")
}

// share says by how much of itself a number moved.
func share(was, now string) string {
	a, ok1 := parse(was)
	b, ok2 := parse(now)
	if !ok1 || !ok2 || a == 0 || math.IsInf(a, 0) || math.IsNaN(a) || math.IsInf(b, 0) || math.IsNaN(b) {
		return ""
	}
	return fmt.Sprintf(", %+.3g %%", 100*(b-a)/math.Abs(a))
}
