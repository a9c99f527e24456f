// Package watch tells which files in some folders changed.
//
//	w, err := watch.Start(ctx, []watch.Root{{Folder: "notebooks", Deep: true}})
//	for c := range w.Changes {
//		… c.Path was written, made, renamed to or deleted …
//	}
//
// Events of the system come first: a save is told a few milliseconds after its
// last write. Beside them every folder is looked through once a second, so that
// nothing is missed where no events come, as on network folders. A folder whose
// changes come without events is looked through more often, and that is said.
//
// Invariants: a change may be told twice, and is never told before it can be
// read; the last change of a file is always told.
package watch

import (
	"context"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"time"

	"github.com/fsnotify/fsnotify"
)

const (
	settle    = time.Millisecond       // without a further event before a change is told
	atMost    = 50 * time.Millisecond  // that a file written without pause is held back
	glance    = time.Second            // between looks at a folder that sends events
	stare     = 200 * time.Millisecond // between looks at one that does not
	patience  = time.Second            // in which the event of a change seen may still come
	maxFiles  = 20_000                 // looked at; more is a folder that is not meant
	maxFolder = 2_000
)

// A Root is a folder to watch, with all folders below it when Deep. Those whose
// name begins with a dot are left out.
type Root struct {
	Folder string
	Deep   bool
	Later  bool // it need not be there yet; the folder that it will be made in is a root, too
}

// A Change is a file that changed, or a notice about how a folder is watched.
type Change struct {
	Path   string // "" in a notice
	Notice string
}

// A Watcher watches folders until its context ends.
type Watcher struct {
	Changes <-chan Change // closed at the end

	out     chan Change
	roots   []Root
	events  *fsnotify.Watcher // nil when the system gives none
	added   map[string]bool   // folders whose events come, as far as the system says
	refused map[string]bool   // folders that the system will not watch; told once
	silent  map[string]bool   // folders whose changes came without events
	stamps  map[string]stamp  // of the files as last seen
	due     map[string]burst  // changed, not yet told
	doubted map[string]time.Time
}

// stamp tells one state of a file from another.
type stamp struct {
	size     int64
	modified time.Time
}

// burst is a file that is being written.
type burst struct{ first, last time.Time }

// Start begins to watch. It fails when a folder is not there.
func Start(ctx context.Context, roots []Root) (*Watcher, error) {
	for _, r := range roots {
		info, err := os.Stat(r.Folder)
		if r.Later && errors.Is(err, fs.ErrNotExist) {
			continue
		}
		if err != nil {
			return nil, fmt.Errorf("watch %s: %w", r.Folder, errors.Unwrap(err))
		}
		if !info.IsDir() {
			return nil, fmt.Errorf("watch %s: got a file, want a folder", r.Folder)
		}
	}
	w := &Watcher{
		out: make(chan Change), roots: roots,
		added: map[string]bool{}, refused: map[string]bool{}, silent: map[string]bool{},
		stamps: map[string]stamp{}, due: map[string]burst{}, doubted: map[string]time.Time{},
	}
	w.Changes = w.out
	var notice string
	if w.events, notice = openEvents(); notice != "" {
		go func() { w.say(ctx, Change{Notice: notice}) }()
	}
	w.look(ctx, true)
	go w.run(ctx)
	return w, nil
}

// openEvents asks the system for events.
func openEvents() (*fsnotify.Watcher, string) {
	events, err := fsnotify.NewWatcher()
	if err != nil {
		return nil, fmt.Sprintf("the system gives no file events (%v): looking every %v instead", err, stare)
	}
	return events, ""
}

func (w *Watcher) run(ctx context.Context) {
	defer close(w.out)
	var events chan fsnotify.Event
	var errs chan error
	if w.events != nil {
		defer w.events.Close()
		events, errs = w.events.Events, w.events.Errors
	}
	tell := time.NewTimer(time.Hour)
	defer tell.Stop()
	next := time.NewTimer(w.interval())
	defer next.Stop()
	for {
		select {
		case <-ctx.Done():
			return
		case e, ok := <-events:
			if !ok {
				events = nil
				continue
			}
			w.heard(e)
			tell.Reset(settle)
		case _, ok := <-errs: // such as an overflow: look now
			if !ok {
				errs = nil
				continue
			}
			w.look(ctx, false)
			tell.Reset(settle)
		case <-tell.C:
			if w.tell(ctx) {
				tell.Reset(settle)
			}
		case <-next.C:
			w.look(ctx, false)
			w.doubt(ctx)
			if len(w.due) > 0 {
				tell.Reset(settle)
			}
			next.Reset(w.interval())
		}
	}
}

func (w *Watcher) interval() time.Duration {
	if w.events == nil || len(w.silent) > 0 || len(w.refused) > 0 {
		return stare
	}
	return glance
}

// heard takes an event of the system.
func (w *Watcher) heard(e fsnotify.Event) {
	if e.Op == fsnotify.Chmod {
		return
	}
	path := filepath.Clean(e.Name)
	if e.Has(fsnotify.Remove) || e.Has(fsnotify.Rename) {
		delete(w.added, path) // when it was a folder
	}
	delete(w.doubted, path)
	info, err := os.Stat(path)
	switch {
	case err == nil && info.IsDir():
		w.enter(path)
		return
	case err == nil:
		w.stamps[path] = stamp{info.Size(), info.ModTime()}
	default:
		delete(w.stamps, path)
	}
	w.touch(path)
}

// enter begins to watch a folder that was made below a deep root, or is a root itself.
func (w *Watcher) enter(folder string) {
	for _, r := range w.roots {
		rel, err := filepath.Rel(r.Folder, folder)
		if err == nil && (rel == "." || r.Deep && filepath.IsLocal(rel) && !hidden(rel)) {
			w.walk(Root{Folder: folder, Deep: r.Deep}, func(path string, s stamp) {
				w.stamps[path] = s
				w.touch(path)
			})
		}
	}
}

// hidden reports whether some folder of a path begins with a dot.
func hidden(rel string) bool {
	for part := range strings.SplitSeq(filepath.ToSlash(rel), "/") {
		if strings.HasPrefix(part, ".") && part != "." && part != ".." {
			return true
		}
	}
	return false
}

func (w *Watcher) touch(path string) {
	now := time.Now()
	b, ok := w.due[path]
	if !ok {
		b.first = now
	}
	b.last = now
	w.due[path] = b
}

// tell tells the changes that have settled and reports whether some have not.
func (w *Watcher) tell(ctx context.Context) bool {
	now := time.Now()
	for path, b := range w.due {
		if now.Sub(b.last) >= settle || now.Sub(b.first) >= atMost {
			delete(w.due, path)
			w.say(ctx, Change{Path: path})
		}
	}
	return len(w.due) > 0
}

func (w *Watcher) say(ctx context.Context, c Change) {
	select {
	case w.out <- c:
	case <-ctx.Done():
	}
}

// look goes through all folders for what no event told of. The first look only
// remembers.
func (w *Watcher) look(ctx context.Context, first bool) {
	seen := map[string]bool{}
	found := func(path string) {
		if first {
			return
		}
		w.touch(path)
		if folder := filepath.Dir(path); w.added[folder] && !w.silent[folder] {
			if _, ok := w.doubted[path]; !ok {
				w.doubted[path] = time.Now()
			}
		}
	}
	for _, r := range w.roots {
		w.walk(r, func(path string, s stamp) {
			seen[path] = true
			if old, ok := w.stamps[path]; !ok || old != s {
				w.stamps[path] = s
				found(path)
			}
		})
	}
	for path := range w.stamps {
		if !seen[path] {
			delete(w.stamps, path)
			found(path)
		}
	}
	for folder := range w.refused {
		w.say(ctx, Change{Notice: fmt.Sprintf("%s: the system will not send its events: looking every %v instead", folder, stare)})
		w.silent[folder] = true
		delete(w.refused, folder)
	}
}

// doubt takes a folder as silent when a change seen in it was told by no event.
func (w *Watcher) doubt(ctx context.Context) {
	for path, since := range w.doubted {
		if time.Since(since) < patience {
			continue
		}
		delete(w.doubted, path)
		if folder := filepath.Dir(path); !w.silent[folder] {
			w.silent[folder] = true
			w.say(ctx, Change{Notice: fmt.Sprintf("%s: its changes come without events, as on a network folder: looking every %v instead", folder, stare)})
		}
	}
}

// walk calls each with the files of a root, and asks for the events of folders
// that have none yet.
func (w *Watcher) walk(r Root, each func(path string, s stamp)) {
	files, folders := 0, 0
	var into func(folder string)
	into = func(folder string) {
		if folders++; folders > maxFolder {
			return
		}
		w.add(folder)
		entries, err := os.ReadDir(folder)
		if err != nil {
			delete(w.added, folder)
			return
		}
		for _, e := range entries {
			path := filepath.Join(folder, e.Name())
			if e.IsDir() {
				if r.Deep && !hidden(e.Name()) && e.Name() != "node_modules" {
					into(path)
				}
				continue
			}
			info, err := os.Stat(path) // follows links: an editor may keep one
			if err != nil || !info.Mode().IsRegular() {
				continue
			}
			if files++; files > maxFiles {
				return
			}
			each(path, stamp{info.Size(), info.ModTime()})
		}
	}
	into(filepath.Clean(r.Folder))
}

// add asks for the events of a folder.
func (w *Watcher) add(folder string) {
	if w.events == nil || w.added[folder] || w.silent[folder] {
		return
	}
	err := w.events.Add(folder)
	switch {
	case err == nil:
		w.added[folder] = true
	case !errors.Is(err, fs.ErrNotExist):
		w.refused[folder] = true
	}
}
