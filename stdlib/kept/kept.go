// Package kept keeps the results of heavy calculations, so that the same one with
// the same arguments need not be worked again.
//
//	func (r Roll) Lay(p Pattern) (Lay, error) {
//		return kept.Result("nest.Roll.Lay", arguments{r, p}, lay)
//	}
//
// Nothing is kept until a program says where, with Use; the library by itself
// always computes.
//
// Cells do not see the package.
//
// Invariant: a kept result is, bit for bit, what computing gives, and shares
// nothing with the arguments, kept or not. So a result or an argument of a type
// that cannot be written and read back in full is not kept, nor is an error.
package kept

import (
	"crypto/sha256"
	"reflect"
	"sync/atomic"
)

// A Store keeps results by the digest of what they were computed from.
type Store interface {
	Get(digest [32]byte) ([]byte, bool)
	Put(digest [32]byte, result []byte)
}

var store atomic.Pointer[Store]

// Use has results kept in s from now on.
func Use(s Store) { store.Store(&s) }

// Result is compute(args), or what that gave before. The name is that of the
// calculation; args is all that it depends on, and compute changes nothing of it.
func Result[A, R any](name string, args A, compute func(A) (R, error)) (R, error) {
	var digest [32]byte
	keep := false
	s := store.Load()
	if s != nil {
		var key []byte
		if key, keep = appendValue(append([]byte(name), 0), reflect.ValueOf(&args).Elem()); keep {
			digest = sha256.Sum256(key)
			if b, ok := (*s).Get(digest); ok {
				if result, ok := read[R](b); ok {
					return result, nil
				}
			}
		}
	}
	result, err := compute(args)
	if err != nil {
		return result, err
	}
	b, ok := appendValue(nil, reflect.ValueOf(&result).Elem())
	if !ok {
		return result, nil
	}
	if keep {
		(*s).Put(digest, b)
	}
	if own, ok := read[R](b); ok {
		return own, nil
	}
	return result, nil
}

// read reads the whole of b.
func read[R any](b []byte) (result R, ok bool) {
	rest, ok := readValue(b, reflect.ValueOf(&result).Elem())
	return result, ok && len(rest) == 0
}
