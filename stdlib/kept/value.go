package kept

import (
	"encoding/binary"
	"math"
	"reflect"
)

// appendValue appends v to b: its numbers by their bits, lists with their length.
// It reports false for what cannot be read back: functions, interfaces, maps,
// pointers, hidden fields.
func appendValue(b []byte, v reflect.Value) ([]byte, bool) {
	word := func(u uint64) []byte { return binary.LittleEndian.AppendUint64(b, u) }
	switch v.Kind() {
	case reflect.Bool:
		if v.Bool() {
			return append(b, 1), true
		}
		return append(b, 0), true
	case reflect.Int, reflect.Int8, reflect.Int16, reflect.Int32, reflect.Int64:
		return word(uint64(v.Int())), true
	case reflect.Uint, reflect.Uint8, reflect.Uint16, reflect.Uint32, reflect.Uint64:
		return word(v.Uint()), true
	case reflect.Float64:
		return word(math.Float64bits(v.Float())), true
	case reflect.String:
		return append(word(uint64(v.Len())), v.String()...), true
	case reflect.Slice:
		if v.IsNil() {
			return word(none), true
		}
		return appendItems(word(uint64(v.Len())), v)
	case reflect.Array:
		return appendItems(b, v)
	case reflect.Struct:
		ok := true
		for i := 0; i < v.NumField() && ok; i++ {
			if ok = v.Type().Field(i).IsExported(); ok {
				b, ok = appendValue(b, v.Field(i))
			}
		}
		return b, ok
	}
	return b, false
}

// none is the length of a list that is nil.
const none = math.MaxUint64

func appendItems(b []byte, v reflect.Value) ([]byte, bool) {
	ok := true
	for i := 0; i < v.Len() && ok; i++ {
		b, ok = appendValue(b, v.Index(i))
	}
	return b, ok
}

// readValue reads from b into v what appendValue wrote of one of its type, and
// returns what follows. It reports false when b is no such text.
func readValue(b []byte, v reflect.Value) ([]byte, bool) {
	word := func() (uint64, bool) {
		if len(b) < 8 {
			return 0, false
		}
		u := binary.LittleEndian.Uint64(b)
		b = b[8:]
		return u, true
	}
	switch v.Kind() {
	case reflect.Bool:
		if len(b) == 0 {
			return b, false
		}
		v.SetBool(b[0] != 0)
		return b[1:], true
	case reflect.Int, reflect.Int8, reflect.Int16, reflect.Int32, reflect.Int64:
		u, ok := word()
		v.SetInt(int64(u))
		return b, ok
	case reflect.Uint, reflect.Uint8, reflect.Uint16, reflect.Uint32, reflect.Uint64:
		u, ok := word()
		v.SetUint(u)
		return b, ok
	case reflect.Float64:
		u, ok := word()
		v.SetFloat(math.Float64frombits(u))
		return b, ok
	case reflect.String:
		n, ok := word()
		if !ok || n > uint64(len(b)) {
			return b, false
		}
		v.SetString(string(b[:n]))
		return b[n:], true
	case reflect.Slice:
		n, ok := word()
		if !ok || n == none {
			return b, ok
		}
		if n > uint64(len(b)) && v.Type().Elem().Size() > 0 {
			return b, false
		}
		v.Set(reflect.MakeSlice(v.Type(), int(n), int(n)))
		return readItems(b, v)
	case reflect.Array:
		return readItems(b, v)
	case reflect.Struct:
		ok := true
		for i := 0; i < v.NumField() && ok; i++ {
			b, ok = readValue(b, v.Field(i))
		}
		return b, ok
	}
	return b, false
}

func readItems(b []byte, v reflect.Value) ([]byte, bool) {
	ok := true
	for i := 0; i < v.Len() && ok; i++ {
		b, ok = readValue(b, v.Index(i))
	}
	return b, ok
}
