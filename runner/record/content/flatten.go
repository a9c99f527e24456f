package content

import (
	"go/types"
	"slices"
	"strconv"
	"strings"

	"tautline/runner/check"
	"tautline/runner/check/dimension"
	"tautline/stdlib/sheet"
)

// A flattener lists the numbers, texts and truths that a name holds.
type flattener struct {
	plan *check.Plan
	name *Name
}

func (w *flattener) add(v Value) { w.name.Values = append(w.name.Values, v) }

// value lists what v holds under a path. own reports that the notebook itself says
// what kind of quantity it is, so that an unknown dimension is the notebook's.
func (w *flattener) value(path string, v sheet.Value, t types.Type, m dimension.Measure, own bool) {
	switch v.Kind {
	case sheet.KindNumber:
		out := measured(path, t, m, own)
		out.Number = exact(float64(v.Number))
		w.add(out)
	case sheet.KindText:
		w.add(Value{Path: path, Text: strconv.Quote(v.Text)})
	case sheet.KindTruth:
		w.add(Value{Path: path, Text: strconv.FormatBool(v.Truth)})
	case sheet.KindOther:
		w.add(Value{Path: path, Text: v.Text})
	case sheet.KindStruct:
		w.fields(path, v, t, own)
	case sheet.KindList:
		w.list(path, v, t, m, own)
	}
}

// measured is a value with the dimension of a measure.
func measured(path string, t types.Type, m dimension.Measure, own bool) Value {
	out := Value{Path: path, Dimension: Unknown}
	switch {
	case m.Known:
		out.Dimension, out.Alias = m.Dimension.String(), m.Alias
	case isInteger(t):
		out.Dimension = "1" // a count
	case !own:
		out.Dimension = "" // inside what the library made
	}
	return out
}

func isInteger(t types.Type) bool {
	if t == nil {
		return false
	}
	b, ok := t.Underlying().(*types.Basic)
	return ok && b.Info()&types.IsInteger != 0
}

// fields lists the fields of a struct. Those that the library keeps to itself are
// left out: what they do shows in results.
func (w *flattener) fields(path string, v sheet.Value, t types.Type, own bool) {
	st, ok := structOf(t)
	if !ok {
		return
	}
	mine := own && isNotebooks(t)
	for i := range min(st.NumFields(), len(v.Items)) {
		f := st.Field(i)
		if f.Name() == "_" {
			continue
		}
		w.value(path+"."+f.Name(), v.Items[i], f.Type(), w.plan.ObjectMeasure(f), mine)
	}
}

// isNotebooks reports whether a type is declared in the notebook, or has no name.
func isNotebooks(t types.Type) bool {
	named, ok := types.Unalias(t).(*types.Named)
	return !ok || named.Obj().Pkg() != nil && named.Obj().Pkg().Path() == "main"
}

func structOf(t types.Type) (*types.Struct, bool) {
	if t == nil {
		return nil, false
	}
	if ptr, ok := t.Underlying().(*types.Pointer); ok {
		t = ptr.Elem()
	}
	st, ok := t.Underlying().(*types.Struct)
	return st, ok
}

// list lists a list: numbers in one value, anything else element by element.
func (w *flattener) list(path string, v sheet.Value, t types.Type, m dimension.Measure, own bool) {
	left := v.Len - len(v.Items)
	if t != nil {
		if of, ok := t.Underlying().(*types.Map); ok {
			for _, pair := range v.Items {
				if len(pair.Items) == 2 {
					w.value(path+"["+pair.Items[0].String()+"]", pair.Items[1], of.Elem(), m, false)
				}
			}
			if left > 0 {
				w.add(Value{Path: path, Left: left})
			}
			return
		}
	}
	elem := elemOf(t)
	if len(v.Items) > 0 && !slices.ContainsFunc(v.Items, func(i sheet.Value) bool { return i.Kind != sheet.KindNumber }) {
		out := measured(path, elem, m, own)
		numbers := make([]string, len(v.Items))
		for i, item := range v.Items {
			numbers[i] = exact(float64(item.Number))
		}
		out.List, out.Left = strings.Join(numbers, " "), left
		w.add(out)
		return
	}
	columns, alike := w.columns(path, v.Items, elem, m, own)
	w.name.Values = append(w.name.Values, columns...)
	for i, item := range v.Items[alike:] {
		w.value(path+"["+strconv.Itoa(alike+i)+"]", item, elem, m, own)
	}
	if left > 0 || len(v.Items) == 0 {
		w.add(Value{Path: path, Text: "list", Left: left})
	}
}

// between stands between what the elements of a list hold, where each holds a list.
const between = ";"

// columns lists the elements of a list that hold the same kinds of things as the
// first, one value for each kind: "pieces[].Width" has the widths of all. It
// returns how many elements those are.
func (w *flattener) columns(path string, items []sheet.Value, elem types.Type, m dimension.Measure, own bool) (columns []Value, alike int) {
	parts := make([][]string, 0) // by column, what each element holds
	for _, item := range items {
		one := flattener{plan: w.plan, name: &Name{}}
		one.value(path+"[]", item, elem, m, own)
		values := one.name.Values
		if alike == 0 {
			columns, parts = slices.Clone(values), make([][]string, len(values))
		}
		if !sameColumns(columns, values) {
			break
		}
		for i, v := range values {
			parts[i] = append(parts[i], v.Number+v.Text+v.List)
		}
		alike++
	}
	if alike < 2 {
		return nil, 0
	}
	for i := range columns {
		c := &columns[i]
		switch {
		case c.Text != "":
			c.Text = strings.Join(parts[i], " ")
		case c.List != "":
			c.List = strings.Join(parts[i], " "+between+" ")
		default:
			c.Number, c.List = "", strings.Join(parts[i], " ")
		}
	}
	return columns, alike
}

// sameColumns reports whether an element holds what others hold, so that they can
// stand in columns.
func sameColumns(columns, values []Value) bool {
	return len(values) > 0 && slices.EqualFunc(columns, values, func(a, b Value) bool {
		return a.Path == b.Path && a.Dimension == b.Dimension && a.Alias == b.Alias && a.Left == 0 && b.Left == 0 &&
			(a.Number != "") == (b.Number != "") && (a.Text != "") == (b.Text != "") && (a.List != "") == (b.List != "") &&
			!strings.Contains(a.List+b.List, between)
	})
}

func elemOf(t types.Type) types.Type {
	if t == nil {
		return nil
	}
	switch u := t.Underlying().(type) {
	case *types.Slice:
		return u.Elem()
	case *types.Array:
		return u.Elem()
	case *types.Pointer:
		return elemOf(u.Elem())
	}
	return nil
}
