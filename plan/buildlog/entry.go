// Package buildlog is the record of the work on a machine: what was done on which day, the hours and the
// money that it took, and photos of it.
//
//	e := buildlog.Entry{Key: "Zk3…", At: "2026-03-01T14:30", Text: "Bored the bracket.", Hours: "1:30", Cost: "12.50", Currency: "EUR"}
//	spent, err := buildlog.ParseHours(e.Hours) // 1 h 30 min
//	var sum buildlog.Totals
//	sum.Add(e, 1)
//
// Everything is kept as it was typed; figures are read when they are summed.
package buildlog

// TimeLayout is how [Entry.At] is written: a day and a time on the workshop's clock, without a zone.
const TimeLayout = "2006-01-02T15:04"

// TakenLayout is how [Photo.Taken] is written: on the camera's clock, which knows no zone.
const TakenLayout = "2006-01-02T15:04:05"

// Entry is one entry of the log. Only Key and At have to be there.
type Entry struct {
	// Key is given by whoever writes the entry, before it is sent for the first time: 1 to 64 of A-Z, a-z,
	// 0-9, _ and -. It is the entry's name in its machine; an entry sent twice under one key is one entry.
	Key string
	At  string // when it was, in [TimeLayout]

	Text     string // Markdown
	Hours    string // as typed, see [ParseHours]; "" is not said
	Cost     string // as typed, see order.ParsePrice; "" is not said
	Currency string // as typed, of a cost without one; "" is not said

	Axis    string // key of the axis; "" is none
	Upgrade string // ID of the upgrade; "" is none
	Part    string // key of a part of the axis, or of one that the upgrade makes; "" is none

	Photos []Photo // in the order in which they are shown; none twice
}

// Photo is a photo of an entry. Caption and Role belong to the entry, all else to the photo itself.
type Photo struct {
	SHA256  string // of the original, 64 hexadecimal digits in lower case
	Caption string
	Role    Role // at most one of an entry's photos is the one before, and one the one after

	Type          string // of the original: "image/jpeg", "image/png", "image/webp" or "image/heic"
	Width, Height int    // of the original in pixels, the right way up
	Taken         string // when, in [TakenLayout]; "" is not said
	// Place is where it was taken, as latitude and longitude in degrees (WGS 84): "51.4779,-0.0015"; "" is
	// not said. It is shown to the owner only, and is in no file that leaves the machine unasked.
	Place string
}

// Role is what a photo is in a comparison.
type Role string

// A photo can be of the machine as it was, or as it has become.
const (
	Before Role = "before"
	After  Role = "after"
)
