package web

import "sync"

// writers remembers which window wrote an upgrade last.
//
// While somebody types, a newer request cancels the older one, whose reply with the new revision then
// never arrives; the newer one still names the revision before. That is no conflict: what lies between
// was written by the same window. The memory is lost with the program, and then the worst is that a
// window is asked to save its own words again.
type writers struct {
	mu   sync.Mutex
	last map[string]writer // by the path of the upgrade
}

type writer struct {
	window   string
	turn     int64 // the highest so far
	from, to int64 // the revisions that it wrote without another between
}

// save calls write with the revision that what was typed builds on, one caller at a time. A request
// that a later one of the same window has overtaken writes nothing.
func (w *writers) save(path string, typed planForm, write func(revision int64) (int64, error)) (int64, error) {
	w.mu.Lock()
	defer w.mu.Unlock()
	last, base := w.last[path], typed.revision
	own := typed.window != "" && typed.window == last.window && last.from <= base && base <= last.to
	now := writer{window: typed.window, turn: typed.turn, from: base}
	if own {
		if typed.turn != 0 && typed.turn < last.turn {
			return 0, conflict("A later change from this page was saved already.")
		}
		base, now.from = last.to, last.from
	}
	revision, err := write(base)
	if err != nil {
		return 0, err
	}
	now.to = revision
	if w.last == nil {
		w.last = map[string]writer{}
	}
	w.last[path] = now
	return revision, nil
}
