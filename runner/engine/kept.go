package engine

import (
	"slices"
	"sync"
)

// Kept holds the results of heavy calculations of one notebook, so that a worker
// that is started for another of its texts need not work them again. They are
// never shared between notebooks: what a hostile one put there is its own. The
// zero value holds none.
type Kept struct {
	results []keptResult // the one used last at the end
	size    int
}

// maxKept bounds the bytes that are kept, maxKeptOne those of one result.
const (
	maxKept    = 16 << 20
	maxKeptOne = 4 << 20
)

// note takes what a worker says about a result.
func (k *Kept) note(r keptResult) {
	if k == nil || len(r.Result) > maxKeptOne {
		return
	}
	if i := slices.IndexFunc(k.results, func(old keptResult) bool { return old.Digest == r.Digest }); i >= 0 {
		if r.Result == nil {
			r.Result = k.results[i].Result
		}
		k.size -= len(k.results[i].Result)
		k.results = slices.Delete(k.results, i, i+1)
	}
	if r.Result == nil {
		return
	}
	k.results = append(k.results, r)
	for k.size += len(r.Result); k.size > maxKept; k.results = slices.Delete(k.results, 0, 1) {
		k.size -= len(k.results[0].Result)
	}
}

// all lists what is kept.
func (k *Kept) all() []keptResult {
	if k == nil {
		return nil
	}
	return k.results
}

// A shelf is where a worker keeps results. It tells the runner of each.
type shelf struct {
	worker  *worker
	mu      sync.Mutex
	results map[[32]byte][]byte
}

func newShelf(w *worker, kept []keptResult) *shelf {
	s := &shelf{worker: w, results: map[[32]byte][]byte{}}
	for _, k := range kept {
		s.results[k.Digest] = k.Result
	}
	return s
}

// Get is kept.Store's.
func (s *shelf) Get(digest [32]byte) ([]byte, bool) {
	s.mu.Lock()
	defer s.mu.Unlock()
	b, ok := s.results[digest]
	if ok {
		s.worker.send(event{Kept: &keptResult{Digest: digest}})
	}
	return b, ok
}

// Put is kept.Store's.
func (s *shelf) Put(digest [32]byte, result []byte) {
	if len(result) > maxKeptOne {
		return
	}
	s.mu.Lock()
	defer s.mu.Unlock()
	s.results[digest] = result
	s.worker.send(event{Kept: &keptResult{digest, result}})
}
