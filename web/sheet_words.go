package web

// sheetWord is a word of the measuring sheet, explained.
type sheetWord struct{ Word, Says string }

// sheetGlossary explains what is not said at the bench every day.
var sheetGlossary = []sheetWord{
	{"Datum face", "the one face, of a part that stays, from which every position is measured."},
	{"Start, end", "the two faces of a part along the axis. The start is the smaller figure, so the one nearer to the inner end, or the more negative."},
	{"Stays, moves", "whether a part keeps its place when the axis is wound."},
	{"Meets", "two parts, one that stays and one that moves, come together, and the travel ends there."},
	{"Ways", "what the slide runs on, from where it is supported to where it is not."},
	{"Wall, web, base", "metal of a casting that ends the travel: a wall is met by the nut, a web by the screw’s tip, a base by the bracket."},
	{"Bracket", "what holds the screw at its handle’s end; also called boss."},
	{"Dial", "the ring with the divisions, behind the handle."},
	{"Gib", "the strip that takes up the slide’s play."},
	{"Follows", "a part stands against another, at a gap, and goes with it when that one grows."},
	{"Lanes", "which parts are in line to meet: those that share a lane can, others pass each other. Each sort of part has its usual ones."},
	{"Collar", "a ring on the quill that ends its way."},
	{"In the way", "anything beside the parts that may be met: a guard, a tray, a stop rod."},
}
