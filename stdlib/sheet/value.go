package sheet

import (
	"encoding/json"
	"fmt"
	"math"
	"reflect"
	"sort"
	"strconv"
	"strings"
)

// A Float is a float64 that JSON can hold even when it is not finite. Not for
// cells.
type Float float64

// MarshalJSON writes the shortest text that reads back as the same float64;
// NaN and infinities as strings. Not for cells.
func (f Float) MarshalJSON() ([]byte, error) {
	text := strconv.FormatFloat(float64(f), 'g', -1, 64)
	if v := float64(f); math.IsNaN(v) || math.IsInf(v, 0) {
		text = strconv.Quote(text)
	}
	return []byte(text), nil
}

// IsZero reports whether f is 0 and may be left out of JSON; -0 may not. Not
// for cells.
func (f Float) IsZero() bool { return math.Float64bits(float64(f)) == 0 }

// UnmarshalJSON reads what MarshalJSON wrote. Not for cells.
func (f *Float) UnmarshalJSON(b []byte) error {
	v, err := strconv.ParseFloat(strings.Trim(string(b), `"`), 64)
	*f = Float(v)
	return err
}

// Kind is the kind of a Value. Not for cells.
type Kind string

// The kinds of values.
const (
	KindNumber Kind = "number" // a float or an integer
	KindText   Kind = "text"
	KindTruth  Kind = "truth"
	KindList   Kind = "list"
	KindStruct Kind = "struct"
	KindOther  Kind = "other" // a func, a nil pointer, a thing with no plain form
)

// A Value is a captured Go value as plain data. Not for cells.
type Value struct {
	Kind   Kind
	Number Float   `json:",omitzero"`
	Text   string  `json:",omitempty"` // KindText and KindOther
	Truth  bool    `json:",omitempty"`
	Items  []Value `json:",omitempty"` // elements of a list, fields of a struct in order; a map is a list of {key, value}
	Len    int     `json:",omitempty"` // of a list; Items may hold only the first of them
}

const (
	maxDepth = 8
	maxItems = 10_000 // of one captured value, all depths together
)

// Capture copies v as plain data. Pointers are followed; depth and size are
// bounded. Not for cells.
func Capture(v reflect.Value) Value {
	budget := maxItems
	return capture(v, maxDepth, &budget)
}

func capture(v reflect.Value, depth int, budget *int) Value {
	if !v.IsValid() || depth == 0 {
		return Value{Kind: KindOther, Text: "…"}
	}
	switch v.Kind() {
	case reflect.Float64, reflect.Float32:
		return Value{Kind: KindNumber, Number: Float(v.Float())}
	case reflect.Int, reflect.Int8, reflect.Int16, reflect.Int32, reflect.Int64:
		return Value{Kind: KindNumber, Number: Float(v.Int())}
	case reflect.Uint, reflect.Uint8, reflect.Uint16, reflect.Uint32, reflect.Uint64:
		return Value{Kind: KindNumber, Number: Float(v.Uint())}
	case reflect.String:
		return Value{Kind: KindText, Text: strings.ToValidUTF8(v.String(), "\uFFFD")} // so that JSON keeps it
	case reflect.Bool:
		return Value{Kind: KindTruth, Truth: v.Bool()}
	case reflect.Pointer, reflect.Interface:
		if v.IsNil() {
			return Value{Kind: KindOther, Text: "nil"}
		}
		if v.CanInterface() {
			if err, ok := v.Interface().(error); ok {
				return Value{Kind: KindText, Text: err.Error()}
			}
		}
		return capture(v.Elem(), depth-1, budget)
	case reflect.Slice, reflect.Array:
		out := Value{Kind: KindList, Len: v.Len()}
		for i := 0; i < v.Len() && *budget > 0; i++ {
			*budget--
			out.Items = append(out.Items, capture(v.Index(i), depth-1, budget))
		}
		return out
	case reflect.Struct:
		if v.Type().PkgPath() == reflect.TypeFor[Sheet]().PkgPath() { // it stands in an entry
			return Value{Kind: KindOther, Text: strings.ToLower(v.Type().Name())}
		}
		out := Value{Kind: KindStruct}
		for i := range v.NumField() {
			out.Items = append(out.Items, capture(v.Field(i), depth-1, budget))
		}
		return out
	case reflect.Map:
		return captureMap(v, depth, budget)
	}
	return Value{Kind: KindOther, Text: v.Kind().String()}
}

// captureMap lists a map's pairs in the order of their keys' text.
func captureMap(v reflect.Value, depth int, budget *int) Value {
	out := Value{Kind: KindList, Len: v.Len()}
	keys := v.MapKeys()
	sort.Slice(keys, func(i, j int) bool {
		a, b := keys[i], keys[j]
		if a.CanFloat() {
			return a.Float() < b.Float()
		}
		if a.CanInt() {
			return a.Int() < b.Int()
		}
		return fmt.Sprint(a) < fmt.Sprint(b)
	})
	for _, k := range keys {
		if *budget <= 0 {
			break
		}
		*budget--
		out.Items = append(out.Items, Value{Kind: KindStruct, Items: []Value{
			capture(k, depth-1, budget), capture(v.MapIndex(k), depth-1, budget)}})
	}
	return out
}

// String is the value in a form where every float64 can be read back bit for
// bit: numbers shortest, lists in brackets, structs in braces. Not for cells.
func (v Value) String() string {
	switch v.Kind {
	case KindNumber:
		return strconv.FormatFloat(float64(v.Number), 'g', -1, 64)
	case KindText:
		return strconv.Quote(v.Text)
	case KindTruth:
		return strconv.FormatBool(v.Truth)
	case KindList, KindStruct:
		open, end := "[", "]"
		if v.Kind == KindStruct {
			open, end = "{", "}"
		}
		parts := make([]string, len(v.Items))
		for i, item := range v.Items {
			parts[i] = item.String()
		}
		return open + strings.Join(parts, " ") + end
	}
	return v.Text
}

// A Result is a named value of an exported program. Not for cells.
type Result struct {
	Name  string
	Value any
}

// Print writes results, one `name = value` line each. An exported program calls
// it after each cell, with what the cell set. Not for cells.
func Print(results ...Result) {
	for _, r := range results {
		fmt.Println(r.Name, "=", Capture(reflect.ValueOf(r.Value)))
	}
}

// PrintEntries writes every entry put on the program's own sheet as one line of
// JSON. An exported program ends with it. Not for cells.
func PrintEntries() {
	for _, e := range own.Entries {
		line, err := json.Marshal(e)
		if err != nil {
			panic(err)
		}
		fmt.Println(string(line))
	}
}
