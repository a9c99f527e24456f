package live

import (
	"bytes"
	"context"
	"fmt"
	"os"
	"path/filepath"
	"runtime"
	"slices"
	"strings"
	"sync"
	"time"

	"tautline/runner/engine"
	"tautline/runner/watch"
)

// A Desk watches and runs notebooks.
type Desk struct {
	ctx     context.Context
	options Options
	slots   chan struct{} // as many runs at a time as processors
	changed signal        // some notebook has another state
	bench   bench

	mu      sync.Mutex
	books   []*book // by file
	deep    []string
	notices []string
}

// Open finds the notebooks, runs them and begins to watch. The desk ends with
// ctx.
func Open(ctx context.Context, o Options) (*Desk, error) {
	if o.Log == nil {
		o.Log = func(string) {}
	}
	d := &Desk{ctx: ctx, options: o, slots: make(chan struct{}, runtime.GOMAXPROCS(0)),
		bench: bench{limits: o.Limits, spare: make(chan *engine.Held, 1)}}
	roots, files, err := d.find(o.Paths)
	if err != nil {
		return nil, err
	}
	w, err := watch.Start(ctx, roots)
	if err != nil {
		return nil, err
	}
	d.bench.refill()
	context.AfterFunc(ctx, d.bench.close)
	for _, f := range files {
		d.add(f)
	}
	go d.follow(w)
	return d, nil
}

// find lists the folders to watch and the notebooks in them.
func (d *Desk) find(paths []string) (roots []watch.Root, files []string, err error) {
	for _, path := range paths {
		path = filepath.Clean(path)
		info, err := os.Stat(path)
		switch {
		case err != nil:
			return nil, nil, fmt.Errorf("%s: there is no such file or folder", path)
		case info.IsDir():
			roots = append(roots, watch.Root{Folder: path, Deep: true})
			d.deep = append(d.deep, path)
			found, err := notebooksIn(path)
			if err != nil {
				return nil, nil, err
			}
			files = append(files, found...)
		default:
			roots = append(roots, watch.Root{Folder: filepath.Dir(path)})
			if d.options.Beside != nil && d.options.Beside(path) != "" {
				roots = append(roots, watch.Root{Folder: d.options.Beside(path), Deep: true, Later: true})
			}
			files = append(files, path)
		}
	}
	slices.Sort(files)
	return roots, slices.Compact(files), nil
}

// notebooksIn lists the notebooks in a folder and below it.
func notebooksIn(folder string) ([]string, error) {
	var files []string
	err := filepath.WalkDir(folder, func(path string, e os.DirEntry, err error) error {
		switch {
		case err != nil && path == folder:
			return err
		case err != nil:
			return nil // a folder below that may not be read
		case e.IsDir() && path != folder && (strings.HasPrefix(e.Name(), ".") || e.Name() == "node_modules"):
			return filepath.SkipDir
		case !e.IsDir() && isNotebook(path):
			files = append(files, path)
		}
		return nil
	})
	return files, err
}

// isNotebook reports whether a file is Markdown that begins with a title block.
func isNotebook(path string) bool {
	if filepath.Ext(path) != ".md" {
		return false
	}
	info, err := os.Stat(path)
	if err != nil || !info.Mode().IsRegular() {
		return false
	}
	f, err := os.Open(path)
	if err != nil {
		return false
	}
	defer f.Close()
	head := make([]byte, 6)
	n, _ := f.Read(head)
	return bytes.HasPrefix(bytes.TrimPrefix(head[:n], []byte("\ufeff")), []byte("---"))
}

// add puts a notebook on the desk and runs it.
func (d *Desk) add(file string) *book {
	d.mu.Lock()
	defer d.mu.Unlock()
	b := &book{desk: d, file: file, slug: d.freeSlug(file), touched: make(chan struct{}, 1), sessions: map[string]*session{}}
	b.state.Store(&state{view: &view{}})
	d.books = append(d.books, b)
	slices.SortFunc(d.books, func(a, b *book) int { return strings.Compare(a.file, b.file) })
	go b.work(d.ctx)
	b.touch(true)
	return b
}

// freeSlug names a notebook in the address of its page.
func (d *Desk) freeSlug(file string) string {
	name := strings.TrimSuffix(filepath.Base(file), filepath.Ext(file))
	name = strings.Map(func(r rune) rune {
		if r == '-' || r == '_' || r >= '0' && r <= '9' || r >= 'a' && r <= 'z' || r >= 'A' && r <= 'Z' {
			return r
		}
		return '-'
	}, name)
	slug := name
	for n := 2; slices.ContainsFunc(d.books, func(b *book) bool { return b.slug == slug }); n++ {
		slug = fmt.Sprintf("%s-%d", name, n)
	}
	return slug
}

// all lists the notebooks by file.
func (d *Desk) all() []*book {
	d.mu.Lock()
	defer d.mu.Unlock()
	return slices.Clone(d.books)
}

// book returns the notebook with a slug; nil when there is none.
func (d *Desk) book(slug string) *book {
	for _, b := range d.all() {
		if b.slug == slug {
			return b
		}
	}
	return nil
}

// follow runs what changed.
func (d *Desk) follow(w *watch.Watcher) {
	for c := range w.Changes {
		if c.Notice != "" {
			d.notice(c.Notice)
			continue
		}
		known := false
		for _, b := range d.all() {
			switch {
			case b.file == c.Path:
				known = true
				b.touch(false)
			case filepath.Dir(b.file) == filepath.Dir(c.Path) && b.reads(filepath.Base(c.Path)):
				b.touch(true)
			case d.options.Shows != nil && d.options.Shows(b.file, c.Path):
				b.touch(true)
			}
		}
		if !known && d.isBelowRoot(c.Path) && isNotebook(c.Path) {
			d.add(c.Path)
		}
	}
}

// longRun is how long a run has a processor for itself.
const longRun = time.Second

// slot waits until a run may have a processor. done gives it back, and so does
// time: a run that never ends must not keep the others waiting.
func (d *Desk) slot() (done func()) {
	d.slots <- struct{}{}
	var once sync.Once
	free := func() { once.Do(func() { <-d.slots }) }
	timer := time.AfterFunc(longRun, free)
	return func() {
		timer.Stop()
		free()
	}
}

func (d *Desk) isBelowRoot(path string) bool {
	return slices.ContainsFunc(d.deep, func(root string) bool {
		rel, err := filepath.Rel(root, path)
		return err == nil && filepath.IsLocal(rel)
	})
}

// notice keeps what the people at the desk should know about it.
func (d *Desk) notice(text string) {
	d.mu.Lock()
	if !slices.Contains(d.notices, text) {
		d.notices = append(d.notices, text)
	}
	d.mu.Unlock()
	d.options.Log(text)
	d.changed.fire()
}

func (d *Desk) allNotices() []string {
	d.mu.Lock()
	defer d.mu.Unlock()
	return slices.Clone(d.notices)
}
