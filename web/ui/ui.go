// Package ui holds the components that more than one page shows.
//
// A component takes one finished view value: text formatted, verdicts decided. It loops and
// branches on what it is given and does no sums. The view values carry JSON names, because a page
// asked for as JSON is the same value written down.
//
// A component's markup and its rules in static/app.css belong together; a class that no component
// writes is one that the drawings write (".ln-…", ".dim…", ".far-…").
package ui

// Link is one step of the way to a page. The last step is the page itself and has no Href.
type Link struct {
	Text string `json:"text"`
	Href string `json:"href,omitempty"`
}

// Page is what the frame around every page shows.
type Page struct {
	Title  string `json:"title"`
	Crumbs []Link `json:"crumbs,omitempty"` // from the outermost to this page
	Saved  string `json:"saved,omitempty"`  // such as "millimetres · saved 14:02"
}

const benchWords = "Bench figures"

// offersBench reports whether the head leads to the bench figures: not where the way here began with them.
func (p Page) offersBench() bool { return len(p.Crumbs) == 0 || p.Crumbs[0].Text != benchWords }

// Notice is a message with its word, such as "Stale." in front of what happened and what can be done.
// Kind is one of saved, stale, problem, caution, or empty for plain news.
type Notice struct {
	Kind string `json:"kind,omitempty"`
	Word string `json:"word"`
	Say  string `json:"say"`
}

// class gives the class of a message, in which an unknown kind is plain news.
func (n Notice) class() string {
	switch n.Kind {
	case "saved", "stale", "problem", "caution":
		return "message message-" + n.Kind
	default:
		return "message"
	}
}
