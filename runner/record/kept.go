package record

import (
	"os"
	"sync"
	"time"
)

// Kept keeps the records that it opened for as long as their files look the same,
// for a page that is shown again and again. Verify does not use it: a file can be
// changed without looking so. The zero value is ready; it is safe for use by many
// goroutines at once.
type Kept struct {
	mu   sync.Mutex
	seen map[string]kept
}

type kept struct {
	size   int64
	at     time.Time
	signed *Signed
}

// Open is the function Open, but for a file that was opened before and looks the
// same.
func (k *Kept) Open(path string) (*Signed, error) {
	info, err := os.Stat(path)
	if err != nil {
		return Open(path)
	}
	k.mu.Lock()
	old, ok := k.seen[path]
	k.mu.Unlock()
	if ok && old.size == info.Size() && old.at.Equal(info.ModTime()) {
		return old.signed, nil
	}
	s, err := Open(path)
	if err != nil {
		return nil, err
	}
	k.mu.Lock()
	defer k.mu.Unlock()
	if k.seen == nil {
		k.seen = map[string]kept{}
	}
	k.seen[path] = kept{info.Size(), info.ModTime(), s}
	return s, nil
}
