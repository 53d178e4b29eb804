// Package exchange reads and writes one machine as a file: JSON (RFC 8259) in UTF-8, for keeping, for
// sending to somebody with the same machine, and for the command line.
//
//	{
//	  "format": "fettle machine",
//	  "version": 1,
//	  "machine": {
//	    "name": "Lathe", "kind": "lathe", "units": "mm",
//	    "axes": [{
//	      "key": "cross", "label": "Cross slide", "arrangement": "held_screw",
//	      "entries": {"travel_found": {"typed": "88", "with": "caliper", "on": "2026-02-28"}},
//	      "parts": [
//	        {"key": "front_wall", "label": "front wall", "role": "wall", "side": "fixed",
//	         "entries": {"from": "118", "to": "141"}}
//	      ],
//	      "obstacles": [{"key": "tray", "label": "splash tray", "end": "plus", "gap": "20"}]
//	    }],
//	    "upgrades": [{
//	      "id": "1", "kind": "extend_travel", "axis": "cross", "state": "planned",
//	      "inputs": {"end": "plus", "amount": "12"}
//	    }]
//	  }
//	}
//
// A member marked ? may be left out, and then is empty. No other member is allowed, and none may stand
// twice. The same is said to programs by [Schema].
//
// # The file
//
//	format    always "fettle machine"
//	version   of this description: 1
//	machine   the machine
//
// # A machine
//
//	name       what its owner calls it; not empty
//	kind       "lathe", "mill", "drill", "shaper" or "other"
//	units      "mm" or "in": how figures are shown, and what a number without a unit is taken for
//	note?      anything
//	axes?      list of axes, in the order in which they are shown
//	upgrades?  list of upgrades, in the order in which they are made; drafts are among them
//	log?       list of the entries of its build log, the oldest first
//
// # An axis
//
//	key          a key: no other axis of the machine has it
//	label        what it is called: "Cross slide"
//	arrangement  what drives it, and what stays: one of the keys that package axis lists
//	capacity?    what follows from its travel: one of the keys that package axis lists
//	datum?       the face that positions are measured from, in words
//	plus?        its end in the positive direction, in words
//	minus?       its other end
//	entries?     the axis's own figures, each an entry by its key
//	answers?     to the arrangement's questions, each by its key: "yes", "no", or "" while not answered
//	parts?       list of parts
//	obstacles?   list of obstacles
//
// # A part
//
//	key        a key: no other part of the axis has it
//	label      what it is called: "front wall"
//	role       what it is there for: one of the keys that package axis lists
//	side       "fixed" or "moving"
//	tie?       {"part": its key, "face": "from" or "to"}: it follows that face of that part, at its gap
//	lanes?     list of names: parts that share one can meet; left out, it has those of its role; [] is none
//	material?  key of a material
//	entries?   its figures, each an entry by its key
//
// # An obstacle
//
//	key     a key: no other obstacle of the axis has it
//	label   what it is called: "splash tray"
//	end     "plus" or "minus": the end of the travel at which it may be met
//	gap?    an entry: what is left between at that end of the travel as found; left out, it is not measured
//	clear?  true where it has been ruled out
//
// # An upgrade
//
//	id      "1", "2", …: a whole number of at most nine digits, which no other upgrade has
//	kind    one of the keys that package upgrade lists
//	axis?   key of an axis in this file
//	state   "draft", "planned" or "finished"
//	on?     the day it was finished: "2026-02-28"
//	inputs? what was typed or chosen, by the name of the input
//	made?   sizes as measured on its finished parts, each an entry, by the key of the part and the name of
//	        the size joined by a dot: "bracket.length"
//
// # An entry of the log
//
//	key        1 to 64 of A-Z, a-z, 0-9, _ and -: no other entry of the log has it
//	at         the day and the time, on the workshop's clock: "2026-02-28T14:30"
//	text?      what was done, in Markdown
//	hours?     as typed: "1.5", "1:30", "45 min"
//	cost?      as typed: "12.50", "£7"
//	currency?  of a cost without one, as typed: "EUR"
//	axis?      key of an axis in this file
//	upgrade?   id of an upgrade in this file
//	part?      key of a part
//	photos?    list of photos, in the order in which they are shown
//
// # A photo
//
// The picture itself is not in the file: it is photos/3f/3f2a…, by its SHA-256, in the data folder.
//
//	sha256    of the original, 64 digits of 0-9 and a-f: no other photo of the entry has it
//	type      "image/jpeg", "image/png", "image/webp" or "image/heic"
//	width     in pixels, the right way up
//	height    in pixels
//	taken?    when, on the camera's clock: "2026-02-28T14:30:05"
//	place?    where, as latitude and longitude in degrees (WGS 84): "51.4779,-0.0015"; only if it was asked for
//	caption?  what is said of it
//	role?     "before" or "after", of one photo each in an entry
//
// # An entry
//
// A figure as a person gave it: "118", "12.5 mm", `1-1/4"`, "15 thou". It is a text, or where more is
// known than what was typed, an object:
//
//	typed?   the figure as typed; left out or "", it is not given
//	spread?  how far off it can be, as typed; left out, as the instrument usually is
//	with?    key of the instrument
//	on?      the day it was taken, as typed
//	origin?  "measured", "as made", "assumed", "chosen" or "unknown"; left out, it is measured
//	note?    anything; of an assumption, its source
//
// # Keys
//
// A key is a word of a-z, 0-9 and _ that does not begin with a digit, and that is none of Go's 25
// keywords (if, range, type, …), since formulas are Go expressions. The keys of entries, answers and sizes as made may be
// several such words joined by dots.
//
// Whether a figure can be read, and whether an arrangement, a role or a kind is known, is not told here:
// what was typed is kept as it was, and packages axis, upgrade and machine say what is wrong with it.
package exchange
